"""Cards and strips: one size of key, one height, signed where they are cut out, cut between slots."""

from dataclasses import replace

import pytest

from paperwork.document import Card, Cards, CardSlot, Strips, UnitStrip, fact, words
from paperwork.document.facts import card_code, code, strip_code
from paperwork.document.styles import (
    CARD_KEY,
    CARD_ORDINAL,
    CARD_STRONG,
    CARD_TEXT,
    RACK_SMALL,
    SQUARE_KEY,
    STRIP_NUMBER,
    STRIP_ROLE,
)
from paperwork.render import composing
from paperwork.render.blocks.cards import TICK_UM
from paperwork.render.blocks.strips import pieces_of
from paperwork.render.boxes import Frame, Rule
from paperwork.render.layout import lay_out
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout

METRICS = load_metrics()


@pytest.fixture(autouse=True)
def ungrown(monkeypatch):
    """Blocks at the heights that are wanted of them, however much room a page has left."""
    monkeypatch.setattr(composing, "MOST_STEPS", 0)


def card(number: int, name: str = "Mara Lind", **changes) -> Card:
    made = {"tick": "done", "band": (words(str(number), CARD_ORDINAL),)} | changes
    return Card(fact(f"{number:02d}", CARD_KEY), (fact(name, CARD_STRONG), fact("VERA, on SL", CARD_TEXT)), **made)


def laid(block, **changes):
    layout = lay_out(samples.chart(name="cards", title="Cards", blocks=(block,), **changes), METRICS)
    check_layout(layout)
    return layout


def frames_of(layout, width: int):
    return [box for page in layout.pages for box in page.boxes if isinstance(box, Frame) and box.width == width]


def test_cards_are_of_one_height_and_none_is_lost_or_split():
    cards = tuple(
        card(n, "Maximiliane Sommerfeldt-Oppenheimer of the Old Harbour" if n == 7 else "Bo") for n in range(1, 24)
    )
    layout = laid(Cards(cards, 1, 30_000))
    frames = frames_of(layout, 185_000)
    assert len(frames) == 23 and len({frame.height for frame in frames}) == 1
    assert [t.text for t in all_texts(layout) if t.floor_um == CARD_KEY.floor_um] == [f"{n:02d}" for n in range(1, 24)]


def test_a_key_that_is_too_wide_for_its_floor_makes_fewer_cards_across():
    def across(ids):
        cards = tuple(Card(fact(id, SQUARE_KEY)) for id in ids)
        layout = laid(Cards(cards, 2, 60_000, stacked=True))
        assert all(t.cap_um >= 28_000 for t in all_texts(layout) if t.text in ids)
        return len(
            {box.x for page in layout.pages for box in page.boxes if isinstance(box, Frame) and box.height > 50_000}
        )

    assert across(("01", "12", "24")) == 2
    assert across(("01", "112", "24")) == 2
    assert across(("01", "1125", "24")) == 1


def test_the_square_to_tick_is_found_by_a_pen():
    assert TICK_UM >= 6_000
    layout = laid(Cards((card(1), card(2))))
    assert len(frames_of(layout, TICK_UM)) == 2


def test_cards_that_are_cut_out_carry_revision_and_a_code_of_their_own():
    cards = tuple(card(n, tick="", band=()) for n in (1, 2, 3))
    layout = laid(Cards(cards, 2, 55_000, 90_000, signed=True))
    shown = [text.text for text in all_texts(layout)]
    assert [f"C  {card_code(one)}" for one in cards] == [text for text in shown if text.startswith("C  ")]
    assert len({card_code(one) for one in cards}) == 3
    assert {frame.height for frame in frames_of(layout, 90_000)} == {55_000}


def test_a_changed_card_changes_its_own_code_and_that_of_the_sheet():
    before, after = (samples.chart(blocks=(Cards((card(1), card(2, name))),)) for name in ("Mara", "Ben"))
    assert code(before) != code(after)
    assert card_code(before.blocks[0].cards[0]) == card_code(after.blocks[0].cards[0])


def slot(number: int) -> CardSlot:
    return CardSlot(
        fact(f"{number:02d}", STRIP_NUMBER), (fact("VERA", STRIP_ROLE),), (fact("486.200   FOH 1", RACK_SMALL),)
    )


def test_a_strip_is_cut_between_slots_into_as_few_even_pieces_as_fit():
    slots = tuple(slot(n) for n in range(1, 7))
    assert [len(piece) for piece in pieces_of(slots, 440_000 // 6, 264_000)] == [3, 3]
    assert [len(piece) for piece in pieces_of(slots, 440_000 // 6, 387_000)] == [3, 3]
    assert [len(piece) for piece in pieces_of(slots[:4], 110_000, 264_000)] == [2, 2]
    assert [len(piece) for piece in pieces_of(slots[:1], 264_000, 264_000)] == [1]
    assert [one for piece in pieces_of(slots, 100_000, 264_000) for one in piece] == list(slots)


def test_the_pieces_of_a_strip_add_up_to_the_opening_of_a_rack():
    for count in (2, 3, 4, 6):
        slots = tuple(slot(n) for n in range(1, count + 1))
        layout = laid(Strips((UnitStrip("R1, unit 1", slots),), 440_000, 22_000), orientation="landscape")
        cuts = [
            box
            for page in layout.pages
            for box in page.boxes
            if isinstance(box, Rule) and box.stroke == 150 and box.dotted and box.y1 == box.y2
        ]
        lengths = [box.x2 - box.x1 for box in cuts]
        assert abs(sum(lengths) - 2 * 440_000) <= 2 * count
        titles = [t.text for t in all_texts(layout) if t.text.startswith("R1, unit 1")]
        assert len(titles) == len(lengths) // 2 and all("piece" in title for title in titles)


def test_a_name_that_is_cut_beside_its_number_goes_below_it_and_its_neighbours_do_too():
    def named(name: str, count: int) -> tuple[CardSlot, ...]:
        return tuple(
            replace(slot(n), lines=(fact(name if n == 1 else "TOM", STRIP_ROLE),)) for n in range(1, count + 1)
        )

    for name, below in (("VERA", False), ("ANNOUNCER", True)):
        layout = laid(Strips((UnitStrip("A", named(name, 8)),), 440_000, 22_000), orientation="landscape")
        check_layout(layout)
        assert layout.findings == ()
        shown = {text.text: text for text in all_texts(layout)}
        assert all((shown[who].x < shown[number].x + 1_000) == below for who, number in ((name, "01"), ("TOM", "08")))
        assert shown[name].cap_um >= STRIP_ROLE.floor_um and shown["01"].cap_um >= STRIP_NUMBER.floor_um


def test_cut_marks_stand_outside_the_strip_at_all_four_corners():
    layout = laid(
        Strips((UnitStrip("R1", (slot(1), slot(2), slot(3), slot(4))),), 440_000, 22_000), orientation="landscape"
    )
    boxes = [box for box in layout.pages[0].boxes if isinstance(box, Rule)]
    edges = [box for box in boxes if box.stroke == 150 and box.dotted and box.y1 == box.y2]
    left, right, top, foot = edges[0].x1, edges[0].x2, edges[0].y1, edges[1].y1
    marks = [box for box in boxes if box.stroke == 150 and not box.dotted and abs(box.y1 - top) < 25_000]
    assert foot - top == 22_000
    for mark in marks:
        beside = max(mark.x1, mark.x2) <= left or min(mark.x1, mark.x2) >= right
        above = max(mark.y1, mark.y2) <= top or min(mark.y1, mark.y2) >= foot
        assert beside or above


def test_each_piece_of_a_strip_is_signed():
    slots = tuple(slot(n) for n in range(1, 5))
    layout = laid(Strips((UnitStrip("R1", slots),), 440_000, 22_000), orientation="landscape")
    signs = [text for text in all_texts(layout) if text.turned]
    assert [text.text for text in signs] == [f"C  {strip_code(slots[:2])}", f"C  {strip_code(slots[2:])}"]


def test_the_number_of_a_card_that_is_cut_out_stands_still_whatever_is_under_it():
    feet = ((), (fact("pouch 1, belt S", CARD_STRONG),), tuple(fact(f"look {n}", CARD_TEXT) for n in range(3)))
    cards = tuple(card(n, tick="", band=(), foot=foot) for n, foot in enumerate(feet, 1))
    layout = laid(Cards(cards, 2, 55_000, 90_000))
    tops = sorted({frame.y for frame in frames_of(layout, 90_000)})
    keys = [text for text in all_texts(layout) if text.text in ("01", "02", "03")]
    assert len({text.y - max(top for top in tops if top < text.y) for text in keys}) == 1 and len(keys) == 3
