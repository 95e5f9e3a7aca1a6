"""One row of a table: cells that share baselines, cells that stand beside several, and the row's marks."""

from dataclasses import dataclass, replace
from typing import NamedTuple

from paperwork.document import Column, Row, WriteIn
from paperwork.render.boxes import Box, Fill, Frame, Hatch, Room, Rule
from paperwork.render.cells import (
    FRAME_INSET_UM,
    FRAME_STROKE_UM,
    GAP_UM,
    GUTTER_UM,
    HATCH_UM,
    Measured,
    Point,
    Slot,
    measure_cell,
    set_slot,
)  # fmt: skip
from paperwork.render.fit import fit, set_line
from paperwork.render.fonts import Metrics
from paperwork.styles import MARK


class Pads(NamedTuple):
    """What is kept free between a row's rules and its ink: small print that touches its rule is read as underlined."""

    above: int
    below: int


WIDE, SNUG = Pads(1_800, 1_500), Pads(1_200, 900)

RULE_UM = 200

MARK_BAR_UM = 1_400
MARK_GAP_UM = 1_000
MARK_ROOM_UM = 5_400


@dataclass(frozen=True, slots=True)
class Band:
    """The cells of one row that divide its height alike: part `index` of `parts`."""

    parts: int
    index: int
    columns: tuple[int, ...]
    cells: tuple[Measured, ...]


@dataclass(frozen=True, slots=True)
class MeasuredRow:
    """A row fitted into its columns."""

    row: Row
    bands: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """What a table's rows share: columns with left edges and widths, points, the drop below each line, how tall keys are, and pads."""

    columns: tuple[Column, ...]
    lefts: tuple[int, ...]
    widths: tuple[int, ...]
    points: tuple[Point, ...]
    drops: tuple[int, ...]
    row_um: int
    keys: tuple[int, ...]
    pads: Pads = WIDE


def measure_row(row: Row, columns: tuple[Column, ...], widths: tuple[int, ...], metrics: Metrics) -> MeasuredRow:
    """The row's cells fitted and sorted into bands, the whole ones first."""
    if len(row.cells) != len(widths):
        raise ValueError(f"a row has {len(row.cells)} cells for {len(widths)} columns")
    bands: dict[tuple[int, int], list[tuple[int, Measured]]] = {}
    for column, parts in enumerate(row.cells):
        for index, cell in enumerate(parts):
            measured = measure_cell(cell, columns[column], widths[column], metrics)
            bands.setdefault((len(parts), index), []).append((column, measured))
    return MeasuredRow(
        row,
        tuple(
            Band(parts, index, tuple(c for c, _ in found), tuple(m for _, m in found))
            for (parts, index), found in sorted(bands.items())
        ),
    )


def common_drops(rows: list[MeasuredRow]) -> tuple[int, ...]:
    """For each line from the top the deepest drop in any row, so that all rows keep one rhythm."""
    drops: list[int] = []
    for measured in rows:
        for band in measured.bands:
            for cell in band.cells:
                if not cell.cell.key and not cell.broken:
                    for index, slot in enumerate(cell.slots):
                        if index == len(drops):
                            drops.append(0)
                        drops[index] = max(drops[index], slot.drop)
    return tuple(drops)


def common_keys(rows: list[MeasuredRow], count: int, row_um: int, pads: Pads) -> tuple[int, ...]:
    """For each column the one height of its keys: what the widest of them and the lowest row leave, never under the floor."""
    most = row_um - sum(pads) if row_um else 0
    keys = [0] * count
    for measured in rows:
        for band in measured.bands:
            for column, cell in zip(band.columns, band.cells, strict=True):
                if cell.cell.key and cell.slots:
                    fitted = cell.slots[0].fitted
                    own = max(fitted.floor_um, min(fitted.cap_um, most or fitted.cap_um))
                    keys[column] = min(keys[column] or own, own)
    return tuple(keys)


def row_height(measured: MeasuredRow, grid: Grid) -> int:
    """The height that the row needs, never less than the table's row height for each part."""
    finest, parts = _part_heights(measured, grid)
    height = sum(parts)
    for band in measured.bands:
        if band.parts != finest:
            height = max(height, _baselines(band, grid)[1] * band.parts)
    return height


def _part_heights(measured: MeasuredRow, grid: Grid) -> tuple[int, list[int]]:
    """Into how many parts the row is divided where it is divided most, and what each of them needs."""
    finest = max((band.parts for band in measured.bands), default=1)
    parts = [grid.row_um] * finest
    for band in measured.bands:
        if band.parts == finest:
            parts[band.index] = max(parts[band.index], _baselines(band, grid)[1])
    return finest, parts


def _edges(measured: MeasuredRow, grid: Grid, height: int) -> tuple[int, list[int]]:
    """The tops of the finest parts and the row's foot; what is over is shared evenly."""
    finest, parts = _part_heights(measured, grid)
    over = max(0, height - sum(parts))
    edges = [0]
    for index, part in enumerate(parts):
        edges.append(edges[-1] + part + over * (index + 1) // finest - over * index // finest)
    return finest, [*edges[:-1], height]


def cut_row(measured: MeasuredRow, grid: Grid, most: int) -> MeasuredRow:
    """The row with only the lines that fit a height: what is left of a row that is taller than a page."""
    bands = []
    for band in measured.bands:
        placed, _ = _baselines(band, grid)
        cells = tuple(
            cell if cell.cell.key else replace(cell, slots=_fitting(cell, lines, most // band.parts, grid.pads.below))
            for cell, lines in zip(band.cells, placed, strict=True)
        )
        bands.append(replace(band, cells=cells))
    return replace(measured, bands=tuple(bands))


def _fitting(cell: Measured, lines: list[int], most: int, below: int) -> tuple[Slot, ...]:
    foot = below + _frame_pad(cell)
    return tuple(slot for slot, y in zip(cell.slots, lines, strict=True) if y + slot.drop + foot <= most)


def _baselines(band: Band, grid: Grid) -> tuple[list[list[int]], int]:
    """For each cell the baselines of its slots, from the top of the band; and the height that they need."""
    shared, below = _shared_baselines(band, grid), grid.pads.below
    placed: list[list[int]] = []
    bottom = sum(grid.pads)
    for column, cell in zip(band.columns, band.cells, strict=True):
        lines = [] if cell.cell.key else _own_baselines(cell, shared)
        placed.append(lines)
        if lines:
            bottom = max(bottom, lines[-1] + cell.slots[-1].drop + below + _frame_pad(cell))
        elif cell.slots:
            bottom = max(bottom, sum(grid.pads) + grid.keys[column])
    return placed, bottom


def _frame_pad(cell: Measured) -> int:
    return FRAME_INSET_UM if cell.cell.frame else 0


def _shares(cell: Measured, index: int) -> bool:
    """Whether the slot stands on the row's baseline: all but keys, broken texts and lines to write on."""
    if cell.cell.key or index >= (1 if cell.broken else len(cell.slots)):
        return False
    return index == 0 or not isinstance(cell.slots[index].item, WriteIn)


def _shared_baselines(band: Band, grid: Grid) -> list[int]:
    shared: list[int] = []
    for index in range(max((len(cell.slots) for cell in band.cells), default=0)):
        rises = [
            cell.slots[index].rise + (_frame_pad(cell) if index == 0 else 0)
            for cell in band.cells
            if _shares(cell, index)
        ]
        if not rises:
            break
        top = grid.pads.above if index == 0 else shared[-1] + grid.drops[index - 1] + GAP_UM
        shared.append(top + max(rises))
    return shared


def _own_baselines(cell: Measured, shared: list[int]) -> list[int]:
    lines: list[int] = []
    for index, slot in enumerate(cell.slots):
        if _shares(cell, index):
            lines.append(shared[index])
            continue
        wider = GAP_UM if slot.first and not cell.slots[index - 1].first else 0
        own = lines[-1] + cell.slots[index - 1].drop + GAP_UM + wider + slot.rise
        lines.append(max(own, shared[-1]) if isinstance(slot.item, WriteIn) else own)
    return lines


def _set_keys(
    band: Band, placed: list[list[int]], shift: int, top: int, part: int, grid: Grid
) -> list[tuple[Slot, int] | None]:
    """For each key its slot, as tall as all keys of its column, and its baseline in the middle of the stack beside it."""
    stacks = [
        (lines[0] - cell.slots[0].fitted.cap_um, lines[-1])
        for cell, lines in zip(band.cells, placed, strict=True)
        if lines and not cell.broken and not isinstance(cell.slots[-1].item, WriteIn)
    ]
    above, below = grid.pads
    first = min((head for head, _ in stacks), default=above) + shift
    last = max((foot for _, foot in stacks), default=part - below - shift) + shift
    keys: list[tuple[Slot, int] | None] = []
    for column, cell in zip(band.columns, band.cells, strict=True):
        if not cell.cell.key or not cell.slots:
            keys.append(None)
            continue
        fitted = cell.slots[0].fitted
        cap = grid.keys[column]
        middle = min(max((first + last) // 2, top + above + cap // 2), top + part - below - cap // 2)
        keys.append((replace(cell.slots[0], fitted=replace(fitted, cap_um=cap)), middle + cap // 2))
    return keys


def set_row(measured: MeasuredRow, grid: Grid, height: int, metrics: Metrics) -> list[Box]:
    """The row's boxes, from its own top left corner, with the rule under it and the mark in the margin."""
    boxes: list[Box] = []
    finest, edges = _edges(measured, grid, height)
    for band in measured.bands:
        own = edges if band.parts == finest else [height * index // band.parts for index in range(band.parts + 1)]
        top, part = own[band.index], own[band.index + 1] - own[band.index]
        placed, needed = _baselines(band, grid)
        shift = top + (part - needed) // 2
        keys = _set_keys(band, placed, shift, top, part, grid)
        for column, cell, lines, key in zip(band.columns, band.cells, placed, keys, strict=True):
            area = Room(grid.lefts[column], top, grid.widths[column] - GUTTER_UM, part)
            slots = [key] if key else list(zip(cell.slots, [shift + y for y in lines], strict=True))
            boxes.extend(_set_cell(cell, area, slots, grid, column, metrics))
            if band.index < band.parts - 1:
                edge, goes_on = top + part, column + 1 in band.columns or column == len(grid.lefts) - 1
                boxes.append(Rule(area.x, edge, area.right + GUTTER_UM * goes_on, edge, RULE_UM))
    boxes.append(Rule(grid.lefts[0], height, grid.lefts[-1] + grid.widths[-1], height, RULE_UM))
    boxes.extend(_set_mark(measured.row.mark, grid.lefts[0], height, metrics))
    return boxes


def _set_cell(
    cell: Measured, area: Room, slots: list[tuple[Slot, int]], grid: Grid, column: int, metrics: Metrics
) -> list[Box]:
    boxes: list[Box] = []
    if cell.cell.hatch:
        boxes.append(Hatch(area.x, area.y + 700, HATCH_UM, area.height - 1_400, 900, 300))
    if cell.cell.frame:
        inset = FRAME_INSET_UM
        boxes.append(Frame(area.x, area.y + inset, area.width, area.height - 2 * inset, FRAME_STROKE_UM, 1_200))
    room = Room(area.x + cell.left, area.y, cell.width, area.height)
    align = grid.columns[column].align
    point = grid.points[column]
    for slot, baseline in slots:
        boxes.extend(set_slot(slot, room, baseline, align, point, metrics))
    side = Room(room.right + GAP_UM, area.y, area.right - room.right - GAP_UM - cell.left, area.height)
    for index, fitted in enumerate(cell.beside):
        middle = area.y + area.height * (2 * index + 1) // (2 * len(cell.beside))
        boxes.append(set_line(fitted.lines[0], fitted, side, middle + fitted.cap_um // 2, metrics, "right"))
    return boxes


def _set_mark(mark: str, left: int, height: int, metrics: Metrics) -> list[Box]:
    if not mark:
        return []
    bar = left - MARK_GAP_UM - MARK_BAR_UM
    room = Room(bar - MARK_ROOM_UM - 300, 0, MARK_ROOM_UM, height)
    fitted = fit(mark, MARK, MARK_ROOM_UM, metrics)
    return [
        Fill(bar, 500, MARK_BAR_UM, height - 1_000),
        set_line(fitted.lines[0], fitted, room, (height + fitted.cap_um) // 2, metrics, "right"),
    ]
