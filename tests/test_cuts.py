"""A scene that is cut: the show is as one in which it was never written, here or in another house alone."""

from typing import Any

import yaml
from hypothesis import given
from hypothesis import strategies as some

from paperwork.build import build_show
from paperwork.model.facts import canonical_facts
from paperwork.reading import read_show
from paperwork.sheets import SHEETS
from tests.shows_text import raw_of

SCENES = ("s1", "s2", "s3", "s4")


def built(data: dict[str, Any]):
    made = build_show(raw_of(yaml.safe_dump(data, sort_keys=False)))
    assert not made.findings
    return made.show


@some.composite
def cuts(draw) -> tuple[dict[str, Any], dict[str, Any]]:
    """A show of four scenes of which some are cut, and the same show written without them."""
    cut = draw(some.sets(some.sampled_from(SCENES), max_size=3))
    scenes = {
        id: {"at": f"0:{10 * n:02d}", "live": draw(some.sampled_from(("VERA", "TOM", "VERA, TOM")))}
        for n, id in enumerate(SCENES)
    }
    moves = {f"m{n}": {"role": "VERA", "scene": id, "enter": "SL"} for n, id in enumerate(SCENES)}
    looks = {
        "l1": {"by": "Ann", "wears": "coat"},
        "l2": {"by": "Ann", "scene": draw(some.sampled_from(SCENES)), "wears": "gown"},
    }
    covers = {
        "c1": {"role": "VERA", "by": "Cy"},
        "c2": {
            "role": "TOM",
            "by": "Cy",
            "scenes": draw(some.lists(some.sampled_from(SCENES), min_size=1, unique=True)),
        },
    }
    show = {
        "show": {"title": "Glass"},
        "radios": {"belt": {"kind": "pack"}},
        "roles": {"VERA": {"by": "Ann"}, "TOM": {"by": "Bo"}},
        "channels": {"01": {"role": "VERA, TOM", "radio": "belt"}},
    }
    whole = show | {"scenes": {id: {**one, **({"cut": "yes"} if id in cut else {})} for id, one in scenes.items()}}
    whole |= {"moves": moves, "looks": looks, "covers": covers}
    left = [id for id in SCENES if id not in cut]
    later = next((id for id in SCENES[SCENES.index(looks["l2"]["scene"]) :] if id in left), "")
    covered = [id for id in covers["c2"]["scenes"] if id in left]
    without = show | {
        "scenes": {id: scenes[id] for id in left},
        "moves": {id: one for id, one in moves.items() if one["scene"] in left},
        "looks": {"l1": looks["l1"]} | ({"l2": {**looks["l2"], "scene": later}} if later else {}),
        "covers": {"c1": covers["c1"]} | ({"c2": {**covers["c2"], "scenes": covered}} if covered else {}),
    }
    return whole, without


@given(cuts())
def test_a_show_with_cuts_says_what_one_without_those_scenes_says(pair):
    whole, without = map(built, pair)
    assert canonical_facts(whole) == canonical_facts(without)
    assert [paper.make(whole) for paper in SHEETS[:12]] == [paper.make(without) for paper in SHEETS[:12]]


AWAY = """
show: {title: Glass, venue: Hall}
roles: {VERA: {by: Ann}, TOM: {by: Bo}}
channels: {01: {role: VERA}, 02: {role: TOM}}
scenes: {s1: {live: VERA TOM}, s2: {live: VERA}, s3: {live: TOM}}
moves: {m1: {role: VERA, scene: s1, enter: SL, exit: SL}}
venues:
  v1: {venue: Barn, section: scenes, record: s2, field: cut, value: yes}
  v2: {venue: Barn, section: moves, record: m1, field: exit, value: SR}
  v3: {venue: Barn, section: show, field: paper, value: A3}
  v4: {venue: Barn, section: scenes, record: s3, field: live, value: TOM VERA}
"""


def test_a_cut_a_side_and_the_paper_of_another_house_are_its_own(tmp_path):
    (tmp_path / "show.yaml").write_text(AWAY, encoding="utf-8")
    home = read_show(tmp_path / "show.yaml", "show.yaml").show
    away = read_show(tmp_path / "show.yaml", "show.yaml", venue="Barn").show
    assert [scene.id for scene in home.scenes] == ["s1", "s2", "s3"]
    assert [scene.id for scene in away.scenes] == ["s1", "s3"]
    assert (home.moves["m1"].exit, away.moves["m1"].exit) == ("SL", "SR")
    assert (home.production.paper, away.production.paper) == ("A4", "A3")
    assert away.scenes[1].live == ("TOM", "VERA")
