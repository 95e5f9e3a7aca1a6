"""Titles between the rows of a list that name a rack or a stage: kept with the channels below them."""

import pytest

from tests.intake.sheets import codes, read, section

ONE, TWO, THREE = [1, "Mina Strand", "ORLA", 518.2], [2, "Hal Corrin", "DUKE", 519.125], [3, "Una Foy", "NURSE", 520.65]


def titled(one, other, heads=(), cells=()):
    rows = [["Mic", "Actor", "Role", "Freq", *heads], [one], [*ONE, *cells[:1]], [*TWO, *cells[1:2]], [other]]
    return read([*rows, [*THREE, *cells[2:]]])


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Rack A", "Rack B"),
        ("Rack 1", "Rack 2"),
        ("Main Stage", "Forest Stage"),
        ("B\u00fchne Nord", "B\u00fchne S\u00fcd"),
    ],
)
def test_a_title_that_names_a_rack_or_a_stage_is_in_the_notes_of_the_channels_below(one, other):
    got = titled(one, other)
    assert [row["notes"] for row in section(got).values()] == [one, one, other]
    assert got.questions == () and codes(got) == [] and "racks" not in str(got.raw)


def test_a_rack_that_a_column_holds_is_not_said_twice():
    got = titled("Rack 1", "Rack 2", ["Receiver"], ["R1.1", "R1.2", "R2.1"])
    assert [row["slot"] for row in section(got).values()] == ["R1.1", "R1.2", "R2.1"]
    assert not any("notes" in row for row in section(got).values())


def test_mics_that_are_called_by_their_stage_are_channels():
    rows = [["Mic", "Actor", "Freq"], ["Stage 1", "Mina Strand", 518.2], ["Stage 2"], ["Stage 3", "Una Foy", 520.65]]
    assert list(section(read(rows))) == ["Stage 1", "Stage 2", "Stage 3"]


def test_a_stage_that_a_column_holds_is_said_once():
    got = titled("Main Stage", "Forest Stage", ["Location"], ["Main Stage", "Main Stage", "Forest Stage"])
    assert [str(row).count("Stage") for row in section(got).values()] == [1, 1, 1]


def test_a_title_of_anything_else_is_only_said():
    got = titled("Principals", "Stage")
    assert not any("notes" in row for row in section(got).values())
    assert got.lines[:2] == ('a title between the rows: "Principals"', 'a title between the rows: "Stage"')


@pytest.mark.parametrize("between", ([], ["In-ears"], ["Funk", "IEM"]))
@pytest.mark.parametrize("stage", ("Stage left", "Bühne Rechts", "Main Stage", "Rack 2"))
def test_in_ears_below_the_title_of_a_stage_keep_it_as_the_microphones_do(stage, between):
    """Also below a title of their own that only says that in-ears follow; any other title is another place, or none."""
    titles = [[one] for one in between]
    rows = [
        ["Mic", "Name", "Freq", "Notes"],
        [stage],
        ["1", "Ana", "518.200"],
        *titles,
        ["IEM 1", "Ana", "540.200", "stereo"],
    ]
    got = read([*rows, ["Other stage"], ["2", "Ben", "519.600"], ["IEM 2", "Ben", "542.600"]])
    kept = f"{stage}; stereo" if between != ["Funk", "IEM"] else "stereo"
    assert section(got)["1"]["notes"] == stage and section(got, "others")["IEM 1"]["notes"] == kept
    assert section(got, "others")["IEM 2"]["notes"] == "Other stage"
