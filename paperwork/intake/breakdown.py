"""Tables that are neither channel list nor grid: scenes with who is in them, and people with their rooms."""

from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.cells import Cells, ask_date
from paperwork.intake.columns import Columns
from paperwork.intake.draft import Draft
from paperwork.intake.ledger import Ledger
from paperwork.intake.names import is_blank, key_of_name, split_roles
from paperwork.intake.rows import DataRow
from paperwork.vocabulary import is_nobody


def is_breakdown(columns: Columns) -> bool:
    """Whether a table tells of each scene who is in it."""
    return columns.of("scenes") is not None and columns.of("role") is not None and not columns.scenes


def read_breakdown(columns: Columns, rows: Sequence[DataRow], cells: Cells, draft: Draft, ledger: Ledger) -> None:
    """Enter a scene for each row, with its title, and the roles that its cell lists."""
    spelled = {key_of_name(role): role for record in draft.table("channels").values() for role in record.roles}
    for row in rows:
        heading, roles = _cell(row, columns, "scenes"), _cell(row, columns, "role")
        if heading is None:
            continue
        text = cells.text(heading)
        text = ask_date(heading, ledger, "scene") if heading.kind == "date" else text
        if not text:
            continue
        record = draft.add("scenes", text, heading.place)
        title = _cell(row, columns, "scene_title")
        name = cells.text(title) if title else ""
        record.put("name", f"{text} {name}".strip(), heading.place)
        told = split_roles(cells.text(roles)) if roles else ()
        live = [spelled.get(key_of_name(role), role) for role in told if not is_blank(role)]
        for role in live:
            if key_of_name(role) not in spelled and roles:
                draft.add("roles", role, roles.place)
        if live and roles:
            record.put_list("live", [(role, roles.place) for role in live], roles.place)


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
