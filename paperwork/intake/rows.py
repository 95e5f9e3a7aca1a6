"""What each row of a table is: a channel, a section's title, a total, or prose."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from paperwork.files.grid import GridCell
from paperwork.finding import find
from paperwork.intake.columns import Columns
from paperwork.intake.ids import is_id
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.names import is_spare, read_casts
from paperwork.intake.tables import Row, Table
from paperwork.vocabulary import fold_word, is_total, listed_words

RowKind: TypeAlias = Literal["data", "section", "total", "remark"]

_COUNTED = re.compile(r"(?:(?P<a>[0-9]{1,4})\s+[^\W\d_]+|[^\W\d_]+\s*[:=]\s*(?P<b>[0-9]{1,4}))", re.IGNORECASE)
_SUMMING = re.compile(r"=\s*(?:COUNT|COUNTA|COUNTIF|SUM|SUBTOTAL)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class DataRow:
    """One row that holds a record, under the section title above it."""

    number: int
    cells: Row
    section: str


def sort_rows(table: Table, columns: Columns, ledger: Ledger) -> tuple[DataRow, ...]:
    """The rows that hold records. Section titles, totals and prose are written down as such."""
    found: list[DataRow] = []
    section = ""
    said: list[tuple[GridCell, int]] = []
    titles: list[GridCell] = []
    for number, row in table.rows.items():
        kind = _tell_kind(table, columns, number, row)
        own = [cell for cell in row.values() if cell.row == number]
        if kind == "data":
            _tell_titles(titles, ledger)
            titles = []
            found.append(DataRow(number, row, section))
        elif kind == "section":
            section = own[0].text if own else section
            titles += own
        elif kind == "total":
            ledger.enter(own, "summary")
            said += [(cell, count) for cell in own for count in _read_count(cell)]
        else:
            ledger.leave(own, "rows of prose")
    ledger.leave(titles, "rows of prose")  # a title with nothing below it is a remark or a legend
    counted = len([row for row in found if not _is_blank_record(row, columns)])
    for cell, count in said:
        if count != counted and cell.text:
            ledger.findings.append(find("total-differs", cell.place, said=count, counted=counted))
    return tuple(found)


def _tell_titles(cells: list[GridCell], ledger: Ledger) -> None:
    """Write titles between rows down as such, and say them: one may be somebody beside whom nothing stands."""
    ledger.enter(cells, "title")
    if cells:
        ledger.told.append(f"a title between the rows: {', '.join(quote(cell.text) for cell in cells)}")


def _tell_kind(table: Table, columns: Columns, number: int, row: Row) -> RowKind:
    cells = [cell for column, cell in sorted(row.items()) if cell.row == number]
    if not cells:
        return "data"
    if number in table.wide:
        return "section"
    if is_total(cells[0].text) or any(_SUMMING.match(cell.formula) for cell in cells):
        return "total"
    if _is_remark(cells[0].text) and columns.fields.get(cells[0].column) not in ("channel", "pack"):
        return "remark"
    known = [column for column in row if column in columns.fields and columns.fields[column] not in ("notes", "ignore")]
    if len(cells) > 1 or len(row) > 1:
        return "data" if known or any(column in columns.scenes for column in row) else "remark"
    return _tell_single(columns, cells[0])


def _tell_single(columns: Columns, cell: GridCell) -> RowKind:
    """A row of one cell: a number without anything else, a name, a count, a title between two groups, or prose."""
    text, name = cell.text, columns.fields.get(cell.column, "")
    if (
        _COUNTED.fullmatch(text.strip())
        and not is_spare(text)
        and not (name == "channel" and is_id(text) and " " not in text)
    ):
        return "total"
    if name in ("channel", "pack") and is_id(text):
        return "data"
    if name in ("performer", "role") and (columns.of("channel") is None or is_spare(text)) and not _is_prose(text):
        return "data"
    if (
        len(text) <= 32
        and not re.search(r"[.!?:]\s|[.!?]$", text)
        and cell.column == min((*columns.fields, cell.column))
    ):
        return "section"
    return "remark"


def _is_remark(text: str) -> bool:
    """Whether a text opens as a remark does: `Note: ...`, `Achtung! ...`, `N.B.: ...`."""
    opening, sign, _ = text.replace("!", ":").partition(":")
    return bool(sign) and fold_word(opening) in listed_words("remark")


def _is_prose(text: str) -> bool:
    """Whether a text that stands alone is a sentence or a legend and nobody's name."""
    count = len(text.split())
    is_sentence = count > 4 and re.search(r"[.!?;]$|[.!?;:]\s", text) and not read_casts(text)
    return bool(_is_remark(text) or "=" in text or is_sentence or count > 8)


def _read_count(cell: GridCell) -> Iterator[int]:
    match = _COUNTED.fullmatch(cell.text.strip())
    if match:
        yield int(match["a"] or match["b"])
    elif _SUMMING.match(cell.formula) and "COUNT" in cell.formula.upper() and cell.text.isdigit():
        yield int(cell.text)


def _is_blank_record(row: DataRow, columns: Columns) -> bool:
    return all(column == columns.of("channel") for column in row.cells)
