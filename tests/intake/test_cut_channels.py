"""Channels that a list marks as cut: asked, left out of every table until it is answered, and never in silence."""

import pytest

from paperwork.text.vocabulary import listed_words
from tests.intake.sheets import codes, plain, read, read_data, section, workbook

HEAD = ["Mic", "Actor", "Role", "Freq", "Status"]
ROWS = [
    HEAD,
    [1, "Mina Strand", "ORLA", 518.2, "live"],
    [2, "Hal Corrin", "DUKE", 519.125, "CUT"],
    [3, "Una Foy", "NURSE", 520.65, "ok"],
]


def marked(word, heading="Status"):
    return [[*HEAD[:4], heading], *([*row[:4], word if row[0] == 2 else row[4]] for row in ROWS[1:])]


@pytest.mark.parametrize("word", sorted(listed_words("cut_channel")))
def test_a_channel_marked_as_cut_is_asked_about_and_left_out_until_it_is_answered(word):
    for text in (word, word.upper(), f"{word} 12/3"):
        got = read(marked(text))
        assert list(section(got)) == ["1", "3"] and codes(got) == ["value-taken"]
        assert [(one.kind, one.about, one.default) for one in got.questions] == [("cut", f"Status: {text}", "cut")]
        assert "Hal Corrin" not in str(plain(got.raw)) and got.account["cut"] == 5


def test_an_answer_keeps_it_on_the_air_with_the_word_in_its_notes():
    got = read(ROWS, answers={("cut", "Status: CUT"): "keep"})
    assert section(got)["2"]["notes"] == "Status: CUT" and section(got)["2"]["mhz"] == "519.125" and codes(got) == []


def test_a_channel_that_one_table_calls_cut_is_brought_back_by_no_other():
    mics = [[*row[:3], row[4]] for row in ROWS]
    frequencies = [["Mic", "Freq"], ["01", 518.2], ["02", 519.125], ["03", 520.65]]
    for sheets in ({"Mics": mics, "RF": frequencies}, {"RF": frequencies, "Mics": mics}):
        got = read_data(workbook(sheets))
        assert sorted(key.lstrip("0") for key in section(got)) == ["1", "3"] and codes(got).count("value-taken") >= 1


def test_one_word_beside_several_channels_is_one_question():
    got = read([*ROWS, [4, "Bo Lind", "COOK", 522.1, "CUT"]])
    (asked,) = got.questions
    assert asked.text == '"CUT" is beside channels 2 and 4' and list(section(got)) == ["1", "3"]


@pytest.mark.parametrize(
    "text", ["cut the cable short", "haircut in act 2", "outside left", "out of breath", "shortcut"]
)
def test_a_note_that_says_more_is_a_note(text):
    got = read(marked(text, "Notes"))
    assert section(got)["2"]["notes"] == text and got.questions == ()


def test_out_beside_in_is_a_way_and_no_end():
    rows = marked("out", "Way")
    rows[1][4] = "in"
    assert "2" in section(read(rows)) and not [one for one in read(rows).questions if one.kind == "cut"]
    rows[3][4] = "cut"
    assert list(section(read(rows))) == ["1", "2"]


def test_an_in_ear_of_the_same_number_stays():
    rows = [[*row[:1], kind, *row[1:]] for row, kind in zip(ROWS, ["Type", "Mic", "Mic", "Mic"], strict=True)]
    got = read([*rows, [2, "IEM", "Hal Corrin", "DUKE", 640.5, "ok"]])
    assert list(section(got)) == ["1", "3"] and [one["mhz"] for one in section(got, "others").values()] == ["640.5"]
