"""Tables that name the mics of another table: a running order of who holds which, whose own numbers are none of channels."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from paperwork.intake.ledger import Ledger
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.ids import key_of

_PARTS = re.compile(r"\s*(?:[/,;&+\n]|\band\b|\bund\b|\bet\b|\by\b)\s*")


def settle_references(tables: Sequence[SortedTable], ledger: Ledger) -> list[SortedTable]:
    """The tables, of which those that name the mics of a list in another column than their own number are of who holds them
    when: their rows are scenes, each with its people, and a row of several mics is one for each."""
    listed = {
        key_of(cell.text)
        for table in tables
        if table.columns.has("channel") and table.columns.has("frequency")
        for row in table.rows
        if (cell := row.cell("channel"))
    }
    return [_settle(table, listed, ledger) for table in tables]


def _settle(table: SortedTable, listed: set[str], ledger: Ledger) -> SortedTable:
    fields = dict(table.columns.fields)
    own = table.columns.of("channel")
    if own is None or table.columns.has("frequency", "scenes") or table.columns.scenes or not listed:
        return table
    if any(key_of(cell.text) in listed for row in table.rows if (cell := row.cells.get(own))):
        return table
    naming = [n for n, name in fields.items() if name in _FREE and _names_mics(n, table, listed)]
    if not naming:
        return table
    titles = [n for n, name in fields.items() if own < n < naming[0] and name == "notes" and _is_title(n, table)]
    fields |= dict.fromkeys(naming[1:], "notes") | {naming[0]: "channel", own: "scenes"}
    if titles:
        fields |= {titles[0]: "scenes", own: "notes"}
    columns = replace(table.columns, fields=fields)
    for made in [one for one in ledger.decisions if one.kind == "column" and one.place.sheet == table.grid.title]:
        at = next((n for n, cell in table.table.headings.items() if cell and cell.place == made.place), None)
        if at in {own, *naming, *titles[:1]}:
            because = "its cells are the mics of another list" if at in naming else "the rows are of who has which mic"
            ledger.decisions[ledger.decisions.index(made)] = replace(made, value=fields[at], because=because)
    rows = tuple(part for row in table.rows for part in _part(replace(row, columns=columns), ledger))
    return replace(table, columns=columns, rows=rows)


_FREE = ("notes", "pack", "role", "input", "open")
"""What a column of such mics may have been taken for."""


def _names_mics(column: int, table: SortedTable, listed: set[str]) -> bool:
    parts = [part for row in table.rows if (cell := row.cells.get(column)) for part in _PARTS.split(cell.text)]
    return len(parts) > 1 and sum(key_of(part) in listed for part in parts) * 10 >= len(parts) * 7


def _is_title(column: int, table: SortedTable) -> bool:
    texts = [cell.text for row in table.rows if (cell := row.cells.get(column))]
    return len(texts) == len(table.rows) == len(set(texts))


def _part(row: DataRow, ledger: Ledger) -> Iterator[DataRow]:
    """A row for each of its mics, with the name at the same place of its cell; several names with one mic share it."""
    mic, who = row.cell("channel"), row.cell("performer") or row.cell("role")
    mics = _PARTS.split(mic.text) if mic else []
    names = _PARTS.split(who.text) if who else [""]
    if len(mics) < 2 or not mic:
        yield row
    elif len(names) not in (1, len(mics)):
        ledger.leave(row.own, "more people than mics, or fewer")
    else:
        for at, text in enumerate(mics):
            cells = {**row.cells, mic.column: replace(mic, text=text)}
            if who:
                cells[who.column] = replace(who, text=names[at % len(names)])
            yield replace(row, cells=cells)
