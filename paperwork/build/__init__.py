"""Raw to Show: values parsed, references resolved, every slip found. The only room that parses."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from paperwork.build import sections
from paperwork.build.fields import Fields
from paperwork.build.link import (
    Index,
    Linker,
    key_of,
    link_channel,
    link_cover,
    link_rack,
    link_role,
    link_scene,
    link_transmitter,
)
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Role, Show, Slot, Where
from paperwork.names import natural_key
from paperwork.place import Place
from paperwork.raw import Map, Text

_TABLES: Mapping[str, Callable[[Fields], Any]] = {
    "radios": sections.build_radio,
    "racks": sections.build_rack,
    "consoles": sections.build_console,
    "others": sections.build_other,
    "transmitters": sections.build_transmitter,
    "capsules": sections.build_capsule,
    "people": sections.build_person,
    "roles": sections.build_role,
    "channels": sections.build_channel,
    "scenes": sections.build_scene,
    "covers": sections.build_cover,
}


@dataclass(frozen=True, slots=True)
class Built:
    """The show as far as it could be built, what was found, and which fields each section asked for (for tests)."""

    show: Show
    findings: tuple[Finding, ...]
    asked: Mapping[str, frozenset[str]]


def build_show(raw: Map) -> Built:
    """The show of a Raw that has passed the schema. Findings are of stage `reference`, or doubted frequencies."""
    found: list[Finding] = []
    asked: dict[str, set[str]] = {}
    fields = {section: _fields_of(raw, section, found) for section in _TABLES}
    single = {name: _single(raw, name, found) for name in ("show", "spectrum")}
    records = {section: {id: build(f) for id, f in fields[section].items()} for section, build in _TABLES.items()}
    production = sections.build_production(single["show"])
    spectrum = sections.build_spectrum(single["spectrum"])
    for section, one in fields.items():
        _complain_of_doubles(section, one, found)
        asked[section] = set().union(*(f.asked for f in one.values()))
    asked |= {name: f.asked for name, f in single.items()}
    roles, channels = _tell_roles(records["roles"], records["channels"], fields["channels"], found)
    present = {section for section in _TABLES if raw.get(section) is not None} | {"roles", "channels"}
    indexes = {section: Index(section, records[section], present=section in present) for section in _TABLES}
    indexes["roles"] = Index("roles", roles, present=True)
    linker = Linker(indexes, found)
    claims = _gather_claims(linker, fields["racks"])
    show = Show(
        production=production,
        spectrum=spectrum,
        radios=records["radios"],
        racks=_sorted({id: link_rack(linker, rack) for id, rack in records["racks"].items()}),
        consoles=_sorted(records["consoles"]),
        others=_sorted(records["others"]),
        transmitters=_sorted({id: link_transmitter(linker, t) for id, t in records["transmitters"].items()}),
        capsules=_sorted(records["capsules"]),
        people=_sorted(records["people"]),
        roles=_sorted({id: link_role(linker, role) for id, role in roles.items()}),
        channels=_sorted(
            {id: link_channel(linker, c, records["radios"], claims.get(id, ())) for id, c in channels.items()}
        ),
        scenes=tuple(link_scene(linker, scene) for scene in records["scenes"].values()),
        covers=tuple(link_cover(linker, cover) for cover in records["covers"].values()),
    )
    return Built(show, tuple(found), {section: frozenset(names) for section, names in asked.items()})


def _sorted(records: Mapping[str, Any]) -> dict[str, Any]:
    return dict(sorted(records.items(), key=lambda item: natural_key(item[0])))


def _single(raw: Map, section: str, found: list[Finding]) -> Fields:
    node = raw.get(section)
    if isinstance(node, Map):
        return Fields(section, "", node.place, node, found)
    return Fields(section, "", raw.place, Map((), raw.place), found)


def _fields_of(raw: Map, section: str, found: list[Finding]) -> dict[str, Fields]:
    node = raw.get(section)
    if not isinstance(node, Map):
        return {}
    records = {key.text.strip(): (key, value) for key, value in node.items if isinstance(value, Map)}
    if section == "radios":
        records = _resolve_like(records, found)
    return {id: Fields(section, id, key.place, value, found) for id, (key, value) in records.items()}


def _resolve_like(records: dict[str, tuple[Text, Map]], found: list[Finding]) -> dict[str, tuple[Text, Map]]:
    """Radio types with the fields of the type they are like, under their own."""
    by_key = {key_of(id): id for id in records}

    def fill(id: str, chain: tuple[str, ...]) -> Map:
        key, own = records[id]
        like = own.get("like")
        if not isinstance(like, Text):
            return own
        base = by_key.get(key_of(like.text))
        if base is None:
            known = ", ".join(records)
            found.append(
                find("id-unknown", like.place, about=(Subject("radios", id),), record=f"radio {id}", name="like",
                     id=like.text, section="radios", hint=f"; the types are {known}")
            )
            return own
        if base in chain:
            found.append(find("like-endless", like.place, about=(Subject("radios", id),), id=id, chain=" and ".join(chain)))
            return own
        told = {name.text for name, _ in own.items}
        return Map(own.items + tuple(item for item in fill(base, (*chain, base)).items if item[0].text not in told), own.place)

    return {id: (key, fill(id, (id,))) for id, (key, _) in records.items()}


def _complain_of_doubles(section: str, records: Mapping[str, Fields], found: list[Finding]) -> None:
    first: dict[str, str] = {}
    for id, fields in records.items():
        other = first.setdefault(key_of(id), id)
        if other != id:
            found.append(
                find("id-doubled", fields.where.record, about=(Subject(section, other), Subject(section, id)),
                     others=(records[other].where.record,), first_id=other, id=id, section=section)
            )


def _tell_roles(
    told: Mapping[str, Role], channels: Mapping[str, Channel], fields: Mapping[str, Fields], found: list[Finding]
) -> tuple[dict[str, Role], dict[str, Channel]]:
    """Roles with the performers that channels tell of, and channels with nothing but role ids."""
    roles = dict(told)
    by_key = {key_of(id): id for id in roles}
    linked: dict[str, Channel] = {}

    def tell(role: str, by: str, place: Place, channel: str) -> str:
        role = by_key.setdefault(key_of(role), role)
        known = roles.get(role)
        if known is None:
            roles[role] = Role(role, by=by, where=Where(place))
        elif by and not known.by:
            roles[role] = replace(known, by=by)
        elif by and key_of(by) != key_of(known.by):
            found.append(
                find("performer-twice-told", place, about=(Subject("channels", channel),), others=(known.where["by"],),
                     role=role, by=by, other=known.by, first=known.where["by"])
            )
        return role

    for id, channel in channels.items():
        where = channel.where
        named = [tell(role, channel.by, where["by"], id) for role in channel.roles]
        named += [tell(role, by, where["shared"], id) for role, by in fields[id].pairs("shared")]
        linked[id] = replace(channel, roles=tuple(dict.fromkeys(named)), by="" if named else channel.by)
    return roles, linked


def _gather_claims(linker: Linker, racks: Mapping[str, Fields]) -> dict[str, tuple[Slot, ...]]:
    """The slots that racks give to channels, by channel."""
    claims: dict[str, tuple[Slot, ...]] = {}
    for rack, fields in racks.items():
        place = fields.where["channels"]
        for number, named in enumerate(sections.read_claims(fields), start=1):
            channel = linker.link("channels", named, "channels", ("racks", rack), place) if named else ""
            if channel:
                claims[channel] = (*claims.get(channel, ()), Slot(rack, number, place))
    return claims
