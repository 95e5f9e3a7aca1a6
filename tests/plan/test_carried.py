"""Who wears or holds what: role x scene x channel, against a table that is drawn first and never asks the plan."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.model import Cover
from paperwork.plan.bodies.carried import list_carried, list_given, scenes_on
from paperwork.plan.bodies.spells import list_spells
from paperwork.plan.covers import plan_tonight, usual_evening
from paperwork.plan.evening import list_handovers_tonight, list_pack_changes, list_wearings_tonight
from paperwork.plan.handovers import list_all_handovers
from paperwork.sheets.rack import who_is_live
from tests.few import few_examples
from tests.strategies import read_plain

QUIET = settings(
    max_examples=few_examples(60), deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)

ROLES = ("ANNA", "BEN", "CORA", "DAN")
CHANNELS = ("01", "02", "03", "HH1")


@st.composite
def tables(draw):
    """Per scene and live role the packs it has one after the other; each role's own channel. "": what no row says."""
    own = {role: draw(st.sampled_from(("", *CHANNELS))) for role in ROLES}
    beats = st.lists(st.sampled_from(("", *CHANNELS)), min_size=0, max_size=3).map(lambda one: one if any(one) else [])
    scenes = draw(st.lists(st.dictionaries(st.sampled_from(ROLES), beats), min_size=1, max_size=6))
    return own, [dict(sorted(scene.items(), key=lambda one: draw(st.integers(0, 9)))) for scene in scenes]


def write_show(table):
    """The table as a show file says it. Rows of scenes come in any order of roles, those of one role in its own."""
    own, scenes = table
    channels = {id: {"role": [role for role in ROLES if own[role] == id]} for id in CHANNELS}
    channels = {id: {} if not one["role"] else one for id, one in channels.items()}
    channels["HH1"]["radio"] = "held"
    moves = {}
    for number, scene in enumerate(scenes):
        for role, beats in scene.items():
            for given_ in beats:
                row = {"role": role, "scene": f"s{number}"}
                moves[f"m{len(moves) + 1}"] = row | ({"channel": given_} if given_ else {})
    return read_plain(
        {
            "radios": {"belt": {}, "held": {"kind": "handheld"}},
            "roles": {role: {"by": f"Person {role}"} for role in ROLES},
            "channels": channels,
            "scenes": {f"s{number}": {"live": list(scene)} for number, scene in enumerate(scenes)},
            "moves": moves,
        }
    )


def share_turns(scene, channel):
    """The turns of roles that have one row in a scene, where rows give its pack to another role too: in their order."""
    rows = [
        (role, at, len(beats)) for role, beats in scene.items() for at, beat in enumerate(beats, 1) if beat == channel
    ]
    found, last = {}, 0
    for role, at, count in rows if len({role for role, _, _ in rows}) > 1 else ():
        last = last + 1 if count == 1 else at
        found |= {role: last} if count == 1 else {}
    return found


def follow(table, channel):
    """Every stretch in which somebody has a pack, by a walk through the table: scene, turn, role."""
    own, scenes = table
    order = [role for role in ROLES if own[role] == channel]
    for scene in scenes:
        for role, beats in scene.items():
            order += [role] if role not in order and channel in beats else []
    found = []
    for number, scene in enumerate(scenes):
        turns = share_turns(scene, channel)
        for turn in range(9):
            for role in filter(scene.__contains__, order):
                beats = scene[role] or [""]
                for at, beat in enumerate(beats):
                    own_turn = at + 1 if len(beats) > 1 else turns.get(role, 0)
                    found += [(number, turn, role)] if own_turn == turn and (beat or own[role]) == channel else []
    return found


@QUIET
@given(tables())
def test_who_carries_what_is_what_the_table_says(table):
    own, scenes = table
    show = write_show(table)
    carried = list_carried(show)
    for number, scene in enumerate(scenes):
        for role, beats in scene.items():
            wanted = dict.fromkeys(id for beat in beats or [""] if (id := beat or own[role]))
            assert carried[role, number] == tuple(wanted)
            whole = beats and all(beats) and beats[0]
            assert list_given(show).get((role, number), "") == (whole or "")
    for id in CHANNELS:
        assert scenes_on(show, show.channels[id]) == tuple(sorted({number for number, _, _ in follow(table, id)}))


@QUIET
@given(tables())
def test_a_pack_goes_from_body_to_body_as_the_table_says(table):
    show = write_show(table)
    worn = list_wearings_tonight(show, usual_evening(show))
    spells = list_spells(show)
    handed = list_all_handovers(show)
    for id in CHANNELS:
        walk = follow(table, id)
        assert [(one.stint.index, one.stint.turn, one.stint.role) for one in worn[id]] == walk
        wanted = [(one[2], two[2], f"s{one[0]}", f"s{two[0]}") for one, two in pairwise(walk) if one[2] != two[2]]
        assert [(o.from_role, o.to_role, o.after.id, o.before.id) for o in handed if o.channel == id] == wanted
        assert len([one for one in spells if one.channel.id == id]) == len(wanted) + bool(walk)
    assert list_handovers_tonight(show, plan_tonight(show, ())) == handed


@QUIET
@given(tables())
def test_a_body_changes_its_worn_pack_where_the_table_does(table):
    """A handheld is held beside the pack, which stays on."""
    own, scenes = table
    show = write_show(table)
    for role in ROLES:
        packs = []
        for scene in scenes:
            beats = scene.get(role)
            if beats is not None:
                packs += [id for beat in beats or [""] if (id := beat or own[role]) and id != "HH1"]
        wanted = [(one, two) for one, two in pairwise(packs) if one != two]
        changes = list_pack_changes(show, usual_evening(show))
        assert [(o.from_channel, o.to_channel) for o in changes if o.by == f"Person {role}"] == wanted


@QUIET
@given(tables())
def test_the_board_shows_in_each_scene_what_is_carried(table):
    own, scenes = table
    show = write_show(table)
    up = [
        {id for role, beats in scene.items() for beat in beats or [""] if (id := beat or own[role])} for scene in scenes
    ]
    sheets = who_is_live.make_sheets(show)
    if not any(up):
        assert sheets == ()
        return
    (board,) = sheets[0].blocks
    assert [set(row.up) for group in board.groups for row in group.rows] == up


@QUIET
@given(tables(), st.sampled_from(ROLES), st.sampled_from(CHANNELS))
def test_whoever_covers_a_role_holds_what_its_scenes_give_and_else_their_own(table, role, brought):
    _, scenes = table
    show = replace(write_show(table), covers=(Cover("c1", role, "Swing", channel=brought),))
    worn = list_wearings_tonight(show, plan_tonight(show, (f"Person {role}",)))
    wanted = {
        (number, turn, beat or brought)
        for number, scene in enumerate(scenes)
        for turn, beat in enumerate(scene.get(role, ()) or ([""] if role in scene else []))
    }
    held = {
        (o.stint.index, o.stint.turn - 1 if len(scenes[o.stint.index][role]) > 1 else 0, id)
        for id, own in worn.items()
        for o in own
        if o.by == "Swing"
    }
    assert held == wanted
