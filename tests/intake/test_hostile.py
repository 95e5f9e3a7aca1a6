"""Files that would hang a careless reader: refused in plain words, nothing read to the end, nothing written."""

import pytest

from paperwork.reading import read_show
from tests.files.workbooks import patch
from tests.intake.sheets import workbook

BOOK = workbook({"Mics": [["Ch", "Actor", "Freq"], [1, "Mara Lind", 518.2]]})
SHEET = "xl/worksheets/sheet1.xml"


def _in_sheet(old: bytes, new: bytes) -> bytes:
    return patch(BOOK, SHEET, lambda text: text.replace(old, new, 1))


FILES = {
    "a row without an end": ("list.csv", b"Ch," * 1_000_000, "sheet-large"),
    "rows without an end": ("list.csv", b"Ch;Actor;Freq\n" + b"1;Mara;518.2\n" * 60_000, "sheet-large"),
    "more channels than any show": (
        "list.csv",
        b"Ch;Actor;Freq\n" + b"".join(b"%d;P%d;518.2\n" % (n, n) for n in range(6_000)),
        "sheet-large",
    ),
    "quotes alone": ("list.csv", b'"' * 300_000, "text-long"),
    "zero bytes": ("list.csv", b"Ch;Actor\n\0\0", "file-kind"),
    "formatted empty rows": (
        "list.xlsx",
        _in_sheet(b"</sheetData>", b'<row r="9" s="1"/>' * 410_000 + b"</sheetData>"),
        "file-unsafe",
    ),
    "a merge over everything": (
        "list.xlsx",
        _in_sheet(b"</worksheet>", b'<mergeCells><mergeCell ref="A5:XFD900"/></mergeCells></worksheet>'),
        "sheet-large",
    ),
    "an entity": ("list.xlsx", _in_sheet(b"<worksheet", b'<!DOCTYPE w [<!ENTITY a "b">]><worksheet'), "file-unsafe"),
    "half a workbook": ("list.xlsx", BOOK[: len(BOOK) // 2], "file-damaged"),
    "a value of a book's length": ("list.xlsx", _in_sheet(b"Mara Lind", b"A" * 300_000), "text-long"),
    "a password": (
        "list.xlsx",
        bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600) + "EncryptedPackage".encode("utf-16-le"),
        "file-password",
    ),
    "an old workbook": ("list.xls", bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600), "file-old-workbook"),
    "a web page": ("list.xls", b"<html><table><tr><td>1</td></tr></table>", "file-kind"),
}


@pytest.mark.parametrize("what", FILES)
def test_it_is_refused_in_plain_words(what, tmp_path):
    name, data, code = FILES[what]
    (tmp_path / name).write_bytes(data)
    reading = read_show(tmp_path / name, name)
    errors = [
        finding for finding in reading.findings if finding.severity == "error" and finding.code != "table-missing"
    ]
    assert reading.show is None and [finding.code for finding in errors] == [code]
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_values_with_a_workbooks_name_are_read_and_the_name_is_said(tmp_path):
    (tmp_path / "list.xlsx").write_bytes(b"Ch;Actor;Freq\n1;Mara Lind;518,2\n2;Max Ried;530,4\n")
    reading = read_show(tmp_path / "list.xlsx", "list.xlsx")
    assert [finding.code for finding in reading.findings] == ["file-misnamed"] and list(reading.show.channels) == [
        "1",
        "2",
    ]


DAMAGE = {
    "a row that nobody can count": (b'<row r="1"', b'<row r="hidden"'),
    "a style that is no number": (b'<c r="A1"', b'<c s="x" r="A1"'),
    "a text that is not in the list": (b"</sheetData>", b'<row r="9"><c r="A9" t="s"><v>99</v></c></row></sheetData>'),
    "a tag that is never closed": (b"</row>", b""),
    "a column too far to count": (b"<sheetData>", b'<cols><col min="x" max="9" hidden="1"/></cols><sheetData>'),
}


@pytest.mark.parametrize("title", ("Mics", "channels"))
@pytest.mark.parametrize("what", DAMAGE)
def test_a_damaged_sheet_is_refused_whoever_asks_whose_it_is(what, title, tmp_path):
    """A sheet that is named like a section of ours is looked into before it is known whose workbook it is."""
    book = workbook({title: [["id", "Actor", "Freq"], [1, "Mara Lind", 518.2]]})
    (tmp_path / "list.xlsx").write_bytes(patch(book, SHEET, lambda text: text.replace(*DAMAGE[what], 1)))
    reading = read_show(tmp_path / "list.xlsx", "list.xlsx")
    assert reading.show is None and "file-damaged" in [finding.code for finding in reading.findings]
