"""The packed folder of a workbook, looked over before a library opens it."""

import io
import re
import zipfile
import zlib
from typing import NamedTuple

from paperwork import limits
from paperwork.files.grid import read_column
from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place

_DOCTYPE = b"<!DOCTYPE"
_CELL_OR_ROW = re.compile(rb"<(?:[^\s<>/:]+:)?(?:c|row)[\s/>]")
_AREA = re.compile(rb"""<(?:[^\s<>/:]+:)?(?:mergeCell|hyperlink)\s(?:[^>"']|"[^"]*"|'[^']*')*>""")
_REFERENCE = re.compile(rb"""\bref\s*=\s*["']\s*([^"']*)["']""")
_CORNERS = re.compile(rb"\$?([A-Z]{1,3})\$?([0-9]{1,7})(?::\$?([A-Z]{1,3})\$?([0-9]{1,7}))?\s*")
_ENCODING = re.compile(rb"""^<\?xml[^>]*?\bencoding\s*=\s*["']([^"']*)["']""")
_SHEET = re.compile(rb"""<(?:[^\s<>/:]+:)?sheet\s[^>]*?:id\s*=\s*["']([^"']*)["']""")
_SHEET_PART = re.compile(rb"""\bTarget\s*=\s*["']([^"']*sheet[^"']*\.xml)["']""", re.IGNORECASE)
_TABLE_PART = re.compile(r"sheet[0-9]*\.xml$|sharedstrings[0-9]*\.xml$")
_LONG_TAG = re.compile(rb"<[^>]{%d}" % (limits.XML_TAG_BYTES + 1))
_ENCODINGS = {b"utf-8", b"utf8", b"us-ascii", b"ascii", b"iso-8859-1", b"windows-1252"}
"""Encodings in which markup is plain ASCII, so that the searches here see what a parser would."""


_ENTRY = b"PK\x01\x02"
"""Begins each entry of a zip's table of contents (APPNOTE 6.3.10, 4.3.12)."""


def has_too_many_parts(data: bytes) -> bool:
    """Whether a zip may list more parts than any file of ours. To be asked before a library takes its list apart."""
    return data.count(_ENTRY) > limits.ZIP_PARTS


def refuse_many_parts(data: bytes, name: str) -> None:
    """Raises Refused for a zip that lists too many parts."""
    if has_too_many_parts(data):
        raise _unsafe(name, f"it holds more than {limits.ZIP_PARTS:,} parts")


def _unsafe(name: str, reason: str) -> Refused:
    return Refused(find("file-unsafe", Place(name), name=name, reason=reason))


def check_zip(data: bytes, name: str) -> None:
    """Raises Refused if the archive is damaged, would unpack too large, or declares a document type.

    The sizes of the directory may lie, but no part is read beyond the size that the directory gives it.
    """
    place = Place(name)
    refuse_many_parts(data, name)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _check_directory(archive.infolist(), name)
            scans = [_scan_part(archive, part, name) for part in archive.infolist()]
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError, ValueError, OSError):
        reason = "its parts do not unpack"
        raise Refused(find("file-damaged", place, name=name, reason=reason)) from None
    if sum(scan.tags for scan in scans) > limits.XML_TAGS or sum(scan.aside for scan in scans) > limits.XML_TAGS_ASIDE:
        raise _unsafe(name, "it holds more than any table needs")
    if sum(scan.cells for scan in scans) > limits.SHEET_CELLS:
        what = f"the workbook holds or merges more than {limits.SHEET_CELLS:,} cells"
        raise Refused(find("sheet-large", place, what=what))


def _check_directory(parts: list[zipfile.ZipInfo], name: str) -> None:
    total = sum(part.file_size for part in parts)
    packed = sum(part.compress_size for part in parts)
    reasons = (
        (any(part.file_size > limits.ZIP_PART_BYTES for part in parts), "one of its parts unpacks to a huge size"),
        (total > limits.ZIP_TOTAL_BYTES, "it unpacks to a huge size"),
        (total > limits.ZIP_FREE_BYTES and total > limits.ZIP_RATIO * packed, "it unpacks to many times its size"),
        (len({part.filename for part in parts}) < len(parts), "it holds two parts of one name"),
        (any(part.flag_bits & 1 for part in parts), "a part of it is encrypted"),
    )
    for is_bad, reason in reasons:
        if is_bad:
            raise _unsafe(name, reason)


class _PartScan(NamedTuple):
    """What a part holds: cells that it names or merges, tags, and tags where neither cells nor texts are."""

    cells: int = 0
    tags: int = 0
    aside: int = 0


def _scan_part(archive: zipfile.ZipFile, part: zipfile.ZipInfo, name: str) -> _PartScan:
    """What an XML part holds; reading it to the end also proves its checksum."""
    text = archive.read(part)
    path = part.filename.lower()
    if not path.endswith((".xml", ".rels", ".vml")):
        return _PartScan()
    encoding = _ENCODING.match(text.removeprefix(b"\xef\xbb\xbf")[:200])
    if b"\0" in text or (encoding and encoding[1].lower() not in _ENCODINGS):
        raise _unsafe(name, "a part of it is not UTF-8 text")
    if _DOCTYPE in text:
        raise _unsafe(name, "it declares a document type")
    if _LONG_TAG.search(text):
        raise _unsafe(name, f"it holds a tag of more than {limits.XML_TAG_BYTES:,} bytes")
    sheets = _SHEET.findall(text)
    if len(sheets) > limits.SHEETS or _has_doubles(sheets) or _has_doubles(_SHEET_PART.findall(text)):
        raise _unsafe(name, "it lists more sheets than it holds, or than any book")
    areas = sum(_measure_area(match[0]) for match in _AREA.finditer(text))
    tags = text.count(b"<")
    is_aside = not _TABLE_PART.search(path)
    return _PartScan(sum(1 for _ in _CELL_OR_ROW.finditer(text)) + areas, tags, tags if is_aside else 0)


def _has_doubles(paths: list[bytes]) -> bool:
    """Whether one sheet is listed twice: it would be read as often."""
    return len({path.lower() for path in paths}) < len(paths)


def _measure_area(tag: bytes) -> int:
    """The number of cells in a tag's area: the library makes each of them. Unreadable ones count as too many."""
    reference = _REFERENCE.search(tag)
    corners = _CORNERS.fullmatch(reference[1]) if reference else None
    if corners is None:
        return limits.SHEET_CELLS if reference else 0
    if corners[3] is None:
        return 1
    width = read_column(corners[3].decode()) - read_column(corners[1].decode()) + 1
    height = int(corners[4]) - int(corners[2]) + 1
    return max(width, 1) * max(height, 1)
