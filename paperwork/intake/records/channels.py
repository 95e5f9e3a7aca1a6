"""A channel list: rows to channels, in-ears and intercom, with everything else that a row holds."""

import re
from collections.abc import Mapping, Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.casts import read_casts_of_days
from paperwork.intake.records.channel_rows import ChannelRow, is_spare_row, list_channel_rows, note_home
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.intake.records.ears import add_ears, add_other
from paperwork.intake.records.frequency_cells import FrequencyCell, read_frequency_cells
from paperwork.intake.records.people import add_cover, merge_users, read_users
from paperwork.intake.records.places import read_places
from paperwork.intake.records.towns import enter_towns, list_town_cells
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.ids import find_style, key_of, print_id, read_id
from paperwork.intake.texts.names import is_blank, is_spare, key_of_name, split_roles
from paperwork.intake.texts.scenes import expand_scenes
from paperwork.raw import Text
from paperwork.text.headings import mean
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

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
        "room",
        "team",
        "child",
        "pouch",
        "sits",
        "placement",
        "display",
        "cell_set",
        "box",
        "jack",
        "send",
    ]
)
"""What a row may hold that no field of a channel holds: kept in its notes under the sheet's own heading."""

_OPEN = frozenset({"performer", "role", "frequency"})
_SAYS = re.compile(r"[^\W\d_]|\?")
"""What a cell of those has in it that says that something is open, `tbc` or `?`: it stays to be seen in the notes."""

_TICKS = str.maketrans(dict.fromkeys("✓✔☑", "yes") | dict.fromkeys("✗✘☒☐", "no"))

Channels = Mapping[int, DraftRecord]
"""The channels of a table by the number of their row."""


def read_channels(table: SheetTable, rows: Sequence[DataRow], draft: ShowDraft, ledger: Ledger) -> Channels:
    """Enter the channels of a table into the draft. Returns the record of each row that is a channel of ours."""
    listed = list_channel_rows(rows, table, ledger)
    found: dict[int, DraftRecord] = {}
    frequencies: list[FrequencyCell] = []
    for row in listed:
        if row.kind:
            record = add_other(row, table, draft, ledger)
        else:
            record = found[row.row.number] = _add_channel(row, table, draft, ledger)
            frequencies += _add_second(row, record, table, draft, ledger)
            frequencies += add_ears(row, record, table, draft, ledger)
        frequencies += list_town_cells(row.row, record, table, ledger)
        cell = row.row.cell("frequency")
        if cell and not (row.joins is not None and "mhz" in record.fields):
            tv = read_id(row.text("tv", ledger)).digits
            is_spread = cell.row != row.row.number
            frequencies.append(FrequencyCell(record, cell, tv, is_spread, _head_of(cell, table)))
    read_frequency_cells(frequencies, draft, ledger)
    enter_towns(table, draft, dict(rows[0].columns.fields) if rows else {})
    channels = [row.row for row in listed if row.row.number in found]
    _read_packs(channels, found, ledger)
    for record, slot, cell in read_places(channels, found, draft, ledger):
        _set(record, "slot", slot, cell, ledger)
    read_casts_of_days(table, rows, draft, ledger)
    for row in listed:
        _leave_rest(row.row, ledger)
    return found


def _head_of(cell: GridCell, table: SheetTable) -> str:
    """What is written over a cell."""
    heading = table.headings[cell.column]
    return heading.text if heading else ""


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
        part = table.grid.title if table.grid.title in ledger.parts else ""
        for user in users:
            user.scenes = row.text("scenes", ledger) or part
            user.listed = cell.place if (cell := row.row.cell("scenes")) else user.place
        if row.joins is not None or not record.users or part:
            record.users += users
        else:
            merge_users(record, users, ledger)
    _add_move(row, record, table, draft, ledger)
    if row.doubles:
        record.put("doubles", row.doubles, place)
    if was := row.parts.was:
        ledger.repair("numbers with a history", row.cell.place, row.cell.text, row.id, f"{was} is kept in the notes")
        record.notes.append((f"was {was}", place))
    _add_facts(row, record, table, draft, ledger)
    note_home(row, record)
    _add_notes(row.row, record, table, ledger)
    return record


def _add_move(row: ChannelRow, record: DraftRecord, table: SheetTable, draft: ShowDraft, ledger: Ledger) -> None:
    """The sides of an entrance and an exit, where a row is of one role in one scene; else they are notes."""
    sides = [(name, cell) for name in ("enter", "exit") if (cell := row.row.cell(name)) and not is_blank(cell.text)]
    scenes = expand_scenes(row.text("scenes", ledger))
    role = row.row.stated("role")
    if sides and len(scenes) == 1 and role in record.roles:
        move = draft.add("moves", f"m{len(draft.table('moves')) + 1}", row.cell.place)
        for name, text in (("role", role), ("scene", scenes[0]), *((name, ledger.text(cell)) for name, cell in sides)):
            move.put(name, text, row.cell.place)
    else:
        record.notes += [(f"{_head_of(cell, table)}: {ledger.text(cell)}", cell.place) for _, cell in sides]


def _add_second(
    row: ChannelRow, record: DraftRecord, table: SheetTable, draft: ShowDraft, ledger: Ledger
) -> list[FrequencyCell]:
    """The second pack of a row, or the spare that stands by for it, as a channel of its own; its frequency, if it has one."""
    if backup := row.row.cell("backup"):
        return [FrequencyCell(record, backup, heading=_head_of(backup, table), field="backup")]
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
    return [FrequencyCell(other, cell, heading=_head_of(cell, table))] if cell and "mhz" not in other.fields else []


def _add_facts(row: ChannelRow, record: DraftRecord, table: SheetTable, draft: ShowDraft, ledger: Ledger) -> None:
    """Capsule, radio step and understudy of a channel's row."""
    if (cell := row.row.cell("capsule")) and (capsule := row.text("capsule", ledger)):
        _set(record, "capsule", capsule, cell, ledger)
    if (cell := row.row.cell("carrier")) and (carrier := row.text("carrier", ledger)):
        _set(record, "carrier", carrier, cell, ledger)
    if (cell := row.row.cell("step")) and (step := row.text("step", ledger)):
        draft.add("radios", step, cell.place).put("step", step, cell.place)
        record.put("radio", step, cell.place)
    covers = [n for n, name in row.row.columns.fields.items() if name == "understudy" and n in row.row.cells]
    for cell in (row.row.cells[n] for n in covers):
        roles = _list_roles(row.row, table)
        if _names_roles(cell, table, roles, draft):
            by = row.row.stated("performer")
            for role in split_roles(ledger.text(cell)) if by else ():
                if key_of_name(role) not in roles:
                    draft.add("roles", role, cell.place)
                add_cover(role, by, cell.place, draft)
            continue
        if is_nobody(name := ledger.text(cell)) or is_blank(name) or fold_word(name) in listed_words("same"):
            ledger.reenter([cell], "blank")
            continue
        for role in record.roles:
            add_cover(role, name, cell.place, draft)
        if not record.roles:
            record.notes.append((f"understudy {name}", cell.place))


def _list_roles(row: DataRow, table: SheetTable) -> set[str]:
    """The keys of the roles that a table lists."""
    at = row.columns.of("role")
    return {key_of_name(r) for cells in table.rows.values() if at in cells for r in split_roles(cells[at].text)}


def _names_roles(cell: GridCell, table: SheetTable, roles: set[str], draft: ShowDraft) -> bool:
    """Whether the column of a cover's cell names roles, which the performer of a row covers, and not who covers theirs."""
    texts = [cells[cell.column].text for cells in table.rows.values() if cell.column in cells]
    named = [key_of_name(part) for text in texts for part in split_roles(text) if not is_blank(part)]
    people = {key_of_name(user.by) for user in draft.users}
    return sum(name in roles and name not in people for name in named) * 2 > len(named)


def _set(record: DraftRecord, name: str, text: str, cell: GridCell, ledger: Ledger) -> None:
    """Set a field that has no value yet; where another table has another value, the first counts and it is said."""
    known = record.fields.get(name)
    if not isinstance(known, Text):
        record.put(name, text, cell.place)
    elif fold_word(known.text) != fold_word(text):
        because = f"the first table says so of channel {record.id}"
        ledger.repair("facts that two tables give differently", cell.place, text, known.text, because)


def _add_notes(row: DataRow, record: DraftRecord, table: SheetTable, ledger: Ledger) -> None:
    """Notes as they are written; other facts under the heading that they have on the sheet."""
    for column, name in row.columns.fields.items():
        cell = row.cells.get(column)
        text = ledger.text(cell) if cell and name in {*NOTED, "notes"} else ""
        if cell and text and not is_blank(text):
            heading = table.headings[column]
            title = " ".join(heading.text.split()) if heading and mean(heading.text).fields[:1] != ("notes",) else ""
            if text != (plain := text.translate(_TICKS)):
                ledger.repair("ticks in notes", cell.place, text, plain, "the papers have no such sign")
            facts = [Fact(name, title, plain, cell.place, row.stated("performer"))]
            if name == "jack" and set(mean(table.title.rpartition(" ")[0] or table.title).fields) & {"box"}:
                facts.append(Fact("box", "", table.title, cell.place))  # a table for each box, headed with its name
            for fact in facts:
                record.replace(None, [fact])
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
            ledger.repair("numbers with a history", cell.place, cell.text, pack, because)
            record.notes.append((f"pack was {parts.was}", cell.place))
        is_named = bool(parts.prefix) and fold_word(parts.prefix.replace(".", "")) not in listed_words("pack_word")
        if key_of(pack) != key_of(record.id) or (is_named and parts.prefix != read_id(record.id).prefix):
            _set(record, "pack", pack, cell, ledger)


def _leave_rest(row: DataRow, ledger: Ledger) -> None:
    """Cells of a known column that this kind of row has no field for, as the capsule of an in-ear, are listed."""
    fields = row.columns.fields
    own = [(fields.get(column, "ignore"), cell) for column, cell in row.cells.items() if cell.row == row.number]
    ledger.enter([cell for field, cell in own if field == "frequency"], "used")
    rest = [cell for field, cell in own if field not in ("ignore", "open", "personal")]
    ledger.leave([cell for cell in rest if not is_blank(cell.text)], "this kind of row has no field for it")
    ledger.enter(rest, "used")
