"""Handovers: from whom, to whom, where, and how long there is, exact or at least, or not known."""

from paperwork.build import build_show
from paperwork.plan.handovers import list_all_handovers, list_handovers
from tests.shows_text import raw_of

TEXT = """
channels:
  01: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}, mhz: 486.200}
day: {interval: "0:40", bows: "1:30"}
scenes:
  s1: {at: "0:00", live: SAILOR}
  s2: {at: "0:10", live: []}
  s3: {at: "0:20", live: WIDOW}
  s4: {at: "0:30", live: SAILOR}
  s5: {at: "1:00", live: WIDOW}
"""


def handovers(more: str = "", text: str = TEXT):
    show = build_show(raw_of(text + more)).show
    return [
        (one.from_by, one.to_by, one.after.id, one.before.id, one.exit, one.enter, one.seconds, one.at_least)
        for one in list_handovers(show, show.channels["01"])
    ]


def test_scene_times_alone_give_the_least_time_that_there_is():
    assert handovers() == [
        ("Max Ried", "Ana Cole", "s1", "s3", "", "", 600, True),
        ("Ana Cole", "Max Ried", "s3", "s4", "", "", None, False),
        ("Max Ried", "Ana Cole", "s4", "s5", "", "", 1200, True),
    ]


def test_moves_give_sides_and_the_exact_time():
    moves = """
moves:
  m1: {role: SAILOR, scene: s1, exit: SL, to: "0:08"}
  m2: {role: WIDOW, scene: s3, enter: SR, from: "0:21", exit: SR, to: "0:29:30"}
  m3: {role: SAILOR, scene: s4, enter: SR, from: "0:31:10"}
"""
    assert handovers(moves)[:2] == [
        ("Max Ried", "Ana Cole", "s1", "s3", "SL", "SR", 780, False),
        ("Ana Cole", "Max Ried", "s3", "s4", "SR", "SR", 100, False),
    ]


def test_one_told_end_is_a_least_time_as_well():
    assert handovers('moves: {m1: {role: SAILOR, scene: s1, exit: SL, to: "0:08"}}\n')[0][4:] == ("SL", "", 720, True)


def test_unknown_times_are_unknown():
    text = TEXT.replace('at: "0:00", ', "").replace('at: "0:20", ', "")
    assert handovers(text=text)[0][6:] == (None, False)


def test_two_roles_of_one_body_hand_nothing_over():
    show = build_show(
        raw_of(
            "channels: {01: {role: 'SAILOR, CONSTABLE', by: Petra}}\nscenes: {s1: {live: SAILOR}, s2: {live: CONSTABLE}}\n"
        )
    ).show
    assert list_all_handovers(show) == ()


def test_a_swap_inside_a_scene_goes_by_the_moves():
    text = """
channels: {01: {shared: {SAILOR: Max, WIDOW: Ana}}}
scenes: {s1: {live: SAILOR WIDOW}}
moves:
  m1: {role: SAILOR, scene: s1, from: "0:05", to: "0:09"}
  m2: {role: WIDOW, scene: s1, from: "0:00", to: "0:02"}
"""
    assert handovers(text=text) == [("Ana", "Max", "s1", "s1", "", "", 180, False)]
