"""A grid of who is live in which scene: by marks, by numbers, by names, by colour."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from paperwork.files.grid import GridCell
from paperwork.finding import Subject, find
from paperwork.intake.cells import Cells, ask_date
from paperwork.intake.columns import Columns
from paperwork.intake.draft import Draft, Record, User
from paperwork.intake.ids import is_id
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.names import key_of_name, split_roles
from paperwork.intake.questions import Choice, Question
from paperwork.intake.rows import DataRow
from paperwork.intake.scenes import Presence, follow_numbers, is_cut, read_mark
from paperwork.intake.tables import Table
from paperwork.place import Place
from paperwork.vocabulary import fold_word, is_nobody


@dataclass(slots=True)
class SceneColumn:
    """One scene of the grid: its id, the act above it, and where it is headed."""

    id: str
    act: str
    heading: GridCell


def read_plot(
    table: Table,
    columns: Columns,
    rows: Sequence[DataRow],
    records: Mapping[int, Record],
    cells: Cells,
    draft: Draft,
    ledger: Ledger,
) -> None:
    """Enter the scenes of a grid and who is live in each. `records` are the channels of its rows, where they are told."""
    scenes = _read_scenes(table, columns, ledger)
    live: dict[int, dict[str, Place]] = {column: {} for column in scenes}
    worn: dict[tuple[int, str], tuple[str, GridCell]] = {}
    for row in rows:
        record = records.get(row.number)
        roles = _roles_of(row, record, columns, cells, draft)
        if not roles:
            ledger.leave(
                [row.cells[column] for column in columns.scenes if column in row.cells],
                "scenes of a row that names nobody",
            )
            continue
        for column in columns.scenes:
            cell = row.cells.get(column)
            if cell is not None and column not in scenes:
                ledger.leave([cell], "scenes that are cut")
            elif cell is not None:
                _read_cell(cell, column, roles, record, scenes, live, worn, cells, draft, ledger)
    _read_fills(table, columns, rows, records, scenes, live, draft, cells, ledger)
    for column, scene in scenes.items():
        entry = draft.add("scenes", scene.id, scene.heading.place)
        entry.put("name", scene.id, scene.heading.place)
        if scene.act:
            entry.put("act", scene.act, scene.heading.place)
        known = entry.fields.get("live")
        told = {item.text: item.place for item in known.items} if known else {}  # type: ignore[union-attr]
        told |= live[column]
        if told:
            entry.put_list("live", told.items(), next(iter(told.values())))


def _read_scenes(table: Table, columns: Columns, ledger: Ledger) -> dict[int, SceneColumn]:
    """The scenes by column. Doubled numbers and dates are asked; scenes that are cut are left out."""
    found: dict[int, SceneColumn] = {}
    told: list[tuple[str, bool]] = []
    for column in columns.scenes:
        heading = table.headings[column]
        assert heading is not None
        text = ask_date(heading, ledger, "scene") if heading.kind == "date" else heading.text
        told.append((text, heading.kind == "number"))
    doubled = follow_numbers(told)
    for index, column in enumerate(columns.scenes):
        heading, text = table.headings[column], told[index][0]
        assert heading is not None
        if not text:
            continue
        if is_cut(text):
            ledger.repair("scenes that are cut", heading, text, "left out", "its heading says so")
            continue
        if index in doubled:
            text = _ask_scene(heading, text, doubled[index], ledger) or f"{text} ({heading.address})"
        act = table.acts.get(column, "")
        id = f"{act}.{text}" if act and _needs_act(table, columns, text, told) else text
        if any(scene.id == id for scene in found.values()):
            id = f"{id} ({heading.address})"
        found[column] = SceneColumn(id, act, heading)
    return found


def _needs_act(table: Table, columns: Columns, text: str, told: list[tuple[str, bool]]) -> bool:
    """Whether scene numbers are only unique within their act."""
    texts = [text for text, _ in told]
    return len(set(texts)) < len(texts) or all(len(fold_word(text)) <= 2 for text in texts)


def _ask_scene(heading: GridCell, text: str, guesses: Sequence[str], ledger: Ledger) -> str:
    choices = [
        Choice(guess, f"{guess}: the number lost its last zero" if guess == f"{text}0" else f"{guess}: the next scene")
        for guess in guesses
    ]
    return ledger.ask(
        Question(
            kind="scene",
            about=f"{text} again",
            place=heading.place,
            typed="text",
            choices=tuple(choices),
            text=f"two scenes are numbered {text}, the second at {heading.address}; as a number {text}0 is stored as {text}",
        )
    )


def _roles_of(row: DataRow, record: Record | None, columns: Columns, cells: Cells, draft: Draft) -> list[str]:
    """The roles that a row of the grid is about; a performer without a role is one under their own name."""
    if record is not None:
        for user in record.users:
            user.roles = user.roles or [user.by]
        return list(record.roles)
    texts = {}
    for name in ("role", "performer"):
        column = columns.of(name)
        cell = row.cells.get(column) if column is not None else None
        texts[name] = cells.text(cell) if cell else ""
    texts["performer"] = "" if is_nobody(texts["performer"]) else texts["performer"]
    known = [(user, r) for r in draft.table("channels").values() for user in r.users]
    roles = list(split_roles(texts["role"]))
    if not roles and texts["performer"]:
        key = key_of_name(texts["performer"])
        for user, _ in known:
            if key in (key_of_name(user.by), *(key_of_name(role) for role in user.roles)):
                user.roles = user.roles or [user.by]
                roles += [role for role in user.roles if key == key_of_name(role)] or user.roles
        roles = list(dict.fromkeys(roles)) or [texts["performer"]]
    spelled = {key_of_name(role): role for user, _ in known for role in user.roles}
    roles = [spelled.get(key_of_name(role), role) for role in roles if role]
    for role in roles:
        if key_of_name(role) not in spelled:
            cell = next(iter(row.cells.values()))
            entry = draft.add("roles", role, cell.place)
            if texts["performer"] and "by" not in entry.fields and texts["performer"] != role:
                entry.put("by", texts["performer"], cell.place)
    return roles


def _read_cell(
    cell: GridCell,
    column: int,
    roles: list[str],
    record: Record | None,
    scenes: Mapping[int, SceneColumn],
    live: dict[int, dict[str, Place]],
    worn: dict[tuple[int, str], tuple[str, GridCell]],
    cells: Cells,
    draft: Draft,
    ledger: Ledger,
) -> None:
    text = cells.text(cell)
    mark: Presence = read_mark(text) if text else "idle"
    if mark == "asked" and _is_initial(text, roles, record):
        ledger.repair("initials in the grid", cell, text, "live", "it is the row's own initial")
        mark = "live"
    if mark == "text" and record is None and is_id(text) and (channel := draft.find("channels", text)):
        _wear(cell, column, roles, channel, scenes, live, worn, ledger)
        return
    if mark == "text":
        mark = _read_text(cell, text, column, roles, record, live, draft)
    if mark == "asked":
        mark = "live" if _ask_mark(cell, text, ledger) in ("live", "handheld") else "idle"
    if mark == "live":
        for role in roles:
            live[column].setdefault(role, cell.place)


def _is_initial(text: str, roles: list[str], record: Record | None) -> bool:
    """Whether a letter or two are the initials of the row's role or performer."""
    names = [*roles, record.by if record else ""]
    starts = {"".join(part[0] for part in name.split()) for name in names if name} | {name[0] for name in names if name}
    return text.isalpha() and text.casefold() in {start.casefold() for start in starts}


def _read_text(
    cell: GridCell,
    text: str,
    column: int,
    roles: list[str],
    record: Record | None,
    live: dict[int, dict[str, Place]],
    draft: Draft,
) -> Presence:
    """A cell that names a role, or repeats the number of its row: who is live is clear. Anything else is asked."""
    if record is not None and draft.find("channels", text) is record:
        return "live"
    known = {key_of_name(role): role for r in draft.table("channels").values() for role in r.roles}
    key = key_of_name(text)
    own = [role for role in roles if key_of_name(role) == key]
    if own or (record is not None and not is_id(text)):
        role = own[0] if own else known.get(key, text)
        if record is not None and role not in record.roles:
            by = next((user.by for user in record.users if user.by), "")
            if record.users and record.users[0].roles == [record.users[0].by]:
                record.users[0].roles = []
            record.users.append(User(by, [role], cell.place))
        live[column].setdefault(role, cell.place)
        return "idle"
    return "asked"


def _wear(
    cell: GridCell,
    column: int,
    roles: list[str],
    channel: Record,
    scenes: Mapping[int, SceneColumn],
    live: dict[int, dict[str, Place]],
    worn: dict[tuple[int, str], tuple[str, GridCell]],
    ledger: Ledger,
) -> None:
    """A cell that says which channel is worn in a scene: the role is live, and the channel is shared by all its roles."""
    who = roles[0] if roles else ""
    other = worn.setdefault((column, channel.id), (who, cell))
    if other[0] != who:
        about = (Subject("channels", channel.id),)
        ledger.findings.append(
            find(
                "mic-twice-in-scene",
                cell.place,
                about=about,
                others=(other[1].place,),
                channel=channel.id,
                scene=scenes[column].id,
                first=f"{other[0]} at {other[1].address}",
                second=f"{who} at {cell.address}",
            )
        )
        return
    for role in roles:
        if role not in channel.roles:
            channel.users = [user for user in channel.users if user.roles or user.by != role]
            channel.users.append(User("", [role], cell.place))
        live[column].setdefault(role, cell.place)


def _ask_mark(cell: GridCell, text: str, ledger: Ledger) -> str:
    return ledger.ask(
        Question(
            kind="mark",
            about=text,
            place=cell.place,
            text=f"the grid has {quote(text)} in it, first at {cell.address}",
            typed="",
            choices=(
                Choice("live", "live in this scene"),
                Choice("worn", "worn but not live"),
                Choice("handheld", "live on a handheld"),
                Choice("idle", "not on in this scene"),
            ),
        )
    )


def _read_fills(
    table: Table,
    columns: Columns,
    rows: Sequence[DataRow],
    records: Mapping[int, Record],
    scenes: Mapping[int, SceneColumn],
    live: dict[int, dict[str, Place]],
    draft: Draft,
    cells: Cells,
    ledger: Ledger,
) -> None:
    """Colours of blank cells that neither the whole row nor the whole column has: each is asked once, with its count."""
    coloured = []
    for row in rows:
        own = {cell.fill for column, cell in row.cells.items() if column in columns.fields}
        for column in scenes:
            fill = table.grid.fills.get((row.number, column), "")
            heading = table.headings[column]
            if fill and column not in row.cells and fill not in own and (heading is None or heading.fill != fill):
                coloured.append((fill, row, column))
    counts = Counter(fill for fill, _, _ in coloured)
    meaning = {}
    for fill, count in sorted(counts.items()):
        row, column = next((row, column) for colour, row, column in coloured if colour == fill)
        place = next(iter(row.cells.values())).place._replace(line=row.number, column=column)
        meaning[fill] = ledger.ask(
            Question(
                kind="fill",
                about=fill,
                place=place,
                text=f"{count} blank cells of the grid are filled with {fill}",
                choices=(
                    Choice("live", "live in this scene"),
                    Choice("idle", "not live"),
                    Choice("nothing", "only decoration"),
                ),
            )
        )
    for fill, row, column in coloured:
        if meaning[fill] == "live":
            roles = _roles_of(row, records.get(row.number), columns, cells, draft)
            for role in roles:
                live[column].setdefault(role, next(iter(row.cells.values())).place)
