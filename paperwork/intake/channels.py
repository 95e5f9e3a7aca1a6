"""A channel list: rows to channels, in-ears and intercom, with everything else that a row tells."""

from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.carriers import Carrier, read_carriers
from paperwork.intake.cells import Cells
from paperwork.intake.columns import Columns
from paperwork.intake.draft import Draft, Record
from paperwork.intake.entries import (
    Entry,
    find_kind,
    is_spare_row,
    list_entries,
    pair_up,
    settle_ids,
    settle_twins,
)
from paperwork.intake.ids import find_style, key_of, print_id, read_id, read_place
from paperwork.intake.ledger import Ledger
from paperwork.intake.names import is_blank, is_spare
from paperwork.intake.people import add_cover, merge_users, read_user
from paperwork.intake.questions import Choice, Question
from paperwork.intake.rows import DataRow
from paperwork.intake.tables import Table
from paperwork.raw import Text
from paperwork.vocabulary import fold_word, is_nobody

NOTED = ("band", "input", "output", "battery", "colour", "serial", "gain", "type", "tv")
"""What a row may tell that no field of a channel holds: kept in its notes under the sheet's own heading."""


def read_channels(
    table: Table, columns: Columns, rows: Sequence[DataRow], cells: Cells, draft: Draft, ledger: Ledger
) -> dict[int, Record]:
    """Enter the channels of a table into the draft. Returns the record of each row that is a channel of ours."""
    entries = list_entries(rows, columns, cells, ledger)
    if not entries:
        return {}
    for entry in entries:
        entry.kind = find_kind(entry, columns, table.title or table.grid.title)
    settle_ids(entries, ledger)
    entries = settle_twins(entries, columns, ledger)
    pair_up(entries, columns)
    found: dict[int, Record] = {}
    carriers: list[Carrier] = []
    for entry in entries:
        if entry.kind:
            record = _add_other(entry, entry.kind, columns, cells, draft)
        else:
            record = _add_channel(entry, table, columns, cells, draft, ledger)
            found[entry.row.number] = record
        if carrier := _carrier_of(entry, record, columns, cells):
            carriers.append(carrier)
    read_carriers(carriers, cells, draft, ledger)
    _read_packs(entries, found, columns, cells, ledger)
    _read_places(entries, found, columns, cells, ledger)
    _leave_rest(entries, columns, ledger)
    return found


def _cell(entry: Entry, columns: Columns, name: str) -> GridCell | None:
    column = columns.of(name)
    return entry.row.cells.get(column) if column is not None else None


def _text(entry: Entry, columns: Columns, cells: Cells, name: str) -> str:
    cell = _cell(entry, columns, name)
    text = cells.text(cell) if cell else ""
    return "" if is_blank(text) else text


def _carrier_of(entry: Entry, record: Record, columns: Columns, cells: Cells) -> Carrier | None:
    cell = _cell(entry, columns, "frequency")
    if cell is None:
        return None
    if entry.joins and "mhz" in record.fields:
        return None
    tv = read_id(_text(entry, columns, cells, "tv")).digits
    return Carrier(record, cell, tv=tv, is_spread=cell.row != entry.row.number)


def _add_other(entry: Entry, kind: str, columns: Columns, cells: Cells, draft: Draft) -> Record:
    """An in-ear or intercom carrier: no microphone, and on no mic plot."""
    record = draft.add("others", entry.id, entry.cell.place)
    record.put("kind", kind, entry.cell.place)
    who = _cell(entry, columns, "performer") or _cell(entry, columns, "role")
    name = cells.text(who) if who else ""
    if who and not is_nobody(name):
        record.put_list("listeners", [(name, who.place)], who.place)
    return record


def _add_channel(entry: Entry, table: Table, columns: Columns, cells: Cells, draft: Draft, ledger: Ledger) -> Record:
    record = draft.add("channels", entry.joins.id if entry.joins else entry.id, entry.cell.place)
    if is_spare_row(entry, columns):
        record.put("spare", "yes", entry.cell.place)
        for name in ("performer", "role"):
            text = _text(entry, columns, cells, name)
            if text and not is_spare(text):
                record.notes.append((text, entry.cell.place))
    else:
        told = len(record.users)
        read_user(_cell(entry, columns, "role"), _cell(entry, columns, "performer"), cells, record, draft, ledger)
        for user in record.users[told:]:
            user.scenes = _text(entry, columns, cells, "scenes")
        if told and not entry.joins:
            merge_users(record, told, ledger)
    if entry.doubles:
        record.put("doubles", entry.doubles, entry.cell.place)
    if entry.parts.was:
        ledger.repair(
            "numbers with a history", entry.cell, entry.cell.text, entry.id, f"{entry.parts.was} is kept in the notes"
        )
        record.notes.append((f"was {entry.parts.was}", entry.cell.place))
    if capsule := _text(entry, columns, cells, "capsule"):
        _set(record, "capsule", capsule, _cell(entry, columns, "capsule"), ledger)
    if step := _text(entry, columns, cells, "step"):
        place = _cell(entry, columns, "step").place  # type: ignore[union-attr]
        draft.add("radios", step, place).put("step", step, place)
        record.put("radio", step, place)
    if (room := _text(entry, columns, cells, "room")) and record.by:
        draft.add("people", record.by, entry.cell.place).put("room", room, _cell(entry, columns, "room").place)  # type: ignore[union-attr]
    _take_cover(entry, columns, cells, record, draft)
    _note(entry, table, columns, cells, record, ledger)
    return record


def _set(record: Record, name: str, text: str, cell: GridCell | None, ledger: Ledger) -> None:
    """Set a field that nothing has told yet; where another table tells it differently, the first counts and it is said."""
    told = record.fields.get(name)
    if cell is None or (isinstance(told, Text) and fold_word(told.text) == fold_word(text)):
        return
    if isinstance(told, Text):
        ledger.repair(
            "facts that two tables tell differently",
            cell,
            text,
            told.text,
            f"the first table says so of channel {record.id}",
        )
        return
    record.put(name, text, cell.place)


def _take_cover(entry: Entry, columns: Columns, cells: Cells, record: Record, draft: Draft) -> None:
    """An understudy's column: a cover of each role of the channel."""
    name = _text(entry, columns, cells, "understudy")
    if is_nobody(name):
        return
    place = _cell(entry, columns, "understudy").place  # type: ignore[union-attr]
    for role in record.roles:
        add_cover(role, name, place, draft)
    if not record.roles:
        record.notes.append((f"understudy {name}", place))


def _note(entry: Entry, table: Table, columns: Columns, cells: Cells, record: Record, ledger: Ledger) -> None:
    """Notes as they stand; other facts under the heading that they have on the sheet."""
    for column, name in columns.fields.items():
        cell = entry.row.cells.get(column)
        if cell is None or name not in (*NOTED, "notes"):
            continue
        text = cells.text(cell)
        heading = table.headings[column]
        if text and not is_blank(text):
            title = " ".join(heading.text.split()) if heading and name != "notes" else ""
            record.notes.append((f"{title}: {text}" if title else text, cell.place))
    for cell in entry.row.cells.values():
        note = table.grid.notes.get((cell.row, cell.column))
        if note and cell.row == entry.row.number:
            record.notes.append((note, cell.place))


def _read_packs(entries: list[Entry], found: dict[int, Record], columns: Columns, cells: Cells, ledger: Ledger) -> None:
    """Pack numbers, in the printed style of their own majority; one that is the channel's number goes unsaid."""
    packs = [(e, c) for e in entries if (c := _cell(e, columns, "pack")) and e.row.number in found]
    parts = {id(e): read_id(cells.text(c)) for e, c in packs}
    style = find_style([p for p in parts.values() if p.digits])
    for entry, cell in packs:
        part, record = parts[id(entry)], found[entry.row.number]
        if not part.text or is_blank(part.text):
            continue
        pack = print_id(part, style)
        if part.was:
            ledger.repair("numbers with a history", cell, cell.text, pack, f"{part.was} is kept in the notes")
            record.notes.append((f"pack was {part.was}", cell.place))
        if key_of(pack) != key_of(record.id):
            _set(record, "pack", pack, cell, ledger)


def _read_places(
    entries: list[Entry], found: dict[int, Record], columns: Columns, cells: Cells, ledger: Ledger
) -> None:
    """Places in receivers by one pattern, confirmed once; what fits no pattern is kept in the notes."""
    told = [(e, c, cells.text(c)) for e in entries if (c := _cell(e, columns, "receiver")) and e.row.number in found]
    read = [(entry, cell, text, *read_place(text)) for entry, cell, text in told if text and not is_blank(text)]
    seen: dict[str, tuple[GridCell, str, str]] = {}
    for _, cell, text, place, pattern in read:
        if place:
            seen.setdefault(pattern, (cell, text, place))
    answers = {}
    for pattern, (cell, text, place) in seen.items():
        answers[pattern] = ledger.ask(
            Question(
                kind="receiver",
                about=pattern,
                place=cell.place,
                default="yes",
                text=f"places in receivers are read as {pattern}: {text} is rack {place.rpartition('.')[0]}, slot {place.rpartition('.')[2]}",
                choices=(Choice("yes", "as said"), Choice("notes", "keep them in the notes")),
            )
        )
    for entry, cell, text, place, pattern in read:
        if place and answers[pattern] == "yes":
            _set(found[entry.row.number], "slot", place, cell, ledger)
        else:
            found[entry.row.number].notes.append((f"receiver {text}", cell.place))


def _leave_rest(entries: list[Entry], columns: Columns, ledger: Ledger) -> None:
    """Cells of a known column that this kind of row has no field for, as the capsule of an in-ear, are listed."""
    for entry in entries:
        own = [(c, cell) for c, cell in entry.row.cells.items() if cell.row == entry.row.number]
        ledger.enter([cell for column, cell in own if columns.fields.get(column) == "frequency"], "used")
        rest = [cell for column, cell in own if columns.fields.get(column, "ignore") not in ("ignore", "open")]
        ledger.leave([cell for cell in rest if not is_blank(cell.text)], "this kind of row has no field for it")
        ledger.enter(rest, "used")
