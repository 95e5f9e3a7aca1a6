"""Channels that a list marks as cut, `CUT` under `Status`: asked once for each word, and left out of every table."""

from collections.abc import Hashable, Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.channel_rows import ChannelRow, find_kind
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.ids import key_of, read_id
from paperwork.text.names import join_words
from paperwork.text.vocabulary import fold_word, listed_words

CUT, KEEP = "cut", "keep"

_WAYS = frozenset(["in", "an", "ein", "dentro"]), frozenset(["out", "raus", "fuera"])
"""Words that are two ways where a column has both: `out` is then nothing that is cut."""


def leave_cut(tables: Sequence[SortedTable], ledger: Ledger) -> tuple[tuple[DataRow, ...], ...]:
    """The rows of each table of channels, without those of channels that are cut: the likely answer, until there is another."""
    gone: set[Hashable] = set()
    for table in tables:
        for head, cells in _list_marks(table).items():
            rows = [row for row in table.rows if any(cell in cells for cell in row.own)]
            named = dict.fromkeys(cell.text if (cell := row.cell("channel")) else f"row {row.number}" for row in rows)
            text = f"{quote(cells[0].text)} is beside channel{'s' if len(named) > 1 else ''} {join_words(tuple(named))}"
            choices = {CUT: "it is cut: leave the row out", KEEP: "it is on the air: the word stays in its notes"}
            others = tuple(cell.place for cell in cells[1:])
            about = ": ".join(filter(None, head))
            if ledger.ask("cut", about, cells[0].place, text, choices, others=others, default=CUT) == CUT:
                gone |= {_name(row, table) for row in rows}
    kept = []
    for table in tables:
        for row in table.rows:
            ledger.enter(row.own if _name(row, table) in gone else (), "cut")
        kept.append(tuple(row for row in table.rows if _name(row, table) not in gone))
    return tuple(kept)


def _list_marks(table: SortedTable) -> dict[tuple[str, str], list[GridCell]]:
    """The cells that say of a channel that it is cut, by their heading and their word."""
    found: dict[tuple[str, str], list[GridCell]] = {}
    for column in (number for number, field in table.columns.fields.items() if field == "notes"):
        cells = [row.cells[column] for row in table.rows if column in row.cells and row.cells[column] in row.own]
        ins, outs = _WAYS
        ways = outs if ins & {fold_word(cell.text) for cell in cells} else frozenset()
        heading = table.table.headings[column]
        for cell in cells:
            if not cell.struck and fold_word(cell.text) not in ways and _is_cut(cell.text):
                found.setdefault((heading.text if heading else "", cell.text), []).append(cell)
    return found


def _is_cut(text: str) -> bool:
    """Whether a text says that, and no more than when: `CUT`, `cut 12/3`."""
    return " ".join(word for word in fold_word(text).split() if word.isalpha()) in listed_words("cut_channel")


def _name(row: DataRow, table: SortedTable) -> Hashable:
    """What is the same in every row about one channel; of a row without a number its place."""
    cell = row.cell("channel")
    if cell is None or not cell.text.strip():
        return row.own[0].place if row.own else row.number
    parts = read_id(cell.text)
    return find_kind(ChannelRow(row, cell, parts), table.table.title or table.grid.title), key_of(parts.text)
