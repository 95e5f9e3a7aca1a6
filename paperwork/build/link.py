"""References resolved: every id that a record names is found, and who plays what is said in one place, the roles."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any, NamedTuple

from paperwork import limits
from paperwork.build.bounds import Allowance
from paperwork.build.index import Index
from paperwork.finding import Edit, Finding, Subject, find
from paperwork.model import Channel, Group, Performance, Person, Rack, RadioType, Role, Scene, Slot, Transmitter
from paperwork.model.fields import SECTIONS, name_record
from paperwork.model.row import Field
from paperwork.place import Place
from paperwork.text.names import Hints, expand_range, fold, group_key, id_key, shorten_ids, split_names
from paperwork.text.spellings import is_near_name
from paperwork.text.units import Doubt

MOST_SPELLED = 20
"""So many ids of a range are spelled out in what would fix it. A choice of this project."""


class Claim(NamedTuple):
    """What a rack gives to a channel that it lists: a slot, and a radio type where the rack has one."""

    slot: Slot
    radio: str


class Linker:
    """Looks ids up and collects what is missing: one finding for each missing id, however many records name it."""

    def __init__(self, indexes: Mapping[str, Index], found: list[Finding]) -> None:
        self.indexes = indexes
        self.found = found
        self._missing: dict[tuple[str, str], int] = {}
        self._near: dict[tuple[str, str], str] = {}
        self._hints = Hints()

    def link(self, section: str, id: str, name: str, of: tuple[str, str], place: Place, *, whole: bool = False) -> str:
        """The id spelled as in its section, or "" and a finding. `of` is the section and id of the naming record;
        `whole`: the id is all that its field holds."""
        resolved = self.indexes[section].resolve(id)
        if resolved is not None:
            return resolved
        near = self._find_near(section, id)
        if section == "people" and not near:
            return id
        self._complain(section, (id,), name, of, place, near=near, at=Subject(*of) if whole else None)
        return ""

    def link_all(self, section: str, ids: Iterable[str], name: str, of: tuple[str, str], place: Place) -> list[str]:
        """The ids of one field in their order, "" for each that is unknown: all that are new to us are one finding."""
        given = tuple(ids)
        resolved = [self.indexes[section].resolve(id) for id in given]
        unknown = tuple(dict.fromkeys(id for id, found in zip(given, resolved, strict=True) if found is None))
        fresh = tuple(id for id in unknown if (section, id_key(id)) not in self._missing)
        if section == "people" or len(fresh) < 2:
            return [self.link(section, id, name, of, place) for id in given]
        for ids in (fresh, *((id,) for id in unknown if id not in fresh)):
            self._complain(section, ids, name, of, place)
        return [found or "" for found in resolved]

    def _complain(
        self,
        section: str,
        ids: tuple[str, ...],
        name: str,
        of: tuple[str, str],
        place: Place,
        *,
        near: str = "",
        at: Subject | None = None,
    ) -> None:
        """The finding of ids that are missing, or the place where there is one of them already. `at` is the record of
        a field that holds nothing else."""
        index = self._missing.setdefault((section, id_key(ids[0])), len(self.found))
        if index == len(self.found):
            self._missing |= {(section, id_key(id)): index for id in ids}
            facts: dict[str, Any] = {
                "record": name_record(*of),
                "name": name,
                "section": section,
                "at": at,
                "near": near,
            }
            facts |= {"id": shorten_ids(ids) if len(ids) > 1 else ids[0], "are": "are" if len(ids) > 1 else "is"}
            self.found.append(find("id-unknown", place, about=(Subject(*of),), **facts))
            return
        first = self.found[index]
        subjects = tuple(dict.fromkeys((*first.subjects, Subject(*of))))
        edits = (*first.edits, Edit(*of, name, first.edits[0].value)) if at and first.edits else ()
        self.found[index] = replace(first, subjects=subjects, others=(*first.others, place), edits=edits)

    def _find_near(self, section: str, id: str) -> str:
        """The id that was probably meant, "" if none is near; for each unknown id it is looked for once."""
        key, ids = (section, id_key(id)), self.indexes[section].ids
        if key not in self._near:
            meant = self._hints.first(id, ids, is_near_name) if section == "people" else self._hints.nearest(id, ids)
            self._near[key] = meant
        return self._near[key]

    def link_field(self, section: str, record: Any, row: Field) -> Any:
        """The value of a field that holds ids: each as the first of its sections that has it spells it, unknown ones
        left out."""
        of, place, value = (section, record.id), record.where[row.name], getattr(record, row.attrs[0])
        if isinstance(value, str):
            return self.link(self._home_of(row, value), value, row.name, of, place, whole=row.name in record.where)
        if row.kind.reads == "ranged":
            value = self._expand_ranges(row.refers, value, row.name, of, place)
        if not value:
            return ()
        homes = {home: [id for id in value if self._home_of(row, id) == home] for home in row.refers.split()}
        linked = {home: iter(self.link_all(home, ids, row.name, of, place)) for home, ids in homes.items()}
        return tuple(filter(None, (next(linked[self._home_of(row, id)]) for id in value)))

    def _expand_ranges(
        self, section: str, words: Iterable[str], name: str, of: tuple[str, str], place: Place
    ) -> list[str]:
        """The ids of a list, each range that is not an id itself as what it means. One that would leave out records
        between its ends, as 1-3 does 2a, or is of no numbers, is a finding that says how to write it."""
        index = self.indexes[section]
        ids: list[str] = []
        for word in words:
            between = index.list_between(word) if index.resolve(word) is None else ()
            try:
                meant = expand_range(word) if index.resolve(word) is None else (word,)
                if between and not {id_key(id) for id in between} <= set(map(id_key, meant)):
                    raise Doubt(f"{word} is no range of numbers that holds all of the {section} between them")
                if len(ids) + len(meant) > limits.LIST_LENGTH:
                    raise Doubt(f"it means more than {limits.LIST_LENGTH:,} items")
                ids += meant
            except Doubt as doubt:
                advice = (
                    f"write {', '.join(between)}" if 0 < len(between) <= MOST_SPELLED else "write each id, with commas"
                )
                facts: dict[str, Any] = {
                    "record": name_record(*of),
                    "name": name,
                    "reason": str(doubt),
                    "description": advice,
                }
                self.found.append(find("value-unreadable", place, about=(Subject(*of),), **facts))
        return ids

    def _home_of(self, row: Field, id: str) -> str:
        """The section that an id is of, where a field names records of several: a section that is there and has it,
        else the last."""
        *first, last = row.refers.split()
        return next((one for one in first if self.indexes[one].holds(id)), last)

    def link_record(self, section: str, record: Any) -> Any:
        """The record with the ids of all `_linked` fields resolved."""
        return _alter(record, {attr: self.link_field(section, record, row) for attr, row in _linked(section)})


def _alter(record: Any, values: Mapping[str, Any]) -> Any:
    """The record with some values; itself where it has them, as most have."""
    changed = {attr: value for attr, value in values.items() if value != getattr(record, attr)}
    return replace(record, **changed) if changed else record


@cache
def _linked(section: str) -> tuple[tuple[str, Field], ...]:
    """The fields of a section that need no more than a look-up, each with its attribute.

    The others go their own way: roles are resolved by then, and radio, pack and slot of a channel hang on each other.
    """
    own_way = {
        "roles": ("group",),
        "channels": ("role", "radio", "spare", "pack", "slot"),
        "performances": ("cast",),
    }.get(section, ())
    rows = SECTIONS[section].fields.values()
    return tuple((row.attrs[0], row) for row in rows if row.refers and row.attrs and row.name not in own_way)


def link_channel(
    linker: Linker,
    channel: Channel,
    radios: Mapping[str, RadioType],
    transmitters: Mapping[str, Transmitter],
    claims: tuple[Claim, ...],
) -> Channel:
    """A channel with its references resolved, its radio and pack filled in, and every claim to a slot.

    One without a radio type has that of its pack, else of the rack that lists it, else the first of the file.
    """
    of, where = ("channels", channel.id), channel.where
    pack = linker.link("transmitters", channel.pack, "pack", of, where["pack"]) if channel.pack else channel.id
    own = tuple(
        replace(slot, rack=rack)
        for slot in channel.slots
        if (rack := linker.link("racks", slot.rack, "slot", of, where["slot"]))
    )
    own_radio = transmitters[pack].radio if pack in transmitters else ""
    given = (channel.radio, own_radio, *(claim.radio for claim in claims))
    radio = next(filter(None, given), next(iter(radios), ""))
    if radios:
        name = "spare" if channel.spare and "radio" not in where else "radio"
        radio = linker.link("radios", radio, name, of, where[name])
    claimed = tuple(claim.slot for claim in claims if claim.slot not in own)
    channel = linker.link_record("channels", channel)
    return replace(channel, radio=radio, pack=pack, slots=(*own, *claimed))


def share_carriers(channels: Mapping[str, Channel]) -> dict[str, Channel]:
    """The channels, what is given of a wide carrier on each channel in it that says nothing itself."""
    shared = dict(channels)
    for attr, field in (("hz", "mhz"), ("backup_hz", "backup"), ("wants_backup", "backup")):
        given = {one.carrier: value for one in reversed(tuple(channels.values())) if (value := getattr(one, attr))}
        shared |= {
            id: replace(one, **{attr: given[one.carrier]})
            for id, one in shared.items()
            if one.carrier in given and one.carrier and field not in one.where
        }
    return shared


def spell_groups(groups: Iterable[Group]) -> dict[tuple[str, str], str]:
    """The spellings that the section groups declares: a name of a group, full or not, is its id."""
    declared = [(group, name) for group in groups for name in (group.name, group.id) if name]
    return {(group.kind, group_key(name)): group.id for group, name in declared}


def share_spellings(
    records: Mapping[str, Any], fields: Iterable[str], first: dict[tuple[str, str], str]
) -> dict[str, Any]:
    """The records, names that they share spelled as declared, else as where each first is: `Field1` is `Field 1`.

    `first` holds what is declared, and carries the spellings on from section to section.
    """
    return {
        id: _alter(record, {name: _respell(name, getattr(record, name), first) for name in fields})
        for id, record in records.items()
    }


def _respell(name: str, value: Any, first: dict[tuple[str, str], str]) -> Any:
    if isinstance(value, tuple):
        return tuple(_respell(name, one, first) for one in value)
    return first.setdefault((name, group_key(value)), value) if value else value


def link_rack(linker: Linker, rack: Rack) -> Rack:
    """A rack with the destinations of its outputs resolved; an unknown one is one finding."""
    spelled: dict[str, str] = {}
    kept = []
    for output in rack.outputs:
        if output.console not in spelled:
            name = f"{output.kind} {output.copy}"
            spelled[output.console] = linker.link("consoles", output.console, name, ("racks", rack.id), output.place)
        if spelled[output.console]:
            kept.append(replace(output, console=spelled[output.console]))
    return replace(rack, outputs=tuple(kept))


def number_namesakes(scenes: Iterable[Scene]) -> Iterator[Scene]:
    """The scenes, those of one printed name with their ids before it: two are called Street, and a swap is in one."""
    scenes = tuple(scenes)
    named = Counter(fold(scene.name) for scene in scenes)
    for scene in scenes:
        shared = scene.name and named[fold(scene.name)] > 1
        yield replace(scene, name=f"{scene.id} {scene.name}") if shared else scene


def link_scene(linker: Linker, scene: Scene, roles: Mapping[str, Role], allowance: Allowance) -> Scene:
    """A scene with its live roles split and resolved, a group as the roles that it stands for. Raises Large."""
    known = linker.indexes["roles"]
    named = split_names(scene.live[0], known.of_words, lambda id: known.resolve(id) is not None) if scene.live else ()
    scene = linker.link_record("scenes", replace(scene, live=tuple(named)))
    members = [one for role in scene.live for one in roles[role].group or (role,)]
    allowance.take(members, scene.where["live"])
    return replace(scene, live=tuple(dict.fromkeys(members)))


def link_performance(
    linker: Linker, performance: Performance, roles: Mapping[str, Role], team: str, people: Mapping[str, Person]
) -> Performance:
    """A performance with its cast: names spelled as in their sections, and who plays the other roles that change hands.

    The roles are as the file states them; a pair with an unknown name is left out.
    """
    of, place = ("performances", performance.id), performance.where["cast"]
    linked = [
        (linker.link("roles", role, "cast", of, place), linker.link("people", name, "cast", of, place))
        for role, name in performance.cast
    ]
    stated = {role: name for role, name in linked if role and name}
    team = performance.team or team
    cast = {id: stated.get(id) or find_player(role, team, people) for id, role in roles.items() if role.alternates}
    return replace(performance, cast=tuple((cast | stated).items()))


def find_player(role: Role, team: str, people: Mapping[str, Person]) -> str:
    """Who plays a role, as the file states it, when a team does: the first of that team, else whom the role names."""
    theirs = (name for name in role.casts if team and name in people and fold(people[name].team) == fold(team))
    return next(theirs, role.by)
