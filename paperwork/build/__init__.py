"""Raw to Show: values parsed, references resolved, every slip found. The only room that parses."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any

from paperwork import limits
from paperwork.build.bounds import Allowance, Large, find_large
from paperwork.build.fields import Fields
from paperwork.build.index import Index
from paperwork.build.link import (
    Claim,
    Linker,
    find_player,
    link_channel,
    link_performance,
    link_rack,
    link_scene,
    number_namesakes,
    share_carriers,
    share_spellings,
    spell_groups,
)
from paperwork.build.readers import build_record, is_yes
from paperwork.build.roles import gather_roles, part_roles
from paperwork.finding import Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.model import Cover, Look, Move, Scene, Show, Slot
from paperwork.model.fields import SECTIONS, SINGLES, list_marked
from paperwork.raw import Map, Text
from paperwork.text.clock import FROM_CURTAIN, Clock, split_date
from paperwork.text.names import id_key, list_unsorted, natural_key
from paperwork.text.vocabulary import fold_word

_TABLES = tuple(name for name in SECTIONS if name not in SINGLES)


@frozen
class Built:
    """The show as far as it could be built, and what was found."""

    show: Show
    findings: tuple[Finding, ...]


def build_show(raw: Map) -> Built:
    """The show of a Raw that has passed the schema. Findings are of stage `reference`, or doubted frequencies."""
    if large := find_large(raw):
        return Built(Show(), (large,))
    try:
        return _build(raw)
    except Large as refused:
        return Built(Show(), (refused.finding,))


def _build(raw: Map) -> Built:
    """The same. Raises Large where what groups stand for is too much."""
    found: list[Finding] = []
    people, clock, allowance = _fold_people(raw), _read_clock(raw), Allowance(limits.ITEMS)
    fields = {section: _fields_of(raw, section, found, people, clock) for section in _TABLES}
    records: dict[str, Any] = {
        section: {id: build_record(f) for id, f in fields[section].items()} for section in _TABLES
    }
    singles: dict[str, Any] = {SECTIONS[name].held: build_record(_single(raw, name, found, clock)) for name in SINGLES}
    for section, one in fields.items():
        _complain_of_doubles(section, one, found)
    _spell_people(records)
    roles, channels = gather_roles(records["roles"], records["channels"], fields["channels"], found, allowance)
    linker = Linker(_index_records(raw, {**records, "roles": roles}), found)
    claims = _gather_claims(linker, fields["racks"])
    records["transmitters"] = _link(linker, "transmitters", records["transmitters"])
    channels = _share_names(channels, records, singles)
    records["racks"] = {id: link_rack(linker, rack) for id, rack in records["racks"].items()}
    team, known = singles["day"].team, records["people"]
    stated = _link(linker, "roles", roles)
    records["performances"] = {
        id: link_performance(linker, one, stated, team, known) for id, one in records["performances"].items()
    }
    records["roles"] = {id: role.played_by(find_player(role, team, known)) for id, role in stated.items()}
    gear = records["radios"], records["transmitters"]
    linked = {id: link_channel(linker, one, *gear, claims.get(id, ())) for id, one in channels.items()}
    records["channels"] = share_carriers(linked)
    live = Allowance(limits.GRID_CELLS)
    scenes = tuple(link_scene(linker, scene, roles, live) for scene in number_namesakes(records["scenes"].values()))
    records["covers"] = {id: one for id, one in records["covers"].items() if one.by or "by" not in one.where}
    records |= {section: part_roles(records[section], roles, allowance) for section in ("moves", "covers")}
    for section in ("moves", "looks", "covers", "hires", "antennas"):
        records[section] = _link(linker, section, records[section])
    cut = {id for id, one in fields["scenes"].items() if is_yes(one.text("cut"))}
    cut_roles = frozenset(role for scene in scenes if scene.id in cut for role in scene.live)
    records |= leave_out(scenes, records, cut)
    return Built(Show(**singles, **_arrange(records), cut_roles=cut_roles), tuple(found))


def _arrange(records: Mapping[str, Any]) -> dict[str, Any]:
    """The tables of the show: in the order of the file where that counts, else sorted as people count."""
    ordered = {name: records[name] for name in ("radios", "racks")} | {"scenes": records["scenes"]}
    ordered |= {name: tuple(records[name].values()) for name in ("covers", "contacts")}
    tables = {name: _sorted(records[name]) for name in _TABLES if name not in ordered}
    return {**tables, **ordered, "rack_order": list_unsorted(records["racks"])}


def _spell_people(records: dict[str, Any]) -> None:
    """Members of groups and listeners as the section people spells them: what it says of a child holds there too."""
    spelled = {id_key(name): name for name in records["people"]}
    for section, attr in (("roles", "group"), ("others", "listeners")):
        for id, record in records[section].items():
            if names := getattr(record, attr):
                own = tuple(spelled.get(id_key(name), name) for name in names)
                records[section][id] = replace(record, **{attr: own})


def _index_records(raw: Map, records: Mapping[str, Any]) -> dict[str, Index]:
    present = {section for section in _TABLES if raw.get(section) is not None} | {"roles", "channels"}
    return {section: Index(section, records[section], present=section in present) for section in _TABLES}


def _share_names(channels: Mapping[str, Any], records: dict[str, Any], singles: dict[str, Any]) -> dict[str, Any]:
    """The channels with the names that they share spelled alike; those of other records are replaced in place."""
    spellings = spell_groups(records["groups"].values())
    shared = list_marked("shared")
    channels = share_spellings(channels, shared.pop("channels"), spellings)
    for section, names in reversed(shared.items()):
        if section in SINGLES:
            singles |= share_spellings({section: singles[section]}, names, spellings)
        else:
            records[section] = share_spellings(records[section], names, spellings)
    return channels


def _link(linker: Linker, section: str, records: Mapping[str, Any]) -> dict[str, Any]:
    return {id: linker.link_record(section, record) for id, record in records.items()}


def _sorted(records: Mapping[str, Any]) -> dict[str, Any]:
    return dict(sorted(records.items(), key=lambda item: natural_key(item[0])))


def _single(raw: Map, section: str, found: list[Finding], clock: Clock) -> Fields:
    node = raw.get(section)
    held = node if isinstance(node, Map) else Map((), raw.place)
    return Fields(section, "", held.place, held, found, clock=clock)


def _read_clock(raw: Map) -> Clock:
    """What the times of the show count from. What is wrong with the two sections is found where they are built."""
    day, production = (build_record(_single(raw, section, [], FROM_CURTAIN)) for section in ("day", "show"))
    return Clock(day.times == "clock", production.first_day)


def _dates_of_scenes(raw: Map) -> Mapping[str, str]:
    """By the key of a scene the date in its time: its moves are on that day."""
    node = raw.get("scenes")
    held = ((key, one.get("at")) for key, one in node.items if isinstance(one, Map)) if isinstance(node, Map) else ()
    return {id_key(key.text): split_date(at.text)[0] for key, at in held if isinstance(at, Text)}


def _fold_people(raw: Map) -> frozenset[str]:
    node = raw.get("people")
    return frozenset(fold_word(key.text) for key, _ in node.items) if isinstance(node, Map) else frozenset()


def _fields_of(raw: Map, section: str, found: list[Finding], people: frozenset[str], clock: Clock) -> dict[str, Fields]:
    node = raw.get(section)
    if not isinstance(node, Map):
        return {}
    records = {key.text.strip(): (key, value) for key, value in node.items if isinstance(value, Map)}
    if section == "radios":
        records = _resolve_like(records, found)
    dates = _dates_of_scenes(raw) if section == "moves" and clock.by_day else {}
    return {
        id: Fields(section, id, key.place, value, found, people, clock._replace(day=dates.get(_scene_of(value), "")))
        for id, (key, value) in records.items()
    }


def _scene_of(record: Map) -> str:
    scene = record.get("scene")
    return id_key(scene.text) if isinstance(scene, Text) else ""


def _resolve_like(records: dict[str, tuple[Text, Map]], found: list[Finding]) -> dict[str, tuple[Text, Map]]:
    """Radio types with the fields of the type they are like, under their own."""
    by_key = {id_key(id): id for id in records}

    def fill(id: str, chain: tuple[str, ...]) -> Map:
        own, about = records[id][1], (Subject("radios", id),)
        like = own.get("like")
        if not isinstance(like, Text):
            return own
        base = by_key.get(id_key(like.text))
        if base is None:
            facts: dict[str, Any] = {
                "record": f"radio {id}",
                "name": "like",
                "section": "radios",
                "id": like.text,
                "are": "is",
            }
            hint = f"; the types are {', '.join(records)}"
            found.append(find("id-unknown", like.place, about=about, hint=hint, **facts))
            return own
        if len(chain) > limits.LIKE_DEPTH:
            found.append(find("like-deep", like.place, about=about, id=id, most=limits.LIKE_DEPTH))
            return own
        if base in chain:
            found.append(find("like-endless", like.place, about=about, id=id, chain=", ".join(chain)))
            return own
        stated = {name.text for name, _ in own.items}
        inherited = (item for item in fill(base, (*chain, base)).items if item[0].text not in stated)
        return Map((*own.items, *inherited), own.place)

    return {id: (key, fill(id, (id,))) for id, (key, _) in records.items()}


def _complain_of_doubles(section: str, records: Mapping[str, Fields], found: list[Finding]) -> None:
    first: dict[str, str] = {}
    for id, fields in records.items():
        other = first.setdefault(id_key(id), id)
        if other != id:
            about, others = (Subject(section, other), Subject(section, id)), (records[other].where.record,)
            facts: dict[str, Any] = {"first_id": other, "id": id, "section": section}
            found.append(find("id-doubled", fields.where.record, about=about, others=others, **facts))


def _gather_claims(linker: Linker, racks: Mapping[str, Fields]) -> dict[str, tuple[Claim, ...]]:
    """What racks give to channels, by channel."""
    claims: dict[str, tuple[Claim, ...]] = {}
    for rack, fields in racks.items():
        place = fields.where["channels"]
        radio = linker.link("radios", fields.text("radio"), "radio", ("racks", rack), fields.where["radio"])
        named = linker.link_all("channels", fields.ids("channels"), "channels", ("racks", rack), place)
        for number, channel in enumerate(named, start=1):
            if channel:
                claims[channel] = (*claims.get(channel, ()), Claim(Slot(rack, number, place), radio))
    return claims


def leave_out(scenes: Iterable[Scene], records: Mapping[str, Any], cut: Collection[str]) -> dict[str, Any]:
    """Scenes, moves, looks and covers without the scenes that are cut. A look of a cut scene is worn from the next one
    on; a cover of cut scenes alone, and a look after which nothing is played, fall away."""
    order = tuple(scenes)
    kept = tuple(scene for scene in order if scene.id not in cut)
    following: dict[str, str] = {}
    after = ""
    for scene in reversed(order):
        after = after if scene.id in cut else scene.id
        following[scene.id] = after
    moves: Mapping[str, Move] = records["moves"]
    looks: Mapping[str, Look] = records["looks"]
    covers: Mapping[str, Cover] = records["covers"]
    return {
        "scenes": kept,
        "moves": {id: one for id, one in moves.items() if one.scene not in cut},
        "looks": {
            id: replace(one, scene=following.get(one.scene, one.scene))
            for id, one in looks.items()
            if one.scene not in cut or following[one.scene]
        },
        "covers": {
            id: replace(one, scenes=tuple(scene for scene in one.scenes if scene not in cut))
            for id, one in covers.items()
            if not one.scenes or not set(one.scenes) <= set(cut)
        },
    }
