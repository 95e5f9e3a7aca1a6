"""Foreign workbooks as grids: what people see, the marks on it, and the places; from files as other programs write them."""

import io
import zipfile

import openpyxl
import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

from paperwork.files.refusal import Refused
from paperwork.files.xlsx.sheet import read_workbook

MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
BOOK = f'<workbook {MAIN} xmlns:r="{REL}"><workbookPr %s/><sheets><sheet name="Mics" sheetId="1" r:id="rId1"/></sheets></workbook>'
RELS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="rId1" Type="{REL}/worksheet" Target="/xl/worksheets/sheet1.xml"/>'
    f'<Relationship Id="rId2" Type="{REL}/sharedStrings" Target="sharedStrings.xml"/>'
    f'<Relationship Id="rId3" Type="{REL}/styles" Target="styles.xml"/></Relationships>'
)
STYLES = (
    f'<styleSheet {MAIN}><numFmts count="1"><numFmt numFmtId="164" formatCode="0.000 MHz"/></numFmts>'
    '<fonts><font/><font><strike/></font></fonts><fills><fill><patternFill patternType="none"/></fill>'
    '<fill><patternFill patternType="solid"><fgColor rgb="FFFFFF00"/></patternFill></fill></fills>'
    '<cellXfs><xf/><xf numFmtId="164"/><xf numFmtId="16"/><xf fontId="1"/><xf fillId="1"/><xf numFmtId="9"/><xf numFmtId="20"/></cellXfs></styleSheet>'
)
STRINGS = (
    f"<sst {MAIN}><si><t>plain</t></si><si><r><rPr><strike/></rPr><t>old </t></r><r><t>new</t></r></si>"
    '<si><t>\u6771\u4eac</t><rPh sb="0" eb="2"><t>toukyou</t></rPh></si><si><t>a_x000D_b</t></si></sst>'
)


def _book(rows: str, book: str = "", extra: str = "") -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        archive.writestr("xl/workbook.xml", BOOK % book)
        archive.writestr("xl/_rels/workbook.xml.rels", RELS)
        archive.writestr("xl/styles.xml", STYLES)
        archive.writestr("xl/sharedStrings.xml", STRINGS)
        archive.writestr(
            "xl/worksheets/sheet1.xml", f"<worksheet {MAIN}><sheetData>{rows}</sheetData>{extra}</worksheet>"
        )
    return buffer.getvalue()


def _cells(data: bytes):
    book = read_workbook(data, "list.xlsx")
    return {cell.address: cell for cell in book.grids[0].cells.values()}, book


def _one(cell: str, book: str = ""):
    cells, _ = _cells(_book(f'<row r="2">{cell}</row>', book))
    return cells["B2"]


@pytest.mark.parametrize(
    ("cell", "text", "kind"),
    [
        ('<c r="B2" t="s"><v>0</v></c>', "plain", "text"),
        ('<c r="B2" t="s"><v>1</v></c>', "old new", "text"),
        ('<c r="B2" t="s"><v>2</v></c>', "\u6771\u4eac", "text"),
        ('<c r="B2" t="s"><v>3</v></c>', "a\nb", "text"),
        ('<c r="B2"><v>518.19999999999993</v></c>', "518.2", "number"),
        ('<c r="B2" s="1"><v>518.2</v></c>', "518.2", "number"),
        ('<c r="B2" s="1"><v>60.25</v></c>', "60.25", "number"),
        ('<c r="B2" s="2"><v>45689</v></c>', "2025-02-01", "date"),
        ('<c r="B2" s="5"><v>0.8</v></c>', "80%", "number"),
        ('<c r="B2" s="6"><v>0.8125</v></c>', "19:30:00", "date"),
        ('<c r="B2" t="b"><v>1</v></c>', "TRUE", "text"),
        ('<c r="B2" t="str"><f>A1</f><v>x</v></c>', "x", "text"),
        ('<c r="B2" t="e"><v>#REF!</v></c>', "#REF!", "failed"),
        ('<c r="B2"><f>A1+1</f></c>', "", "failed"),
        ('<c r="B2" t="inlineStr"><is><t>in</t><rPh sb="0" eb="1"><t>no</t></rPh></is></c>', "in", "text"),
    ],
)
def test_a_cell_is_what_its_author_sees(cell, text, kind):
    got = _one(cell)
    assert (got.text, got.kind) == (text, kind)


def test_days_count_from_the_epoch_of_the_book():
    assert _one('<c r="B2" s="2"><v>44227</v></c>', 'date1904="1"').text == "2025-02-01"


def test_marks_on_text_are_told():
    assert (_one('<c r="B2" t="s"><v>1</v></c>').struck, _one('<c r="B2" t="s"><v>1</v></c>').kept) == ("part", "new")
    assert _one('<c r="B2" s="3" t="s"><v>0</v></c>').struck == "whole"
    assert _one('<c r="B2" s="4" t="s"><v>0</v></c>').fill == "#FFFF00"
    assert _one('<c r="B2" s="1"><v>518.2</v></c>').recovered and not _one('<c r="B2"><v>518.2</v></c>').recovered
    assert _one('<c r="B2" s="2"><v>518.2</v></c>').serial == "518.2"


def test_cells_and_rows_without_an_address_follow_one_another():
    cells, _ = _cells(_book("<row><c><v>1</v></c><c><v>2</v></c></row><row><c/><c><v>3</v></c></row>"))
    assert {address: cell.text for address, cell in cells.items()} == {"A1": "1", "B1": "2", "B2": "3"}


def test_what_a_library_writes_is_read_as_the_library_reads_it():
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A1"], sheet["B1"], sheet["C1"] = "Ch", 518.2, CellRichText(TextBlock(InlineFont(strike=True), "old "), "new")
    sheet["B2"].fill = PatternFill("solid", fgColor="00FF00")
    sheet["A3"] = "gone"
    sheet["A3"].font = Font(strike=True)
    sheet["A1"].comment = Comment("look here", "me")
    sheet.merge_cells("D1:F2")
    sheet.row_dimensions[3].hidden = True
    book.create_sheet("old").sheet_state = "hidden"
    buffer = io.BytesIO()
    book.save(buffer)
    cells, read = _cells(buffer.getvalue())
    grid = read.grids[0]
    assert {address: cell.text for address, cell in cells.items()} == {"A1": "Ch", "B1": "518.2", "C1": "old new"}
    assert grid.merges == ((1, 4, 2, 6),) and grid.fills == {(2, 2): "#00FF00"} and grid.notes == {(1, 1): "look here"}
    assert [cell.text for cell in grid.hidden] == ["gone"] and [g.is_hidden for g in read.grids] == [False, True]


@pytest.mark.parametrize(
    "part", ["xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/sharedStrings.xml"]
)
@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"<a",
        b"\xff\xfe\x00",
        b"<worksheet><sheetData><row r='x'><c r='A1'><v>1</v></c></row></sheetData></worksheet>",
    ],
)
def test_a_damaged_part_is_refused_or_read_and_never_a_traceback(part, content):
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(_book("<row><c><v>1</v></c></row>"))) as old, zipfile.ZipFile(buffer, "w") as new:
        for info in old.infolist():
            new.writestr(info.filename, content if info.filename == part else old.read(info))
    try:
        read_workbook(buffer.getvalue(), "list.xlsx")
    except Refused as refused:
        assert refused.finding.code in ("file-damaged", "file-unsafe")
