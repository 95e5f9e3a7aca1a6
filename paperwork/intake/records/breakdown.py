"""Tables that are neither channel list nor grid: scenes with who is in them, and people with their rooms."""

from collections.abc import Iterator, Mapping, Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.tables.column import Columns
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.bodies import is_mic
from paperwork.intake.texts.names import is_blank, key_of_name, split_roles
from paperwork.intake.texts.scenes import expand_scenes, is_scene, says_all
from paperwork.place import Place
from paperwork.raw import List, Text


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
        known = record.fields.get("live")
        live = {one.text: one.place for one in known.items if isinstance(one, Text)} if isinstance(known, List) else {}
        for role, channel in _list_live(ledger.text(names), spelled, names.place, draft):
            if channel and channel.users and role not in channel.roles:
                move = draft.add("moves", f"m{len(draft.table('moves')) + 1}", names.place)
                for field, said in (("role", role), ("scene", record.id), ("channel", channel.id)):
                    move.put(field, said, names.place)
            live.setdefault(role, names.place)
        if live:
            record.put_list("live", live.items(), names.place)


def _list_live(
    text: str, spelled: Mapping[str, Sequence[str]], place: Place, draft: ShowDraft
) -> Iterator[tuple[str, DraftRecord | None]]:
    """The roles that a cell lists: by their names, by those of performers, by mics as `3`, `1-5`, or all of them; and by both
    as `4 COOK`, with the channel that is said."""
    for name in split_roles(text):
        number, _, rest = name.partition(" ")
        channel = draft.find("channels", number)
        if is_blank(name):
            continue
        if key_of_name(name) in spelled:
            yield from ((role, None) for role in spelled[key_of_name(name)])
        elif says_all(name) and draft.users:
            yield from ((role, None) for user in draft.users for role in _roles_of(user))
        elif mics := [one for id in expand_scenes(name) if is_mic(id) and (one := draft.find("channels", id))]:
            yield from ((role, None) for one in mics for user in one.users for role in _roles_of(user))
        elif channel and rest and is_mic(number):
            yield from ((role, channel) for role in spelled.get(key_of_name(rest), (rest,)))
        else:
            yield draft.add("roles", name, place).id, None


def _roles_of(user: User) -> Sequence[str]:
    if user.by or user.roles:
        user.take_role()
    return user.roles


def _spell_names(draft: ShowDraft) -> dict[str, tuple[str, ...]]:
    """The roles of each name that the channels have, of a role or of a performer, as the channels spell them."""
    found = {key_of_name(user.by): tuple(user.roles) or (user.by,) for user in draft.users if user.by}
    return found | {key_of_name(role): (role,) for user in draft.users for role in user.roles}
