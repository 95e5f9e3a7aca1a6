"""Pages as the operators of their content (ISO 32000-1, 9.4), and the structure that is marked in them.

What is drawn is of no document: a page is drawn once, for its paper, and is the same in the book. Not so one with texts in
other scripts, whose codes follow from the faces of a document, or with something that leads somewhere in one alone.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from paperwork.render.book import EDGE_UM
from paperwork.render.boxes import Box, Close, Fill, Frame, Hatch, Layout, Open, Page, QrBox, Room, Rule, TextBox
from paperwork.render.folded import Drawn, Framed, list_scripted
from paperwork.render.pdf.lettering import FONT_NAMES, encode_text
from paperwork.render.pdf.operators import SCALE, draw_shape
from paperwork.render.pdf.packing import make_stream
from paperwork.render.pdf.structure import ARTIFACT, Run, Structure
from paperwork.render.text.faces import FACES
from paperwork.text.glyphs import is_scripted

if TYPE_CHECKING:
    from collections.abc import Mapping

    from paperwork.render.pdf.embedding import Embedded

_SHAPES = (Fill, Frame, Rule, Hatch)

_MARK = TextBox(0, 0, "-", next(iter(FACES)), 0, 0, Room(0, 0, 0, 0), Room(0, 0, 0, 0))
"""A text in place of those that are drawn: it takes no room."""


class Drawing(NamedTuple):
    """The pages of a layout, each as one layer or several; their structure; and the faces of other scripts."""

    pages: list[list[Drawn]]
    structure: Structure
    scripts: "Mapping[str, Embedded]"


def draw_pages(layout: Layout) -> Drawing:
    """All pages, but for what was drawn of them before."""
    scripts = _choose_scripts([text for page in layout.pages for text in list_scripted(page.boxes)])
    structure, known = Structure(layout.targets), dict[Open, Open]()
    return Drawing([_draw_page(page, structure, scripts, known) for page in layout.pages], structure, scripts)


def ink_pages(layout: Layout, drawing: Drawing) -> Layout:
    """The layout with what was drawn of each page in place of its boxes, where it is the same in any document."""
    if drawing.scripts or drawing.structure.leads:
        return layout
    pages = zip(layout.pages, drawing.pages, strict=True)
    return replace(layout, pages=tuple(replace(page, boxes=drawn) for page, (drawn,) in pages))


def _choose_scripts(texts: Sequence[TextBox]) -> "Mapping[str, Embedded]":
    """The faces of other scripts; none for almost every show."""
    if not texts:
        return {}
    from paperwork.render.pdf.embedding import choose_glyphs

    return choose_glyphs(texts)


def _draw_page(
    page: Page, structure: Structure, scripts: "Mapping[str, Embedded]", known: dict[Open, Open]
) -> list[Drawn]:
    """The layers of a page: of one in the book what is its paper's, drawn before or not, and then what stands around that."""

    def draw(boxes: Iterable[Box], runs: Iterable[Run]) -> Drawn:
        return _Pen(page.height, scripts).draw(boxes, runs)

    boxes = page.boxes
    if not isinstance(boxes, Framed):
        opened = tuple(boxes)
        return [replace(draw(opened, structure.mark(opened)), left=tuple(_list_left(opened, page.height, known)))]
    around = (*boxes.before, *boxes.behind)
    added = {id(box) for box in around}
    runs: tuple[list[Run], list[Run]] = [], []
    for run in structure.mark(boxes):
        runs[id(run.boxes[0]) in added].append(run)
    inner = boxes.boxes
    own = inner if isinstance(inner, Drawn) else draw(inner, runs[False])
    return [own, draw(around, runs[True])] if runs[True] else [own]


def _list_left(boxes: Iterable[Box], height: int, known: dict[Open, Open]) -> Iterator[Box]:
    """What a book needs of the boxes of a page: parts, a text for each sequence that is marked, all of a figure, and what
    reaches into the head or the foot. Almost all of it is the same on all pages, so that it takes no room."""
    stack, is_marked = [False], False
    for box in boxes:
        match box:
            case Open():
                stack.append(stack[-1] or box.kind == "Figure")
                is_marked = False
                yield known.setdefault(box, box)
                continue
            case Close():
                stack.pop()
                is_marked = False
                yield box
                continue
            case TextBox(text=text, ink=room):
                if not text:
                    continue
            case QrBox(quiet=room):
                box = box._replace(runs=())
            case Fill() | Hatch():
                room = Room(box.x, box.y, box.width, box.height)
            case _:
                continue
        is_text = isinstance(box, TextBox | QrBox)
        if room.y < EDGE_UM or room.bottom > height - EDGE_UM or (is_text and stack[-1]):
            yield box
        elif is_text and not is_marked:
            yield _MARK
        is_marked = is_marked or is_text


class _Pen:
    """Draws one page or what stands around one."""

    def __init__(self, height: int, scripts: "Mapping[str, Embedded]") -> None:
        self._height, self._scripts = height, scripts
        self._last, self._white, self._inside = ("", 0), False, False
        self._parts: list[str] = []
        self._letters: dict[str, set[str]] = {}

    def draw(self, boxes: Iterable[Box], runs: Iterable[Run]) -> Drawn:
        """The operators: shapes first, so that none covers a text; then texts and codes in the order in which they are read."""
        shapes = [draw_shape(box, self._height) for box in boxes if isinstance(box, _SHAPES)]
        for run in runs:
            self._draw_run(run)
        self._turn(False)
        shown = (ARTIFACT, *shapes, "EMC") if shapes else ()
        text = "\n".join(("q", SCALE, *shown, *self._parts, "Q\n"))
        letters = {face: "".join(sorted(signs)) for face, signs in sorted(self._letters.items())}
        return Drawn(make_stream(text.encode("ascii")), letters)

    def _draw_run(self, run: Run) -> None:
        """One of plain texts alone shares a text object with those before and behind it: what is marked may not begin in one
        and end in another (14.6.1). Texts of other scripts are each by themselves."""
        plain = all(map(self._is_plain, run.boxes))
        self._turn(plain)
        self._parts.append(run.operator)
        for box in run.boxes:
            if isinstance(box, QrBox):
                self._turn(False)
                self._draw_code(box)
            elif plain or self._is_plain(box):
                self._turn(True)
                self._set(box)
            else:
                self._turn(False)
                self._set_scripted(box)
        self._turn(plain)
        self._parts.append("EMC")

    def _is_plain(self, box: TextBox | QrBox) -> bool:
        return isinstance(box, TextBox) and not (self._scripts and is_scripted(box.text))

    def _turn(self, inside: bool) -> None:
        if inside != self._inside:
            self._inside = inside
            self._parts.append("BT" if inside else "ET")

    def _draw_code(self, box: QrBox) -> None:
        if self._white:
            self._white = False
            self._parts.append("0 g")
        self._parts.append(draw_shape(box, self._height))

    def _set_scripted(self, box: TextBox) -> None:
        from paperwork.render.pdf.embedding import draw_scripted, list_plain

        self._last, self._white = ("", 0), box.white
        self._parts.append(draw_scripted(box, self._height, self._scripts))
        for face, text in list_plain(box):
            self._letters.setdefault(face, set()).update(text)

    def _set(self, box: TextBox) -> None:
        x, y, text, face, cap_um, _, _, _, white, turned = box
        if white != self._white:
            self._white = white
            self._parts.append("1 g" if white else "0 g")
        font = ""
        if (face, cap_um) != self._last:
            self._last = face, cap_um
            font = f"/{FONT_NAMES[face]} {cap_um * 1000 / FACES[face].cap:.2f} Tf\n"
        if face not in self._letters:
            self._letters[face] = set()
        self._letters[face].update(text)
        matrix = "0 1 -1 0" if turned else "1 0 0 1"
        self._parts.append(f"{matrix} {x} {self._height - y} Tm\n{font}{encode_text(text)} Tj")
