"""Tables that are neither channel list nor grid: scenes with who is in them, and people with their rooms."""

from collections.abc import Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.tables.column import Columns
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.names import is_blank, key_of_name, split_roles
from paperwork.intake.texts.scenes import is_scene


def is_breakdown(columns: Columns) -> bool:
    """Whether a table says of each scene who is in it, by roles or by performers. With names to the left of scenes it says
    of each name where it is in, which is something else."""
    scene, names = columns.of("scenes"), columns.of(_field_of_names(columns))
    return scene is not None and names is not None and scene < names and not columns.scenes


def _field_of_names(columns: Columns) -> str:
    return "role" if columns.has("role") else "performer"


def read_breakdown(rows: Sequence[DataRow], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter a scene for each row, with its title and its page, and the roles that its cell lists."""
    spelled = _spell_names(draft)
    for row in rows:
        heading, names = row.cell("scenes"), row.cell(_field_of_names(row.columns))
        text = ledger.text(heading) if heading else ""
        text = ledger.ask_date(heading, "scene") if heading and heading.kind == "date" else text
        if not heading or not text:
            continue
        number, _, rest = text.partition(" ")
        record = draft.add("scenes", number if rest and is_scene(number) else text, heading.place)
        title = row.cell("scene_title")
        record.put("name", f"{text} {ledger.text(title) if title else ''}".strip(), heading.place)
        if (cell := row.cell("page")) and not is_blank(page := ledger.text(cell)) and page:
            record.put("page", page, cell.place)
        if not names:
            continue
        listed = [name for name in split_roles(ledger.text(names)) if not is_blank(name)]
        live = dict.fromkeys(role for name in listed for role in spelled.get(key_of_name(name), (name,)))
        for name in listed:
            if key_of_name(name) not in spelled:
                draft.add("roles", name, names.place)
        if live:
            record.put_list("live", [(role, names.place) for role in live], names.place)


def _spell_names(draft: ShowDraft) -> dict[str, tuple[str, ...]]:
    """The roles of each name that the channels have, of a role or of a performer, as the channels spell them."""
    found = {key_of_name(user.by): tuple(user.roles) or (user.by,) for user in draft.users if user.by}
    return found | {key_of_name(role): (role,) for user in draft.users for role in user.roles}
