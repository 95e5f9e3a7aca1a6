"""Spells: who has which pack from when to when, against a replay of the show scene by scene."""

from hypothesis import given, settings

from paperwork.build import build_show
from paperwork.plan.bodies.spells import list_spells
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
    assert not spells["09"].off and not spells["HH1"].off
