"""A tagged PDF as a reader takes it in: its parts in their order with what is said in each, and what the rules ask of them.

Read off the file with a library that did not write it; the letters are decoded from the map that each font carries. The
rules are those of ISO 14289-1:2014 (clause 7) and ISO 32000-1:2008 (14.7 and 14.8) that a program can judge.
"""

import re
from collections.abc import Iterator
from io import BytesIO
from typing import Any, NamedTuple

import pypdf
from pypdf.generic import ContentStream

PATHS = {b"S", b"s", b"f", b"F", b"f*", b"B", b"B*", b"b", b"b*"}
KIDS = {
    "Table": {"TR"}, "TR": {"TH", "TD"}, "L": {"LI"}, "LI": {"Lbl", "LBody"}, "H1": {"Link"}, "H2": {"Link"},
    "P": {"Link"}, "Lbl": set(), "Link": set(), "Figure": set(), "TH": {"Link"}, "TD": {"Link"},
}  # fmt: skip
"""What may stand in a part; in any other, whatever stands in a document."""

PARTS = {"Sect", "Div", "H1", "H2", "P", "Table", "L", "Figure"}


class Said(NamedTuple):
    """One marked sequence: where it is marked, the parts around it from the outermost, and its text."""

    page: int
    number: int
    path: tuple[str, ...]
    text: str


class Tagged:
    """A document taken apart: `said` in the order of its tree, `furniture` by page."""

    def __init__(self, pdf: bytes) -> None:
        self.reader = pypdf.PdfReader(BytesIO(pdf))
        self.root = self.reader.trailer["/Root"]
        self.pages = {page.indirect_reference.idnum: number for number, page in enumerate(self.reader.pages)}
        self.marked: dict[tuple[int, int], str] = {}
        self.furniture: list[str] = []
        for number, page in enumerate(self.reader.pages):
            self._read(number, page)
        self.said: list[Said] = []
        self.owners: dict[tuple[int, int], int] = {}
        self.elements: list[Any] = []
        tree = self.root["/StructTreeRoot"]
        self._walk(tree["/K"].get_object(), tree.indirect_reference.idnum, ())

    def _read(self, number: int, page: Any) -> None:
        maps = {name: _letters_of(font.get_object()) for name, font in page["/Resources"]["/Font"].items()}
        stack: list[int | None] = []
        instead: list[bool] = []
        furniture, letters = [], {}

        def say(text: str) -> None:
            assert stack, "a text that is neither in a part nor furniture"
            if stack[-1] is None:
                furniture.append(text)
            else:
                self.marked[number, stack[-1]] += text + " "

        for operands, operator in ContentStream(page.get_contents(), self.reader).operations:
            if operator in (b"BDC", b"BMC"):
                about = operands[1] if len(operands) > 1 else {}
                if "/MCID" in about:
                    assert not stack, "a marked sequence within another"
                    assert (number, about["/MCID"]) not in self.marked, "one number twice"
                    self.marked[number, about["/MCID"]] = ""
                    stack.append(about["/MCID"])
                else:
                    stack.append(stack[-1] if stack else None)
                instead.append("/ActualText" in about)
                if instead[-1]:  # what is read out in place of the glyphs (14.9.4)
                    say(str(about["/ActualText"]))
            elif operator == b"EMC":
                stack.pop()
                instead.pop()
            elif operator == b"Tf":
                letters = maps[operands[0]]
            elif operator in (b"Tj", b"TJ"):
                if not any(instead):
                    say("".join(_decode(one, letters) for one in (operands[0] if operator == b"TJ" else operands)))
            elif operator in PATHS:
                assert stack, "a line that is neither in a part nor furniture"
        assert not stack
        self.furniture.append(" ".join(furniture))

    def _walk(self, element: Any, parent: int, path: tuple[str, ...]) -> None:
        kind, own = element["/S"][1:], element.indirect_reference.idnum
        assert element.raw_get("/P").idnum == parent
        assert kind in KIDS.get(path[-1] if path else "", PARTS if path else {"Document"}), (*path, kind)
        path = (*path, kind)
        self.elements.append(element)
        kids = element.get("/K", [])
        for kid in kids if isinstance(kids, list) else [kids]:
            kid = kid.get_object()
            if isinstance(kid, int) or kid.get("/Type") == "/MCR":
                page = self.pages[(element if isinstance(kid, int) else kid).raw_get("/Pg").idnum]
                place = page, int(kid if isinstance(kid, int) else kid["/MCID"])
                assert place not in self.owners, "one sequence in two parts"
                self.owners[place] = own
                self.said.append(Said(*place, path, self.marked[place].strip()))
            elif kid.get("/Type") == "/OBJR":
                assert kind == "Link" and kid["/Obj"]["/Subtype"] == "/Link"
            else:
                self._walk(kid, own, path)

    @property
    def text(self) -> str:
        """All that is said, in order."""
        return " ".join(one.text for one in self.said)


def _letters_of(font: Any) -> dict[int, str]:
    """By code what a font says of its letters; codes of two bytes are known by the sign 65,536 more."""
    wide = 65_536 if font["/Subtype"] == "/Type0" else 0
    blocks = re.findall(r"beginbfchar\n(.*?)endbfchar", font["/ToUnicode"].get_data().decode(), re.DOTALL)
    rows = re.findall(r"<([0-9A-F]+)> <([0-9A-F]+)>", "".join(blocks))
    found = {int(code, 16) + wide: bytes.fromhex(text).decode("utf-16-be") for code, text in rows}
    return {**found, -1: "wide" if wide else ""}


def _decode(one: Any, letters: dict[int, str]) -> str:
    if isinstance(one, int | float):
        return ""
    data = one.original_bytes if isinstance(one, str) else bytes(one)
    if letters[-1]:
        codes: Iterator[int] = (65_536 + 256 * data[at] + data[at + 1] for at in range(0, len(data), 2))
    else:
        codes = iter(data)
    return "".join(letters.get(code, "") for code in codes)


def check_tagged(pdf: bytes) -> Tagged:
    """What the document says, once every rule is held against it."""
    document = Tagged(pdf)
    root = document.root
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] and root["/ViewerPreferences"]["/DisplayDocTitle"]
    xmp = root["/Metadata"].get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in xmp and document.reader.metadata.title
    assert document.owners.keys() == document.marked.keys(), "a sequence that no part holds"
    _check_parents(document)
    for number, page in enumerate(document.reader.pages):
        assert page["/Tabs"] == "/S"
        order = [one.number for one in document.said if one.page == number]
        assert order == sorted(order), "what is read is in another order than what is shown"
    for element in document.elements:
        about = element.get("/A", {})
        if element["/S"] == "/TH":
            assert about["/Scope"] in ("/Row", "/Column")
        if element["/S"] == "/Figure":
            assert element["/Alt"] and len(about["/BBox"]) == 4
        if element["/S"] == "/Table":
            check_grid(element)
    return document


def _check_parents(document: Tagged) -> None:
    """The parent tree leads from each page's sequences, and from each link, to the part that holds them."""
    numbers = document.root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    parents = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for number, page in enumerate(document.reader.pages):
        row = parents[page["/StructParents"]]
        assert [one.idnum for one in row] == [
            document.owners[number, at] for at in range(sum(place[0] == number for place in document.owners))
        ]
        for note in page.get("/Annots", ()):
            note = note.get_object()
            assert note["/Contents"] and parents[note["/StructParent"]].get_object()["/S"] == "/Link"


def check_grid(table: Any) -> None:
    """Every row of a table has a cell for each of its columns, and no place has two."""
    held: set[tuple[int, int]] = set()
    rows = [row.get_object() for row in table["/K"]]
    for line, row in enumerate(rows):
        column = 0
        for cell in (cell.get_object() for cell in row["/K"]):
            about = cell.get("/A", {})
            while (line, column) in held:
                column += 1
            wide, high = int(about.get("/ColSpan", 1)), int(about.get("/RowSpan", 1))
            places = {(line + down, column + along) for down in range(high) for along in range(wide)}
            assert not places & held
            held |= places
    across = {line: {column for one, column in held if one == line} for line in range(len(rows))}
    assert all(columns == set(range(len(across[0]))) for columns in across.values()), across
    assert len({line for line, _ in held}) == len(rows)
