"""In-ears and intercom: rows of their own, or columns beside the microphones of the same people."""

import re
from collections.abc import Iterable, Iterator

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.channel_rows import ChannelRow, note_home
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.records.frequency_cells import FrequencyCell
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.ids import read_id
from paperwork.intake.texts.names import is_blank
from paperwork.place import Place
from paperwork.raw import List, Text
from paperwork.text.headings import mean
from paperwork.text.vocabulary import is_nobody

_KNOWN = frozenset({"channel", "frequency", "performer", "pack", "ignore", "open", "personal"})
"""Columns that are read by themselves; what any other says of an in-ear is kept in its notes, under its heading."""

_OF_EARS = ("ear", "ear_frequency", "ear_send")


def add_other(row: ChannelRow, table: SheetTable, draft: ShowDraft, ledger: Ledger) -> DraftRecord:
    """An in-ear or intercom carrier of a row: no microphone, and on no mic plot."""
    record = draft.add("others", row.id, row.cell.place)
    record.put("kind", row.kind, row.cell.place)
    who = row.row.cell("performer") or row.row.cell("role")
    add_listeners(record, [(name, who.place) for name in _split(ledger.text(who))] if who else ())
    if (cell := row.row.cell("pack")) and not is_blank(pack := ledger.text(cell)) and pack:
        record.put_list("packs", [(pack, cell.place)], cell.place)
    note_home(row, record)
    for cell, title in _list_rest(row.row, table, who):
        text = ledger.text(cell)
        if text and not is_blank(text):
            record.notes.append((f"{title}: {text}" if title else text, cell.place))
    return record


def _list_rest(row: DataRow, table: SheetTable, who: GridCell | None) -> Iterator[tuple[GridCell, str]]:
    """The cells of a row that no field of an in-ear takes, each with its heading; notes go without one."""
    for column, name in row.columns.fields.items():
        cell, heading = row.cells.get(column), table.headings[column]
        if cell and cell is not who and cell.row == row.number and name and name not in _KNOWN:
            is_note = heading is None or mean(heading.text).fields[:1] == ("notes",)
            yield cell, "" if is_note or heading is None else " ".join(heading.text.split())


def add_listeners(record: DraftRecord, names: Iterable[tuple[str, Place]]) -> None:
    """Let those who are somebody listen to a carrier, after those who do already."""
    known = record.fields.get("listeners")
    listed = [(one.text, one.place) for one in known.items if isinstance(one, Text)] if isinstance(known, List) else []
    texts = {text for text, _ in listed}
    listed += [(name, place) for name, place in names if not is_nobody(name) and name not in texts]
    if listed:
        record.put_list("listeners", listed, listed[0][1])


def _split(text: str) -> list[str]:
    return [part for part in map(str.strip, re.split(r"[/\n;+&]", text)) if part]


def add_ears(
    row: ChannelRow, record: DraftRecord, table: SheetTable, draft: ShowDraft, ledger: Ledger
) -> Iterator[FrequencyCell]:
    """The in-ears that a row of a microphone names beside it: a carrier whose listener wears that microphone."""
    texts = {name: row.text(name, ledger) for name in _OF_EARS}
    texts = {name: text for name, text in texts.items() if text}
    if not texts:
        return
    first = next(cell for name in _OF_EARS if name in texts and (cell := row.row.cell(name)))
    number = read_id(texts.get("ear", ""))
    id = texts.get("ear") or f"IEM {record.id}"
    id = id if number.prefix or not number.digits else f"IEM {number.digits}"
    other = draft.add("others", id, first.place)
    other.put("kind", "in-ear", first.place)
    who = row.row.cell("performer") or row.row.cell("role")
    add_listeners(other, [(name, who.place) for name in _split(who.text)] if who else ())
    if (cell := row.row.cell("ear_send")) and "ear_send" in texts:
        heading = table.headings[cell.column]
        title = " ".join(heading.text.split()) if heading else "mix"
        other.notes.append((f"{title}: {texts['ear_send']}", cell.place))
    if (cell := row.row.cell("ear_frequency")) and "ear_frequency" in texts and "mhz" not in other.fields:
        yield FrequencyCell(other, cell)
