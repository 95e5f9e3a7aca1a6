"""Rows of separated values that are longer than their headings: a name with a separator of its own, most likely."""

from collections.abc import Iterator

from paperwork.files.grid import Book
from paperwork.finding import Finding, find
from paperwork.intake.ledger import quote
from paperwork.intake.tables import find_tables, group_rows


def find_ragged(book: Book) -> tuple[Finding, ...]:
    """One finding for each row of a file of separated values with more values than its headings."""
    grid = book.grids[0] if book.grids else None
    if grid is None or grid.title or any(cell.place.sheet for cell in grid.cells.values()):
        return ()
    return tuple(_each(book))


def _each(book: Book) -> Iterator[Finding]:
    grid = book.grids[0]
    tables = find_tables(grid)
    if len(tables) != 1:
        return
    table = tables[0]
    heads = [cell.column for cell in table.heads if cell.row == table.header]
    width = max(heads)
    for number, row in group_rows(grid).items():
        extra = [column for column in row if column > width]
        if number <= table.header or not extra or max(table.headings) > width:
            continue
        cells = [row[column] for column in sorted(row)]
        # the second half of a parted name is the first text that stands where its neighbours hold something else
        index = next(
            (
                i
                for i in range(1, len(cells))
                if cells[i].text.rstrip(".").isalpha() and cells[i - 1].text[:1].isalpha()
            ),
            len(cells) - 1,
        )
        one, other = quote(cells[index - 1].text), quote(cells[index].text)
        yield find(
            "row-ragged",
            cells[index].place,
            found=len(cells),
            wanted=width,
            one=one,
            other=other,
            last=quote(cells[-1].text),
        )
