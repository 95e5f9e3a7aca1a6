"""The shorthand of outputs: `FOH 1-6`, `FOH 1-4, -, -`, `FOH 1-6 + REC 1-6`, in slot order."""

import re
from collections.abc import Iterator
from typing import get_args

from paperwork.build.fields import Fields
from paperwork.model import Output, OutputKind
from paperwork.model.gear import Side
from paperwork.model.house_fields import COPIES
from paperwork.text.names import expand_numbers
from paperwork.text.units import Doubt

_RANGE = re.compile(r"(?:(?P<console>.*\S)\s+)?(?P<low>[0-9]+)(?:\s*[-\u2013]\s*(?P<high>[0-9]+))?")


def read_outputs(fields: Fields, units: tuple[int, ...]) -> tuple[Output, ...]:
    """All outputs of a rack by kind, copy and slot, with the connector of each digital pair."""
    outputs: list[Output] = []
    for kind in get_args(OutputKind):
        for copy in COPIES:
            name = f"{kind} {copy}"
            text = fields.joined(name)
            if not text:
                continue
            for leg in text.split("+"):
                outputs += _read_leg(fields, name, kind, copy, leg, units)
    return tuple(outputs)


def _read_leg(fields: Fields, name: str, kind: OutputKind, copy: int, leg: str, units: tuple[int, ...]) -> list[Output]:
    try:
        targets = list(_read_targets(leg))
    except Doubt as doubt:
        fields.complain(name, str(doubt))
        return []
    slots = sum(units)
    if len(targets) != slots:
        fields.add("output-count", name, name=name, rack=fields.id, given=len(targets), slots=slots)
        return []
    connectors = pair_connectors(units) if kind == "digital" else {}
    outputs = []
    unpaired: tuple[str, Side] = ("", "")
    for slot, target in enumerate(targets, start=1):
        if target:
            connector, side = connectors.get(slot, unpaired)
            outputs.append(Output(kind, copy, slot, target[0], target[1], connector, side, fields.where[name]))
    return outputs


def pair_connectors(units: tuple[int, ...]) -> dict[int, tuple[str, Side]]:
    """The digital connector and side of each slot: `{1: ("D1", "left"), 2: ("D1", "right"), ...}`.

    AES3 carries two channels on one connector, odd left and even right, and never slots of two units.
    """
    connectors: dict[int, tuple[str, Side]] = {}
    first = 1
    number = 0
    for size in units:
        for offset in range(size):
            number += offset % 2 == 0
            connectors[first + offset] = (f"D{number}", "right" if offset % 2 else "left")
        first += size
    return connectors


def _read_targets(leg: str) -> Iterator[tuple[str, int] | None]:
    """Destination and input for each slot, None for a slot that goes nowhere. A bare number keeps the destination."""
    console = ""
    for item in leg.split(","):
        item = item.strip()
        if item in ("-", "\u2013", "none"):
            yield None
            continue
        match = _RANGE.fullmatch(item)
        console = (match["console"] if match else None) or console
        if not match or not console:
            raise Doubt(f"{item or 'an empty item'} is not a destination with inputs, as in FOH 1-6")
        for number in expand_numbers(match["low"], match["high"] or match["low"]):
            yield console, int(number)
