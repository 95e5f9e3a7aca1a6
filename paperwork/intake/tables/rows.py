"""What each row of a table is: a channel, a section's title, a total, or prose."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal, TypeAlias

from paperwork.files.grid import GridCell
from paperwork.frozen import frozen
from paperwork.intake.cells.rows import SheetRow
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.tables.column import Columns
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.texts.bodies import is_named_mic
from paperwork.intake.texts.ids import is_id
from paperwork.intake.texts.names import is_blank, is_spare, read_casts
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import fold_word, is_nobody, is_total, listed_words

RowKind: TypeAlias = Literal["data", "section", "total", "remark"]

_COUNTED = re.compile(r"(?:(?P<a>[0-9]{1,4})\s+[^\W\d_]+|[^\W\d_]+\s*[:=]\s*(?P<b>[0-9]{1,4}))", re.IGNORECASE)
_SUMMING = re.compile(r"=\s*(?:COUNT|COUNTA|COUNTIF|SUM|SUBTOTAL)\b", re.IGNORECASE)

_LONGEST_KEY = 16
"""Letters of a channel that has no number, as `Lectern left`: longer ones are prose."""

_LONGEST_PLACE = 4
"""Words of a title that names a rack or a stage; longer ones are remarks."""

_GROUPED = ("channel", "pack", "performer", "role", "slot", "receiver")
"""What a scene or a unit has several of, in the rows below it."""


@frozen
class DataRow:
    """One row that holds a record, under the section title above it. `about` is set for one that is about the scenes over it:
    `page` or `scene_title`. `home` is the rack or the stage that the last title of one names, also below a title that only
    says which transmitters follow, `In-ears`."""

    number: int
    cells: SheetRow
    section: str
    columns: Columns
    about: str = ""
    home: str = ""

    @property
    def own(self) -> tuple[GridCell, ...]:
        """The cells of the row itself, without those that reach it by a merge."""
        return tuple(cell for cell in self.cells.values() if cell.row == self.number)

    def cell(self, field: str) -> GridCell | None:
        """The cell in the column of a field."""
        column = self.columns.of(field)
        return self.cells.get(column) if column is not None else None

    def stated(self, field: str) -> str:
        """What the cell of a field shows; "" where it only says that there is nothing, or nobody yet."""
        cell = self.cell(field)
        is_open = cell is None or is_blank(cell.text) or (field == "performer" and is_nobody(cell.text))
        return "" if cell is None or is_open else cell.text


def sort_rows(table: SheetTable, columns: Columns, ledger: Ledger) -> tuple[DataRow, ...]:
    """The rows that hold records. Section titles, totals and prose are written down as such."""
    found: list[DataRow] = []
    section = home = ""
    counts: list[tuple[GridCell, int]] = []
    titles: list[GridCell] = []
    for number, cells in table.rows.items():
        row = DataRow(number, cells, section, columns, _find_about(table, cells, columns), home)
        kind, own = _kind_of(table, row), row.own
        if kind == "data":
            _enter_titles(titles, ledger)
            titles = []
            found.append(row)
        elif kind == "section":
            section = own[0].text if own else section
            home = section if names_place(section) else home if _names_kind(section) else ""
            titles += own
        elif kind == "total":
            ledger.enter(own, "summary")
            counts += [(cell, count) for cell in own for count in _read_count(cell)]
        else:
            ledger.leave(own, "rows of prose")
    ledger.leave(titles, "rows of prose")  # a title with nothing below it is a remark or a legend
    counted = sum(any(column != columns.of("channel") for column in row.cells) for row in found)
    for cell, count in counts:
        if count != counted and cell.text:
            ledger.report("total-differs", cell.place, said=count, counted=counted)
    return tuple(found)


def fill_below(rows: Sequence[DataRow], columns: Columns) -> list[DataRow]:
    """The rows with what each group of them says once, in its first row, spread over all of the group, as a merge does.

    A column groups the rows where it is to the left of what it groups, is filled in the first row, and says each thing
    once. What is left of it is spread with it. A spare belongs to no group.
    """
    last = next((n for name in ("scenes", "unit") if (n := columns.of(name)) and _is_group(rows, n, columns)), None)
    if last is None:
        return list(rows)
    groups = [n for n, name in columns.fields.items() if n <= last and name != "personal"]
    found: list[DataRow] = []
    for row in rows:
        above = found[-1] if found and found[-1].section == row.section else None
        is_free = not any(n in row.cells for n in groups) and not is_spare(
            row.stated("performer") or row.stated("role")
        )
        spread = {n: above.cells[n] for n in groups if n in above.cells} if above and is_free else {}
        found.append(replace(row, cells={**row.cells, **spread}) if spread else row)
    return found


def _is_group(rows: Sequence[DataRow], column: int, columns: Columns) -> bool:
    grouped = [n for n, name in columns.fields.items() if name in _GROUPED and n != column]
    own = [row.cells[column].text for row in rows if column in row.cells and row.cells[column].row == row.number]
    is_before = bool(rows) and column in rows[0].cells and bool(grouped) and column < min(grouped)
    return is_before and len(own) < len(rows) and len(set(own)) == len(own)


def _find_about(table: SheetTable, cells: SheetRow, columns: Columns) -> str:
    """What a row of a turned grid says of the scenes above it, by the label in its first column."""
    label = cells[min(cells)]
    meaning = mean(label.text)
    is_label = bool(columns.scenes) and label.column < columns.scenes[0]
    if is_label and table.grid.head and fold_heading(label.text) in listed_words("scene_corner"):
        return "scene_title"
    is_label = is_label and meaning.is_exact
    return meaning.fields[0] if is_label and meaning.fields[0] in ("page", "scene_title") else ""


def _enter_titles(cells: Sequence[GridCell], ledger: Ledger) -> None:
    """Write titles between rows down as such, and say them: one may be somebody beside whom nothing is written."""
    ledger.enter(cells, "title")
    if cells:
        ledger.lines.append(f"a title between the rows: {', '.join(quote(cell.text) for cell in cells)}")


def _kind_of(table: SheetTable, row: DataRow) -> RowKind:
    columns, cells = row.columns, sorted(row.own, key=lambda cell: cell.column)
    if not cells:
        return "data"
    if row.number in table.wide:
        return "section"
    if is_total(cells[0].text) or any(_SUMMING.match(cell.formula) for cell in cells):
        return "total"
    if _is_remark(cells[0].text) and columns.fields.get(cells[0].column) not in ("channel", "pack"):
        return "remark"
    at = columns.of("channel")
    if table.grid.head and columns.scenes and cells[0].column < columns.scenes[0] and _heads_notes(cells[0].text):
        return "remark"  # what is said of the scenes of a plot that lies on its side
    if (
        columns.scenes
        and table.grid.head
        and not row.about
        and at in row.cells
        and not is_id(row.cells[at].text)
        and _heads_mics(table, at)
    ):
        return "remark"  # `Lead` beside `HH 1` and `HH 2`: what is said of the songs
    if len(row.cells) == 1:
        return _kind_of_single(table, columns, cells[0])
    if at in row.cells and _is_no_key(row.cells[at].text, table, at):
        return "remark"
    known = any(columns.fields.get(column, "ignore") not in ("notes", "ignore") for column in row.cells)
    return "data" if known or any(column in columns.scenes for column in row.cells) else "remark"


def _heads_notes(text: str) -> bool:
    meaning = mean(text)
    return meaning.is_exact and meaning.fields[0] == "notes"


def _is_no_key(text: str, table: SheetTable, column: int) -> bool:
    """Whether a text among the numbers of channels is none: a legend, or a title that each printed page repeats."""
    if is_id(text) or ("=" not in text and len(text) <= _LONGEST_KEY):
        return False
    texts = [row[column].text for row in table.rows.values() if column in row]
    short = [one for one in texts if len(one) <= _LONGEST_KEY and "=" not in one]
    return sum(map(is_id, short)) * 2 > len(short)


def _heads_mics(table: SheetTable, column: int) -> bool:
    texts = [row[column].text for row in table.rows.values() if column in row]
    return sum(map(is_named_mic, texts)) * 3 >= len(texts) * 2


def names_place(text: str) -> bool:
    """Whether a text names a rack or a stage: `Rack 1`, `Main Stage`."""
    words = fold_word(text).split()
    return 1 < len(words) <= _LONGEST_PLACE and not (listed_words("rack") | listed_words("stage")).isdisjoint(words)


def _names_kind(text: str) -> bool:
    """Whether a title only says which transmitters follow: `In-ears`, `Handhelds`, `Spares`."""
    kinds = ("in_ear", "intercom", "handheld", "beltpack", "lavalier")
    return is_spare(text) or any(fold_word(text) in listed_words(kind) for kind in kinds)


def _kind_of_single(table: SheetTable, columns: Columns, cell: GridCell) -> RowKind:
    """A row of one cell: a number without anything else, a name, a count, a title between two groups, or prose."""
    text, name = cell.text, columns.fields.get(cell.column, "")
    is_number = name in ("channel", "pack") and is_id(text)
    if is_number and names_place(text):  # `Rack 1`, unless mics are called so
        named = [row for row in table.rows.values() if cell.column in row and names_place(row[cell.column].text)]
        is_number = any(len(row) > 1 for row in named)
    is_one_word = name == "channel" and is_number and " " not in text
    if _COUNTED.fullmatch(text.strip()) and not is_spare(text) and not is_one_word:
        return "total"
    if is_number:
        return "data"
    if name in ("performer", "role") and (columns.of("channel") is None or is_spare(text)) and not _is_prose(text):
        return "data"
    is_short = len(text) <= 32 and not re.search(r"[.!?:]\s|[.!?]$", text)
    return "section" if is_short and cell.column == min((*columns.fields, cell.column)) else "remark"


def _is_remark(text: str) -> bool:
    """Whether a text opens as a remark does: `Note: ...`, `Achtung! ...`, `N.B.: ...`."""
    opening, sign, _ = text.replace("!", ":").partition(":")
    return bool(sign) and fold_word(opening) in listed_words("remark")


def _is_prose(text: str) -> bool:
    """Whether a text by itself is a sentence or a legend and nobody's name."""
    count = len(text.split())
    is_sentence = count > 4 and re.search(r"[.!?;]$|[.!?;:]\s", text) and not read_casts(text)
    return bool(_is_remark(text) or "=" in text or is_sentence or count > 8)


def _read_count(cell: GridCell) -> Iterator[int]:
    match = _COUNTED.fullmatch(cell.text.strip())
    if match:
        yield int(match["a"] or match["b"])
    elif _SUMMING.match(cell.formula) and "COUNT" in cell.formula.upper() and cell.text.isdigit():
        yield int(cell.text)
