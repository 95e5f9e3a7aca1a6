"""A part of a paper: what is cut apart is printed of some channels alone, of other papers the pages that show them."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from paperwork.document import Block, Cards, Labels, Sheet, Strips
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.render.boxes import Layout
from paperwork.text.names import expand_ids, hint, id_key, shorten_ids
from paperwork.text.units import Doubt

CUT = (Labels, Cards, Strips)


def find_part(show: Show, channels: str = "", racks: str = "") -> frozenset[Subject]:
    """The records that are meant by channels (`05, 11-14`), in-ears by their name among them, and racks, with the channels in
    those racks.

    Raises ValueError, in words for whoever asked, where the show has no such record, or the list cannot be read.
    """
    ears = tuple(one.id for one in show.others.values() if one.kind == "in-ear" and one.id not in show.channels)
    named = _find_ids(channels, (*show.channels, *ears), "channel")
    found = {Subject("others" if id in ears else "channels", id) for id in named}
    for id in _find_ids(racks, show.racks, "rack"):
        found.add(Subject("racks", id))
        claimed = show.claimants_of(show.racks[id]).values()
        found |= {Subject("channels", one.id) for claims in claimed for one in claims}
    return frozenset(found)


def _find_ids(text: str, known: Iterable[str], kind: str) -> Sequence[str]:
    """Ids as the show writes them. A text that is one id whole is no list."""
    ids = {id_key(id): id for id in known}
    if id_key(text) in ids:
        return (ids[id_key(text)],)
    try:
        named = [id for id in expand_ids(text) if id]
    except Doubt as doubt:
        raise ValueError(f"{text} is not a list of {kind}s, as in 05,11-14: {doubt}") from None
    for id in named:
        if id_key(id) not in ids:
            has = f"; it has {shorten_ids([*ids.values()])}" if ids else f"; it has no {kind}s"
            raise ValueError(f"the show has no {kind} {id}{hint(id, ids.values()) or has}")
    if text.strip() and not named:
        raise ValueError(f"{text} names no {kind}")
    return [ids[id_key(id)] for id in named]


def narrow_sheet(sheet: Sheet, part: frozenset[Subject], copies: int = 0) -> Sheet:
    """What is cut apart of a sheet: only those labels, cards and strips that show one of the records, all without any; and
    as many `copies` of each label and card as are asked for, 0 for the paper's own."""
    if not (part or copies):
        return sheet
    return replace(sheet, blocks=tuple(_narrow(block, part, copies) for block in sheet.blocks))


def _narrow(block: Block, part: frozenset[Subject], copies: int) -> Block:
    def is_meant(subjects: Iterable[Subject]) -> bool:
        return not part or not part.isdisjoint(subjects)

    match block:
        case Labels(labels=labels):
            kept = tuple(label for label in labels if is_meant(label.subjects))
            return replace(block, labels=tuple(replace(x, copies=copies or x.copies) for x in kept))
        case Cards(cards=cards, signed=True):
            return replace(
                block, cards=tuple(card for card in cards if is_meant(card.subjects) for _ in range(copies or 1))
            )
        case Strips(strips=strips):
            return replace(block, strips=tuple(x for x in strips if any(is_meant(slot.subjects) for slot in x.slots)))
    return block


def list_pages(sheet: Sheet, layout: Layout, part: frozenset[Subject]) -> frozenset[int] | None:
    """The numbers of the pages that show one of the records; None for all of them. What is cut apart was narrowed before."""
    if not part:
        return None
    if all(isinstance(block, CUT) for block in sheet.blocks):
        return None if any(map(_holds_any, sheet.blocks)) else frozenset()
    return frozenset(number for number, page in enumerate(layout.pages, 1) if not part.isdisjoint(page.subjects))


def _holds_any(block: Block) -> bool:
    match block:
        case Labels(labels=held) | Cards(cards=held) | Strips(strips=held):
            return bool(held)
    return True
