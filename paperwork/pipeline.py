"""The story on one screen: a file is read, shaped, built, checked, laid out and painted.

    read_show(path)   file -> Raw -> shape -> Show -> findings
    make_papers(...)  Show -> sheets -> pages of boxes -> PDF, and the index of them all

Nothing here prints, writes a file or looks at the clock.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork import limits
from paperwork.build import build_show
from paperwork.checks import check_show
from paperwork.document import Labels, Printer
from paperwork.files.sweep import read_sweep
from paperwork.finding import Finding, Subject, find, order_findings
from paperwork.intake import read_source
from paperwork.model import Channel, Show
from paperwork.overlay import TONIGHT, Row, apply_rows, apply_venue, check_rows
from paperwork.plan.covers import Tonight, stage_all
from paperwork.raw import Map
from paperwork.schema import check_shape

if TYPE_CHECKING:
    from paperwork.document import Sheet
    from paperwork.index_page import Printed
    from paperwork.sheets import Paper

DOUBTS = frozenset({
    "frequency-unreadable", "carrier-doubled", "frequency-out-of-tune", "frequency-off-step", "carrier-uneven",
    "frequency-asked",
    "frequency-against-tv",
})
"""Findings that make a frequency uncertain: it is printed as a blank, and its label is withheld."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What came of reading a show file. `show` is None where nothing may be printed from it."""

    show: Show | None
    findings: tuple[Finding, ...]
    readable: bool = True
    """False where there was no file, or nothing of a show in it."""
    told: tuple[str, ...] = ()
    """What a foreign sheet was read as, in plain lines."""


@dataclass(frozen=True, slots=True)
class LabelChoice:
    """How labels are printed this time. None keeps the paper's own choice."""

    stock: str | None = None
    start: int = 1
    blocked: tuple[int, ...] = ()
    printer: Printer = Printer()
    proof: bool = False


@dataclass(frozen=True, slots=True)
class Papers:
    """Every file of one run by its path in the output folder, and what was not printed and why."""

    files: Mapping[str, bytes]
    printed: "tuple[Printed, ...]"
    missing: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]


def read_show(path: Path, name: str, *, venue: str = "", tonight: Sequence[Row] = ()) -> Reading:
    """The show in a file, and all findings in reading order. Errors of shape or reference leave no show.

    `venue` names the venue whose rows are put into place first, `tonight` are rows for one night.
    """
    source = read_source(path, name)
    if source.raw is None:
        return Reading(None, order_findings(source.findings), readable=False, told=source.told)
    raw, overlaid = overlay_show(source.raw, venue, tonight)
    findings = [*source.findings, *overlaid, *check_shape(raw)]
    if has_errors(finding for finding in findings if finding.stage != "sense"):
        return Reading(None, order_findings(findings), told=source.told)
    built = build_show(raw)
    findings += built.findings
    if has_errors(finding for finding in findings if finding.stage != "sense"):
        return Reading(None, order_findings(findings), told=source.told)
    show, heard = read_sweeps(built.show, path.parent)
    findings += (*heard, *check_show(show))
    return Reading(show, order_findings(findings)[: limits.FINDINGS], told=source.told)


def read_sweeps(show: Show, folder: Path) -> tuple[Show, tuple[Finding, ...]]:
    """The show with what its sweep files measured, and what is wrong with them; they are named beside the show file."""
    if not show.spectrum.sweeps:
        return show, ()
    field = show.spectrum.where["sweeps"]
    measured, found = [], []
    if len(show.spectrum.sweeps) > limits.SWEEP_FILES:
        found.append(find("sweeps-many", field, most=limits.SWEEP_FILES))
    for name in show.spectrum.sweeps[: limits.SWEEP_FILES]:
        levels, wrong = read_sweep(folder / name, name)
        measured.append(levels)
        found += (finding if finding.place.line else replace(finding, place=field) for finding in wrong)
    return replace(show, spectrum=replace(show.spectrum, measured=tuple(measured))), tuple(found)


def overlay_show(raw: Map, venue: str, tonight: Sequence[Row]) -> tuple[Map, tuple[Finding, ...]]:
    """The show as it is in a venue and on one night, and what is wrong with the rows that say so."""
    raw, found = apply_venue(raw, venue)
    wrong = tuple(check_rows(raw, tonight, TONIGHT))
    return (raw if wrong else apply_rows(raw, tonight)), (*found, *wrong)


def has_errors(findings: Iterable[Finding]) -> bool:
    """Whether any of the findings is an error."""
    return any(finding.severity == "error" for finding in findings)


def make_papers(
    show: Show, findings: Sequence[Finding], *, only: frozenset[str] = frozenset(), folders: frozenset[str] = frozenset(),
    labels: LabelChoice = LabelChoice(), made: str = "", kinds: "Sequence[Paper]" = (),
) -> Papers:
    """Every paper whose facts the show holds, and the index. `only` and `folders` narrow it; empty means all.

    `kinds` are the papers to make, all of them unless told.

    `made` is the ISO date that the PDFs carry as their own; it defaults to the show's revision date.
    """
    from paperwork.index_page import Printed, render_index
    from paperwork.render.fonts import Metrics
    from paperwork.render.layout import lay_out
    from paperwork.render.pdf import paint_pdf
    from paperwork.sheetfacts import code
    from paperwork.sheets import SHEETS

    certain = blank_doubted(show, findings)
    metrics = Metrics()
    files: dict[str, bytes] = {}
    printed: list[Printed] = []
    missing: list[tuple[str, str]] = []
    found = list(findings)
    for paper in kinds or SHEETS:
        if (only and paper.name not in only) or (folders and paper.folder not in folders):
            continue
        sheets = paper.make(certain)
        if not sheets:
            missing.append((paper.name, paper.needs))
        for sheet in sheets:
            sheet = _with_labels(stamp_sheet(sheet, show, findings), labels)
            layout = lay_out(sheet, metrics)
            found += layout.findings
            path = f"{paper.folder}/{sheet.name}.pdf"
            files[path] = paint_pdf(layout, made or show.production.revised or "2000-01-01")
            printed.append(Printed(path, sheet.title, code(sheet), len(layout.pages), sheet.stamp, paper.folder))
    ordered = order_findings(found)
    files["index.html"] = render_index(show, printed, missing, ordered)
    return Papers(files, tuple(printed), tuple(missing), ordered)


def make_tonight(
    show: Show, findings: Sequence[Finding], tonight: Tonight, dead: Sequence[Channel], *, made: str = "",
) -> Papers:
    """The page of what differs tonight, and the labels that it makes wrong. `dead` are channels whose pack died."""
    from paperwork.sheets import Paper
    from paperwork.sheets import tonight as sheet

    def make_page(certain: Show) -> "tuple[Sheet, ...]":
        certain = stage_all(certain)
        return sheet.make_sheets(certain, tonight, sheet.pair_spares(certain, _channels(certain, dead)))

    def make_labels(certain: Show) -> "tuple[Sheet, ...]":
        certain = stage_all(certain)
        return sheet.make_labels(certain, tonight, sheet.pair_spares(certain, _channels(certain, dead)))

    kinds = (
        Paper("rack", sheet.NAME, make_page, "anything that differs"),
        Paper("wardrobe", sheet.LABELS, make_labels, "labels that tonight makes wrong"),
    )
    return make_papers(show, findings, made=made, kinds=kinds)


def _channels(show: Show, named: Sequence[Channel]) -> tuple[Channel, ...]:
    return tuple(show.channels[channel.id] for channel in named)


def blank_doubted(show: Show, findings: Iterable[Finding]) -> Show:
    """The show without the frequencies that a finding makes uncertain."""
    doubted = {subject.id for f in findings if f.code in DOUBTS for subject in f.subjects if subject.section == "channels"}
    channels: dict[str, Channel] = {
        id: replace(channel, hz=None) if id in doubted else channel for id, channel in show.channels.items()
    }
    return replace(show, channels=channels)


def stamp_sheet(sheet: "Sheet", show: Show, findings: Iterable[Finding]) -> "Sheet":
    """The sheet with a stamp that counts the unresolved errors about what it shows."""
    from paperwork.sheetfacts import subjects_of
    from paperwork.words import words_of

    shown: frozenset[Subject] = subjects_of(sheet)
    count = sum(f.severity == "error" and not shown.isdisjoint(f.subjects) for f in findings)
    stamp = words_of(show.production.language)["stamp"].format(count=count) if count else ""
    return replace(sheet, stamp=stamp)


def _with_labels(sheet: "Sheet", choice: LabelChoice) -> "Sheet":
    blocks = tuple(
        replace(
            block, stock=choice.stock or block.stock, start=choice.start, blocked=choice.blocked, printer=choice.printer,
            proof=choice.proof,
        )
        if isinstance(block, Labels) else block
        for block in sheet.blocks
    )
    return replace(sheet, blocks=blocks)
