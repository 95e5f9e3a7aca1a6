"""Tables that are neither channel list nor grid: scenes with who is in them, and people with their rooms."""

from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.cells import Cells, ask_date
from paperwork.intake.columns import Columns
from paperwork.intake.draft import Draft
from paperwork.intake.ledger import Ledger
from paperwork.intake.names import is_blank, key_of_name, split_roles
from paperwork.intake.rows import DataRow
from paperwork.intake.scenes import is_scene
from paperwork.vocabulary import is_nobody


def is_breakdown(columns: Columns) -> bool:
    """Whether a table tells of each scene who is in it, by roles or by performers. With names to the left of scenes it tells
    of each name where it is in, which is something else."""
    scene, names = columns.of("scenes"), _names_of(columns)
    return scene is not None and names is not None and scene < names and not columns.scenes


def _names_of(columns: Columns) -> int | None:
    roles = columns.of("role")
    return columns.of("performer") if roles is None else roles


def read_breakdown(columns: Columns, rows: Sequence[DataRow], cells: Cells, draft: Draft, ledger: Ledger) -> None:
    """Enter a scene for each row, with its title and its page, and the roles that its cell lists."""
    spelled = _spell_names(draft)
    names = _names_of(columns)
    for row in rows:
        heading, roles = _cell(row, columns, "scenes"), row.cells.get(names) if names is not None else None
        if heading is None:
            continue
        text = cells.text(heading)
        text = ask_date(heading, ledger, "scene") if heading.kind == "date" else text
        if not text:
            continue
        number, _, rest = text.partition(" ")
        record = draft.add("scenes", number if rest and is_scene(number) else text, heading.place)
        title, page = _cell(row, columns, "scene_title"), _cell(row, columns, "page")
        name = cells.text(title) if title else ""
        record.put("name", f"{text} {name}".strip(), heading.place)
        if page and (told := cells.text(page)) and not is_blank(told):
            record.put("page", told, page.place)
        if not roles:
            continue
        named = [one for one in split_roles(cells.text(roles)) if not is_blank(one)]
        live = dict.fromkeys(role for one in named for role in spelled.get(key_of_name(one), (one,)))
        for one in named:
            if key_of_name(one) not in spelled:
                draft.add("roles", one, roles.place)
        if live:
            record.put_list("live", [(role, roles.place) for role in live], roles.place)


def _spell_names(draft: Draft) -> dict[str, tuple[str, ...]]:
    """The roles of each name that the channels know, of a role or of a performer, as the channels spell them."""
    users = [user for record in draft.table("channels").values() for user in record.users]
    found = {key_of_name(user.by): tuple(user.roles) or (user.by,) for user in users if user.by}
    return found | {key_of_name(role): (role,) for user in users for role in user.roles}


def read_rooms(columns: Columns, rows: Sequence[DataRow], cells: Cells, draft: Draft) -> None:
    """Enter the people of a table that tells their rooms, and who they play where it says so."""
    for row in rows:
        name, room, role = (_cell(row, columns, field) for field in ("performer", "room", "role"))
        text = cells.text(name) if name else ""
        if not name or is_nobody(text):
            continue
        record = draft.add("people", text, name.place)
        if room and (told := cells.text(room)) and not is_blank(told):
            record.put("room", told, room.place)
        for part in split_roles(cells.text(role)) if role else ():
            entry = draft.add("roles", part, name.place)
            if "by" not in entry.fields:
                entry.put("by", text, name.place)


def _cell(row: DataRow, columns: Columns, field: str) -> GridCell | None:
    column = columns.of(field)
    return row.cells.get(column) if column is not None else None
