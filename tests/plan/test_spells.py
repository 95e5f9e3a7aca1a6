"""Spells: who has which pack from when to when, against a replay of the show scene by scene."""

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.plan.bodies.spells import list_spells
from paperwork.plan.covers import usual_evening
from paperwork.plan.evening import list_pack_changes
from paperwork.plan.handovers import list_all_handovers
from tests.few import few_examples
from tests.shows_text import raw_of
from tests.strategies import shows

SHOW = """
channels:
  01: {shared: {SAILOR: Max, WIDOW: Ana}}
  02: {role: VERA, by: Mara}
  03: {role: GHOST}
scenes:
  s1: {live: SAILOR VERA}
  s2: {live: VERA GHOST}
  s3: {live: SAILOR}
  s4: {live: WIDOW VERA}
  s5: {live: SAILOR}
"""


def test_a_spell_lasts_from_putting_on_to_giving_away():
    found = [
        (one.channel.id, one.by, one.scenes, one.gives.to_by if one.gives else "")
        for one in list_spells(build_show(raw_of(SHOW)).show)
    ]
    assert found == [
        ("01", "Max", (0, 2), "Ana"),
        ("01", "Ana", (3,), "Max"),
        ("01", "Max", (4,), ""),
        ("02", "Mara", (0, 1, 3), ""),
        ("03", "GHOST", (1,), ""),
    ]


@settings(deadline=None, max_examples=few_examples(60))
@given(shows)
def test_spells_replay_the_show(show):
    spells = list_spells(show)
    found = {(one.channel.id, index): one.by for one in spells for index in one.scenes}
    replay = {
        (channel.id, index): show.roles[role].by
        for channel in show.channels.values()
        for index, scene in enumerate(show.scenes)
        for role in channel.roles
        if role in scene.live
    }
    assert found == replay
    assert sum(one.gives is not None for one in spells) == len(list_all_handovers(show))


def test_a_pack_comes_off_where_a_move_gives_another_and_stays_on_under_a_handheld():
    show = build_show(
        raw_of(
            "radios: {belt: {}, held: {kind: handheld}}\n"
            "channels: {01: {role: V, by: Ana}, 09: {role: T, by: Max}, HH1: {radio: held}}\n"
            "scenes: {s1: {live: V}, s2: {live: V}, s3: {live: V}, s4: {live: V}, s5: {live: V}}\n"
            "moves: {m1: {role: V, scene: s2, channel: 09}, m2: {role: V, scene: s4, channel: HH1}}\n"
        )
    ).show
    spells = {spell.channel.id: spell for spell in list_spells(show)}
    assert spells["01"].scenes == (0, 2, 4) and spells["01"].off == {1}
    assert spells["09"].off == {2, 4} and not spells["HH1"].off


@settings(deadline=None, max_examples=few_examples(100))
@given(st.lists(st.sampled_from(("A", "B", "C", "", "D", "A D", "B D")), min_size=2, max_size=8))
def test_who_changes_packs_has_the_first_one_off(live):
    """Ana plays A, B and C, each on a pack of its own."""
    text = "channels: {1: {role: A, by: Ana}, 2: {role: B, by: Ana}, 3: {role: C, by: Ana}, 4: {role: D, by: Bo}}\n"
    scenes = ", ".join(f"s{number}: {{live: {roles or '[]'}}}" for number, roles in enumerate(live))
    show = build_show(raw_of(f"{text}scenes: {{{scenes}}}\n")).show
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    spells = list_spells(show)
    for change in list_pack_changes(show, usual_evening(show)):
        own = [one for one in spells if (one.channel.id, one.by) == (change.from_channel, change.by)]
        at = place[change.before.id]
        assert any(at in one.off or at in one.scenes for one in own), change


def test_the_pack_of_one_role_comes_off_for_that_of_another_and_a_second_pack_stays_with_its_first():
    show = build_show(
        raw_of(
            "channels: {1: {role: ENS, by: Ana}, 2: {role: ENS, doubles: 1}, 3: {role: WIDOW, by: Ana}}\n"
            "scenes: {s1: {live: ENS}, s2: {live: WIDOW}, s3: {live: ENS}}\n"
        )
    ).show
    spells = {spell.channel.id: spell for spell in list_spells(show)}
    assert {id: set(spell.off) for id, spell in spells.items()} == {"1": {1}, "2": {1}, "3": {2}}
