"""Records that refer to themselves, round every reference that there is: each ends at once, and what is wrong is said."""

import pytest

from paperwork.model.fields import list_references
from paperwork.reading import Reading
from tests.shows_text import reading_of

OWN = sorted((section, field.name) for section, field, to in list_references() if section == to)

MEANT = {
    ("racks", "clock", 1): "a device that follows itself leads",
    ("consoles", "clock", 1): "a device that follows itself leads",
    ("channels", "backs", 2): "each is a spare of the other: whichever fails",
    ("channels", "backs", 3): "the same",
    ("channels", "backs", 300): "the same",
    ("channels", "alternate", 2): "two that share one desk input name each other",
    ("channels", "alternate", 3): "so do three",
    ("channels", "alternate", 300): "and as many as there are",
}
"""Circles of so many records that are no mistake, and why."""


def circle(section: str, field: str, count: int) -> str:
    """A show in which each record refers to the next one, and the last to the first."""
    rows = "".join(f"  X{n:03d}: {{{field}: X{(n + 1) % count:03d}}}\n" for n in range(count))
    return f"{section}:\n{rows}" + ("" if section == "channels" else "channels: {1: {by: Ann}}\n")


def read(section: str, field: str, count: int, tmp_path) -> Reading:
    return reading_of(circle(section, field, count), tmp_path)


def test_there_are_such_references():
    assert {("roles", "group"), ("channels", "doubles"), ("antennas", "feeds"), ("radios", "like")} < set(OWN)
    assert {(section, field) for section, field, _ in MEANT} < set(OWN)


@pytest.mark.parametrize("count", (1, 2, 3, 300))
@pytest.mark.parametrize(("section", "field"), OWN)
def test_a_circle_is_an_error_at_one_of_its_lines_or_means_something(section, field, count, tmp_path):
    found = read(section, field, count, tmp_path).findings
    if (section, field, count) in MEANT:
        assert found == ()
        return
    assert found and all(one.severity == "error" for one in found)
    assert all(1 < one.place.line <= count + 1 and one.fix for one in found)


@pytest.mark.parametrize(("section", "field"), OWN)
def test_a_chain_that_leads_into_a_circle_ends_too(section, field, tmp_path):
    lead = f"  A: {{{field}: B}}\n  B: {{{field}: X000}}\n"
    text = circle(section, field, 3).replace(f"{section}:\n", f"{section}:\n{lead}", 1)
    found = reading_of(text, tmp_path).findings
    assert all(one.place.line for one in found) and (found or (section, field, 3) in MEANT)
