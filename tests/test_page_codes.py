"""Whatever a page says of a show is in its code: of a show that uses every field each is changed, and every page is read.

A text that differs under one code would let a wrong page hang on.
"""

from pathlib import Path

import pytest

from paperwork.model import Show
from paperwork.plan.walls import put_on_walls
from paperwork.revisions import Side
from tests.shows_text import reading_of
from tests.test_every_fact import RICH, changed_shows
from tests.wall import Wall, lay_out_all

NO_FACTS = {"revision", "revised", "reason", "replaces", "revisions", "language", "paper"}


@pytest.fixture(scope="module")
def rich(tmp_path_factory) -> Show:
    folder: Path = tmp_path_factory.mktemp("rich")
    (folder / "sweep.csv").write_text("480.0,-100\n492.0,-95\n504.0,-100\n", encoding="utf-8")
    show = reading_of(RICH, folder).show
    assert show is not None
    return show


def wall_of(show: Show) -> Wall:
    return Wall.full(lay_out_all(Side(show, (), "show")))


def test_a_page_that_says_something_else_has_another_code(rich):
    before = wall_of(rich)
    said = {
        f"{section}.{name} {line.partition(' says')[0]}": line
        for section, name, show in changed_shows(rich)
        if name not in NO_FACTS
        for line in before.differences(wall_of(show))
        if "and says" in line
    }
    assert not said, "\n".join(said)
