"""Revisions of one show: read from whatever holds them, compared, and only what changed printed again."""

import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from paperwork import limits
from paperwork.archive import Edition, attach_inputs, find_unfit, is_archive, is_book, make_public, pick_inputs
from paperwork.archive.bundle import list_files
from paperwork.archive.inputs import read_about
from paperwork.archive.sums import ABOUT
from paperwork.archive.verify import read_best
from paperwork.changes import (
    Change,
    Entry,
    PaperPrint,
    Reprint,
    compare_papers,
    diff_shows,
    list_changes,
    list_label_changes,
)
from paperwork.files.refusal import Refused
from paperwork.files.sniff import Load, load_file
from paperwork.files.sweep import lies_below
from paperwork.finding import Finding, find
from paperwork.frozen import frozen
from paperwork.intake.answers import SUFFIX, name_answers
from paperwork.intake.private import carry
from paperwork.model import Show
from paperwork.output import OutputError, add_files
from paperwork.pipeline import LabelChoice, Papers, list_prints, make_papers
from paperwork.place import Place
from paperwork.plan.walls import Walls, put_on_walls, walls_of
from paperwork.reading import Reading, blank_doubted, read_show
from paperwork.sheets.frame import name_revision
from paperwork.text.names import fold, make_file_name

if TYPE_CHECKING:
    from paperwork.document import Sheet
    from paperwork.render.pdf.press import Press
    from paperwork.sheets import Paper


@frozen
class Side:
    """One of the two: its show, what was found in it, and what it is called where it has no revision.

    `recorded` is what an archive says that it printed; without it, what a build of the show prints now.
    """

    show: Show
    findings: tuple[Finding, ...]
    name: str
    recorded: tuple[PaperPrint, ...] = ()

    @property
    def prints(self) -> tuple[PaperPrint, ...]:
        """The pages and labels as they were printed: for its own venue, with its own doubts, language and paper."""
        return self.recorded or list_prints((self.show, self.findings))[0]

    @property
    def certain(self) -> Show:
        """The show as papers may say it: without the frequencies that are doubted."""
        return blank_doubted(self.show, self.findings)

    @property
    def revision(self) -> str:
        """The revision as it is printed, or the name of the file."""
        return self.show.production.revision or self.name

    def label(self, language: str) -> str:
        """The revision with the venue that it was printed for, where that is not the home venue."""
        return name_revision(self.show, self.revision, language)


@frozen
class Comparison:
    """What lies between two revisions: changes for programs, lines for people, and what becomes of the papers."""

    old: Side
    new: Side
    changes: tuple[Change, ...]
    entries: tuple[Entry, ...]
    reprint: Reprint

    @property
    def is_move(self) -> bool:
        """Whether the two are for different venues: then no paper replaces one of the other side."""
        return fold(self.old.show.at_venue) != fold(self.new.show.at_venue)


def compare_revisions(old: Side, new: Side, language: str = "", press: "Press | None" = None) -> Comparison:
    """The comparison of two revisions, its lines in a language; by default that of the new show. A `press` that then
    prints what changed finds the new papers laid out."""
    language = language or new.show.production.language
    before, after = old.certain, new.certain
    changes = diff_shows(before, after)
    sides = (new,) if old.recorded else (new, old)
    now, *then = list_prints(*((side.show, side.findings) for side in sides), press=press)
    reprint = compare_papers(old.recorded or then[0], now)
    entries = (*list_changes(before, after, changes, language), *list_label_changes(reprint, language))
    return Comparison(old, new, changes, entries, reprint)


def make_since(
    compared: Comparison,
    *,
    only: frozenset[str] = frozenset(),
    folders: frozenset[str] = frozenset(),
    labels: LabelChoice | None = None,
    made: str = "",
    press: "Press | None" = None,
) -> Papers:
    """The change list, and only the pages and labels that changed, changed rows with a bar and a sign.

    `only` and `folders` narrow what is printed beside the list; the list is always whole.
    """
    changed = (
        paper
        for paper in changed_papers(compared)
        if (not only or paper.name in only) and (not folders or paper.folder in folders)
    )
    kinds = (_change_list(compared), *changed)
    show, findings, reprint = compared.new.show, compared.new.findings, compared.reprint
    labels = labels or LabelChoice()
    return make_papers(show, findings, labels=labels, made=made, kinds=kinds, reprint=reprint, press=press)


def make_change_list(compared: Comparison, *, made: str = "") -> Papers:
    """The change list alone."""
    return make_papers(compared.new.show, compared.new.findings, made=made, kinds=(_change_list(compared),))


def _change_list(compared: Comparison) -> "Paper":
    from paperwork.sheets import Paper, change_sheet

    language = compared.new.show.production.language
    walls = Walls({**walls_of(compared.old.show).initials, **walls_of(compared.new.show).initials})
    before, after = (put_on_walls(side.certain, walls) for side in (compared.old, compared.new))
    entries = list_changes(before, after, diff_shows(before, after), language)
    labels = (entry for entry in compared.entries if entry.section == "labels")
    about = walls.hide(
        change_sheet.Revisions(compared.old.label(language), (*entries, *labels), compared.reprint, compared.is_move)
    )
    return Paper(
        "production", change_sheet.NAME, lambda show: change_sheet.make_sheets(show, about), "another revision"
    )


def changed_papers(compared: Comparison) -> "Sequence[Paper]":
    """The papers of which at least one sheet must be printed again, cut down to such sheets."""
    from paperwork.sheets import SHEETS, Paper
    from paperwork.sheets.change_sheet import mark_changed

    before, after = put_on_walls(compared.old.certain), put_on_walls(compared.new.certain)
    language = compared.new.show.production.language
    wanted = {*compared.reprint.pages, *compared.reprint.labels}

    def cut(paper: Paper) -> Paper:
        def make(show: Show) -> "tuple[Sheet, ...]":
            former = {sheet.name: sheet for sheet in paper.make(before)}
            kept = (sheet for sheet in paper.make(show) if sheet.name in wanted)
            return tuple(mark_changed(sheet, former.get(sheet.name), language) for sheet in kept)

        return replace(paper, make=make)

    return tuple(cut(paper) for paper in SHEETS if wanted & {sheet.name for sheet in paper.make(after)})


def read_any(path: Path, name: str, *, venue: str = "", on: str = "") -> Reading:
    """The show in a show file, an archive or a show book, and all findings, without the frequencies that would be clean.

    `venue` is for a show file: what an archive or a book holds counts as it was printed, for its own venue. `on` stages it
    for a performance: its papers are those of the show file then, since an archive has those of the whole run.

    What an archive or a book holds is put into a folder of its own for as long as it is read, since a show names files
    beside it.
    """
    try:
        data = load_file(path, name, most=limits.ARCHIVE_BYTES)
        if is_show_file(data):
            return read_show(path, name, venue=venue, on=on, advised=False)
        inputs = pick_inputs(data, name)
    except Refused as refused:
        return Reading(None, (refused.finding,), readable=False)
    with TemporaryDirectory() as folder:
        try:
            add_files(Path(folder), inputs.files)
        except OutputError as error:
            unsafe = find("archive-unsafe", Place(name), name=name, reason=error.text)
            return Reading(None, (unsafe,), readable=False)
        reading = read_show(
            Path(folder) / inputs.show, f"{name}/{inputs.show}", venue=inputs.venue, on=on, advised=False
        )
    return reading if on else replace(reading, recorded=inputs.prints)


def is_show_file(data: bytes) -> bool:
    """Whether the bytes are a show file or a list, and no archive or show book, which have a venue of their own."""
    return not is_archive(data) and not is_book(data)


def name_kept(path: Path) -> str:
    """The name under which an archive keeps a show file: its own, or one that all disks take."""
    return make_file_name(path.name.lstrip(".") or "show", limits.PATH_LENGTH - len(SUFFIX))


def gather_inputs(path: Path, name: str, show: Show, load: Load = load_file) -> dict[str, bytes]:
    """The files that a show was read from, the show file first, by their paths below its folder.

    A show file whose name some disks refuse is kept under one that all take; of a list that holds data about people
    the show that is read of it goes along in its place. Raises Refused for a file that cannot be read, that lies
    outside of the folder, or that could not be put back under the name that the show gives it.
    """
    kept = name_kept(path)
    sources = {kept: path}
    files = {kept: load(path, name)}
    answers = path.with_name(name_answers(path.name))
    if os.path.exists(answers):
        sources[name_answers(kept)] = answers
        files[name_answers(kept)] = load(answers, answers.name)
    files = carry(files)
    for sweep in show.spectrum.sweeps:
        inside, source = str(PurePosixPath(sweep.replace("\\", "/"))), path.parent / sweep
        place = show.spectrum.where["sweeps"]
        if not lies_below(sweep):
            raise Refused(find("archive-input-outside", place, file=sweep))
        if reason := find_unfit(inside, (other for other, held in sources.items() if held != source)):
            raise Refused(find("archive-input-name", place, file=sweep, reason=reason))
        sources[inside] = source
        files[inside] = load(source, sweep, most=limits.SWEEP_BYTES)
    return files


def make_edition(
    show: Show,
    findings: tuple[Finding, ...],
    inputs: Mapping[str, bytes],
    *,
    public: bool = False,
    history: tuple[Mapping[str, str], ...] = (),
    made: str,
) -> Edition:
    """All that goes into an archive of a show; without names and inputs where it is public."""
    removed: tuple[str, ...] = ()
    if public:
        show, secrets = make_public(show)
        findings, removed = secrets.hide_findings(findings), secrets.removed
        history = tuple({**one, "reason": secrets.hide(one["reason"])} for one in history)
    papers = make_papers(show, findings, made=made, attached=attach_inputs(inputs, show.at_venue), pictured=False)
    findings = secrets.hide_findings(papers.findings) if public else papers.findings
    printed = (papers.files, papers.printed, papers.missing)
    return Edition(show, findings, *printed, inputs, show.at_venue, public, removed, history, made)


def read_carried(files: Mapping[str, bytes], show: str, *, venue: str) -> Reading:
    """The show in files that are at hand, in a folder of their own for as long as it is read."""
    with TemporaryDirectory() as folder:
        add_files(Path(folder), files)
        return read_show(Path(folder) / show, show, venue=venue)


def rebuild_archive(data: bytes, name: str) -> tuple[Finding, ...]:
    """What the show file in an archive does not give again: its facts, tables and papers are made anew, and held
    against those that are in it. Raises Refused for an archive without its inputs."""
    inputs, about = pick_inputs(data, name), read_about(data, name)
    held = {part.name: part.data for part in read_best(data, name).parts}
    reading = read_carried(inputs.files, inputs.show, venue=inputs.venue)
    if reading.show is None:
        return reading.findings
    edition = make_edition(reading.show, reading.findings, inputs.files, made=str(about.get("dated", "")))
    files = list_files(edition)
    made = {path: content for path, content in files.items() if path.startswith(_REBUILT)}
    kept = {path: content for path, content in held.items() if path.startswith(_REBUILT)}
    other = sorted(path for path in made.keys() | kept.keys() if made.get(path) != kept.get(path))
    versions = _compare_versions(about.get("versions"), json.loads(files[ABOUT])["versions"])
    if other and versions:
        return (find("archive-rebuilt-elsewhere", Place(name), count=len(other), of=len(kept), versions=versions),)
    return tuple(find("archive-rebuilt", Place(f"{name}/{path}"), file=path) for path in other)


_REBUILT = ("facts.json", "tables/", "papers/")
"""What of an archive follows from its inputs alone; the rest is about the revision, or of earlier ones."""


def _compare_versions(then: object, now: Mapping[str, str]) -> str:
    """What an archive was made with and what is here, where they differ: `reportlab 4.4.1, here 4.4.3`."""
    stated = then if isinstance(then, dict) else {}
    differ = (name for name in {**now, **stated} if str(stated.get(name, "")) != now.get(name, stated.get(name)))
    return "; ".join(f"{name} {stated.get(name, 'not named')}, here {now.get(name, 'none')}" for name in differ)
