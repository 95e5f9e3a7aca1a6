"""Numbers whose unit cannot be meant, presets and television channels that look like carriers, letters of old encodings."""

import pytest

from tests.intake.sheets import asked, mhz, read, read_text, section

NAMES = ("Mara Lind", "Max Ried", "Ana Cole", "Tomas Quell", "Rhea Lund")


def rows(*values, head="Freq"):
    return [["Ch", "Actor", head], *([n, NAMES[n - 1], value] for n, value in enumerate(values, 1))]


@pytest.mark.parametrize(
    ("values", "head", "about", "first"),
    [
        (("518.200 kHz", "519.400 kHz"), "Freq", "khz", ["518.200", "519.400"]),
        (("518.2 Hz", "519.4 Hz"), "Freq", "hz", ["518.2", "519.4"]),
        (("518200 MHz", "519400 MHz"), "Freq", "mhz", ["518.200", "519.400"]),
        (("518.2", "519.4"), "Freq (kHz)", "heading khz", ["518.2", "519.4"]),
        (("38", "39", "40"), "Freq", "television", ["38", "39", "40"]),
        (("101", "102", "103"), "Freq", "band", ["101", "102", "103"]),
        (("04.10", "04.11", "04.12"), "Freq", "preset", None),
    ],
)
def test_a_column_full_of_one_doubt_is_asked_about_once_and_blank_until_then(values, head, about, first):
    got = read(rows(*values, head=head))
    assert asked(got) == [("unit", about)] and mhz(got) == [None] * len(values)
    choices = [choice.value for choice in got.questions[0].choices]
    assert choices == (["first", "?"] if first else ["?"])
    if first:
        assert mhz(read(rows(*values, head=head), answers={("unit", about): "first"})) == first
    blank = read(rows(*values, head=head), answers={("unit", about): "?"})
    assert mhz(blank) == [None] * len(values) and blank.questions == ()
    assert [one["notes"] for one in section(blank).values()] == [f"{head}: {value}" for value in values]


@pytest.mark.parametrize(
    ("value", "offered"),
    [
        ("51.82", "518.200"),
        ("5182", "518.200"),
        ("104", "104"),
        ("52O.1", "520.1"),
        ("5l8.2", "518.2"),
        ("518.2OO", "518.200"),
        ("518.2??", "518.2"),
        ("38", "38"),
    ],
)
def test_one_that_is_not_like_the_others_is_asked_with_the_likely_reading(value, offered):
    got = read(rows("518.2", "519.4", value, "520.9", "521.6"))
    assert asked(got) == [("frequency", f"3: {value}")] and mhz(got)[2] is None
    assert got.questions[0].choices[0].value == offered


@pytest.mark.parametrize("text", ["38??", "ch 38??", "38 ?"])
def test_a_television_channel_with_a_question_mark_is_said_to_be_one(text):
    got = read(rows("518.2", text))
    assert "television channel 38" in got.questions[0].text and [c.value for c in got.questions[0].choices] == ["?"]


@pytest.mark.parametrize("text", ["36.7", "174.5", "606.5", "863.5", "1350.1", "1795.0", "1880.064", "2402.0"])
def test_what_is_in_some_band_of_radios_is_taken_as_it_is(text):
    assert mhz(read(rows(text, "606.9")))[0] == text


LIST = (
    "Nr;Darsteller;Rolle;Frequenz\n1;Jörg Weißbach;Wärter;470,200\n2;Änne Groß;Möwe;471,050\n3;Zoë Çelik;Café;472,100\n"
)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252", "mac_roman", "cp850"])
def test_the_letters_of_a_list_are_those_that_were_typed_and_an_old_encoding_is_asked_about(encoding):
    got = read_text(LIST.encode(encoding))
    assert [one["by"] for one in section(got).values()] == ["Jörg Weißbach", "Änne Groß", "Zoë Çelik"]
    kinds = [question.kind for question in got.questions if question.kind != "language"]
    assert kinds == (["encoding"] if encoding in ("mac_roman", "cp850") else [])


def test_another_encoding_can_be_answered():
    got = read_text(LIST.encode("mac_roman"), {("encoding", "file"): "cp1252"})
    assert section(got)["1"]["by"] == LIST.split(";")[4].encode("mac_roman").decode("cp1252")


@pytest.mark.parametrize("codec", ["cp1252", "mac_roman", "cp850"])
def test_letters_that_were_saved_in_two_ways_are_mended_and_asked_about(codec):
    wrong = "Zoë Müller".encode().decode(codec)
    got = read([["Ch", "Actor", "Freq"], [1, wrong, 518.2], [2, "Max Ried", 519.4]])
    assert section(got)["1"]["by"] == "Zoë Müller" and [q.kind for q in got.questions] == ["encoding"]
