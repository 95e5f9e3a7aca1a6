"""Spells: who has which pack from when to when, against a replay of the show scene by scene."""

from hypothesis import given, settings

from paperwork.build import build_show
from paperwork.plan.handovers import list_all_handovers
from paperwork.plan.spells import list_spells
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
    told = [
        (one.channel.id, one.by, one.scenes, one.takes is not None, one.gives is not None)
        for one in list_spells(build_show(raw_of(SHOW)).show)
    ]
    assert told == [
        ("01", "Max", (0, 2), False, True),
        ("01", "Ana", (3,), True, True),
        ("01", "Max", (4,), True, False),
        ("02", "Mara", (0, 1, 3), False, False),
        ("03", "GHOST", (1,), False, False),
    ]


def test_the_two_ends_of_a_handover_are_one():
    spells = [one for one in list_spells(build_show(raw_of(SHOW)).show) if one.channel.id == "01"]
    assert spells[0].gives == spells[1].takes and spells[1].gives == spells[2].takes
    assert (spells[0].gives.from_by, spells[0].gives.to_by) == ("Max", "Ana")


@settings(deadline=None, max_examples=60)
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
