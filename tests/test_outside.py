"""Racks in the file's order, contacts, tapes, hired gear and antennas: from the file to the papers."""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.archive.public import make_public
from paperwork.changes import diff_shows, list_changes
from paperwork.document import Tree, TreeLink, TreeNode, fact
from paperwork.document.styles import HAND
from paperwork.model import Channel, Rack, Show
from paperwork.model.facts import canonical_facts, fingerprint_show
from paperwork.plan.aerials import Cable, list_cables, list_systems, measure_depths
from paperwork.plan.tapes import mark_tapes, name_tape
from paperwork.render.blocks.slices import Context
from paperwork.render.blocks.trees import lay_tree
from paperwork.render.boxes import Frame, Rule
from paperwork.render.text.setting import Typesetter
from paperwork.sheets import SHEETS
from paperwork.sheets.production.contact_strip import split_contact
from tests.changes.applying import apply_changes
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.sheet_texts import texts_of
from tests.shows_text import reading_of

HEAD = "show: {title: Glass, contact: Dee (A2) 07700 900112}\n"


def show_of(text, tmp_path):
    reading = reading_of(HEAD + text, tmp_path)
    assert reading.show is not None, [one.text for one in reading.findings]
    return reading.show


def said(show, name):
    (paper,) = [one for one in SHEETS if one.name == name]
    return [text for sheet in paper.make(show) for text in texts_of(sheet)]


def racks_of(*ids):
    listed = "".join(f"  {id}: {{channels: {number}}}\n" for number, id in enumerate(ids, 1))
    return f"racks:\n{listed}channels: {{1: {{by: A}}, 2: {{by: B}}, 3: {{by: C}}}}\n"


def test_racks_are_on_paper_in_the_order_of_the_file(tmp_path):
    for ids in permutations(("PIT", "R2", "R10")):
        texts = said(show_of(racks_of(*ids), tmp_path), "channel-chart")
        assert [text for text in texts if text.startswith("Rack ")] == [f"Rack {id}" for id in ids]


def test_the_order_of_racks_is_a_fact_only_where_it_is_not_the_sorted_one(tmp_path):
    channels = "channels: {1: {by: A}}\n"
    usual = show_of("racks: {R1: {slots: 1}, R2: {slots: 1}, R10: {slots: 1}}\n" + channels, tmp_path)
    turned = show_of("racks: {R2: {slots: 1}, R1: {slots: 1}, R10: {slots: 1}}\n" + channels, tmp_path)
    assert usual.rack_order == () and b"rack_order" not in canonical_facts(usual)
    assert turned.rack_order == ("R2", "R1", "R10") and fingerprint_show(turned) != fingerprint_show(usual)
    (entry,) = list_changes(usual, turned, diff_shows(usual, turned))
    assert entry.section == "racks" and entry.acts == ("patch",)


RACKS = st.lists(st.sampled_from(("R1", "R2", "R3", "R10", "PIT")), unique=True, max_size=5)


@settings(max_examples=few_examples(60))
@given(RACKS, RACKS)
def test_changes_bring_racks_into_any_order_and_name_an_order_only_where_it_is_one(before, after):
    def build(ids):
        sorted_ids = sorted(ids, key=lambda id: (id[0], int(id[1:]) if id[1:].isdigit() else 0))
        return Show(racks={id: Rack(id) for id in ids}, rack_order=() if list(ids) == sorted_ids else tuple(ids))

    old, new = build(before), build(after)
    changes = diff_shows(old, new)
    done = apply_changes(old, changes)
    assert done == new and list(done.racks) == list(new.racks)
    if not old.rack_order and not new.rack_order:
        assert all(one.kind != "ordered" for one in changes)


def test_a_contact_is_parted_before_its_number():
    assert split_contact("Dee (A2) 07700 900112") == ("Dee (A2)", "07700 900112")


CONTACTS = """
contacts:
  Mo Lind: {department: stage, job: stage manager, phone: 07700 900121, other: intercom B}
  Ash Quill: {department: sound, job: designer, phone: 07700 900113}
  Pat Rowe: {department: stage, job: deputy}
channels: {1: {by: A}}
"""


def test_contacts_stand_by_department_in_the_order_of_the_file(tmp_path):
    texts = said(show_of(CONTACTS, tmp_path), "contact-strip")
    order = [
        "Dee (A2)",
        "07700 900112",
        "stage",
        "Mo Lind",
        "07700 900121",
        "intercom B",
        "Pat Rowe",
        "sound",
        "Ash Quill",
    ]
    places = [texts.index(one) for one in order]
    assert places == sorted(places)
    assert "Stage manager" not in texts  # the line for a pen: the contacts say who it is


def test_who_answers_for_the_plan_is_named_once(tmp_path):
    known = CONTACTS.replace("phone: 07700 900113", "phone: 07700 900112")
    assert said(show_of(known, tmp_path), "contact-strip").count("07700 900112") == 1


def test_a_public_archive_has_no_contact(tmp_path):
    bare, _ = make_public(show_of(CONTACTS + "roles: {X: {by: Ash Quill}}\n", tmp_path))
    text = canonical_facts(bare).decode()
    assert not any(one in text for one in ("Mo Lind", "Ash Quill", "07700", "intercom"))


def test_a_tape_is_a_word_and_a_mark_wherever_it_is(tmp_path):
    text = """
transmitters: {P2: {tape: blue}}
channels:
  1: {role: VERA, by: Ann, mhz: 486.200, tape: red}
  2: {role: TOM, by: Bo, mhz: 488.200, pack: P2}
  3: {role: MUM, by: Cy, mhz: 491.200}
scenes: {s1: {live: VERA TOM MUM}}
"""
    show = show_of(text, tmp_path)
    assert [name_tape(show, one) for one in show.channels.values()] == ["RD red", "BE blue", ""]
    for name in ("channel-chart", "pack-labels", "mic-plot"):
        texts = " / ".join(said(show, name))
        assert "RD red" in texts and "BE blue" in texts, name


@settings(max_examples=few_examples(60))
@given(st.lists(st.text("abcdeß -", max_size=6).filter(str.strip), max_size=12))
def test_no_two_colours_have_one_mark(words):
    show = Show(channels={str(n): Channel(str(n), tape=word.strip()) for n, word in enumerate(words)})
    marks = mark_tapes(show)
    assert len(set(marks.values())) == len(marks)


def test_what_is_hired_stands_by_the_day_on_which_it_goes_back(tmp_path):
    text = """
transmitters: {01: {serial: N-1}, 02: {serial: N-2}}
hires:
  h1: {firm: Northquay Hire, item: packs, packs: 01-02, dates: 2027-03-01 to 2027-03-22}
  h2: {firm: Farlight, item: splitter, serial: F-1, count: 1, dates: 2027-03-01 to 2027-03-08}
  h3: {firm: Farlight, item: cable}
channels: {01: {by: A}, 02: {by: B}}
"""
    texts = said(show_of(text, tmp_path), "inventory")
    bars = [text for text in texts if text.startswith("Goes back")]
    assert bars == [
        "Goes back 8 March 2027: Farlight",
        "Goes back 22 March 2027: Northquay Hire",
        "Goes back, day not given: Farlight",
    ]
    assert "01, 02" in texts and "2" in texts


ANTENNAS = """
racks: {R2: {channels: 1, antenna: low, place: 1}, R1: {channels: 2, antenna: low, place: 2}, R3: {channels: 3}}
antennas:
  A1: {side: SL, place: boom 2, feeds: B1, cables: 3 m}
  A2: {side: SR, feeds: D1, cables: 40 m}
  B1: {kind: booster, gain: +10 dB, power: over the cable, feeds: D1, cables: 40 m}
  D1: {kind: splitter, feeds: "R2, r3", cables: "2 m, 5 m"}
  A9: {side: SR}
channels: {1: {by: A}, 2: {by: B}, 3: {by: C}}
"""


def test_cables_go_from_the_antennas_along_the_racks(tmp_path):
    show = show_of(ANTENNAS, tmp_path)
    cables = list_cables(show)
    assert [tuple(one) for one in cables] == [
        ("A1", "B1", "3 m"),
        ("A2", "D1", "40 m"),
        ("B1", "D1", "40 m"),
        ("D1", "R2", "2 m"),
        ("D1", "R3", "5 m"),
        ("R2", "R1", ""),
    ]
    assert list_systems(show, cables) == (("A1", "A2", "B1", "D1", "R2", "R1", "R3"), ("A9",))
    texts = said(show, "antenna-plan")
    assert "Cables:  1 × 3 m,  2 × 40 m,  1 × 2 m,  1 × 5 m,  1 × length not given" in texts
    assert "booster +10 dB" in texts and "fed over the cable" in texts and "A9" in texts


def test_each_of_two_cables_to_one_rack_has_its_length(tmp_path):
    text = 'racks: {R1: {channels: 1}}\nantennas: {D1: {feeds: "R1, R1, R1", cables: "2 m, 5 m"}}\nchannels: {1: {by: A}}\n'
    cables = list_cables(show_of(text, tmp_path))
    assert [one.length for one in cables] == ["2 m", "5 m", ""]


def draw(parts, tmp_path):
    """The trees of the antenna plan of some parts before one rack, and its texts."""
    text = f"racks: {{R1: {{channels: 1}}}}\nantennas:\n{parts}channels: {{1: {{by: A}}}}\n"
    (paper,) = [one for one in SHEETS if one.name == "antenna-plan"]
    (sheet,) = paper.make(show_of(text, tmp_path))
    return [block for block in sheet.blocks if isinstance(block, Tree)], list(texts_of(sheet))


@pytest.mark.parametrize(("count", "is_drawn"), [(5, True), (6, False)])
def test_parts_are_drawn_as_long_as_each_has_room_for_its_words(count, is_drawn, tmp_path):
    rows = "".join(
        f"  A{n}: {{side: SL, place: boom 2, feeds: {f'A{n + 1}' if n < count else 'R1'}}}\n"
        for n in range(1, count + 1)
    )
    trees, texts = draw(rows, tmp_path)
    assert bool(trees) == is_drawn and f"A{count}" in texts
    for tree in trees:
        lay_tree(tree, context := Context(277_000, 150_000, Typesetter(load_metrics(), "tree"), {}))
        assert not context.setter.shortfalls


@pytest.mark.parametrize(("middle", "is_drawn"), [(12, True), (13, False)])
def test_no_more_parts_are_drawn_over_each_other_than_a_page_holds(middle, is_drawn, tmp_path):
    between = ", ".join(f"B{n}" for n in range(middle))
    rows = f"  A1: {{feeds: '{between}'}}\n" + "".join(f"  B{n}: {{feeds: R1}}\n" for n in range(middle))
    trees, texts = draw(rows, tmp_path)
    assert bool(trees) == is_drawn and f"B{middle - 1}" in texts


@pytest.mark.parametrize(("count", "is_drawn"), [(60, True), (61, False)])
def test_no_more_cables_are_drawn_than_can_be_followed(count, is_drawn, tmp_path):
    trees, texts = draw(f"  A1: {{feeds: '{', '.join(['R1'] * count)}'}}\n", tmp_path)
    assert bool(trees) == is_drawn and texts.count("A1") >= count


def test_a_ring_of_cables_is_listed_and_not_drawn(tmp_path):
    ring = ANTENNAS.replace('feeds: "R2, r3", cables: "2 m, 5 m"', "feeds: B1")
    show = show_of(ring, tmp_path)
    (paper,) = [one for one in SHEETS if one.name == "antenna-plan"]
    (sheet,) = paper.make(show)
    assert not any(isinstance(block, Tree) for block in sheet.blocks) and "D1" in list(texts_of(sheet))


LINKS = st.sets(st.tuples(st.integers(0, 9), st.integers(0, 9)).filter(lambda pair: pair[0] < pair[1]), max_size=14)


@settings(max_examples=few_examples(40), deadline=None)
@given(LINKS)
def test_a_tree_draws_every_box_once_and_no_cable_through_a_box(links):
    used = sorted({end for link in links for end in link})
    if not used:
        return
    place = {one: number for number, one in enumerate(used)}
    depths = measure_depths([f"{one}" for one in used], [Cable(f"{a}", f"{b}") for a, b in sorted(links)])
    assert all(depths[f"{a}"] > depths[f"{b}"] for a, b in links)
    nodes = tuple(TreeNode(fact(f"P{one}", HAND), column=max(depths.values()) - depths[f"{one}"]) for one in used)
    tree = Tree(nodes, tuple(TreeLink(place[a], place[b], fact("5 m", HAND)) for a, b in sorted(links)))
    ((piece,),) = [
        series.slices for series in lay_tree(tree, Context(257_000, 150_000, Typesetter(load_metrics(), "tree"), {}))
    ]
    frames = [box for box in piece.boxes if isinstance(box, Frame)]
    assert len(frames) == len(nodes)
    for one, two in permutations(frames, 2):
        assert (
            one.x >= two.x + two.width
            or one.x + one.width <= two.x
            or one.y >= two.y + two.height
            or one.y + one.height <= two.y
        )
    for box in piece.boxes:
        if isinstance(box, Rule):
            low_x, high_x = sorted((box.x1, box.x2))
            low_y, high_y = sorted((box.y1, box.y2))
            for frame in frames:
                inside_x = low_x < frame.x + frame.width and high_x > frame.x
                inside_y = low_y < frame.y + frame.height and high_y > frame.y
                on_x = low_x == high_x and frame.x < low_x < frame.x + frame.width
                on_y = low_y == high_y and frame.y < low_y < frame.y + frame.height
                assert not (on_x and inside_y) and not (on_y and inside_x)


def test_shows_without_any_of_it_say_what_they_said(tmp_path):
    text = canonical_facts(show_of("channels: {1: {by: A}}\n", tmp_path))
    assert not any(word in text for word in (b"tape", b"contacts", b"hires", b"antennas", b"rack_order"))


DESK = """
racks: {R1: {channels: 01-03, slots: 4, analogue 1: "FOH 1-2, -, FOH 20", digital 1: TRUCK 1-4}}
consoles: {FOH: {strip: 25, letters: 4}, TRUCK: {inputs: 8}}
channels: {01: {role: ELSPETH}, 02: {role: TOM}, 03: {role: MUM}}
"""


def test_a_strip_has_each_desk_input_in_its_own_order_and_a_place_for_each_other(tmp_path):
    show = show_of(DESK, tmp_path)
    (paper,) = [one for one in SHEETS if one.name == "desk-strips"]
    (sheet,) = paper.make(show)
    (block,) = sheet.blocks  # the truck has no width of a fader
    assert block.width_um == 200_000
    names = [[slot.lines[0].text.strip() for slot in strip.slots] for strip in block.strips]
    assert names == [["ELSP", "TOM", *[""] * 6], [""] * 8]
    assert [slot.key.text for slot in block.strips[1].slots] == [str(number) for number in range(17, 25)]
