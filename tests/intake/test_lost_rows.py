"""Rows that were once taken for headings, and frequencies that were once taken as exact."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.intake.frequencies import read_frequency
from tests.intake.sheets import asked, read, section

NAMES = ("Imke Vos", "Tom Quell", "Rhea Lund", "Mei Ota", "Nele Brix", "Ugo Sala")
CELLS = {
    "Freq": (None, "tbc", "518.2", "521.925", "frei", "?"),
    "Room": (None, 1, 3, 4, "12"),
    "TV": (None, 21, 38),
    "FOH": (None, 1, 2, 7),
    "Mic": (None, "Lav", "Headset", "lav"),
    "Notes": (None, "spare cap", "swing"),
}
"""Other columns of a channel list, and what stands in them: words that are headings elsewhere, numbers that could be scenes."""


@pytest.mark.parametrize("gap", ("tbc", None, "frei", "518.200?", "Ch 38"), ids=str)
@pytest.mark.parametrize("at", (1, 2, 4))
def test_a_row_without_a_frequency_is_no_heading_though_its_capsule_is_called_lav(gap, at):
    rows = [["Ch", "Name", "Freq", "Room", "Mic"]]
    rows += [[n, name, gap if n == at else f"52{n}.{n}00", 3, "Lav"] for n, name in enumerate(NAMES[:4], 1)]
    assert list(section(read(rows))) == ["1", "2", "3", "4"]


def test_a_list_without_frequencies_is_read():
    told = read([["Ch", "Role", "Name", "Pack", "Mic"], [1, "A", "Imke Vos", 1, "Headset"], [2, "B", "Tom Quell", 2, "Lav"]])
    assert [channel["by"] for channel in section(told).values()] == ["Imke Vos", "Tom Quell"]


@st.composite
def lists(draw):
    columns = draw(st.lists(st.sampled_from(sorted(CELLS)), min_size=1, max_size=5, unique=True))
    names = draw(st.lists(st.sampled_from(NAMES), min_size=2, max_size=6, unique=True))
    rows = [[n, name, *(draw(st.sampled_from(CELLS[column])) for column in columns)] for n, name in enumerate(names, 1)]
    return [["Ch", "Name", *columns], *rows]


@given(lists())
@settings(max_examples=150, deadline=None)
def test_no_row_of_a_plain_list_is_lost(rows):
    found = section(read(rows))
    assert [found[str(number)]["by"] for number, *_ in rows[1:]] == [name for _, name, *_ in rows[1:]], rows


@pytest.mark.parametrize("text", ("~523", "ca. 523", "≈523", "about 523", "etwa 523.5", "523 ca", "523*", "(523)"))
def test_what_is_only_near_a_frequency_is_asked(text):
    reading = read_frequency(text)
    assert not reading.mhz and reading.doubt and len(reading.choices) == 1
    told = read([["Ch", "Name", "Freq"], [1, "Imke Vos", text], [2, "Tom Quell", "526.1"]])
    assert any(kind == "frequency" for kind, _ in asked(told))
