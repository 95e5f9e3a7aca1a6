"""Raw to Show: values parsed, references resolved, every slip found. The only room that parses."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from paperwork import limits, schema
from paperwork.build import company, sections
from paperwork.build.fields import Fields
from paperwork.build.link import (
    Claim,
    Index,
    Linker,
    link_channel,
    link_cover,
    link_look,
    link_move,
    link_rack,
    link_role,
    link_scene,
    link_transmitter,
    share_carriers,
    share_spellings,
    tell_apart,
)
from paperwork.build.roles import tell_roles
from paperwork.finding import Finding, Subject, find
from paperwork.model import Show, Slot
from paperwork.names import key_of, natural_key
from paperwork.raw import Map, Text
from paperwork.vocabulary import fold_word

_TABLES: Mapping[str, Callable[[Fields], Any]] = {
    "radios": sections.build_radio,
    "racks": sections.build_rack,
    "consoles": sections.build_console,
    "others": sections.build_other,
    "transmitters": sections.build_transmitter,
    "capsules": sections.build_capsule,
    "people": company.build_person,
    "roles": company.build_role,
    "channels": sections.build_channel,
    "scenes": company.build_scene,
    "moves": company.build_move,
    "looks": company.build_look,
    "covers": company.build_cover,
    "venues": company.build_venue_row,
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
    people = _fold_people(raw)
    fields = {section: _fields_of(raw, section, found, people) for section in _TABLES}
    single = {name: _single(raw, name, found) for name in schema.SINGLE_SECTIONS}
    records = {section: {id: build(f) for id, f in fields[section].items()} for section, build in _TABLES.items()}
    production = company.build_production(single["show"])
    day = company.build_day(single["day"])
    spectrum = company.build_spectrum(single["spectrum"])
    _complain_of_grid(raw, fields, found)
    for section, one in fields.items():
        _complain_of_doubles(section, one, found)
    roles, channels = tell_roles(records["roles"], records["channels"], fields["channels"], found)
    present = {section for section in _TABLES if raw.get(section) is not None} | {"roles", "channels"}
    indexes = {section: Index(section, records[section], present=section in present) for section in _TABLES}
    indexes["roles"] = Index("roles", roles, present=True)
    indexes["people"] = _index_people(records["people"], (roles, channels, records["covers"]), "people" in present)
    linker = Linker(indexes, found)
    claims = _gather_claims(linker, fields["racks"])
    transmitters = {id: link_transmitter(linker, one) for id, one in records["transmitters"].items()}
    spellings: dict[tuple[str, str], str] = {}
    channels = share_spellings(channels, ("zone", "bill", "exclusive"), spellings)
    others = share_spellings(records["others"], ("zone", "bill"), spellings)
    show = Show(
        production=production,
        day=day,
        spectrum=spectrum,
        radios=records["radios"],
        racks=_sorted({id: link_rack(linker, rack) for id, rack in records["racks"].items()}),
        consoles=_sorted(records["consoles"]),
        others=_sorted(others),
        transmitters=_sorted(transmitters),
        capsules=_sorted(records["capsules"]),
        people=_sorted(records["people"]),
        roles=_sorted({id: link_role(linker, role, day.team, records["people"]) for id, role in roles.items()}),
        channels=_sorted(
            share_carriers(
                {
                    id: link_channel(linker, one, records["radios"], transmitters, claims.get(id, ()))
                    for id, one in channels.items()
                }
            )
        ),
        scenes=tuple(link_scene(linker, scene, roles) for scene in tell_apart(records["scenes"].values())),
        moves=_sorted({id: link_move(linker, move) for id, move in records["moves"].items()}),
        looks=_sorted({id: link_look(linker, look) for id, look in records["looks"].items()}),
        covers=tuple(
            link_cover(linker, cover) for cover in records["covers"].values() if cover.by or "by" not in cover.where
        ),
        venues=_sorted(records["venues"]),
    )
    asked = {section: frozenset().union(*(f.asked for f in one.values())) for section, one in fields.items()}
    return Built(show, tuple(found), asked | {name: frozenset(f.asked) for name, f in single.items()})


def _sorted(records: Mapping[str, Any]) -> dict[str, Any]:
    return dict(sorted(records.items(), key=lambda item: natural_key(item[0])))


def _single(raw: Map, section: str, found: list[Finding]) -> Fields:
    node = raw.get(section)
    if isinstance(node, Map):
        return Fields(section, "", node.place, node, found)
    return Fields(section, "", raw.place, Map((), raw.place), found)


def _index_people(people: Mapping[str, Any], named_by: Iterable[Mapping[str, Any]], present: bool) -> Index:
    """Everybody, where the section lists most of those who are named. One that lists half of them or fewer tells something
    of those alone, that one of them is a child, and the others need no entry."""
    named = {key_of(record.by) for records in named_by for record in records.values() if record.by}
    listed = {key_of(name) for name in people}
    return Index("people", people, present=present, partial=2 * len(named & listed) <= len(named))


def _fold_people(raw: Map) -> frozenset[str]:
    node = raw.get("people")
    return frozenset(fold_word(key.text) for key, _ in node.items) if isinstance(node, Map) else frozenset()


def _fields_of(raw: Map, section: str, found: list[Finding], people: frozenset[str]) -> dict[str, Fields]:
    node = raw.get(section)
    if not isinstance(node, Map):
        return {}
    records = {key.text.strip(): (key, value) for key, value in node.items if isinstance(value, Map)}
    if section == "radios":
        records = _resolve_like(records, found)
    return {id: Fields(section, id, key.place, value, found, people) for id, (key, value) in records.items()}


def _resolve_like(records: dict[str, tuple[Text, Map]], found: list[Finding]) -> dict[str, tuple[Text, Map]]:
    """Radio types with the fields of the type they are like, under their own."""
    by_key = {key_of(id): id for id in records}

    def fill(id: str, chain: tuple[str, ...]) -> Map:
        own = records[id][1]
        like = own.get("like")
        if not isinstance(like, Text):
            return own
        base = by_key.get(key_of(like.text))
        if base is None:
            known = ", ".join(records)
            found.append(
                find(
                    "id-unknown",
                    like.place,
                    about=(Subject("radios", id),),
                    record=f"radio {id}",
                    name="like",
                    id=like.text,
                    section="radios",
                    hint=f"; the types are {known}",
                )
            )
            return own
        if len(chain) > limits.LIKE_DEPTH:
            found.append(find("like-deep", like.place, about=(Subject("radios", id),), id=id, most=limits.LIKE_DEPTH))
            return own
        if base in chain:
            found.append(
                find("like-endless", like.place, about=(Subject("radios", id),), id=id, chain=", ".join(chain))
            )
            return own
        told = {name.text for name, _ in own.items}
        return Map(
            own.items + tuple(item for item in fill(base, (*chain, base)).items if item[0].text not in told), own.place
        )

    return {id: (key, fill(id, (id,))) for id, (key, _) in records.items()}


def _complain_of_grid(raw: Map, fields: Mapping[str, Mapping[str, Fields]], found: list[Finding]) -> None:
    channels, scenes = len(fields["channels"]), len(fields["scenes"])
    node = raw.get("scenes")
    if channels * scenes > limits.GRID_CELLS and isinstance(node, Map):
        found.append(
            find(
                "grid-large", node.place, channels=f"{channels:,}", scenes=f"{scenes:,}", most=f"{limits.GRID_CELLS:,}"
            )
        )


def _complain_of_doubles(section: str, records: Mapping[str, Fields], found: list[Finding]) -> None:
    first: dict[str, str] = {}
    for id, fields in records.items():
        other = first.setdefault(key_of(id), id)
        if other != id:
            found.append(
                find(
                    "id-doubled",
                    fields.where.record,
                    about=(Subject(section, other), Subject(section, id)),
                    others=(records[other].where.record,),
                    first_id=other,
                    id=id,
                    section=section,
                )
            )


def _gather_claims(linker: Linker, racks: Mapping[str, Fields]) -> dict[str, tuple[Claim, ...]]:
    """What racks give to channels, by channel."""
    claims: dict[str, tuple[Claim, ...]] = {}
    for rack, fields in racks.items():
        place = fields.where["channels"]
        radio = linker.link("radios", fields.text("radio"), "radio", ("racks", rack), fields.where["radio"])
        for number, named in enumerate(sections.read_claims(fields), start=1):
            channel = linker.link("channels", named, "channels", ("racks", rack), place) if named else ""
            if channel:
                claims[channel] = (*claims.get(channel, ()), Claim(Slot(rack, number, place), radio))
    return claims
