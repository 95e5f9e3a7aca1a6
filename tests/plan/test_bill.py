"""Parts of the bill: two carriers meet if and only if some minute has a part of each, whatever the parts are called."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.checks.air.neighbours import _doubled
from paperwork.coordinate import gather_on_air
from paperwork.model import Channel, Group, Scene, Show
from paperwork.plan.day.bill import moments_of
from paperwork.radio.carrier import are_together
from tests.few import few_examples

PARTS = ("early", "noon", "late", "night", "encore")
TIMES = st.tuples(st.integers(0, 12), st.integers(1, 6)).map(lambda pair: (pair[0], pair[0] + pair[1]))
SOME = settings(max_examples=few_examples(300), deadline=None, derandomize=True)


def show_of(times: dict[str, list[tuple[int, int]]], bills: list[tuple[str, ...]], *, in_rows: bool) -> Show:
    """Channels on one frequency, each in its parts of the bill. A part has its times of its own row, or of its scenes."""
    channels = {f"{n:02d}": Channel(f"{n:02d}", hz=486_200_000, bill=bill) for n, bill in enumerate(bills)}
    if in_rows:
        groups = {
            part: Group(part, "bill", "", several[0][0] * 60, several[0][1] * 60) for part, several in times.items()
        }
        return Show(groups=groups, channels=channels)
    scenes = tuple(
        Scene(f"{part} {n}", act=part, at_s=at * 60, until_s=until * 60)
        for part, several in times.items()
        for n, (at, until) in enumerate(several)
    )
    return Show(scenes=scenes, channels=channels)


def minutes_of(times: dict[str, list[tuple[int, int]]], bill: tuple[str, ...]) -> set[int]:
    return {minute for part in bill for at, until in times[part] for minute in range(at, until)}


@SOME
@given(
    times=st.fixed_dictionaries({part: st.lists(TIMES, min_size=1, max_size=3) for part in PARTS}),
    bills=st.lists(
        st.lists(st.sampled_from(PARTS), min_size=1, max_size=3, unique=True).map(tuple), min_size=2, max_size=5
    ),
    in_rows=st.booleans(),
)
def test_carriers_meet_if_and_only_if_some_minute_has_all_of_them(times, bills, in_rows):
    times = {part: several[:1] for part, several in times.items()} if in_rows else times
    carriers = gather_on_air(show_of(times, bills, in_rows=in_rows)).carriers
    for one, two in combinations(range(len(bills)), 2):
        expected = bool(minutes_of(times, bills[one]) & minutes_of(times, bills[two]))
        assert are_together((carriers[one], carriers[two])) == expected
    if in_rows and len(bills) > 2 and all(len(bill) == 1 for bill in bills):
        assert are_together(carriers) == bool(set.intersection(*(minutes_of(times, bill) for bill in bills)))


def test_parts_without_times_meet_themselves_alone():
    show = Show(scenes=(Scene("solo", at_s=None), Scene("duo", act="late", at_s=60)))
    assert not moments_of(show, ("solo",)) & moments_of(show, ("late",))
    assert moments_of(show, ("Late",)) & moments_of(show, ("late", "solo"))


def test_a_part_and_a_scene_in_it_meet_whether_or_not_their_times_are_known():
    show = Show(scenes=(Scene("solo", act="late"), Scene("duo", act="late")))
    assert moments_of(show, ("solo",)) & moments_of(show, ("late",))
    assert not moments_of(show, ("solo",)) & moments_of(show, ("duo",))


def test_a_set_ends_where_the_next_begins_and_the_last_one_nowhere():
    show = Show(scenes=(Scene("one", at_s=0), Scene("two", at_s=600)))
    assert not moments_of(show, ("one",)) & moments_of(show, ("two",))
    declared = {"whole day": Group("whole day", "bill", "", 0, 3600)}
    day = Show(scenes=show.scenes, groups=declared)
    assert moments_of(day, ("one",)) & moments_of(day, ("whole day",))
    assert not moments_of(day, ("two",)) & moments_of(day, ("whole day",))


@SOME
@given(
    zones=st.lists(st.sampled_from(("", "A", "B", "C")), min_size=2, max_size=7),
    hz=st.lists(st.booleans(), min_size=7, max_size=7),
)
def test_each_carrier_that_shares_its_frequency_is_found_and_connected_with_all_that_it_meets(zones, hz):
    channels = {
        f"{n:02d}": Channel(f"{n:02d}", hz=486_200_000 + 1_000_000 * hz[n], zone=zone) for n, zone in enumerate(zones)
    }
    on_air = gather_on_air(Show(channels=channels))
    meeting = {
        (one.id, two.id)
        for one, two in combinations(on_air.carriers, 2)
        if one.hz == two.hz and (not one.zone or not two.zone or one.zone == two.zone)
    }
    found = _doubled(on_air)
    assert set(found) <= meeting and len(set(found)) == len(found)
    assert {name for pair in found for name in pair} == {name for pair in meeting for name in pair}
    cluster = {carrier.id: {carrier.id} for carrier in on_air.carriers}
    for one, two in found:
        joined = cluster[one] | cluster[two]
        cluster |= dict.fromkeys(joined, joined)
    assert all(cluster[one] is cluster[two] for one, two in meeting)
