"""What a channel list says of gear and people, moved from the notes of its channels into the sections that hold it."""

import re
from collections.abc import Iterator

from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.intake.texts.headings import fold_heading
from paperwork.intake.texts.scenes import read_mark
from paperwork.place import Place
from paperwork.raw import Text
from paperwork.text.names import natural_key
from paperwork.text.vocabulary import fold_word, listed_words

_CELLS = re.compile(r"(?:[0-9]\s*[x×]?\s*)?(?:AAA?|PP3|9\s?V|LR0?[36]|AAA? \w+)", re.IGNORECASE)
_INPUT = re.compile(r"(?P<box>[^\W\d_]{0,3})\s*(?P<number>[0-9]{1,3})")
_RANGE = re.compile(r"[0-9]{3,4}\s*[-\u2013]\s*[0-9]{3,4}")
_MOST_SLOTS = 64
_MOST_COPIES = 4

RACK = "RX"
"""The rack of channels whose list has desk inputs and names no receivers: its slots are counted in the order of the list."""


def place_facts(draft: ShowDraft, ledger: Ledger) -> None:
    """Enter transmitters, radio types, racks with their outputs and people, as far as the facts of the channels say them."""
    for record in draft.channels:
        _place_capsule(record)
    _place_transmitters(draft)
    _place_radios(draft)
    _place_people(draft)
    _place_outputs(draft, ledger)


def _facts(record: DraftRecord, *fields: str) -> list[Fact]:
    return [fact for fact in record.facts if fact.field in fields]


def _place_capsule(record: DraftRecord) -> None:
    """A type that is a capsule's: `Lav`, `Headset`."""
    for fact in _facts(record, "type"):
        if "capsule" not in record.fields and set(fold_word(fact.text).split()) & listed_words("lavalier"):
            record.put("capsule", fact.text, fact.place)
            record.settle(fact)


def _place_transmitters(draft: ShowDraft) -> None:
    """Serial, power, gain, lock and cells of the packs. A section of transmitters has to hold every pack."""
    fields = {"serial": "serial", "power": "power", "gain": "gain", "lock": "lock", "battery": "cells"}
    stated = [
        (record, fact, fields[fact.field], text)
        for record in draft.channels
        for fact in _facts(record, *fields)
        if (text := _say_of_pack(fact))
    ]
    if not stated:
        return
    packs = {id(record): _add_pack(record, draft) for record in draft.channels}
    for record, fact, name, text in stated:
        if name not in packs[id(record)].fields:
            packs[id(record)].put(name, text, fact.place)
            record.settle(fact)


def _add_pack(record: DraftRecord, draft: ShowDraft) -> DraftRecord:
    pack = record.fields.get("pack")
    return draft.add("transmitters", pack.text if isinstance(pack, Text) else record.id, record.place)


def _say_of_pack(fact: Fact) -> str:
    """What a transmitter's field takes of a fact; "" for what is no such thing, as the state of a battery."""
    if fact.field == "lock":
        return {"live": "yes", "idle": "no"}.get(read_mark(fact.text), "")
    if fact.field == "battery":
        return fact.text if _CELLS.fullmatch(fact.text.strip()) else ""
    unit = {"gain": "dB", "power": "mW"}.get(fact.field, "")
    is_bare = bool(unit) and re.fullmatch(r"[+\-\u2212]?[0-9]+(?:[.,][0-9]+)?", fact.text.strip())
    return f"{fact.text} {unit}" if is_bare else fact.text


def _place_radios(draft: ShowDraft) -> None:
    """A radio type for each band, and one for what is held in a hand. A step of tuning says it already."""
    held = listed_words("handheld")
    for record in draft.channels:
        if "radio" in record.fields:
            continue
        band, type_ = (next(iter(_facts(record, name)), None) for name in ("band", "type"))
        capsule = record.fields.get("capsule")
        words = fold_word(f"{type_.text if type_ else ''} {capsule.text if isinstance(capsule, Text) else ''}").split()
        is_held = bool(set(words) & held) and not set(words) & listed_words("lavalier")
        if not band and not is_held:
            continue
        id = " ".join(filter(None, (band.text if band else "", "handheld" if is_held else "")))
        radio = draft.add("radios", id, (band or type_ or Fact("", "", "", record.place)).place)
        record.put("radio", radio.id, radio.place)
        if is_held:
            radio.put("kind", "handheld", radio.place)
        if band and _RANGE.fullmatch(band.text.strip()):
            radio.put("tunes", band.text, band.place)
        for fact in (band, type_ if is_held and type_ and set(fold_word(type_.text).split()) & held else None):
            if fact:
                record.settle(fact)


def _place_people(draft: ShowDraft) -> None:
    """Belt and colour of the one who wears a pack; a pack of several, or of nobody, keeps them in its notes."""
    for record in draft.channels:
        names = {user.by for user in record.users if user.by}
        for fact in _facts(record, "belt", "colour"):
            if len(names) == 1 and not record.mirrors:
                person = draft.add("people", next(iter(names)), record.place)
                if fact.field not in person.fields:
                    person.put(fact.field, fact.text, fact.place)
                    record.settle(fact)


def _place_outputs(draft: ShowDraft, ledger: Ledger) -> None:
    """Racks from the slots of the channels, and what of them goes to which input of a desk."""
    wired = [record for record in draft.channels if any(_INPUT.fullmatch(f.text) for f in _facts(record, "input"))]
    has_slots = any("slot" in record.fields for record in draft.channels)
    if wired and not has_slots and _ask_rack(wired[0].place, ledger):
        for number, record in enumerate(wired, 1):
            record.put("slot", f"{RACK}.{number}", record.place)
    racks: dict[str, dict[int, DraftRecord]] = {}
    for record in draft.channels:
        slot = record.fields.get("slot")
        rack, _, place = slot.text.rpartition(".") if isinstance(slot, Text) else ("", "", "")
        if rack and place.isascii() and place.isdigit() and 0 < int(place) <= _MOST_SLOTS:
            racks.setdefault(rack, {}).setdefault(int(place), record)
    desks = dict.fromkeys(fact.title for record in wired for fact in _facts(record, "input"))
    copies = {title: (copy, id) for copy, (title, id) in enumerate(_name_desks(desks), 1) if copy <= _MOST_COPIES}
    for id, slots in sorted(racks.items(), key=lambda item: natural_key(item[0])):
        first = next(iter(slots.values()))
        rack_record = draft.add("racks", id, first.place)
        rack_record.put("slots", str(max(slots)), first.place)
        for title, (copy, desk) in copies.items():
            inputs = {number: _take_input(record, title) for number, record in slots.items()}
            if any(inputs.values()):
                targets = [f"{desk} {inputs[n]}" if inputs.get(n) else "-" for n in range(1, max(slots) + 1)]
                rack_record.put(f"analogue {copy}", ", ".join(targets), first.place)
                draft.add("consoles", desk, first.place).put("name", title, first.place)


def _ask_rack(place: Place, ledger: Ledger) -> bool:
    """Whether the channels of a list without receivers may be counted into one rack: without any, no desk input is printed."""
    text = f"the list has desk inputs and no receivers: its channels are counted into one rack, {RACK}, in their order"
    choices = {"yes": "as said", "notes": "keep the desk inputs in the notes"}
    return ledger.ask("receiver", "no receivers", place, text, choices, default="yes") == "yes"


def _name_desks(titles: dict[str, None]) -> Iterator[tuple[str, str]]:
    """What each destination is called: FOH for the first, MON for one whose heading says so, else by its heading."""
    used: set[str] = set()
    for title in titles:
        is_monitor = bool({"mon", "monitor", "moni", "retour"} & set(fold_heading(title).split()))
        id = "MON" if is_monitor else "FOH"
        id = id if id not in used else re.sub(r"[^\w ]", " ", title).strip() or f"{id} 2"
        used.add(id)
        yield title, id


def _take_input(record: DraftRecord, title: str) -> str:
    """The number of a channel's input on a desk, taken out of its notes wherever it is said again; "" for none."""
    numbers = [(fact, match["number"]) for fact in _facts(record, "input") if (match := _INPUT.fullmatch(fact.text))]
    numbers = [(fact, str(int(number))) for fact, number in numbers if fact.title == title]
    for fact, number in numbers:
        if number == numbers[0][1]:
            record.settle(fact)
    return numbers[0][1] if numbers else ""
