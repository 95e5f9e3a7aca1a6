"""Kinds of lists that strangers wrote: what a heading, a row and a tab are when nobody wrote them for a machine."""

from paperwork.reading import read_show
from tests.intake.sheets import codes, plain, read, read_data, read_text, section, workbook

HEAD = ["Mic", "Artist", "Character", "Freq"]


def test_a_role_called_mother_over_ticks_is_a_row_of_the_plot_and_no_private_column():
    plot = [
        [None, "Act 1", None, None, "Act 2"],
        [None, "1 Prol", "2 Market", "3 Forge", "4 Snow"],
        ["CINDER", "x", "x", None, "x"],
        ["MOTHER", "x", None, "x", "x"],
        ["SALT", None, "x", None, "x"],
    ]
    rows = [
        HEAD,
        [1, "Nell Barlow", "CINDER", 606.2],
        [2, "Ivy Marsh", "MOTHER", 607.8],
        [3, "Osric Pine", "SALT", 609.7],
    ]
    got = read_data(workbook({"Mics": rows, "Plot": plot}))
    live = [one["live"] for one in section(got, "scenes").values()]
    assert live == [["CINDER", "MOTHER"], ["CINDER", "SALT"], ["MOTHER"], ["CINDER", "MOTHER", "SALT"]]
    assert "personal-left" not in codes(got) and got.questions == ()


def test_a_number_before_a_column_without_a_heading_is_of_the_table():
    rows = [["Mic", None, "Artist", "Freq"], [1, "A", "Nell Barlow", 606.2], [2, "A", "Osric Pine", 607.8]]
    assert list(section(read(rows))) == ["1", "2"]


def test_a_mic_that_its_wearer_takes_again_later_is_not_asked_about():
    rows = [["Hora", "Ponente", "Micro", "Frecuencia"], ["09:00", "Elena Ruiz", 1, 554.2]]
    got = read([*rows, ["10:15", "Lucía Mora", 2, 557.1], ["12:30", "Elena Ruiz", 1, 554.2]])
    assert {id: one["by"] for id, one in section(got).items()} == {"1": "Elena Ruiz", "2": "Lucía Mora"}
    assert got.questions == () and all(time in section(got)["1"]["notes"] for time in ("09:00", "12:30"))
    other = read([*rows, ["12:30", "Elena Ruiz", 1, 561.2]])
    assert [one.kind for one in other.questions] == ["channel-twice"]


def test_the_channel_of_a_desk_is_its_input_and_no_television_channel():
    rows = [["Micro", "Frecuencia", "Canal mesa"], ["Solapa 1", 554.2, 21], ["Solapa 2", 557.1, 22]]
    assert section(read(rows), "racks")["RX"]["analogue 1"] == "FOH 21, FOH 22"


def test_names_under_an_unknown_heading_are_asked_about_though_a_spare_is_among_them():
    rows = [["Mic", "Zxcv", "Freq"], [1, "Joos Maes", 518.2], [2, "Lien De Wolf", 519.4], [3, "reserve", 521.0]]
    assert [one.about for one in read(rows).questions] == ["zxcv"]


def test_an_older_tab_is_in_the_reading_and_an_answer_brings_it_back():
    old = [HEAD, [1, "Anna Alt", "CINDER", 606.2], [9, "Ben Byrne", "SALT", 630.5]]
    data = workbook({"Mics": [HEAD, [1, "Nell Barlow", "CINDER", 606.2]], "Mics alt": old})
    got = read_data(data)
    (made,) = [one for one in got.decisions if one.about == "Mics alt" and one.kind == "sheet"]
    assert made.value == "leave" and list(section(got)) == ["1"]
    assert not any(one.place.sheet == "Mics alt" and one.kind == "column" for one in got.decisions)
    again = read_data(data, answers={("sheet", "Mics alt"): "use"})
    assert list(section(again)) == ["1", "9"]


def test_an_ambiguous_date_is_read_the_way_of_a_dutch_list_without_a_question():
    rows = [
        ["Kerstgala"],
        ["Datum: 4-3-2027"],
        [],
        ["Zender", "Speler", "Rol", "Frequentie"],
        [1, "Joos Maes", "HERDER", 518.2],
    ]
    got = read(rows)
    assert plain(got.raw)["show"]["revised"] == "2027-03-04" and got.questions == ()


ENSEMBLE = [[1, "Nell Barlow", "CINDER", 606.2], [2, "Tia Moss", "VILLAGER", 607.8], [3, "Joe Lark", "VILLAGER", 609.7]]


def test_one_role_of_several_people_is_numbered_a_group_in_plots_and_stops_no_paper(tmp_path):
    plot = [[None, "1 Prol", "2 Market", "3 Forge"], ["CINDER", "x", None, "x"], ["VILLAGER", None, "x", "x"]]
    got = read_data(workbook({"Mics": [HEAD, *ENSEMBLE], "Plot": plot}))
    assert [one["role"] for one in section(got).values()] == [["CINDER"], ["VILLAGER 1"], ["VILLAGER 2"]]
    assert section(got, "roles")["VILLAGER"] == {"group": ["VILLAGER 1", "VILLAGER 2"]}
    assert codes(got) == ["value-repaired"] and '"VILLAGER" \u2192 "VILLAGER 1, VILLAGER 2"' in got.findings[0].text
    (tmp_path / "list.xlsx").write_bytes(workbook({"Mics": [HEAD, *ENSEMBLE], "Plot": plot}))
    reading = read_show(tmp_path / "list.xlsx", "list.xlsx")
    assert [scene.live for scene in reading.show.scenes] == [
        ("CINDER",),
        ("VILLAGER 1", "VILLAGER 2"),
        ("CINDER", "VILLAGER 1", "VILLAGER 2"),
    ]


def test_ticks_beside_people_of_one_role_are_each_their_own():
    head = [*HEAD, "Sc 1", "Sc 2"]
    got = read([head, [*ENSEMBLE[0], "x", "x"], [*ENSEMBLE[1], "x", None], [*ENSEMBLE[2], None, "x"]])
    assert [one["live"] for one in section(got, "scenes").values()] == [
        ["CINDER", "VILLAGER 1"],
        ["CINDER", "VILLAGER 2"],
    ]


def test_a_list_whose_first_heading_may_be_that_of_scenes_is_no_plot_that_lies_on_its_side():
    got = read_text(
        "Act;Stage;Mic;Freq;IEM;IEM Freq\nRed Harbour;Main;Lead vox;530.200;Singer;540.100\n"
        "Red Harbour;Main;BV;531.400;Bass;541.300\nThe Lowlands;Tent;Lead;533.100;Singer;543.700\n"
        "The Lowlands;Tent;Gtr;534.900;;\n"
    )
    assert not section(got, "scenes") and not any(question.kind == "mark" for question in got.questions)


def test_remarks_on_the_scenes_of_a_plot_are_no_role():
    rows = [["Scene", "MIRA", "OTTO", "SAGE", "Notes"], ["1.1", "x", "", "", ""], ["1.2", "x", "x", "", "quick"]]
    got = read([*rows, ["2.1", "", "x", "x", ""], ["Finale", "x", "x", "x", ""]])
    assert section(got, "scenes")["1.2"]["live"] == ["MIRA", "OTTO"] and "Notes" not in section(got, "roles")
    assert not got.questions and "cells-unknown" in codes(got)


def test_what_is_heard_beside_a_microphone_is_no_other_town():
    got = read_text(
        "Position,Name,TX,Freq MHz,IFB freq\nTouchline,Kit Vale,A1,654.300,662.100\nBox,Ray Dunn,A2,655.700,663.5\n"
    )
    assert not section(got, "venues") and not got.questions
    assert [one["mhz"] for one in section(got, "others").values()] == ["662.100", "663.5"]


def test_two_mics_of_one_type_are_both_of_that_radio_type_and_no_cell_of_them_is_lost():
    got = read_text("Strecke;Name;Art;Frequenz\nF1;Ute Lang;Hand;562,400\nF2;Jens Korn;Hand;563,900\n")
    assert [one["radio"] for one in section(got).values()] == ["handheld", "handheld"] and "unknown" not in got.account
