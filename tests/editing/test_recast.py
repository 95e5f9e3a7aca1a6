"""A recast: nobody who left is named where they played, and whoever stays is asked as a cover; held against the built show."""

import pytest

from paperwork.editing.edited import read_edited
from paperwork.editing.recast import list_parts, list_recast

SHOW = b"""show: {title: Gala}
people:
  Ann Lee: {room: 1, pouch: 01, belt: S, colour: 5}
  Bo Lim: {room: 2, belt: L}
  Ann Lee Mo: {room: 3}
roles:
  VERA: {by: Ann Lee}
  TOM: {by: Bo Lim, alternates: Ann Lee}
channels:
  01: {role: VERA, mhz: 486.200}
  02: {shared: {MAID: Ann Lee, COOK: Ann Lee Mo}, mhz: 487.400}
looks:
  l1: {by: Ann Lee, wears: blue coat}
covers:
  c1: {role: VERA, by: Bo Lim}
  c2: {role: TOM, by: Ann Lee}
others:
  E1: {kind: in-ear, mhz: 652.150, listeners: "Ann Lee, Bo Lim"}
"""

KNOWN = ("Ann Lee", "Bo Lim", "Ann Lee Mo")


def recast(old: str, new: str, **how: bool):
    show = read_edited(SHOW, "show.yaml", lambda *_: ((), ()))
    made = show.make(list_recast(show.raw, old, new, KNOWN, **how))
    assert made.reading.show, made.reading.findings
    return made


def test_somebody_new_plays_and_wears_whatever_the_one_who_left_did():
    made = recast("Ann Lee", "Cy Moss")
    show = made.reading.show
    assert b"Ann Lee" not in made.data.replace(b"Ann Lee Mo", b"") and b"COOK: Ann Lee Mo" in made.data
    assert show.roles["VERA"].by == "Cy Moss" and show.roles["TOM"].alternates == ("Cy Moss",)
    assert show.looks["l1"].by == "Cy Moss" if isinstance(show.looks, dict) else show.looks[0].by == "Cy Moss"
    person = show.people["Cy Moss"]
    assert (person.room, person.pouch, person.belt, person.colour) == ("1", "01", "", ""), "sizes are of a body"
    assert list_parts(made.source.raw, "Cy Moss") == ("VERA", "MAID") and not list_parts(made.source.raw, "Ann Lee")


def test_a_cover_who_takes_the_part_over_covers_it_no_more():
    made = recast("Ann Lee", "Bo Lim")
    assert b"c1:" not in made.data and b"c2: {role: TOM, by: Bo Lim}" in made.data
    assert made.reading.show.people["Bo Lim"].room == "2" and "Ann Lee" not in made.reading.show.people


def test_who_stays_becomes_the_cover_and_keeps_what_else_names_them():
    made = recast("Ann Lee", "Cy Moss", stays=True)
    show = made.reading.show
    covers = {(cover.role, cover.by) for cover in show.covers}
    assert covers == {("VERA", "Bo Lim"), ("TOM", "Ann Lee"), ("VERA", "Ann Lee"), ("MAID", "Ann Lee")}
    assert show.people["Ann Lee"].belt == "S" and "Cy Moss" in show.people
    assert b"Ann Lee, Bo Lim" in made.data, "who listens is not who plays"


@pytest.mark.parametrize("old, new", (("", "Bo Lim"), ("Ann Lee", ""), ("Ann Lee", "ann lee"), ("Nobody", "Bo Lim")))
def test_names_that_say_nothing_are_refused(old, new):
    show = read_edited(SHOW, "show.yaml", lambda *_: ((), ()))
    with pytest.raises(ValueError, match=r"names|already|nothing"):
        list_recast(show.raw, old, new, KNOWN)
