"""`paperwork survey SHOW`: what each window holds, what fits and what eats the rest."""

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from paperwork import limits
from paperwork.finding import find
from paperwork.place import Place
from paperwork.reading import list_unknown_air, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import VENUE
from paperwork.terminal.report import format_findings
from paperwork.text.names import join_words
from paperwork.text.units import Doubt, Range, format_edge, format_khz, parse_range

if TYPE_CHECKING:
    from paperwork.coordinate.survey import TypeFit, WindowSurvey

CAUSES = {
    "keep-clear": "ranges kept clear take",
    "tv": "TV channels in use take",
    "crowded": "land mobile radio takes",
    "closed": "regional limits take",
    "sweep": "what the sweep heard takes",
}


def _read_windows(_context: click.Context, _parameter: click.Parameter, values: tuple[str, ...]) -> tuple[Range, ...]:
    try:
        return tuple(parse_range(value) for value in values)
    except Doubt as doubt:
        raise click.BadParameter(str(doubt)) from None


@click.command(
    epilog="Examples:  paperwork survey show.yaml  |  paperwork survey show.yaml --window 470-494 --window 510-534 --format json  |  paperwork survey show.yaml --venue Pier"
)
@click.argument("show", type=click.Path())
@click.option(
    "--window",
    "windows",
    multiple=True,
    callback=_read_windows,
    help="Window to look at instead of the show's own, as 470-494 (repeatable).",
)
@VENUE
@click.option(
    "--format", "form", type=click.Choice(("text", "json")), default="text", show_default=True, help="How to print it."
)
def command(show: str, windows: tuple[Range, ...], venue: str, form: str) -> Outcome:
    """Say for each window of SHOW how much spectrum is free, how many channels fit, and what takes the rest.

    The window that holds most channels comes first.
    """
    from paperwork.coordinate.survey import count_searches, survey_show

    reading = read_show(Path(show), show, venue=venue)
    if reading.show is None:
        return Outcome(aside=format_findings(reading.findings, "text"), code=1 if reading.readable else 2)
    if unknown := list_unknown_air(reading.findings):
        aside = format_findings(unknown, "text")
        return Outcome(aside=f"{aside}no window was looked at: what is on the air is not known\n", code=1)
    if (count := count_searches(reading.show, windows)) > limits.SEARCHES:
        many = find("searches-many", Place(show), count=f"{count:,}", most=limits.SEARCHES)
        return Outcome(aside=format_findings((many,), "text"), code=1)
    surveys = survey_show(reading.show, windows)
    region = _caution(reading.show.spectrum.region)
    if form == "json":
        return Outcome(json.dumps([_plain(one) for one in surveys], ensure_ascii=False, indent=2) + "\n")
    if not surveys:
        advice = "state the racks' windows or what radios tune to, or give --window"
        return Outcome(f"there is no window to look at: {advice}\n", code=1)
    return Outcome("\n".join([line for one in surveys for line in _describe(one)] + region) + "\n")


def _caution(name: str) -> list[str]:
    from paperwork.coordinate import find_region

    region = find_region(name) if name else None
    caution = f" In {region.name}, {region.caution}." if region else ""
    return [f"Free is not permitted.{caution}"]


def _describe(one: "WindowSurvey") -> list[str]:
    whose = f" ({one.name})" if one.name else ""
    width, edges = format_edge(one.high_hz - one.low_hz), f"{format_edge(one.low_hz)} to {format_edge(one.high_hz)}"
    lines = [f"{edges} MHz{whose}: {format_edge(one.free_hz)} of {width} MHz free"]
    lines += [f"    {CAUSES.get(cause, cause)} {format_edge(hz)} MHz" for cause, hz in one.eaten]
    if one.weak_hz:
        lines.append(f"    {format_edge(one.weak_hz)} MHz of the free is in weak TV channels")
    if not one.swept:
        lines.append("    not swept: what is on the air there is not known")
    elif one.unswept:
        gaps = join_words(f"{format_edge(low)} to {format_edge(high)}" for low, high in one.unswept)
        lines.append(f"    not swept: {gaps} MHz")
    return lines + [_describe_fit(fit) for fit in one.fits]


def _describe_fit(fit: "TypeFit") -> str:
    radios = f"radio {join_words(fit.radios)}, " if fit.radios else ""
    return (
        f"    {radios}{format_khz(fit.bandwidth_hz)} kHz: {fit.by_spacing} by spacing alone, {fit.clean} free of "
        f"third-order hits, {fit.more} more beside what is there"
    )


def _plain(one: "WindowSurvey") -> dict[str, Any]:
    return {
        "window": {"low_hz": one.low_hz, "high_hz": one.high_hz, "of": one.name},
        "free_hz": one.free_hz,
        "free": [{"low_hz": low, "high_hz": high} for low, high in one.free],
        "eaten_hz": dict(one.eaten),
        "weak_hz": one.weak_hz,
        "swept": one.swept,
        "unswept": [{"low_hz": low, "high_hz": high} for low, high in one.unswept],
        "fits": [asdict(fit) for fit in one.fits],
    }
