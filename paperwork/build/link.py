"""References resolved: every id that a record names is found, and who plays what is told in one place, the roles."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from paperwork.finding import Finding, Subject, find
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
from paperwork.names import fold, hint, split_list
from paperwork.place import Place
from paperwork.schema import name_record


def key_of(id: str) -> str:
    """The key under which two ids are one to a reader: case, spaces and leading zeros fall away."""
    key = fold(id).replace(" ", "")
    digits = len(key) - len(key.lstrip("0123456789"))
    return (key[:digits].lstrip("0") or "0" * bool(digits)) + key[digits:]


class Index:
    """The ids of one section, found as a reader would find them. An absent section knows nothing and minds nothing."""

    def __init__(self, section: str, ids: Iterable[str], *, present: bool) -> None:
        self.section = section
        self.ids = tuple(ids)
        self._present = present
        self._by_key = {key_of(id): id for id in reversed(self.ids)}

    def resolve(self, id: str) -> str | None:
        """The id as its section spells it; the given one if the section is absent; None if it is unknown."""
        if not self._present or not id:
            return id
        return self._by_key.get(key_of(id))


class Linker:
    """Looks ids up and collects what is missing: one finding for each missing id, however many records name it."""

    def __init__(self, indexes: Mapping[str, Index], found: list[Finding]) -> None:
        self.indexes = indexes
        self.found = found
        self._missing: dict[tuple[str, str], int] = {}

    def link(self, section: str, id: str, name: str, of: tuple[str, str], place: Place) -> str:
        """The id spelled as in its section, or "" and a finding. `of` is the section and id of the naming record."""
        resolved = self.indexes[section].resolve(id)
        if resolved is not None:
            return resolved
        told = self._missing.setdefault((section, key_of(id)), len(self.found))
        if told == len(self.found):
            self.found.append(
                find("id-unknown", place, about=(Subject(*of),), record=name_record(*of), name=name, id=id,
                     section=section, hint=hint(id, self.indexes[section].ids))
            )
        else:
            first = self.found[told]
            subjects = tuple(dict.fromkeys((*first.subjects, Subject(*of))))
            self.found[told] = replace(first, subjects=subjects, others=(*first.others, place))
        return ""

    def link_all(self, section: str, ids: tuple[str, ...], name: str, of: tuple[str, str], place: Place) -> tuple[str, ...]:
        """All of several ids; the unknown ones are left out."""
        return tuple(filter(None, (self.link(section, id, name, of, place) for id in ids)))


def link_transmitter(linker: Linker, transmitter: Transmitter) -> Transmitter:
    """A transmitter with its radio type resolved."""
    of = ("transmitters", transmitter.id)
    return replace(transmitter, radio=linker.link("radios", transmitter.radio, "radio", of, transmitter.where["radio"]))


def link_channel(linker: Linker, channel: Channel, radios: Mapping[str, RadioType], claims: tuple[Slot, ...]) -> Channel:
    """A channel with its references resolved, its radio and pack filled in, and every claim to a slot."""
    of, where = ("channels", channel.id), channel.where
    radio_field = "spare" if channel.spare else "radio"
    radio = channel.radio or next(iter(radios), "")
    own = tuple(
        Slot(rack, slot.number, slot.place)
        for slot in channel.slots
        if (rack := linker.link("racks", slot.rack, "slot", of, where["slot"]))
    )
    claimed = tuple(slot for slot in claims if slot not in own)
    return replace(
        channel,
        by=linker.link("people", channel.by, "by", of, where["by"]),
        radio=linker.link("radios", radio, radio_field, of, where[radio_field]) if radios else radio,
        backs=linker.link_all("channels", channel.backs, "backs", of, where["backs"]),
        pack=linker.link("transmitters", channel.pack, "pack", of, where["pack"]) if channel.pack else channel.id,
        capsule=linker.link("capsules", channel.capsule, "capsule", of, where["capsule"]),
        slots=(*own, *claimed),
        doubles=linker.link("channels", channel.doubles, "doubles", of, where["doubles"]),
        alternate=linker.link("channels", channel.alternate, "alternate", of, where["alternate"]),
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
    return {id: _share_carrier(channel, first, told) if channel.carrier else channel for id, channel in channels.items()}


def _share_carrier(channel: Channel, first: Mapping[str, str], told: Mapping[str, int]) -> Channel:
    key = key_of(channel.carrier)
    hz = told.get(key) if channel.hz is None and "mhz" not in channel.where else channel.hz
    return replace(channel, carrier=first[key], hz=hz)


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


def link_scene(linker: Linker, scene: Scene, roles: Mapping[str, Role]) -> Scene:
    """A scene with its live roles split and resolved, a group as the roles that it stands for."""
    known = linker.indexes["roles"].ids
    named = split_list(scene.live[0], known) if scene.live else ()
    live = linker.link_all("roles", named, "live", ("scenes", scene.id), scene.where["live"])
    return replace(scene, live=tuple(dict.fromkeys(one for role in live for one in roles[role].group or (role,))))


def link_move(linker: Linker, move: Move) -> Move:
    """A move with its role and scene resolved."""
    of, where = ("moves", move.id), move.where
    return replace(
        move,
        role=linker.link("roles", move.role, "role", of, where["role"]),
        scene=linker.link("scenes", move.scene, "scene", of, where["scene"]),
    )


def link_look(linker: Linker, look: Look) -> Look:
    """A look with its person and scene resolved."""
    of, where = ("looks", look.id), look.where
    return replace(
        look,
        by=linker.link("people", look.by, "by", of, where["by"]),
        scene=linker.link("scenes", look.scene, "scene", of, where["scene"]),
    )


def link_cover(linker: Linker, cover: Cover) -> Cover:
    """A cover with its references resolved."""
    of, where = ("covers", cover.id), cover.where
    return replace(
        cover,
        role=linker.link("roles", cover.role, "role", of, where["role"]),
        by=linker.link("people", cover.by, "by", of, where["by"]),
        scenes=linker.link_all("scenes", cover.scenes, "scenes", of, where["scenes"]),
        channel=linker.link("channels", cover.channel, "channel", of, where["channel"]),
        capsule=linker.link("capsules", cover.capsule, "capsule", of, where["capsule"]),
    )


def link_role(linker: Linker, role: Role, team: str, people: Mapping[str, Person]) -> Role:
    """A role with its performers spelled as in the section people; of alternates, the one of the day's team plays."""
    of, where = ("roles", role.id), role.where
    by = linker.link("people", role.by, "by", of, where["by"])
    alternates = linker.link_all("people", role.alternates, "alternates", of, where["alternates"])
    casts = (by, *alternates)
    tonight = next((name for name in casts if team and name in people and fold(people[name].team) == fold(team)), by)
    return replace(role, by=tonight, alternates=tuple(name for name in casts if name and name != tonight))
