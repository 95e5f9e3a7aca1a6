"""What a sheet says, read off its value: facts, the codes of pages, labels and cards, QR texts, subjects.

A code is four characters of facts alone: title, revision, date, reason, language, paper size and page number do not
count. A page whose facts did not change keeps its code, so that the copy on the wall stays good. What makes a page
wrong counts too: the venue that it is for, blanks, and what is unresolved on it.
"""

import json
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from hashlib import sha256
from typing import Any, assert_never

from paperwork.document import (
    Act,
    Bar,
    Block,
    Board,
    BoardRow,
    Card,
    Cards,
    CardSlot,
    Item,
    Keep,
    Label,
    Labels,
    Line,
    Note,
    Panels,
    Plot,
    PlotRow,
    Ribbon,
    Sheet,
    SpectrumWindow,
    Strips,
    Table,
    TableRow,
    Tag,
    Tree,
)
from paperwork.finding import Subject
from paperwork.text.fingerprint import fingerprint
from paperwork.text.names import spell_ascii

QR_CHARACTERS = 20
"""ISO/IEC 18004 table 7: a version 1 code at level M holds 20 alphanumeric characters."""


def page_code(sheet: Sheet, facts: Sequence[Any], stamp: Sequence[Any]) -> str:
    """Four characters from what a page says: what is around its pieces, their `facts`, its `stamp` as facts."""
    return _code_of([*_frame_facts(sheet), list(facts), list(stamp)])


def code(sheet: Sheet) -> str:
    """Four characters from the facts of a whole sheet, however it falls on pages."""
    return fingerprint(_facts_of_sheet(sheet))


def long_code(sheet: Sheet) -> str:
    """The SHA-256 of the same facts in hexadecimal: for a document's metadata, where four characters would be few."""
    return sha256(_facts_of_sheet(sheet)).hexdigest()


def label_code(label: Label, at_venue: str = "") -> str:
    """Four characters from one label's facts, the venue that it is for, and whether it says ASK."""
    return _code_of([*label_facts(label), *_apart(at_venue, label.doubt)])


def card_code(card: Card, at_venue: str = "") -> str:
    """The same of one card to cut out."""
    return _code_of([*card_facts(card), *_apart(at_venue, card.doubt)])


def strip_code(slots: Sequence[CardSlot], at_venue: str = "") -> str:
    """The same of a piece of a rack strip."""
    return _code_of([*slot_facts(slots), *_apart(at_venue, any(slot.doubt for slot in slots))])


def _apart(at_venue: str, doubt: object) -> list[Any]:
    """What counts beside the facts of whatever leaves its sheet; nothing at home and without a doubt."""
    return [at_venue, bool(doubt)] if at_venue or doubt else []


def payload(label: Label, revision: str, at_venue: str = "") -> str:
    """What the label's QR code says: `12:VERA:C:7F3A`, at most 20 characters where number and revision allow.

    Number, short role, revision, code, all in the alphanumeric set of ISO/IEC 18004. Never a performer or a frequency:
    a code on a body is read by strangers, and a frequency goes stale. A role without any Latin letter is spelt.
    """
    head, tail = _plain(label.number), f"{_plain(revision)}:{label_code(label, at_venue)}"
    room = max(0, QR_CHARACTERS - len(head) - len(tail) - 2)
    role = label.short_role or label.role
    return f"{head}:{(_plain(role) or spell_ascii(role))[:room]}:{tail}"


def tags_of(sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """The number and the QR text of each label of a sheet that carries a code."""
    labels = (label for block in sheet.blocks if isinstance(block, Labels) for label in block.labels)
    return tuple((label.number, payload(label, sheet.revision, sheet.at_venue)) for label in labels if label.qr)


def subjects_of(sheet: Sheet) -> frozenset[Subject]:
    """Every record that the sheet shows."""
    return frozenset(subject for block in sheet.blocks for subjects in _subjects_in(block) for subject in subjects)


def _subjects_in(block: Block) -> Iterator[tuple[Subject, ...]]:
    """The records that each row, card, slot or label of a block shows."""
    match block:
        case Table(groups=groups):
            yield from (r.subjects for group in groups for r in group.rows)
        case Board(groups=boards):
            yield from (r.subjects for board in boards for r in board.rows)
        case Plot(rows=rows):
            yield from (r.subjects for r in rows)
        case SpectrumWindow(subjects=subjects):
            yield subjects
        case Cards(cards=cards):
            yield from (card.subjects for card in cards)
        case Strips(strips=strips):
            yield from (slot.subjects for strip in strips for slot in strip.slots)
        case Labels(labels=labels):
            yield from (label.subjects for label in labels)
        case Tree(nodes=nodes):
            yield from (node.subjects for node in nodes)
        case Panels() | Note():
            pass
        case _:
            assert_never(block)


def _block_facts(block: Block) -> list[Any]:
    match block:
        case Table(groups=groups):
            return [[list(group.facts), [row_facts(r) for r in group.rows]] for group in groups]
        case Panels(panels=panels):
            return [list(panel.facts) for panel in panels]
        case Note(facts=facts) | SpectrumWindow(facts=facts):
            return list(facts)
        case Tree():
            return tree_facts(block)
        case Board(groups=boards):
            return [[board.title, [board_facts(r) for r in board.rows]] for board in boards]
        case Plot(acts=acts, rows=rows):
            scenes = [scene for act in acts for scene in act.scenes]
            return [scene_facts(acts), [plot_facts(r, 0, len(scenes) - 1) for r in rows]]
        case Cards(cards=cards):
            return [card_facts(card) for card in cards]
        case Strips(strips=strips):
            return [slot_facts(strip.slots) for strip in strips]
        case Labels(labels=labels):
            return [label_facts(label) for label in labels]
        case _:
            assert_never(block)


def row_facts(r: TableRow) -> list[list[list[str]]]:
    """The facts that one row of a table adds to its page's code."""
    return [[_facts_of(c.items) for c in parts] for parts in r.cells]


def board_facts(r: BoardRow) -> list[Any]:
    """The same of one row of a board."""
    lines = (r.title, *((r.under,) if r.under else ()), *r.notes)
    return [_facts_of(lines), [*r.up], [*r.new], [*r.gone]]


def plot_facts(r: PlotRow, first: int, last: int) -> list[Any]:
    """The same of one row of a plot, as far as its bars and lines reach into the columns from `first` to `last`."""

    def clip(one: Bar | Keep) -> list[int]:
        return [max(one.first - first, -1), min(one.last, last + 1) - first]

    lanes = [
        [
            [[*clip(b), b.kind, b.put_on, b.taken_off, b.fact or b.text] for b in lane.bars if _meets(b, first, last)],
            [clip(keep) for keep in lane.keeps if _meets(keep, first, last)],
        ]
        for lane in r.lanes
    ]
    return [_facts_of([line for line in (r.title, r.under, r.key) if line]), lanes]


def _meets(one: Bar | Keep, first: int, last: int) -> bool:
    return one.first <= last and one.last >= first


def tree_facts(tree: Tree) -> list[Any]:
    """The facts of a tree: its boxes, and its cables by their names."""
    names = [node.title.fact for node in tree.nodes]
    cables = [[names[one.start], names[one.end], one.text.fact if one.text else ""] for one in tree.links]
    return [*(_facts_of((node.title, *node.lines)) for node in tree.nodes), *cables]


def scene_facts(acts: Iterable[Act]) -> list[Any]:
    """The facts of the columns of a plot."""
    return [[act.title, [[s.number, s.name, s.of or s.note] for s in act.scenes]] for act in acts]


def card_facts(card: Card) -> list[str]:
    """The facts of one card."""
    return _facts_of((*card.band, card.key, *card.items, *card.foot))


def slot_facts(slots: Iterable[CardSlot]) -> list[list[str]]:
    """The facts of the slots of a strip."""
    return [_facts_of((slot.key, *slot.lines, *slot.small)) for slot in slots]


def label_facts(label: Label) -> list[str]:
    """The facts of one label."""
    frequency = label.frequency or ""
    shown = (label.number, label.role, *label.performers, frequency, label.pack, label.capsule, label.mark)
    return [*(label.facts or shown)]


def _facts_of(items: Iterable[Item]) -> list[str]:
    return [i.fact for i in items if isinstance(i, _SAYING) and i.fact]


_SAYING = (Line, Tag, Ribbon)


def _frame_facts(sheet: Sheet) -> list[Any]:
    """What stands around the blocks on every page."""
    return [sheet.name, sheet.at_venue, sheet.show, sheet.venue, sheet.returns, list(sheet.facts)]


def _facts_of_sheet(sheet: Sheet) -> bytes:
    return _canonical([*_frame_facts(sheet), [_block_facts(block) for block in sheet.blocks]])


def _code_of(facts: list[Any]) -> str:
    return fingerprint(_canonical(facts))


def _canonical(facts: list[Any]) -> bytes:
    canonical = json.dumps(facts, ensure_ascii=False, separators=(",", ":"))
    return unicodedata.normalize("NFC", canonical).encode("utf-8", "backslashreplace")


def _plain(text: str) -> str:
    """The text in the QR alphanumeric set without its separator `:`; accents fall off, other signs drop out."""
    folded = unicodedata.normalize("NFKD", text).upper()
    return "".join(sign for sign in folded if sign.isascii() and (sign.isalnum() or sign in "-./+"))
