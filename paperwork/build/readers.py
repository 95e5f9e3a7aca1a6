"""How each kind of field is read, and the one function that builds a record from its rows."""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import cache
from ipaddress import ip_address, ip_network
from typing import Any, TypeAlias, get_args

from paperwork import limits
from paperwork.build.fields import Fields
from paperwork.build.outputs import read_outputs
from paperwork.model import ChangePoint, Slot
from paperwork.model.fields import SECTIONS
from paperwork.text.clock import Clock, parse_day_time, parse_show_time
from paperwork.text.names import fold
from paperwork.text.rasters import parse_raster
from paperwork.text.units import (
    Doubt,
    Range,
    parse_clock,
    parse_date,
    parse_decibels,
    parse_frequency,
    parse_hours,
    parse_limit,
    parse_range,
    parse_time_of_day,
    parse_width,
)

Reader: TypeAlias = Callable[[Fields, str], Any]
"""Gives the value of a field that was written; None where it cannot be read, and then the record's default holds."""

_SLOT = r"(?P<rack>.+?)\s*[./]\s*(?P<number>[0-9]{1,4})"
_GAP = r"(?<![0-9]{4}-[0-9]{2}-[0-9]{2})\s+(?=[0-9-])"
_YES = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}


def build_record(fields: Fields) -> Any:
    """The record of a section, of the values that were written. A field of several attributes gives a value to each."""
    section = SECTIONS[fields.section]
    values: dict[str, Any] = {} if section.is_single else {"id": fields.id}
    for name, attrs, read in _list_readers(fields.section):
        if name in fields and (value := read(fields, name)) is not None:
            values |= zip(attrs, value, strict=True) if len(attrs) > 1 else {attrs[0]: value}
    if fields.section == "racks":
        values |= _read_rack(fields)
    return section.record(**values, where=fields.where)


@cache
def _list_readers(section: str) -> tuple[tuple[str, tuple[str, ...], Reader], ...]:
    """The fields of a section that are read into its own records, each with its attributes."""
    rows = SECTIONS[section].fields.items()
    return tuple((name, row.attrs, READERS[row.kind.reads]) for name, row in rows if row.attrs and row.kind.reads)


def is_yes(text: str) -> bool:
    """Whether a field of yes and no says yes."""
    return _YES.get(text.lower(), False)


def _parsed(parse: Callable[[str], Any]) -> Reader:
    return lambda fields, name: fields.read(name, parse)


def _timed(parse: Callable[[str, Clock], int]) -> Reader:
    return lambda fields, name: fields.read(name, lambda text: parse(text, fields.clock))


def _timed_each(parse: Callable[[str, Clock], int]) -> Reader:
    """One time for each show or day, with commas or blanks between them; a date stays with its time."""
    return lambda fields, name: fields.read_each(
        name,
        (text for part in fields.lines(name) for text in re.split(_GAP, part)),
        lambda text: parse(text, fields.clock),
    )


def _read_choice(fields: Fields, name: str) -> str | None:
    """One of a few words; the schema has already refused everything else."""
    text = fields.text(name).lower()
    return next((choice for choice in fields.row(name).kind.choices if choice.lower() == text), None)


def _read_ranges(fields: Fields, name: str) -> tuple[Range, ...]:
    return fields.read_each(name, fields.lines(name), parse_range)


def _read_window(fields: Fields, name: str) -> Range | None:
    ranges = _read_ranges(fields, name)
    if len(ranges) > 1:
        fields.complain(name, "a rack has one window")
    return ranges[0] if ranges else None


def _read_carrier(fields: Fields, name: str) -> int | None:
    """A carrier in whole hertz. A doubt is a finding of its own kind: papers come out, with a blank."""
    text = fields.text(name)
    try:
        return parse_frequency(text) if text else None
    except Doubt as doubt:
        fields.add("frequency-unreadable", name, reason=str(doubt))
        return None


def _read_spare(fields: Fields, name: str) -> tuple[bool, str]:
    """Whether the channel is a spare, and its radio type: `spare: belt`, or `spare: yes` beside `radio: belt`."""
    spare, radio = fields.text(name), fields.text("radio")
    if spare.lower() in ("yes", "no", "true", "false"):
        return _YES[spare.lower()], radio
    if spare and radio and spare != radio:
        fields.complain(name, f"the spare is of radio {spare}, and radio says {radio}")
    return bool(spare), spare or radio


def _read_slot(fields: Fields, name: str) -> tuple[Slot, ...] | None:
    match = re.fullmatch(_SLOT, text := fields.text(name))
    if match:
        return (Slot(match["rack"], int(match["number"]), fields.where[name]),)
    if text:
        fields.complain(name, f"{text} is not a rack and a slot, as in R1.3")
    return None


def _read_change_points(fields: Fields, name: str) -> tuple[str, ...]:
    points = get_args(ChangePoint)
    named = [fold(text).replace(" ", "-") for text in fields.lines(name)]
    for point in named:
        if point not in points:
            fields.complain(name, f"{point} is not one of {', '.join(points)}")
    return tuple(point for point in points if point in named)


def _read_rack(fields: Fields) -> dict[str, Any]:
    """The slots of each unit and all outputs of a rack. What sits in its slots is linked to the channels."""
    units = _count_slots(fields)
    return {} if units is None else {"units": tuple(units), "outputs": read_outputs(fields, tuple(units))}


def _count_slots(fields: Fields) -> list[int] | None:
    """The slots of each unit; None where they cannot be read, since outputs cannot be counted against them then."""
    claims = fields.ids("channels")
    slots = fields.read("slots", _parse_count)
    units: list[int] = []
    for text in fields.items("units"):
        if not (text.isascii() and text.isdigit() and 0 < int(text) <= 999):
            fields.complain("units", f"{text} is not a number of slots")
            return None
        units.append(int(text))
    if max(sum(units), slots or 0) > limits.LIST_LENGTH:
        name = "units" if units else "slots"
        fields.complain(name, f"a rack has at most {limits.LIST_LENGTH:,} slots", "write the slots of this rack alone")
        return None
    if units and slots is not None and sum(units) != slots:
        fields.complain("units", f"the units have {sum(units)} slots together, and the rack has {slots}")
    if not units and slots is None and "slots" in fields:
        return None
    return units or [slots if slots is not None else len(claims)]


def _parse_count(text: str) -> int:
    if not (text.isascii() and text.isdigit()):
        raise Doubt(f"{text} is not a whole number")
    if int(text) > limits.COUNT:
        raise Doubt(f"{text} is more than {limits.COUNT:,}")
    return int(text)


def _parse_step(text: str) -> int:
    step_hz = parse_width(text)
    if step_hz == 0:
        raise Doubt("a step of nothing cannot be counted in")
    if step_hz < limits.STEP_HZ:
        raise Doubt(f"{text} is finer than any radio tunes; {limits.STEP_HZ // 1000} kHz is the least")
    return step_hz


def _parse_grant(text: str) -> tuple[int | None, bool]:
    refused = text.lower() in ("no", "false")
    return (None if refused else parse_frequency(text)), refused


def _parse_backup(text: str) -> tuple[int | None, bool]:
    """The frequency, and whether one is to be found."""
    wanted = _YES.get(text.lower())
    return (parse_frequency(text), False) if wanted is None else (None, wanted)


def _parse_factor(text: str) -> int:
    """A factor of at least 1 with two decimals, in hundredths."""
    if not re.fullmatch(r"[0-9]+(?:[.,][0-9]+)?", text):
        raise Doubt(f"{text} is not a factor, as in 1.25")
    hundredths = Decimal(text.replace(",", ".")) * 100
    if not 100 <= hundredths <= 1000 or hundredths != int(hundredths):
        raise Doubt(f"{text} is not a factor between 1 and 10 with two decimals, as in 1.25")
    return int(hundredths)


def _parse_dates(text: str) -> tuple[str, str]:
    parts = re.split(r"\s+(?:to|-|\u2013)\s+", text)
    if len(parts) > 2:
        raise Doubt(f"{text} is not one day, or two with `to` between")
    days = [parse_date(part) for part in parts]
    if days[-1] < days[0]:
        raise Doubt(f"{text} runs backwards")
    return days[0], days[-1]


def _parse_moment(text: str) -> str:
    day, _, time = text.strip().replace("T", " ").partition(" ")
    if not time.strip():
        return parse_date(day)
    minutes = parse_time_of_day(time) // 60
    if minutes >= 24 * 60:
        raise Doubt(f"{time.strip()} is not a time of day")
    return f"{parse_date(day)} {minutes // 60:02d}:{minutes % 60:02d}"


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


READERS: Mapping[str, Reader] = {
    "text": Fields.text,
    "name": lambda fields, name: fields.somebody(fields.text(name)),
    "names": lambda fields, name: tuple(filter(fields.somebody, fields.lines(name))),
    "lines": Fields.lines,
    "items": Fields.items,
    "ids": Fields.ids,
    "ranged": Fields.ranged,
    "joined": lambda fields, name: (fields.joined(name),),
    "yes": lambda fields, name: _YES.get(fields.text(name).lower()),
    "choice": _read_choice,
    "count": _parsed(_parse_count),
    "carrier": _read_carrier,
    "frequency": _parsed(parse_frequency),
    "rasters": lambda fields, name: fields.read_each(name, fields.lines(name), parse_raster),
    "frequencies": lambda fields, name: fields.read_each(name, fields.lines(name), parse_frequency),
    "grant": _parsed(_parse_grant),
    "backup": _parsed(_parse_backup),
    "width": _parsed(parse_width),
    "step": _parsed(_parse_step),
    "ranges": _read_ranges,
    "window": _read_window,
    "level": _parsed(parse_limit),
    "decibels": _parsed(parse_decibels),
    "factor": _parsed(_parse_factor),
    "times of day": _timed_each(parse_day_time),
    "clocks": _timed_each(parse_show_time),
    "clock": _timed(parse_show_time),
    "seconds": _parsed(parse_clock),
    "hours": _parsed(parse_hours),
    "date": _parsed(parse_date),
    "pairs": Fields.pairs,
    "dates": _parsed(_parse_dates),
    "moment": _parsed(_parse_moment),
    "address": _parsed(_parse_address),
    "network": _parsed(_parse_network),
    "slot": _read_slot,
    "spare": _read_spare,
    "cells": _read_change_points,
}
"""The readers by the name that a kind gives."""
