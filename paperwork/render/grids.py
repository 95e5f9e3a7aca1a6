"""The parts of a table, for whoever has it read out: rows of as many cells each, the first of a row its head.

Where cells divide the height of a row, it is as many rows as it is divided into, and a cell that stands beside several
of them spans them.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import lcm

from paperwork.document import TableRow
from paperwork.render.boxes import Box, Open, TextBox, wrap


def wrap_table(key: str, boxes: Iterable[Box]) -> list[Box]:
    """What belongs to the table of a key, which may go on in other slices."""
    return wrap(Open("Table", key), boxes)


def wrap_row(row: TableRow, cells: Mapping[tuple[int, int], Sequence[Box]]) -> list[Box]:
    """The boxes of a row's cells by column and place in it, from the left."""
    count = lcm(*(len(parts) for parts in row.cells if parts))
    rows_of: list[Box] = []
    for line in range(count):
        found: list[tuple[int, Open, Sequence[Box]]] = []
        for column, parts in enumerate(row.cells):
            place, rest = divmod(line * len(parts), count)
            if not rest:
                is_head, rows = column == 0 and bool(parts[place].items), count // len(parts)
                opening = Open("TH", scope="Row", rows=rows) if is_head else Open("TD", rows=rows)
                boxes, link = cells.get((column, place), ()), parts[place].link
                found.append((column, opening, wrap(Open("Link", link=link), boxes) if link else boxes))
        rows_of += _wrap_cells(found)
    return rows_of


def _wrap_cells(cells: Iterable[tuple[int, Open, Sequence[Box]]]) -> list[Box]:
    """A row of cells from their columns; those beside each other in which nothing stands are one, so that a form is
    not a hundred blanks."""
    found: list[tuple[Open, Sequence[Box]]] = []
    goes_on = -1
    for column, opening, boxes in cells:
        blank = opening.kind == "TD" and not any(isinstance(box, TextBox) and box.text for box in boxes)
        if blank and goes_on == column and found[-1][0].rows == opening.rows:
            last, before = found[-1]
            found[-1] = last._replace(columns=last.columns + 1), (*before, *boxes)
        else:
            found.append((opening, boxes))
        goes_on = column + 1 if blank else -1
    return wrap(Open("TR"), (box for opening, boxes in found for box in wrap(opening, boxes)))


def wrap_heads(heads: Sequence[Sequence[Box]], key: str = "head") -> list[Box]:
    """The heads of all columns, which are shown again on each page; one without boxes is a blank corner."""
    cells = (wrap(Open("TH", scope="Column") if boxes else Open("TD"), boxes) for boxes in heads)
    return wrap(Open("TR", key, once=True), (box for boxes in cells for box in boxes))


def wrap_bar(key: str, boxes: Iterable[Box], columns: int) -> list[Box]:
    """A bar over all columns, which is shown again where its rows go on."""
    return wrap(Open("TR", key, once=True), wrap(Open("TH", scope="Column", columns=columns), boxes))


def wrap_spans(cells: Iterable[tuple[int, int, Sequence[Box]]], columns: int) -> list[Box]:
    """Cells from column to column, with blank ones between; what begins in a cell before it is in that one."""
    spans: list[tuple[int, list[Box]]] = []
    free = 0
    for first, end, boxes in cells:
        start = max(first, free)
        if end <= start and spans:
            spans[-1][1].extend(boxes)
            continue
        spans += [(start - free, [])] if start > free else []
        spans.append((end - start, list(boxes)))
        free = end
    spans += [(columns - free, [])] if columns > free else []
    return [box for width, boxes in spans for box in wrap(Open("TD", columns=width), boxes)]
