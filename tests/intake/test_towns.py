"""A tour's list: frequencies under the names of towns, or on a tab for each, become the venues of the show."""

import random

import pytest

from tests.intake.sheets import codes, read, read_data, read_text, section, workbook

MICS = [("1", "Ana Cole", "VERA"), ("2", "Ben Orr", "TOM"), ("3", "Cara Fox", "IDA")]
TOWNS = ("Leeds", "York", "Hull", "Bad Homburg", "Sète")
MHZ = {town: [f"{500 + 20 * at + n}.{n + 1}00" for n in range(3)] for at, town in enumerate(TOWNS)}
WORDS = ("MHz {}", "Freq {}", "{} (MHz)", "Frequenz {}", "Fréquence {}", "{} Freq.")


def _venues(got) -> dict[tuple[str, str], str]:
    assert all(one["field"] == "mhz" for one in section(got, "venues").values())
    return {(one["venue"], one["record"]): one["value"] for one in section(got, "venues").values()}


def _expected(towns) -> dict[tuple[str, str], str]:
    return {(town, mic): MHZ[town][n] for town in towns for n, (mic, *_) in enumerate(MICS)}


@pytest.mark.parametrize("seed", range(30))
def test_frequencies_that_are_headed_by_towns_are_venues_and_that_is_asked_once(seed: int) -> None:
    """A name alone is no proof: asked and granted, or plan and actual, are names of columns too."""
    chance = random.Random(seed)
    towns, word = chance.sample(TOWNS, chance.randint(2, 4)), chance.choice(WORDS)
    has_home = chance.random() < 0.5
    heads = [*(["Freq"] if has_home else []), *(word.format(town) for town in towns)]
    homes = [["600.500", "602.700", "605.900"]] if has_home else []
    values = [*homes, *(MHZ[town] for town in towns)]
    rows = [["Mic", "Name", "Role", *heads], *([*mic, *(v[n] for v in values)] for n, mic in enumerate(MICS))]
    got = read(rows)
    assert {one.kind for one in got.questions} - {"language"} == {"venue"}  # of headings in two languages
    assert _venues(got) == _expected(towns if has_home else towns[1:])
    assert [one["mhz"] for one in section(got).values()] == values[0]


def test_nothing_is_asked_where_a_head_over_them_all_says_that_they_are_towns() -> None:
    rows = [["", "", "Towns", ""], ["Mic", "Name", "MHz Leeds", "MHz York"]]
    rows += [[m[0], m[1], MHZ["Leeds"][n], MHZ["York"][n]] for n, m in enumerate(MICS)]
    got = read_data(workbook({"Tour": rows}, lambda book: book["Tour"].merge_cells("C1:D1")))
    assert not got.questions and _venues(got) == _expected(["York"])


def test_the_first_town_is_the_house_of_the_show() -> None:
    rows = [
        ["The Glass Ferry"],
        ["Mic", "Name", "MHz Leeds", "MHz York"],
        *([m[0], m[1], MHZ["Leeds"][n], MHZ["York"][n]] for n, m in enumerate(MICS)),
    ]
    assert section(read(rows), "show")["venue"] == "Leeds"


def test_names_alone_over_frequencies_are_asked_about_once_and_may_be_notes() -> None:
    rows = [
        ["Mic", "Name", "Leeds", "York"],
        *([m[0], m[1], MHZ["Leeds"][n], MHZ["York"][n]] for n, m in enumerate(MICS)),
    ]
    got = read(rows)
    (question,) = got.questions
    assert (question.kind, question.default) == ("venue", "venue") and _venues(got) == _expected(["York"])
    again = read(rows, answers={("venue", question.about): "notes"})
    assert not section(again, "venues") and "York: 520.100" in section(again)["1"]["notes"]


def test_a_town_without_a_frequency_of_a_channel_is_said_in_its_notes() -> None:
    rows = [["Mic", "Name", "MHz Leeds", "MHz York"], ["1", "Ana", "518.200", "-"], ["2", "Ben", "519.600", "521.600"]]
    got = read(rows)
    assert section(got)["1"]["notes"] == "York: no frequency in the list" and len(section(got, "venues")) == 1


def test_a_doubtful_frequency_in_a_town_is_asked_about() -> None:
    got = read_text("Mic;Name;MHz Leeds;MHz York\n1;Ana;518.200;520.200 / 522.4\n2;Ben;519.600;521.600\n")
    assert [one.kind for one in got.questions] == ["venue", "frequency"] and list(section(got, "venues")) == ["v1"]


@pytest.mark.parametrize(
    "heads",
    [
        ("Freq", "Freq 2"),
        ("Freq A", "Freq B"),
        ("Freq main", "Freq backup"),
        ("Freq mic", "Freq IEM"),
        ("Freq old", "Freq new"),
        ("Freq asked", "Freq granted"),
        ("Freq plan", "Freq actual"),
        ("Frequenz beantragt", "Frequenz zugeteilt"),
        ("Freq", "Freq scan"),
    ],
)
def test_the_two_of_a_pair_are_no_towns(heads) -> None:
    rows = [["Mic", "Name", *heads], *([m[0], m[1], MHZ["Leeds"][n], MHZ["York"][n]] for n, m in enumerate(MICS))]
    assert not section(read(rows), "venues")


def test_a_tab_for_each_town_is_offered_and_becomes_venues() -> None:
    def tab(town: str) -> list[list[str]]:
        return [["Mic", "Name", "Role", "Freq"], *([*mic, MHZ[town][n]] for n, mic in enumerate(MICS))]

    data = workbook({town: tab(town) for town in TOWNS[:3]})
    (question,) = read_data(data).questions
    assert "towns" in [choice.value for choice in question.choices]
    got = read_data(data, {("sheet", question.about): "towns"})
    assert not got.questions and _venues(got) == _expected(TOWNS[1:3])
    assert [one["mhz"] for one in section(got).values()] == MHZ["Leeds"] and "cells-unknown" not in codes(got)


def test_what_another_tab_says_beside_its_frequencies_is_not_lost_in_silence() -> None:
    one = [["Mic", "Name", "Freq", "Notes"], *([m[0], m[1], MHZ["Leeds"][n], ""] for n, m in enumerate(MICS))]
    two = [
        ["Mic", "Name", "Freq", "Notes"],
        *([m[0], m[1], MHZ["York"][n], "wig" if n else ""] for n, m in enumerate(MICS)),
    ]
    data = workbook({"Leeds": one, "York": two})
    got = read_data(data, {("sheet", "Leeds | York"): "towns"})
    assert "cells-unknown" in codes(got) and got.account["unknown"] == 2


@pytest.mark.parametrize("heads", [("Freq asked", "Freq granted"), ("Frequenz beantragt", "Frequenz zugeteilt")])
def test_what_was_granted_is_taken_before_what_was_asked_and_that_is_asked(heads) -> None:
    rows = [["Mic", "Name", *heads], *([m[0], m[1], MHZ["Leeds"][n], MHZ["York"][n]] for n, m in enumerate(MICS))]
    got = read(rows)
    assert len(got.questions) >= 1 and [one["mhz"] for one in section(got).values()] == MHZ["York"]
