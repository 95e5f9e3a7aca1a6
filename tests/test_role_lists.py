"""Lists of roles are read alike wherever one is written: in scenes, groups, channels, moves and covers."""

import pytest

from paperwork.build import build_show
from tests.shows_text import raw_of

SHOW = """channels: {1: {role: VERA}, 2: {role: OLD TOM}, 3: {role: MUM}, 4: {role: %s}}
roles: {SOME: {group: %s}}
scenes: {s1: {live: %s}}
moves: {m1: {role: %s, scene: s1, enter: SL}}
covers: {c1: {role: %s, by: Dan}}
"""
WAYS = (
    "VERA OLD TOM MUM",
    "VERA, OLD TOM, MUM",
    '"VERA, OLD TOM and MUM"',
    '"VERA OLD TOM, MUM"',
    '"VERA; OLD TOM; MUM"',
    '"VERA + OLD TOM + MUM"',
    "vera old tom mum",
)
WANTED = ("VERA", "OLD TOM", "MUM")


@pytest.mark.parametrize("way", WAYS)
def test_one_way_of_writing_means_one_list(way):
    written = way if way.startswith('"') or "," not in way else f'"{way}"'
    show = build_show(raw_of(SHOW % ((written,) * 5))).show
    assert show.roles["SOME"].group == WANTED
    assert show.scenes[0].live == WANTED
    assert show.channels["4"].roles == WANTED
    assert sorted(move.role for move in show.moves.values()) == sorted(WANTED)
    assert {move.enter for move in show.moves.values()} == {"SL"}
    assert tuple(cover.role for cover in show.covers) == WANTED


def test_a_group_stands_for_its_roles_in_moves_and_covers_too():
    show = build_show(raw_of(SHOW % ("SOME", "VERA MUM", "SOME", "SOME", "SOME"))).show
    assert show.channels["4"].roles == show.scenes[0].live == ("VERA", "MUM")
    assert tuple(cover.role for cover in show.covers) == ("VERA", "MUM")
    assert sorted(move.role for move in show.moves.values()) == ["MUM", "VERA"]


@pytest.mark.parametrize("role", ("YOUNG TOM", "VERA B", "TOM and JERRY", "Salt & Pepper"))
def test_a_name_of_which_a_part_is_no_role_is_one_role(role):
    show = build_show(raw_of(f'channels: {{1: {{role: VERA}}, 2: {{role: TOM}}, 3: {{role: "{role}"}}}}\n')).show
    assert show.channels["3"].roles == (role,)


def test_one_of_several_covers_of_a_row_is_not_taken_away_as_if_the_file_had_it():
    from paperwork.checks.company.covers import CHECKS

    text = "channels: {1: {role: VERA, by: Ann}, 2: {role: TOM, by: Bo}}\ncovers: {c1: {role: VERA TOM, by: Ann}}\n"
    show = build_show(raw_of(text)).show
    found = [finding for check in CHECKS for finding in check(show) if finding.code == "cover-is-performer"]
    assert len(found) == 1 and found[0].edits == ()
