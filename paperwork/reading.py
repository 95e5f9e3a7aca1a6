"""From a file to a show and its findings: the first half of the way through.

    read_show(path)   file -> Raw -> overlay -> shape -> Show -> findings

Nothing here prints, draws or looks at the clock, and nothing here needs a font.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork import limits
from paperwork.build import build_show
from paperwork.checks import check_show
from paperwork.checks.air.spectrum import list_tuned
from paperwork.files.sniff import Load, load_file
from paperwork.finding import Finding, find, order_findings
from paperwork.frozen import frozen
from paperwork.intake import Source, read_source
from paperwork.model import Channel, Show
from paperwork.overlay import TONIGHT, Row, apply_rows, apply_venue, check_doubles, check_rows
from paperwork.raw import Map
from paperwork.schema import check_shape
from paperwork.staging import RUN, find_performance, stage_performance, stage_run
from paperwork.text.names import fold, join_words, nearest

if TYPE_CHECKING:
    from paperwork.changes import PaperPrint
    from paperwork.files.sweep import StatedUnit, SweepLoader
    from paperwork.files.sweep.read import Judged


@frozen
class Reading:
    """What came of reading a show file. `show` is None where nothing may be printed from it."""

    show: Show | None
    findings: tuple[Finding, ...]
    readable: bool = True
    """False where there was no file, or nothing of a show in it."""
    lines: tuple[str, ...] = ()
    """What a foreign sheet was read as, in plain lines."""
    recorded: "tuple[PaperPrint, ...]" = ()
    """What the archive that it comes from says that was printed."""


def read_show(
    path: Path,
    name: str,
    *,
    venue: str = "",
    on: str = "",
    tonight: Sequence[Row] = (),
    load: Load = load_file,
    advised: bool = True,
) -> Reading:
    """The show in a file, and all findings in reading order. Errors of shape or reference leave no show.

    `venue` names the venue whose rows are put into place first, `tonight` are rows for one night, `on` names the
    performance that the show is staged for. `load` gives the bytes of the file and of those that it names. Findings
    that are only counted need not be `advised`: no clean frequency is looked for then.
    """

    def load_sweep(sweep: str, stated: "StatedUnit") -> "Judged":
        from paperwork.files.sweep import read_sweep

        return read_sweep(path.parent / sweep, sweep, stated, load)

    return judge_source(read_source(path, name, load), load_sweep, venue=venue, on=on, tonight=tonight, advised=advised)


def judge_source(
    source: Source,
    load_sweep: "SweepLoader",
    *,
    venue: str = "",
    on: str = "",
    tonight: Sequence[Row] = (),
    advised: bool = True,
) -> Reading:
    """The same for a source that was read. `load_sweep` reads the sweep files that the show names."""
    is_own = not venue and not on and not tonight and source.understanding is None
    if source.raw is None:
        return Reading(None, _settle(source.findings, is_own), readable=False, lines=source.lines)
    raw, overlaid = overlay_show(source.raw, venue, tonight)
    findings = [*source.findings, *overlaid, *check_shape(raw)]
    if has_errors(finding for finding in findings if finding.stage != "sense"):
        return Reading(None, _settle(findings, is_own), lines=source.lines)
    built = build_show(raw)
    findings += built.findings
    if has_errors(finding for finding in findings if finding.stage != "sense"):
        return Reading(None, _settle(findings, is_own), lines=source.lines)
    staged, unknown = _stage(_put_at_venue(built.show, venue), on)
    if unknown:
        return Reading(None, _settle((*findings, *unknown), is_own), lines=source.lines)
    show, unread = read_sweeps(staged, load_sweep)
    sense = check_show(replace(show, is_advised=advised))
    findings += (*unread, *(one for one in sense if source.understanding is None or not one.row.asked_first))
    return Reading(show, _settle(findings, is_own), lines=source.lines)


def _settle(findings: Sequence[Finding], is_own: bool) -> tuple[Finding, ...]:
    """The findings in order, up to the limit. Edits are of the show file as it is: a show in another house or for one
    night, and somebody's own list, have none."""
    return bound_findings(order_findings([one if is_own else replace(one, edits=()) for one in findings]))


def _put_at_venue(show: Show, venue: str) -> Show:
    """The show with the venue it is seen at, as its first row spells it; papers never name the home venue there."""
    own = [row for row in show.venues.values() if venue and fold(row.venue) == fold(venue)]
    if not own:
        return show
    if not any((row.section, row.name) == ("show", "venue") for row in own):
        show = replace(show, production=replace(show.production, venue=own[0].venue))
    return replace(show, at_venue=own[0].venue)


def _stage(show: Show, name: str) -> tuple[Show, tuple[Finding, ...]]:
    """The show of the performance of a name or date, or of those from one date to another, and what is wrong with the
    name; "" is the run as a whole."""
    if not name:
        return show, ()
    if RUN in name and find_performance(show, name) is None and (several := stage_run(show, name)):
        return several, ()
    performance = find_performance(show, name)
    if performance:
        return stage_performance(show, performance), ()
    names = tuple(show.performances)
    same = tuple(one.id for one in show.performances.values() if one.date == name.strip())
    known = (
        f"the performances are {join_words(same or names)}" if names else "add it to performances, or leave --on out"
    )
    place = show.production.where.record
    return show, (
        find("performance-unknown", place, name=name, known=known, near="" if same else nearest(name, names)),
    )


def list_unknown_air(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The errors that keep us from knowing what is on the air: nothing is called free or clean while there is one."""
    return tuple(finding for finding in findings if finding.severity == "error" and "air" in finding.row.topics)


def bound_findings(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The first findings up to the limit, and one that counts the rest: nothing is dropped in silence."""
    rest = findings[limits.FINDINGS :]
    if not rest:
        return findings
    place = rest[0].place._replace(line=0, column=0, sheet="")
    return (
        *findings[: limits.FINDINGS],
        find("findings-many", place, count=len(rest), errors=sum(f.severity == "error" for f in rest)),
    )


def read_sweeps(show: Show, load_sweep: "SweepLoader") -> tuple[Show, tuple[Finding, ...]]:
    """The show with what its sweep files measured, and what is wrong with them."""
    if not show.spectrum.sweeps:
        return show, ()
    from paperwork.files.sweep import StatedUnit, lies_below

    field = show.spectrum.where["sweeps"]
    stated = StatedUnit(show.spectrum.sweep_unit, show.spectrum.sweep_impedance)
    measured, found = [], []
    if len(show.spectrum.sweeps) > limits.SWEEP_FILES:
        found.append(find("sweeps-many", field, most=limits.SWEEP_FILES))
    for name in show.spectrum.sweeps[: limits.SWEEP_FILES]:
        inside = lies_below(name)
        levels, wrong = load_sweep(name, stated) if inside else ((), (find("sweep-outside", field, name=name),))
        measured.append(levels)
        found += (finding if finding.place.line else replace(finding, place=field) for finding in wrong)
    found = [replace(one, subjects=list_tuned(show)) if one.severity == "error" else one for one in found]
    return replace(show, spectrum=replace(show.spectrum, measured=tuple(measured))), tuple(found)


def overlay_show(raw: Map, venue: str, tonight: Sequence[Row]) -> tuple[Map, tuple[Finding, ...]]:
    """The show as it is in a venue and on one night, and what is wrong with the rows that say so."""
    raw, found = apply_venue(raw, venue)
    wrong = (*check_rows(raw, tonight, TONIGHT), *check_doubles(tonight))
    return (raw if wrong else apply_rows(raw, tonight)), (*found, *wrong)


def has_errors(findings: Iterable[Finding]) -> bool:
    """Whether any of the findings is an error."""
    return any(finding.severity == "error" for finding in findings)


def redact_for_print(show: Show, findings: Iterable[Finding]) -> Show:
    """The show as papers may show it: without the frequencies that are doubted, and children by their initials."""
    from paperwork.plan.walls import put_on_walls

    return put_on_walls(blank_doubted(show, findings))


def blank_doubted(show: Show, findings: Iterable[Finding]) -> Show:
    """The show without the frequencies that a finding makes uncertain; a backup is then still to be found."""
    findings = tuple(findings)
    doubted = {subject.id for f in findings if f.row.doubts for subject in f.subjects if subject.section == "channels"}
    backups = {subject.id for f in findings if f.row.doubts for subject in f.subjects if subject.section == "backups"}
    channels: dict[str, Channel] = {
        id: replace(
            channel,
            hz=None if id in doubted else channel.hz,
            backup_hz=None if id in backups else channel.backup_hz,
            wants_backup=id in backups or channel.wants_backup,
        )
        for id, channel in show.channels.items()
    }
    return replace(show, channels=channels)
