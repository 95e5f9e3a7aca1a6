"""The table of fields: it is whole, it says what the model and the rules say, and its examples are read."""

import ast
from dataclasses import MISSING, fields
from typing import get_args

import pytest

from paperwork import limits
from paperwork.build import build_show
from paperwork.build.readers import READERS
from paperwork.checks.glyphs import check_glyphs
from paperwork.model import Audience, Follows, PaperSize, RadioKind, SceneKind, Where
from paperwork.model.fields import SECTIONS
from paperwork.model.row import ACTS, MARKS, Field, Section
from paperwork.place import Place
from paperwork.plan import rules
from paperwork.raw import Map, Text
from paperwork.schema import check_shape
from tests.modules import MODULES, nodes_of
from tests.shows_text import EXAMPLES, raw_of

ROWS = [(section, field) for section in SECTIONS.values() for field in section.fields.values()]
EACH = pytest.mark.parametrize(("section", "field"), ROWS, ids=lambda row: row.name)


@EACH
def test_every_row_is_whole(section: Section, field: Field):
    assert field.title and field.help.endswith(".") and field.example and len(field.kind.advice) > 10
    assert set(field.marks.split()) <= MARKS
    assert set(field.refers.split()) <= set(SECTIONS)
    assert set((field.acts or section.acts).split()) <= set(ACTS) and set(section.order.split()) <= set(ACTS)
    assert field.kind.reads in READERS or field.attr == "-" or section.name == "racks"


@pytest.mark.parametrize("section", SECTIONS.values(), ids=lambda section: section.name)
def test_rows_and_record_have_the_same_attributes(section):
    held = {attr for field in section.fields.values() for attr in field.attrs}
    assert held == {f.name for f in fields(section.record) if f.compare and f.name != "id"}


BASE = """
radios: {belt: {}}
roles: {VERA: {}, TOM: {}}
channels: {01: {}, 02: {}, 03: {}, 04: {}, 05: {}, 06: {}, 12: {}}
scenes: {s1: {}, s2: {}}
"""


@EACH
def test_the_example_of_a_field_is_read_without_a_finding(section, field):
    wanted = {one.name: one.example for one in section.fields.values() if one.is_marked("required")}
    wanted |= {"channels": "01-06"} if section.name == "racks" and field.name != "units" else {}
    raw = put(raw_of(BASE), section, wanted | {field.name: field.example})
    assert check_shape(raw) == ()
    built = build_show(raw)
    assert [finding.text for finding in built.findings] == []
    if field.attrs and field.example != field.default:
        held = getattr(built.show, section.held)
        records = [held] if section.is_single else list(held.values()) if isinstance(held, dict) else list(held)
        record = records[0] if section.is_single else next(one for one in records if one.id == "X1")
        plain = section.record(**({} if section.is_single else {"id": "X1"}))
        assert any(getattr(record, attr) != getattr(plain, attr) for attr in field.attrs)


def put(raw: Map, section: Section, values: dict[str, str]) -> Map:
    """The show with one record more, every value of it a text."""
    at = Place("show.yaml", 1, 1)
    record = Map(tuple((Text(name, at), Text(value, at)) for name, value in values.items()), at)
    held = raw.get(section.name)
    more = () if section.is_single else held.items if isinstance(held, Map) else ()
    table = record if section.is_single else Map((*more, (Text("X1", at), record)), at)
    others = tuple(item for item in raw.items if item[0].text != section.name)
    return Map((*others, (Text(section.name, at), table)), at)


@EACH
def test_a_default_of_a_choice_is_the_one_of_the_model(section, field):
    if not field.kind.choices or not field.default or not field.attrs:
        return
    given = next(f.default for f in fields(section.record) if f.name == field.attrs[0])
    assert given is not MISSING and {True: "yes", False: "no"}.get(given, given) == field.default


def test_a_default_that_is_a_rule_of_the_house_is_the_one_of_the_rules():
    day = SECTIONS["day"].fields
    for name, seconds in (
        ("swap", rules.SWAP_S),
        ("swap handheld", rules.SWAP_HANDHELD_S),
        ("crossing", rules.CROSSING_S),
    ):
        assert day[name].default == f"{seconds} s"
    assert day["margin"].default == day["margin"].kind.format(rules.MARGIN_HUNDREDTHS)
    assert day["half"].default.startswith(f"{rules.HALF_S // 60} minutes")
    assert day["chain"].default == str(rules.CHAIN_RACKS)
    assert SECTIONS["consoles"].fields["letters"].default == str(rules.DESK_LETTERS)


def test_a_default_of_a_carrier_is_what_the_arithmetic_takes():
    """Three carriers of 200 kHz, worked out by the rule itself: a guard that is not stated, and one of 0 kHz."""
    from paperwork.coordinate.carriers import BANDWIDTH_HZ
    from paperwork.radio.carrier import APART_HZ, FIFTH2, THIRD2, THIRD3, Carrier, Rules, guard_hz

    radio = SECTIONS["radios"].fields
    one = Carrier("a", 500_000_000, BANDWIDTH_HZ)
    for name, kind, weights in (
        ("guard two-signal", THIRD2, (2, -1)),
        ("guard three-signal", THIRD3, (1, 1, -1)),
        ("guard fifth-order", FIFTH2, (3, -2)),
    ):
        guard = guard_hz(Rules(), kind, one, [one] * len(weights), weights)
        assert radio[name].default.startswith(f"{guard // 1000} kHz for carriers of {BANDWIDTH_HZ // 1000} kHz")
        assert guard_hz(Rules(guards={("", kind): 0}), kind, one, [one] * len(weights), weights) == 0
    for section in ("radios", "others"):
        assert SECTIONS[section].fields["bandwidth"].default == f"{BANDWIDTH_HZ // 1000} kHz"
        assert SECTIONS[section].fields["apart"].default == f"{APART_HZ // 1000} kHz"


@pytest.mark.parametrize(
    ("section", "name", "words"),
    [
        ("show", "paper", PaperSize),
        ("radios", "kind", RadioKind),
        ("channels", "notes for", Audience),
        ("scenes", "kind", SceneKind),
        ("covers", "follows", Follows),
    ],
)
def test_words_to_choose_from_are_those_of_the_model(section, name, words):
    assert set(SECTIONS[section].fields[name].kind.choices) == set(get_args(words))


def test_what_is_printed_of_a_person_is_personal():
    personal = {f"{section.name}.{field.name}" for section, field in ROWS if field.is_marked("personal")}
    assert {"people.room", "people.belt", "roles.by", "channels.by", "channels.notes", "looks.wears"} <= personal
    assert not {"channels.mhz", "channels.role", "roles.short", "capsules.colour"} & personal


def test_a_misspelt_field_is_refused_and_one_that_was_not_written_has_the_place_of_its_record():
    show = build_show(raw_of((EXAMPLES / "show.yaml").read_text(encoding="utf-8"))).show
    where = show.channels["01"].where
    assert where["exclusive"] == where.record and "exclusive" not in where
    with pytest.raises(KeyError):
        where["pak"]
    with pytest.raises(KeyError):
        assert "pak" in where


def test_every_place_that_the_code_asks_for_is_one_of_a_field():
    """`where["..."]` anywhere in the package, whether a test runs through it or not."""
    names = {field.name for _, field in ROWS}
    asked = {
        (path.name, node.slice.value)
        for path in MODULES
        for node in nodes_of(path)
        if isinstance(node, ast.Subscript) and isinstance(node.slice, ast.Constant)
        if ast.unparse(node.value).rpartition(".")[2] == "where"
    }
    assert len(asked) > 60 and {name for _, name in asked} <= names


def test_a_sign_that_no_face_has_is_found_in_its_field():
    (finding,) = check_glyphs(
        build_show(raw_of("people:\n  Ann:\n    room: 1\n    second pouch: \u16a0\nchannels: {}\n")).show
    )
    assert finding.place.line == 4


def test_a_record_that_nobody_wrote_has_no_fields_to_misspell():
    assert Where()["mhz"] == Where().record


def test_a_value_that_cannot_be_read_says_what_to_write():
    (finding,) = build_show(raw_of("racks: {R1: {address: upstairs}}\nchannels: {}\n")).findings
    assert finding.fix == "write a network address, as in 192.0.2.11"
    (finding,) = build_show(put(raw_of(BASE), SECTIONS["show"], {"title": "x" * (limits.TEXT_LENGTH + 1)})).findings
    assert finding.fix == "shorten it"


@pytest.mark.parametrize("spell", (str.lower, str.upper, str.capitalize))
def test_a_word_to_choose_is_the_same_in_small_letters_and_capitals(spell):
    for section, field in ROWS:
        for word in field.kind.choices if field.kind.reads == "choice" else ():
            written = put(raw_of(BASE), section, {field.name: spell(word)})
            assert not [one for one in check_shape(written) if one.code == "value-not-listed"]
            held = getattr(build_show(written).show, section.held)
            records = [held] if section.is_single else held.values() if isinstance(held, dict) else held
            assert word in [getattr(one, field.attrs[0]) for one in records]
