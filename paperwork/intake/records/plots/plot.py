"""A grid of who is live in which scene: by marks, by numbers, by names, by colour."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.records.plots.grid_scenes import SceneColumn, find_scenes
from paperwork.intake.records.plots.players import enter_player, find_roles, read_legend
from paperwork.intake.records.plots.worn import WornPacks, drop_clashes, settle_worn
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.bodies import Body, is_mic, read_body, split_turns
from paperwork.intake.texts.ids import is_id, is_plain_prefix, read_id
from paperwork.intake.texts.names import key_of_name, name_role
from paperwork.intake.texts.scenes import Presence, read_mark, says_all
from paperwork.place import Place
from paperwork.raw import List, Text
from paperwork.text.names import natural_key

_REMARK = re.compile(r"\s*\([^)]*\)\s*$")
"""A remark behind a name: `CAPTAIN (qc)`."""

_PAGES = re.compile(r"(?:pp?|pgs?|pages?|s|seiten?|pag|pags|bl)\b\.?\s*[0-9]", re.IGNORECASE)
"""Pages on which somebody is live: `p. 3-17, 20`."""

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
    the other; none where it is their own. `is_initial` is on for a row's own initials."""

    cell: GridCell
    text: str
    presence: Presence
    roles: Sequence[str]
    worn: tuple[DraftRecord, ...] = ()
    is_initial: bool = False


@dataclass(slots=True)
class GridPlot:
    """What a grid says so far: its scenes by column, who is live in each, and what is worn. `records` are the channels of
    its rows, where a list has them. `body` is what its cells are; `has_seconds` says that two mics in
    one are worn at once. `spelled` has the roles by the keys of names."""

    table: SortedTable
    records: Mapping[int, DraftRecord]
    scenes: Mapping[int, SceneColumn]
    body: Body = ""
    spelled: dict[str, Sequence[str]] = field(default_factory=dict)
    live: dict[int, dict[str, Place]] = field(default_factory=dict)
    worn: WornPacks = field(default_factory=WornPacks)
    has_seconds: bool = False
    legend: Mapping[str, tuple[str, GridCell]] = field(default_factory=dict)

    def enter(self, column: int, roles: Iterable[str], place: Place) -> None:
        """Note that roles are live in the scene of a column; the first place counts."""
        for role in roles:
            self.live.setdefault(column, {}).setdefault(role, place)


def read_plot(table: SortedTable, records: Mapping[int, DraftRecord], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the scenes of a grid, who is live in each, and with which pack. `records` are the channels of its rows, where a
    list has them."""
    plot = GridPlot(table, records, find_scenes(table, ledger), _find_body(table, records, draft), _spell(draft))
    for row in table.scene_rows:
        ledger.enter(row.own, "heading")
    plot.legend = read_legend(table.grid)
    _ask_turns(plot, ledger)
    for row in table.rows:
        record = records.get(row.number)
        grid_row = GridRow(find_roles(row, record, draft, ledger), record)
        marks = [(column, row.cells[column]) for column in table.columns.scenes if column in row.cells]
        if not grid_row.roles and record is None:
            ledger.leave([cell for _, cell in marks], "scenes of a row that names nobody")
            continue
        ledger.leave([cell for column, cell in marks if column not in plot.scenes], "scenes that are cut")
        for column, cell in marks:
            if column in plot.scenes:
                _read_mark(cell, column, grid_row, plot, draft, ledger)
    _read_fills(plot, draft, ledger)
    scenes = {column: scene.id for column, scene in plot.scenes.items()}
    drop_clashes(plot.worn, scenes, ledger)
    for column, role in plot.worn.stints:
        plot.enter(column, [role], plot.worn.stints[column, role].cell.place)
    settle_worn(plot.worn, scenes, draft)
    for column, scene in plot.scenes.items():
        _add_scene(scene, plot.live.get(column, {}), draft)
        for row in table.scene_rows:
            if (about := row.cells.get(column)) and (text := ledger.text(about)):
                _say_of_scene(draft.add("scenes", scene.id, about.place), row.about, text, about)


def _ask_turns(plot: GridPlot, ledger: Ledger) -> None:
    """Ask once for a plot of numbers what two mics in one cell mean where no sign says so: `7/9`, `A1/A2`."""
    cells = [row.cells[column] for row in plot.table.rows for column in plot.scenes if column in row.cells]
    pairs = [cell for cell in cells if len(split_turns(cell.text)[0]) > 1 and not split_turns(cell.text)[1]]
    if plot.body == "mics" and pairs:
        text = f"{quote(', '.join(dict.fromkeys(cell.text for cell in pairs[:4])))}: two mics in one cell of the plot"
        choices = {"turns": "one after the other within the scene", "both": "both at once: the second is a second pack"}
        title = plot.table.title
        plot.has_seconds = ledger.ask("turns", title, pairs[0].place, text, choices, default="turns") == "both"


def _read_mark(cell: GridCell, column: int, row: GridRow, plot: GridPlot, draft: ShowDraft, ledger: Ledger) -> None:
    mark = _read_cell(cell, cell.text, row, plot, draft)
    if mark.roles or mark.worn:
        ledger.text(cell)
        _enter_mark(mark, column, plot, ledger)
    else:
        ledger.leave([cell], "scenes of a row that names nobody")


def _say_of_scene(record: DraftRecord, about: str, text: str, cell: GridCell) -> None:
    name = record.fields.get("name")
    if about == "page":
        record.put("page", text, cell.place)
    elif isinstance(name, Text):
        record.put("name", f"{name.text} {text}", name.place)


def _find_body(table: SortedTable, records: Mapping[int, DraftRecord], draft: ShowDraft) -> Body:
    """What the cells of a grid are: marks, the numbers of mics, so that 1 is one too, or names. Numbers are mics only where
    channels have them; without any list they are the channels."""
    cells = [row.cells[column] for row in table.rows for column in table.columns.scenes if column in row.cells]
    body = read_body([cell.text for cell in cells])
    numbers = {part: cell for cell in cells for part in split_turns(cell.text.strip())[0] if is_mic(part)}
    if body == "mics" and not draft.channels and not records:
        for part, cell in sorted(numbers.items(), key=lambda one: natural_key(one[0])):
            draft.add("channels", part, cell.place)
    elif body == "mics" and not sum(draft.find("channels", part) is not None for part in numbers) * 2 > len(numbers):
        return "other"
    return body


def _spell(draft: ShowDraft) -> dict[str, Sequence[str]]:
    """The roles that a name in a cell means, by its key: a role itself, those of a performer, or of the one performer with
    that first name."""
    firsts: dict[str, list[User]] = {}
    for user in draft.users:
        firsts.setdefault(key_of_name(user.by.split()[0] if user.by.split() else ""), []).append(user)
    found: dict[str, Sequence[str]] = {}
    for key, users in firsts.items():
        if key and len({user.by for user in users}) == 1:
            found[key] = _take_roles(users)
    for name in dict.fromkeys(user.by for user in draft.users if user.by):
        found[key_of_name(name)] = _take_roles([user for user in draft.users if user.by == name])
    for entry in draft.records("roles"):
        if isinstance(by := entry.fields.get("by"), Text):
            found.setdefault(key_of_name(by.text), [entry.id])
    roles = [*(entry.id for entry in draft.records("roles")), *(role for user in draft.users for role in user.roles)]
    return found | {key_of_name(role): [role] for role in roles}


def _take_roles(users: Iterable[User]) -> Sequence[str]:
    return (
        list(dict.fromkeys(role for user in users for role in user.roles)) or [name_role(user.by) for user in users][:1]
    )


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


def _read_cell(cell: GridCell, text: str, row: GridRow, plot: GridPlot, draft: ShowDraft) -> GridMark:
    """What a cell of the grid says, whose text is given: by a mark, by initials, by channels' numbers, by roles' names."""
    mark = GridMark(cell, text, read_mark(text) if text else "idle", row.roles)
    if row.record and row.roles and (_PAGES.match(text) or says_all(text)):
        head = plot.table.table.headings.get(cell.column)
        row.record.notes.append((f"{' '.join(head.text.split())}: {text}" if head else text, cell.place))
        return mark._replace(presence="live")
    if plot.body == "names" and mark.presence == "asked" and text.isalpha():
        mark = mark._replace(presence="text")  # initials, as other cells have names
    parts, _ = split_turns(text)
    worn = tuple(channel for part in parts if is_id(part) and (channel := draft.find("channels", part)))
    if plot.body == "mics" and worn:
        return mark._replace(presence="live" if len(worn) == len(parts) else "asked", worn=worn)
    if mark.presence == "asked" and _is_initial(text, row):
        return mark._replace(presence="live", is_initial=True)
    if mark.presence != "text":
        return mark
    if worn and (row.record is None or worn == (row.record,)):
        return mark._replace(presence="live", worn=worn)
    return _read_names(mark, [_REMARK.sub("", name).strip() or name for name in parts], row, plot, draft)


def _read_names(mark: GridMark, names: Sequence[str], row: GridRow, plot: GridPlot, draft: ShowDraft) -> GridMark:
    """What a cell says that names those who are live: roles of its row, or anybody where the row is a mic's."""
    own = {key_of_name(role): [role] for role in row.roles}
    is_number = is_id(mark.text) and is_plain_prefix(read_id(mark.text).prefix)
    is_strange = row.record is None and any(key_of_name(name) not in own for name in names)
    if is_strange or is_number:
        return mark._replace(presence="asked")
    remark = _REMARK.search(mark.text)
    if row.record and remark and not enter_player(names, remark.group(), mark.cell, draft):
        row.record.notes.append((f"{remark.group().strip()} {names[0]}", mark.cell.place))
    for name in names:
        plot.spelled.setdefault(key_of_name(name), [name])
    roles = [role for name in names for role in own.get(key_of_name(name)) or plot.spelled[key_of_name(name)]]
    return mark._replace(presence="live", roles=list(dict.fromkeys(roles)), worn=(row.record,) if row.record else ())


def _is_initial(text: str, row: GridRow) -> bool:
    """Whether a letter or two are the initials of the row's role or performer."""
    names = list(filter(None, [*row.roles, row.record.by if row.record else ""]))
    starts = {"".join(part[0] for part in name.split()) for name in names} | {name[0] for name in names}
    return text.isalpha() and text.casefold() in {start.casefold() for start in starts}


def _enter_mark(mark: GridMark, column: int, plot: GridPlot, ledger: Ledger) -> None:
    """Note what a cell says in the plot."""
    is_live = mark.presence == "live"
    if mark.is_initial:
        ledger.repair("initials in the grid", mark.cell.place, mark.text, "live", "it is the row's own initial")
    elif mark.presence == "asked":
        text = f"the grid has {quote(mark.text)} in it, first at {mark.cell.address}"
        said, key = plot.legend.get(mark.text.casefold(), ("", mark.cell))
        if said:
            ledger.reenter([key], "heading")
            ledger.lines.append(f"{quote(mark.text)} in the plot is taken for {_MARKS[said]}: {quote(key.text)}")
        answer = said or ledger.ask("mark", mark.text, mark.cell.place, text, _MARKS)
        is_live = answer in ("live", "handheld")
        ledger.reenter([] if is_live else [mark.cell], "left" if answer else "asked")
    if is_live and mark.worn:
        is_pair = plot.has_seconds and not split_turns(mark.text)[1]
        for second in mark.worn[1:] if is_pair else ():
            second.put("doubles", mark.worn[0].id, mark.cell.place)
            second.mirrors = mark.worn[0].id
        for role in mark.roles:
            plot.worn.enter(column, role, mark.worn[:1] if is_pair else mark.worn, mark.cell)
    elif is_live:
        plot.enter(column, mark.roles, mark.cell.place)


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
            roles = find_roles(row, plot.records.get(row.number), draft, ledger)
            plot.enter(column, roles, next(iter(row.cells.values())).place)


def _list_fills(row: DataRow, plot: GridPlot) -> Iterator[tuple[int, str]]:
    """The columns of a row's blank cells in the scenes whose colour is their own, each with its colour."""
    own = {cell.fill for column, cell in row.cells.items() if column in row.columns.fields}
    table = plot.table.table
    for column in plot.scenes:
        fill, heading = table.grid.fills.get((row.number, column), ""), table.headings[column]
        if fill and column not in row.cells and fill not in own and (heading is None or heading.fill != fill):
            yield column, fill
