"""The parts of a packed workbook that a table needs, read straight from their XML.

One pass gives each formula beside its stored result, numbers before a format turns them into dates, and the marks
on text: what a library for workbooks gives only by opening the file twice, at many times the cost. Source of every
name and number: ECMA-376 part 1, 18.3 (sheets), 18.4 (strings), 18.8 (styles), 18.7 (comments).
"""

import io
import posixpath
import zipfile
from collections.abc import Iterator
from typing import NamedTuple
from xml.etree.ElementTree import Element

from paperwork.files.xlsx.xml import child, children, local, parse_xml, walk_xml
from paperwork.frozen import frozen

_BUILT_IN = {
    9: "0%",
    10: "0.00%",
    14: "mm-dd-yy",
    15: "d-mmm-yy",
    16: "d-mmm",
    17: "mmm-yy",
    18: "h:mm AM/PM",
    19: "h:mm:ss AM/PM",
    20: "h:mm",
    21: "h:mm:ss",
    22: "m/d/yy h:mm",
    45: "mm:ss",
    46: "[h]:mm:ss",
    47: "mmss.0",
    49: "@",
    **dict.fromkeys((*range(27, 37), *range(50, 59)), "yyyy-mm-dd"),
}
"""Number formats that a file names by number only (18.8.30); those missing here show a plain number."""

_INDEXED = {
    2: "#FF0000",
    3: "#00FF00",
    4: "#0000FF",
    5: "#FFFF00",
    6: "#FF00FF",
    7: "#00FFFF",
    10: "#FF0000",
    11: "#00FF00",
    12: "#0000FF",
    13: "#FFFF00",
    14: "#FF00FF",
    15: "#00FFFF",
    22: "#C0C0C0",
    23: "#808080",
}
"""The indexed colours that people pick (18.8.27); the others keep their number."""


class TextRun(NamedTuple):
    """A stretch of text of one kind."""

    text: str
    struck: bool


class CellStyle(NamedTuple):
    """What a cell's style says: its number format, whether it is struck through, and its fill or ""."""

    number_format: str
    struck: bool
    fill: str


class Stored(NamedTuple):
    """A cell as the file holds it: type, value as written, formula, style, and the runs of text written into it."""

    reference: str
    type: str
    value: str | None
    formula: str | None
    style: int
    runs: tuple[TextRun, ...]


@frozen
class SheetPart:
    """One sheet by its title, the path of its part, and whether it is hidden."""

    title: str
    path: str
    is_hidden: bool


class Parts:
    """One workbook, its parts read as they are wanted. Raises KeyError or ValueError if it is damaged."""

    def __init__(self, data: bytes) -> None:
        self._zip = zipfile.ZipFile(io.BytesIO(data))
        self._names = {name.lower(): name for name in self._zip.namelist()}
        self.book_path = next(path for path in ("xl/workbook.xml", "workbook.xml") if path in self._names)
        book = self.parse(self.book_path)
        related = self.related(self.book_path)
        properties = child(book, "workbookPr")
        self.counts_from_1904 = properties is not None and properties.get("date1904") in ("1", "true")
        self.sheets = tuple(self._list_sheets(book, related))
        by_kind = dict(related.values())
        self.strings = self._read_strings(by_kind.get("sharedStrings", ""))
        self.styles = self._read_styles(by_kind.get("styles", ""))

    def read(self, path: str) -> bytes:
        """The bytes of a part. Only parts that `check_zip` has looked into are read."""
        if not path.lower().endswith(_XML):
            raise ValueError("a part without the name of an XML part")
        return self._zip.read(self._names[path.lower()])

    def has(self, path: str) -> bool:
        """Whether there is such a part; names of parts are compared without case (ECMA-376 part 2, 6.2.2.3)."""
        return path.lower() in self._names

    def spell(self, path: str) -> str:
        """The path of a part as the zip spells it; a new one as it is."""
        return self._names.get(path.lower(), path)

    def read_all(self) -> Iterator[bytes]:
        """The bytes of every XML part."""
        return (xml for _, xml in self.list_xml())

    def list_xml(self) -> Iterator[tuple[str, bytes]]:
        """The path of every XML part, as the zip spells it, and its bytes."""
        return ((name, self.read(name)) for path, name in self._names.items() if path.endswith(_XML))

    def parse(self, path: str) -> Element:
        """The root element of a small part."""
        return parse_xml(self.read(path))

    def related(self, path: str) -> dict[str, tuple[str, str]]:
        """The parts that a part names: id to kind and path."""
        folder, name = posixpath.split(path)
        rels = f"{folder}/_rels/{name}.rels".lstrip("/")
        if not self.has(rels):
            return {}
        found = {}
        for element in self.parse(rels):
            target = element.get("Target", "")
            full = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
            if element.get("TargetMode") != "External":
                found[element.get("Id", "")] = (element.get("Type", "").rsplit("/", 1)[-1], full)
        return found

    def walk(self, path: str) -> Iterator[Element]:
        """What is wanted of a sheet, each row given up once it was seen."""
        return walk_xml(self.read(path), _WANTED)

    def _list_sheets(self, book: Element, related: dict[str, tuple[str, str]]) -> Iterator[SheetPart]:
        for element in children(book, "sheets"):
            id = next((value for name, value in element.items() if name.endswith("}id")), "")
            kind, path = related.get(id, ("", ""))
            if kind == "worksheet" and self.has(path):
                yield SheetPart(element.get("name", ""), path, element.get("state", "visible") != "visible")

    def _read_strings(self, path: str) -> tuple[tuple[TextRun, ...], ...]:
        if not self.has(path):
            return ()
        return tuple(read_runs(item) for item in self.parse(path) if local(item) == "si")

    def _read_styles(self, path: str) -> tuple[CellStyle, ...]:
        if not self.has(path):
            return ()
        root = self.parse(path)
        custom = {int(e.get("numFmtId", 0)): e.get("formatCode", "") for e in children(root, "numFmts")}
        struck = [_is_struck(font) for font in children(root, "fonts")]
        fills = [_fill_of(fill) for fill in children(root, "fills")]
        styles = []
        for element in children(root, "cellXfs"):
            number = int(element.get("numFmtId", 0))
            font, fill = int(element.get("fontId", 0)), int(element.get("fillId", 0))
            shown = custom.get(number, _BUILT_IN.get(number, "General"))
            is_struck = font < len(struck) and struck[font]
            styles.append(CellStyle(shown, is_struck, fills[fill] if fill < len(fills) else ""))
        return tuple(styles)


_XML = (".xml", ".rels")
_WANTED = frozenset({"row", "col", "mergeCell", "drawing", "picture"})


def read_cells(row: Element, filled: frozenset[str]) -> Iterator[Stored]:
    """The cells of a row that hold something, or whose style is one of the filled ones."""
    for element in row:
        if local(element) != "c" or (len(element) == 0 and element.get("r") and element.get("s", "0") not in filled):
            continue
        value = formula = None
        runs: tuple[TextRun, ...] = ()
        for part in element:
            name = local(part)
            if name == "v":
                value = part.text or ""
            elif name == "f":
                formula = part.text or ""
            elif name == "is":
                runs = read_runs(part)
        yield Stored(element.get("r", ""), element.get("t", "n"), value, formula, int(element.get("s", 0)), runs)


def read_runs(item: Element) -> tuple[TextRun, ...]:
    """The stretches of a text, those that only say how it is pronounced left out."""
    runs = []
    for part in item:
        name = local(part)
        if name == "t":
            runs.append(TextRun(part.text or "", False))
        elif name == "r":
            properties, text = child(part, "rPr"), child(part, "t")
            struck = properties is not None and _is_struck(properties)
            runs.append(TextRun((text.text or "") if text is not None else "", struck))
    return tuple(runs)


def _is_struck(font: Element) -> bool:
    mark = child(font, "strike")
    return mark is not None and mark.get("val", "1") not in ("0", "false")


def _fill_of(fill: Element) -> str:
    pattern = child(fill, "patternFill")
    if pattern is None or pattern.get("patternType", "none") in ("none", "gray125"):
        return ""
    colour = child(pattern, "fgColor")
    if colour is None:
        return ""
    if colour.get("rgb"):
        return "#" + colour.get("rgb", "")[-6:].upper()
    if colour.get("indexed"):
        return _INDEXED.get(int(colour.get("indexed", 0)), f"colour {colour.get('indexed')}")
    if colour.get("theme"):
        tint = colour.get("tint")
        return f"theme colour {colour.get('theme')}" + (f" ({float(tint):+.2f})" if tint else "")
    return ""
