"""One function a section: fields to a record of gear, and the channel."""

import re
from ipaddress import ip_address, ip_network
from typing import get_args

from paperwork import limits
from paperwork.build.fields import Fields
from paperwork.build.outputs import read_outputs
from paperwork.finding import find
from paperwork.model import Audience, Capsule, Channel, Console, Other, Rack, RadioKind, RadioType, Slot, Transmitter
from paperwork.units import Doubt, parse_frequency, parse_hours, parse_width

_SLOT = re.compile(r"(?P<rack>.+?)\s*[./]\s*(?P<number>[0-9]{1,4})")


def build_radio(fields: Fields) -> RadioType:
    """One radio type; `like` is already resolved."""
    fields.node("like")
    return RadioType(
        id=fields.id,
        kind=fields.pick("kind", get_args(RadioKind), "pack"),
        tunes=fields.ranges("tunes"),
        step_hz=fields.read("step", _parse_step, None),
        bandwidth_hz=fields.read("bandwidth", parse_width, None),
        apart_hz=fields.read("apart", parse_width, None),
        guard_two_hz=fields.read("guard two-signal", parse_width, None),
        guard_three_hz=fields.read("guard three-signal", parse_width, None),
        guard_fifth_hz=fields.read("guard fifth-order", parse_width, None),
        makes_intermodulation=fields.yes("intermodulation", True),
        hours_s=fields.read("hours", parse_hours, None),
        power=fields.text("power"),
        fit=fields.text("fit"),
        where=fields.where,
    )


def build_rack(fields: Fields) -> Rack:
    """One rack. What sits in its slots is read by `read_claims`."""
    units = tuple(_count_slots(fields))
    ranges = fields.ranges("window")
    if len(ranges) > 1:
        fields.complain("window", "a rack has one window")
    return Rack(
        id=fields.id,
        units=units,
        window=ranges[0] if ranges else None,
        antenna=fields.text("antenna"),
        place=fields.text("place"),
        address=fields.read("address", _parse_address, ""),
        network=fields.read("network", _parse_network, ""),
        clock=fields.text("clock"),
        rate=fields.text("rate"),
        outputs=read_outputs(fields, units),
        where=fields.where,
    )


def read_claims(fields: Fields) -> tuple[str, ...]:
    """The channels that a rack names, in slot order, "" for an empty slot."""
    return fields.ids("channels")


def _count_slots(fields: Fields) -> list[int]:
    claims = read_claims(fields)
    slots = fields.count("slots")
    units: list[int] = []
    for text in fields.items("units"):
        if not (text.isascii() and text.isdigit() and 0 < int(text) <= 999):
            fields.complain("units", f"{text} is not a number of slots")
            return []
        units.append(int(text))
    if max(sum(units), slots or 0) > limits.LIST_LENGTH:
        fields.complain("units" if units else "slots", f"a rack has at most {limits.LIST_LENGTH:,} slots")
        return []
    if units and slots is not None and sum(units) != slots:
        fields.complain("units", f"the units have {sum(units)} slots together, and the rack has {slots}")
    return units or [slots if slots is not None else len(claims)]


def build_console(fields: Fields) -> Console:
    """One destination."""
    return Console(
        id=fields.id,
        name=fields.text("name"),
        inputs=fields.count("inputs"),
        box=fields.text("box"),
        jacks=fields.ids("jacks"),
        level=fields.text("level"),
        pad=fields.text("pad"),
        phantom=fields.text("phantom"),
        isolated=fields.yes("isolated", False),
        clock=fields.text("clock"),
        rate=fields.text("rate"),
        converts=fields.yes("converts", False),
        letters=fields.count("letters"),
        where=fields.where,
    )


def build_other(fields: Fields) -> Other:
    """One carrier that is no microphone."""
    return Other(
        id=fields.id,
        kind=fields.text("kind"),
        hz=read_frequency(fields),
        bandwidth_hz=fields.read("bandwidth", parse_width, None),
        apart_hz=fields.read("apart", parse_width, None),
        listeners=tuple(filter(fields.somebody, fields.lines("listeners"))),
        packs=fields.ids("packs"),
        makes_intermodulation=fields.yes("intermodulation", True),
        zone=fields.text("zone"),
        bill=fields.lines("bill"),
        where=fields.where,
    )


def build_transmitter(fields: Fields) -> Transmitter:
    """One transmitter."""
    return Transmitter(
        id=fields.id,
        radio=fields.text("radio"),
        serial=fields.text("serial"),
        display=fields.text("display"),
        cells=fields.text("cells"),
        set=fields.text("set"),
        hours_s=fields.read("hours", parse_hours, None),
        power=fields.text("power"),
        gain=fields.text("gain"),
        lock=fields.yes("lock", False) if fields.text("lock") else None,
        where=fields.where,
    )


def build_capsule(fields: Fields) -> Capsule:
    """One capsule, or one kind of capsule."""
    return Capsule(
        id=fields.id,
        type=fields.text("type"),
        pattern=fields.text("pattern"),
        colour=fields.text("colour"),
        fit=fields.text("fit"),
        serial=fields.text("serial"),
        cap=fields.text("cap"),
        owned=fields.count("owned"),
        where=fields.where,
    )


def build_channel(fields: Fields) -> Channel:
    """One channel as it is written: `by` and `shared` are moved to the roles, and ids resolved, by `link`."""
    spare, radio = _read_spare(fields)
    fields.node("shared")
    refused = fields.text("granted").lower() in ("no", "false")
    return Channel(
        id=fields.id,
        roles=fields.lines("role"),
        by=fields.somebody(fields.text("by")),
        radio=radio,
        spare=spare,
        backs=fields.ids("backs"),
        hz=read_frequency(fields),
        pack=fields.text("pack"),
        capsule=fields.text("capsule"),
        slots=fields.read("slot", lambda text: (_parse_slot(text, fields),), ()),
        doubles=fields.text("doubles"),
        alternate=fields.text("alternate"),
        exclusive=fields.text("exclusive"),
        zone=fields.text("zone"),
        bill=fields.lines("bill"),
        carrier=fields.text("carrier"),
        asked_hz=fields.read("asked", parse_frequency, None),
        granted_hz=None if refused else fields.read("granted", parse_frequency, None),
        refused=refused,
        notes=fields.text("notes"),
        notes_for=fields.pick("notes for", get_args(Audience), "all"),
        where=fields.where,
    )


def _read_spare(fields: Fields) -> tuple[bool, str]:
    """Whether the channel is a spare, and its radio type: `spare: belt`, or `spare: yes` beside `radio: belt`."""
    spare, radio = fields.text("spare"), fields.text("radio")
    if spare.lower() in ("yes", "no", "true", "false"):
        return fields.yes("spare", False), radio
    if spare and radio and spare != radio:
        fields.complain("spare", f"the spare is of radio {spare}, and radio says {radio}")
    return bool(spare), spare or radio


def read_frequency(fields: Fields) -> int | None:
    """The field `mhz` in whole hertz. A doubt is a finding of its own kind: papers come out, with a blank."""
    text = fields.text("mhz")
    if not text:
        return None
    try:
        return parse_frequency(text)
    except Doubt as doubt:
        fields.add(
            find(
                "frequency-unreadable",
                fields.where["mhz"],
                about=fields.subjects,
                record=fields.record,
                reason=str(doubt),
            )
        )
        return None


def _parse_step(text: str) -> int:
    step_hz = parse_width(text)
    if step_hz == 0:
        raise Doubt("a step of nothing cannot be counted in")
    return step_hz


def _parse_slot(text: str, fields: Fields) -> Slot:
    match = _SLOT.fullmatch(text)
    if not match:
        raise Doubt(f"{text} is not a rack and a slot, as in R1.3")
    return Slot(match["rack"], int(match["number"]), fields.where["slot"])


def _parse_address(text: str) -> str:
    try:
        return str(ip_address(text))
    except ValueError:
        raise Doubt(f"{text} is not a network address, as in 192.0.2.11") from None


def _parse_network(text: str) -> str:
    try:
        return str(ip_network(text, strict=False))
    except ValueError:
        raise Doubt(f"{text} is not a network, as in 192.0.2.0/24") from None
