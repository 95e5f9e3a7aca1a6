"""Two states of one page: where their texts differ, so that both can be marked.

Lines are matched by what they say and not by where they are: what moved down because a row came in above it is not
marked. The revision box in the masthead differs on every page, and is never marked.
"""

from collections.abc import Iterable, Iterator, Sequence
from difflib import SequenceMatcher
from itertools import groupby

from paperwork.render.boxes import Close, Open, Page, Room, TextBox
from paperwork.render.furniture import REVISION_KEY

AROUND_UM = 700
"""How far a mark reaches around the ink of a text."""

Line = tuple[TextBox, ...]


def mark_changes(
    old: Page, new: Page, quiet: frozenset[str] = frozenset()
) -> tuple[tuple[Room, ...], tuple[Room, ...]]:
    """The rectangles to mark on each of the two, in micrometres. Texts in `quiet` are left out."""
    before, after = _list_lines(old, quiet), _list_lines(new, quiet)
    matcher = SequenceMatcher(None, [_say(one) for one in before], [_say(one) for one in after], autojunk=False)
    gone: list[Room] = []
    come: list[Room] = []
    for kind, first, last, start, end in matcher.get_opcodes():
        if kind == "equal":
            continue
        gone += _mark(before[first:last], after[start:end])
        come += _mark(after[start:end], before[first:last])
    return tuple(gone), tuple(come)


def _list_lines(page: Page, quiet: frozenset[str]) -> list[Line]:
    """The texts of a page in lines from the top, each from the left."""
    texts = [box for box in _list_shown(page) if box.text.strip() and box.text not in quiet]
    texts.sort(key=lambda box: (box.y, box.x))
    return [tuple(line) for _, line in groupby(texts, key=lambda box: box.y)]


def _list_shown(page: Page) -> Iterator[TextBox]:
    """The texts of a page but for those of its revision box."""
    parts: list[str] = []
    for box in page.boxes:
        match box:
            case Open():
                parts.append(box.key)
            case Close():
                parts.pop()
            case TextBox() if REVISION_KEY not in parts:
                yield box


def _say(line: Line) -> tuple[str, ...]:
    return tuple(box.text for box in line)


def _mark(lines: Sequence[Line], others: Iterable[Line]) -> list[Room]:
    """What is not said on the other side of one change, word for word."""
    said = [box.text for line in others for box in line]
    marks = []
    for line in lines:
        for box in line:
            if box.text in said:
                said.remove(box.text)
                continue
            ink = box.ink
            marks.append(
                Room(ink.x - AROUND_UM, ink.y - AROUND_UM, ink.width + 2 * AROUND_UM, ink.height + 2 * AROUND_UM)
            )
    return marks
