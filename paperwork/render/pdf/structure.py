"""The structure of a document: which part each text belongs to, for somebody who has it read out (ISO 32000-1:2008, 14.7).

The parts that a layout opens and closes become a tree of elements. Texts that follow each other in one part are one
marked sequence of their page, counted from 0 on each (14.7.4); all else is marked as an artifact.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from paperwork.render.boxes import CLOSE, Box, Open, QrBox, Room, TextBox

_GROUPS = frozenset(("Document", "Sect", "Div", "Table", "TR", "L", "LI"))
"""Parts of parts: a text that stands in one of them alone is a paragraph."""

_KEPT = frozenset(("TH", "TD"))
"""Parts that count even without a text: a cell that is written into by hand."""

ARTIFACT, HEADER = "/Artifact BMC", "/Artifact <</Type/Pagination>> BDC"
_TEXT = Open("P")
_NOWHERE: dict[int, Room] = {}


class Run(NamedTuple):
    """Texts and codes that are marked as one, behind the operator that begins it."""

    operator: str
    boxes: list[TextBox | QrBox]


class Element:
    """A part with what is in it, in order: parts, and marked sequences as page and number."""

    __slots__ = ("is_said", "kids", "known", "note", "number", "opening", "parent", "rooms", "said")

    def __init__(self, opening: Open, parent: "Element | None") -> None:
        self.opening = opening
        self.parent = parent
        self.kids: list[Element | tuple[int, int]] = []
        self.known: dict[str, Element] | None = None
        self.rooms: dict[int, Room] = _NOWHERE
        self.said = ""
        self.is_said = False
        self.note = self.number = 0
        if opening.kind in _KEPT:
            self.keep()

    def keep(self) -> None:
        """Notes that anything is in it, or that it counts without."""
        element: Element | None = self
        while element and not element.is_said:
            element.is_said = True
            element = element.parent


class Structure:
    """The tree of one document, filled page by page, then written by `file_structure`."""

    def __init__(self, targets: Iterable[tuple[str, int]] = ()) -> None:
        self.root = Element(Open("Div"), None)
        self.owners: list[list[Element]] = []
        """Of each page the part that each of its marked sequences is in."""

        self.links: list[Element] = []
        self.leads = False
        """Whether anything leads somewhere, be that in this document or not."""

        self._targets = dict(targets)

    def mark(self, boxes: Iterable[Box]) -> Iterator[Run]:
        """The texts and codes of the next page in their order, gathered into runs."""
        page, own = len(self.owners), list[Element]()
        self.owners.append(own)
        stack: list[Element | str] = [self.root]
        run: Run | None = None
        for box in boxes:
            if isinstance(box, TextBox):
                if not box.text:
                    continue
            elif isinstance(box, Open) or box is CLOSE:
                if run:
                    self._note(stack[-1], page, run.boxes)
                    yield run
                    run = None
                if isinstance(box, Open):
                    stack.append(self._open(box, stack[-1]))
                else:
                    stack.pop()
                continue
            elif not isinstance(box, QrBox):
                continue
            if run is None:
                run = Run(self._begin(stack[-1], page, own), [])
            run.boxes.append(box)
        if run:
            yield run

    def _open(self, opening: Open, within: Element | str) -> Element | str:
        """The part that is meant, or the operator of an artifact."""
        if isinstance(within, str):
            return within
        if opening.kind == "Artifact":
            return ARTIFACT
        if opening.link:
            self.leads = True
            if opening.link not in self._targets:
                return within
        if opening.key and within.known is None:
            within.known = {}
        old = within.known.get(opening.key) if opening.key and within.known else None
        if old:
            return HEADER if opening.once else old
        made = Element(opening, within)
        within.kids.append(made)
        if opening.key and within.known is not None:
            within.known[opening.key] = made
        return made

    def _begin(self, within: Element | str, page: int, own: list[Element]) -> str:
        if isinstance(within, str):
            return within
        if within.opening.kind in _GROUPS:
            paragraph = Element(_TEXT, within)
            within.kids.append(paragraph)
            within = paragraph
        within.kids.append((page, len(own)))
        within.keep()
        own.append(within)
        return f"/{within.opening.kind} <</MCID {len(own) - 1}>> BDC"

    def _note(self, within: Element | str, page: int, boxes: list[TextBox | QrBox]) -> None:
        """Keeps where a figure or a link stands."""
        if isinstance(within, str) or within.opening.kind not in ("Figure", "Link"):
            return
        if within.opening.link:
            self.links += [] if within.rooms else [within]
            within.said = " ".join(
                filter(None, (within.said, *(box.text for box in boxes if isinstance(box, TextBox))))
            )
        rooms = [box.ink if isinstance(box, TextBox) else box.quiet for box in boxes]
        rooms += [within.rooms[page]] if page in within.rooms else []
        left, top = min(room.x for room in rooms), min(room.y for room in rooms)
        right, bottom = max(room.right for room in rooms), max(room.bottom for room in rooms)
        within.rooms = {**within.rooms, page: Room(left, top, right - left, bottom - top)}
