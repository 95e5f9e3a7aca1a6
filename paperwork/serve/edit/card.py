"""A channel as a card: every record that belongs to it, from the part to the rack, with its fields to type in."""

from collections.abc import Iterator
from typing import Any

from paperwork.editing.edited import EditedShow
from paperwork.files.references import list_naming, write_value
from paperwork.model.fields import SECTIONS
from paperwork.raw import Map
from paperwork.serve.edit.tables import describe_findings, list_names, list_records
from paperwork.text.names import id_key

BACKWARD = (("covers", "role", "roles"), ("looks", "by", "people"), ("moves", "role", "roles"))
"""What names the people and roles of a channel and so belongs to it: section, field, and whom it names."""

ORDER = ("channels", "roles", "people", "transmitters", "capsules", "racks", "radios", "covers", "looks", "moves")
"""The records on a card, from the part to what is worn."""

SHARED = ("radios", "racks")
"""What many channels have in common: of it the card shows only by what it is known."""

MOST = 40
"""Records on one card. A choice of this project; a chorus on one pack has some twenty."""


def describe_card(show: EditedShow, channel: str) -> dict[str, Any]:
    """The records of a channel, and the findings about them. Raises KeyError for a channel that there is not."""
    records = dict(list_records(show.raw.get("channels")))
    if channel not in records:
        raise KeyError(channel)
    related = list(_list_related(show, channel))[:MOST]
    built = show.reading.show.channels.get(channel) if show.reading.show else None
    scenes = show.reading.show.scenes if show.reading.show else ()
    live = [f"{scene.id} {scene.name}".strip() for scene in scenes if built and set(built.roles) & set(scene.live)]
    return {
        "channel": channel,
        "ids": list(records),
        "slot": str(built.slot or "") if built else "",
        "live": live,
        "label": channel if built and built.hz is not None else "",
        "groups": [_describe_record(show, section, id) for section, id in related],
        "findings": [
            one
            for one in describe_findings(show)
            if any((section, id) in related for section, id, _ in ((one["section"], one["id"], ""), *one["also"]))
        ],
    }


def _describe_record(show: EditedShow, section: str, id: str) -> dict[str, Any]:
    record = dict(list_records(show.raw.get(section))).get(id)
    cells = {key.text: write_value(value) for key, value in record.items} if isinstance(record, Map) else {}
    fields = [
        {"name": field.name, "title": field.title, "value": cells.get(field.name, ""), "help": field.help}
        for field in SECTIONS[section].fields.values()
        if field.is_marked("brief") or field.is_marked("required") or (field.name in cells and section not in SHARED)
    ]
    return {"section": section, "word": SECTIONS[section].word, "id": id, "fields": fields}


def _list_related(show: EditedShow, channel: str) -> Iterator[tuple[str, str]]:
    """The channel, what it names, what that names, and what names its people and roles; each once."""
    found: dict[tuple[str, str], None] = {("channels", channel): None}
    for section, id in _name_records(show, "channels", channel, {"role", "by", "shared", "pack", "capsule", "radio"}):
        found[section, id] = None
    for section, id in list(found):
        if section == "roles":
            found.update(dict.fromkeys(_name_records(show, section, id, {"by"})))
    packs = {id_key(id): id for id, _ in list_records(show.raw.get("transmitters"))}
    if id_key(channel) in packs and not any(section == "transmitters" for section, _ in found):
        found["transmitters", packs[id_key(channel)]] = None
    built = show.reading.show.channels.get(channel) if show.reading.show else None
    if built and built.slot:
        found["racks", built.slot.rack] = None
    names = _list_meant(show, channel)
    for section, field, to in BACKWARD:
        for id, record in list_records(show.raw.get(section)):
            value = record.get(field) if isinstance(record, Map) else None
            if value is not None and id_key(write_value(value)) in names[to]:
                found[section, id] = None
    yield from sorted(found, key=lambda one: ORDER.index(one[0]))


def _list_meant(show: EditedShow, channel: str) -> dict[str, set[str]]:
    """The roles and people of a channel, as keys, listed in their sections or not."""
    built = show.reading.show.channels.get(channel) if show.reading.show else None
    if built is None or show.reading.show is None:
        return {"roles": set(), "people": set()}
    roles = [show.reading.show.roles[role] for role in built.roles if role in show.reading.show.roles]
    people = {built.by, *(role.by for role in roles)} - {""}
    return {"roles": set(map(id_key, built.roles)), "people": set(map(id_key, people))}


def _name_records(show: EditedShow, section: str, id: str, fields: set[str]) -> Iterator[tuple[str, str]]:
    """The records that fields of one record name, where they are listed."""
    record = dict(list_records(show.raw.get(section))).get(id)
    for to in SECTIONS:
        listed = {id_key(key): key for key, _ in list_records(show.raw.get(to))}
        for of, name in sorted(list_naming(to)):
            value = record.get(name) if isinstance(record, Map) and of == section and name in fields else None
            names = map(id_key, list_names(value, to)) if value is not None else ()
            yield from ((to, listed[key]) for key in names if key in listed)
