"""Two shows to changes and back: nothing is lost, nothing is told twice, a new name is told as a name."""

from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.changes import Change, diff_shows
from paperwork.changes.records import REFERENCES, TABLES, facts_of, records_of, rename_records
from paperwork.model import Channel, Person, Show, Transmitter
from paperwork.model.facts import canonical_facts
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.reading import read_show
from tests.changes.applying import apply_changes
from tests.few import few_examples
from tests.shows_text import EXAMPLES, show_of
from tests.strategies import plain_shows, read_plain

SHOW = """
people: {Mara Lind: {room: 1, pouch: 01}, Ben Arlo: {room: 1, pouch: 02}}
transmitters: {01: {serial: X-1}, 02: {serial: X-2}, S1: {serial: X-9}}
racks: {R1: {channels: 01-02}}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.700}
scenes:
  s1: {live: VERA}
  s2: {live: TOM}
  s3: {live: VERA TOM}
covers:
  c1: {role: VERA, by: Ben Arlo, scenes: s1}
"""


@pytest.fixture
def show(tmp_path) -> Show:
    return show_of(SHOW, tmp_path)


def edited(tmp_path, *pairs: tuple[str, str]) -> Show:
    text = SHOW
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return show_of(text, tmp_path)


def told(old: Show, new: Show) -> list[tuple[str, str, str, str]]:
    changes = diff_shows(old, new)
    assert apply_changes(old, changes) == new
    return [(change.kind, change.section, change.id, change.field) for change in changes]


def test_a_show_does_not_differ_from_itself_or_from_another_reading_of_it(show):
    again = read_show(EXAMPLES / "show.xlsx", "show.xlsx").show
    assert diff_shows(show, show) == ()
    assert diff_shows(read_show(EXAMPLES / "show.yaml", "show.yaml").show, again) == ()


def test_one_fact_is_one_change(tmp_path, show):
    new = edited(tmp_path, ("488.700", "489.700"))
    assert diff_shows(show, new) == (Change("changed", "channels", "02", "hz", 488_700_000, 489_700_000),)


def test_a_role_with_another_name_is_one_rename_wherever_it_is_named(tmp_path, show):
    assert told(show, edited(tmp_path, ("VERA", "VEERA"))) == [("renamed", "roles", "VEERA", "")]


def test_a_pack_with_another_number_is_known_by_its_serial(tmp_path, show):
    new = edited(tmp_path, ("S1: {serial", "R7: {gain: 30 dB, serial"))
    assert told(show, new) == [("renamed", "transmitters", "R7", ""), ("changed", "transmitters", "R7", "gain")]


def test_a_channel_with_another_number_keeps_its_pack_by_default(tmp_path):
    text = "channels:\n  01: {role: VERA, mhz: 486.200}\n  02: {role: TOM, doubles: 01, mhz: 488.700}\n"
    old = show_of(text, tmp_path)
    new = show_of(text.replace("01", "11"), tmp_path)
    assert told(old, new) == [("renamed", "channels", "11", ""), ("changed", "channels", "11", "pack")]


def test_a_name_spelled_anew_is_a_rename_and_another_body_is_not(tmp_path, show):
    spelled = edited(tmp_path, ("Mara Lind", "Mara Lindh"))
    recast = edited(tmp_path, ("Mara Lind", "Sam Okoro"))
    assert told(show, spelled) == [("renamed", "people", "Mara Lindh", "")]
    assert told(show, recast) == [
        ("removed", "people", "Mara Lind", ""),
        ("added", "people", "Sam Okoro", ""),
        ("changed", "roles", "VERA", "by"),
    ]


def test_two_that_could_be_the_new_one_are_told_as_they_are(tmp_path):
    old = Show(transmitters={"01": Transmitter("01", gain="30 dB")})
    new = Show(transmitters={"11": Transmitter("11", gain="30 dB"), "12": Transmitter("12", gain="30 dB")})
    assert [kind for kind, *_ in told(old, new)] == ["removed", "added", "added"]


def test_a_record_that_tells_nothing_is_no_evidence(tmp_path):
    assert [kind for kind, *_ in told(Show(people={"A": Person("A")}), Show(people={"B": Person("B")}))] == [
        "removed",
        "added",
    ]


def test_a_scene_that_moves_is_told_as_an_order(tmp_path, show):
    first, second = "  s1: {live: VERA}\n", "  s2: {live: TOM}\n"
    new = edited(tmp_path, (first + second, second + first))
    assert told(show, new) == [("ordered", "scenes", "", "")]


def test_changes_of_another_show_are_refused(show):
    changes = diff_shows(show, replace(show, channels={}))
    with pytest.raises(ValueError, match="found from another show"):
        apply_changes(replace(show, channels={"01": Channel("01")}), changes)


def test_every_section_of_the_show_is_compared():
    assert {*SINGLES, *TABLES} == set(SECTIONS)
    assert {section.held for section in SECTIONS.values()} | {"rack_order"} == {
        field.name for field in fields(Show) if field.compare
    }
    assert {name for name, one in SECTIONS.items() if one.order} - {"racks"} == {
        field.name for field in fields(Show) if str(field.type).startswith("tuple")
    } - {"rack_order"}


def test_a_section_is_behind_all_that_it_names():
    """A rename is known before it is met. Racks and consoles follow each other's clocks, and roles are in groups of roles."""
    for section, named_in in REFERENCES.items():
        later = TABLES[TABLES.index(section) :]
        assert {of for of, _ in named_in} <= {*later, "racks"}, section


def test_a_rename_leaves_no_old_id_anywhere(show):
    """Brute force: after a rename the old id stands nowhere in the canonical form."""
    example = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    for section in REFERENCES:
        for id in records_of(example, section):
            renamed = rename_records(example, section, {id: "Zz-9"})
            assert canonical_facts(rename_records(renamed, section, {"Zz-9": id})) == canonical_facts(example)
    renamed = rename_records(show, "roles", {"VERA": "Zz-9"})
    assert b"VERA" not in canonical_facts(renamed)


@settings(max_examples=few_examples(60), deadline=None)
@given(plain_shows(), plain_shows())
def test_applying_the_changes_to_the_old_gives_the_new(one, other):
    old, new = read_plain(one), read_plain(other)
    changes = diff_shows(old, new)
    assert apply_changes(old, changes) == new
    assert canonical_facts(apply_changes(old, changes)) == canonical_facts(new)
    assert (changes == ()) == (old == new)


@settings(max_examples=few_examples(60), deadline=None)
@given(plain_shows(), st.randoms(use_true_random=False), st.sampled_from(("roles", "channels", "scenes", "people")))
def test_new_names_come_back_and_are_few(plain, random, section):
    old = read_plain(plain)
    ids = list(records_of(old, section))
    names = {id: f"NEW-{id}" for id in ids if random.random() < 0.5}
    new = rename_records(old, section, names)
    assert apply_changes(old, diff_shows(old, new)) == new


def test_facts_of_leaves_out_where_a_record_was_written(show):
    assert "where" not in facts_of(show.channels["01"]) and "id" not in facts_of(show.channels["01"])
