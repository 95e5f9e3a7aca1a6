"""Every field of the table against its bound: what is just within is read in a number of steps that grows with what is
written, and one beyond is a finding at its place. No field is left out but for a reason that is given here."""

import sys
from pathlib import Path

import pytest

from paperwork import limits
from paperwork.model.fields import SECTIONS, SINGLES, list_marked, list_references
from paperwork.model.row import Field
from tests.shows_text import reading_of

MOST = limits.LIST_LENGTH

LISTED = {
    "": "1",
    "cells": "half",
    "clocks": "1:00",
    "frequencies": "486.200",
    "ranged": "X1",
    "ids": "X1",
    "items": "X1",
    "joined": "X1",
    "lines": "X1",
    "names": "Ann",
    "ranges": "486-487",
    "rasters": "21-48 at 470-694",
    "times of day": "14:30",
    "window": "486-487",
}
"""One item of a list, by how its field is read."""

CEILINGS = {
    "backup": ("3000", "3000.001"),
    "carrier": ("3000", "3000.001"),
    "clock": ("744 h", "745 h"),
    "count": (f"{limits.COUNT}", f"{limits.COUNT + 1}"),
    "dates": ("2027-03-01 to 9999-12-31", "2027-03-01 to 10000-01-01"),
    "date": ("9999-12-31", "10000-01-01"),
    "decibels": ("999 dB", "1000 dB"),
    "factor": ("10", "10.01"),
    "frequency": ("3000", "3000.001"),
    "grant": ("3000", "3000.001"),
    "hours": ("744", "745"),
    "level": ("-200 dBm", "-201 dBm"),
    "moment": ("9999-12-31 17:40", "10000-01-01 17:40"),
    "seconds": ("2678400 s", "2678401 s"),
    "slot": ("R1.9999", "R1.10000"),
    "step": ("400 MHz", "400.001 MHz"),
    "width": ("400 MHz", "400.001 MHz"),
}
"""The largest value, and one beyond, by how a field is read."""

WORDS = {
    "text": "one text, as long as any",
    "name": "one name",
    "spare": "one name, or yes",
    "choice": "one of a few words",
    "yes": "one of two words",
    "address": "an address, which nothing counts up to",
    "network": "a network, of which no host is ever listed",
}
"""How a field is read that holds nothing to be counted: what it is, and so bounded by the length of a text alone."""

FIELDS = [(section.name, field) for section in SECTIONS.values() for field in section.fields.values()]
NAMED = [pytest.param(name, field, id=f"{name}.{field.name}") for name, field in FIELDS]
LISTS = [one for one in NAMED if one.values[1].kind.takes_list or one.values[1].kind.shape == "pairs"]


def write(section: str, field: Field, value: str) -> str:
    """A show in which one field says something."""
    others = [one for one in SECTIONS[section].fields.values() if one.is_marked("required") and one != field]
    own = ", ".join([f"{field.name}: {value}", *(f"{one.name}: {one.example}" for one in others)])
    record = f"{{{own}}}" if SECTIONS[section].is_single else f"{{X: {{{own}}}}}"
    return f"{section}: {record}\n" + ("" if section == "channels" else "channels: {1: {by: Ann}}\n")


def is_refused(section: str, field: Field, value: str, tmp_path: Path) -> bool:
    """Whether what it says is too much: the finding is at the field, and says how much it may be or what to write."""
    found = reading_of(write(section, field, value), tmp_path).findings
    own = [one for one in found if one.code in ("value-kind", "value-unreadable", "frequency-unreadable", "items-many")]
    assert all(one.place.line == 1 and one.fix for one in own)
    return bool(own)


def list_of(field: Field, count: int) -> str:
    if field.kind.shape == "pairs":
        return "{" + ", ".join(f"R{number}: Ann" for number in range(count)) + "}"
    return "[" + ", ".join([LISTED[field.kind.reads]] * count) + "]"


def count_steps(act) -> int:
    """Calls of functions of ours and of others."""
    steps = 0

    def note(frame, event, argument):
        nonlocal steps
        steps += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        act()
    finally:
        sys.setprofile(before)
    return steps


def test_each_field_is_bounded_by_one_of_these_tables():
    for section, field in FIELDS:
        kind = field.kind
        known = [kind.reads in table for table in (LISTED, CEILINGS, WORDS)]
        assert any(known) or kind.shape == "pairs", f"{section}.{field.name}: say how it is bounded"


@pytest.mark.parametrize(("section", "field"), LISTS)
def test_a_list_is_read_up_to_its_bound(section, field, tmp_path):
    within, beyond = (list_of(field, count) for count in (MOST, MOST + 1))
    is_single = field.kind.reads in ("window", "times of day", "clocks", "cells", "", "rasters")
    assert is_single or not is_refused(section, field, within, tmp_path)
    assert is_refused(section, field, beyond, tmp_path)


@pytest.mark.parametrize(("section", "field"), LISTS)
def test_a_list_takes_steps_in_proportion(section, field, tmp_path):
    reading_of(write(section, field, list_of(field, 1)), tmp_path)  # what is loaded once
    steps = [
        count_steps(lambda count=count: reading_of(write(section, field, list_of(field, count)), tmp_path))
        for count in (MOST // 32, MOST // 16, MOST // 4)
    ]
    assert steps[2] - steps[1] < 7 * (steps[1] - steps[0]) + 5_000 and steps[2] < 400 * MOST // 4, steps


@pytest.mark.parametrize(("section", "field"), [one for one in NAMED if one.values[1].kind.reads == "ids"])
def test_shorthand_stands_for_no_more_than_a_list_may_hold(section, field, tmp_path):
    assert not is_refused(section, field, f"1-{MOST}", tmp_path)
    assert is_refused(section, field, f"1-{MOST + 1}", tmp_path)
    assert is_refused(section, field, "1-999999999", tmp_path)


@pytest.mark.parametrize("last", (MOST + 1, 999_999_999))
def test_a_range_of_scenes_stands_for_no_more_than_a_list_may_hold(last, tmp_path):
    shown = "scenes: {1: {live: A}}\nchannels: {1: {role: A, by: Ann}}\n"
    found = reading_of(f"{shown}covers: {{c: {{role: A, by: Ben, scenes: 1-{last}}}}}", tmp_path).findings
    assert [(one.code, one.place.line) for one in found] == [("value-unreadable", 3)]


@pytest.mark.parametrize(("section", "field"), [one for one in NAMED if one.values[1].kind.shape == "output"])
def test_an_output_stands_for_no_more_than_a_list_may_hold(section, field, tmp_path):
    slots = f"slots: {MOST}, "
    for count, refused in ((MOST, False), (MOST + 1, True), (10**8, True)):
        text = f"racks: {{X: {{{slots}{field.name}: FOH 1-{count}}}}}\nchannels: {{1: {{by: Ann}}}}\n"
        found = {one.code for one in reading_of(text, tmp_path).findings}
        assert bool(found & {"value-unreadable", "output-unreadable", "output-count"}) == refused, found


@pytest.mark.parametrize(("section", "field"), [one for one in NAMED if one.values[1].kind.reads in CEILINGS])
def test_a_number_is_read_up_to_its_bound(section, field, tmp_path):
    within, beyond = CEILINGS[field.kind.reads]
    if (section, field.name) == ("racks", "slots"):
        within, beyond = f"{MOST}", f"{MOST + 1}"
    assert not is_refused(section, field, within, tmp_path)
    assert is_refused(section, field, beyond, tmp_path)
    assert is_refused(section, field, "9" * 4_000, tmp_path)


@pytest.mark.parametrize(("section", "field"), NAMED)
def test_a_text_is_read_up_to_its_bound(section, field, tmp_path):
    value = "x" * (limits.TEXT_LENGTH + 1)
    found = {one.code for one in reading_of(write(section, field, value), tmp_path).findings}
    assert "text-long" in found


def show_misses(section: str, field: Field, to: str, count: int) -> str:
    """A show in which so many records each name one that is nearly one of as many others."""

    def fill(name: str, *own: str) -> str:
        others = [one for one in SECTIONS[name].fields.values() if one.is_marked("required") and one != field]
        return ", ".join((*own, *(f"{one.name}: {one.example}" for one in others)))

    names = ["nearly" + "".join("abcdefghij"[int(digit)] for digit in f"{number:04}") for number in range(count)]
    rows: dict[str, list[str]] = {"channels": ["  1: {by: Ann}\n"]}
    for name in names:
        rows.setdefault(section, []).append(f"  {name[::-1]}: {{{fill(section, f'{field.name}: {name}x')}}}\n")
        if to in SECTIONS:
            rows.setdefault(to, []).append(f"  {name}: {{{fill(to)}}}\n")
        else:
            rows.setdefault("groups", []).append(f"  {name}: {{kind: {to}}}\n")
    return "".join(f"{section}:\n{''.join(lines)}" for section, lines in rows.items())


SHARED = [
    (section, SECTIONS[section].fields[kind], kind)
    for section, kinds in list_marked("shared").items()
    for kind in kinds
    if section not in SINGLES
]
MISSES = [
    pytest.param(section, field, to, id=f"{section}.{field.name}-{to}")
    for section, field, to in (*list_references(), *SHARED)
    if section != to and field.kind.reads in LISTED | WORDS
]


@pytest.mark.parametrize(("section", "field", "to"), MISSES)
def test_names_that_miss_take_steps_in_proportion(section, field, to, tmp_path, monkeypatch):
    """However many names are nearly others, so many are compared and no more."""
    monkeypatch.setattr(limits, "COMPARISONS", 100)
    steps = [
        count_steps(lambda count=count: reading_of(show_misses(section, field, to, count), tmp_path))
        for count in (40, 40, 80, 320)  # the first loads what is loaded once
    ]
    assert steps[3] - steps[2] < 11 * (steps[2] - steps[1]) + 5_000, steps


GROWN = [name for name, section in SECTIONS.items() if not section.is_single]


@pytest.mark.parametrize("section", GROWN)
def test_records_take_steps_in_proportion(section, tmp_path):
    """Each with all its samples, as far as they are the record's own."""

    def show(count: int) -> str:
        fields = [one for one in SECTIONS[section].fields.values() if one.is_marked("required") or one.example]
        own = ", ".join(f"{one.name}: '{one.example}'" for one in fields if not one.refers and one.kind.shape == "text")
        rows = "".join(f"  X{number}: {{{own}}}\n" for number in range(count))
        return f"{section}:\n{rows}" + ("" if section == "channels" else "channels: {1: {by: Ann}}\n")

    steps = [count_steps(lambda count=count: reading_of(show(count), tmp_path)) for count in (25, 50, 200)]
    assert steps[2] - steps[1] < 8 * (steps[1] - steps[0]) + 4_000, steps


ODD_NUMBERS = tuple(
    f"{number}{unit}"
    for number in ("nan", "sNaN", "-Infinity", "9e999999", "1e-999999", "1_000", "\u0661\u0662", "\uff11.5", "\u00b2")
    for unit in ("", " kHz")
) + ("inf dB", "9e999999 h", "nan mW", "\u00b2 dBm", "\u0661:00", "1e9 %")


@pytest.mark.parametrize(("section", "field"), NAMED)
def test_what_a_number_may_be_elsewhere_is_a_finding_or_a_text_and_never_a_traceback(section, field, tmp_path):
    for value in ODD_NUMBERS:
        found = reading_of(write(section, field, f"'{value}'"), tmp_path)
        assert found.show is not None or found.findings, value
