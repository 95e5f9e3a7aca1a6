"""Small workbooks, altered as a careless or hostile program might write them, and what is read from them."""

import io
import zipfile
from collections.abc import Callable

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from paperwork.files import read_bytes
from paperwork.finding import Finding
from paperwork.raw import Map, Node

ROWS = (("id", "role", "mhz"), ("01", "VERA", "518.200"), ("02", "TOM", "519.4"))


def save(book: openpyxl.Workbook) -> bytes:
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def make_book(change: Callable[[Worksheet], object] | None = None, title: str = "channels") -> bytes:
    book = openpyxl.Workbook()
    book.active.title = title
    for row in ROWS:
        book.active.append(row)
    if change:
        change(book.active)
    return save(book)


def patch(data: bytes, part: str, change: Callable[[bytes], bytes]) -> bytes:
    """The archive with one part altered, as a careless or hostile program might write it."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as new:
        for info in old.infolist():
            text = old.read(info)
            new.writestr(info.filename, change(text) if info.filename == part else text)
    return buffer.getvalue()


def parts_of(data: bytes) -> dict[str, bytes]:
    """The parts of a workbook by their paths."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def patch_sheet(old: bytes, new: bytes, data: bytes | None = None) -> bytes:
    data = data or make_book()
    patched = patch(data, "xl/worksheets/sheet1.xml", lambda text: text.replace(old, new, 1))
    assert patched != data
    return patched


def plain(node: Node | None) -> object:
    if isinstance(node, Map):
        return {key.text: plain(value) for key, value in node.items}
    return node.text if node else None


def read(data: bytes) -> tuple[object, list[tuple[str, str]]]:
    raw, findings = read_bytes(data, "show.xlsx")
    return plain(raw), [(str(f.place).removeprefix("show.xlsx").strip(), f.code) for f in findings]


def only(data: bytes) -> Finding:
    _, findings = read_bytes(data, "show.xlsx")
    assert len(findings) == 1, findings
    return findings[0]


FULL = {"channels": {"01": {"role": "VERA", "mhz": "518.200"}, "02": {"role": "TOM", "mhz": "519.4"}}}


def repack(data: bytes, part: str, method: int) -> bytes:
    """The archive with another number for the way in which one part is packed, in both places that tell it."""
    found = bytearray(data)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        start = archive.getinfo(part).header_offset
    entry = data.index(part.encode(), data.index(b"PK\x01\x02")) - 46
    for at in (start + 8, entry + 10):
        found[at : at + 2] = method.to_bytes(2, "little")
    return bytes(found)
