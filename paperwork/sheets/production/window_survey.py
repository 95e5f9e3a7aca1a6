"""The survey of windows: a bar for each division of a band, and how many channels fit into it. One chooses a window by it."""

from collections.abc import Sequence

from paperwork.coordinate import gather_on_air
from paperwork.coordinate.air import SWEEP
from paperwork.coordinate.carriers import OnAir
from paperwork.coordinate.survey import Count, WindowSurvey
from paperwork.document import Band, Column, Line, Note, Ribbon, RowGroup, Sheet, Table, TableRow, cell, fact, row
from paperwork.document.styles import HAND, HAND_STRONG, LIST_NUMBER, SMALL_PRINT, Style
from paperwork.model import Show
from paperwork.radio.bands import intersect_ranges
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.sheets.rack.spectrum import list_bands, rack_windows
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_edge, format_khz

NAME = "window-survey"
ROW_UM = 9_000


def make_sheet(show: Show, surveys: Sequence[WindowSurvey]) -> Sheet:
    """One sheet: the windows from the lowest up, what is in each, and what fits."""
    on_air = gather_on_air(show)
    best = max((one.best for one in surveys), default=0)
    columns = headed(
        show,
        Column("survey head window", 38_000),
        Column("survey head bar"),
        Column("survey head free", 25_000),
        Column("survey head radio", 42_000),
        Column("survey head fits", 32_000),
        Column("survey head more", 32_000),
    )
    ordered = sorted(surveys, key=lambda one: (one.low_hz, one.high_hz))
    rows = tuple(_row(on_air, one, is_best=0 < one.best == best) for one in ordered)
    swept = any(one.swept for one in surveys)
    lines = [phrase(show, "survey legend"), phrase(show, "survey counts")]
    lines += [] if swept else [phrase(show, "spectrum unswept")]
    note = Note(" ".join(lines), SMALL_PRINT, facts=(str(swept),))
    blocks = (note, Table(columns, (RowGroup(rows),), row_um=ROW_UM))
    return frame_sheet(
        show, NAME, "survey", blocks, order="survey order", cautions=("licence caution",), landscape=True
    )


def _row(on_air: OnAir, one: WindowSurvey, *, is_best: bool) -> TableRow:
    show = on_air.show
    low, high, free = (format_edge(hz) for hz in (one.low_hz, one.high_hz, one.free_hz))
    title = fact(f"{low}–{high}", LIST_NUMBER)
    racks = [rack for rack, window in rack_windows(show) if window == (one.low_hz, one.high_hz)]
    under = (
        [fact(phrase(show, "spectrum racks", racks=shorten_ids(racks), count=len(racks)), HAND, of=" ".join(racks))]
        if racks
        else []
    )
    unswept = ", ".join(f"{format_edge(start)}–{format_edge(end)}" for start, end in one.unswept)
    gaps = [fact(phrase(show, "survey unswept", ranges=unswept), HAND, of=f"unswept {unswept}")] if unswept else []
    radios = [fact(f"{shorten_ids(fit.radios)}  {format_khz(fit.bandwidth_hz)} kHz".strip(), HAND) for fit in one.fits]
    return row(
        cell(title, *under),
        cell(_ribbon(on_air, one), *gaps),
        cell(fact(free, LIST_NUMBER)),
        cell(*(radios or [fact(phrase(show, "survey no radio"), HAND, of="none")])),
        cell(*(_count(show, fit.clean, HAND_STRONG if is_best else HAND) for fit in one.fits)),
        cell(*(_count(show, fit.more, HAND) for fit in one.fits)),
    )


def _count(show: Show, count: Count, style: Style) -> Line:
    key = "survey none" if not count.most else "survey exactly" if count.is_exact else "survey at least"
    return fact(phrase(show, key, count=count.least), style, of=f"{count.least} {count.most}")


def _ribbon(on_air: OnAir, one: WindowSurvey) -> Ribbon:
    window = (one.low_hz, one.high_hz)
    bands = list_bands(on_air, window)
    loud = [(block.low_hz, block.high_hz) for block in on_air.air.blocks_for_narrowest if block.cause == SWEEP]
    heard = [Band(low, high, "", "loud") for low, high in intersect_ranges(loud, [window])]
    marks = tuple(sorted(carrier.hz for carrier in on_air.carriers if one.low_hz <= carrier.hz <= one.high_hz))
    said = [f"{band.low_hz}-{band.high_hz} {band.kind} {name}" for band, name in bands]
    said += [f"{band.low_hz}-{band.high_hz} loud" for band in heard]
    facts = " ".join([*said, *map(str, marks)]) or "free"
    return Ribbon(one.low_hz, one.high_hz, (*(band for band, _ in bands), *heard), marks, fact=facts)
