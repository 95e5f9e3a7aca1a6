"""A channel list: rows to channels, in-ears and intercom, with everything else that a row holds."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.channel_rows import ChannelRow, is_spare_row, list_channel_rows
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.intake.records.frequency_cells import FrequencyCell, read_frequency_cells
from paperwork.intake.records.people import add_cover, merge_users, read_users
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.headings import mean
from paperwork.intake.texts.ids import find_style, key_of, print_id, read_id, read_place
from paperwork.intake.texts.names import is_blank, is_spare
from paperwork.raw import Text
from paperwork.text.vocabulary import fold_word, is_nobody

NOTED = frozenset(
    [
        "band",
        "input",
        "output",
        "battery",
        "colour",
        "serial",
        "gain",
        "type",
        "tv",
        "preset",
        "power",
        "lock",
        "belt",
        "scene_title",
        "page",
    ]
)
"""What a row may hold that no field of a channel holds: kept in its notes under the sheet's own heading."""

_OPEN = frozenset({"performer", "role", "frequency"})
_SAYS = re.compile(r"[^\W\d_]|\?")
"""What a cell of those has in it that says that something is open, `tbc` or `?`: it stays to be seen in the notes."""

_TICKS = str.maketrans(dict.fromkeys("✓✔☑", "yes") | dict.fromkeys("✗✘☒☐", "no"))

PlaceCell: TypeAlias = tuple[DataRow, GridCell, str, str, str]
"""A row, its cell of a place, the text there, the place that it was read as, and the pattern."""

Channels = Mapping[int, DraftRecord]
"""The channels of a table by the number of their row."""


def read_channels(table: SheetTable, rows: Sequence[DataRow], draft: ShowDraft, ledger: Ledger) -> Channels:
    """Enter the channels of a table into the draft. Returns the record of each row that is a channel of ours."""
    listed = list_channel_rows(rows, table, ledger)
    found: dict[int, DraftRecord] = {}
    frequencies: list[FrequencyCell] = []
    for row in listed:
        if row.kind:
            record = _add_other(row, draft, ledger)
        else:
            record = found[row.row.number] = _add_channel(row, table, draft, ledger)
            frequencies += _add_second(row, record, table, draft, ledger)
        cell = row.row.cell("frequency")
        if cell and not (row.joins is not None and "mhz" in record.fields):
            tv = read_id(row.text("tv", ledger)).digits
            frequencies.append(FrequencyCell(record, cell, tv, is_spread=cell.row != row.row.number))
    read_frequency_cells(frequencies, draft, ledger)
    channels = [row.row for row in listed if row.row.number in found]
    _read_packs(channels, found, ledger)
    _read_places(channels, found, ledger)
    for row in listed:
        _leave_rest(row.row, ledger)
    return found


def _add_other(row: ChannelRow, draft: ShowDraft, ledger: Ledger) -> DraftRecord:
    """An in-ear or intercom carrier: no microphone, and on no mic plot."""
    record = draft.add("others", row.id, row.cell.place)
    record.put("kind", row.kind, row.cell.place)
    who = row.row.cell("performer") or row.row.cell("role")
    name = ledger.text(who) if who else ""
    if who and not is_nobody(name):
        record.put_list("listeners", [(name, who.place)], who.place)
    return record


def _add_channel(row: ChannelRow, table: SheetTable, draft: ShowDraft, ledger: Ledger) -> DraftRecord:
    place = row.cell.place
    record = draft.add("channels", row.id if row.joins is None else row.joins, place)
    if is_spare_row(row):
        saying = [cell for field in ("performer", "role") if (cell := row.row.cell(field)) and is_spare(cell.text)]
        record.put("spare", "yes", saying[0].place if saying else place)
        texts = (row.text("performer", ledger), row.text("role", ledger))
        record.notes += [(text, place) for text in texts if text and not is_spare(text)]
    else:
        users = read_users(row.row, record, draft, ledger)
        for user in users:
            user.scenes = row.text("scenes", ledger)
            user.listed = cell.place if (cell := row.row.cell("scenes")) else user.place
        if row.joins is not None or not record.users:
            record.users += users
        else:
            merge_users(record, users, ledger)
    if row.doubles:
        record.put("doubles", row.doubles, place)
    if was := row.parts.was:
        ledger.repair("numbers with a history", row.cell, row.cell.text, row.id, f"{was} is kept in the notes")
        record.notes.append((f"was {was}", place))
    _add_facts(row, record, draft, ledger)
    _add_notes(row.row, record, table, ledger)
    return record


def _add_second(
    row: ChannelRow, record: DraftRecord, table: SheetTable, draft: ShowDraft, ledger: Ledger
) -> list[FrequencyCell]:
    """The second pack of a row, or the spare that stands by for it, as a channel of its own; its frequency, if it has one."""
    cell, number = row.row.cell("frequency2"), row.second or row.text("second", ledger)
    if not number and not (cell and cell.text and not is_blank(cell.text)):
        return []
    id = number or f"{record.id}B"
    other = draft.add("channels", id, row.cell.place)
    if ledger.find_taken("second", table.grid.title or "the table") == "spare":
        other.put("spare", "yes", row.cell.place)
        other.put("backs", record.id, row.cell.place)
    else:
        other.put("doubles", record.id, row.cell.place)
        other.mirrors = record.id
    for fact in [fact for fact in record.facts if fact.field == "input"]:
        first, sign, second = (part.strip() for part in fact.text.partition("/"))
        if sign:  # the desk inputs of both packs in one cell
            record.replace(fact, [fact._replace(text=first)])
            other.replace(None, [fact._replace(text=second)])
    return [FrequencyCell(other, cell)] if cell and "mhz" not in other.fields else []


def _add_facts(row: ChannelRow, record: DraftRecord, draft: ShowDraft, ledger: Ledger) -> None:
    """Capsule, radio step, room and understudy of a channel's row."""
    if (cell := row.row.cell("capsule")) and (capsule := row.text("capsule", ledger)):
        _set(record, "capsule", capsule, cell, ledger)
    if (cell := row.row.cell("step")) and (step := row.text("step", ledger)):
        draft.add("radios", step, cell.place).put("step", step, cell.place)
        record.put("radio", step, cell.place)
    if (cell := row.row.cell("room")) and (room := row.text("room", ledger)) and record.by:
        draft.add("people", record.by, row.cell.place).put("room", room, cell.place)
    if (cell := row.row.cell("understudy")) and not is_nobody(name := row.text("understudy", ledger)):
        for role in record.roles:
            add_cover(role, name, cell.place, draft)
        if not record.roles:
            record.notes.append((f"understudy {name}", cell.place))


def _set(record: DraftRecord, name: str, text: str, cell: GridCell, ledger: Ledger) -> None:
    """Set a field that has no value yet; where another table has another value, the first counts and it is said."""
    known = record.fields.get(name)
    if not isinstance(known, Text):
        record.put(name, text, cell.place)
    elif fold_word(known.text) != fold_word(text):
        because = f"the first table says so of channel {record.id}"
        ledger.repair("facts that two tables tell differently", cell, text, known.text, because)


def _add_notes(row: DataRow, record: DraftRecord, table: SheetTable, ledger: Ledger) -> None:
    """Notes as they are written; other facts under the heading that they have on the sheet."""
    for column, name in row.columns.fields.items():
        cell = row.cells.get(column)
        text = ledger.text(cell) if cell and name in {*NOTED, "notes"} else ""
        if cell and text and not is_blank(text):
            heading = table.headings[column]
            title = " ".join(heading.text.split()) if heading and mean(heading.text).fields[:1] != ("notes",) else ""
            if text != (plain := text.translate(_TICKS)):
                ledger.repair("ticks in notes", cell, text, plain, "the papers have no such sign")
            fact = Fact(name, title, plain, cell.place)
            record.facts.append(fact)
            record.notes.append(fact.note)
    for column, name in row.columns.fields.items():
        cell, heading = row.cells.get(column), table.headings[column]
        if cell and heading and name in _OPEN and is_nobody(cell.text) and _SAYS.search(cell.text):
            record.notes.append((f"{' '.join(heading.text.split())}: {cell.text.strip()}", cell.place))
    personal = {column for column, name in row.columns.fields.items() if name == "personal"}
    pinned = [(table.grid.notes.get((c.row, c.column)), c.place) for c in row.own if c.column not in personal]
    record.notes += [(note, place) for note, place in pinned if note]


def _read_packs(rows: Sequence[DataRow], found: Channels, ledger: Ledger) -> None:
    """Pack numbers, in the printed style of their own majority; one that is the channel's number goes unsaid."""
    packs = [(row, cell, read_id(ledger.text(cell))) for row in rows if (cell := row.cell("pack"))]
    style = find_style([parts for _, _, parts in packs if parts.digits])
    for row, cell, parts in packs:
        record, pack = found[row.number], print_id(parts, style)
        if not parts.text or is_blank(parts.text):
            continue
        if parts.was:
            because = f"{parts.was} is kept in the notes"
            ledger.repair("numbers with a history", cell, cell.text, pack, because)
            record.notes.append((f"pack was {parts.was}", cell.place))
        if key_of(pack) != key_of(record.id):
            _set(record, "pack", pack, cell, ledger)


def _read_places(rows: Sequence[DataRow], found: Channels, ledger: Ledger) -> None:
    """Places in receivers by one pattern, confirmed once; what fits no pattern is kept in the notes."""
    cells = [(row, cell, ledger.text(cell)) for row in rows if (cell := row.cell("receiver"))]
    read = [(row, cell, text, *read_place(text)) for row, cell, text in cells if text and not is_blank(text)]
    if len({text for _, _, text, _, _ in read}) < len(read) and not any(place for *_, place, _ in read):
        read = list(_count_places(read))
    answers: dict[str, str] = {}
    for _, cell, text, place, pattern in read:
        if place and pattern not in answers:
            rack, _, slot = place.rpartition(".")
            words = f"places in receivers are read as {pattern}: {text} is rack {rack}, slot {slot}"
            choices = {"yes": "as said", "notes": "keep them in the notes"}
            answers[pattern] = ledger.ask("receiver", pattern, cell.place, words, choices, default="yes")
    for row, cell, text, place, pattern in read:
        if place and answers[pattern] == "yes":
            _set(found[row.number], "slot", place, cell, ledger)
        else:
            found[row.number].notes.append((f"receiver {text}", cell.place))


def _count_places(read: Iterable[PlaceCell]) -> Iterator[PlaceCell]:
    """Receivers that are named without their slots, `Box 1` on four rows: the slots are counted in the order of the rows."""
    counts: Counter[str] = Counter()
    for row, cell, text, _, _ in read:
        counts[text] += 1
        yield row, cell, text, f"{text}.{counts[text]}", "receivers alone, their slots in the order of the rows"


def _leave_rest(row: DataRow, ledger: Ledger) -> None:
    """Cells of a known column that this kind of row has no field for, as the capsule of an in-ear, are listed."""
    fields = row.columns.fields
    own = [(fields.get(column, "ignore"), cell) for column, cell in row.cells.items() if cell.row == row.number]
    ledger.enter([cell for field, cell in own if field == "frequency"], "used")
    rest = [cell for field, cell in own if field not in ("ignore", "open", "personal")]
    ledger.leave([cell for cell in rest if not is_blank(cell.text)], "this kind of row has no field for it")
    ledger.enter(rest, "used")
