"""One row of a table: cells that share baselines, cells that stand beside several, and the row's marks."""

from dataclasses import replace
from typing import Any, NamedTuple

from paperwork.document import Column, TableRow, Tick, WriteIn
from paperwork.document.facts import row_facts
from paperwork.document.styles import step_under
from paperwork.frozen import frozen
from paperwork.render.blocks.cells import (
    FRAME_INSET_UM,
    FRAME_STROKE_UM,
    GAP_UM,
    GUTTER_UM,
    HATCH_UM,
    TICK_AIR_UM,
    CellLine,
    MeasuredCell,
    PointLine,
    measure_cell,
    set_cell_line,
    tick_side_um,
)
from paperwork.render.boxes import HAIR_UM, LINE_UM, Box, Frame, Hatch, Room, Rule
from paperwork.render.grids import wrap_row
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line


class Pads(NamedTuple):
    """What is kept free between a row's rules and its ink: small print that touches its rule is read as underlined."""

    above: int
    below: int


WIDE, SNUG = Pads(1_800, 1_500), Pads(1_100, 500)


@frozen
class RowBand:
    """The cells of one row that divide its height alike: part `index` of `parts`."""

    parts: int
    index: int
    columns: tuple[int, ...]
    cells: tuple[MeasuredCell, ...]


@frozen
class MeasuredRow:
    """A row fitted into its columns."""

    row: TableRow
    bands: tuple[RowBand, ...]
    facts: tuple[Any, ...] = ()


class PlacedBand(NamedTuple):
    """A band with the base lines of each cell's lines, from its top, and the height that they need."""

    band: RowBand
    bases: list[list[int]]
    needed: int


@frozen
class TableShape:
    """What a table's rows share: the columns' left edges and widths, points, grid of lines, height of keys, pads."""

    columns: tuple[Column, ...]
    lefts: tuple[int, ...]
    widths: tuple[int, ...]
    points: tuple[PointLine, ...]
    grid: tuple[int, ...]
    row_um: int
    keys: tuple[int, ...]
    pads: Pads = WIDE


def measure_row(row: TableRow, columns: tuple[Column, ...], widths: tuple[int, ...], metrics: Metrics) -> MeasuredRow:
    """The row's cells fitted and sorted into bands, the whole ones first."""
    if len(row.cells) != len(widths):
        raise ValueError(f"a row has {len(row.cells)} cells for {len(widths)} columns")
    bands: dict[tuple[int, int], list[tuple[int, MeasuredCell]]] = {}
    for column, parts in enumerate(row.cells):
        for index, cell in enumerate(parts):
            measured = measure_cell(cell, columns[column], widths[column], metrics)
            bands.setdefault((len(parts), index), []).append((column, measured))
    return MeasuredRow(
        row,
        tuple(
            RowBand(parts, index, tuple(c for c, _ in found), tuple(m for _, m in found))
            for (parts, index), found in sorted(bands.items())
        ),
        tuple(row_facts(row)),
    )


def common_grid(rows: list[MeasuredRow]) -> tuple[int, ...]:
    """How far the first base line is under a row's pad, and each further one under the one before, at the most in any
    row: base lines stand alike in all rows, with accents, descenders and stamps or without."""
    grid: list[int] = []
    for measured in rows:
        for cell in (cell for band in measured.bands for cell in band.cells if not cell.cell.key):
            for index in range(len(cell.lines)):
                if not _shares(cell, index):
                    break
                grid += [0] * (index == len(grid))
                grid[index] = max(grid[index], _pitch(cell, index))
    return tuple(grid)


def _pitch(cell: MeasuredCell, index: int) -> int:
    """What a line needs over its base line, from the row's pad or from the base line of the one before."""
    if not index:
        return cell.lines[0].rise + _frame_pad(cell)
    return cell.lines[index - 1].drop + GAP_UM + cell.lines[index].rise


def common_keys(rows: list[MeasuredRow], count: int, row_um: int, pads: Pads) -> tuple[int, ...]:
    """The one height of each column's keys: what the widest and the lowest row leave, never under the floor."""
    most = row_um - sum(pads) if row_um else 0
    keys = [0] * count
    for measured in rows:
        for band in measured.bands:
            for column, cell in zip(band.columns, band.cells, strict=True):
                if cell.cell.key and cell.lines:
                    fitted = cell.lines[0].fitted
                    own = max(fitted.floor_um, step_under(min(fitted.cap_um, most or fitted.cap_um)))
                    keys[column] = min(keys[column] or own, own)
    return tuple(keys)


def row_height(placed: list[PlacedBand], shape: TableShape) -> int:
    """The height that the row needs, never less than the table's row height for each part."""
    finest, parts = _part_heights(placed, shape)
    return max(sum(parts), *(needed * band.parts for band, _, needed in placed if band.parts != finest), 0)


def _part_heights(placed: list[PlacedBand], shape: TableShape) -> tuple[int, list[int]]:
    """Into how many parts the row is divided where it is divided most, and what each of them needs."""
    finest = max((band.parts for band, _, _ in placed), default=1)
    parts = [shape.row_um] * finest
    for band, _, needed in placed:
        if band.parts == finest:
            parts[band.index] = max(parts[band.index], needed)
    return finest, parts


def _edges(placed: list[PlacedBand], shape: TableShape, height: int) -> tuple[int, list[int]]:
    """The tops of the finest parts and the row's foot; what is over is shared evenly."""
    finest, parts = _part_heights(placed, shape)
    over = max(0, height - sum(parts))
    edges = [0]
    for index, part in enumerate(parts):
        edges.append(edges[-1] + part + over * (index + 1) // finest - over * index // finest)
    return finest, [*edges[:-1], height]


def cut_row(measured: MeasuredRow, placed: list[PlacedBand], most: int, pads: Pads) -> MeasuredRow:
    """The row with only the lines that fit a height: what is left of a row that is taller than a page."""
    bands = []
    for band, placed_bases, _ in placed:
        cells = tuple(
            cell if cell.cell.key else replace(cell, lines=_fitting(cell, bases, most // band.parts, pads.below))
            for cell, bases in zip(band.cells, placed_bases, strict=True)
        )
        bands.append(replace(band, cells=cells))
    return replace(measured, bands=tuple(bands))


def _fitting(cell: MeasuredCell, bases: list[int], most: int, below: int) -> tuple[CellLine, ...]:
    foot = below + _frame_pad(cell)
    return tuple(line for line, y in zip(cell.lines, bases, strict=True) if y + line.drop + foot <= most)


def place_band(band: RowBand, shape: TableShape) -> PlacedBand:
    """The base lines of one of a row's bands."""
    shared, below = _shared_baselines(band, shape), shape.pads.below
    placed: list[list[int]] = []
    bottom = sum(shape.pads)
    for column, cell in zip(band.columns, band.cells, strict=True):
        bases = [] if cell.cell.key else _own_baselines(cell, shared)
        placed.append(bases)
        if bases:
            bottom = max(bottom, bases[-1] + cell.lines[-1].drop + below + _frame_pad(cell))
        elif cell.lines:
            bottom = max(bottom, sum(_key_room(cell, shape.keys[column], shape.pads)))
    return PlacedBand(band, placed, bottom)


def _key_room(cell: MeasuredCell, cap_um: int, pads: Pads) -> tuple[int, int]:
    """What a key needs above and below its middle: half its text and a pad, or half a square, clear of rules."""
    item = cell.lines[0].item
    if isinstance(item, Tick):
        return (tick_side_um(item.style.wanted_um) // 2 + TICK_AIR_UM,) * 2
    return pads.above + cap_um // 2, pads.below + cap_um // 2


def _frame_pad(cell: MeasuredCell) -> int:
    return FRAME_INSET_UM if cell.cell.frame else 0


def _shares(cell: MeasuredCell, index: int) -> bool:
    """Whether the line stands on the row's baseline: all but keys, broken texts and lines to write on."""
    if cell.cell.key or index >= (1 if cell.broken else len(cell.lines)):
        return False
    return index == 0 or not isinstance(cell.lines[index].item, WriteIn)


def _shared_baselines(band: RowBand, shape: TableShape) -> list[int]:
    shared: list[int] = []
    for index in range(max((len(cell.lines) for cell in band.cells), default=0)):
        own = [_pitch(cell, index) for cell in band.cells if _shares(cell, index)]
        if not own:
            break
        shared.append((shared[-1] if shared else shape.pads.above) + max(shape.grid[index], *own))
    return shared


def _own_baselines(cell: MeasuredCell, shared: list[int]) -> list[int]:
    bases: list[int] = []
    for index, line in enumerate(cell.lines):
        if _shares(cell, index):
            bases.append(shared[index])
            continue
        wider = GAP_UM if line.first and not cell.lines[index - 1].first else 0
        own = bases[-1] + cell.lines[index - 1].drop + GAP_UM + wider + line.rise
        bases.append(max(own, shared[-1]) if isinstance(line.item, WriteIn) else own)
    return bases


def _set_keys(
    band: RowBand, placed: list[list[int]], shift: int, top: int, part: int, shape: TableShape
) -> list[tuple[CellLine, int] | None]:
    """Each key's line, as tall as all of its column, and its baseline in the middle of the stack beside it."""
    stacks = [
        (bases[0] - cell.lines[0].fitted.cap_um, bases[-1])
        for cell, bases in zip(band.cells, placed, strict=True)
        if bases and not cell.broken and not isinstance(cell.lines[-1].item, WriteIn)
    ]
    above, below = shape.pads.above, shape.pads.below
    first = min((head for head, _ in stacks), default=above) + shift
    last = max((foot for _, foot in stacks), default=part - below - shift) + shift
    keys: list[tuple[CellLine, int] | None] = []
    for column, cell in zip(band.columns, band.cells, strict=True):
        if not cell.cell.key or not cell.lines:
            keys.append(None)
            continue
        fitted = cell.lines[0].fitted
        cap = shape.keys[column]
        over, under = _key_room(cell, cap, shape.pads)
        middle = min(max((first + last) // 2, top + over), top + part - under)
        line = cell.lines[0] if fitted.cap_um == cap else replace(cell.lines[0], fitted=replace(fitted, cap_um=cap))
        keys.append((line, middle + cap // 2))
    return keys


def set_row(row: TableRow, placed: list[PlacedBand], shape: TableShape, height: int, metrics: Metrics) -> list[Box]:
    """The row's boxes, from its own top left corner, with the rule under it."""
    rules: list[Box] = []
    cells: dict[tuple[int, int], list[Box]] = {}
    finest, edges = _edges(placed, shape, height)
    for band, based, needed in placed:
        own = edges if band.parts == finest else [height * index // band.parts for index in range(band.parts + 1)]
        top, part = own[band.index], own[band.index + 1] - own[band.index]
        shift = top + (part - needed) // 2
        keys = _set_keys(band, based, shift, top, part, shape)
        for column, cell, bases, key in zip(band.columns, band.cells, based, keys, strict=True):
            area = Room(shape.lefts[column], top, shape.widths[column] - GUTTER_UM, part)
            lines = [key] if key else list(zip(cell.lines, [shift + y for y in bases], strict=True))
            cells[column, band.index] = _set_cell(cell, area, lines, shape, column, metrics)
            if band.index < band.parts - 1:
                edge, goes_on = top + part, column + 1 in band.columns or column == len(shape.lefts) - 1
                rules.append(Rule(area.x, edge, area.right + GUTTER_UM * goes_on, edge, HAIR_UM))
    rules.append(Rule(shape.lefts[0], height, shape.lefts[-1] + shape.widths[-1], height, HAIR_UM))
    return [*wrap_row(row, cells), *rules]


def _set_cell(
    cell: MeasuredCell, area: Room, lines: list[tuple[CellLine, int]], shape: TableShape, column: int, metrics: Metrics
) -> list[Box]:
    boxes: list[Box] = []
    if cell.cell.hatch:
        boxes.append(Hatch(area.x, area.y + 700, HATCH_UM, area.height - 1_400, 900, LINE_UM))
    if cell.cell.frame:
        inset = FRAME_INSET_UM
        boxes.append(Frame(area.x, area.y + inset, area.width, area.height - 2 * inset, FRAME_STROKE_UM, 1_200))
    room = Room(area.x + cell.left, area.y, cell.width, area.height)
    for line, baseline in lines:
        boxes += set_cell_line(line, room, baseline, shape.columns[column].align, shape.points[column], metrics)
    side = Room(room.right + GAP_UM, area.y, area.right - room.right - GAP_UM - cell.left, area.height)
    for index, fitted in enumerate(cell.beside):
        middle = area.y + area.height * (2 * index + 1) // (2 * len(cell.beside))
        boxes.append(set_line(fitted.lines[0], fitted, side, middle + fitted.cap_um // 2, metrics, "right"))
    return boxes
