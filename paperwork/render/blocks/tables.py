"""A table as slices: one a row, a series for each group under its bar, the heads of columns on each page."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from paperwork.document import Blank, Line, RowGroup, Table
from paperwork.document.styles import BAR_HEAD, BAR_SMALL, BAR_TITLE, HEADING
from paperwork.render.blocks.cells import GUTTER_UM, INDENT_UM, PointLine, side_of
from paperwork.render.blocks.columns import column_widths, make_room
from paperwork.render.blocks.rows import (
    SNUG,
    WIDE,
    MeasuredRow,
    TableShape,
    common_grid,
    common_keys,
    cut_row,
    measure_row,
    place_band,
    row_height,
    set_row,
)
from paperwork.render.blocks.slices import SNUG_PERCENT, Context, Later, Series, Slice, set_bars
from paperwork.render.boxes import LINE_UM, Box, Fill, Room, Rule
from paperwork.render.grids import wrap_bar, wrap_heads, wrap_table
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line

HEADING_PAD_UM = 900


BETWEEN_UM = 9_000
"""Between two columns of rows: what the marks of a changed row take in a margin, and air."""


def lay_table(table: Table, context: Context) -> list[Series]:
    """The table's groups, each row a slice; a row that is taller than a page is cut and found."""
    across = (context.width + BETWEEN_UM) // (table.least_um + BETWEEN_UM) if table.least_um else 1
    across = max(1, min(across, sum(len(group.rows) for group in table.groups)))
    shift = (context.width + BETWEEN_UM) // across
    context = replace(context, width=shift - BETWEEN_UM)
    widths, measured = _measure(table, context)
    shape = _shape(table, widths, [row for rows in measured for row in rows], context)
    key, head = f"table {context.number}", _head(shape, context)
    series = []
    for number, (group, rows) in enumerate(zip(table.groups, measured, strict=True)):
        bar, again = (
            replace(one, boxes=tuple(wrap_table(key, wrap_bar(f"bar {number}", one.boxes, len(widths)))))
            if one.boxes
            else one
            for one in _bars(group, shape, context)
        )
        most = context.height - head.height - bar.height
        slices = tuple(_row_slice(row, shape, most, context) for row in rows)
        series.append(Series(slices, head, bar, again, group.new_page, across=across, shift=shift))
    return series


def _bars(group: RowGroup, shape: TableShape, context: Context) -> tuple[Slice, Slice]:
    """The bar of a group as it opens it and as it goes on."""
    return set_column_bars(group, shape.lefts, shape.widths, context) if group.columns else set_bars(group, context)


def _shape(table: Table, widths: tuple[int, ...], rows: list[MeasuredRow], context: Context) -> TableShape:
    pads = SNUG if context.snug else WIDE
    row_um = table.row_um * (SNUG_PERCENT if context.snug else 100) // 100
    return TableShape(
        table.columns,
        tuple(sum(widths[:index]) for index in range(len(widths))),
        widths,
        tuple(_point(table, index, width, context.metrics) for index, width in enumerate(widths)),
        common_grid(rows),
        row_um,
        common_keys(rows, len(widths), row_um, pads),
        pads,
    )


def _row_slice(row: MeasuredRow, shape: TableShape, most: int, context: Context) -> Slice:
    setter = context.setter.of(row.row)
    placed = [place_band(band, shape) for band in row.bands]
    height = row_height(placed, shape)
    if height > most:
        setter.fall_short("row-too-tall")
        row = cut_row(row, placed, most, shape.pads)
        placed = [place_band(band, shape) for band in row.bands]
        height = row_height(placed, shape)
    said = row.row
    for text, fitted in (cut for band in row.bands for cell in band.cells for cut in cell.cuts):
        setter.record(text, fitted)
    parts = max((band.parts for band in row.bands), default=1)

    def stretch(height: int) -> list[Box]:
        return wrap_table(f"table {context.number}", set_row(said, placed, shape, height, setter.metrics))

    boxes = Later(partial(stretch, height))
    return Slice(height, boxes, facts=row.facts, subjects=said.subjects, mark=said.mark, rows=parts, stretch=stretch)


def _measure(table: Table, context: Context) -> tuple[tuple[int, ...], list[list[MeasuredRow]]]:
    """The widths of the columns, and each group's rows in them; made anew where a number asks for more room."""
    key = context.number, context.width
    found: tuple[tuple[int, ...], list[list[MeasuredRow]]]
    if key in context.measured:
        found = context.measured[key]
        return found
    widths = column_widths(table.columns, context.width)
    measured = _measure_rows(table, widths, context)
    wider = make_room(widths, [row for rows in measured for row in rows], context.metrics)
    found = (widths, measured) if wider == widths else (wider, _measure_rows(table, wider, context))
    context.measured[key] = found
    return found


def _measure_rows(table: Table, widths: tuple[int, ...], context: Context) -> list[list[MeasuredRow]]:
    return [[measure_row(row, table.columns, widths, context.metrics) for row in group.rows] for group in table.groups]


def _point(table: Table, index: int, width: int, metrics: Metrics) -> PointLine:
    """Where the points of the column stand: with room for four decimals, given or not, so that a fourth moves nothing.

    A fifth decimal, or a column too narrow for four, makes its longest fraction end at the right edge.
    """
    room = width - GUTTER_UM - (INDENT_UM if table.columns[index].spares else 0)
    if table.columns[index].align != "point":
        return PointLine(room, room)
    tail = three = 0
    for item in _numbers(table, index):
        fitted = fit(item.text, item.style, room, metrics)
        fraction = item.text[item.text.index(".") :]
        tail = max(tail, metrics.width_um(fraction, fitted.face, fitted.cap_um))
        three = max(three, metrics.width_um(".000", fitted.face, fitted.cap_um))
        four = fit("000.0000", item.style, room, metrics)
        if four.outcome == "whole":
            tail = max(tail, metrics.width_um(".0000", four.face, four.cap_um))
    return PointLine(room - tail, room - tail + three)


def _numbers(table: Table, index: int) -> Iterator[Line | Blank]:
    for group in table.groups:
        for row in group.rows:
            for cell in row.cells[index]:
                for item in cell.items:
                    if isinstance(item, Line | Blank) and item.style.figures and "." in item.text:
                        yield item


def _head(shape: TableShape, context: Context) -> Slice:
    """The headings of the columns on one foot line, over a rule; nothing where no column has one."""
    places = [place for place in zip(shape.columns, shape.lefts, shape.points, strict=True) if place[0].heading]
    if not places:
        return Slice(0)
    texts = [context.setter.fit(column.heading, HEADING, point.end) for column, _, point in places]
    pitch = HEADING.wanted_um * 17 // 10
    height = max(len(text.lines) for text in texts) * pitch + 2 * HEADING_PAD_UM
    heads: dict[int, list[Box]] = {}
    for (column, left, point), text in zip(places, texts, strict=True):
        boxes = heads.setdefault(left, [])
        room = Room(left + (INDENT_UM if column.spares else 0), 0, point.end, height)
        for index, line in enumerate(text.lines):
            baseline = height - HEADING_PAD_UM - 700 - (len(text.lines) - 1 - index) * pitch
            boxes.append(set_line(line, text, room, baseline, context.metrics, side_of(column.align)))
    row = wrap_heads([heads.get(left, []) for left in shape.lefts])
    rule = Rule(0, height, context.width, height, LINE_UM)
    return Slice(height, (*wrap_table(f"table {context.number}", row), rule))


PAD_UM, GAP_UM = 900, 700
"""Over the first line and under the last one, and between the two."""

TITLE_COLUMNS = 2
"""The title stands over so many columns, which are numbers and need no words of their own."""


def set_column_bars(
    group: RowGroup, lefts: tuple[int, ...], widths: tuple[int, ...], context: Context
) -> tuple[Slice, Slice]:
    """The bar as it opens the group and as it goes on, two lines tall: the title, then what each column says."""
    setter = context.setter
    heads: list[tuple[Room, Fitted, Fitted | None]] = []
    for (head, small), left, width in zip(group.columns, lefts, widths, strict=True):
        if head:
            room = Room(left, 0, width - GUTTER_UM, 0)
            own = setter.fit(head, BAR_HEAD, room.width)
            heads.append((room, own, setter.fit(small, BAR_SMALL, room.width) if small else None))
    title_um = sum(widths[:TITLE_COLUMNS]) - INDENT_UM - GUTTER_UM
    titles = [
        setter.fit(text, BAR_TITLE, title_um)
        for text in (group.title, context.words["continued"].format(title=group.title))
    ]
    first = PAD_UM + max((own.rise_um for _, own, _ in heads), default=0)
    second = first + max((own.drop_um for _, own, _ in heads), default=0) + GAP_UM
    second += max((note.rise_um for _, _, note in heads if note), default=0) - GAP_UM // 2
    height = second + PAD_UM
    height += max((note.drop_um + (len(note.lines) - 1) * note.pitch_um for _, _, note in heads if note), default=0)
    bars = []
    for title in titles:
        lines = title.pitch_um * (len(title.lines) - 1)
        tall = max(height, title.rise_um + lines + title.drop_um + PAD_UM)
        room = Room(INDENT_UM, 0, title_um, tall)
        boxes: list[Box] = [Fill(0, 0, context.width, tall)]
        base = max((tall + title.cap_um - lines) // 2, title.rise_um + PAD_UM)
        boxes += [box._replace(white=True) for box in setter.lines(title, room, base)]
        for place, own, note in heads:
            place = place._replace(height=tall)
            boxes.append(setter.line(own, place, first if note else (tall + own.cap_um) // 2, white=True))
            if note:
                boxes += [box._replace(white=True) for box in setter.lines(note, place, second)]
        bars.append(Slice(tall, tuple(boxes), bar=True, facts=group.facts))
    return bars[0], bars[1]
