"""`paperwork survey SHOW`: what each window or division of a band holds, what fits and what eats the rest."""

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from paperwork import limits
from paperwork.finding import find
from paperwork.model import Show
from paperwork.place import Place
from paperwork.reading import Reading, list_unknown_air, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import FORMAT, VENUE
from paperwork.terminal.report import format_findings
from paperwork.text.names import join_words
from paperwork.text.units import Doubt, Range, format_edge, format_khz, parse_range, parse_width

if TYPE_CHECKING:
    from paperwork.coordinate import Region
    from paperwork.coordinate.survey import Count, TypeFit, WindowSurvey
    from paperwork.model import Show

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


def _read_band(_context: click.Context, _parameter: click.Parameter, value: str) -> Range | None:
    try:
        return parse_range(value) if value else None
    except Doubt as doubt:
        raise click.BadParameter(str(doubt)) from None


def _read_width(_context: click.Context, _parameter: click.Parameter, value: str) -> int:
    try:
        return parse_width(f"{value} MHz" if value[-1:].isdigit() else value) if value else 0
    except Doubt as doubt:
        raise click.BadParameter(str(doubt)) from None


@click.command(
    epilog="Examples:  paperwork survey show.yaml  |  paperwork survey show.yaml --window 470-494 --format json  |  paperwork survey show.yaml --band 470-694 --every 24 -o windows.pdf"
)
@click.argument("show", type=click.Path())
@click.option(
    "--window",
    "windows",
    multiple=True,
    callback=_read_windows,
    help="A window in place of those of the show, as 470-494; repeatable.",
)
@click.option("--band", default="", callback=_read_band, help="A band to divide into windows, as 470-694.")
@click.option("--every", default="", callback=_read_width, help="Width of each window of the band in MHz, as 24.")
@click.option("-o", "--output", type=click.Path(), help="A new PDF with a bar for each window, to choose one from.")
@VENUE
@FORMAT
def command(
    show: str, windows: tuple[Range, ...], band: Range | None, every: int, output: str | None, venue: str, form: str
) -> Outcome:
    """Show for each window of SHOW how much is free, how many channels fit, and what takes the rest.

    The window with room for most channels comes first. Each count is for one radio type by itself, with all guards and
    distances of SHOW: "at least" so many were placed, "exactly" means proved that no more fit.
    """
    from paperwork.coordinate.survey import count_searches, survey_show

    if every and not band:
        return Outcome(aside="--every divides a band: give one, as in --band 470-694\n", code=2)
    windows = (*windows, *_divide(band, every)) if band else windows
    reading = read_show(Path(show), show, venue=venue)
    if reading.show is None:
        return Outcome(aside=format_findings(reading.findings, "text"), code=1 if reading.readable else 2)
    if unknown := list_unknown_air(reading.findings):
        aside = format_findings(unknown, "text")
        return Outcome(aside=f"{aside}no window was looked at: what is on the air is not known\n", code=1)
    if (count := max(len(windows), count_searches(reading.show, windows))) > limits.SEARCHES:
        many = find("searches-many", Place(show), count=f"{count:,}", most=limits.SEARCHES)
        return Outcome(aside=format_findings((many,), "text"), code=1)
    surveys = survey_show(reading.show, windows)
    if wrong := _print(reading, surveys, output):
        return wrong
    cautions = _caution(reading.show, surveys)
    if form == "json":
        return Outcome(json.dumps([_plain(one) for one in surveys], ensure_ascii=False, indent=2) + "\n")
    if not surveys:
        advice = "add window to racks or tunes to radios, or give --window"
        return Outcome(f"there is no window to look at: {advice}\n", code=1)
    return Outcome("\n".join([line for one in surveys for line in _describe(one)] + cautions) + "\n")


def _divide(band: Range, every: int) -> tuple[Range, ...]:
    """The divisions of a band, as many as are looked at and one more at the most: the band itself without a width."""
    from paperwork.coordinate.survey import divide_band

    width = band.high_hz - band.low_hz
    pieces = divide_band(band, max(every or width, width // (limits.SEARCHES + 1)))
    return tuple(Range(low, high) for low, high in pieces)


def _print(reading: Reading, surveys: "Sequence[WindowSurvey]", output: str | None) -> Outcome | None:
    """Write the picture of it where one is asked for; what went wrong."""
    if output is None or reading.show is None or not surveys:
        return None
    if not output.lower().endswith(".pdf"):
        return Outcome(aside=f"{output}: name it to end in .pdf\n", code=2)
    from paperwork.output import OutputError, write_new
    from paperwork.pipeline import make_papers
    from paperwork.sheets import Paper
    from paperwork.sheets.production.window_survey import NAME, make_sheet

    paper = Paper("production", NAME, lambda show: (make_sheet(show, surveys),), "windows", shows=("frequency",))
    papers = make_papers(reading.show, reading.findings, kinds=(paper,), pictured=False)
    try:
        write_new(Path(output), papers.files[f"{paper.folder}/{NAME}.pdf"])
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    return None


def _caution(show: Show, surveys: "Sequence[WindowSurvey]") -> list[str]:
    from paperwork.coordinate import region_of

    region = region_of(show.spectrum)
    caution = f" In {region.name}, {region.caution}." if region else ""
    return [*_doubt_cities(show, surveys, region), f"Free does not mean permitted.{caution}"]


def _doubt_cities(show: Show, surveys: "Sequence[WindowSurvey]", region: "Region | None") -> list[str]:
    """Who shares TV channels around some cities is known by the venue alone."""
    if region is None or region.crowd is None or region.cities_at(show.production.venue):
        return []
    shared = [one for one in region.channels if region.is_shared(one.low_hz)]
    if not any(one.low_hz < tv.high_hz and one.high_hz > tv.low_hz for one in surveys for tv in shared):
        return []
    return [f"Not looked at: {region.crowd.by}, for the venue names no city that has it; {region.crowd.advice}."]


def _describe(one: "WindowSurvey") -> list[str]:
    whose = f" ({one.name})" if one.name else ""
    width, edges = format_edge(one.high_hz - one.low_hz), f"{format_edge(one.low_hz)} to {format_edge(one.high_hz)}"
    lines = [f"{edges} MHz{whose}: {format_edge(one.free_hz)} of {width} MHz free"]
    lines += [f"    {CAUSES.get(cause, cause)} {format_edge(hz)} MHz" for cause, hz in one.eaten]
    lines += [f"    TV channels in use: {', '.join(one.tv)}"] if one.tv else []
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
        f"    {radios}{format_khz(fit.bandwidth_hz)} kHz: {_word(fit.clean)}; beside what is there "
        f"{_word(fit.more)}; {fit.by_spacing} by spacing alone"
    )


def _word(count: "Count") -> str:
    if not count.most:
        return "none fits"
    return f"exactly {count.least} fit" if count.is_exact else f"at least {count.least} fit and at most {count.most}"


def _plain(one: "WindowSurvey") -> dict[str, Any]:
    return {
        "window": {"low_hz": one.low_hz, "high_hz": one.high_hz, "of": one.name},
        "free_hz": one.free_hz,
        "free": [{"low_hz": low, "high_hz": high} for low, high in one.free],
        "eaten_hz": dict(one.eaten),
        "tv": list(one.tv),
        "weak_hz": one.weak_hz,
        "swept": one.swept,
        "unswept": [{"low_hz": low, "high_hz": high} for low, high in one.unswept],
        "fits": [asdict(fit) for fit in one.fits],
    }
