"""What a sheet says, read off its value: its code, its labels' codes and QR texts, its subjects."""

import json
import unicodedata
from collections.abc import Iterable, Iterator
from hashlib import sha256
from typing import Any, assert_never

from paperwork.document import (
    Block,
    Board,
    BoardRow,
    Card,
    Cards,
    Item,
    Label,
    Labels,
    Line,
    Note,
    Panels,
    Plot,
    PlotRow,
    Row,
    Sheet,
    Slot,
    Spectrum,
    Strips,
    Table,
    Tag,
)
from paperwork.finding import Subject
from paperwork.text.fingerprint import fingerprint
from paperwork.text.names import spell_ascii

QR_CHARACTERS = 20
"""ISO/IEC 18004 table 7: a version 1 code at level M holds 20 alphanumeric characters."""


def code(sheet: Sheet) -> str:
    """Four characters from the sheet's facts alone: title, revision, date, language and paper do not count.

    A sheet whose facts did not change keeps its code, so the copy on the wall stays good.
    """
    return fingerprint(_facts_of_sheet(sheet))


def long_code(sheet: Sheet) -> str:
    """The SHA-256 of the same facts in hexadecimal: for a document's metadata, where four characters would be few."""
    return sha256(_facts_of_sheet(sheet)).hexdigest()


def label_code(label: Label) -> str:
    """Four characters from one label's facts."""
    return _code_of(_label_facts(label))


def card_code(card: Card) -> str:
    """Four characters from one card's facts."""
    return _code_of(_facts_of(_card_items(card)))


def strip_code(slots: Iterable[Slot]) -> str:
    """Four characters from the facts of a piece of a rack strip."""
    return _code_of(_slot_facts(slots))


def payload(label: Label, revision: str) -> str:
    """What the label's QR code says: `12:VERA:C:7F3A`, at most 20 characters where number and revision allow.

    Number, short role, revision, code, all in the alphanumeric set of ISO/IEC 18004. Never a performer or a
    frequency: a code on a body is read by strangers, and a frequency goes stale. A role without any Latin letter is spelt.
    """
    head, tail = _plain(label.number), f"{_plain(revision)}:{label_code(label)}"
    room = max(0, QR_CHARACTERS - len(head) - len(tail) - 2)
    role = label.short_role or label.role
    return f"{head}:{(_plain(role) or spell_ascii(role))[:room]}:{tail}"


def tags_of(sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """The number and the QR text of each label of a sheet that carries a code."""
    labels = (label for block in sheet.blocks if isinstance(block, Labels) for label in block.labels)
    return tuple((label.number, payload(label, sheet.revision)) for label in labels if label.qr)


def subjects_of(sheet: Sheet) -> frozenset[Subject]:
    """Every record that the sheet shows: a finding about one of them puts a stamp on it."""
    shown = set(sheet.subjects)
    for block in sheet.blocks:
        shown.update(subject for subjects in _subjects_in(block) for subject in subjects)
    return frozenset(shown)


def _subjects_in(block: Block) -> Iterator[tuple[Subject, ...]]:
    """The records that each row, card, slot or label of a block shows."""
    match block:
        case Table(groups=groups):
            yield from (r.subjects for group in groups for r in group.rows)
        case Board(groups=boards):
            yield from (r.subjects for board in boards for r in board.rows)
        case Plot(rows=rows):
            yield from (r.subjects for r in rows)
        case Spectrum(subjects=subjects):
            yield subjects
        case Cards(cards=cards):
            yield from (card.subjects for card in cards)
        case Strips(strips=strips):
            yield from (slot.subjects for strip in strips for slot in strip.slots)
        case Labels(labels=labels):
            yield from (label.subjects for label in labels)
        case Panels() | Note():
            pass
        case _:
            assert_never(block)


def _card_items(card: Card) -> tuple[Item, ...]:
    return (*card.band, card.key, *card.items, *card.foot)


def _block_facts(block: Block) -> list[Any]:
    match block:
        case Table(groups=groups):
            return [[list(group.facts), [row_facts(r) for r in group.rows]] for group in groups]
        case Panels(panels=panels):
            return [list(panel.facts) for panel in panels]
        case Note(facts=facts) | Spectrum(facts=facts):
            return list(facts)
        case Board(groups=boards, facts=facts):
            return [list(facts), [_board_row_facts(r) for board in boards for r in board.rows]]
        case Plot(acts=acts, rows=rows):
            scenes = [[s.number, s.name, s.note] for act in acts for s in act.scenes]
            return [scenes, [_plot_row_facts(r) for r in rows]]
        case Cards(cards=cards):
            return [_facts_of(_card_items(card)) for card in cards]
        case Strips(strips=strips):
            return [_slot_facts(strip.slots) for strip in strips]
        case Labels(labels=labels):
            return [_label_facts(label) for label in labels]
        case _:
            assert_never(block)


def _slot_facts(slots: Iterable[Slot]) -> list[list[str]]:
    return [_facts_of((slot.key, *slot.lines, *slot.small)) for slot in slots]


def _board_row_facts(r: BoardRow) -> list[list[str]]:
    lines = (r.title, *((r.under,) if r.under else ()), *r.notes)
    return [_facts_of(lines), [*r.up], [*r.new]]


def row_facts(r: Row) -> list[list[list[str]]]:
    """The facts that one row adds to its sheet's code."""
    return [[_facts_of(c.items) for c in parts] for parts in r.cells]


def _facts_of(items: Iterable[Item]) -> list[str]:
    return [i.fact for i in items if isinstance(i, Line | Tag) and i.fact]


def _plot_row_facts(r: PlotRow) -> list[Any]:
    bars = [[b.first, b.last, b.kind, b.put_on, b.taken_off, b.fact or b.text] for lane in r.lanes for b in lane.bars]
    return [_facts_of([line for line in (r.title, r.under, r.key) if line]), bars]


def _label_texts(label: Label) -> tuple[str, ...]:
    frequency = label.frequency or ""
    return (label.number, label.role, *label.performers, frequency, label.pack, label.capsule, label.mark)


def _label_facts(label: Label) -> list[str]:
    return list(label.facts or _label_texts(label))


def _facts_of_sheet(sheet: Sheet) -> bytes:
    return _canonical([sheet.name, [_block_facts(block) for block in sheet.blocks]])


def _code_of(facts: list[Any]) -> str:
    return fingerprint(_canonical(facts))


def _canonical(facts: list[Any]) -> bytes:
    canonical = json.dumps(facts, ensure_ascii=False, separators=(",", ":"))
    return unicodedata.normalize("NFC", canonical).encode("utf-8", "backslashreplace")


def _plain(text: str) -> str:
    """The text in the QR alphanumeric set without its separator `:`; accents fall off, other signs drop out."""
    folded = unicodedata.normalize("NFKD", text).upper()
    return "".join(sign for sign in folded if sign.isascii() and (sign.isalnum() or sign in "-./+"))
