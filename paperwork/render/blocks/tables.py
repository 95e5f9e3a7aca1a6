"""A table as slices: one a row, a series for each group under its bar, the heads of columns on each page."""

from collections.abc import Iterator

from paperwork.document import Blank, Line, Table
from paperwork.document.facts import row_facts
from paperwork.document.styles import HEADING
from paperwork.render.blocks.cells import GUTTER_UM, INDENT_UM, PointLine, side_of
from paperwork.render.blocks.columns import column_widths, make_room
from paperwork.render.blocks.rows import (
    SNUG,
    WIDE,
    MeasuredRow,
    TableShape,
    common_drops,
    common_keys,
    cut_row,
    measure_row,
    row_height,
    set_row,
)
from paperwork.render.blocks.slices import BAR_UM, Context, Series, Slice, put_under_bar
from paperwork.render.boxes import LINE_UM, Box, Room, Rule
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line

HEADING_PAD_UM = 900


def lay_table(table: Table, context: Context) -> list[Series]:
    """The table's groups, each row a slice; a row that is taller than a page is cut and found."""
    widths, measured = _measure(table, context)
    shape = _shape(table, widths, [row for rows in measured for row in rows], context)
    head = _head(shape, context)
    most = context.height - head.height - BAR_UM
    series = []
    for group, rows in zip(table.groups, measured, strict=True):
        slices = tuple(_row_slice(row, shape, most, context) for row in rows)
        series.append(put_under_bar(group, slices, head, context))
    return series


def _shape(table: Table, widths: tuple[int, ...], rows: list[MeasuredRow], context: Context) -> TableShape:
    pads = SNUG if context.snug else WIDE
    return TableShape(
        table.columns,
        tuple(sum(widths[:index]) for index in range(len(widths))),
        widths,
        tuple(_point(table, index, width, context.metrics) for index, width in enumerate(widths)),
        common_drops(rows),
        table.row_um,
        common_keys(rows, len(widths), table.row_um, pads),
        pads,
    )


def _row_slice(row: MeasuredRow, shape: TableShape, most: int, context: Context) -> Slice:
    setter = context.setter.of(row.row)
    height = row_height(row, shape)
    if height > most:
        setter.find("row-too-tall")
        row = cut_row(row, shape, most)
        height = row_height(row, shape)
    said = row.row
    boxes = tuple(set_row(row, shape, height, setter))
    return Slice(height, boxes, facts=tuple(row_facts(said)), subjects=said.subjects, mark=said.mark)


def _measure(table: Table, context: Context) -> tuple[tuple[int, ...], list[list[MeasuredRow]]]:
    """The widths of the columns, and each group's rows in them; made anew where a number asks for more room."""
    widths = column_widths(table.columns, context.width)
    measured = _measure_rows(table, widths, context)
    wider = make_room(widths, [row for rows in measured for row in rows], context.metrics)
    return (widths, measured) if wider == widths else (wider, _measure_rows(table, wider, context))


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
    boxes: list[Box] = []
    for (column, left, point), text in zip(places, texts, strict=True):
        room = Room(left + (INDENT_UM if column.spares else 0), 0, point.end, height)
        for index, line in enumerate(text.lines):
            baseline = height - HEADING_PAD_UM - 700 - (len(text.lines) - 1 - index) * pitch
            boxes.append(set_line(line, text, room, baseline, context.metrics, side_of(column.align)))
    boxes.append(Rule(0, height, context.width, height, LINE_UM))
    return Slice(height, tuple(boxes))
