"""The draft made whole: users become roles and performers, scene ranges become scenes, notes become one text."""

from paperwork.intake.draft import Draft, Record, User
from paperwork.intake.scenes import expand_scenes
from paperwork.raw import Map, Text

_NO_STEP = "other"


def finish(draft: Draft) -> None:
    """Write what was gathered about each channel into its fields, and complete the sections that this begins."""
    channels = tuple(draft.table("channels").values())
    _spread_scenes(draft, channels)
    for record in channels:
        _tell_users(record)
        if record.notes:
            texts = dict.fromkeys(text for text, _ in record.notes)
            record.put("notes", "; ".join(texts), record.notes[0][1])
    _write_points(draft)
    if draft.sections.get("people"):
        _complete_people(draft, channels)
    if draft.sections.get("radios"):
        for record in channels:
            if "radio" not in record.fields:
                draft.add("radios", _NO_STEP, record.place)
                record.put("radio", _NO_STEP, record.place)


def _write_points(draft: Draft) -> None:
    """Decimal commas beside points are written as points; commas throughout are the sheet's own way, and stay."""
    records = [record for section in ("channels", "others") for record in draft.sections.get(section, {}).values()]
    told = [(record, mhz) for record in records if isinstance(mhz := record.fields.get("mhz"), Text)]
    if any("." in mhz.text for _, mhz in told):
        for record, mhz in told:
            record.put("mhz", mhz.text.replace(",", "."), mhz.place)


def _spread_scenes(draft: Draft, channels: tuple[Record, ...]) -> None:
    """Ranges of scenes beside a performer make that performer's roles live in them, and the scenes known."""
    told = [(user, record) for record in channels for user in record.users if user.scenes]
    if not told:
        return
    known = [record.id for record in draft.table("scenes").values()]
    ranges = {id(user): expand_scenes(user.scenes, known) for user, _ in told}
    order = list(dict.fromkeys([*known, *(scene for scenes in ranges.values() for scene in scenes)]))
    if not known:
        from paperwork.names import natural_key

        order.sort(key=natural_key)
    live: dict[str, list[tuple[str, User]]] = {scene: [] for scene in order}
    for user, _ in told:
        user.roles = user.roles or [user.by]
        for scene in ranges[id(user)]:
            live[scene] += [(role, user) for role in user.roles]
    for scene in order:
        first = (
            live[scene][0][1].place if live[scene] else draft.table("scenes")[next(iter(draft.table("scenes")))].place
        )
        record = draft.add("scenes", scene, first)
        record.fields.setdefault("name", Text(scene, record.place))
        if live[scene] and "live" not in record.fields:
            record.put_list("live", [(role, user.place) for role, user in live[scene]], first)


def _tell_users(record: Record) -> None:
    users = record.users
    names = dict.fromkeys(user.by for user in users if user.by)
    if len(names) > 1:
        pairs = {role: (user.by, user.place) for user in users for role in user.roles or [user.by]}
        items = tuple((Text(role, place), Text(by, place)) for role, (by, place) in pairs.items())
        record.fields["shared"] = Map(items, users[0].place)
        return
    if record.roles:
        where = {role: user.place for user in reversed(users) for role in user.roles}
        record.put_list("role", [(role, where[role]) for role in record.roles], users[0].place)
    if names:
        record.put("by", next(iter(names)), next(user.place for user in users if user.by))


def _complete_people(draft: Draft, channels: tuple[Record, ...]) -> None:
    """A section of people has to hold everybody: a name that it lacks would be taken for a slip."""
    for record in channels:
        for user in record.users:
            if user.by:
                draft.add("people", user.by, user.place)
    for record in draft.table("covers").values():
        by = record.fields.get("by")
        if isinstance(by, Text):
            draft.add("people", by.text, by.place)
