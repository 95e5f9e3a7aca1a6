"""References resolved: every id that a record names is found, and who plays what is told in one place, the roles."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from paperwork.finding import Edit, Finding, Subject, find
from paperwork.model import (
    Channel,
    Cover,
    Look,
    Move,
    Person,
    Rack,
    RadioType,
    Role,
    Scene,
    Slot,
    Transmitter,
)
from paperwork.names import Hints, fold, key_of, split_list
from paperwork.place import Place
from paperwork.schema import name_record

_AND = re.compile(r"(?:^|\s+)(?:and|und|et|y)(?:\s+|$)|\s*[&+/]\s*", re.IGNORECASE)


class Index:
    """The ids of one section, found as a reader would find them. An absent section knows nothing and minds nothing.

    A `partial` one lists some alone: it minds an id that may be a slip of one of them.
    """

    def __init__(self, section: str, ids: Iterable[str], *, present: bool, partial: bool = False) -> None:
        self.section = section
        self.ids = tuple(ids)
        self.partial = partial
        self._present = present
        self._by_key = {key_of(id): id for id in reversed(self.ids)}

    def resolve(self, id: str) -> str | None:
        """The id as its section spells it; the given one if the section is absent; None if it is unknown."""
        if not self._present or not id:
            return id
        return self._by_key.get(key_of(id))


class Claim(NamedTuple):
    """What a rack gives to a channel that it lists: a slot, and its radio type where the rack tells one."""

    slot: Slot
    radio: str


class Linker:
    """Looks ids up and collects what is missing: one finding for each missing id, however many records name it."""

    def __init__(self, indexes: Mapping[str, Index], found: list[Finding]) -> None:
        self.indexes = indexes
        self.found = found
        self._missing: dict[tuple[str, str], int] = {}
        self._hints = Hints()

    def link(self, section: str, id: str, name: str, of: tuple[str, str], place: Place, *, whole: bool = False) -> str:
        """The id spelled as in its section, or "" and a finding. `of` is the section and id of the naming record; `whole`:
        the id is all that its field holds."""
        resolved = self.indexes[section].resolve(id)
        if resolved is not None:
            return resolved
        if self.indexes[section].partial and not self._hints.hint(id, self.indexes[section].ids):
            return id
        told = self._missing.setdefault((section, key_of(id)), len(self.found))
        if told == len(self.found):
            self.found.append(
                find(
                    "id-unknown",
                    place,
                    about=(Subject(*of),),
                    record=name_record(*of),
                    name=name,
                    id=id,
                    section=section,
                    at=Subject(*of) if whole else None,
                    near=self._hints.nearest(id, self.indexes[section].ids),
                )
            )
        else:
            first = self.found[told]
            subjects = tuple(dict.fromkeys((*first.subjects, Subject(*of))))
            edits = (*first.edits, Edit(*of, name, first.edits[0].value)) if whole and first.edits else ()
            self.found[told] = replace(first, subjects=subjects, others=(*first.others, place), edits=edits)
        return ""

    def of(self, section: str, record: Any) -> "Links":
        """The links of one record of a section."""
        return Links(self, section, record)


class Links:
    """The ids that one record names, looked up where each was written."""

    def __init__(self, linker: Linker, section: str, record: Any) -> None:
        self._linker, self._record, self._of = linker, record, (section, record.id)

    def one(self, section: str, name: str) -> str:
        """The id in a field, as its section spells it; "" and a finding if it is unknown."""
        where = self._record.where
        id, is_whole = getattr(self._record, name), name in where
        return self._linker.link(section, id, name, self._of, where[name], whole=is_whole)

    def all(self, section: str, name: str) -> tuple[str, ...]:
        """The ids in a field; the unknown ones are left out."""
        return self.look_up_all(section, getattr(self._record, name), name)

    def look_up(self, section: str, id: str, name: str) -> str:
        """The same for an id that is not the field's own text."""
        return self._linker.link(section, id, name, self._of, self._record.where[name])

    def look_up_all(self, section: str, ids: Iterable[str], name: str) -> tuple[str, ...]:
        """The same for several."""
        return tuple(filter(None, (self.look_up(section, id, name) for id in ids)))


def link_transmitter(linker: Linker, transmitter: Transmitter) -> Transmitter:
    """A transmitter with its radio type resolved."""
    return replace(transmitter, radio=linker.of("transmitters", transmitter).one("radios", "radio"))


def link_channel(
    linker: Linker,
    channel: Channel,
    radios: Mapping[str, RadioType],
    transmitters: Mapping[str, Transmitter],
    claims: tuple[Claim, ...],
) -> Channel:
    """A channel with its references resolved, its radio and pack filled in, and every claim to a slot.

    One that tells no radio type has that of its pack, else of the rack that lists it, else the first of the file.
    """
    links = linker.of("channels", channel)
    pack = links.one("transmitters", "pack") if channel.pack else channel.id
    told = (channel.radio, transmitters[pack].radio if pack in transmitters else "", *(claim.radio for claim in claims))
    radio = next(filter(None, told), next(iter(radios), ""))
    own = tuple(
        Slot(rack, slot.number, slot.place)
        for slot in channel.slots
        if (rack := links.look_up("racks", slot.rack, "slot"))
    )
    claimed = tuple(claim.slot for claim in claims if claim.slot not in own)
    return replace(
        channel,
        by=links.one("people", "by"),
        radio=links.look_up("radios", radio, "spare" if channel.spare else "radio") if radios else radio,
        backs=links.all("channels", "backs"),
        pack=pack,
        capsule=links.one("capsules", "capsule"),
        slots=(*own, *claimed),
        doubles=links.one("channels", "doubles"),
        alternate=links.one("channels", "alternate"),
    )


def share_carriers(channels: Mapping[str, Channel]) -> dict[str, Channel]:
    """The channels, each carrier spelled as where it is first named, and its frequency on each channel that tells none."""
    first: dict[str, str] = {}
    told: dict[str, int] = {}
    for channel in channels.values():
        if channel.carrier:
            first.setdefault(key_of(channel.carrier), channel.carrier)
            if channel.hz is not None:
                told.setdefault(key_of(channel.carrier), channel.hz)
    return {
        id: _share_carrier(channel, first, told) if channel.carrier else channel for id, channel in channels.items()
    }


def _share_carrier(channel: Channel, first: Mapping[str, str], told: Mapping[str, int]) -> Channel:
    key = key_of(channel.carrier)
    hz = told.get(key) if channel.hz is None and "mhz" not in channel.where else channel.hz
    return replace(channel, carrier=first[key], hz=hz)


def share_spellings(
    records: Mapping[str, Any], fields: Iterable[str], first: dict[tuple[str, str], str]
) -> dict[str, Any]:
    """The records, words that only a reader compares spelled as where each first stood: `Field1` is `Field 1`.

    `first` carries the spellings on from section to section. The words name no record, so no section lists them.
    """
    return {
        id: replace(record, **{name: _respell(name, getattr(record, name), first) for name in fields})
        for id, record in records.items()
    }


def _respell(name: str, value: Any, first: dict[tuple[str, str], str]) -> Any:
    if isinstance(value, tuple):
        return tuple(_respell(name, one, first) for one in value)
    return first.setdefault((name, key_of(value).replace("-", "")), value) if value else value


def link_rack(linker: Linker, rack: Rack) -> Rack:
    """A rack with the destinations of its outputs resolved; an unknown one is told once."""
    spelled: dict[str, str] = {}
    kept = []
    for output in rack.outputs:
        if output.console not in spelled:
            name = f"{output.kind} {output.copy}"
            spelled[output.console] = linker.link("consoles", output.console, name, ("racks", rack.id), output.place)
        if spelled[output.console]:
            kept.append(replace(output, console=spelled[output.console]))
    return replace(rack, outputs=tuple(kept))


def tell_apart(scenes: Iterable[Scene]) -> Iterator[Scene]:
    """The scenes, those of one printed name with their ids before it: two scenes are called Street, and a swap is in one."""
    scenes = tuple(scenes)
    named = Counter(fold(scene.name) for scene in scenes)
    for scene in scenes:
        shared = scene.name and named[fold(scene.name)] > 1
        yield replace(scene, name=f"{scene.id} {scene.name}") if shared else scene


def _split_live(text: str, roles: Index) -> Iterator[str]:
    """The names of a list as people write it: `VERA, TOM and HOST`, `VERA + TOM`. A role of that name is never taken apart,
    nor is a name of which no part is a role."""
    for item in split_list(text, roles.ids):
        parts = [part for part in _AND.split(item) if part]
        is_list = roles.resolve(item) is None and (not parts or any(roles.resolve(part) is not None for part in parts))
        yield from parts if is_list else (item,)


def link_scene(linker: Linker, scene: Scene, roles: Mapping[str, Role]) -> Scene:
    """A scene with its live roles split and resolved, a group as the roles that it stands for."""
    named = _split_live(scene.live[0], linker.indexes["roles"]) if scene.live else ()
    live = linker.of("scenes", scene).look_up_all("roles", named, "live")
    return replace(scene, live=tuple(dict.fromkeys(one for role in live for one in roles[role].group or (role,))))


def link_move(linker: Linker, move: Move) -> Move:
    """A move with its role and scene resolved."""
    links = linker.of("moves", move)
    return replace(move, role=links.one("roles", "role"), scene=links.one("scenes", "scene"))


def link_look(linker: Linker, look: Look) -> Look:
    """A look with its person and scene resolved."""
    links = linker.of("looks", look)
    return replace(look, by=links.one("people", "by"), scene=links.one("scenes", "scene"))


def link_cover(linker: Linker, cover: Cover) -> Cover:
    """A cover with its references resolved."""
    links = linker.of("covers", cover)
    return replace(
        cover,
        role=links.one("roles", "role"),
        by=links.one("people", "by"),
        scenes=links.all("scenes", "scenes"),
        channel=links.one("channels", "channel"),
        capsule=links.one("capsules", "capsule"),
    )


def link_role(linker: Linker, role: Role, team: str, people: Mapping[str, Person]) -> Role:
    """A role with its performers spelled as in the section people; of alternates, the one of the day's team plays."""
    links = linker.of("roles", role)
    by = links.one("people", "by")
    casts = (by, *links.all("people", "alternates"))
    tonight = next((name for name in casts if team and name in people and fold(people[name].team) == fold(team)), by)
    return replace(role, by=tonight, alternates=tuple(name for name in casts if name and name != tonight))
