"""Whatever a page says of a show is in its code: of a show that uses every field each is changed, and every page is read.

A text that differs under one code would let a wrong page hang on.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import chain
from pathlib import Path

import pytest

from paperwork.model import Show
from paperwork.revisions import Side
from tests.shows_text import reading_of
from tests.test_every_fact import RICH, changed_shows
from tests.wall import Wall, lay_out_all

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
        for section, name, show in chain(changed_shows(rich), more_shows(rich), without_each(rich))
        if name not in NO_FACTS
        for line in before.differences(wall_of(show))
        if "and says" in line
    }
    assert not said, "\n".join(said)
