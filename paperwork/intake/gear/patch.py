"""What a list says of the way to the desks: racks from slots, desk inputs, and the jacks of stage boxes."""

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.raw import Text
from paperwork.text.headings import fold_heading
from paperwork.text.names import natural_key

_INPUT = re.compile(r"(?P<desk>[^\W\d_]*(?:[ ][^\W\d_]+)*)[\s.:#\-]*(?P<number>[0-9]{1,3})")
_JACK = re.compile(r"(?P<box>\S.*?)?\s*[/.:#\-\s]?\s*(?P<number>[0-9]{1,3})")
_MOST_SLOTS = 64
_MOST_COPIES = 4
_MOST_INPUTS = 512
_BOX = "box"

RACK = "RX"
"""The rack of channels whose list has desk inputs and names no receivers: its slots are counted in the order of the list."""


class Wire(NamedTuple):
    """That a fact says where a channel goes: a desk, `title` being the heading that it is under, and its input."""

    record: DraftRecord
    fact: Fact
    desk: str
    number: int


def place_patch(draft: ShowDraft, ledger: Ledger) -> None:
    """Racks from the slots of the channels, and what of them goes to which input of a desk through which jack."""
    wires = _find_wires(draft)
    has_slots = any("slot" in record.fields for record in draft.channels)
    if wires and not has_slots and _may_count(wires, ledger):
        wired = dict.fromkeys(id(wire.record) for wire in wires)
        records = [record for record in draft.channels if id(record) in wired]
        for number, record in enumerate(records, 1):
            record.put("slot", f"{RACK}.{number}", record.place)
    racks = _list_racks(draft)
    desks = dict(_name_desks(wires))
    titles = list(dict.fromkeys(wire.fact.title for wire in wires))[:_MOST_COPIES]
    for rack_id, slots in sorted(racks.items(), key=lambda item: natural_key(item[0])):
        first = next(iter(slots.values()))
        rack = draft.add("racks", rack_id, first.place)
        rack.fields.setdefault("slots", Text(str(max(slots)), first.place))
        for copy, title in enumerate(titles, 1):
            taken = {number: _take_input(record, title, wires) for number, record in slots.items()}
            if any(taken.values()):
                targets = [
                    f"{desks[title, wire.desk]} {wire.number}" if (wire := taken.get(n)) else "-"
                    for n in range(1, max(slots) + 1)
                ]
                rack.put(f"analogue {copy}", ", ".join(targets), first.place)
                for wire in filter(None, taken.values()):
                    ledger.carried[wire.fact.place] = f"{desks[title, wire.desk]} {wire.number}"
                    desk = draft.add("consoles", desks[title, wire.desk], first.place)
                    desk.fields.setdefault("name", Text(f"{title} {wire.desk}".strip(), first.place))
    if titles:
        _place_jacks(desks, [wire for wire in wires if wire.fact.title == titles[0]], draft)


def _find_wires(draft: ShowDraft) -> list[Wire]:
    """What the facts say of inputs. Letters before the number name a desk or a box where a column has several such."""
    read = [
        (record, fact, " ".join(match["desk"].split()), int(match["number"]))
        for record in draft.channels
        for fact in record.facts
        if fact.field == "input" and (match := _INPUT.fullmatch(fact.text.strip())) and int(match["number"])
    ]
    several = {
        fact.title: len({desk for _, one, desk, _ in read if one.title == fact.title}) > 1 for _, fact, *_ in read
    }
    wires = [Wire(record, fact, desk if several[fact.title] else "", number) for record, fact, desk, number in read]
    return _part_halls(wires) or _find_boxed(draft)


def _part_halls(wires: list[Wire]) -> list[Wire]:
    """The desk of each hall, where inputs are used twice under one heading and a column of rooms tells them apart."""
    ways = [(wire.fact.title, wire.desk, wire.number) for wire in wires]
    halls = [fact for wire in wires for fact in wire.record.facts[:] if fact.field == "room"][: len(wires)]
    named = {(hall.text, way) for hall, way in zip(halls, ways, strict=False)}
    if len(set(ways)) == len(ways) or len(halls) < len(wires) or len(named) < len(wires):
        return wires
    parted = []
    for wire, hall in zip(wires, halls, strict=True):
        facts = wire.record.facts
        if hall in facts:  # a hall is nobody's dressing room
            facts[facts.index(hall)] = hall._replace(field="hall")
        parted.append(wire._replace(desk=hall.text))
    return parted


def _find_boxed(draft: ShowDraft) -> list[Wire]:
    """Jacks of stage boxes where the list has no desk inputs: the box is where the cable goes."""
    wires = []
    for record in draft.channels:
        box, number, facts = _find_jack(record)
        if box and number:
            wires.append(Wire(record, facts[0], box, number))
    return wires


def _find_jack(record: DraftRecord) -> tuple[str, int, Sequence[Fact]]:
    """The stage box and the jack of a channel, and the facts that say so; "" and 0 for what is not known."""
    boxes = [fact for fact in record.facts if fact.field == "box"]
    jacks = [fact for fact in record.facts if fact.field == "jack"]
    if not jacks and len(boxes) == 1 and (match := _JACK.fullmatch(boxes[0].text.strip())) and match["box"]:
        return match["box"].strip(" -/.:#"), int(match["number"]), boxes
    if len(jacks) != 1 or not (match := _JACK.fullmatch(jacks[0].text.strip())):
        return "", 0, ()
    box = match["box"] or (boxes[0].text if len(boxes) == 1 else "")
    return box.strip(" -/.:#"), int(match["number"]), (*jacks, *boxes)


def _place_jacks(desks: dict[tuple[str, str], str], wires: Iterable[Wire], draft: ShowDraft) -> None:
    """The box of each desk and its jacks in the order of the inputs, where every input's jack is known."""
    by_desk: dict[str, list[Wire]] = {}
    for wire in wires:
        by_desk.setdefault(desks[wire.fact.title, wire.desk], []).append(wire)
    for id, own in by_desk.items():
        found = {wire.number: _find_jack(wire.record) for wire in own}
        if not all(number for _, number, _ in found.values()) or max(found) > _MOST_INPUTS:
            continue
        boxes = list(dict.fromkeys(box for box, _, _ in found.values()))
        heads = (fact.title for _, _, facts in found.values() for fact in facts if fact.field == "box" and fact.title)
        common, names = _part_boxes(boxes, next(heads, _BOX))
        jacks = {n: f"{names[box]}{number}" for n, (box, number, _) in found.items()}
        console, place = draft.add("consoles", id, own[0].fact.place), own[0].fact.place
        console.put("box", common, place)
        console.put("jacks", ", ".join(jacks.get(n, "-") for n in range(1, max(jacks) + 1)), place)
        for wire in own:
            for fact in found[wire.number][2]:
                if fact in wire.record.facts:
                    wire.record.settle(fact)


def _part_boxes(boxes: Sequence[str], heading: str) -> tuple[str, dict[str, str]]:
    """What boxes have in common, else their heading, and what sets each apart: `Stage box A` and `Stage box B` are `Stage
    box`, A and B."""
    if len(boxes) < 2:
        return (boxes[0] if boxes and boxes[0] else heading), dict.fromkeys(boxes, "")
    words = [box.split() for box in boxes]
    shared = 0
    while all(len(one) > shared + 1 for one in words) and len({one[shared] for one in words}) == 1:
        shared += 1
    names = {box: "-".join(one[shared:]) for box, one in zip(boxes, words, strict=True)}
    names = {box: name if len(name) < 3 and name.isalpha() else f"{name}." for box, name in names.items()}
    return " ".join(words[0][:shared]) or heading, names


def _list_racks(draft: ShowDraft) -> dict[str, dict[int, DraftRecord]]:
    """The channel in each slot of each rack that the channels name."""
    racks: dict[str, dict[int, DraftRecord]] = {}
    for record in draft.channels:
        slot = record.fields.get("slot")
        rack, _, place = slot.text.rpartition(".") if isinstance(slot, Text) else ("", "", "")
        if rack and place.isascii() and place.isdigit() and 0 < int(place) <= _MOST_SLOTS:
            racks.setdefault(rack, {}).setdefault(int(place), record)
    return racks


def _may_count(wires: Sequence[Wire], ledger: Ledger) -> bool:
    """Whether the channels of a list without receivers are counted into one rack: without any, no desk input is printed.

    Inputs that count on with the channels say that the receivers are patched in their order; others are asked about.
    """
    numbers = [wire.number for wire in wires if wire.fact.title == wires[0].fact.title]
    are_counted = numbers == list(range(numbers[0], numbers[0] + len(numbers)))
    because = "desk inputs count on with the channels" if are_counted else "the list has desk inputs and no receivers"
    choices = {"yes": "as said", "notes": "keep the desk inputs in the notes"}
    subject = f"rack {RACK}, counted in the order of the channels"
    decision = Decision(
        "receiver",
        "no receivers",
        wires[0].fact.place,
        subject,
        "yes",
        because,
        choices,
        "sure" if are_counted else "likely",
    )
    text = f"the list has desk inputs and no receivers: its channels are counted into one rack, {RACK}, in their order"
    return ledger.decide(decision, text) == "yes"


def _name_desks(wires: Sequence[Wire]) -> Iterator[tuple[tuple[str, str], str]]:
    """What each destination is called: by its own letters, else FOH for the first, MON for one whose heading says so, else
    by its heading."""
    used: set[str] = set()
    for title, desk in dict.fromkeys((wire.fact.title, wire.desk) for wire in wires):
        is_monitor = bool(
            {"mon", "monitor", "monitors", "moni", "retour", "retours", "monitore", "monitores"}
            & set(fold_heading(title).split())
        )
        id = desk or ("MON" if is_monitor else "FOH")
        id = id if id not in used else re.sub(r"[^\w ]", " ", title).strip() or f"{id} 2"
        used.add(id)
        yield (title, desk), id


def _take_input(record: DraftRecord, title: str, wires: Iterable[Wire]) -> Wire | None:
    """A channel's input on a desk, taken out of its notes wherever it is said again."""
    own = [wire for wire in wires if wire.record is record and wire.fact.title == title]
    for wire in own:
        if wire.number == own[0].number and wire.fact in record.facts:
            record.settle(wire.fact)
    return own[0] if own else None
