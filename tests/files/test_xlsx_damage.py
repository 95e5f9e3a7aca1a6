"""Workbooks that are broken, hostile or without end: one line that says so, and nothing unpacked."""

import io
import re
import zipfile
from collections.abc import Callable

import pytest

from paperwork import limits
from paperwork.files import read_bytes
from paperwork.files.xlsx import sheet
from paperwork.files.xlsx.xml import parse_xml, walk_xml
from tests.files.workbooks import FULL, make_book, only, patch, patch_sheet, plain, repack


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999])
def test_half_a_workbook_is_one_line(share: float) -> None:
    data = make_book()
    finding = only(data[: int(len(data) * share)])
    assert (finding.code, str(finding.place)) == ("file-damaged", "show.xlsx")


def test_flipped_bytes_never_raise() -> None:
    data = make_book()
    for index in range(0, len(data), 7):
        raw, findings = read_bytes(data[:index] + bytes([data[index] ^ 0x55]) + data[index + 1 :], "show.xlsx")
        assert raw is not None or findings


@pytest.mark.parametrize("part", ["xl/workbook.xml", "xl/worksheets/sheet1.xml"])
@pytest.mark.parametrize("text", [b"", b"<", b"<a/>", b"<?xml version='1.0'?><worksheet/>"])
def test_senseless_part_is_one_line(part: str, text: bytes) -> None:
    finding = only(patch(make_book(), part, lambda _: text))
    assert finding.code in ("file-damaged", "workbook-blank")


@pytest.mark.parametrize("text", [b"", b"<", b"<a/>"])
def test_senseless_list_of_kinds_loses_nothing(text: bytes) -> None:
    """The kinds of parts are told by their relations too, which is how they are found."""
    raw, findings = read_bytes(patch(make_book(), "[Content_Types].xml", lambda _: text), "show.xlsx")
    assert plain(raw) == FULL and findings == ()


@pytest.mark.parametrize("part", ["xl/workbook.xml", "xl/worksheets/sheet1.xml", "[Content_Types].xml"])
@pytest.mark.parametrize("method", [9, 97, 99])
def test_a_part_packed_in_a_way_that_nobody_here_knows_is_one_line(part: str, method: int) -> None:
    """9 is Deflate64, 97 WavPack, 99 AES: PKWARE's APPNOTE 6.3.10, section 4.4.5."""
    assert only(repack(make_book(), part, method)).code in ("file-damaged", "file-unsafe")


@pytest.mark.parametrize("codec", ["utf-8", "utf-16"])
def test_document_type_is_refused(codec: str) -> None:
    def declare(text: bytes) -> bytes:
        body = re.sub(rb"^<\?xml[^>]*>", b"", text).decode()
        entity = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">]>'
        return f'<?xml version="1.0" encoding="{codec}"?>{entity}{body}'.encode(codec)

    finding = only(patch(make_book(), "xl/worksheets/sheet1.xml", declare))
    assert finding.code == "file-unsafe"


def test_part_in_a_strange_encoding_is_refused() -> None:
    def encode(text: bytes) -> bytes:
        return b'<?xml version="1.0" encoding="cp037"?>' + text

    assert only(patch(make_book(), "xl/worksheets/sheet1.xml", encode)).code == "file-unsafe"


def _bomb(**parts: bytes) -> bytes:
    buffer = io.BytesIO(make_book())
    with zipfile.ZipFile(buffer, "a", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return buffer.getvalue()


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (lambda: _bomb(a=bytes(limits.ZIP_PART_BYTES + 1)), "one of its parts unpacks to a huge size"),
        (lambda: _bomb(a=bytes(20_000_000)), "it unpacks to many times its size"),
        (lambda: _bomb(**{f"p{n}": b"" for n in range(limits.ZIP_PARTS)}), "it holds more than 2,000 parts"),
    ],
)
def test_bomb_is_refused_unopened(data: Callable[[], bytes], words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    bomb = data()
    monkeypatch.setattr(sheet, "Parts", None)
    finding = only(bomb)
    assert finding.code == "file-unsafe"
    assert words in finding.text


def test_size_that_lies_is_not_unpacked() -> None:
    data = bytearray(_bomb(a=bytes(1_000_000)))
    at = data.rindex(b"PK\x01\x02")  # the directory's entry of the last part; its size stands at 24
    data[at + 24 : at + 28] = (10).to_bytes(4, "little")
    assert only(bytes(data)).code == "file-damaged"


@pytest.mark.parametrize(
    "tag",
    [
        b'<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>',
        b"<mergeCells><mergeCell\n x='>' ref = 'A1:XFD1048576'/></mergeCells>",
        b'<mergeCells><mergeCell ref="&#65;1:XFD1048576"/></mergeCells>',
        b'<hyperlinks><hyperlink ref="A1:XFD1048576" location="x"/></hyperlinks>',
    ],
)
def test_area_of_a_whole_sheet_is_refused(tag: bytes) -> None:
    assert only(patch_sheet(b"</sheetData>", b"</sheetData>" + tag)).code == "sheet-large"


def test_too_many_cells_are_refused_unopened(monkeypatch: pytest.MonkeyPatch) -> None:
    data = patch_sheet(b"</sheetData>", b"<row>" + b"<c/>" * limits.SHEET_CELLS + b"</row></sheetData>")
    monkeypatch.setattr(sheet, "Parts", None)
    monkeypatch.setattr(limits, "ZIP_FREE_BYTES", 10**9)
    assert only(data).code == "sheet-large"


@pytest.mark.parametrize("head", [b"", b'<?xml version="1.0"' + b" " * 300 + b"?>"])
def test_a_document_type_stops_the_parser_itself(head: bytes) -> None:
    """The look through the bytes and the parser refuse it apart from one another."""
    bomb = b"<!DOCTYPE a [<!ENTITY b 'xx'><!ENTITY c '&b;&b;'>]><a>&c;</a>"
    for reading in (parse_xml, lambda data: list(walk_xml(data, frozenset({"a"})))):
        with pytest.raises(ValueError, match="document type"):
            reading(head + bomb)


def test_a_part_that_was_not_looked_into_is_not_read() -> None:
    """The searches for what is hostile go by the names of XML parts."""
    data = patch(make_book(), "xl/_rels/workbook.xml.rels", lambda text: text.replace(b"sheet1.xml", b"sheet1.dat"))
    buffer = io.BytesIO(data)
    with zipfile.ZipFile(buffer, "a") as archive:
        archive.writestr("xl/worksheets/sheet1.dat", archive.read("xl/worksheets/sheet1.xml"))
    assert only(buffer.getvalue()).code == "file-damaged"
