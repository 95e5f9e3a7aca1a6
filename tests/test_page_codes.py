"""Whatever a page says of a show is in its code: of a show that uses every field each is changed, and every page is read.

A text that differs under one code would let a wrong page hang on.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import chain, islice

import pytest

from paperwork.document import Sheet
from paperwork.model import Show
from paperwork.pipeline import Laid, lay_out_papers
from paperwork.render.boxes import Layout
from paperwork.render.layout import Kept, lay_out
from paperwork.render.pdf.press import Press
from paperwork.sheets import SHEETS
from tests.test_every_fact import WHY_NOT, changed_shows, read_rich
from tests.wall import Wall

NO_FACTS = {"revision", "revised", "reason", "replaces", "revisions", "language", "paper"}

MORE = {
    ("scenes", "name"): ("7.7 Storm", "Storm", ""),
    ("scenes", "act"): ("",),
    ("scenes", "kind"): ("part", "set"),
    ("channels", "slots"): ((),),
    ("channels", "pack"): ("99",),
    ("channels", "notes"): ("",),
    ("people", "room"): ("",),
    ("roles", "by"): ("", "Zoe"),
    ("moves", "exit"): ("",),
    ("moves", "enter"): ("",),
    ("day", "curtain_s"): ((), (14 * 3600, 20 * 3600)),
    ("production", "title"): ("",),
    ("production", "licence"): ("",),
    ("production", "contact"): ("",),
    ("spectrum", "region"): ("",),
    ("radios", "kind"): ("pack", "handheld"),
}
"""Further values of fields by which texts come and go."""


def more_shows(show: Show) -> Iterator[tuple[str, str, Show]]:
    """The show with each of those values in each record."""
    for (section, name), values in MORE.items():
        held = getattr(show, section)
        keys = [*held] if isinstance(held, Mapping) else [*range(len(held))] if isinstance(held, tuple) else [None]
        for key in keys:
            for value in values:
                yield section, name, replace(show, **{section: _put(held, key, name, value)})


def _put(held, key, name, value):
    if isinstance(held, Mapping):
        return {**held, key: replace(held[key], **{name: value})}
    if isinstance(held, tuple):
        return (*held[:key], replace(held[key], **{name: value}), *held[key + 1 :])
    return replace(held, **{name: value})


def without_each(show: Show) -> Iterator[tuple[str, str, Show]]:
    """The show without each of its records, as far as no other names it."""
    for section in (
        "radios",
        "racks",
        "consoles",
        "others",
        "transmitters",
        "capsules",
        "people",
        "moves",
        "looks",
        "covers",
    ):
        held = getattr(show, section)
        keys = [*held] if isinstance(held, Mapping) else [*range(len(held))]
        for key in keys:
            left = (
                {id: one for id, one in held.items() if id != key}
                if isinstance(held, Mapping)
                else (*held[:key], *held[key + 1 :])
            )
            yield section, f"without {key}", replace(show, **{section: left})


WHOLE = (("first", 1), ("others", 1))


@pytest.fixture(scope="module")
def rich(tmp_path_factory) -> Show:
    return read_rich(tmp_path_factory.mktemp("rich"))


class FirstPress(Press):
    """Keeps the layouts and blocks of the show that it lays out first, so that of each other only what differs is laid out."""

    def __init__(self) -> None:
        super().__init__()
        self.first: dict[str, tuple[Sheet, Layout, Kept]] = {}

    def lay_out(self, path: str, sheet: Sheet) -> Layout:
        if path in self.first:
            known, layout, blocks = self.first[path]
            return layout if sheet == known else lay_out(sheet, self.metrics, dict(blocks))
        kept: Kept = {}
        layout = lay_out(sheet, self.metrics, kept)
        self.first[path] = sheet, layout, kept
        return layout

    def changed(self, show: Show) -> list[Laid]:
        """The sheets of a show that are not as those of the first."""
        laid = lay_out_papers(SHEETS, show, (), press=self)[0]
        return [one for one in laid if one.layout is not self.first[one.path][1]]


def changed_records(show: Show, which: str) -> Iterator[tuple[str, str, Show]]:
    """The show with each field changed that is printed: in the first record that has it, or in each other."""
    seen = set()
    for section, name, changed in changed_shows(show):
        is_first = (section, name) not in seen
        seen.add((section, name))
        if (section, name) not in WHY_NOT and is_first == (which == "first"):
            yield section, name, changed


@pytest.mark.parametrize(
    "which, every", [("first", 3), *(pytest.param(*one, marks=pytest.mark.sweep) for one in WHOLE)]
)
def test_a_page_that_says_something_else_has_another_code(rich, which, every):
    """Each show, or every third."""
    press = FirstPress()
    before = Wall.full(lay_out_papers(SHEETS, rich, (), press=press)[0])
    more = chain(more_shows(rich), without_each(rich)) if which == "first" else ()
    said = {
        f"{section}.{name} {line.partition(' says')[0]}": line
        for section, name, show in islice(chain(changed_records(rich, which), more), None, None, every)
        if name not in NO_FACTS
        for line in before.differences(Wall.full(press.changed(show)))
        if "and says" in line
    }
    assert not said, "\n".join(said)
