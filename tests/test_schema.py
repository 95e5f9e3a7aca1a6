"""The published schema: an independent validator agrees, editors can explain every field, slips are located."""

from dataclasses import fields as dataclass_fields

import jsonschema
import pytest
import yaml

from paperwork.build import build_show
from paperwork.files import read_file
from paperwork.resources import find_folder
from paperwork.schema import SCHEMA, check_shape, read_schema
from tests.shows_text import EXAMPLES, raw_of
from tests.tools.make_schema import make_reference, write_json


def test_the_schema_is_a_sound_schema_with_an_id():
    jsonschema.Draft202012Validator.check_schema(read_schema())
    assert read_schema()["$id"].startswith("urn:show-paperwork:")


def test_the_schema_and_the_reference_are_those_of_the_table_of_fields():
    """Made by `python -m tests.tools.make_schema`."""
    assert (find_folder("schemas") / SCHEMA).read_text(encoding="utf-8") == write_json()
    assert (find_folder("schemas") / "REFERENCE.md").read_text(encoding="utf-8") == make_reference()


@pytest.mark.parametrize("name", ("show.yaml", "first_show.yaml"))
def test_a_second_validator_accepts_the_examples(name):
    plain = yaml.load((EXAMPLES / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert list(jsonschema.Draft202012Validator(read_schema()).iter_errors(plain)) == []


def test_channel_numbers_with_zeros_keep_their_places():
    raw = raw_of("channels:\n  01: {role: VERA}\n  1: {rol: TOM}\n  '+1': {rol: COOK}\n")
    assert [(f.place.line, f.place.column, f.code) for f in check_shape(raw)] == [
        (3, 7, "field-unknown"),
        (4, 10, "field-unknown"),
    ]


def test_a_slip_says_which_record_and_which_word_was_meant():
    (finding,) = check_shape(raw_of("channels:\n  07: {rolle: TOM}\n"))
    assert finding.text == "channel 07 has no field rolle"
    assert finding.fix.startswith("did you mean role? The fields here are role, by, ")


def test_every_record_of_the_model_holds_its_place_apart_from_its_value():
    raw, _ = read_file(EXAMPLES / "show.yaml", "show.yaml")
    show = build_show(raw).show
    for record in (show.production, *show.channels.values(), *show.racks.values(), *show.scenes):
        where = next(field for field in dataclass_fields(record) if field.name == "where")
        assert not where.compare and record.where.record.line > 0


def test_too_many_records_are_refused_before_they_are_built():
    raw = raw_of("channels:\n" + "".join(f"  c{n}: {{role: R{n}}}\n" for n in range(5_001)))
    assert [finding.code for finding in check_shape(raw)] == ["records-too-many"]


@pytest.mark.parametrize(
    ("heading", "meant"),
    [
        ("Bemerkung", "notes"),
        ("Remarks", "notes"),
        ("remarques", "notes"),
        ("Observaciones", "notes"),
        ("Opmerking", "notes"),
        ("Anmärkning", "notes"),
        ("freq", "mhz"),
        ("Frequenz (MHz)", "mhz"),
        ("Darsteller", "by"),
        ("comédien", "by"),
        ("Empfänger", "slot"),
        ("Kapsel", "capsule"),
        ("zonne", "zone"),
    ],
)
def test_a_heading_of_somebody_elses_list_hints_at_our_field(heading, meant):
    (finding,) = check_shape(raw_of(f"channels:\n  01: {{{heading}: x}}\n"))
    assert finding.code == "field-unknown" and finding.fix.startswith(f"did you mean {meant}? The fields here are ")


@pytest.mark.parametrize("heading", ("Farbe", "Battery", "Dressing room", "xyzzy"))
def test_what_no_field_holds_is_sent_to_the_notes(heading):
    (finding,) = check_shape(raw_of(f"channels:\n  01: {{{heading}: x}}\n"))
    assert finding.fix.endswith("; what no field holds can stand in notes")


def test_a_field_of_another_section_is_led_home():
    (finding,) = check_shape(raw_of("racks: {R1: {mhz: 486.2}}\nchannels: {}\n"))
    assert finding.fix.endswith("; mhz is a field of others and channels")


def test_records_in_a_list_are_told_to_stand_under_their_ids():
    (finding,) = check_shape(raw_of("channels:\n  - {role: VERA}\n  - {role: TOM}\n"))
    assert finding.code == "value-kind" and "under its id" in finding.fix
