"""What the lists of a new revision say is done to the letter on a wall of pages, labels and cards: it must then be as a full
build of that revision, page by page."""

from pathlib import Path

import pytest

from paperwork.model.fields import SECTIONS
from tests.few import few_of
from tests.wall_histories import BASE, EDITS, Step, live_through, live_through_many, read_plain, take

MOVE = Step("house", value="Pier")
REFUSED = Step("edit", "channels", "01", "granted", "no")
DOUBLED = Step("edit", "channels", "02", "mhz", "486.200")


def test_a_wall_that_follows_the_lists_is_the_wall_of_a_full_build():
    live_through_many(4, 1)


@pytest.mark.sweep
@pytest.mark.parametrize("number", range(2, 12))
def test_many_walls_that_follow_the_lists_are_those_of_a_full_build(number):
    live_through_many(50, number)


@pytest.mark.parametrize("filed", few_of((True, False)))
def test_a_move_on_tour_and_back_leaves_no_paper_of_the_other_house(filed):
    back = Step("house", value="")
    assert live_through((), [step._replace(filed=filed) for step in (MOVE, back, Step("house", value="Barn"))]) == 3


@pytest.mark.parametrize("filed", few_of((True, False)))
@pytest.mark.parametrize("doubt", (REFUSED, DOUBLED))
def test_a_doubt_that_comes_and_goes_takes_its_papers_down_and_brings_them_back(doubt, filed):
    steps = (doubt, doubt._replace(act="undo"), MOVE, doubt)
    assert live_through((), [step._replace(filed=filed) for step in steps]) == 4


def test_a_code_that_forgets_doubts_leaves_a_wrong_wall(monkeypatch):
    """The wall is worth its name: with the stamp left out of the code, a page without its stamp would hang on."""
    monkeypatch.setattr("paperwork.render.stamp.stamp_facts", lambda sheet, shown: ())
    with pytest.raises(AssertionError, match="NOTCONFIRMED"):
        live_through((), [REFUSED])


def test_every_field_of_the_show_is_edited_in_some_history(tmp_path: Path, monkeypatch):
    """For each field one of its edits leaves a show that can be read; what makes no sense can be, and is not looked for."""
    monkeypatch.setattr("paperwork.reading.check_show", lambda show: ())
    lived: set[tuple[str, str]] = set()
    for step in EDITS:
        edited = take(BASE, step)
        if (step.section, step.field) not in lived and edited != BASE and read_plain(edited, tmp_path).show is not None:
            lived.add((step.section, step.field))
    never = {(one.name, field) for one in SECTIONS.values() for field in one.fields} - lived
    assert never == {("venues", "section")}, "the section of a row cannot change without its record"
