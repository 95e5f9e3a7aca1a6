"""Times of day and from curtain up are one arithmetic; hours add up over midnight; nothing says both at once."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.checks import check_show
from paperwork.model.facts import fingerprint_show
from paperwork.plan.day.batteries import plan_batteries
from paperwork.plan.day.bill import moments_of
from paperwork.plan.day.clockface import say_day_time, say_time, spans_days
from paperwork.plan.day.powered import Powered, powered_stretches
from paperwork.plan.handovers import list_all_handovers
from paperwork.sheets import SHEETS
from paperwork.sheets.times import time_words
from paperwork.text.clock import Clock, parse_day_time, parse_show_time
from paperwork.text.units import Doubt, format_clock
from tests.few import few_examples
from tests.sheet_texts import texts_of
from tests.strategies import read_plain

QUIET = settings(
    max_examples=few_examples(60), deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)
CURTAIN_S, M, H = 12 * 3600, 60, 3600


@st.composite
def bills(draw):
    """Sets of four roles over some days, in minutes from the first noon, and a part of the bill with times of its own."""
    sets, at = [], draw(st.integers(-60, -1))
    for _ in range(draw(st.integers(1, 7))):
        length = draw(st.integers(5, 120))
        sets.append((at, at + length, draw(st.sets(st.sampled_from("ABCD"), min_size=1))))
        at += draw(st.integers(121, 1500))
    part = draw(st.integers(0, 3000)), draw(st.integers(1, 300))
    return sets, (part[0], part[0] + part[1])


def write_bill(bill, manner, kind="set"):
    """The bill from curtain up at noon (`curtain`), by the clock (`clock`), or with dates (`dates`)."""

    def say(minutes):
        if manner == "curtain":
            return format_clock(minutes * M)
        seconds = CURTAIN_S + minutes * M
        days, rest = divmod(seconds, 24 * H)
        return f"2027-07-{10 + days:02d} {format_clock(rest)}" if manner == "dates" else format_clock(seconds)

    sets, part = bill
    plain = {
        "show": {"title": "X", "dates": "2027-07-10 to 2027-07-20"},
        "day": {"cells": "between", "half": "11:00", "margin": "1", "power-up": "10:00", "bows": say(sets[-1][1] + 10)},
        "radios": {"belt": {"hours": "6"}},
        "groups": {"own": {"kind": "bill", "from": say(part[0]), "until": say(part[1])}},
        "channels": {"1": {"role": ["A", "B"]}, "2": {"role": "C"}, "3": {"role": "D", "bill": "own"}, "4": {}},
        "roles": {role: {"by": f"Person {role}"} for role in "ABCD"},
        "scenes": {
            f"s{n}": {"kind": kind, "at": say(one), "until": say(two), "live": sorted(live)}
            for n, (one, two, live) in enumerate(sets)
        },
    }
    plain["day"] |= {"curtain": "12:00"} if manner == "curtain" else {"times": "clock"}
    return plain


def read_bill(bill, manner):
    """Times of more than 99 hours have to be dates."""
    return read_plain(write_bill(bill, manner))


@QUIET
@given(bills())
def test_by_the_clock_and_from_curtain_up_a_bill_is_one_plan(bill):
    if max(bill[0][-1][1] + 10, bill[1][1]) >= 87 * 60:
        return
    old, new, dated = (read_bill(bill, manner) for manner in ("curtain", "clock", "dates"))
    assert fingerprint_show(new) == fingerprint_show(dated) != fingerprint_show(old)
    for id in old.channels:
        assert Powered(old).list_stretches_of(old.channels[id]) == Powered(new).list_stretches_of(new.channels[id])
    assert plan_batteries(old) == plan_batteries(new)
    seconds = [[(one.channel, one.seconds, one.at_least) for one in list_all_handovers(show)] for show in (old, new)]
    assert seconds[0] == seconds[1]
    assert moments_of(old, ("own", "s1")) == moments_of(new, ("own", "s1"))


@QUIET
@given(bills())
def test_battery_hours_add_up_over_midnight_and_over_days(bill):
    """Against every minute of the days, one by one."""
    show = read_bill(bill, "dates")
    sets, part = bill
    spans = {
        "1": [(one, two) for one, two, live in sets if live & {"A", "B"}],
        "2": [(one, two) for one, two, live in sets if "C" in live],
        "3": [part, *((one, two) for one, two, live in sets if "D" in live)],
    }
    plans = {plan.channel: plan for plan in plan_batteries(show)}
    for id, own in spans.items():
        on = {minute for one, two in own for minute in range(one, two)}
        if not on:
            continue
        assert sum(run.on_s for run in plans[id].runs) == len(on) * M
        for run in plans[id].runs:
            from_, to = ((at_s - CURTAIN_S) / M for at_s in (run.change.at_s, run.until_s))
            assert run.on_s == sum(from_ <= minute < to for minute in on) * M


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("19:05", 19 * H + 5 * M),
        ("7:05 pm", 19 * H + 5 * M),
        ("25:30", 25 * H + 30 * M),
        ("2027-07-11 01:30", 25 * H + 30 * M),
        ("2027-07-12T00:00", 48 * H),
    ],
)
def test_a_time_of_day_is_read_with_or_without_its_date(text, seconds):
    clock = Clock(by_day=True, first_day="2027-07-10")
    assert parse_show_time(text, clock) == parse_day_time(text, clock) == seconds


@pytest.mark.parametrize("text", ["-0:20", "2027-07-09 10:00", "2027-13-11 10:00", "2027-07-11", "noon"])
def test_what_is_no_time_of_the_show_is_doubted(text):
    with pytest.raises(Doubt):
        parse_show_time(text, Clock(by_day=True, first_day="2027-07-10"))


def test_a_date_needs_a_first_day():
    with pytest.raises(Doubt, match="which day is the first"):
        parse_show_time("2027-07-11 10:00", Clock(by_day=True))


@given(st.integers(-99 * H, 99 * H))
def test_a_time_from_curtain_up_is_read_as_it_is_printed(seconds):
    assert parse_show_time(format_clock(seconds), Clock()) == seconds


def test_a_time_without_a_date_is_on_the_day_of_its_row_or_its_scene():
    show = read_plain(
        {
            "show": {"title": "X", "dates": "2027-07-10 to 2027-07-11"},
            "day": {"times": "clock"},
            "channels": {"1": {"role": "A"}},
            "scenes": {"s1": {"at": "2027-07-11 10:00", "until": "11:00", "live": "A"}},
            "moves": {"m1": {"role": "A", "scene": "s1", "from": "10:20", "to": "25:00"}},
        }
    )
    (scene,), move = show.scenes, show.moves["m1"]
    assert (scene.at_s, scene.until_s) == (34 * H, 35 * H)
    assert (move.from_s, move.to_s) == (34 * H + 20 * M, 49 * H)


def test_each_day_has_a_power_up_and_ends_with_its_last_scene():
    bill = ([(0, 60, {"A"}), (700, 800, {"B"}), (1400, 1500, {"A"})], (0, 60))
    plain = write_bill(bill, "dates")
    plain["day"]["power-up"] = "10:00, 2027-07-11 09:00"
    show = read_plain(plain)
    assert powered_stretches(show) == ((10 * H, 12 * H + 800 * M), (33 * H, 12 * H + 1510 * M))


def test_a_time_is_said_with_its_day_only_where_there_are_several():
    one = read_bill(([(0, 60, {"A"}), (700, 760, {"A"})], (0, 60)), "clock")
    assert not spans_days(one) and say_time(one, 25 * H) == "01:00"
    two = read_bill(([(0, 60, {"A"}), (1400, 1500, {"A"})], (0, 60)), "clock")
    assert spans_days(two) and say_time(two, 34 * H) == "Sun 10:00" and say_day_time(two, 25 * H) == "Sun 01:00"
    plain = write_bill(([(0, 60, {"A"}), (1400, 1500, {"A"})], (0, 60)), "clock")
    del plain["show"]["dates"]
    assert say_time(read_plain(plain), 34 * H) == "2. 10:00"


@pytest.mark.parametrize("manner", ["curtain", "clock"])
def test_no_paper_says_both_manners_of_time(manner):
    """By the clock no paper speaks of a curtain or of a start from which times count, nor is anything before 0."""
    show = read_bill(([(-30, 60, {"A"}), (60, 120, {"A", "B"}), (700, 800, {"B", "C"})], (0, 60)), manner)
    assert not [finding for finding in check_show(show) if finding.code in ("time-backwards", "scenes-by-clock")]
    said = [text for paper in SHEETS for sheet in paper.make(show) for text in texts_of(sheet)]
    joined = "\n".join(said)
    assert ("times from the start" in joined) == (manner == "curtain")
    assert any("\N{MINUS SIGN}0:30" in text for text in said) == (manner == "curtain")
    assert manner == "curtain" or not any("curtain" in text.lower() for text in said)


def test_a_time_before_curtain_up_has_a_minus_sign():
    show = read_plain({"channels": {"1": {"role": "A", "mhz": "486.2"}}})
    assert [time_words(show, at_s) for at_s in (-1200, 300, None)] == ["\N{MINUS SIGN}0:20", "0:05", ""]
