"""One person spelled two ways in a list: either spelling may count, and the other is left nowhere."""

import pytest

from tests.intake.sheets import asked, codes, read, section, show

ROWS = [
    ["Ch", "Role", "Name", "Freq", "Room", "Understudy"],
    [1, "HANS", "Björn Übel", 519.5, 3, None],
    [2, "KASPAR", "Björn Uebel", 521.1, 4, "Dörte Möhring"],
    [3, "MAGD", "Doerte Moehring", 522.1, 5, None],
    ["IEM 1", None, "Dörte Möhring", 640.1, None, None],
]
BJORN, DORTE = ("person", "Björn Uebel = Björn Übel"), ("person", "Doerte Moehring = Dörte Möhring")


def test_both_spellings_are_offered():
    got = read(ROWS)
    assert asked(got) == [BJORN, DORTE]
    assert [choice.words for choice in got.questions[0].choices] == [
        "the same: Björn Uebel",
        "the same: Björn Übel",
        "two different persons",
    ]


@pytest.mark.parametrize(
    ("answer", "bjorn", "dorte", "gone"),
    [
        ("same", "Björn Uebel", "Doerte Moehring", ("Björn Übel", "Dörte Möhring")),
        ("other", "Björn Übel", "Dörte Möhring", ("Björn Uebel", "Doerte Moehring")),
    ],
)
def test_the_spelling_that_was_chosen_is_used_everywhere_and_the_other_nowhere(answer, bjorn, dorte, gone):
    got = read(ROWS, answers={BJORN: answer, DORTE: answer})
    assert [channel["by"] for channel in section(got).values()] == [bjorn, bjorn, dorte]
    assert set(section(got, "people")) == {bjorn, dorte}
    assert section(got, "covers")["c1"]["by"] == dorte and section(got, "others")["IEM 1"]["listeners"] == [dorte]
    assert not any(name in str(got.raw) for name in gone)


def test_what_the_two_rows_of_two_spellings_say_differently_is_reported():
    (finding,) = read(ROWS, answers={BJORN: "same", DORTE: "same"}).findings
    assert finding.code == "value-repaired" and "room" in finding.text and "Björn Uebel" in finding.text


def test_two_different_people_stay_two():
    got = read(ROWS, answers={BJORN: "two", DORTE: "two"})
    assert (
        set(section(got, "people")) == {"Björn Übel", "Björn Uebel", "Doerte Moehring", "Dörte Möhring"}
        and codes(got) == []
    )


def test_a_foreign_sheet_is_asked_and_not_warned_as_well(tmp_path):
    assert [finding.code for finding in show(tmp_path, ROWS).findings if "Björn" in finding.text] == ["value-asked"]


def test_a_role_spelled_two_ways_is_asked_and_written_one_way_in_its_scenes():
    rows = [
        ["Ch", "Role", "Name", "Freq"],
        [1, "Köchin", "Ann Cole", 518.2],
        [],
        ["Role", "1.1", "1.2"],
        ["Koechin", "x", "x"],
        ["Wirt", "x", None],
    ]
    question = ("person", "Koechin = Köchin")
    assert asked(read(rows)) == [question]
    got = read(rows, answers={question: "other"})
    assert section(got)["1"]["role"] == ["Köchin"] and section(got, "roles") == {"Köchin": {}, "Wirt": {}}
    assert [scene["live"] for scene in section(got, "scenes").values()] == [["Köchin", "Wirt"], ["Köchin"]]
