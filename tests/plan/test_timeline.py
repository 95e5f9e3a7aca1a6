"""The axis of the day: when scenes end, when packs are on, and what is not stated stays open."""

import pytest

from paperwork.build import build_show
from paperwork.plan.day.powered import Powered, list_ends, powered_stretches
from paperwork.plan.handovers import list_handovers
from paperwork.plan.looks import list_look_changes, look_at, looks_of, seen_from
from paperwork.plan.timeline import are_apart, first_by_clock, list_bows, list_stints, scene_times, scenes_by_role
from tests.shows_text import raw_of

H, M = 3600, 60


def show_of(text):
    return build_show(raw_of(text)).show


DAY = 'day: {power-up: "18:30", curtain: "19:30", bows: "2:30", interval: "1:00"}\n'
SCENES = """
roles: {VERA: {by: Ana}, TOM: {by: Max}}
channels: {01: {role: VERA, mhz: 486.200}}
scenes:
  s1: {at: "0:00", live: VERA}
  s2: {at: "0:30", live: VERA TOM}
  s3: {at: "1:15", until: "1:40", live: TOM}
  s4: {live: VERA}
  s5: {at: "2:00", live: TOM}
"""


def test_a_scene_ends_at_its_own_end_an_interval_the_next_scene_or_the_bows():
    assert scene_times(show_of(DAY + SCENES)) == (
        (0, 30 * M),
        (30 * M, H),
        (75 * M, 100 * M),
        (None, None),
        (2 * H, 150 * M),
    )
    without = scene_times(show_of(SCENES))
    assert without[1] == (30 * M, 75 * M) and without[4] == (2 * H, None)


def test_a_scene_that_would_end_before_it_begins_has_no_end():
    show = show_of('scenes: {s1: {at: "1:00", live: V}, s2: {at: "0:30", live: V}}\nchannels: {01: {role: V}}\n')
    assert scene_times(show)[0] == (H, None)


def test_an_interval_at_the_beginning_or_the_end_of_a_scene_does_not_cut_it():
    text = 'day: {interval: "0:30, 1:00"}\nscenes: {s1: {at: "0:30", live: V}, s2: {at: "1:00", live: V}}\nchannels: {01: {role: V}}\n'
    assert scene_times(show_of(text))[0] == (30 * M, H)


def test_packs_are_on_from_power_up_to_the_bows():
    assert powered_stretches(show_of(DAY + SCENES)) == ((18 * H + 30 * M, 22 * H),)
    two = 'day: {power-up: "13:00%s", curtain: "14:00, 19:30", bows: "2:30"}\n' + SCENES
    assert powered_stretches(show_of(two % "")) == ((13 * H, 22 * H),)
    assert powered_stretches(show_of(two % ", 18:30")) == ((13 * H, 16 * H + 30 * M), (18 * H + 30 * M, 22 * H))


@pytest.mark.parametrize(
    "day",
    (
        '{curtain: "19:30", bows: "2:30"}',
        '{power-up: "18:30", bows: "2:30"}',
        '{power-up: "18:30", curtain: "19:30"}',
        '{power-up: "9:00, 13:00, 18:30", curtain: "14:00, 19:30", bows: "2:30"}',
    ),
)
def test_what_the_day_does_not_state_powers_nothing(day):
    show = show_of(f"day: {day}\n" + SCENES)
    assert powered_stretches(show) == () == Powered(show).list_stretches_of(show.channels["01"])


def test_the_bows_are_the_days_or_the_stated_end_of_the_last_scene():
    assert list_bows(show_of(DAY + SCENES)) == (150 * M,)
    assert list_bows(show_of(SCENES)) == ()
    assert list_bows(show_of(SCENES.replace('at: "2:00"', 'at: "2:00", until: "2:20"'))) == (140 * M,)


def test_each_show_of_a_day_has_its_own_bows_from_curtain_up_and_by_the_clock():
    ups = (13 * H, 16 * H + 45 * M), (18 * H + 30 * M, 21 * H + 40 * M)
    day = 'day: {power-up: "13:00, 18:30", curtain: "14:30, 19:30", %s}\nchannels: {01: {role: V}}\n'
    for bows in ('bows: "2:15, 2:10"', 'times: clock, bows: "16:45, 21:40"'):
        assert powered_stretches(show_of(day % bows)) == ups
        assert list_ends(show_of(day % bows)) == [16 * H + 45 * M, 21 * H + 40 * M]
        once = day.replace("13:00, 18:30", "13:00") % bows
        assert powered_stretches(show_of(once)) == ((13 * H, 21 * H + 40 * M),)
    unknown = show_of(day % 'times: clock, bows: "21:40"')
    assert list_ends(unknown) == [] and powered_stretches(unknown) == ()


def test_by_the_clock_the_last_scene_of_each_show_ends_at_its_bows():
    scenes = "scenes: {m1: {at: '14:30', live: V}, m2: {at: '15:30', live: V}, e1: {at: '19:30', live: V}, e2: {at: '20:30', live: V}}\n"
    show = show_of("day: {times: clock, bows: '16:45, 21:40'}\nchannels: {01: {role: V}}\n" + scenes)
    assert [to_s for _, to_s in scene_times(show)] == [
        15 * H + 30 * M,
        16 * H + 45 * M,
        20 * H + 30 * M,
        21 * H + 40 * M,
    ]


def test_scenes_in_times_of_day_are_recognised_from_eight_hours_on():
    text = 'day: {curtain: "%s"}\nscenes: {s1: {at: "%s", live: V}}\nchannels: {01: {role: V}}\n'
    assert first_by_clock(show_of(text % ("7:00", "8:00"))).id == "s1"
    assert first_by_clock(show_of(text % ("7:00", "7:59"))) is None
    assert first_by_clock(show_of(text % ("19:30", "19:29"))) is None
    assert first_by_clock(show_of(text % ("19:30", "19:30"))).id == "s1"


BILL = """
day: {power-up: "18:00", curtain: "19:00", bows: "3:00"}
scenes:
  one: {kind: set, at: "0:00", until: "0:40", live: A}
  two: {kind: set, at: "0:40", until: "1:20", live: A B}
  three: {kind: set, at: "2:00", until: "2:40", live: A}
channels:
  01: {role: A}
  02: {role: B}
  03: {role: C}
  04: {spare: yes}
  05: {role: B, exclusive: g}
  06: {role: A, exclusive: g}
"""


def test_on_a_bill_a_pack_is_on_in_its_sets_and_one_of_a_group_from_its_first_to_its_last():
    show = show_of(BILL)
    on = {id: Powered(show).list_stretches_of(channel) for id, channel in show.channels.items()}
    assert on["01"] == ((19 * H, 20 * H + 20 * M), (21 * H, 21 * H + 40 * M))
    assert on["02"] == ((19 * H + 40 * M, 20 * H + 20 * M),) == on["05"]
    assert on["06"] == ((19 * H, 21 * H + 40 * M),)
    assert on["03"] == ((18 * H, 22 * H),) and on["04"] == ()
    unknown = show_of(BILL.replace(', until: "2:40"', "").replace('bows: "3:00"', ""))
    assert Powered(unknown).list_stretches_of(show.channels["01"]) == ()


def test_where_a_set_has_no_time_its_channels_count_as_on_all_day():
    show = show_of(BILL.replace('at: "2:00", until: "2:40", ', ""))
    assert Powered(show).list_stretches_of(show.channels["01"]) == powered_stretches(show) != ()


MOVES = """
channels: {01: {shared: {A: Ana, B: Max}}}
scenes: {s1: {at: "0:00", live: A}, s2: {at: "0:10", live: B}, s3: {at: "0:20", live: A B}}
moves:
  m1: {role: A, scene: s1, to: "0:08", exit: SL}
  m2: {role: B, scene: s2, from: "%s", enter: SR}
"""


@pytest.mark.parametrize(
    ("enters", "seconds", "crosses"), (("0:10", 120, True), ("0:09:01", 61, True), ("0:08", 0, True))
)
def test_a_swap_has_the_time_between_two_stated_moves(enters, seconds, crosses):
    show = show_of(MOVES % enters)
    first, second = list_handovers(show, show.channels["01"])[:2]
    assert (first.seconds, first.at_least, first.crosses) == (seconds, False, crosses)
    assert (first.exit, first.enter, first.off_s, first.on_s) == ("SL", "SR", 480, first.off_s + seconds)
    assert (second.seconds, second.at_least, second.crosses) == (None, False, False)


def test_between_a_stated_exit_and_a_later_scene_there_is_at_least_that_time():
    text = MOVES.replace('  m2: {role: B, scene: s2, from: "%s", enter: SR}\n', "").replace('to: "0:08"', 'to: "%s"')
    for leaves, wanted in (("0:09:59", (1, True)), ("0:10", (None, False))):
        show = show_of(text % leaves)
        first = list_handovers(show, show.channels["01"])[0]
        assert (first.seconds, first.at_least) == wanted


def test_two_on_stage_in_one_scene_are_apart_only_where_moves_say_so():
    show = show_of(
        MOVES % "0:10" + '  m3: {role: A, scene: s3, to: "0:25"}\n  m4: {role: B, scene: s3, from: "0:25"}\n'
    )
    stints = list_stints(show)
    a, b = stints["A"][-1], stints["B"][-1]
    assert are_apart(a, b) and are_apart(b, a) and not are_apart(a, stints["B"][0])
    assert a.stated_to and not a.stated_from and not a.timed
    assert scenes_by_role(show) == {"A": {0, 2}, "B": {1, 2}}
    assert list(list_stints(show, ["B"])) == ["B"]
    (plain,) = list_stints(show_of(LOOKS))["B"]
    assert not plain.stated_from and not plain.stated_to and not plain.enter and not plain.exit


LOOKS = """
roles: {A: {by: Ana}, B: {by: Ana}}
channels: {01: {role: 'A, B'}}
scenes:
  s1: {at: "0:00", until: "0:05", live: A}
  s2: {at: "0:10", until: "0:15"}
  s3: {at: "0:20", until: "0:25", live: B}
looks:
  coat: {by: Ana}
  gown: {by: Ana, scene: s3}
  hat: {by: Ana, scene: s2}
"""


def test_looks_are_in_the_order_of_the_show_and_first_seen_where_their_performer_is_live():
    show = show_of(LOOKS)
    assert [look.id for look in looks_of(show, "Ana")] == ["coat", "hat", "gown"]
    assert [look_at(show, "Ana", index).id for index in range(3)] == ["coat", "hat", "gown"]
    assert look_at(show, "Max", 0) is None
    assert [seen_from(show, look) and seen_from(show, look).id for look in looks_of(show, "Ana")] == [None, "s3", "s3"]
    early = show_of(LOOKS.replace("coat: {by: Ana}", "coat: {by: Ana, scene: s1}"))
    assert seen_from(early, early.looks["coat"]).id == "s1"


def test_a_change_of_look_lies_between_two_stints():
    change = list_look_changes(show_of(LOOKS.replace("  hat: {by: Ana, scene: s2}\n", "")))[0]
    assert (change.old.id, change.new.id, change.after.id, change.before.id) == ("coat", "gown", "s1", "s3")
    assert (change.seconds, change.at_least) == (15 * M, True)
    assert (
        list_look_changes(show_of(LOOKS.replace("coat: {by: Ana}", "coat: {by: Ana, scene: s1}")))[0].old.id == "coat"
    )


def test_the_first_look_is_a_change_only_after_a_scene_without_it():
    only = LOOKS[: LOOKS.index("  coat")] + "  %s: {by: Ana, scene: %s}\n"
    assert list_look_changes(show_of(only % ("coat", "s1"))) == ()
    (change,) = list_look_changes(show_of(only % ("gown", "s3")))
    assert (change.old, change.new.id) == (None, "gown")
