"""Rows of separated values that are longer than their headings: a name with a separator of its own, most likely."""

from collections.abc import Iterator

from paperwork.files.grid import Book
from paperwork.finding import Finding, find
from paperwork.intake.cells.rows import group_rows
from paperwork.intake.reading import quote
from paperwork.intake.tables.find import find_tables
from paperwork.intake.texts.personal import are_about_health, are_personal
from paperwork.text.headings import mean


def find_ragged(book: Book) -> Iterator[Finding]:
    """One finding for each row of a file of separated values with more values than its headings."""
    grid = book.grids[0] if book.grids else None
    if grid is None or grid.title or any(cell.place.sheet for cell in grid.cells.values()):
        return
    tables = find_tables(grid)
    if len(tables) != 1:
        return
    is_personal = any(mean(cell.text).fields[:1] == ("personal",) for cell in tables[0].heads)
    width = max(cell.column for cell in tables[0].heads if cell.row == tables[0].header)
    if tables[0].columns[1] > width:
        return
    for number, row in group_rows(grid).items():
        if number <= tables[0].header or max(row) <= width:
            continue
        texts = [row[column].text for column in sorted(row)]
        # the second half of a parted name is the first text where its neighbours hold something else
        parted = (i for i in range(1, len(texts)) if texts[i].rstrip(".").isalpha() and texts[i - 1][:1].isalpha())
        index = next(parted, len(texts) - 1)
        one, other, last = quote(texts[index - 1]), quote(texts[index]), quote(texts[-1])
        if is_personal or are_about_health(texts) or any(are_personal([text]) for text in texts):
            one, other, last = f"value {index}", f"value {index + 1}", "the last"
        place = row[sorted(row)[index]].place
        yield find("row-ragged", place, found=len(texts), wanted=width, one=one, other=other, last=last)
