"""A frequency shared by two acts never overlaps in time or zone: over days and nights, against every minute."""

from itertools import combinations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.checks import check_show
from paperwork.coordinate.assign import assign_show
from tests.few import few_examples
from tests.strategies import clock, read_plain

QUIET = settings(
    max_examples=few_examples(50), deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)
MHZ = ("486.200", "524.600")
DAY_M = 24 * 60

acts = st.lists(
    st.tuples(
        st.integers(0, 3 * DAY_M),
        st.integers(1, 600),
        st.sampled_from(("", "main", "tent")),
        st.sampled_from(MHZ),
        st.booleans(),
    ),
    min_size=2,
    max_size=5,
)


def show_of(acts, *, is_tuned=True):
    """Acts by the clock, each with a channel of its own; some have a set in place of times in their row."""

    def say(minutes):
        days, rest = divmod(minutes, DAY_M)
        return f"2027-07-{10 + days:02d} {clock(rest * 60)}"

    plain = {
        "show": {"title": "X", "dates": "2027-07-10 to 2027-07-16"},
        "day": {"times": "clock"},
        "radios": {"belt": {"tunes": "486-486.400"}},
        "groups": {"main": {"kind": "zone"}, "tent": {"kind": "zone"}},
        "channels": {},
        "scenes": {},
    }
    for number, (from_, length, zone, mhz, is_set) in enumerate(acts):
        times = say(from_), say(from_ + length)
        name = f"act {'abcde'[number]}"
        plain["groups"][name] = {"kind": "bill"} | ({} if is_set else dict(zip(("from", "until"), times, strict=True)))
        plain["channels"][f"C{number}"] = {"role": f"R{number}", "bill": name, "zone": zone} | (
            {"mhz": mhz} if is_tuned else {}
        )
        if is_set:
            plain["scenes"][name] = {"kind": "set", "at": times[0], "until": times[1], "live": [f"R{number}"]}
    return read_plain(plain)


def do_meet(one, two):
    """Whether some minute and some place has both."""
    minutes = set(range(one[0], one[0] + one[1])) & set(range(two[0], two[0] + two[1]))
    return bool(minutes) and (one[2] == two[2] or not one[2] or not two[2])


@QUIET
@given(acts)
def test_two_acts_on_one_frequency_are_a_finding_if_and_only_if_they_meet(acts):
    found = [finding for finding in check_show(show_of(acts)) if finding.code == "carrier-doubled"]
    clashing = {
        f"C{number}"
        for (one, mine), (two, other) in combinations(enumerate(acts), 2)
        if mine[3] == other[3] and do_meet(mine, other)
        for number in (one, two)
    }
    assert {
        subject.id for finding in found for subject in finding.subjects if subject.section == "channels"
    } == clashing


@settings(QUIET, max_examples=few_examples(12))
@given(acts)
def test_assigned_acts_share_a_frequency_only_if_they_never_meet(acts):
    show = show_of(acts, is_tuned=False)
    given_hz = assign_show(show, effort=20).placed
    for (one, mine), (two, other) in combinations(enumerate(acts), 2):
        hz = given_hz.get(f"C{one}")
        assert hz is None or hz != given_hz.get(f"C{two}") or not do_meet(mine, other)
