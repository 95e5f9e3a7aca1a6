"""Frequencies as sheets hold them: accepted, accepted with a note, asked, or refused at their cell. Cases 1 to 25 of `CASES.md`."""

import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.styles import Font

from paperwork.reading import blank_doubted
from paperwork.text.units import parse_frequency
from tests.intake.sheets import asked, codes, mhz, read, read_text, section, show

HEAD = ["Ch", "Actor", "Freq"]
NAMES = ("Mara Lind", "Max Ried", "Ana Cole", "Tomas Quell", "Rhea Lund")


def rows(*values):
    return [HEAD, *([number, NAMES[number - 1], value] for number, value in enumerate(values, 1))]


def hz(got):
    return [parse_frequency(value) if value else None for value in mhz(got)]


def test_01_decimal_comma_beside_semicolons_is_accepted_and_the_locale_is_said_once():
    got = read_text("Ch;Actor;Freq\n1;Mara Lind;518,200\n2;Max Ried;519,400\n")
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == []
    assert sum("decimal comma" in line for line in got.lines) == 1


def test_02_point_and_comma_in_one_column_are_both_read_and_reported():
    got = read(rows("518.200", "518,600"))
    assert hz(got) == [518_200_000, 518_600_000] and codes(got) == ["value-repaired"]
    assert "decimal comma" in got.findings[0].text and '"518,600"' in got.findings[0].text
    assert mhz(got) == ["518.200", "518.600"] and mhz(read(rows("518,200", "518,600"))) == ["518,200", "518,600"]


@pytest.mark.parametrize("number_format", ["0.000 MHz", "0.000 kHz", "0 d", "s0", "Standard"])
def test_04_a_number_that_its_format_shows_as_a_date_is_recovered(number_format):
    got = read(rows(518.2, 519.4), lambda sheet: setattr(sheet["C2"], "number_format", number_format))
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == ["value-repaired"]


def test_04_a_frequency_stored_under_a_true_date_format_is_recovered_too():
    got = read(rows(518.2, 519.4), lambda sheet: setattr(sheet["C2"], "number_format", "d-mmm-yy"))
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == ["value-repaired"]


def test_05_a_number_of_kilohertz_is_taken_as_such_with_a_note():
    got = read(rows(518200, 519400))
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == ["value-repaired"]
    assert (
        '"518200" \N{RIGHTWARDS ARROW} "518.200" at C2 (518200 MHz is no carrier, 518200 kHz is 518.200 MHz)'
        in got.findings[0].text
    )


def test_07_a_mixed_column_is_read_value_by_value_and_each_repair_is_listed():
    got = read(rows(518.2, 518400, "0.5186"))
    assert hz(got) == [518_200_000, 518_400_000, 518_600_000]
    text = " ".join(finding.text for finding in got.findings)
    assert codes(got) == ["value-repaired"] * 2 and "C3" in text and "C4" in text and "C2" not in text


def test_08_units_however_written_are_accepted():
    got = read(rows("518.200MHz", "518.400 Mhz.", "518.600 mhz "))
    assert hz(got) == [518_200_000, 518_400_000, 518_600_000] and codes(got) == []


@pytest.mark.parametrize("text", ["1.518,200", "1,518.200"])
def test_10_two_separators_are_asked_and_both_readings_said(text):
    got = read(rows(text, "519.4"))
    assert asked(got) == [("frequency", f"1: {text}")] and mhz(got) == [None, "519.4"]
    (question,) = got.questions
    assert "1518.200 MHz" in question.text and "1.5182" in question.text and "518.200" in question.text


@pytest.mark.parametrize("space", ["\u202f", "\u00a0", "'"])
def test_11_digits_in_groups_are_kilohertz_with_a_note(space):
    got = read(rows(f"518{space}200", "519.4"))
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == ["value-repaired"]


def test_13_off_the_step_is_an_error_that_offers_the_neighbours(tmp_path):
    reading = show(tmp_path, [[*HEAD, "Step"], [1, "Mara Lind", 518.2125, "25 kHz"], [2, "Max Ried", 530.0, "25 kHz"]])
    (finding,) = [f for f in reading.findings if f.code == "frequency-off-step"]
    assert finding.place.cell == "C2" and "518.200" in finding.fix and "518.225" in finding.fix


@pytest.mark.parametrize("text", ["518.2 / 520.4", "518.2\N{RIGHTWARDS ARROW}520.4", "518.2 (alt 520.4)"])
def test_14_two_frequencies_in_a_cell_are_asked(text, tmp_path):
    got = read(rows(text, "530"))
    assert asked(got) == [("frequency", f"1: {text}")]
    assert [choice.value for choice in got.questions[0].choices] == ["518.2", "520.4", "both", "?"]
    reading = show(tmp_path, rows(text, "530"))
    assert [f.code for f in reading.findings] == ["frequency-asked"]
    shown = blank_doubted(reading.show, reading.findings)
    assert [channel.hz for channel in shown.channels.values()] == [None, 530_000_000]


def test_14_the_answer_both_makes_two_packs_of_it():
    got = read(rows("518.2 / 520.4", "530"), answers={("frequency", "1: 518.2 / 520.4"): "both"})
    assert asked(got) == [] and section(got)["1B"] == {"by": "Mara Lind", "mhz": "520.4", "doubles": "1"}


def test_15_struck_old_text_beside_the_new_is_left_out_with_a_note():
    def strike(sheet):
        sheet["C2"] = CellRichText(TextBlock(InlineFont(strike=True), "517.0"), " 518.2")

    got = read(rows("x", "519.4"), strike)
    assert hz(got) == [518_200_000, 519_400_000] and codes(got) == ["value-repaired"]


def test_16_a_cell_struck_through_is_asked(tmp_path):
    got = read(rows("518.2", "519.4"), lambda sheet: setattr(sheet["C2"], "font", Font(strike=True)))
    assert asked(got) == [("struck", "1: 518.2")] and mhz(got) == [None, "519.4"]
    assert codes(got) == ["frequency-asked"]


@pytest.mark.parametrize("text", ["G2 Ch 04", "38-4", "B:05", "Gr 2/3"])
def test_17_a_group_and_channel_is_asked_and_no_frequency_invented(text):
    got = read(rows(text, "519.4"))
    assert asked(got) == [("frequency", f"1: {text}")] and mhz(got) == [None, "519.4"]


@pytest.mark.parametrize("text", ["same as 1", "ditto", '"', "idem"])
def test_19_a_reference_is_resolved_and_the_double_is_seen(text, tmp_path):
    got = read(rows("518.2", text))
    assert hz(got) == [518_200_000] * 2 and codes(got) == ["value-repaired"]
    assert "carrier-doubled" in codes(show(tmp_path, rows("518.2", text)))


def test_19_a_plain_formula_is_followed():
    assert hz(read(rows(518.2, "=C2"))) == [518_200_000] * 2


def test_19_a_reference_to_nothing_is_asked():
    assert asked(read(rows("same as 9", "519.4"))) == [("frequency", "1: same as 9")]


def test_20_a_formula_that_was_never_calculated_is_an_error_with_the_remedy():
    got = read(rows(518.2, "=C2+0.4"))
    (finding,) = got.findings
    assert (finding.code, finding.place.cell, finding.severity) == (
        "cell-formula",
        "C3",
        "error",
    ) and "save" in finding.fix
    assert mhz(got) == ["518.2", None]


def test_22_a_frequency_outside_its_television_channel_is_an_error_at_its_cell():
    got = read(
        [
            ["Ch", "Actor", "Freq", "TV"],
            [1, "Mara Lind", 606.5, 38],
            [2, "Max Ried", 518, 38],
            [3, "Ana Cole", 607.1, "38"],
        ]
    )
    (finding,) = got.findings
    assert (finding.code, finding.place.cell, finding.severity) == ("frequency-against-tv", "C3", "error")


def test_23_full_width_figures_are_accepted():
    got = read(rows("\uff15\uff11\uff18\uff0e\uff12\uff10\uff10", "519.4"))
    assert hz(got)[0] == 518_200_000 and codes(got) == []


@pytest.mark.parametrize("value", [0, -518.2, 5182, "\u2212518.2"])
def test_25_what_no_radio_can_be_on_is_an_error_at_its_cell_and_can_be_settled(value, tmp_path):
    reading = show(tmp_path, rows(value, 519.4))
    (finding,) = reading.findings
    assert (finding.code, finding.place.cell, finding.severity) == ("frequency-asked", "C2", "error")
    settled = read(rows(value, 519.4), answers={asked(read(rows(value, 519.4)))[0]: "518.2"})
    assert hz(settled) == [518_200_000, 519_400_000] and settled.findings == ()


@pytest.mark.parametrize("text", ["Ch 38", "K 38", "Kanal 38", "TV38", "banana", "soon", "0.000", "5182.00.1"])
def test_what_is_no_frequency_is_asked_and_none_is_offered(text):
    got = read(rows(text, "519.4"))
    assert asked(got) == [("frequency", f"1: {text}")] and mhz(got) == [None, "519.4"]
    assert [choice.value for choice in got.questions[0].choices] == ["?"] and got.questions[0].typed == "frequency"


@pytest.mark.parametrize("text", ["~523", "banana", "518.2 / 520.4", "struck"])
def test_a_frequency_that_is_asked_is_not_reported_as_forgotten_too(text, tmp_path):
    def strike(sheet):
        sheet["C2"].font = Font(strike=text == "struck")

    reading = show(tmp_path, rows("519.9" if text == "struck" else text, 521.4, 523.9), strike)
    assert codes(reading) == ["frequency-asked"] and reading.show.channels["1"].hz is None


def test_a_frequency_that_another_table_gives_holds_though_this_one_asks():
    got = read([*rows("518.2", "519.4"), [], ["RF", "MHz"], [1, "~518.3"], [2, "519.4"]])
    assert mhz(got) == ["518.2", "519.4"] and asked(got) == [("frequency", "1: ~518.3")]


def test_a_point_in_the_wrong_place_is_asked():
    got = read(rows(518.2, 519.4, 51.82, 522.1, 523.6))
    assert asked(got) == [("frequency", "3: 51.82")] and got.questions[0].choices[0].value == "518.200"


def test_float_noise_is_no_other_frequency():
    got = read(rows(518.19999999999993, "5.194E+02"))
    assert hz(got) == [518_200_000, 519_400_000]


def test_a_ditto_mark_repeats_its_own_column_and_not_the_second_pack_of_its_row():
    rows = [["Ch", "Name", "Freq", "Freq 2"], [1, "Ann Lee", 518.2, 520.4], [2, "Bo Ray", '"', 522.6]]
    got = read(rows)
    for question in got.questions:
        got = read(rows, answers={(question.kind, question.about): "second"})
    assert section(got)["2"]["mhz"] == "518.2"
