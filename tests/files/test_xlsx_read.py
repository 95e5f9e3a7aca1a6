"""Workbooks: every value located, nothing dropped in silence, nothing hostile unpacked."""

import datetime
import io
import zipfile

import openpyxl
import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

from paperwork import limits
from paperwork.files import read_bytes
from paperwork.files.xlsx.numbers import format_number
from paperwork.reading import read_show
from tests.files.workbooks import FULL, ROWS, make_book, only, parts_of, patch_sheet, plain, read, save


def test_every_key_and_value_has_its_cell() -> None:
    raw, findings = read_bytes(make_book(), "show.xlsx")
    assert findings == ()
    assert plain(raw) == FULL
    section, records = raw.items[0]
    assert (section.text, section.place.sheet) == ("channels", "channels")
    key, record = records.items[1]
    assert (str(key.place), str(record.place)) == ("show.xlsx channels!A3", "show.xlsx channels!A3")
    heading, value = record.items[1]
    assert (str(heading.place), str(value.place)) == ("show.xlsx channels!C1", "show.xlsx channels!C3")


def test_names_of_sheets_and_headings_are_folded() -> None:
    def spell(sheet: Worksheet) -> None:
        sheet["A1"], sheet["B1"], sheet["C1"] = " ID", "Analogue  1 ", "mHz"

    data, findings = read(make_book(spell, title=" Channels"))
    assert findings == []
    assert data["channels"]["01"] == {"analogue 1": "VERA", "mhz": "518.200"}


def test_blank_cells_and_sheets_are_absent() -> None:
    def blank(sheet: Worksheet) -> None:
        sheet["B3"], sheet["C3"] = " \u00a0", None
        sheet["A9"].font = Font(bold=True)
        sheet.parent.create_sheet("racks")

    assert read(make_book(blank)) == ({"channels": {"01": FULL["channels"]["01"], "02": {}}}, [])


def test_single_sheet_is_field_and_value() -> None:
    book = openpyxl.Workbook()
    book.active.title = "Show"
    for row in (("Field", "Value"), ("Title", "Glass Ferry"), ("revised", datetime.date(2027, 3, 2)), ("venue",)):
        book.active.append(row)
    assert read(save(book)) == ({"show": {"title": "Glass Ferry", "revised": "2027-03-02"}}, [])


def test_single_sheet_reports_what_it_cannot_place() -> None:
    book = openpyxl.Workbook()
    book.active.title = "day"
    for row in (("half", "19:00", "sharp"), (None, "lost"), ("half", "19:05")):
        book.active.append(row)
    data, findings = read(save(book))
    assert data == {"day": {"half": "19:00"}}
    assert findings == [("day!C1", "cell-beyond"), ("day!B2", "cell-fieldless"), ("day!A3", "key-doubled")]


@pytest.mark.parametrize("number_format", ["0.000 MHz", "0.000 kHz", "0 d", "s0", "Standard", "0.000 \\M\\H\\z"])
@pytest.mark.parametrize("value", [518.2, 518.20625, 0.5182, 30.5, 61.25, 518200, 1518.123456, -518.2])
def test_frequency_never_turns_into_a_date(number_format: str, value: float) -> None:
    def put(sheet: Worksheet) -> None:
        sheet["C2"] = value
        sheet["C2"].number_format = number_format

    data, findings = read(make_book(put))
    assert data["channels"]["01"]["mhz"] == format_number(value)
    assert findings == []


@pytest.mark.parametrize("value", (59.5, 60.25, 60.5))
def test_number_near_the_day_that_never_was_is_itself(value: float) -> None:
    """The calendar that counts from 1900 has a 29 February too many, so two numbers give one date."""

    def put(sheet: Worksheet) -> None:
        sheet["C2"] = value
        sheet["C2"].number_format = "0.000 MHz"

    assert read(make_book(put))[0]["channels"]["01"]["mhz"] == str(value)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (518.19999999999993, "518.2"),
        (518.2, "518.2"),
        (7.0, "7"),
        (12, "12"),
        (-0.0, "0"),
        (1e-7, "0.0000001"),
        (5.182e20, "518200000000000000000"),
        (0.1 + 0.2, "0.3"),
        (486.0125, "486.0125"),
        (2**53, "9007199254740990"),
    ],
)
def test_number_is_its_shortest_decimal(value: float, text: str) -> None:
    assert format_number(value) == text


@pytest.mark.parametrize(
    ("value", "number_format", "text"),
    [
        (True, "General", "TRUE"),
        (False, "General", "FALSE"),
        (datetime.datetime(2027, 3, 2), "dd.mm.yyyy", "2027-03-02"),
        (datetime.datetime(2027, 3, 2), "[$-409]d-mmm;@", "2027-03-02"),
        (datetime.datetime(2027, 3, 2, 19, 30), "yyyy-mm-dd hh:mm", "2027-03-02 19:30:00"),
        (datetime.time(19, 30), "h:mm AM/PM", "19:30:00"),
        (datetime.time(1, 5), "h:mm", "1:05:00"),
        (datetime.timedelta(hours=25, minutes=5), "[h]:mm:ss", "25:05:00"),
        (1, "00", "01"),
        (101, "00", "101"),
        (0.8, "0%", "80%"),
        (1.0, "0%", "100%"),
        (0.125, "0.0%", "12.5%"),
        ("007", "@", "007"),
        ("A<B & C>", "@", "A<B & C>"),
        ("one\r\ntwo", "@", "one\ntwo"),
        ("one_x000D_two", "@", "one\ntwo"),
        ("_x005F_x0041_", "@", "_x0041_"),
    ],
)
def test_value_reads_as_its_author_sees_it(value: object, number_format: str, text: str) -> None:
    def put(sheet: Worksheet) -> None:
        sheet["B2"] = value
        sheet["B2"].number_format = number_format

    data, findings = read(make_book(put))
    assert (data["channels"]["01"]["role"], findings) == (text, [])


def test_number_says_that_it_is_one() -> None:
    raw, _ = read_bytes(make_book(lambda sheet: sheet.__setitem__("C2", 518.2)), "show.xlsx")
    values = [{k.text: v.kind for k, v in record.items} for _, record in raw.get("channels").items]
    assert values == [{"role": "text", "mhz": "number"}, {"role": "text", "mhz": "text"}]


def test_date_counted_from_1904_is_the_same_day() -> None:
    book = openpyxl.Workbook()
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    book.active.title = "show"
    book.active.append(("revised", datetime.date(2027, 3, 2)))
    book.active.append(("mhz", 518.2))
    book.active["B2"].number_format = "0.000 MHz"
    assert read(save(book)) == ({"show": {"revised": "2027-03-02", "mhz": "518.2"}}, [])


def test_formula_with_a_stored_result_is_that_result() -> None:
    data = make_book(lambda sheet: sheet.__setitem__("C2", "=500+18.2"))
    stored = patch_sheet(b"<f>500+18.2</f><v />", b"<f>500+18.2</f><v>518.19999999999993</v>", data)
    assert read(stored)[0]["channels"]["01"]["mhz"] == "518.2"
    empty = patch_sheet(b'<c r="C2"><f>500+18.2</f><v />', b'<c r="C2" t="str"><f>500+18.2</f><v></v>', data)
    assert read(empty) == ({"channels": {"01": {"role": "VERA"}, "02": FULL["channels"]["02"]}}, [])


def test_date_that_is_stored_as_text_is_the_same_day() -> None:
    """ECMA-376 part 1, 18.18.11: a cell of type `d` holds a date of ISO 8601."""
    book = openpyxl.Workbook(iso_dates=True)
    book.active.title = "day"
    book.active.append(("date", datetime.date(2027, 3, 2)))
    book.active.append(("half", datetime.time(18, 55)))
    data = save(book)
    assert b't="d"' in parts_of(data)["xl/worksheets/sheet1.xml"]
    assert read(data) == ({"day": {"date": "2027-03-02", "half": "18:55:00"}}, [])


def test_copied_formula_without_a_result_is_named_by_its_place() -> None:
    data = make_book(lambda sheet: sheet.__setitem__("C2", "=A1"))
    finding = only(patch_sheet(b"<f>A1</f>", b'<f t="shared" si="0"/>', data))
    assert finding.text == "the formula there has no stored result" and finding.place.cell == "C2"


def test_formulas_without_a_result_are_one_finding_with_every_address() -> None:
    def put(sheet: Worksheet) -> None:
        sheet["C2"], sheet["C3"], sheet["B3"] = "=A1", "=C2+0.4", '=IF(A1="","","x")'

    finding = only(make_book(put))
    assert str(finding.place) == "show.xlsx channels!C2"
    assert finding.text == "the formula =A1 has no stored result (nor have B3, C3)"
    assert finding.fix.startswith("open the workbook in a spreadsheet program, save it")


def test_text_that_begins_with_an_equals_sign_is_no_formula() -> None:
    def put(sheet: Worksheet) -> None:
        sheet["B2"] = "=SUM"
        sheet["B2"].data_type = "s"

    assert read(make_book(put))[0]["channels"]["01"]["role"] == "=SUM"


@pytest.mark.parametrize("error", ["#REF!", "#N/A", "#VALUE!"])
def test_error_cell_is_located(error: str) -> None:
    finding = only(make_book(lambda sheet: sheet.__setitem__("C3", error)))
    assert (finding.code, finding.place.cell) == ("cell-error", "C3")
    assert error in finding.text


def test_infinite_number_is_no_value() -> None:
    data = make_book(lambda sheet: sheet.__setitem__("C2", 1))
    assert only(patch_sheet(b"<v>1</v></c></row>", b"<v>1e999</v></c></row>", data)).code == "cell-error"


def test_merged_cells_are_asked_about_where_they_hold_a_value() -> None:
    def merge(sheet: Worksheet) -> None:
        sheet.merge_cells("B2:B3")
        sheet.merge_cells("E5:F6")

    finding = only(make_book(merge))
    assert (finding.code, finding.place.cell) == ("cells-merged", "B2")
    assert finding.text == "the cells B2:B3 are merged; only the first holds the value"


def test_struck_text_is_one_finding_a_row() -> None:
    def strike(sheet: Worksheet) -> None:
        for address in ("A2", "B2"):
            sheet[address].font = Font(strike=True)
        sheet["C3"] = CellRichText("519.4", TextBlock(InlineFont(strike=True), " 520"))

    _, findings = read_bytes(make_book(strike), "show.xlsx")
    assert [(f.code, f.place.cell, f.text) for f in findings] == [
        ("cell-struck", "A2", "struck-through text in this row: A2, B2"),
        ("cell-struck", "C3", "struck-through text in this row: C3"),
    ]


def test_rich_text_is_its_text() -> None:
    rich = CellRichText("A ", TextBlock(InlineFont(b=True), "bold"), " end")
    assert read(make_book(lambda sheet: sheet.__setitem__("B2", rich)))[0]["channels"]["01"]["role"] == "A bold end"


def test_hidden_rows_columns_and_sheets_are_left_out_and_named() -> None:
    def hide(sheet: Worksheet) -> None:
        sheet.row_dimensions[3].hidden = True
        sheet.row_dimensions[9].hidden = True
        sheet.column_dimensions["C"].hidden = True
        for title, state in (("old", "hidden"), ("older", "veryHidden"), ("empty", "hidden")):
            sheet.parent.create_sheet(title).sheet_state = state
            if title != "empty":
                sheet.parent[title]["A1"] = "x"

    raw, findings = read_bytes(make_book(hide), "show.xlsx")
    assert plain(raw) == {"channels": {"01": {"role": "VERA"}}}
    assert [(f.code, f.severity, f.text) for f in findings] == [
        ("sheets-hidden", "warning", "hidden sheets are left out: old, older"),
        ("rows-hidden", "warning", "hidden rows of sheet channels are left out: 3"),
        ("columns-hidden", "warning", "hidden columns of sheet channels are left out: C"),
    ]


def test_group_of_hidden_columns_is_hidden_as_a_whole() -> None:
    def hide(sheet: Worksheet) -> None:
        sheet.column_dimensions.group("B", "C", hidden=True)

    data, findings = read(make_book(hide))
    assert data == {"channels": {"01": {}, "02": {}}}
    assert findings == [("channels", "columns-hidden")]


def test_hidden_ids_and_headings_still_count() -> None:
    def hide(sheet: Worksheet) -> None:
        sheet.column_dimensions["A"].hidden = True
        sheet.row_dimensions[1].hidden = True

    assert read(make_book(hide)) == (FULL, [])


def test_pinned_notes_are_one_warning() -> None:
    def pin(sheet: Worksheet) -> None:
        sheet["B2"].comment = Comment("moved to 9", "a")
        sheet["F9"].comment = Comment("?", "a")

    finding = only(make_book(pin))
    assert (finding.code, finding.severity) == ("notes-unread", "warning")
    assert finding.text == "notes on cells are not read: channels!B2, channels!F9"


def test_control_characters_are_taken_out_and_said() -> None:
    data, findings = read(patch_sheet(b"VERA", b"V_x0007_ERA\x7f"))
    assert data["channels"]["01"]["role"] == "VERA"
    assert findings == [("channels!B2", "text-control")]


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ({"A3": None}, [("channels!B3", "id-missing")]),
        ({"C1": None}, [("channels!C2", "heading-missing")]),
        ({"E3": "x"}, [("channels!E3", "heading-missing")]),
        ({"C1": "Role"}, [("channels!C1", "key-doubled")]),
        ({"A3": "01"}, [("channels!A3", "key-doubled")]),
        ({"A1": "no."}, []),
        ({"A1": "no.", "B1": "who"}, [("channels!A1", "heading-id")]),
        ({"A1": "role", "B1": "no."}, [("channels!A1", "heading-id")]),
        ({"A3": "#REF!"}, [("channels!A3", "cell-error")]),
        ({"A3": datetime.datetime(2027, 2, 1)}, [("channels!A3", "id-date")]),
        ({"B3": "x" * (limits.TEXT_LENGTH + 1)}, [("channels!B3", "text-long")]),
        ({"A1048576": "stray"}, [("channels!A1048576", "sheet-large")]),
        ({"XFD1": "stray"}, [("channels!XFD1", "sheet-large")]),
    ],
)
def test_value_without_a_home_is_located(cells: dict[str, object], expected: list[object]) -> None:
    def put(sheet: Worksheet) -> None:
        for address, value in cells.items():
            sheet[address] = value

    assert read(make_book(put))[1] == expected


def test_id_that_became_a_date_offers_what_was_typed() -> None:
    finding = only(make_book(lambda sheet: sheet.__setitem__("A3", datetime.datetime(2027, 2, 1))))
    assert finding.text == "the id is a date (2027-02-01): a spreadsheet program makes one of 1-2"


def test_two_sheets_of_one_section_are_not_guessed_between() -> None:
    def twice(sheet: Worksheet) -> None:
        other = sheet.parent.create_sheet("CHANNELS ")
        other["A1"], other["A2"] = "id", "01"

    finding = only(make_book(twice))
    assert (finding.code, finding.place.sheet) == ("sheet-doubled", "CHANNELS ")


def test_dimension_that_lies_loses_no_row() -> None:
    assert read(patch_sheet(b'ref="A1:C3"', b'ref="A1"'))[0] == FULL


def test_workbook_of_another_program_reads_the_same() -> None:
    main = 'xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
    relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006"
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    words = "".join(f"<x:si><x:t>{word}</x:t></x:si>" for row in ROWS for word in row)
    rows = "".join(
        "<x:row>" + "".join(f'<x:c t="s"><x:v>{3 * row + column}</x:v></x:c>' for column in range(3)) + "</x:row>"
        for row in range(3)
    )
    parts = {
        "[Content_Types].xml": f'<Types xmlns="{package}/content-types">'
        f'<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{kind}.sheet.main+xml"/>'
        f'<Override PartName="/xl/s.xml" ContentType="{kind}.worksheet+xml"/>'
        f'<Override PartName="/xl/w.xml" ContentType="{kind}.sharedStrings+xml"/></Types>',
        "_rels/.rels": f'<Relationships xmlns="{package}/relationships">'
        f'<Relationship Id="a" Type="{relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<x:workbook {main} xmlns:r="{relations}"><x:sheets>'
        '<x:sheet name="CHANNELS" sheetId="1" r:id="b"/></x:sheets></x:workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{package}/relationships">'
        f'<Relationship Id="b" Type="{relations}/worksheet" Target="s.xml"/>'
        f'<Relationship Id="c" Type="{relations}/sharedStrings" Target="w.xml"/></Relationships>',
        "xl/s.xml": f"<x:worksheet {main}><x:sheetData>{rows}</x:sheetData></x:worksheet>",
        "xl/w.xml": f"<x:sst {main}>{words}</x:sst>",
    }
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, text in parts.items():
            archive.writestr(name, text)
    assert read(buffer.getvalue()) == (FULL, [])


def test_workbook_without_a_value_says_so() -> None:
    finding = only(save(openpyxl.Workbook()))
    assert finding.text == "no sheet of show.xlsx has a value in it"


def test_workbook_named_yaml_is_read_with_a_warning() -> None:
    raw, (finding,) = read_bytes(make_book(), "show.yaml")
    assert plain(raw) == FULL
    assert finding.text == "show.yaml is really a workbook"


def test_a_title_above_the_headings_is_named_and_what_is_below_is_read(tmp_path) -> None:
    book = openpyxl.load_workbook(io.BytesIO(make_book()))
    book["channels"].insert_rows(1)
    book["channels"]["A1"] = "The Glass Ferry"
    book.create_sheet("people").append(["id", "room"])
    book["people"].append(["Mara Lind", "3"])
    path = tmp_path / "show.xlsx"
    path.write_bytes(save(book))
    reading = read_show(path, "show.xlsx")
    found = [(finding.place.cell, finding.place.sheet, finding.code) for finding in reading.findings]
    assert found[0] == ("A1", "channels", "title-unread") and "heading-id" not in {code for *_, code in found}
    assert reading.show is not None and list(reading.show.channels) == ["01", "02"]
