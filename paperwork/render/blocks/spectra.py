"""A spectrum as one slice: numbers over their lines, the sweep as a black profile, TV channels and a scale below."""

from collections.abc import Iterator

from paperwork.document import Mark, SpectrumWindow
from paperwork.document.styles import GROUP, GROUP_NOTE, SPECTRUM_AXIS, SPECTRUM_BAND, SPECTRUM_NUMBER
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.boxes import HAIR_UM, LINE_UM, Box, Fill, Frame, Hatch, Open, Room, Rule, wrap
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.setting import Typesetter
from paperwork.text.units import format_mhz

BAR_UM = 6_800
SCALE_UM = 13_000
"""Left of the plot, for the numbers of the scale."""

PLOT_UM, SNUG_UM = 18_000, 14_500
"""Low enough for four windows and the legend on a page of A4; on one of Letter."""

LANE_UM = 5_800
"""One row of numbers over the plot."""

BAND_UM = 6_600
AXIS_UM = 5_600
GAP_UM = 900
COLUMN_UM = 700
"""Width of one column of the profile: thinner ones a photocopier loses (common practice, no source)."""

CAP_UM = 900
"""Height of the bar that shows how wide a carrier is, where it is wider than high."""

STEP_CDBM = 2_000
STEPS_HZ = (1_000_000, 2_000_000, 4_000_000, 8_000_000, 16_000_000, 32_000_000, 64_000_000)
TICK_ROOM_UM = 17_000


class _Frame:
    """Where frequencies and levels stand on the page."""

    def __init__(self, spectrum: SpectrumWindow, context: Context, top: int) -> None:
        self.low, self.high = spectrum.low_hz, spectrum.high_hz
        self.left, self.width = SCALE_UM, context.width - SCALE_UM
        self.height = SNUG_UM if context.snug else PLOT_UM
        self.top, self.bottom = top, top + self.height
        self._floor, self._span = spectrum.lowest_cdbm, spectrum.highest_cdbm - spectrum.lowest_cdbm

    def x(self, hz: int) -> int:
        """A frequency across the page, kept inside the window."""
        inside = min(max(hz, self.low), self.high)
        return self.left + (inside - self.low) * self.width // (self.high - self.low)

    def y(self, cdbm: int) -> int:
        """A level up the plot, kept inside the scale."""
        inside = min(max(cdbm - self._floor, 0), self._span)
        return self.bottom - inside * self.height // self._span


def lay_spectrum(spectrum: SpectrumWindow, context: Context) -> list[Series]:
    """The window as one slice. Raises ValueError for a window that runs backwards: a bug."""
    if spectrum.high_hz <= spectrum.low_hz:
        raise ValueError("the window of a spectrum runs backwards")
    lanes = _stack(spectrum, context)
    top = BAR_UM + 1_800 + LANE_UM * max((lane for _, lane, _ in lanes), default=-1) + LANE_UM
    frame = _Frame(spectrum, context, top)
    boxes = [box for mark, lane, fitted in lanes for box in _mark(mark, lane, fitted, frame, context)]
    boxes += (*_profile(spectrum, frame), *_scale(spectrum, frame, context.setter))
    boxes += (*_bands(spectrum, frame, context.setter), *_axis(spectrum, frame, context))
    boxes.append(Frame(frame.left, frame.top, frame.width, frame.height, LINE_UM))
    boxes = [*_bar(spectrum, context), *wrap(Open("Figure", alt=_say(spectrum)), boxes)]
    height = frame.bottom + _band_rows(spectrum) * BAND_UM + AXIS_UM + 300
    return [Series((Slice(height, tuple(boxes), facts=spectrum.facts, subjects=spectrum.subjects),))]


def _say(spectrum: SpectrumWindow) -> str:
    """What the picture shows, to be read out: each carrier at its frequency, each stretch with its ends."""
    marks = sorted(spectrum.marks, key=lambda mark: (mark.hz, mark.text))
    said = [f"{mark.text} {format_mhz(mark.hz)}" for mark in marks]
    said += (f"{one.text} {format_mhz(one.low_hz)}\u2013{format_mhz(one.high_hz)}" for one in spectrum.bands)
    return "; ".join((f"{format_mhz(spectrum.low_hz)}\u2013{format_mhz(spectrum.high_hz)} MHz", *said))


def _bar(spectrum: SpectrumWindow, context: Context) -> Iterator[Box]:
    yield Fill(0, 0, context.width, BAR_UM)
    half = context.width // 2 - 4_000
    if spectrum.title:
        title = context.setter.set(spectrum.title, GROUP, Room(3_000, 0, half, BAR_UM), white=True)
        yield from wrap(Open("H2"), [title])
    if spectrum.note:
        room = Room(half + 5_000, 0, half, BAR_UM)
        yield from wrap(Open("P"), [context.setter.set(spectrum.note, GROUP_NOTE, room, align="right", white=True)])


def _stack(spectrum: SpectrumWindow, context: Context) -> list[tuple[Mark, int, Fitted]]:
    """Each mark with the lowest lane in which its number is clear of those to its left."""
    frame = _Frame(spectrum, context, 0)
    ends: list[int] = []
    placed = []
    for mark in sorted(spectrum.marks, key=lambda mark: (mark.hz, mark.text)):
        fitted = context.setter.fit(mark.text, SPECTRUM_NUMBER, context.width // 4)
        half = _number_width(mark, fitted, context) // 2
        left = _number_left(frame, mark, half)
        lane = next((index for index, end in enumerate(ends) if end <= left), len(ends))
        ends[lane : lane + 1] = [left + 2 * half + GAP_UM]
        placed.append((mark, lane, fitted))
    return placed


def _number_width(mark: Mark, fitted: Fitted, context: Context) -> int:
    return fitted.width_um(context.metrics) + (2_000 if mark.spare else 600)


def _number_left(frame: _Frame, mark: Mark, half: int) -> int:
    return min(max(frame.x(mark.hz) - half, 0), frame.left + frame.width - 2 * half)


def _mark(mark: Mark, lane: int, fitted: Fitted, frame: _Frame, context: Context) -> Iterator[Box]:
    x = frame.x(mark.hz)
    half = _number_width(mark, fitted, context) // 2
    foot = frame.top - lane * LANE_UM - 1_500
    room = Room(_number_left(frame, mark, half), foot - LANE_UM + 1_500, 2 * half, LANE_UM - 1_000)
    yield context.setter.line(fitted, room, foot, "centre")
    if mark.spare:
        yield Frame(room.x, foot - fitted.cap_um - 700, room.width, fitted.cap_um + 1_400, LINE_UM)
    yield Rule(x, foot + 800, x, frame.bottom, LINE_UM, dotted=mark.spare)
    left, right = frame.x(mark.hz - mark.bandwidth_hz // 2), frame.x(mark.hz + mark.bandwidth_hz // 2)
    if right - left > CAP_UM:
        yield Fill(left, frame.top, right - left, CAP_UM)


def _profile(spectrum: SpectrumWindow, frame: _Frame) -> Iterator[Box]:
    """The sweep as black columns, each as tall as the loudest level in it; what was not swept has none."""
    columns: dict[int, int] = {}
    for low, high, level in spectrum.levels:
        if low < frame.high and high > frame.low:
            for column in range(frame.x(low) // COLUMN_UM, max(frame.x(high) - 1, frame.x(low)) // COLUMN_UM + 1):
                columns[column] = max(level, columns.get(column, level))
    for column, level in sorted(columns.items()):
        left = max(column * COLUMN_UM, frame.left)
        right = min((column + 1) * COLUMN_UM, frame.left + frame.width)
        top = frame.y(level)
        if right > left and top < frame.bottom:
            yield Fill(left, top, right - left, frame.bottom - top)


def _scale(spectrum: SpectrumWindow, frame: _Frame, setter: Typesetter) -> Iterator[Box]:
    if not spectrum.levels:
        return
    first = -(-spectrum.lowest_cdbm // STEP_CDBM) * STEP_CDBM
    for level in range(first, spectrum.highest_cdbm, STEP_CDBM):
        y = frame.y(level)
        text = f"\u2212{-level // 100}" if level < 0 else str(level // 100)
        fitted = setter.fit(text, SPECTRUM_AXIS, SCALE_UM - 2_000)
        yield setter.line(fitted, Room(0, y - 2_500, SCALE_UM - 1_500, 5_000), y + fitted.cap_um // 2, "right")
        yield Rule(frame.left - 1_000, y, frame.left, y, LINE_UM)
    yield setter.set("dBm", SPECTRUM_AXIS, Room(0, frame.bottom, SCALE_UM - 1_500, BAND_UM), align="right")
    limit = frame.y(spectrum.limit_cdbm)
    yield Rule(frame.left, limit, frame.left + frame.width, limit, LINE_UM, dotted=True)


def _band_rows(spectrum: SpectrumWindow) -> int:
    return len({band.kind == "kept" for band in spectrum.bands})


def _bands(spectrum: SpectrumWindow, frame: _Frame, setter: Typesetter) -> Iterator[Box]:
    """TV channels in one row, ranges kept from us in another; black through the plot where nothing may stand."""
    for band in spectrum.bands:
        left, right = frame.x(band.low_hz), frame.x(band.high_hz)
        if right <= left:
            continue
        row = _band_rows(spectrum) - 1 if band.kind == "kept" else 0
        room = Room(left, frame.bottom + row * BAND_UM, right - left, BAND_UM)
        black = band.kind in ("taken", "kept")
        if black:
            yield Fill(*room)
            yield Hatch(left, frame.top, right - left, frame.height, 2_600, HAIR_UM)
        else:
            yield Frame(*room, LINE_UM)
        if band.kind == "weak":
            yield Hatch(left, frame.top, right - left, frame.height, 7_000, HAIR_UM)
        fitted = fit(band.text, SPECTRUM_BAND, max(1, room.width - 1_200), setter.metrics)
        if fitted.outcome == "whole" and len(fitted.lines) == 1:
            inner = Room(left + 600, room.y, room.width - 1_200, BAND_UM)
            baseline = room.y + (BAND_UM + fitted.cap_um) // 2
            yield setter.line(fitted, inner, baseline, "centre", white=black)


def _axis(spectrum: SpectrumWindow, frame: _Frame, context: Context) -> Iterator[Box]:
    """Whole megahertz under the bands, as many as have room."""
    span = frame.high - frame.low
    step = next((step for step in STEPS_HZ if step * frame.width // span >= TICK_ROOM_UM), STEPS_HZ[-1])
    foot = frame.bottom + _band_rows(spectrum) * BAND_UM
    for hz in range(-(-frame.low // step) * step, frame.high + 1, step):
        x = frame.x(hz)
        fitted = context.setter.fit(f"{hz // 1_000_000}", SPECTRUM_AXIS, TICK_ROOM_UM)
        width = fitted.width_um(context.metrics) + 400
        left = min(max(x - width // 2, 0), frame.left + frame.width - width)
        baseline = foot + 1_800 + fitted.cap_um
        yield Rule(x, foot, x, foot + 1_100, LINE_UM)
        yield context.setter.line(fitted, Room(left, foot, width, AXIS_UM), baseline, "centre")
