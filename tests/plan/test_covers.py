"""Who is on tonight: split by scene, in the order of asking, nobody in two places, and who nobody covers is said."""

from paperwork.build import build_show
from paperwork.plan.covers import plan_tonight, stage_all
from paperwork.plan.evening import find_spare, list_handovers_tonight, list_pack_changes
from tests.shows_text import raw_of

SPLIT = """
radios: {belt: {kind: pack, tunes: 470-510}, other: {kind: pack, tunes: 510-550}}
people:
  Mara: {pouch: 1}
  Ana: {pouch: 7}
  Ben: {pouch: 8}
  Ida: {pouch: 9}
channels:
  01: {role: VERA, by: Mara, mhz: 486.200, capsule: tone 2}
  02: {role: NURSE, by: Ana, mhz: 488.200, capsule: tone 5}
  03: {role: COOK, by: Ben, mhz: 491.700}
  04: {spare: other, mhz: 520.200}
  05: {spare: belt, mhz: 499.200, backs: 01-02}
scenes:
  s1: {live: VERA COOK}
  s2: {live: VERA NURSE}
  s3: {live: NURSE COOK}
  s4: {live: VERA}
covers:
  c1: {role: VERA, by: Ana, scenes: s1 s2, capsule: tone 8}
  c2: {role: VERA, by: Ben, scenes: s4, follows: person}
  c3: {role: NURSE, by: Ida}
"""


def show_of(text: str):
    return build_show(raw_of(text)).show


def told(tonight) -> list[tuple]:
    return [(change.role, change.scenes, change.by, change.channel, change.pouch) for change in tonight.changes]


def test_a_cover_splits_by_scene_and_opens_the_role_that_is_left():
    tonight = plan_tonight(show_of(SPLIT), ("Mara",))
    assert told(tonight) == [
        ("VERA", (0, 1), "Ana", "01", "7"),
        ("VERA", (3,), "Ben", "03", "8"),
        ("NURSE", (1, 2), "Ida", "02", "9"),
    ]
    assert tonight.uncovered == ()


def test_pack_follows_the_role_or_the_person_as_told():
    tonight = plan_tonight(show_of(SPLIT), ("Mara",))
    assert tonight.channel_of == {("VERA", 3): "03"}
    assert [change.capsule for change in tonight.changes] == ["tone 8", "", "tone 5"]


def test_who_nobody_covers_is_said_scene_by_scene():
    tonight = plan_tonight(show_of(SPLIT), ("Mara", "Ida", "Ben"))
    assert [(one.role, one.scenes, one.instead_of) for one in tonight.uncovered] == [
        ("VERA", (3,), "Mara"),
        ("COOK", (0, 2), "Ben"),
        ("NURSE", (1,), "Ana"),
    ]


def test_one_cover_takes_the_whole_role_before_two_share_it_and_whoever_leaves_a_role_is_covered():
    text = SPLIT.replace(
        "c1: {role: VERA, by: Ana, scenes: s1 s2, capsule: tone 8}",
        "c1: {role: VERA, by: Ana}\n  c9: {role: VERA, by: Ida}",
    )
    tonight = plan_tonight(show_of(text), ("Mara",))
    assert told(tonight) == [("VERA", (0, 1, 3), "Ana", "01", "7"), ("NURSE", (1, 2), "Ida", "02", "9")]
    assert tonight.uncovered == ()


def test_where_nobody_is_free_for_the_role_that_is_left_the_next_cover_takes_the_whole_role():
    text = SPLIT.replace(
        "c1: {role: VERA, by: Ana, scenes: s1 s2, capsule: tone 8}",
        "c1: {role: VERA, by: Ana}\n  c9: {role: VERA, by: Ida}",
    ).replace("  c3: {role: NURSE, by: Ida}\n", "")
    assert told(plan_tonight(show_of(text), ("Mara",))) == [("VERA", (0, 1, 3), "Ida", "01", "9")]


def test_a_free_cover_is_asked_before_one_who_would_leave_a_role():
    text = SPLIT.replace(
        "c1: {role: VERA, by: Ana, scenes: s1 s2, capsule: tone 8}",
        """c1: {role: VERA, by: Ana, scenes: s1 s2}
  c9: {role: VERA, by: Ida, scenes: s2 s4}""",
    ).replace("  c2: {role: VERA, by: Ben, scenes: s4, follows: person}\n", "")
    tonight = plan_tonight(show_of(text), ("Mara",))
    assert told(tonight) == [("VERA", (0,), "Ana", "01", "7"), ("VERA", (1, 3), "Ida", "01", "9")]


def test_nobody_goes_on_who_is_off_too_and_covers_never_trade_places():
    text = SPLIT + "  c4: {role: COOK, by: Ana}\n  c5: {role: NURSE, by: Ben}\n"
    show = show_of(text)
    tonight = plan_tonight(show, ("Mara", "Ida"))
    for index, scene in enumerate(show.scenes):
        on = [tonight.on(role, index) for role in scene.live if tonight.on(role, index)]
        assert len(on) == len(set(on)) and not {"Mara", "Ida"} & set(on)


def test_the_swaps_of_the_evening_follow_the_covers():
    show = show_of(SPLIT)
    tonight = plan_tonight(show, ("Mara",))
    assert [(one.channel, one.from_by, one.to_by) for one in list_handovers_tonight(show, tonight)] == []
    changes = [(one.by, one.from_channel, one.to_channel, one.before.id) for one in list_pack_changes(show, tonight)]
    assert changes == []


def test_a_role_of_a_swing_on_two_packs_is_a_change_of_pack():
    text = SPLIT.replace("c3: {role: NURSE, by: Ida}", "c3: {role: NURSE, by: Ben, scenes: s2}")
    show = show_of(text)
    changes = list_pack_changes(show, plan_tonight(show, ("Mara",)))
    assert [(one.by, one.from_channel, one.to_channel, one.before.id) for one in changes] == [
        ("Ben", "03", "02", "s2"),
        ("Ana", "01", "02", "s3"),
        ("Ben", "02", "03", "s3"),
    ]


def test_a_spare_has_to_back_the_channel_and_reach_its_frequency():
    show = show_of(SPLIT)
    assert find_spare(show, show.channels["01"]).id == "05"
    assert find_spare(show, show.channels["03"]) is None
    assert find_spare(show, show.channels["01"], taken=["05"]) is None


def test_groups_and_teams_are_expanded_before_anybody_is_off():
    show = show_of(
        """
        day: {team: blue}
        people: {Ari: {team: red}, Lea: {team: blue}, Ana: {}, Ben: {}, Ida: {}}
        roles:
          PIP: {by: Ari, alternates: Lea}
          CHORUS: {group: "Ana, Ben"}
        channels:
          01: {role: PIP, mhz: 486.200}
          02: {role: CHORUS, by: Ana, mhz: 488.200}
          03: {role: CHORUS, by: Ben, mhz: 491.700}
        scenes: {s1: {live: "PIP, CHORUS"}}
        covers: {c1: {role: CHORUS, by: Ida}}
        """
    )
    assert show.scenes[0].live == ("PIP", "Ana", "Ben") and show.roles["PIP"].by == "Lea"
    tonight = plan_tonight(show, ("Ben", "Lea"))
    assert told(tonight) == [("PIP", (0,), "Ari", "01", ""), ("Ben", (0,), "Ida", "03", "")]


def test_nobody_is_not_whoever_plays_a_free_role():
    """A form may send an empty name; a role that nobody plays is not that person's."""
    tonight = plan_tonight(
        show_of("channels: {1: {role: VERA}, 2: {role: TOM, by: Ann}}\nscenes: {s1: {live: VERA TOM}}\n"), ("",)
    )
    assert (tonight.off, tonight.changes, tonight.uncovered) == ((), (), ())


def test_channels_that_no_scene_mentions_are_on_in_a_scene_of_their_own():
    text = """
    roles: {VERA: {by: Ana}, BAND: {by: Ole}}
    channels:
      1: {role: VERA}
      2: {by: Piet}
      3: {role: BAND, by: Ole}
      4: {spare: yes}
      5: {}
    scenes: {s1: {live: VERA}}
    """
    built = build_show(raw_of(text)).show
    staged = stage_all(built)
    assert [(scene.id, scene.live) for scene in staged.scenes] == [("s1", ("VERA",)), ("", ("Piet", "BAND"))]
    assert staged.channels["2"].roles == ("Piet",) and staged.roles["Piet"].by == "Piet"
    assert staged.channels["3"] == built.channels["3"] and staged.channels["4"] == built.channels["4"]
    assert [(one.role, one.instead_of, one.by) for one in plan_tonight(staged, ["Piet"]).uncovered] == [
        ("Piet", "Piet", "")
    ]


def test_a_show_whose_scenes_hold_everybody_gets_no_scene_more():
    built = build_show(raw_of("channels: {1: {role: VERA}, 2: {spare: yes}}\nscenes: {s1: {live: VERA}}\n")).show
    assert stage_all(built).scenes == built.scenes


def test_a_spare_has_to_hold_the_whole_bandwidth_and_not_the_frequency_alone():
    text = """
    radios:
      wide: {kind: pack, tunes: 470-530, bandwidth: 200 kHz}
      low: {kind: pack, tunes: 470-516, bandwidth: 200 kHz}
    channels:
      1: {by: Ann, radio: wide, mhz: %s}
      S: {spare: low, mhz: 480.000}
    """
    for mhz, id in (("515.900", "S"), ("516.000", None)):
        show = show_of(text % mhz)
        spare = find_spare(show, show.channels["1"])
        assert (spare.id if spare else None) == id
