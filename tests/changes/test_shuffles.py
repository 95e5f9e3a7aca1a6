"""A column that was sorted by itself, or slipped by a row, is told as such; an exchange of two is not."""

import json
import unicodedata

import pytest
from click.testing import CliRunner

from paperwork.changes import diff_shows, list_changes, list_shuffles
from paperwork.commands.changes import command
from tests.shows_text import reading_of

NAMES = ("Ann Lee", "Bo Ray", "Cy Fox", "Di Eve", "El Orr")


@pytest.fixture(scope="module")
def show_of(tmp_path_factory):
    return lambda text: reading_of(text, tmp_path_factory.mktemp("show")).show


def cast(show_of, *names):
    rows = "".join(f"  0{n}: {{role: ROLE {n}, by: {name}}}\n" for n, name in enumerate(names, start=1))
    return show_of(f"channels:\n{rows}")


def shuffles_of(show_of, *names):
    old, new = cast(show_of, *NAMES), cast(show_of, *names)
    return list_shuffles(list_changes(old, new, diff_shows(old, new)))


@pytest.mark.parametrize(
    ("names", "count"),
    (
        (("Bo Ray", "Cy Fox", "Di Eve", "El Orr", "Ann Lee"), 5),
        (("Ann Lee", "Cy Fox", "Di Eve", "Bo Ray", "El Orr"), 3),
        (("New Body", "Ann Lee", "Bo Ray", "Cy Fox", "Di Eve"), 5),
    ),
    ids=("sorted", "three of them", "slipped by a row"),
)
def test_names_that_moved_among_the_roles_are_one_question(show_of, names, count):
    (found,) = shuffles_of(show_of, *names)
    assert (found.section, found.field, len(found.ids)) == ("roles", "performer", count)


@pytest.mark.parametrize(
    "names",
    (
        NAMES,
        ("Bo Ray", "Ann Lee", "Cy Fox", "Di Eve", "El Orr"),
        ("Fi Gow", "Gus Ha", "Hal In", "Di Eve", "El Orr"),
        ("Bo Ray", "Fi Gow", "Gus Ha", "Hal In", "Ann Lee"),
        ("Bo Ray", "Cy Fox", "Ann Lee", "Fi Gow", "Gus Ha"),
    ),
    ids=("nothing", "an exchange", "another cast", "mostly another cast", "two of five another body"),
)
def test_an_exchange_or_another_cast_is_no_question(show_of, names):
    assert shuffles_of(show_of, *names) == ()


def test_the_screen_asks_first_and_programs_get_the_records(tmp_path):
    for name, names in (("old", NAMES), ("new", (*NAMES[1:], NAMES[0]))):
        rows = "".join(f"  0{n}: {{role: ROLE {n}, by: {one}}}\n" for n, one in enumerate(names, start=1))
        (tmp_path / f"{name}.yaml").write_text(f"channels:\n{rows}", encoding="utf-8")
    paths = [str(tmp_path / "old.yaml"), str(tmp_path / "new.yaml")]
    said, plain = (
        CliRunner().invoke(command, [*paths, *more], standalone_mode=False).return_value.text
        for more in ((), ("--format", "json"))
    )
    assert said.splitlines()[1].startswith("5 records swapped performer with each other")
    assert [len(one["ids"]) for one in json.loads(plain)["shuffled"]] == [5]


PEOPLE = "people: {José Núñez: {room: '1'}, Zoë Ångström: {room: '2'}}\n"
ROLES = "roles: {ÉLODIE: {by: José Núñez}, ZOÉ: {by: Zoë Ångström}}\nchannels: {1: {role: ÉLODIE}, 2: {role: ZOÉ}}\n"


@pytest.mark.parametrize("forms", (("NFC", "NFD"), ("NFD", "NFC"), ("NFD", "NFD")))
def test_one_sign_written_in_two_ways_is_no_change_and_parts_no_names(show_of, forms):
    """A keyboard composes letters, a file system may take them apart; a name stays that name."""
    plain = show_of(PEOPLE + ROLES)
    other = show_of(
        "".join(unicodedata.normalize(form, text) for form, text in zip(forms, (PEOPLE, ROLES), strict=True))
    )
    assert diff_shows(plain, other) == () and other == plain
    assert {role.by for role in other.roles.values()} == set(other.people)
