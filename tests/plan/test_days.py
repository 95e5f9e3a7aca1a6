"""Several days by the clock: nothing is handed on, kept or issued over a power-up."""

from dataclasses import replace

import yaml
from hypothesis import given
from hypothesis import strategies as some

from paperwork.build import build_show
from paperwork.model import Show
from paperwork.plan.bodies.events import list_events
from paperwork.plan.bodies.spells import list_spells
from paperwork.plan.covers import usual_evening
from paperwork.plan.evening import list_pack_changes
from paperwork.plan.handovers import list_all_handovers
from paperwork.plan.timeline import list_days
from paperwork.sheets.rounds import check_sheet
from paperwork.sheets.running import running_sheet
from paperwork.sheets.running.handhelds import list_issues
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of

ROLES = ("A", "B", "C", "D", "E")


@some.composite
def conferences(draw) -> Show:
    """Two days of sessions, with five roles of two or three bodies on two packs and a handheld."""
    scenes = {}
    for day in (0, 1):
        for number in range(draw(some.integers(1, 4))):
            at = f"{24 * day + 9 + number}:00"
            live = draw(some.lists(some.sampled_from(ROLES), min_size=1, unique=True))
            scenes[f"d{day}s{number}"] = {"kind": "segment", "at": at, "live": live}
    channels = {
        "1": {"shared": {}, "radio": "lav"},
        "2": {"shared": {}, "radio": "lav"},
        "3": {"shared": {}, "radio": "hand"},
    }
    for role in ROLES:
        channels[draw(some.sampled_from("123"))]["shared"][role] = draw(some.sampled_from(("Ann", "Ben", "Cy")))
    data = {
        "day": {"times": "clock", "power-up": ["8:00", "32:00"], "bows": ["17:00", "41:00"], "checks": ["8:15", "32:15"]},
        "radios": {"lav": {}, "hand": {"kind": "handheld"}},
        "channels": {id: one for id, one in channels.items() if one["shared"]},
        "scenes": scenes,
    }  # fmt: skip
    return build_show(raw_of(yaml.safe_dump(data, sort_keys=False))).show


def one_day(show: Show, number: int) -> Show:
    """The show with one of its days alone."""
    day = replace(
        show.day, power_up_s=show.day.power_up_s[number : number + 1], bows_s=show.day.bows_s[number : number + 1]
    )
    return replace(show, day=day, scenes=tuple(scene for scene in show.scenes if scene.id.startswith(f"d{number}")))


def lived(show: Show) -> list[tuple]:
    """Who hands on what, who wears what, who changes packs, and who gets a handheld, by the ids of scenes."""
    name = [scene.id for scene in show.scenes]
    handed = [
        (one.channel, one.from_role, one.to_role, one.after.id, one.before.id, one.seconds)
        for one in list_all_handovers(show)
    ]
    worn = [
        (one.channel.id, one.by, one.roles, tuple(name[at] for at in one.scenes), one.from_s, one.to_s)
        for one in list_spells(show)
    ]
    changed = [
        (one.by, one.from_channel, one.to_channel, one.before.id)
        for one in list_pack_changes(show, usual_evening(show))
    ]
    issued = [
        (one.spell.channel.id, one.spell.by, name[one.first], name[one.last], one.from_s, one.to_s)
        for one in list_issues(show)
    ]
    return [*handed, *worn, *changed, *issued]  # fmt: skip


@given(conferences())
def test_what_happens_on_two_days_is_what_happens_on_each(show):
    assert list_days(show) == tuple(int(scene.id[1]) + 1 for scene in show.scenes)
    assert sorted(map(repr, lived(show))) == sorted(map(repr, lived(one_day(show, 0)) + lived(one_day(show, 1))))


TWICE = """
day: {times: clock, power-up: "13:00, 17:30", checks: "13:15, 17:40", curtain: "14:30, 19:00", bows: "15:40, 20:30"}
radios: {belt: {}, hand: {kind: handheld}}
channels: {1: {shared: {READER A: Ann, READER B: Ben}, radio: belt}, 3: {role: SOLO, radio: hand}}
scenes:
  m: {kind: segment, at: "14:30", live: READER A SOLO}
  e: {kind: segment, at: "19:10", live: READER B SOLO}
"""


def test_two_services_have_a_check_sheet_each_with_what_is_on_in_it_and_no_swap():
    show = build_show(raw_of(TWICE)).show
    first, second = (list(texts_of(sheet)) for sheet in check_sheet.make_sheets(show))
    assert "14:30" in first and "19:10" in second and "19:10" not in first and "14:30" not in second
    assert not {"Swaps"} & {*first, *second}


def test_two_days_have_a_check_sheet_each_with_its_own_batteries():
    text = TWICE.replace('curtain: "14:30, 19:00", ', "").replace("17:30", "37:30").replace("17:40", "37:40")
    text = text.replace("20:30", "44:30").replace("19:10", "43:10").replace("belt: {}", "belt: {hours: 8}")
    first, second = (list(texts_of(sheet)) for sheet in check_sheet.make_sheets(build_show(raw_of(text)).show))
    assert "1. 13:00" in first and "2. 13:30" in second and "2. 13:30" not in first and "1. 13:00" not in second


def test_a_swap_has_one_number_on_the_check_sheet_of_its_day_and_on_the_swap_sheet():
    text = (
        TWICE.replace("READER A SOLO", "READER A").replace("READER B SOLO", "READER B").replace("curtain: ", "half: ")
    )
    text += """  m2: {kind: segment, at: "15:00", live: READER B}
  e2: {kind: segment, at: "19:30", live: READER A}
"""
    lines = text.splitlines(keepends=True)
    lines[-3], lines[-2] = lines[-2], lines[-3]
    show = build_show(raw_of("".join(lines))).show
    numbers = [event.number for event in list_events(show)]
    assert numbers == [1, 2]
    for number, sheet in zip(numbers, check_sheet.make_sheets(show), strict=True):
        listed = sheet.blocks[-1].groups[0].rows
        assert [row.cells[0][0].items[0].text for row in listed] == [str(number)]


def test_a_costume_for_the_next_day_is_no_change_and_one_within_a_day_is():
    text = TWICE + "looks: {l1: {by: Ann, wears: suit}, l2: {by: Ann, scene: e, wears: gown}}\n"
    show = build_show(raw_of(text.replace("READER B SOLO", "READER A SOLO"))).show
    assert list_events(show) == ()
    once = replace(show, day=replace(show.day, power_up_s=show.day.power_up_s[:1]))
    assert [event.change.before.id for event in list_events(once)] == ["e"]


def test_what_is_done_before_the_second_service_is_between_the_two():
    (sheet,) = running_sheet.make_sheets(build_show(raw_of(TWICE)).show)
    bars = [(group.title, [row.cells[0][0].items[0].text for row in group.rows]) for group in sheet.blocks[0].groups]
    assert bars == [
        ("Before the start", ["13:00", "13:15"]),
        ("m", ["14:30", "15:40"]),
        ("Before the start", ["17:30", "17:40"]),
        ("e", ["19:10", "20:30"]),
    ]
