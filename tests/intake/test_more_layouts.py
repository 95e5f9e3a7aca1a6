"""Layouts that no case names but that people make: lying lists, grids down the page, breakdowns, rooms, two tabs that disagree."""

import pytest
from openpyxl.styles import Font

from tests.intake.beloved import make_beloved
from tests.intake.sheets import asked, codes, mhz, read, read_data, section, workbook

LIST = [["Ch", "Role", "Freq"], [1, "VERA", 518.2], [2, "TOM", 519.4]]


def test_a_list_that_lies_on_its_side_is_turned_and_keeps_its_addresses():
    got = read([["Channel", 1, 2], ["Actor", "Mara Lind", "Max Ried"], ["Freq", 518.2, "519.4 / 522.1"]])
    assert section(got)["1"] == {"by": "Mara Lind", "mhz": "518.2"}
    assert [f.place.cell for f in got.findings] == ["C3"] and "row 2 is performer" in " ".join(got.lines)


def test_a_grid_with_scenes_down_the_page_is_turned():
    got = read([*LIST, [], ["Scene", "VERA", "TOM", "HOST"], ["1.1", "x", None, "x"], ["1.2", None, "x", "x"]])
    assert {id: f["live"] for id, f in section(got, "scenes").items()} == {
        "1.1": ["VERA", "HOST"],
        "1.2": ["TOM", "HOST"],
    }
    assert mhz(got) == ["518.2", "519.4"] and codes(got) == []


def test_a_breakdown_of_scenes_gives_them_their_titles_and_roles():
    got = read([*LIST, [], ["Scene", "Title", "Characters"], ["1.1", "Quay", "VERA, TOM"], ["1.2", "Inn", "Tom"]])
    assert section(got, "scenes") == {
        "1.1": {"name": "1.1 Quay", "live": ["VERA", "TOM"]},
        "1.2": {"name": "1.2 Inn", "live": ["TOM"]},
    }


def test_rooms_on_a_table_of_their_own_go_to_the_people():
    got = read(
        [
            ["Ch", "Actor", "Freq"],
            [1, "Mara Lind", 518.2],
            [],
            ["Name", "Dressing room"],
            ["Mara Lind", "3"],
            ["Max Ried", "4"],
        ]
    )
    assert section(got, "people") == {"Mara Lind": {"room": "3"}, "Max Ried": {"room": "4"}}


def test_two_tables_that_agree_add_up_and_where_they_do_not_it_is_asked():
    first = [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], [2, "Max Ried", 519.4]]
    second = [["Ch", "Actor", "Capsule"], [1, "mara lind", "beige"], [2, "Ana Cole", "tan"]]
    got = read_data(workbook({"RF": first, "Capsules": second}))
    assert section(got)["1"] == {"by": "Mara Lind", "mhz": "518.2", "capsule": "beige"}
    assert asked(got) == [("channel-twice", "2: Max Ried | Ana Cole")]


def test_in_ears_under_a_title_of_their_own_may_carry_the_numbers_of_channels():
    got = read([["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], ["In-ears"], [1, "Bo Dahl", 640.2]])
    assert list(section(got)) == ["1"] and list(section(got, "others")) == ["1"] and codes(got) == []


def test_a_beloved_workbook_is_read_whole_and_asks_nothing_twice():
    got = read_data(make_beloved())
    assert len(section(got)) == 64 and len(section(got, "others")) == 8 and len(section(got, "scenes")) == 39
    assert got.cells > 28_000 and asked(got) == []
    assert got.questions == ()
    assert codes(got) == ["cells-unknown", "columns-hidden", "list-revised", "notes-kept", "sheets-hidden"]
    assert sum(len(fields["live"]) for fields in section(got, "scenes").values()) == sum(
        (n * 7 + p) % 3 == 0 for n in range(1, 65) for p in range(39)
    )


def test_a_frequency_merged_over_two_channels_is_asked_for_the_second():
    rows = [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], [2, "Ana Cole", None], [3, "Max Ried", 530.2]]
    got = read(rows, lambda sheet: sheet.merge_cells("C2:C3"))
    assert asked(got) == [("frequency", "2: 518.2")] and mhz(got) == ["518.2", None, "530.2"]


def test_a_performer_merged_over_two_channels_wears_both():
    rows = [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], [2, None, 519.4]]
    got = read(rows, lambda sheet: sheet.merge_cells("B2:B3"))
    assert [f["by"] for f in section(got).values()] == ["Mara Lind", "Mara Lind"]


def test_a_row_struck_through_is_one_question_and_no_other_finding():
    def strike(sheet):
        for cell in sheet[3]:
            cell.font = Font(strike=True)

    rows = [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], [2, "Ana Cole", 519.4]]
    got = read(rows, strike)
    assert (
        asked(got) == [("struck", "2: Ana Cole 519.4")]
        and codes(got) == ["sheet-question"]
        and got.account["asked"] == 3
    )
    done = read(rows, strike, {("struck", "2: Ana Cole 519.4"): "cut"})
    assert list(section(done)) == ["1"] and codes(done) == [] and done.account["cut"] == 3


def test_a_struck_number_that_still_holds_is_read_whatever_it_says():
    def strike(sheet):
        sheet["A3"].font = Font(strike=True)

    for number in ("2", "cut"):
        rows = [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2], [number, "Ana Cole", 519.4]]
        done = read(rows, strike, {("struck", f"{number}: Ana Cole 519.4"): "keep"})
        assert list(section(done)) == ["1", number]


def test_truths_and_initials_are_marks():
    rows = [["Ch", "Role", "Freq", "1.1", "1.2"], [1, "VERA", 518.2, True, "V"], [2, "TOM", 530.2, False, "T"]]
    got = read(rows)
    assert {id: f["live"] for id, f in section(got, "scenes").items()} == {"1.1": ["VERA"], "1.2": ["VERA", "TOM"]}
    assert codes(got) == ["value-repaired"] and "initial" in got.findings[0].text


@pytest.mark.parametrize("line", ["x = live", "* all packs to the tray", "Updated by Bo"])
def test_a_line_below_the_last_row_is_no_title_but_listed(line):
    got = read([*LIST, [], [line]])
    assert got.account["unknown"] == 1 and codes(got) == ["cells-unknown"]


@pytest.mark.parametrize("merged", (True, False))
def test_headings_in_two_rows_are_those_of_one_table(merged):
    """`RF` over frequency and group, `Capsule` over type and colour; number and name have nothing under them."""
    rows = [
        ["Mic list", "rev 3"],
        ["Mic", "Who", "RF", None, "Capsule", None],
        [None, None, "Freq", "Group", "Type", "Colour"],
        [1, "Mara Lind", 518.2, "1/1", "lav", "tan"],
        [2, "Ana Cole", 519.4, "1/2", "head", "brown"],
    ]
    areas = ("A2:A3", "B2:B3", "C2:D2", "E2:F2") if merged else ()
    got = read(rows, lambda sheet: [sheet.merge_cells(area) for area in areas])
    assert asked(got) == [] and codes(got) == []
    assert [(id, f["by"], f["mhz"]) for id, f in section(got).items()] == [
        ("1", "Mara Lind", "518.2"),
        ("2", "Ana Cole", "519.4"),
    ]


@pytest.mark.parametrize("heading", ("Who", "Characters"))
def test_a_breakdown_names_roles_or_performers_and_its_pages(heading):
    got = read(
        [
            ["Ch", "Actor", "Role", "Freq"],
            [1, "Mara Lind", "VERA", 518.2],
            [2, "Ana Cole", "TOM", 519.4],
            [],
            ["Scene", "Page", heading],
            ["1.1 Quay", 3, "Vera, Tom"],
            ["1.2 Inn", 9, "Ana Cole"],
            ["Prologue", None, "Vera"],
        ]
    )
    assert section(got, "scenes") == {
        "1.1": {"name": "1.1 Quay", "page": "3", "live": ["VERA", "TOM"]},
        "1.2": {"name": "1.2 Inn", "page": "9", "live": ["TOM"]},
        "Prologue": {"name": "Prologue", "live": ["VERA"]},
    }
    assert codes(got) == []


@pytest.mark.parametrize("heading", ("Actor", "Role"))
def test_a_table_of_names_and_the_scenes_of_each_makes_no_scene_of_a_list(heading):
    got = read([*LIST, [], [heading, "Scenes"], ["VERA", "1.1, 1.3"], ["TOM", "1.2, 1.3"]])
    assert section(got, "scenes") == {} and codes(got) == ["value-taken"]


def test_a_table_that_nothing_is_read_from_is_one_finding():
    got = read([*LIST, [], ["RX", "Out", "FOH", "MON"], [1, "A1", 1, 1], [2, "A2", 2, 2]])
    assert codes(got) == ["value-taken"] and 'the table under "RX, Out, FOH, MON"' in got.findings[0].text
    assert got.account["unknown"] == 8 and mhz(got) == ["518.2", "519.4"]
