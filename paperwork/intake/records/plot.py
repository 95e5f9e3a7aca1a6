"""A grid of who is live in which scene: by marks, by numbers, by names, by colour."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.finding import Subject
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.records.grid_scenes import SceneColumn, find_scenes
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.ids import is_id, is_plain_prefix, read_id
from paperwork.intake.texts.names import key_of_name, name_role, split_roles
from paperwork.intake.texts.scenes import Presence, read_mark
from paperwork.place import Place
from paperwork.raw import List, Text
from paperwork.text.vocabulary import is_nobody

_REMARK = re.compile(r"\s*\([^)]*\)\s*$")
"""A remark behind a name: `CAPTAIN (qc)`."""

_MARKS = {
    "live": "live in this scene",
    "worn": "worn but not live",
    "handheld": "live on a handheld",
    "idle": "not on in this scene",
}


class GridRow(NamedTuple):
    """A row of the grid: the roles that it is about, and its channel if a list has one for it."""

    roles: Sequence[str]
    record: DraftRecord | None


class GridMark(NamedTuple):
    """What one cell says: `roles` are live if `presence` is. `worn` are the channels that they wear in this scene, one after
    the other, `joins` roles that its row's channel has besides. `is_initial` is on for a row's own initials."""

    cell: GridCell
    text: str
    presence: Presence
    roles: Sequence[str]
    worn: tuple[DraftRecord, ...] = ()
    joins: tuple[str, ...] = ()
    is_initial: bool = False


@dataclass(slots=True)
class GridPlot:
    """What a grid says so far: its scenes by column, who is live in each, and where each channel is worn. `records` are the
    channels of its rows, where a list has them. `is_numbers` is on where its cells are the numbers of channels."""

    table: SortedTable
    records: Mapping[int, DraftRecord]
    scenes: Mapping[int, SceneColumn]
    is_numbers: bool = False
    live: dict[int, dict[str, Place]] = field(default_factory=dict)
    worn: dict[tuple[int, str], tuple[str, GridCell]] = field(default_factory=dict)

    def enter(self, column: int, roles: Iterable[str], place: Place) -> None:
        """Note that roles are live in the scene of a column; the first place counts."""
        for role in roles:
            self.live.setdefault(column, {}).setdefault(role, place)


def read_plot(table: SortedTable, records: Mapping[int, DraftRecord], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the scenes of a grid and who is live in each. `records` are the channels of its rows, where a list has them."""
    plot = GridPlot(table, records, find_scenes(table, ledger), _holds_numbers(table, records, draft))
    later: list[tuple[int, GridMark, GridRow]] = []
    for row in table.scene_rows:
        ledger.enter(row.own, "heading")
    for row in table.rows:
        record = records.get(row.number)
        grid_row = GridRow(_find_roles(row, record, draft, ledger), record)
        marks = [(column, row.cells[column]) for column in table.columns.scenes if column in row.cells]
        if not grid_row.roles and record is None:
            ledger.leave([cell for _, cell in marks], "scenes of a row that names nobody")
            continue
        ledger.leave([cell for column, cell in marks if column not in plot.scenes], "scenes that are cut")
        read = [(c, _read_cell(cell, cell.text, grid_row, plot, draft)) for c, cell in marks if c in plot.scenes]
        for column, mark in read:
            if not (grid_row.roles or mark.joins or mark.worn):
                ledger.leave([mark.cell], "scenes of a row that names nobody")
                continue
            ledger.text(mark.cell)
            if len(mark.worn) > 1:
                later.append((column, mark, grid_row))
            else:
                _enter_mark(mark, column, grid_row, plot, draft, ledger)
    for column, mark, grid_row in later:
        _enter_mark(mark, column, grid_row, plot, draft, ledger)
    _read_fills(plot, draft, ledger)
    for column, scene in plot.scenes.items():
        _add_scene(scene, plot.live.get(column, {}), draft)
        for row in table.scene_rows:
            if (about := row.cells.get(column)) and (text := ledger.text(about)):
                _say_of_scene(draft.add("scenes", scene.id, about.place), row.about, text, about)


def _say_of_scene(record: DraftRecord, about: str, text: str, cell: GridCell) -> None:
    name = record.fields.get("name")
    if about == "page":
        record.put("page", text, cell.place)
    elif isinstance(name, Text):
        record.put("name", f"{name.text} {text}", name.place)


def _holds_numbers(table: SortedTable, records: Mapping[int, DraftRecord], draft: ShowDraft) -> bool:
    """Whether most cells of a grid are numbers of channels, so that 1 is one too. Without any list they are the channels."""
    cells = [row.cells[column] for row in table.rows for column in table.columns.scenes if column in row.cells]
    numbers = [cell for cell in cells if is_id(cell.text) and cell.text.strip() != "0"]
    texts = {cell.text.strip() for cell in numbers}
    if not draft.channels and not records and len(texts) > 1 and len(numbers) * 2 > len(cells):
        for cell in numbers:
            draft.add("channels", cell.text.strip(), cell.place)
        return True
    open_cells = [cell for cell in cells if cell.text.strip() not in ("", "0", "1")]
    known = [cell for cell in open_cells if is_id(cell.text) and draft.find("channels", cell.text)]
    return len({cell.text for cell in known} | (texts & {"1"})) > 1 and len(known) * 2 > len(open_cells)


def _add_scene(scene: SceneColumn, live: Mapping[str, Place], draft: ShowDraft) -> None:
    place = scene.heading.place
    record = draft.add("scenes", scene.id, place)
    record.put("name", scene.id, place)
    if scene.act:
        record.put("act", scene.act, place)
    known = record.fields.get("live")
    items = known.items if isinstance(known, List) else ()
    roles = {item.text: item.place for item in items if isinstance(item, Text)}
    roles |= live
    if roles:
        record.put_list("live", roles.items(), next(iter(roles.values())))


def _find_roles(row: DataRow, record: DraftRecord | None, draft: ShowDraft, ledger: Ledger) -> Sequence[str]:
    """The roles that a row of the grid is about; a performer without a role is one under their own name."""
    if record is not None:
        for user in record.users:
            user.take_role()
        return record.roles
    role, performer = (ledger.text(cell) if (cell := row.cell(name)) else "" for name in ("role", "performer"))
    performer = "" if is_nobody(performer) else performer
    roles = split_roles(role) or _find_roles_of(performer, draft.users)
    spelled = {key_of_name(role): role for user in draft.users for role in user.roles}
    found = [spelled.get(key_of_name(role), role) for role in roles if role]
    for role in found:
        if key_of_name(role) not in spelled:
            place = next(iter(row.cells.values())).place
            entry = draft.add("roles", role, place)
            if performer not in ("", role) and "by" not in entry.fields:
                entry.put("by", performer, place)
    return found


def _find_roles_of(performer: str, users: Sequence[User]) -> Sequence[str]:
    """The roles of a performer on the channels: the one that is spelled like the name, else all; else the name itself."""
    key, roles = key_of_name(performer), []
    for user in users if performer else ():
        if key in map(key_of_name, (user.by, *user.roles)):
            user.take_role()
            roles += [role for role in user.roles if key == key_of_name(role)] or user.roles
    return list(dict.fromkeys(roles)) or [name_role(performer)]


def _read_cell(cell: GridCell, text: str, row: GridRow, plot: GridPlot, draft: ShowDraft) -> GridMark:
    """What a cell of the grid says, whose text is given: by a mark, by initials, by channels' numbers, by roles' names."""
    mark = GridMark(cell, text, read_mark(text) if text else "idle", row.roles)
    worn = tuple(channel for part in split_roles(text) if is_id(part) and (channel := draft.find("channels", part)))
    if plot.is_numbers and worn:
        return mark._replace(presence="live", worn=() if worn == (row.record,) else worn)
    if mark.presence == "asked" and _is_initial(text, row):
        return mark._replace(presence="live", is_initial=True)
    if mark.presence != "text":
        return mark
    if row.record is None and worn:
        return mark._replace(presence="live", worn=worn)
    if row.record is not None and worn == (row.record,):
        return mark._replace(presence="live")
    names = tuple(_REMARK.sub("", name).strip() or name for name in split_roles(text))
    own = {key_of_name(role): role for role in row.roles}
    is_number = is_id(text) and is_plain_prefix(read_id(text).prefix)
    if (row.record is None and not all(key_of_name(name) in own for name in names)) or is_number:
        return mark._replace(presence="asked")
    known = {key_of_name(role): role for record in draft.channels for role in record.roles} | own
    if row.record and (remark := _REMARK.search(text)):
        row.record.notes.append((f"{remark.group().strip()} {names[0]}", cell.place))
    roles = tuple(known.get(key_of_name(name), name) for name in names)
    return mark._replace(presence="live", roles=roles, joins=roles)


def _is_initial(text: str, row: GridRow) -> bool:
    """Whether a letter or two are the initials of the row's role or performer."""
    names = list(filter(None, [*row.roles, row.record.by if row.record else ""]))
    starts = {"".join(part[0] for part in name.split()) for name in names} | {name[0] for name in names}
    return text.isalpha() and text.casefold() in {start.casefold() for start in starts}


def _enter_mark(mark: GridMark, column: int, row: GridRow, plot: GridPlot, draft: ShowDraft, ledger: Ledger) -> None:
    """Note what a cell says in the plot, and in the records of the channels that it speaks of."""
    is_live, roles = mark.presence == "live", mark.roles
    if mark.is_initial:
        ledger.repair("initials in the grid", mark.cell, mark.text, "live", "it is the row's own initial")
    elif mark.presence == "asked":
        text = f"the grid has {quote(mark.text)} in it, first at {mark.cell.address}"
        answer = ledger.ask("mark", mark.text, mark.cell.place, text, _MARKS)
        is_live = answer in ("live", "handheld")
        ledger.reenter([] if is_live else [mark.cell], "left" if answer else "asked")
    elif mark.worn:
        free = [channel for channel in mark.worn if _is_free(channel, mark, column, plot, ledger)]
        roles = [role for channel in free for role in _share(channel, mark, draft)]
    if row.record:
        for role in mark.joins:
            _join(row.record, role, mark.cell.place)
    if is_live:
        plot.enter(column, roles, mark.cell.place)


def _is_free(channel: DraftRecord, mark: GridMark, column: int, plot: GridPlot, ledger: Ledger) -> bool:
    """Whether nobody else wears the channel in the scene of a column; else the clash is reported."""
    who = mark.roles[0]
    other, cell = plot.worn.setdefault((column, channel.id), (who, mark.cell))
    if other == who:
        return True
    if len(mark.worn) > 1:  # handed on within the scene, which no scene can say
        channel.notes.append((f"{plot.scenes[column].id}: {mark.text} {who}", mark.cell.place))
        return False
    ledger.report(
        "mic-twice-in-scene",
        mark.cell.place,
        about=(Subject("channels", channel.id),),
        others=(cell.place,),
        channel=channel.id,
        scene=plot.scenes[column].id,
        first=f"{other} at {cell.address}",
        second=f"{who} at {mark.cell.address}",
    )
    return False


def _share(channel: DraftRecord, mark: GridMark, draft: ShowDraft) -> list[str]:
    """Let the roles of a cell be users of a channel that it says they wear, and say under which names.

    A role is on one channel: on each further one it goes by its name and that channel's number, `MAID (mic 2)`.
    """
    found = []
    for role in mark.roles:
        is_elsewhere = any(role in record.roles for record in draft.channels if record is not channel)
        name = f"{role} (mic {channel.id})" if is_elsewhere and role not in channel.roles else role
        if name not in channel.roles:
            channel.users = [user for user in channel.users if user.roles or user.by != role]
            by = next((user.by for user in draft.users if role in user.roles and user.by), "")
            channel.users.append(User("" if name == role else by, [name], mark.cell.place))
            known = draft.find("roles", role)
            if name != role and known and "by" in known.fields:
                draft.add("roles", name, mark.cell.place).fields["by"] = known.fields["by"]
        found.append(name)
    return found


def _join(record: DraftRecord, role: str, place: Place) -> None:
    """Let a role that a cell names be one more of the row's channel; it takes the place of a performer's own name."""
    if role in record.roles:
        return
    by = next((user.by for user in record.users if user.by), "")
    if record.users and record.users[0].roles == [name_role(record.users[0].by)]:
        record.users[0].roles = []
    record.users.append(User(by, [role], place))


def _read_fills(plot: GridPlot, draft: ShowDraft, ledger: Ledger) -> None:
    """Colours of blank cells that neither the whole row nor the whole column has: each is asked once, with its count."""
    coloured = [(fill, row, column) for row in plot.table.rows for column, fill in _list_fills(row, plot)]
    meaning = {}
    for colour, count in sorted(Counter(fill for fill, _, _ in coloured).items()):
        row, column = next((row, column) for fill, row, column in coloured if fill == colour)
        place = next(iter(row.cells.values())).place._replace(line=row.number, column=column)
        text = f"{count} blank cells of the grid are filled with {colour}"
        choices = {"live": "live in this scene", "idle": "not live", "nothing": "only decoration"}
        meaning[colour] = ledger.ask("fill", colour, place, text, choices)
    for fill, row, column in coloured:
        if meaning[fill] == "live":
            roles = _find_roles(row, plot.records.get(row.number), draft, ledger)
            plot.enter(column, roles, next(iter(row.cells.values())).place)


def _list_fills(row: DataRow, plot: GridPlot) -> Iterator[tuple[int, str]]:
    """The columns of a row's blank cells in the scenes whose colour is their own, each with its colour."""
    own = {cell.fill for column, cell in row.cells.items() if column in row.columns.fields}
    table = plot.table.table
    for column in plot.scenes:
        fill, heading = table.grid.fills.get((row.number, column), ""), table.headings[column]
        if fill and column not in row.cells and fill not in own and (heading is None or heading.fill != fill):
            yield column, fill
