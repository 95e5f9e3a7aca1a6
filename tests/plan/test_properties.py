"""What holds for every valid show: handovers rebuild the scenes, nobody is in two places, no cell runs too long."""

from collections import Counter
from itertools import combinations, pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.checks import check_show
from paperwork.plan.covers import covers_of, plan_tonight
from paperwork.plan.day.batteries import fits, list_change_points, plan_batteries
from paperwork.plan.day.powered import powered_stretches
from paperwork.plan.evening import list_handovers_tonight, list_wearings_tonight
from paperwork.plan.handovers import list_all_handovers
from paperwork.plan.patch import list_inputs
from tests.few import few_examples
from tests.strategies import days, read_plain, shows

QUIET = settings(
    max_examples=few_examples(120), deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)


@QUIET
@given(shows)
def test_a_valid_show_draws_no_finding(show):
    """But that a role may be in no scene, and a cover on in another role: both are drawn, and neither is impossible."""
    left = {"role-in-no-scene", "cover-is-on"}
    assert [finding.text for finding in check_show(show) if finding.code not in left] == []


@QUIET
@given(shows)
def test_the_handovers_rebuild_exactly_the_scenes(show):
    """From who has the pack first, and the handovers alone, who wears it in each scene is told back."""
    handovers = list_all_handovers(show)
    for channel in show.channels.values():
        worn = [
            (scene.id, show.roles[role].by) for scene in show.scenes for role in channel.roles if role in scene.live
        ]
        mine = {one.before.id: one for one in handovers if one.channel == channel.id}
        rebuilt, body = [], worn[0][1] if worn else ""
        for scene, _ in worn:
            if scene in mine:
                assert mine[scene].from_by == body and mine[scene].after.id == rebuilt[-1][0]
                body = mine[scene].to_by
            rebuilt.append((scene, body))
        assert rebuilt == worn
        assert len(mine) == sum(one[1] != two[1] for one, two in pairwise(worn))


@QUIET
@given(shows, st.data())
def test_nobody_is_ever_in_two_places_nor_on_when_off(show, data):
    names = sorted({role.by for role in show.roles.values()} | {cover.by for cover in show.covers})
    off = data.draw(st.lists(st.sampled_from(names), unique=True, max_size=4))
    tonight = plan_tonight(show, off)
    lost = {(one.role, index) for one in tonight.uncovered for index in one.scenes}
    for index, scene in enumerate(show.scenes):
        on = [tonight.on(role, index) for role in scene.live]
        assert not set(off) & set(on)
        there = [name for name in on if name]
        assert len(there) == len(set(there))
        for role in scene.live:
            assert bool(tonight.on(role, index)) != ((role, index) in lost)
    for worn in list_wearings_tonight(show, tonight).values():
        assert len({wearing.stint.index for wearing in worn}) == len(worn)


@QUIET
@given(shows, st.data())
def test_a_role_is_never_split_while_a_cover_of_all_of_it_sits_out(show, data):
    names = sorted({role.by for role in show.roles.values()} | {cover.by for cover in show.covers})
    off = data.draw(st.lists(st.sampled_from(names), unique=True, max_size=4))
    tonight = plan_tonight(show, off)
    on = {name for index, scene in enumerate(show.scenes) for role in scene.live if (name := tonight.on(role, index))}
    parts = Counter(one.role for one in (*tonight.changes, *tonight.uncovered))
    for role, count in parts.items():
        whole = [one.by for one in covers_of(show, role) if not one.scenes and one.by not in off]
        assert count == 1 or set(whole) <= on


@QUIET
@given(shows)
def test_an_evening_on_which_nobody_is_off_is_the_show_itself(show):
    tonight = plan_tonight(show, ())
    assert not tonight.changes and not tonight.uncovered
    assert list_handovers_tonight(show, tonight) == list_all_handovers(show)


@QUIET
@given(shows)
def test_the_desk_list_has_every_output_once(show):
    outputs = [(rack.id, one.kind, one.copy, one.slot) for rack in show.racks.values() for one in rack.outputs]
    assert sorted((one.rack, one.kind, one.copy, one.slot) for one in list_inputs(show)) == sorted(outputs)


@QUIET
@given(days())
def test_no_cell_runs_past_its_hours_unless_no_change_point_could_help(plain):
    show = read_plain(plain)
    (plan,) = plan_batteries(show)
    stretches = powered_stretches(show)
    assert sum(run.on_s for run in plan.runs) == sum(stretch.to_s - stretch.from_s for stretch in stretches)
    points = [point.at_s for point in list_change_points(show)]
    for run in plan.runs:
        if not fits(run.on_s, plan.hours_s, plan.margin_hundredths):
            assert not any(run.change.at_s < at_s < run.until_s and _is_on(stretches, at_s) for at_s in points)


@QUIET
@given(days())
def test_no_plan_with_fewer_changes_would_do(plain):
    """Against every choice of change points, power-ups always among them."""
    show = read_plain(plain)
    (plan,) = plan_batteries(show)
    if plan.tight:
        return
    points = list_change_points(show)
    fixed = [point.at_s for point in points if point.point == "power-up"]
    free = [point.at_s for point in points if point.point != "power-up"]
    for count in range(len(plan.runs) - len(fixed)):
        for chosen in combinations(free, count):
            assert not all(
                fits(seconds, plan.hours_s, plan.margin_hundredths)
                for seconds in _run_times(show, sorted([*fixed, *chosen]))
            )


def _is_on(stretches, at_s: int) -> bool:
    return any(stretch.from_s < at_s < stretch.to_s for stretch in stretches)


def _run_times(show, changes: list[int]) -> list[int]:
    stretches = powered_stretches(show)
    ends = [*changes[1:], stretches[-1].to_s]
    return [
        sum(max(0, min(end, stretch.to_s) - max(start, stretch.from_s)) for stretch in stretches)
        for start, end in zip(changes, ends, strict=True)
    ]
