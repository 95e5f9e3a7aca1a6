"""Forty edits of one show, each with who must act and which labels are wrong, worked out by hand; and how it is told."""

from dataclasses import fields, replace
from typing import get_args

import pytest

from paperwork.changes import ACTS, acts_of, diff_shows, list_changes
from paperwork.model import OutputKind
from paperwork.model.facts import NOT_FACTS
from paperwork.model.fields import SECTIONS
from paperwork.revisions import Side, compare_revisions
from paperwork.text.words import words_of
from tests.shows_text import reading_of

SHOW = """
show: {title: Glass Ferry, venue: Harbour Hall, revision: B, revisions: [A], licence: H-0001, dates: 2027-03-01 to 2027-03-09}
day: {power-up: "18:00", half: "18:55", curtain: "19:30", interval: "1:00", bows: "2:10", crossing: 60 s}
spectrum: {region: Europe, tv: 30}
radios:
  belt: {kind: pack, tunes: 480-520, step: 25 kHz, hours: 8, power: 10 mW}
  hand: {kind: handheld, tunes: 480-520, step: 25 kHz, hours: 8}
racks:
  R1: {channels: "01, 02, 03, -", units: [2, 2], window: 480-510, antenna: north, analogue 1: FOH 1-4}
consoles: {FOH: {inputs: 48, level: mic, letters: 8}}
others: {EARS: {kind: in-ear, mhz: 536.500, listeners: Ben Arlo, packs: E1}}
transmitters:
  01: {radio: belt, serial: X-1, gain: 30 dB}
  02: {radio: belt, serial: X-2, gain: 30 dB}
  03: {radio: belt, serial: X-3, gain: 30 dB}
  H1: {radio: hand, serial: X-8}
  H9: {radio: hand, serial: X-10}
  S1: {radio: belt, serial: X-9}
  E1: {}
capsules: {beige: {type: lavalier, colour: beige, owned: 6}, black: {type: lavalier, colour: black, owned: 6}}
people:
  Mara Lind: {room: 1, pouch: 01, belt: S}
  Ben Arlo: {room: 1, pouch: 02}
  Sam Dunn: {room: 2, pouch: 03}
  Iris Vale: {room: 2}
roles: {HOST: {short: HST}}
channels:
  01: {role: VERA, by: Mara Lind, radio: belt, mhz: 486.200, capsule: beige}
  02: {shared: {TOM: Ben Arlo, COOK: Sam Dunn}, radio: belt, mhz: 488.700, capsule: beige}
  03: {role: SAILOR, by: Iris Vale, radio: belt, mhz: 492.900, capsule: beige, notes: talks low}
  04: {role: HOST, by: Mara Lind, radio: hand, mhz: 495.500, pack: H1}
  05: {spare: belt, backs: 01-03, mhz: 499.350, pack: S1, capsule: beige}
scenes:
  s1: {name: 1.1 Quay, at: "0:00", live: VERA TOM}
  s2: {name: 1.2 Deck, at: "0:20", live: SAILOR}
  s3: {name: 2.1 Galley, at: "1:20", live: COOK}
moves: {m1: {role: COOK, scene: s3, enter: SL}}
looks: {l1: {by: Mara Lind, wears: oilskin, sits: small of back}}
covers: {c1: {role: VERA, by: Iris Vale, channel: 01}}
"""

EDITS = (
    ("a retuned channel", "mhz: 486.200", "mhz: 487.325", "pack coordinator", "01"),
    ("another pack on a channel", "pack: H1}", "pack: H9}", "pack wardrobe", "04"),
    ("another serial", "serial: X-2", "serial: X-7", "pack", ""),
    ("another gain", "X-3, gain: 30 dB", "X-3, gain: 24 dB", "pack", ""),
    ("another capsule on a channel", "488.700, capsule: beige", "488.700, capsule: black", "wardrobe", "02"),
    ("a role with another name", "SAILOR", "BOSUN", "patch wardrobe", "03"),
    ("a short name, which the label's QR code says", "short: HST", "short: HO", "patch", "04"),
    ("another performer", "role: SAILOR, by: Iris Vale", "role: SAILOR, by: Sam Dunn", "wardrobe", "03"),
    ("a person spelled anew", "Mara Lind", "Mara Lindh", "wardrobe", "01 04"),
    ("another room", "Sam Dunn: {room: 2", "Sam Dunn: {room: 3", "wardrobe", ""),
    ("another pouch", "pouch: 02", "pouch: 12", "wardrobe", ""),
    ("another belt", "belt: S", "belt: M", "wardrobe", ""),
    ("another slot", '"01, 02, 03, -"', '"01, 02, -, 03"', "patch", ""),
    ("two that trade slots", '"01, 02, 03, -"', '"02, 01, 03, -"', "patch", ""),
    ("another desk input", "analogue 1: FOH 1-4", "analogue 1: 'FOH 1, FOH 2, FOH 7, FOH 4'", "patch", ""),
    ("another antenna", "antenna: north", "antenna: south", "patch", ""),
    ("another window", "window: 480-510", "window: 480-512", "patch coordinator", ""),
    ("a desk of another level", "level: mic", "level: line", "patch", ""),
    ("another count of letters", "letters: 8", "letters: 6", "patch", ""),
    ("other in-ears", "mhz: 536.500", "mhz: 537.500", "pack coordinator", "E1"),
    ("another listener", "listeners: Ben Arlo", "listeners: Sam Dunn", "wardrobe", "E1"),
    ("another licence", "licence: H-0001", "licence: H-0002", "coordinator", ""),
    ("another venue", "venue: Harbour Hall", "venue: Pier House", "coordinator know", ""),
    ("another title", "title: Glass Ferry", "title: The Ferry", "know", ""),
    ("other days", "2027-03-09", "2027-03-12", "coordinator", ""),
    ("another TV channel in use", "tv: 30", "tv: 31", "coordinator", ""),
    ("another power", "power: 10 mW", "power: 20 mW", "pack coordinator", ""),
    ("other hours", "hours: 8, power", "hours: 7, power", "pack", ""),
    ("an earlier power-up", 'power-up: "18:00"', 'power-up: "17:45"', "pack", ""),
    ("a later curtain", 'curtain: "19:30"', 'curtain: "20:00"', "wardrobe", ""),
    ("a longer way across", "crossing: 60 s", "crossing: 75 s", "know", ""),
    ("a role more in a scene", "live: SAILOR", "live: SAILOR VERA", "patch wardrobe", ""),
    ("a scene at another time", 'at: "0:20"', 'at: "0:25"', "wardrobe", ""),
    ("a cut scene", '  s2: {name: 1.2 Deck, at: "0:20", live: SAILOR}\n', "", "patch wardrobe", ""),
    ("a scene with another name", "1.2 Deck", "1.2 Upper deck", "know", ""),
    ("another side", "enter: SL", "enter: SR", "wardrobe", ""),
    ("another costume", "wears: oilskin", "wears: gown", "wardrobe", ""),
    ("another cover", "role: VERA, by: Iris Vale", "role: VERA, by: Sam Dunn", "wardrobe", ""),
    ("a note", "talks low", "talks loud", "know", ""),
    ("a spare that backs others", "backs: 01-03", "backs: 01-02", "know", "05"),
    (
        "a channel that is gone",
        "  05: {spare: belt, backs: 01-03, mhz: 499.350, pack: S1, capsule: beige}\n",
        "",
        "pack patch wardrobe coordinator",
        "05",
    ),
    (
        "a new channel",
        "scenes:\n",
        "  06: {role: CLERK, radio: belt, mhz: 502.125}\nscenes:\n",
        "pack patch wardrobe coordinator",
        "06",
    ),
    ("another count of capsules", "beige, owned: 6", "beige, owned: 7", "know", ""),
)


@pytest.fixture(scope="module")
def old(tmp_path_factory) -> Side:
    side = side_of(SHOW, tmp_path_factory.mktemp("old"))
    return replace(side, recorded=side.prints)  # laid out once for all edits


def side_of(text: str, folder) -> Side:
    reading = reading_of(text, folder)
    assert reading.show is not None, reading.findings
    return Side(reading.show, (), "show")


def test_there_are_forty_edits():
    assert len(EDITS) >= 40 and all(before in SHOW for _, before, *_ in EDITS)


@pytest.mark.parametrize(
    ("before", "after", "acts", "labels"), [edit[1:] for edit in EDITS], ids=[edit[0] for edit in EDITS]
)
def test_who_must_act_and_which_labels_are_wrong(old, tmp_path, before, after, acts, labels):
    compared = compare_revisions(old, side_of(SHOW.replace(before, after), tmp_path))
    told = {act for entry in compared.entries for act in entry.acts}
    assert told - {"label"} == set(acts.split())
    held = (compared.reprint.labels, compared.reprint.bin_labels)
    wrong = {label.number for one in held for name, some in one.items() if name.endswith("-labels") for label in some}
    assert wrong == set(labels.split())
    assert ("label" in told) == any(held)


def told(old: Side, text: str, tmp_path, language: str = "en") -> list[str]:
    new = side_of(text, tmp_path).show
    return [
        f"{entry.sign} {entry.what}: {entry.field}: {entry.old} -> {entry.new}"
        for entry in list_changes(old.show, new, diff_shows(old.show, new), language)
    ]


@pytest.mark.parametrize(
    ("before", "after", "line"),
    (
        ("mhz: 486.200", "mhz: 487.325", "changed channel 01  VERA: frequency: 486.200 MHz -> 487.325 MHz"),
        ("SAILOR", "BOSUN", "name role BOSUN: name: SAILOR -> BOSUN"),
        ("Sam Dunn: {room: 2", "Sam Dunn: {room: 3", "moved Sam Dunn: room: 2 -> 3"),
        ('"01, 02, 03, -"', '"01, 02, -, 03"', "moved channel 03  SAILOR: slot: R1.3 -> R1.4"),
        ("live: SAILOR", "live: SAILOR VERA", "changed scene 1.2 Deck: live: – -> VERA"),
        ('at: "0:20"', 'at: "0:25"', "moved scene 1.2 Deck: time: 0:20 -> 0:25"),
        (
            "analogue 1: FOH 1-4",
            "analogue 1: 'FOH 1, FOH 2, FOH 7, FOH 4'",
            "moved rack R1: R1.3  analogue 1: FOH 3 -> FOH 7",
        ),
        ("window: 480-510", "window: 480-512", "changed rack R1: window: 480 to 510 MHz -> 480 to 512 MHz"),
        ("crossing: 60 s", "crossing: 75 s", "changed day: time to cross: 60 s -> 75 s"),
        (
            "step: 25 kHz, hours: 8, power",
            "step: 50 kHz, hours: 8, power",
            "changed radio type belt: step: 25 kHz -> 50 kHz",
        ),
    ),
)
def test_a_change_is_told_in_one_line_of_plain_words(old, tmp_path, before, after, line):
    assert told(old, SHOW.replace(before, after), tmp_path) == [line]


def test_a_scene_that_moves_says_behind_which(old, tmp_path):
    lines = SHOW.splitlines(keepends=True)
    at = next(number for number, line in enumerate(lines) if line.startswith("  s1:"))
    lines[at : at + 3] = lines[at + 1], lines[at + 2], lines[at]
    assert told(old, "".join(lines), tmp_path) == ["moved scene 1.1 Quay: order: first -> after scene 2.1 Galley"]


def test_a_new_and_a_former_channel_are_summed_up(old, tmp_path):
    text = SHOW.replace("scenes:\n", "  06: {role: CLERK, radio: belt, mhz: 502.125}\nscenes:\n")
    assert told(old, text, tmp_path) == [
        "new role CLERK: : – -> given",
        "new channel 06  CLERK: : – -> frequency 502.125 MHz, pack 06",
    ]


def test_a_change_is_told_in_the_language_of_the_show(old, tmp_path):
    assert told(old, SHOW.replace("mhz: 486.200", "mhz: 487.325"), tmp_path, "de") == [
        "changed Kanal 01  VERA: Frequenz: 486.200 MHz -> 487.325 MHz"
    ]


def test_a_revision_its_date_and_its_reason_are_no_lines(old, tmp_path):
    text = SHOW.replace(
        "revision: B, revisions: [A]", "revision: C, revisions: [A, B], reason: new packs, revised: 2027-02-01"
    )
    assert told(old, text, tmp_path) == []


@pytest.mark.parametrize("section", SECTIONS)
def test_every_field_of_the_model_says_who_must_act_and_has_its_word(section):
    """What an attribute is called on a change list is in the words; outputs are told slot by slot, by their kind."""
    for f in fields(SECTIONS[section].record):
        if f.compare and f.name not in ("id", *(NOT_FACTS if section == "show" else ())):
            assert acts_of(section, f.name) and set(acts_of(section, f.name)) <= set(ACTS)
            words = [f"field {kind}" for kind in get_args(OutputKind)] if f.name == "outputs" else [f"field {f.name}"]
            assert set(words) <= set(words_of("en")), f"{section} {f.name} has no word"


def test_a_field_without_its_word_is_called_by_its_title(old, tmp_path, monkeypatch):
    lacking = {key: word for key, word in words_of("en").items() if key != "field weak_tv"}
    monkeypatch.setattr("paperwork.changes.lines.words_of", lambda language: lacking)
    new = SHOW.replace("tv: 30}", "tv: 30, weak tv: 31}")
    assert told(old, new, tmp_path) == ["changed spectrum: weak tv channels: \u2013 -> 31"]


def test_a_record_that_comes_or_goes_says_who_must_act():
    assert acts_of("channels") == ("pack", "patch", "wardrobe", "coordinator")
    assert acts_of("racks") == ("patch",)


def test_a_scene_that_is_renamed_and_moved_has_a_line_for_each(tmp_path):
    scenes = ["s1: {live: VERA}", "s2: {live: SAILOR}", "s3: {live: COOK}"]
    show = "channels:\n  1: {role: VERA}\n  2: {role: SAILOR}\n  3: {role: COOK}\nscenes:\n"
    old = side_of(show + "".join(f"  {scene}\n" for scene in scenes), tmp_path)
    moved = [*scenes[1:], "x1: {live: VERA}"]
    lines = told(old, show + "".join(f"  {scene}\n" for scene in moved), tmp_path)
    assert [line.partition(" ")[0] for line in lines] == ["name", "moved"], lines
    assert all("x1" in line for line in lines)
