"""The stamp of a page: what is unresolved about its records, and whom to ask; and the mark of a guilty row."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any

from paperwork.document import Sheet, SheetDoubt
from paperwork.document.styles import DOUBT_MARK, MARK, STAMP, Style
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.render.boxes import HEAVY_UM, Box, Fill, Frame, Hatch, Room
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter
from paperwork.text.names import natural_key, shorten_ids
from paperwork.text.words import say

DOUBTED = "?"
"""The mark of a row that is in doubt: no word of any language, and no sign of a changed row."""

ONE_LINE = replace(STAMP, floor_um=3_000, lines=1, paragraph=False)
"""A stamp that fits one line at this height is not broken: what it takes is taken from the rows."""

MOST_KINDS, MOST_IDS = 3, 6
"""So many kinds of error are named, and so many records of each; the rest is counted, so a stamp stays short."""

PAD_UM = 2_000
GAP_UM = 2_400
"""Above and under the frame."""

HATCH_UM = 12_000
MARK_BAR_UM, MARK_GAP_UM, MARK_ROOM_UM = 1_400, 1_000, 5_400


@frozen
class Stamp:
    """What a page says of its doubts: the text, the same as facts, the height that it takes; "" and 0 without any."""

    text: str = ""
    facts: tuple[Any, ...] = ()
    height: int = 0


class Stamps:
    """The stamps of one sheet, by the records that a page shows."""

    def __init__(self, sheet: Sheet, width: int, metrics: Metrics) -> None:
        self.doubted = frozenset(subject for doubt in sheet.doubts for subject, _ in doubt.about)
        self._sheet, self._width, self._metrics = sheet, width, metrics
        self._known: dict[frozenset[Subject], Stamp] = {frozenset(): Stamp()}

    @property
    def tallest(self) -> int:
        """What the stamp of any page takes at the most."""
        if not self.doubted:
            return 0
        line = fit("0", STAMP, self._width, self._metrics)
        return STAMP.lines * line.pitch_um + 2 * PAD_UM + GAP_UM

    def of(self, shown: Iterable[Subject]) -> Stamp:
        """The stamp of a page that shows these records."""
        own = self.doubted.intersection(shown)
        if own not in self._known:
            self._known[own] = self._make(own)
        return self._known[own]

    def _make(self, own: frozenset[Subject]) -> Stamp:
        text = word_stamp(self._sheet, own)
        fitted = fit(text, _style_of(text, self._width, self._metrics), _room_of(self._width), self._metrics)
        height = len(fitted.lines) * fitted.pitch_um + 2 * PAD_UM + GAP_UM
        return Stamp(text, stamp_facts(self._sheet, own), height)


def stamp_facts(sheet: Sheet, shown: Iterable[Subject]) -> tuple[Any, ...]:
    """What that stamp says, without a language: each error's code and its records there."""
    own = frozenset(shown)
    facts = sorted({(code, *ids) for code, ids in ((one.code, _list_ids(one, own)) for one in sheet.doubts) if ids})
    return (sheet.contact, *facts) if facts else ()


def _list_ids(doubt: SheetDoubt, own: frozenset[Subject]) -> list[str]:
    return sorted(f"{subject.section} {subject.id}" for subject, _ in doubt.about if subject in own)


def word_stamp(sheet: Sheet, shown: Iterable[Subject]) -> str:
    """The stamp's words on a page that shows these records, in the order of their names; "" without a doubt."""
    language, own = sheet.language, frozenset(shown)
    kinds: dict[str, list[SheetDoubt]] = {}
    for doubt in sheet.doubts:
        if any(subject in own for subject, _ in doubt.about):
            kinds.setdefault(doubt.text, []).append(doubt)
    if not kinds:
        return ""
    named = sorted(((_name_records(doubts, own), text) for text, doubts in kinds.items()), key=_natural)
    listed = say(language, "break").join(
        say(language, "labelled", name=_join_names(sheet, names), text=text) for names, text in named[:MOST_KINDS]
    )
    rest = sum(len(kinds[text]) for _, text in named[MOST_KINDS:])
    if rest:
        listed = say(language, "stamp more", stated=listed, count=rest)
    whom = say(language, "stamp ask", contact=sheet.contact) if sheet.contact else say(language, "stamp ask sound")
    return say(language, "stamp", stated=listed, ask=whom)


Names = tuple[bool, tuple[str, ...]]
"""Whether they are channels, and the names."""


def _name_records(doubts: Sequence[SheetDoubt], own: frozenset[Subject]) -> Names:
    """The channels that errors of one kind are about, or what else they are about where there is no channel."""
    about = [(subject, name) for one in doubts for subject, name in one.about if subject in own]
    channels = {name for subject, name in about if subject.section == "channels"}
    return bool(channels), tuple(sorted(channels or {name for _, name in about}, key=natural_key))


def _natural(one: tuple[Names, str]) -> tuple[bool, list[Any], str]:
    (is_channels, names), text = one
    return not is_channels, [natural_key(name) for name in names], text


def _join_names(sheet: Sheet, names: Names) -> str:
    is_channels, ids = names
    listed = shorten_ids(ids) if len(ids) <= MOST_IDS else f"{', '.join(ids[:MOST_IDS])} …"
    return say(sheet.language, "stamp channels", ids=listed, count=len(ids)) if is_channels else listed


def _room_of(width: int) -> int:
    return width - 2 * HATCH_UM - 8_000


def _style_of(text: str, width: int, metrics: Metrics) -> Style:
    """One line where it is tall enough, else up to three."""
    return ONE_LINE if fit(text, ONE_LINE, _room_of(width), metrics).outcome == "whole" else STAMP


def set_stamp(stamp: Stamp, width: int, setter: Typesetter) -> list[Box]:
    """A heavy frame with hatched ends: seen as a warning in black and white and after a photocopy."""
    text = setter.fit(stamp.text, _style_of(stamp.text, width, setter.metrics), _room_of(width))
    top, height = 1_500, stamp.height - GAP_UM
    boxes: list[Box] = [Frame(600, top, width - 1_200, height, HEAVY_UM)]
    for left in (2_200, width - 2_200 - HATCH_UM):
        boxes.append(Hatch(left, top + 1_600, HATCH_UM, height - 3_200, 2_400, HEAVY_UM))
    room = Room(HATCH_UM + 4_000, top, _room_of(width), height)
    first = top + (height - (len(text.lines) - 1) * text.pitch_um + text.cap_um) // 2
    return [*boxes, *setter.lines(text, room, first, "centre")]


def set_mark(marks: Sequence[str], margin: int, height: int, setter: Typesetter) -> Iterator[Box]:
    """A bar in the margin left of a piece with its signs beside it, from the piece's top left corner."""
    bar = -margin - MARK_GAP_UM - MARK_BAR_UM
    yield Fill(bar, 500, MARK_BAR_UM, height - 1_000)
    share = height // len(marks)
    for index, mark in enumerate(marks):
        room = Room(bar - MARK_ROOM_UM - 300, index * share, MARK_ROOM_UM, share)
        yield setter.set(mark, DOUBT_MARK if mark == DOUBTED else MARK, room, align="right")


def list_marks(doubted: bool, mark: str) -> tuple[str, ...]:
    """The signs of a piece: that it is in doubt, and that it changed."""
    return tuple(chain((DOUBTED,) if doubted else (), (mark,) if mark else ()))
