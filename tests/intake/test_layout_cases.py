"""Files, sheets and layouts as people make them. Cases 63 to 89 of `CASES.md`."""

import datetime
import re

import pytest
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image
from PIL import Image as Picture

from paperwork.reading import read_show
from tests.files.workbooks import patch
from tests.intake.sheets import asked, codes, mhz, read, read_data, read_text, section, show, workbook

HEAD = ["Ch", "Actor", "Freq"]
LIST = [HEAD, [1, "Mara Lind", 518.2], [2, "Max Ried", 519.4], [3, "Ana Cole", 521.1]]


def test_63_hidden_rows_columns_and_sheets_are_left_out_and_listed():
    def hide(book):
        book["Mics"].row_dimensions[3].hidden = True
        book["Mics"].column_dimensions["D"].hidden = True
        book["Old"].sheet_state = "hidden"

    rows = [[*HEAD, "Notes"], *([*row, "private"] for row in LIST[1:])]
    got = read_data(workbook({"Mics": rows, "Old": LIST}, hide))
    assert list(section(got)) == ["1", "3"] and "notes" not in section(got)["1"]
    assert codes(got) == ["columns-hidden", "rows-hidden", "sheets-hidden"]


def test_64_headings_are_found_below_titles_and_repeats_are_skipped():
    rows = [["THE GLASS FERRY"], ["Mic list", None, "Rev C"], [], [], HEAD, *LIST[1:3], HEAD, LIST[3]]
    got = read(rows)
    assert list(section(got)) == ["1", "2", "3"] and codes(got) == []
    assert section(got, "show") == {"title": "THE GLASS FERRY", "revision": "C"}
    assert (got.account["title"], got.account["repeat"]) == (3, 3)


LANGUAGE_OF = {
    ("Darsteller(in)", "Frequenz (MHz)"): ("de",),
    ("Comédien(ne)", "Fréquence"): ("fr",),
    ("Actor/Actriz", "Frecuencia"): ("es",),
}


@pytest.mark.parametrize(
    "heading", ["Frequenz (MHz)", "Fréquence", "Frecuencia", "Frequenza", "Frequentie", "Frekvens", "FREQ.\nMHz"]
)
@pytest.mark.parametrize(
    "name", ["Darsteller(in)", "Comédien(ne)", "Actor/Actriz", "Attore", "Acteur", "Skådespelare", "Played by"]
)
def test_64_headings_are_known_in_seven_languages(heading, name):
    got = read([["Nr.", name, heading], *LIST[1:]])
    assert section(got)["1"] == {"by": "Mara Lind", "mhz": "518.2"}
    assert [(q.kind, q.default) for q in got.questions] == [
        ("language", one) for one in LANGUAGE_OF.get((name, heading), ())
    ]
    assert codes(got) == ["value-taken"] * len(got.questions)


def test_65_tables_side_by_side_and_below_are_read_apart():
    rows = [
        ["Packs", None, None, None, "In-ears"],
        ["Pack", "Name", "Freq", None, "IEM", "Name", "Freq"],
        [1, "Mara Lind", 518.2, None, 1, "Bo Lund", 640.1],
        [2, "Max Ried", 519.4, None, 2, "Cy Dahl", 641.3],
        [],
        ["Spares"],
        ["Pack", "Name", "Freq"],
        [9, "SPARE", 523.3],
    ]
    got = read(rows)
    assert list(section(got)) == ["1", "2", "9"] and section(got)["9"]["spare"] == "yes"
    assert {id: (f["mhz"], f["listeners"]) for id, f in section(got, "others").items()} == {
        "1": ("640.1", ["Bo Lund"]),
        "2": ("641.3", ["Cy Dahl"]),
    }
    assert sum(bool(re.match(r"Mics![A-Z]+\d+:[A-Z]+\d+:", line)) for line in got.lines) == 2 and codes(got) == []


def test_65_one_list_printed_in_two_columns_is_two_tables():
    got = read(
        [[*HEAD, *HEAD], [1, "Mara Lind", 518.2, 3, "Ana Cole", 521.1], [2, "Max Ried", 519.4, 4, "Rhea Lund", 522.3]]
    )
    assert list(section(got)) == ["1", "2", "3", "4"] and codes(got) == []


@pytest.mark.parametrize(("total", "is_right"), [("3 mics", True), ("24 mics", False)])
def test_67_a_row_of_totals_is_no_channel_but_a_witness(total, is_right):
    got = read([*LIST, [total]])
    assert list(section(got)) == ["1", "2", "3"] and codes(got) == ([] if is_right else ["total-differs"])
    assert got.account["summary"] == 1


def test_67_a_formula_that_counts_is_no_channel():
    assert list(section(read([*LIST, ["Total", None, "=COUNTA(A2:A4)"]]))) == ["1", "2", "3"]


def test_68_several_sheets_with_one_list_are_asked_with_their_differences():
    final = [HEAD, *LIST[1:3], [3, "Ana Cole", 529.9]]
    sheets = {"OLD": LIST, "v3 FINAL": LIST, "v3 FINAL (2)": final, "scratch": LIST}
    got = read_data(workbook(sheets, lambda book: setattr(book["scratch"], "sheet_state", "hidden")))
    assert asked(got) == [("sheet", "v3 FINAL | v3 FINAL (2)")]
    (question,) = got.questions
    assert question.stops and "scratch" in question.text and "3 rows" in question.choices[0].words
    assert "1 different" in question.choices[1].words
    done = read_data(
        workbook(sheets),
        {
            ("sheet", "v3 FINAL | v3 FINAL (2) | scratch"): "v3 FINAL (2)",
            ("sheet", "scratch | v3 FINAL | v3 FINAL (2)"): "v3 FINAL (2)",
        },
    )
    assert mhz(done)[2] == "529.9" and asked(done) == []


def test_69_one_cell_in_the_last_corner_is_named_and_the_list_is_read(tmp_path):
    (tmp_path / "list.xlsx").write_bytes(
        workbook({"Mics": LIST}, lambda book: book["Mics"].__setitem__("XFD1048576", "x"))
    )
    reading = read_show(tmp_path / "list.xlsx", "list.xlsx")
    (finding,) = reading.findings
    assert (finding.code, finding.severity, finding.place.cell) == ("cell-far", "warning", "XFD1048576")
    assert list(reading.show.channels) == ["1", "2", "3"]


def test_70_a_stored_dimension_that_lies_changes_nothing():
    data = workbook({"Mics": LIST})
    lying = patch(
        data, "xl/worksheets/sheet1.xml", lambda text: re.sub(rb'<dimension ref="[^"]*"', b'<dimension ref="A1"', text)
    )
    assert lying != data and list(section(read_data(lying))) == ["1", "2", "3"]


def test_71_a_list_with_a_mark_of_its_encoding_and_separator_is_read():
    text = '\ufeffsep=;\r\nCh;Actor;"Freq\n(MHz)";Notes\r\n1;Mara Lind;518,200;"tape B,\nleft side"\r\n2;Max Ried;519,400;\r\n'
    got = read_text(text)
    assert (
        section(got)["1"] == {"by": "Mara Lind", "mhz": "518,200", "notes": "tape B,\nleft side"} and codes(got) == []
    )
    place = got.raw.get("channels").items[1][1].get("by").place
    assert (place.line, place.column) == (6, 3)


def test_72_windows_text_is_read_with_a_note():
    got = read_text("Ch;Actor;Freq\n1;Jörg Müller;518.2\n2;Zoë Café;519.4\n".encode("cp1252"))
    assert section(got)["1"]["by"] == "Jörg Müller" and codes(got) == ["csv-encoding"]


def test_73_tabs_are_a_separator_and_one_column_is_asked_or_refused(tmp_path):
    assert list(section(read_text("Ch\tActor\tFreq\n1\tMara Lind\t518.2\n2\tMax Ried\t519.4\n"))) == ["1", "2"]
    (tmp_path / "list.csv").write_text("518.2\n519.4\n521.1\n")
    reading = read_show(tmp_path / "list.csv", "list.csv")
    assert reading.show is None and [f.severity for f in reading.findings if f.code != "cells-unknown"] == ["error"]


def test_74_a_row_with_a_separator_too_many_is_an_error_with_both_readings(tmp_path):
    (tmp_path / "list.csv").write_text("Ch,Actor,Freq\n1,Mara Lind,518.2\n2,Smith, Jr.,519.4\n3,Ana Cole,521.1\n")
    reading = read_show(tmp_path / "list.csv", "list.csv")
    (finding,) = [f for f in reading.findings if f.code == "row-ragged"]
    assert (
        finding.place.line == 3
        and '"Smith" and "Jr."' in finding.text
        and '"519.4"' in finding.text
        and reading.show is None
    )


def test_76_numbers_kept_as_text_are_numbers():
    got = read_text("Ch;Actor;Freq\n'01;Mara Lind;'518.2\n'02;Max Ried;519.4\n")
    assert section(got)["01"] == {"by": "Mara Lind", "mhz": "518.2"} and codes(got) == []
    assert mhz(read([HEAD, ["01", "Mara Lind", "518.2"]])) == ["518.2"]


def test_77_invisible_characters_are_taken_out_and_shown():
    data = workbook({"Mics": [HEAD, [1, "Mara VTLind", 518.2]]})
    got = read_data(patch(data, "xl/worksheets/sheet1.xml", lambda text: text.replace(b"VT", b"_x000B__x0007_")))
    assert section(got)["1"]["by"] == "Mara Lind" and codes(got) == ["text-control"]


def test_79_a_row_pasted_twice_is_read_once_and_said():
    got = read([*LIST, LIST[2]])
    assert list(section(got)) == ["1", "2", "3"] and codes(got) == ["row-twice"] and got.account["repeat"] == 3


@pytest.mark.parametrize(
    "titles", [("yesterday", "today"), ("Mics 2027-03-01", "Mics 2027-03-02"), ("old list", "list")]
)
def test_80_the_same_list_in_another_order_with_one_change_is_a_revision_of_one_change(titles):
    newer = [HEAD, LIST[3], [1, "Mara Lind", 530.5], LIST[2]]
    got = read_data(workbook({titles[0]: LIST, titles[1]: newer}))
    assert codes(got) == ["list-revised"] and asked(got) == []
    assert (
        "is read: 1 change from" in got.findings[0].text
        and got.findings[0].text.endswith(": 1 has another frequency")
        and section(got)["1"]["mhz"] == "530.5"
    )


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("channels:\n  1:\n    by: Ann\n    notes: see #4 pack\n", "comment-in-value"),
        ("channels:\n  1:\n    by: Ann\n    notes: a\tb: c\n", "yaml-syntax"),
        ("channels:\n\t1: {by: Ann}\n", "yaml-syntax"),
    ],
)
def test_82_83_slips_of_yaml_are_reported_at_their_line(text, code, tmp_path):
    (tmp_path / "show.yaml").write_text(text)
    assert code in codes(read_show(tmp_path / "show.yaml", "show.yaml"))


def test_85_a_percentage_is_what_its_format_shows():
    got = read(
        [[*HEAD, "Battery"], [1, "Mara Lind", 518.2, 0.8]], lambda sheet: setattr(sheet["D2"], "number_format", "0%")
    )
    assert section(got)["1"]["notes"] == "Battery: 80%" and codes(got) == []


def test_86_a_day_that_two_countries_read_differently_is_asked():
    got = read([["Glass Ferry"], ["Date: 3/4/25"], [], *LIST])
    assert asked(got) == [("day", "3/4/25")] and [c.value for c in got.questions[0].choices] == [
        "2025-04-03",
        "2025-03-04",
    ]
    sure = read([["Glass Ferry"], ["Date: 2027-03-04"], [], *LIST])
    assert section(sure, "show") == {"title": "Glass Ferry", "revised": "2027-03-04"} and sure.questions == ()
    stored = read([["Glass Ferry"], [datetime.date(2027, 3, 4)], [], *LIST])
    assert section(stored, "show")["revised"] == "2027-03-04"


def test_88_a_pinned_note_is_shown_and_kept():
    def pin(sheet):
        sheet["B3"].comment = Comment("moved to pack 9 at interval", "A2")

    got = read(LIST, pin)
    assert section(got)["2"]["notes"] == "moved to pack 9 at interval" and codes(got) == ["notes-kept"]
    assert "B3" in got.findings[0].text and "moved to pack 9" in got.findings[0].text


def test_89_a_picture_of_a_table_is_an_error_that_says_so(tmp_path):
    Picture.new("RGB", (8, 8)).save(tmp_path / "shot.png")
    data = workbook({"Mics": []}, lambda book: book["Mics"].add_image(Image(str(tmp_path / "shot.png"))))
    (tmp_path / "list.xlsx").write_bytes(data)
    (finding,) = read_show(tmp_path / "list.xlsx", "list.xlsx").findings
    assert finding.code == "workbook-blank" and "picture" in finding.text


def test_a_column_that_nobody_understands_is_kept_in_the_notes_under_its_heading():
    got = read([[*HEAD, "Zodiac"], *([*row, "ram"] for row in LIST[1:])])
    assert {fields["notes"] for fields in section(got).values()} == {"Zodiac: ram"} and codes(got) == []
    assert got.account.get("unknown", 0) == 0


def test_legends_and_prose_around_a_table_are_listed():
    got = read([*LIST, [], ["All packs return to the tray after the bows. Nobody takes one home."]])
    assert got.account["unknown"] == 1 and codes(got) == ["cells-unknown"]


def test_a_sheet_without_known_headings_is_one_plain_error(tmp_path):
    reading = show(tmp_path, [["apples", "pears"], [3, 4]])
    assert [f.code for f in reading.findings if f.severity == "error"] == ["table-missing"] and not reading.readable
