"""The published schema: it is that of the table, an independent validator agrees with ours, slips are located."""

from dataclasses import fields as dataclass_fields
from typing import Any

import jsonschema
import pytest
import yaml

from paperwork import limits
from paperwork.build import build_show
from paperwork.files import read_file
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from paperwork.resources import find_folder
from paperwork.schema import check_shape
from tests.shows_text import EXAMPLES, raw_of
from tests.tools.make_schema import make_reference, make_schema, write_json


def test_the_schema_is_a_sound_schema_with_an_id():
    jsonschema.Draft202012Validator.check_schema(make_schema())
    assert make_schema()["$id"].startswith("urn:show-paperwork:")


def test_the_schema_and_the_reference_are_those_of_the_table_of_fields():
    """Made by `python -m tests.tools.make_schema`."""
    assert (find_folder("schemas") / "show.schema.json").read_text(encoding="utf-8") == write_json()
    assert (find_folder("schemas") / "REFERENCE.md").read_text(encoding="utf-8") == make_reference()


@pytest.mark.parametrize("name", ("show.yaml", "first_show.yaml"))
def test_a_second_validator_accepts_the_examples(name):
    plain = yaml.load((EXAMPLES / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert list(jsonschema.Draft202012Validator(make_schema()).iter_errors(plain)) == []


AT = Place("show.yaml", 1, 1)
ONE, GROUP = Text("a", AT), Map(((Text("a", AT), Text("b", AT)),), AT)
NODES: tuple[Node, ...] = (
    ONE,
    *(Text(word, AT) for word in ("", "yes", "TRUE", "Off", "a4", "A4", "pack")),
    List((), AT),
    List((ONE, ONE), AT),
    List((List((ONE,), AT),), AT),
    List((ONE,) * (limits.LIST_LENGTH + 1), AT),
    Map((), AT),
    GROUP,
    Map(((ONE, GROUP),), AT),
)


def plain(node: Node) -> Any:
    """What a reader of JSON or YAML would hand to a validator."""
    if isinstance(node, Map):
        return {key.text: plain(value) for key, value in node.items}
    return [plain(item) for item in node.items] if isinstance(node, List) else node.text


def hold(section: str, record: Node) -> Map:
    """A show with one record of a section, and with channels."""
    held = {"channels": Map((), AT)} | {section: record if section in SINGLES else Map(((Text("x", AT), record),), AT)}
    return Map(tuple((Text(name, AT), node) for name, node in held.items()), AT)


@pytest.mark.parametrize("section", SECTIONS)
def test_every_shape_of_every_field_is_judged_as_an_independent_validator_judges_it(section):
    validator = jsonschema.Draft202012Validator(make_schema())
    wanted = [(Text(one.name, AT), ONE) for one in SECTIONS[section].fields.values() if one.is_marked("required")]
    shows = [hold(section, node) for node in NODES] + [
        hold(section, Map((*(item for item in wanted if item[0].text != name), (Text(name, AT), node)), AT))
        for name in (*SECTIONS[section].fields, "fild")
        for node in NODES
    ]
    for show in (*shows, Map((), AT), Map(((Text(section, AT), ONE),), AT)):
        assert bool(check_shape(show)) == (not validator.is_valid(plain(show))), plain(show)


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
    assert finding.fix.endswith("; what no field holds can go into notes")


def test_a_field_of_another_section_is_led_home():
    (finding,) = check_shape(raw_of("racks: {R1: {mhz: 486.2}}\nchannels: {}\n"))
    assert finding.fix.endswith("; mhz is a field of others and channels")


def test_records_in_a_list_are_told_to_stand_under_their_ids():
    (finding,) = check_shape(raw_of("channels:\n  - {role: VERA}\n  - {role: TOM}\n"))
    assert finding.code == "value-kind" and "under its id" in finding.fix
