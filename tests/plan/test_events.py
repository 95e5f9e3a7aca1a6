"""Events: one number for one change on every paper, by when it must be done."""

from paperwork.build import build_show
from paperwork.plan.bodies.events import QUICK_S, list_events
from paperwork.plan.evening import PackChange
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import LookChange
from tests.sheets.reading import example
from tests.shows_text import raw_of

TEXT = """
day: {interval: "0:20"}
channels:
  01: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}}
  02: {role: MAID, by: Ana Cole}
  03: {shared: {COOK: Ben Arlo, JUDGE: Cy Dale}}
scenes:
  s1: {at: "0:00", live: SAILOR MAID COOK}
  s2: {at: "0:25", live: WIDOW JUDGE}
moves:
  m1: {role: SAILOR, scene: s1, exit: SL, to: "0:10"}
  m2: {role: WIDOW, scene: s2, enter: SL, from: "0:31"}
  m3: {role: JUDGE, scene: s2, enter: SR, from: "0:27"}
looks:
  l1: {by: Ana Cole, wears: apron}
  l2: {by: Ana Cole, scene: s2, wears: veil}
"""


def told(text: str):
    return list_events(build_show(raw_of(text)).show)


def test_events_are_numbered_by_when_they_must_be_done():
    """The judge enters at 0:27, the widow at 0:31: the pack that is wanted first comes first, whoever hands it on."""
    events = told(TEXT)
    assert [event.number for event in events] == [1, 2, 3]
    assert [type(event.change) for event in events] == [Handover, LookChange, Handover]
    assert [event.change.on_s for event in events] == [27 * 60, 31 * 60, 31 * 60]


def test_a_body_that_is_given_a_pack_and_wears_another_makes_one_event_and_sheds_the_other():
    events = told(TEXT)
    assert not any(isinstance(event.change, PackChange) for event in events)
    assert [event.sheds for event in events] == ["", "", "02"]


def test_a_body_that_only_changes_its_own_pack_is_an_event():
    (event,) = told(
        "channels: {01: {role: A, by: Max Ried}, 02: {role: B, by: Max Ried}}\nscenes: {s1: {live: A}, s2: {live: B}}\n"
    )
    assert isinstance(event.change, PackChange) and event.number == 1


def test_an_interval_between_exit_and_entrance_is_told():
    """The interval at 0:20 lies after the sailor's exit at 0:10; one at 0:05 lies before it."""
    assert [event.in_interval for event in told(TEXT)] == [True, True, True]
    early = told(TEXT.replace('"0:20"', '"0:05"').replace("m1:", "m0: {role: COOK, scene: s1, to: '0:15'}\n  m1:"))
    assert next(event.in_interval for event in early) is False


def test_less_than_five_minutes_is_quick():
    near = TEXT.replace('to: "0:10"', 'to: "0:26:01"')
    far = TEXT.replace('to: "0:10"', 'to: "0:26"')
    assert told(near)[2].change.seconds == QUICK_S - 1
    assert [told(text)[2].is_quick for text in (near, far)] == [True, False]


def test_the_example_has_seven_events_of_which_one_is_quick():
    """Read off its moves: 1.7 oilskin, four swaps before 2.3 and 2.6, and the pack that is back within 4:30 before 2.7."""
    events = list_events(example())
    order = {scene.id: index for index, scene in enumerate(example().scenes)}
    assert [order[event.change.before.id] for event in events] == sorted(
        order[event.change.before.id] for event in events
    )
    assert [event.number for event in events if event.is_quick] == [len(events)]
