"""Kinds of lists that more strangers wrote, for schools, tours, sport and studios: each once, and what is true of it."""

import pytest

from paperwork.text.vocabulary import listed_words
from tests.intake.sheets import codes, plain, read, read_data, read_text, section, workbook

RF = [["Mic", "Freq"], [1, 518.2], [2, 519.125], [3, 520.65]]


def test_a_scene_that_is_written_once_is_that_of_all_rows_below_it():
    plot = [
        ["Act", "Scene", "Mic", "Role", "Actor"],
        ["1", "Market", 1, "ORLA", "Mina Strand"],
        [None, None, 2, "DUKE", "Hal Corrin"],
        [None, "Forge", 1, "ORLA", "Mina Strand"],
        [None, None, 3, "NURSE", "Una Foy"],
        ["2", "Snow", 2, "DUKE", "Hal Corrin"],
        [None, None, 3, "NURSE", "Una Foy"],
    ]
    got = read_data(workbook({"Plot": plot, "RF": RF}))
    live = {id: one["live"] for id, one in section(got, "scenes").items()}
    assert live == {"Market": ["ORLA", "DUKE"], "Forge": ["ORLA", "NURSE"], "Snow": ["DUKE", "NURSE"]}
    assert got.questions == () and not got.findings


def test_a_scene_beside_each_channel_that_is_left_blank_is_no_scene():
    rows = [["Mic", "Actor", "Role", "Freq", "Scenes"], [1, "Mina Strand", "ORLA", 518.2, "1, 2"]]
    got = read([*rows, [2, "Hal Corrin", "DUKE", 519.125, None], [3, "Una Foy", "NURSE", 520.65, "2"]])
    assert [one["live"] for one in section(got, "scenes").values()] == [["ORLA"], ["ORLA", "NURSE"]]


def test_who_is_in_all_scenes_makes_no_scene_called_all():
    rows = [["Mic", "Actor", "Role", "Freq", "Scenes"], [1, "Mina Strand", "ORLA", 518.2, "all"]]
    got = read([*rows, [2, "Hal Corrin", "DUKE", 519.125, "1, 3"], [3, "Una Foy", "NURSE", 520.65, "2-3"]])
    live = {id: one["live"] for id, one in section(got, "scenes").items()}
    assert live == {"1": ["ORLA", "DUKE"], "2": ["ORLA", "NURSE"], "3": ["ORLA", "DUKE", "NURSE"]}
    alone = read([*rows, [2, "Hal Corrin", "DUKE", 519.125, "all"]])
    assert "scenes" not in plain(alone.raw)


def test_in_ears_and_intercom_are_told_by_their_type_and_a_commentator_is_none():
    rows = [
        ["ID", "Type", "User", "Freq MHz", "TV ch"],
        ["A1", "Mic", "Dana Wills", 518.2, 27],
        ["B1", "IEM", "Dana Wills", 534.6, 29],
        ["C1", "Intercom", "Floor manager", 542.1, 30],
        ["COMM 1", "HH", "Rui Esteves", 526.25, 28],
    ]
    got = read(rows)
    assert list(section(got)) == ["A1", "COMM 1"] and codes(got) == []
    assert {id: one["kind"] for id, one in section(got, "others").items()} == {"B1": "in-ear", "C1": "intercom"}


def test_labels_of_rows_number_channels_where_nothing_else_does():
    rows = [["Pos", "Name", "Freq", "Audio to"], ["REF 1", "K. Aboud", 518.2, "OB 1"]]
    got = read([*rows, ["COACH H", "M. Duarte", 521.05, "OB 3"], ["COACH A", "P. Nowak", 523.875, "OB 4"]])
    assert list(section(got)) == ["REF 1", "COACH H", "COACH A"] and got.questions == ()
    assert section(got)["REF 1"]["notes"] == "Audio to: OB 1"


def test_mics_across_number_the_channels_before_their_packs_do():
    rows = [
        [None, "Mic 1", "Mic 2", "Mic 3"],
        ["Singer", "Ria Tolle", "Max Ruhr", "Sid Vane"],
        ["Frequency", 486.2, 487.55, 488.65],
        ["Pack", "P7", "P8", "P9"],
    ]
    got = section(read(rows))
    assert {id: one["pack"] for id, one in got.items()} == {"Mic 1": "P7", "Mic 2": "P8", "Mic 3": "P9"}


def test_in_ears_beside_the_microphones_keep_their_names():
    rows = [["Radio mics", None, None, None, "In-ears"], ["Mic", "Who", "Freq", None, "Mix", "Who", "Freq"]]
    rows += [
        [1, "Ria Tolle", 486.2, None, "IEM 1", "Ria Tolle", 534.6],
        [2, "Max Ruhr", 487.55, None, "IEM 2", "Drums", 536.15],
    ]
    got = read(rows)
    assert list(section(got)) == ["1", "2"] and list(section(got, "others")) == ["IEM 1", "IEM 2"]
    assert got.questions == ()


def test_a_list_all_of_whose_headings_are_misspelled_is_a_list():
    rows = [["Micropone", "Charcter", "Acter", "Frequncy", "Recever"], [1, "ORLA", "Mina Strand", 518.2, "R1/1"]]
    old = [["Mic", "Character", "Actor", "Freq"], [1, "ORLA", "Sam Vell", 600.1]]
    got = read_data(workbook({"mics 2": [*rows, [2, "DUKE", "Hal Corrin", 519.125, "R1/2"]], "mics old": old}))
    assert [one["mhz"] for one in section(got).values()] == ["518.2", "519.125"]
    assert section(got, "racks") == {"R1": {"slots": "2"}}


@pytest.mark.parametrize(
    "heading", ("Mic", "Character", "Performer", "MHz", "Capsule", "Receiver", "Frequency", "Serial")
)
@pytest.mark.parametrize("place", range(1, 9))
def test_a_misspelled_heading_beside_the_same_one_is_read_or_asked_about(heading, place):
    """Whichever letter is left out, nothing of either column is lost in silence."""
    twin = heading[:place] + heading[place + 1 :]
    rows = [["Ch", heading, twin, "Role"], [1, "518.2", "519.1", "ORLA"], [2, "518.6", "520.3", "DUKE"]]
    got = read(rows)
    empty = read([rows[0], *([*row[:2], None, row[3]] for row in rows[1:])])  # a column to be filled in
    assert len(section(empty)) == 2
    said = f"{section(got)} {section(got, 'racks')} {section(got, 'capsules')} {[one.text for one in got.findings]}"
    assert "519.1" in said or any(twin in one.text for one in got.questions), said


def test_letters_that_no_name_has_are_asked_with_the_likely_ones():
    text = "Kanal;Rolle;Darsteller;Frequenz\n1;Wirt;Jürgen Höß;470,200\n2;Vogt;Öner Şen;471,050\n"
    got = read_text(text.encode("cp1254"))
    (asked,) = got.questions
    assert (asked.kind, asked.default) == ("encoding", "cp1254") and "gives Ş" in asked.text
    assert section(got)["2"]["by"] == "Öner Şen"
    assert [q.kind for q in read_text(text.replace("Ş", "Sch").encode("cp1252")).questions] == []


def test_a_number_far_below_all_frequencies_is_asked_about():
    rows = [["Mic", "Name", "Freq"], *([n, f"Ana Cole {n}", 486.2 + n] for n in range(1, 5)), [5, "Hal Ives", 38.5]]
    assert [(one.kind, one.about) for one in read(rows).questions] == [("frequency", "5: 38.5")]
    assert read([rows[0], [1, "Ana Cole", 37.1], [2, "Hal Ives", 38.5]]).questions == ()


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("asthma – no chest strap", "… – no chest strap"),
        ("pack on the right, pacemaker!", "pack on the right, …!"),
        ("gives mic to Zed; nut allergy, inhaler with Mrs P", "gives mic to Zed; …"),
        ("Asma takes mic 4", "Asma takes mic 4"),
    ],
)
def test_what_notes_say_of_health_is_withheld_up_to_the_next_stop_and_the_rest_stays(text, left):
    rows = [["Mic", "Actor", "Freq", "Notes"], [1, "Mina Strand", 518.2, text], [2, "Hal Corrin", 519.125, "wig"]]
    got = read(rows)
    assert section(got)["1"]["notes"] == left and got.account.get("personal", 0) == (left != text)


def test_a_column_in_which_one_note_is_of_health_keeps_the_others():
    rows = [["Mic", "Actor", "Freq", "Zxcv"], [1, "Mina Strand", 518.2, "gives mic to Zed"]]
    got = read([*rows, [2, "Hal Corrin", 519.125, "nut allergy"]])
    assert section(got)["1"]["notes"] == "Zxcv: gives mic to Zed" and "allergy" not in str(plain(got.raw))


def test_one_role_of_two_teams_is_one_of_each_team():
    rows = [["Mic", "Name", "Role", "Team", "Freq"], [1, "Ivo Hart", "PIP", "Red", 606.5]]
    got = read([*rows, [2, "Kit Lowe", "PIP", "Blue", 607.3]])
    assert [one["role"] for one in section(got).values()] == [["PIP Red"], ["PIP Blue"]]
    assert section(got, "roles")["PIP"] == {"group": ["PIP Red", "PIP Blue"]}


@pytest.mark.parametrize("word", sorted(listed_words("no_channel")))
def test_whoever_has_no_mic_makes_no_channel_of_that_name(word):
    rows = [["Name", "Character", "Mic", "Freq"], ["Ella Rose", "Narrator", 1, 606.5], ["Tom Ash", "Owl", word, None]]
    got = read(rows)
    assert list(section(got)) == ["1"] and 'no channel is given to "Tom Ash", "Owl"' in got.lines and codes(got) == []


def test_every_column_of_covers_is_one_and_the_principal_plays():
    rows = [["RF", "Role", "Principal", "1st Cover", "2nd Cover", "Freq"]]
    rows += [
        ["RF 1", "ORLA", "Mina Strand", "Cat Bowe", "Jo Pell", 518.2],
        ["RF 2", "DUKE", "Hal Corrin", "dies.", "N.N.", 519.1],
    ]
    got = read(rows)
    assert [(one["role"], one["by"]) for one in section(got, "covers").values()] == [
        ("ORLA", "Cat Bowe"),
        ("ORLA", "Jo Pell"),
    ]
    assert section(got)["RF 1"]["by"] == "Mina Strand" and codes(got) == []


def test_a_letter_behind_a_number_is_a_second_pack_of_the_same_person_alone():
    rows = [["Channel", "Artist", "Freq"], ["Ch.12", "Ria Tolle", 486.2], ["Ch.12a", "Ria Tolle", 486.9]]
    assert section(read(rows))["Ch.12a"]["doubles"] == "Ch.12"
    rows[2][1] = "Max Ruhr"
    assert "doubles" not in section(read(rows))["Ch.12a"]
