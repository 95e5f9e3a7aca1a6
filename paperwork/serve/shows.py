"""A show that is open on the page, and what can be done with it."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork import limits
from paperwork.archive import Inputs, is_archive, is_book, pick_inputs
from paperwork.files.decode import decode_text
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file, sniff
from paperwork.files.sweep import Level, StatedUnit, lies_below, parse_sweep, read_sweep
from paperwork.finding import Finding, find
from paperwork.intake import Source, read_source_bytes
from paperwork.intake.answers import name_answers, read_answers, read_answers_bytes, write_answers
from paperwork.intake.questions import Question
from paperwork.intake.session import name_answer, take_answer
from paperwork.overlay import read_rows
from paperwork.pipeline import LabelChoice, Papers, make_papers, make_tonight
from paperwork.place import Place
from paperwork.plan.covers import Tonight, plan_tonight, stage_all
from paperwork.reading import Reading, judge_source
from paperwork.text.names import fold

if TYPE_CHECKING:
    from paperwork.render.pdf.pdfa import Attachment
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Comparison

Key = tuple[str, str]


@dataclass
class Opened:
    """One show on the page. `folder` is where it lies, None if it was dropped from somewhere else.

    `unsaved`: answers are in no file but this program's memory. `dropped` holds files by their names, the show's own among them; what is not there is read from the folder.
    """

    id: str
    name: str
    dropped: dict[str, bytes]
    folder: Path | None = None
    venue: str = ""
    answers: dict[Key, str] | None = None
    source: Source = field(default_factory=lambda: Source(None, ()))
    reading: Reading = field(default_factory=lambda: Reading(None, (), readable=False))
    labels: LabelChoice = field(default_factory=LabelChoice)
    laid: dict[str, LabelChoice] = field(default_factory=dict)
    printer: str = ""
    papers: Papers | None = None
    tonight: Papers | None = None
    evening: Tonight | None = None
    away: tuple[str, ...] = ()
    dead: tuple[str, ...] = ()
    compared: "Comparison | None" = None
    since: Papers | None = None
    progress: tuple[str, int] = ("", 0)
    kept: str = ""
    unsaved: bool = False
    press: "Press | None" = None

    @property
    def data(self) -> bytes:
        """The bytes of the show file."""
        return self.dropped[self.name]

    @property
    def questions(self) -> tuple[Question, ...]:
        """What a foreign sheet leaves open."""
        return self.source.understanding.questions if self.source.understanding else ()

    @property
    def venues(self) -> tuple[str, ...]:
        """The venues that the show names."""
        return tuple(dict.fromkeys(row.venue for row in read_rows(self.source.raw))) if self.source.raw else ()

    def was_saved(self) -> bool:
        """Whether the show's file in its folder says something else now."""
        return self._load_saved() != self.data

    def _load_saved(self) -> bytes:
        try:
            return load_file(self.folder / self.name, self.name) if self.folder else self.data
        except Refused:
            return self.data

    def refresh(self) -> bool:
        """Reads the show anew if its file in the folder was saved again; whether it was."""
        data = self._load_saved()
        if data == self.data:
            return False
        self.dropped[self.name] = data
        self.answers = None
        self.read()
        return True

    def read(self) -> None:
        """Reads the show anew; what was made of it before is gone."""
        self.source = read_source_bytes(self.data, self.name, self._recall)
        self.venue = next((venue for venue in self.venues if fold(venue) == fold(self.venue)), "")
        self.reading = judge_source(self.source, self._load_sweep, venue=self.venue)
        self.papers = self.tonight = self.compared = self.since = self.evening = None
        self.kept = ""

    def _recall(self) -> tuple[Mapping[Key, str], tuple[Finding, ...]]:
        """The answers: those that were kept with the sheet, until the page has its own."""
        name = name_answers(self.name)
        wrong: tuple[Finding, ...] = ()
        if self.answers is None and name in self.dropped:
            self.answers, wrong = read_answers_bytes(self.dropped[name], name)
        elif self.answers is None and self.folder:
            self.answers, wrong = read_answers(self.folder / name, name)
        self.answers = self.answers or {}
        return self.answers, wrong

    def _load_sweep(self, sweep: str, stated: StatedUnit) -> tuple[tuple[Level, ...], tuple[Finding, ...]]:
        if sweep in self.dropped:
            try:
                return parse_sweep(decode_text(self.dropped[sweep], sweep), sweep, stated)
            except Refused as refused:
                return (), (refused.finding,)
        if self.folder:
            return read_sweep(self.folder / sweep, sweep, stated)
        return (), (find("file-missing", Place(sweep), name=sweep, nearest="; drop it on the page with the show"),)

    def answer(self, typed: Sequence[tuple[Key, str]]) -> list[str]:
        """Takes answers by kind and content; says which do not fit. An empty one is not an answer."""
        asked = {(question.kind, question.about): question for question in self.questions}
        wrong, answers = [], dict(self.answers or {})
        for key, text in typed:
            if key not in asked or not text.strip():
                continue
            taken = take_answer(asked[key], text)
            if taken is None:
                wrong.append(f"{text} is no answer to: {asked[key].text}")
            elif taken:
                answers[key] = taken
        self._keep_answers(answers)
        return wrong

    def change(self, text: str) -> list[str]:
        """Takes one answer by name, `column Presenter=performer`, which may change what was not asked; says if it fits nothing."""
        if not text or self.source.understanding is None:
            return []
        try:
            named = name_answer(text, self.source.understanding)
        except ValueError as error:
            return [str(error)]
        self._keep_answers({**(self.answers or {}), **named})
        return []

    def forget(self, keys: Sequence[Key]) -> None:
        """Takes answers back, so that their questions are asked again."""
        self._keep_answers({key: text for key, text in (self.answers or {}).items() if key not in keys})

    def _keep_answers(self, answers: dict[Key, str]) -> None:
        """Beside the sheet where it has a folder; else only in memory, to be downloaded. Raises OutputError."""
        from paperwork.output import write_new, write_over

        if answers == self.answers:
            return
        name, data = name_answers(self.name), write_answers(answers, self.name).encode("utf-8")
        if self.folder and name not in self.dropped:
            path = self.folder / name
            (write_over if os.path.exists(path) else write_new)(path, data)
        else:
            self.dropped[name] = data
            self.unsaved = True
        self.answers = answers
        self.read()

    @property
    def answers_file(self) -> bytes:
        """The answers as their file."""
        return write_answers(self.answers or {}, self.name).encode("utf-8")

    def print(self) -> None:
        """Makes every paper."""
        self.progress = "", 0
        self.refresh()
        if self.reading.show is None:
            return
        self.laid["papers"] = self.labels
        self.papers = make_papers(
            self.reading.show,
            self.reading.findings,
            labels=self.labels,
            press=self._fresh_press(),
            attached=self._attached(),
        )

    def _fresh_press(self) -> "Press":
        from paperwork.render.pdf.press import Press

        self.press = self.press or Press(self._note_progress)
        return self.press

    def _note_progress(self, path: str, left: int) -> None:
        self.progress = path, left

    def _attached(self) -> "tuple[Attachment, ...]":
        """The inputs, in the order in which the command gathers them."""
        from paperwork.archive import attach_inputs

        show = self.reading.show
        names = [self.name, name_answers(self.name), *(show.spectrum.sweeps if show else ())]
        files = {name: data for name in names if (data := self._load(name)) is not None}
        return attach_inputs(files, self.venue)

    def _load(self, name: str) -> bytes | None:
        if name in self.dropped:
            return self.dropped[name]
        if self.folder is None or not lies_below(name) or not os.path.isfile(self.folder / name):
            return None
        return load_file(self.folder / name, name, most=limits.SWEEP_BYTES)

    def is_laid(self, papers: str) -> bool:
        """Whether the labels of `papers`, `tonight` or `since` lie where the choice of now says."""
        return self.laid.get(papers) == self.labels

    def plan(self, away: Sequence[str], dead: Sequence[str]) -> None:
        """Makes the papers of tonight: who is off, and the channels whose packs died."""
        if self.reading.show is None:
            return
        show = self.reading.show
        self.away, self.dead = tuple(away), tuple(id for id in dead if id in show.channels)
        if not (self.away or self.dead):
            self.tonight = self.evening = None
            return
        whole = stage_all(show)
        self.evening = plan_tonight(whole, self.away)
        packs = [show.channels[id] for id in self.dead]
        self.laid["tonight"] = self.labels
        self.tonight = make_tonight(show, self.reading.findings, self.evening, packs, labels=self.labels)

    def compare(self, name: str, data: bytes) -> str:
        """Compares with an earlier revision, from a show file, an archive or a show book; says why it cannot, or ""."""
        from paperwork.revisions import Side, compare_revisions

        try:
            inside = unpack(name, {**self.dropped, name: data})
        except Refused as refused:
            return refused.finding.text
        shown, is_own = (
            inside.show,
            inside.show == name,
        )  # an archive or a book counts as it was printed, for its own venue
        earlier = Opened(
            "", shown, dict(inside.files), self.folder if is_own else None, self.venue if is_own else inside.venue
        )
        earlier.read()
        if is_own and self.venue and not earlier.venue:
            return (
                f"{name} does not know the venue {self.venue}; look at the show as it is in its file, and compare again"
            )
        if earlier.reading.show is None or self.reading.show is None:
            first = next((finding for finding in earlier.reading.findings if finding.severity == "error"), None)
            return f"{name} cannot be used: {first.text if first else 'there is no show in it'}"
        old = Side(earlier.reading.show, earlier.reading.findings, earlier.name, inside.prints)
        self.compared = compare_revisions(old, Side(self.reading.show, self.reading.findings, self.name))
        return ""

    def print_since(self) -> None:
        """Makes the change list and what must be printed again."""
        from paperwork.revisions import make_since

        if self.compared:
            self.laid["since"] = self.labels
            self.since = make_since(self.compared, labels=self.labels)


def unpack(name: str, files: Mapping[str, bytes]) -> Inputs:
    """The show and all files: those inside if the named one is an archive or a show book.

    Raises Refused where there is no show in it.
    """
    data = files[name]
    if not is_archive(data) and not is_book(data):
        sniff(data, name)
        return Inputs(name, files)
    return pick_inputs(data, name)
