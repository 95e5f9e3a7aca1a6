"""Digital pairs against the last revision: a channel that changed sides is told loudly, a move that keeps them is not."""

from paperwork.build import build_show
from paperwork.checks import check_since
from tests.shows_text import raw_of

BEFORE = """
racks:
  R1: {channels: "%s", units: [2, 2], digital 1: TRUCK 1-4}
channels:
  01: {role: VERA, mhz: 486.200}
  02: {role: TOM, mhz: 488.200}
  03: {role: COOK, mhz: 491.700}
  04: {role: NURSE, mhz: 496.700}
"""


def since(before: str, after: str) -> list[tuple[str, str]]:
    old, new = (build_show(raw_of(BEFORE % order)).show for order in (before, after))
    return [(finding.code, finding.subjects[0].id) for finding in check_since(old, new)]


def test_two_channels_that_change_places_in_a_pair_change_sides():
    assert sorted(since("01,02,03,04", "02,01,03,04")) == [("pair-flipped", "01"), ("pair-flipped", "02")]


def test_a_move_that_keeps_the_side_says_nothing():
    assert since("01,02,03,04", "03,02,01,04") == []


def test_a_move_by_one_slot_flips_and_says_what_was_and_what_is():
    old, new = (build_show(raw_of(BEFORE % order)).show for order in ("01,02,-,-", "-,01,02,-"))
    texts = [finding.text for finding in check_since(old, new)]
    assert texts == [
        "CHANNEL 01 CHANGED SIDES: digital 1 to TRUCK 2 was left, now right",
        "CHANNEL 02 CHANGED SIDES: digital 1 to TRUCK 3 was right, now left",
    ]
