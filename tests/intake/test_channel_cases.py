"""Channels, packs, receivers, people and roles as sheets hold them. Cases 26 to 50 of `CASES.md`."""

import datetime

import pytest

from tests.intake.sheets import asked, codes, read, section, show

HEAD = ["Ch", "Actor", "Freq"]


def by_names(got):
    return {id: fields.get("by") for id, fields in section(got).items()}


def test_26_spellings_of_a_number_are_one_style_and_asked_once():
    values = [1, 2, 3.0, "04", "5 ", "RF 06", "#7"]
    got = read(
        [
            HEAD,
            *([value, ("Ann", "Bea", "Cy", "Dov", "Eli", "Flo", "Gus")[n], 518 + n] for n, value in enumerate(values)),
        ]
    )
    assert list(section(got)) == ["1", "2", "3", "4", "5", "6", "7"]
    assert asked(got) == [] and [q.kind for q in got.questions] == ["channel-style"]
    padded = read(
        [HEAD, *([v, None, 518 + n] for n, v in enumerate(values))],
        answers={("channel-style", "channel numbers"): "padded"},
    )
    assert list(section(padded))[:2] == ["01", "02"] and padded.questions == ()


@pytest.mark.parametrize(
    "ids", [["01", "02", "10"], ["RF1", "RF2", "RF10"], ["Mic 1", "Mic 2", "Mic 3"], ["1", "2", "10"]]
)
def test_26_a_style_that_all_share_is_the_users_and_is_kept(ids):
    got = read([HEAD, *([id, "Mara Lind", 518 + n] for n, id in enumerate(ids))])
    assert list(section(got)) == ids and got.questions == ()


def test_28_a_channel_that_became_a_date_is_asked_with_both_readings():
    got = read([HEAD, [datetime.date(2027, 1, 7), "Mara Lind", 518.2], ["1-8", "Max Ried", 519.4]])
    assert asked(got) == [("date", "channel 2027-01-07")]
    assert [choice.value for choice in got.questions[0].choices] == ["7-1", "1-7"] and got.questions[0].stops


def test_29_a_doubled_channel_on_one_person_is_asked():
    rows = [HEAD, [11, "Ana Cole", 517.1], [12, "Mara Lind", 518.2], [12, "Mara Lind", 519.4]]
    got = read(rows)
    ((kind, about),) = asked(got)
    assert kind == "channel-twice" and codes(got) == ["sheet-question"]
    pair = read(rows, answers={(kind, about): "pair"})
    assert section(pair)["12B"] == {"by": "Mara Lind", "mhz": "519.4", "doubles": "12"} and pair.questions == ()


def test_31_one_pack_with_scene_ranges_is_shared_and_swaps_follow(tmp_path):
    rows = [
        ["Pack", "Actor", "Role", "Freq", "Scenes"],
        ["07", "Mara Lind", "VERA", 518.2, "1.1-1.3"],
        ["07", "Max Ried", "SAILOR", 518.2, "1.4, 1.5"],
        ["07", "Ana Cole", "WIDOW", 518.2, "2.1"],
    ]
    got = read(rows)
    assert codes(got) == [] and section(got)["07"]["shared"] == {
        "VERA": "Mara Lind",
        "SAILOR": "Max Ried",
        "WIDOW": "Ana Cole",
    }
    assert {id: fields["live"] for id, fields in section(got, "scenes").items()} == {
        "1.1": ["VERA"],
        "1.2": ["VERA"],
        "1.3": ["VERA"],
        "1.4": ["SAILOR"],
        "1.5": ["SAILOR"],
        "2.1": ["WIDOW"],
    }
    reading = show(tmp_path, rows)
    assert reading.show.channels["07"].roles == ("VERA", "SAILOR", "WIDOW")


@pytest.mark.parametrize("first", ["05", "05A"])
def test_32_a_second_pack_on_one_person_doubles_the_first(first):
    got = read([HEAD, [first, "Mara Lind", 518.2], ["05B", "Mara Lind", 530.2]])
    assert section(got)["05B"]["doubles"] == first and codes(got) == []


def test_34_a_number_with_a_history_keeps_it():
    got = read([["Ch", "Pack", "Actor", "Freq"], [1, "Pack 7 (was 3)", "Mara Lind", 518.2]])
    assert section(got)["1"]["pack"] == "Pack 7" and section(got)["1"]["notes"] == "pack was 3"
    assert codes(got) == ["value-repaired"]


@pytest.mark.parametrize(
    ("text", "slot"), [("2A", "2.1"), ("2-A", "2.1"), ("R2/1", "R2.1"), ("U02.S1", "U02.1"), ("Rack 1 #3", "Rack 1.3")]
)
def test_35_places_in_receivers_are_read_by_pattern_and_asked_once(text, slot):
    got = read(
        [
            ["Ch", "Actor", "Freq", "Receiver"],
            [1, "Mara Lind", 518.2, text],
            [2, "Max Ried", 519.4, text[:-1] + text[-1]],
        ]
    )
    assert section(got)["1"]["slot"] == slot and asked(got) == [] and [q.kind for q in got.questions] == ["receiver"]


@pytest.mark.parametrize("name", ["SPARE", "spare 1", "--spare--", "Ersatz", "reserve"])
def test_37_a_spare_is_no_person(name, tmp_path):
    rows = [HEAD, [1, "Mara Lind", 518.2], [2, name, 519.4]]
    assert section(read(rows))["2"] == {"spare": "yes", "mhz": "519.4"} and codes(read(rows)) == []
    assert show(tmp_path, rows).show.channels["2"].spare


def test_38_in_ears_and_intercom_among_the_packs_go_to_their_own_section():
    got = read(
        [
            HEAD,
            [1, "Mara Lind", 518.2],
            ["HH1", "Max Ried", 519.4],
            ["IEM 2", "Ana Cole", 640.1],
            ["Comms", "Deck", 655.2],
            ["Band drums", "Leif", 521.1],
        ]
    )
    assert list(section(got)) == ["1", "HH1", "Band drums"]
    assert {id: f["kind"] for id, f in section(got, "others").items()} == {"IEM 2": "in-ear", "Comms": "intercom"}
    assert section(got, "scenes") == {} and codes(got) == []


def test_40_several_roles_of_one_performer_keep_their_order():
    got = read([["Ch", "Actor", "Role", "Freq"], [1, "Mara Lind", "Mr Harrow/Captain Quill/Mr Harrow", 518.2]])
    assert (
        section(got)["1"]["role"] == ["Mr Harrow", "Captain Quill"]
        and section(got)["1"]["by"] == "Mara Lind"
        and codes(got) == []
    )


@pytest.mark.parametrize("name", ["Ensemble", "All girls", "Chorus 1\N{EN DASH}4", "Company"])
def test_41_a_group_is_asked_for_its_members(name, tmp_path):
    rows = [HEAD, [1, "Mara Lind", 518.2], [2, name, 519.4]]
    assert asked(read(rows)) == [("group", name)] and codes(read(rows)) == ["value-asked"]
    got = read(rows, answers={("group", name): "Max Ried, Ana Cole"})
    assert section(got, "roles")[name] == {"group": ["Max Ried", "Ana Cole"]} and got.questions == ()


def test_43_spellings_that_may_be_one_person_are_asked_and_never_merged():
    rows = [HEAD, [1, "O'Brien, T.", 518.2], [2, "Tomas O'Brien", 519.4], [3, "Mara Lind", 521.1]]
    got = read(rows)
    assert asked(got) == [("person", "O'Brien, T. = Tomas O'Brien")] and set(by_names(got).values()) == {
        "O'Brien, T.",
        "Tomas O'Brien",
        "Mara Lind",
    }
    same = read(rows, answers={("person", "O'Brien, T. = Tomas O'Brien"): "same"})
    assert by_names(same) == {"1": "Tomas O'Brien", "2": "Tomas O'Brien", "3": "Mara Lind"}
    assert ("person", "T O Brien = Tomas O'Brien") in asked(
        read([HEAD, [1, "T O Brien", 518.2], [2, "Tomas O'Brien", 519.4]])
    )


def test_43_spellings_that_differ_in_case_and_spaces_alone_are_one():
    got = read([HEAD, [1, "Mara Lind", 518.2], [2, "MARA  LIND ", 519.4]])
    assert set(by_names(got).values()) == {"Mara Lind"} and got.questions == ()


def test_44_one_short_name_on_two_channels_is_an_error_at_both_cells():
    got = read([HEAD, [1, "J. Marsh", 518.2], [2, "J. Marsh", 519.4]])
    (finding,) = got.findings
    assert (finding.severity, finding.place.cell, [place.cell for place in finding.others]) == ("error", "B3", ["B2"])
    assert asked(got) == [("name", "J. Marsh: 1, 2")]


@pytest.mark.parametrize("name", ["Null", "None", "True", "No", "NA", "E5", "1e3", "Tom & Jo", "R&D", "A<B", "<swing>"])
def test_46_47_names_stay_as_they_are_written(name, tmp_path):
    rows = [HEAD, [1, name, 518.2], [2, "Mara Lind", 519.4]]
    assert section(read(rows))["1"]["by"] == name and codes(read(rows)) == []
    assert show(tmp_path, rows).show.channels["1"].by == name


@pytest.mark.parametrize("text", ["Ann (u/s Bea)", "Bea / Ann", "Bea [Ann Wed mat]"])
def test_49_an_understudy_in_the_cell_is_asked(text):
    rows = [["Ch", "Actor", "Role", "Freq"], [1, text, "VERA", 518.2]]
    assert asked(read(rows)) == [("cover", f"1: {text}")]
    got = read(rows, answers={("cover", f"1: {text}"): "first"})
    assert section(got)["1"]["by"] in ("Ann", "Bea") and section(got, "covers")["c1"]["by"] in ("Ann", "Bea")
    assert section(got)["1"]["by"] != section(got, "covers")["c1"]["by"]


@pytest.mark.parametrize(
    "names",
    ["Änne Süß / Dörte Möhring", "Änne Süß\nDörte Möhring", "Änne Süß & Dörte Möhring", "Änne Süß + Dörte Möhring"],
)
@pytest.mark.parametrize("roles", ["Magd / Amme", "Magd\nAmme", "Magd, Amme"])
def test_49_as_many_names_as_roles_share_one_pack_in_turn_until_it_is_answered(names, roles):
    got = read([["Ch", "Role", "Actor", "Freq"], [1, roles, names, 518.2], [2, "TOM", "Max Ried", 519.4]])
    assert section(got)["1"]["shared"] == {"Magd": "Änne Süß", "Amme": "Dörte Möhring"} and codes(got) == [
        "value-taken"
    ]
    (question,) = got.questions
    assert question.default == "shared" and "Magd is Änne Süß, Amme is Dörte Möhring" in question.choices[0].words
    one = read([["Ch", "Role", "Actor", "Freq"], [1, roles, names, 518.2]], answers={("cover", question.about): "one"})
    assert section(one)["1"]["by"] == question.about.removeprefix("1: ")


def test_49_three_names_share_a_pack_for_three_roles():
    got = read([["Ch", "Role", "Actor", "Freq"], [1, "A/B/C", "Ann Cole/Bea Lind/Cy Ott", 518.2]])
    assert section(got)["1"]["shared"] == {"A": "Ann Cole", "B": "Bea Lind", "C": "Cy Ott"}


def test_49_two_names_without_roles_may_share_a_pack_if_so_answered():
    rows = [["Ch", "Actor", "Freq"], [1, "Ann Cole / Bea Lind", 518.2]]
    (question,) = read(rows).questions
    assert question.default == "" and [choice.value for choice in question.choices] == [
        "shared",
        "first",
        "second",
        "one",
    ]
    got = read(rows, answers={("cover", question.about): "shared"})
    assert section(got)["1"]["shared"] == {"Ann Cole": "Ann Cole", "Bea Lind": "Bea Lind"}


def test_50_two_teams_are_two_casts():
    got = read(
        [
            ["Ch", "Actor", "Role", "Freq"],
            [1, "Team Red: Ivo, Team Blue: Kit", "CHILD", 518.2],
            [2, "Mara Lind", "VERA", 519.4],
        ]
    )
    assert section(got, "roles")["CHILD"] == {"alternates": ["Ivo", "Kit"]} and codes(got) == []
    people = section(got, "people")
    assert people["Ivo"] == {"team": "Team Red"} and people["Kit"] == {"team": "Team Blue"} and "Mara Lind" in people


def test_a_row_without_a_number_but_with_a_frequency_is_asked_about():
    got = read([HEAD, [1, "Mara Lind", 518.2], [None, "Max Ried", 519.4]])
    assert asked(got) == [("key", "Max Ried 519.4")]


def test_a_list_without_numbers_is_asked_once_how_to_number_it():
    rows = [["Actor", "Role", "Freq"], ["Mara Lind", "VERA", 518.2], ["Max Ried", "SAILOR", 519.4]]
    assert asked(read(rows)) == [("key", "channel numbers")]
    assert list(section(read(rows, answers={("key", "channel numbers"): "count"}))) == ["1", "2"]


@pytest.mark.parametrize("other", ["Lind Mara", "Lind, Mara", "M. Lind", "Mara Linde"])
def test_43_a_name_reordered_shortened_or_a_letter_apart_is_asked(other):
    got = read([HEAD, [1, "Mara Lind", 518.2], [2, other, 530.4]])
    assert [kind for kind, _ in asked(got)] == ["person"] and set(by_names(got).values()) == {"Mara Lind", other}


def test_a_column_of_few_repeated_numbers_is_no_channel_but_a_television_channel():
    got = read(
        [
            ["Kanal", "Darsteller", "Frequenz"],
            [38, "Mara Lind", 607.1],
            [38, "Max Ried", 608.2],
            [38, "Ana Cole", 609.5],
            [38, "Bo Dahl", 610.4],
        ]
    )
    assert asked(got) == [("key", "channel numbers")] and "A is tv" in " ".join(got.lines)
