"""Kinds of lists that more strangers wrote, of scenes, days and who has what when: each once, and what is true of it."""

import pytest

from tests.intake.sheets import codes, plain, read, read_data, read_text, section, workbook

RF = [["Mic", "Freq"], [1, 518.2], [2, 519.125], [3, 520.65]]


def test_a_scene_with_its_live_mics_in_one_cell_is_read_by_numbers_names_ranges_and_all():
    text = (
        'Scene,Title,Live mics\n1.1,Harbour,"1 ANNA, 2 PETER"\n1.2,Church,1-3\n2.1,Storm,all\n2.2,Snow,"3, PETER, 2 ANNA"\n'
        "\nMic,Actor,Character,Freq\n1,Ivy Rook,ANNA,470.2\n2,Sol Marsh,PETER,471.05\n3,Tilda Fenn,MAID,472.075\n"
    )
    got = read_text(text)
    everybody = ["ANNA", "PETER", "MAID"]
    live = [one["live"] for one in section(got, "scenes").values()]
    assert live == [["ANNA", "PETER"], everybody, everybody, ["MAID", "PETER", "ANNA"]]
    assert list(section(got, "moves").values()) == [{"role": "ANNA", "scene": "2.2", "channel": "2"}]


def test_a_scene_on_several_rows_has_the_people_of_all():
    text = "Scene,Character\n1,ANNA\n1,PETER\n2,ANNA\n\nMic,Actor,Character,Freq\n1,Ivy Rook,ANNA,470.2\n2,Sol Marsh,PETER,471\n"
    assert [one["live"] for one in section(read_text(text), "scenes").values()] == [["ANNA", "PETER"], ["ANNA"]]


def test_a_running_order_that_names_the_mics_of_a_list_numbers_no_channels():
    order = [
        ["#", "Award", "Presenters", "Mics", "Winner mic"],
        [1, "Best Sound", "Ana Cole & Ben Orr", "HH1, HH2", "HH3"],
        [2, "Best Light", "Cy Dunn", "HH1", "HH3"],
        [3, "Best Set", "Ana Cole, Eve Frost", "HH2, HH4", "HH3"],
    ]
    mics = [["Mic", "Freq"], ["HH1", 518.2], ["HH2", 519.125], ["HH3", 520.65], ["HH4", 522.3]]
    got = read_data(workbook({"Running order": order, "RF": mics}))
    assert sorted(section(got)) == ["HH1", "HH2", "HH3", "HH4"] and codes(got) == []
    live = {id: one["live"] for id, one in section(got, "scenes").items()}
    assert live == {
        "Best Sound": ["Ana Cole", "Ben Orr"],
        "Best Light": ["Cy Dunn"],
        "Best Set": ["Ana Cole", "Eve Frost"],
    }
    assert section(got)["HH1"]["shared"] == {"Ana Cole": "Ana Cole", "Cy Dunn": "Cy Dunn"}
    assert list(section(got, "moves").values()) == [{"role": "Ana Cole", "scene": "Best Set", "channel": "HH2"}]
    order[1][2] = "Ana Cole"
    order[1][3] = "HH1, HH2"
    order[3][2] = "Ana Cole, Eve Frost, Cy Dunn"
    assert "cells-unknown" in codes(read_data(workbook({"Running order": order, "RF": mics})))


def test_a_legend_answers_what_marks_mean_and_no_page_title_is_a_channel():
    plot = [
        ["THE TIN MOON – mic plot", None, None, None, "page 1"],
        ["#", "CHAR", "ARTIST", "I.1", "I.2"],
        [1, "ORLA", "Mina Strand", "L", "W"],
        ["THE TIN MOON – mic plot", None, None, None, "page 2"],
        ["#", "CHAR", "ARTIST", "I.1", "I.2"],
        [2, "DUKE", "Tom Corrin", "H", "L"],
        [],
        ["L = live", "W = worn, muted", "H = handheld"],
    ]
    got = read_data(workbook({"Plot": plot, "RF": RF[:3]}))
    assert list(section(got)) == ["1", "2"] and got.questions == ()
    assert [one["live"] for one in section(got, "scenes").values()] == [["ORLA", "DUKE"], ["DUKE"]]
    (said,) = got.findings
    assert said.code == "cells-unknown" and "A4" in said.text and "A8" not in said.text
    bare = read_data(workbook({"Plot": plot[:-1], "RF": RF[:3]}))
    assert [one.about for one in bare.questions] == ["L", "W", "H"]


def test_songs_down_and_handhelds_across_hold_the_names_of_who_sings():
    plot = [
        ["Song", "Lead", "HH 1", "HH 2", "HH 3", "Pack 4"],
        ["Opener", "Ria", "Ria", "Kim", None, "Max gtr"],
        ["Slow one", "Kim", None, "Kim", "Lou", "Max gtr"],
        ["Duet", "Ria+Lou", "Ria", None, "Lou", None],
    ]
    mics = [["Mic", "Freq"], ["HH 1", 486.2], ["HH 2", 487.55], ["HH 3", 488.65], ["Pack 4", 491.375]]
    got = read_data(workbook({"Setlist": plot, "Freqs": mics}))
    live = [one["live"] for one in section(got, "scenes").values()]
    assert live == [["Ria", "Kim", "Max gtr"], ["Kim", "Lou", "Max gtr"], ["Ria", "Lou"]]
    assert got.questions == () and codes(got) == ["cells-unknown"]  # who leads is said to be left out


def test_a_name_behind_a_role_in_capitals_plays_it():
    rows = [["Mic", "Sc 1", "Sc 2", "Sc 3", "Freq"], [1, "ORLA (Mina)", "ORLA (Mina)", "ORLA (qc)", 518.2]]
    got = read([*rows, [2, "DUKE (Hal)", None, "GHOST (Ted)", 519.125]])
    assert section(got, "roles") == {"ORLA": {"by": "Mina"}, "DUKE": {"by": "Hal"}, "GHOST": {"by": "Ted"}}
    assert section(got)["1"]["notes"] == "(qc) ORLA"


def test_days_over_names_beside_roles_are_performances_with_their_casts():
    rows = [["Track", "Mic", "Usual", "17 May 2027", "18 May 2027", "Freq"]]
    rows += [
        ["ORLA", 1, "Mina Strand", None, "Cat Bowe", 518.2],
        ["DUKE", 2, "Hal Corrin", "OFF – Ted Marsh", "off", 519.125],
    ]
    got = read([*rows, ["NURSE", 3, "Una Foy", "Jo Pell", None, 520.65]])
    assert section(got, "performances") == {
        "17 May 2027": {"date": "2027-05-17", "cast": {"DUKE": "Ted Marsh", "NURSE": "Jo Pell"}},
        "18 May 2027": {"date": "2027-05-18", "cast": {"ORLA": "Cat Bowe"}},
    }
    (said,) = got.findings
    assert said.code == "cells-unknown" and "nobody is named who plays" in said.text and "E3" in said.text


def test_a_rota_of_a_church_is_performances_whose_year_is_not_known():
    text = "Mic,Job,6 Dec,13 Dec\n1,Preacher,Rev Anne,Tunde Ola\n2,Worship leader,Mark Dee,Sofia Reis\n3,BV 1,Jen,-\n"
    got = read_text(text)
    assert section(got, "performances") == {
        "6 Dec": {"cast": {"Preacher": "Rev Anne", "Worship leader": "Mark Dee", "BV 1": "Jen"}},
        "13 Dec": {"cast": {"Preacher": "Tunde Ola", "Worship leader": "Sofia Reis"}},
    }
    assert got.questions == ()


def test_a_column_of_main_and_spare_pairs_the_packs_of_one_person():
    rows = [["Mic", "Name", "Main / Spare", "Freq"], [1, "Ria Tolle", "Main", 486.2], [2, "Ria Tolle", "Spare", 487.55]]
    got = section(read([*rows, [3, "Sid Vane", "Main", 492.1], [4, "Max Ruhr", "Spare", 493.4]]))
    assert {id: one.get("doubles") for id, one in got.items()} == {"1": None, "2": "1", "3": None, "4": None}


def test_a_new_frequency_holds_where_there_is_one_and_the_old_one_elsewhere():
    rows = [["Mic", "Actor", "Freq", "New freq"], [1, "Mina Strand", 518.2, None], [2, "Una Foy", 522.3, 524.975]]
    got = read(rows)
    assert [one["mhz"] for one in section(got).values()] == ["518.2", "524.975"]
    assert [(one.about, one.default) for one in got.questions] == [("new freq (second)", "newer")]
    kept = read(rows, answers={("column", "new freq (second)"): "notes"})
    assert section(kept)["2"] == {"by": "Una Foy", "mhz": "522.3", "notes": "New freq: 524.975"}


def test_the_sides_of_entrances_are_moves_where_a_row_is_of_one_scene_and_notes_elsewhere():
    rows = [["Scene", "Mic", "Character", "Enter", "Exit"], ["1", 1, "ANNA", "SL", "SR"], ["2", 1, "ANNA", "C", None]]
    got = read_data(workbook({"Cues": rows, "RF": RF}))
    assert list(section(got, "moves").values()) == [
        {"role": "ANNA", "scene": "1", "enter": "SL", "exit": "SR"},
        {"role": "ANNA", "scene": "2", "enter": "C"},
    ]
    plain_list = read([["Mic", "Character", "Freq", "Enter"], [1, "ANNA", 518.2, "SL"]])
    assert section(plain_list)["1"]["notes"] == "Enter: SL"


def test_receivers_that_count_through_their_units_number_the_channels():
    rows = [["Rack A"], ["Unit", "RX", "Label", "Freq"], [1, 1, "ORLA", 518.2], [None, 2, "DUKE", 519.125]]
    got = read([*rows, [2, 3, "NURSE", 520.65], [None, 4, "COOK", 522.3], ["Rack B"], [1, 5, "HERALD", 606.5]])
    assert [one["role"] for one in section(got).values()] == [["ORLA"], ["DUKE"], ["NURSE"], ["COOK"], ["HERALD"]]
    assert list(section(got)) == ["1", "2", "3", "4", "5"] and got.questions == ()


def test_words_over_a_frequency_head_a_list_though_few_of_them_are_known():
    rows = [["Mic", "First half", "Second half", "Part in first", "Part in second", "Zxcv", "Frequency"]]
    got = read(
        [
            *rows,
            [1, "Lila Grey", "Ivo Cole", "LION", "OWL", "red", 606.5],
            [2, "Sam Tull", "Priya Nand", "FOX", "HEN", "blue", 607.3],
        ]
    )
    assert [one["mhz"] for one in section(got).values()] == ["606.5", "607.3"] and got.questions


PARTS = {
    "Mon AM": [["Mic", "Speaker"], ["L1", "Dr Asha Rao"], ["L2", "Prof Lee Tan"]],
    "Mon PM": [["Mic", "Speaker"], ["L1", "Jan de Wit"], ["L2", "Prof Lee Tan"]],
    "Freqs": [["Mic", "MHz"], ["L1", 606.5], ["L2", 607.3]],
}


def test_two_sheets_of_one_list_may_be_parts_of_the_show():
    got = read_data(workbook(PARTS))
    (asked,) = got.questions
    assert [choice.value for choice in asked.choices] == ["Mon AM", "Mon PM", "parts"]
    both = read_data(workbook(PARTS), answers={("sheet", asked.about): "parts"})
    live = {id: one["live"] for id, one in section(both, "scenes").items()}
    assert live == {"Mon AM": ["Dr Asha Rao", "Prof Lee Tan"], "Mon PM": ["Jan de Wit", "Prof Lee Tan"]}
    assert list(section(both)["L1"]["shared"]) == ["Dr Asha Rao", "Jan de Wit"] and both.questions == ()


def test_a_word_over_the_heads_of_a_plot_is_none_of_them():
    plot = [
        [None, None, "CHARACTERS"],
        ["Sc", "Page", "DOLLY", "HORACE", "MINNIE"],
        [None, "mic", 1, 2, 3],
        [None, "actor", "Ana Cole", "Ben Orr", "Cy Dunn"],
        ["1.1", "1-4", "x", "x", None],
        ["1.2", "5", "x", None, "x"],
    ]
    got = read_data(workbook({"Plot": plot, "RF": RF}, lambda book: book["Plot"].merge_cells("C1:E1")))
    assert [one["role"] for one in section(got).values()] == [["DOLLY"], ["HORACE"], ["MINNIE"]]
    assert {id: one["live"] for id, one in section(got, "scenes").items()} == {
        "1.1": ["DOLLY", "HORACE"],
        "1.2": ["DOLLY", "MINNIE"],
    }
    assert "show" not in plain(got.raw)


def test_pairs_of_mics_and_frequencies_are_no_plot():
    text = "Presentador;Micro A;Frec. A;Micro B;Frec. B\nClara Ruiz;A1;486,200;B1;514,300\nPaco Sol;A2;487,075;B2;515,100\n"
    got = read_text(text)
    assert {id: (one["mhz"], one.get("doubles")) for id, one in section(got).items()} == {
        "A1": ("486,200", None),
        "B1": ("514,300", "A1"),
        "A2": ("487,075", None),
        "B2": ("515,100", "A2"),
    }


@pytest.mark.parametrize(
    "heads", (("Week 1", "Week 2"), ("Fri", "Sat"), ("1. Vorst.", "2. Vorst."), ("Show 1", "Show 2"))
)
def test_names_beside_roles_under_words_for_times_are_casts(heads):
    rows = [
        ["Mic", "Role", *heads, "Freq"],
        [1, "LEADER", "Mark Dee", "Sofia Reis", 606.5],
        [2, "BV", "Jen Hall", None, 607.3],
    ]
    got = read(rows)
    assert section(got, "performances") == {
        heads[0]: {"cast": {"LEADER": "Mark Dee", "BV": "Jen Hall"}},
        heads[1]: {"cast": {"LEADER": "Sofia Reis"}},
    }
    assert [one["role"] for one in section(got).values()] == [["LEADER"], ["BV"]] and got.questions == ()


def test_who_plays_the_premiere_is_the_usual_cast():
    rows = [["Rolle", "Premiere", "2. Vorst.", "Sender", "Frequenz"], ["CONTE", "Igor Blau", "Igor Blau", "S1", 470.2]]
    got = read([*rows, ["SPRECHER", "Nils Krag", "Tom Ruck", "S2", 471.05]])
    assert [one["by"] for one in section(got).values()] == ["Igor Blau", "Nils Krag"]
    assert section(got, "performances") == {"Premiere": {}, "2. Vorst.": {"cast": {"SPRECHER": "Tom Ruck"}}}


def test_a_wide_carrier_beside_frequencies_is_one():
    rows = [["Slot", "Talent", "Carrier", "Freq"], [1, "Ana Cole", "W1", 1890], [2, "Ben Orr", "W1", 1890]]
    assert [one["carrier"] for one in section(read(rows)).values()] == ["W1", "W1"]
    only = read([["Mic", "Talent", "Carrier"], [1, "Ana Cole", 518.2], [2, "Ben Orr", 519.4]])
    assert [one["mhz"] for one in section(only).values()] == ["518.2", "519.4"]


def test_pages_in_the_cells_of_a_plot_say_that_somebody_is_live_and_are_kept():
    plot = [
        ["Mic", "Role", "Act 1", "Act 2"],
        [1, "DOLLY", "p. 3–17, 20", "p. 31-40"],
        [2, "HORACE", None, "whole act"],
    ]
    got = read_data(workbook({"Plot": plot, "RF": RF}))
    assert [one["live"] for one in section(got, "scenes").values()] == [["DOLLY"], ["DOLLY", "HORACE"]]
    assert section(got)["1"]["notes"] == "Act 1: p. 3–17, 20; Act 2: p. 31-40"


def test_a_column_of_covers_may_name_the_roles_that_somebody_covers():
    rows = [["Role", "Actor", "Mic", "Freq", "Covers"], ["DOLLY", "Ana Cole", 1, 518.2, "MINNIE"]]
    got = read([*rows, ["MINNIE", "Cy Dunn", 3, 520.9, "DOLLY, COOK"]])
    found = [(one["role"], one["by"]) for one in section(got, "covers").values()]
    assert found == [("MINNIE", "Ana Cole"), ("DOLLY", "Cy Dunn"), ("COOK", "Cy Dunn")]
    assert list(section(got, "roles")) == ["COOK"]


def test_a_hyphen_within_numbers_is_their_own_and_labels_under_mic_are_numbers():
    got = read_text("Kit,Wearer,Freq\nBP-07,Ana Cole,518.2\nBP-11,Ben Orr,519.4\nHH-03,Cy Dunn,520.9\n")
    assert list(section(got)) == ["BP-07", "BP-11", "HH-03"] and got.questions == ()
    got = read_text("Mic,Official,Freq\nREF A,K. Aboud,518.2\nREF B,S. Lindh,519.4\n4th,P. Nowak,521.05\n")
    assert {id: one["by"] for id, one in section(got).items()} == {
        "REF A": "K. Aboud",
        "REF B": "S. Lindh",
        "4th": "P. Nowak",
    }


@pytest.mark.parametrize("text", ("470,200 (K21)", "K21 / 470,200", "TV 21 - 470,200", "470,200 [tv ch 21]"))
def test_a_television_channel_beside_a_frequency_is_no_second_one(text):
    got = read_text(f"Mic;Name;Freq\n1;Jo Wirt;{text}\n")
    assert section(got)["1"]["mhz"] == "470,200" and codes(got) == ["value-repaired"]


def test_scenes_with_lists_of_who_is_on_are_no_plot_whatever_is_counted_beside_them():
    scenes = [
        ["Scene", "Who is on", "Mics needed"],
        ["1 Market", "Dolly, Horace", 2],
        ["2 Shop", "Minnie", 1],
        ["3 Finale", "everyone", 3],
    ]
    mics = [["Mic", "Actor", "Part", "Freq"], [1, "Ana Cole", "Dolly", 606.5], [2, "Ben Orr", "Horace", 607.3]]
    got = read_data(workbook({"Scenes": scenes, "Mics": [*mics, [3, "Cy Dunn", "Minnie", 608.9]]}))
    live = [one["live"] for one in section(got, "scenes").values()]
    assert live == [["Dolly", "Horace"], ["Minnie"], ["Dolly", "Horace", "Minnie"]]
    assert list(section(got)) == ["1", "2", "3"] and got.questions == () and codes(got) == ["cells-unknown"]


def test_compounds_of_frequency_and_the_german_word_for_a_radio_mic_head_a_list():
    got = read_text(
        "Mikroport;Künstler;Sendefrequenz;Beltpack-Nr.\nMP1;Anna Vell;518.200;BP1\nMP2;Igor Blau;519.125;BP2\n"
    )
    assert {id: (one["mhz"], one["pack"]) for id, one in section(got).items()} == {
        "MP1": ("518.200", "BP1"),
        "MP2": ("519.125", "BP2"),
    }
