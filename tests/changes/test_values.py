"""Values as people read them on a change list."""

import pytest

from paperwork.changes.lines import NOTHING, format_fact, is_plain_list, list_label_changes, split_list
from paperwork.changes.records import contexts_of
from paperwork.changes.reprint import LabelPrint, PaperPrint, Reprint
from paperwork.model import Slot
from paperwork.model.fields import SECTIONS
from paperwork.text.units import Range
from paperwork.text.words import words_of
from tests.shows_text import show_of


@pytest.mark.parametrize(
    ("field", "value", "shown"),
    (
        ("channels.mhz", 486_200_000, "486.200 MHz"),
        ("channels.asked", 486_200_000, "486.200 MHz"),
        ("channels.granted", 486_212_500, "486.2125 MHz"),
        ("radios.step", 12_500, "12.5 kHz"),
        ("spectrum.sweep limit", -8_550, "-85.5 dBm"),
        ("spectrum.sweep limit", 1_000, "10.0 dB"),
        ("day.margin", 105, "1.05"),
        ("day.margin", 250, "2.50"),
        ("day.swap", 90, "90 s"),
        ("day.swap handheld", 5, "5 s"),
        ("day.crossing", 61, "61 s"),
        ("radios.hours", 5_400, "1:30"),
        ("consoles.inputs", 64, "64"),
        ("consoles.inputs", 0, "0"),
        ("channels.spare", True, "yes"),
        ("channels.spare", False, "no"),
        ("channels.notes", "keep dry", "keep dry"),
        ("channels.notes", "", NOTHING),
        ("channels.role", (), NOTHING),
        ("channels.mhz", None, NOTHING),
        ("channels.role", ("VERA", "TOM"), "VERA, TOM"),
        ("racks.window", Range(486_000_000, 508_500_000), "486 to 508.5 MHz"),
        (
            "radios.tunes",
            (Range(470_000_000, 480_000_000), Range(500_000_000, 510_000_000)),
            "470 to 480 MHz, 500 to 510 MHz",
        ),
    ),
)
def test_a_value_is_shown_with_its_unit(field, value, shown):
    section, _, name = field.partition(".")
    assert format_fact(SECTIONS[section].fields[name], value, words_of("en")) == shown


def test_a_list_is_told_by_what_joined_and_what_left():
    assert split_list(("a", "b", "c"), ("c", "d", "a")) == (("b",), ("d",))


@pytest.mark.parametrize(
    ("value", "plain"),
    ((("a",), True), ((Slot("R1", 1),), True), ((), False), ("a", False), (("a", 1), False), (None, False)),
)
def test_a_list_of_names_or_slots_is_plain(value, plain):
    assert is_plain_list(value) is plain


def test_where_an_id_is_named_is_its_section_record_and_field(tmp_path):
    show = show_of(
        "channels: {01: {role: VERA, by: Ana}, 02: {role: TOM, by: Bo}}\nscenes: {s1: {live: VERA TOM}, s2: {live: VERA}}\n",
        tmp_path,
    )
    places = contexts_of(show, "roles")
    assert {("scenes", "s1", "live"), ("scenes", "s2", "live"), ("channels", "01", "roles")} <= places["VERA"]
    assert (
        not {place for place in places["TOM"] if place[1] in ("s2", "01")} and ("scenes", "s1", "live") in places["TOM"]
    )


def test_a_label_is_new_gone_or_changed():
    old, new = (
        [LabelPrint(number, "VERA", code) for number, code in labels]
        for labels in ((("01", "A"), ("02", "B")), (("02", "C"), ("10", "D")))
    )
    sheet = PaperPrint("wardrobe", "labels", "Labels", ("X",))
    entries = list_label_changes(Reprint((), {"labels": tuple(new)}, {"labels": tuple(old)}, {}, (sheet,)))
    assert [(one.sign, one.id, one.old, one.new) for one in entries] == [
        ("gone", "01", "A", NOTHING),
        ("changed", "02", "B", "C"),
        ("new", "10", NOTHING, "D"),
    ]
