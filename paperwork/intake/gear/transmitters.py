"""What a channel list says of gear, moved from the notes of its channels into the sections that hold it."""

import re

from paperwork.intake.gear.patch import place_patch
from paperwork.intake.gear.wearers import place_wearers
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.intake.texts.ids import read_id
from paperwork.intake.texts.scenes import read_mark
from paperwork.raw import Text
from paperwork.text.headings import fold_heading
from paperwork.text.vocabulary import fold_word, listed_words

_CELLS = re.compile(
    r"(?:[0-9]\s*[x×]?\s*)?\(?(?:AAA?|PP3|9\s?V|L?R0?[36]|Li-?\s?ion|NiMH|LiFe\w*)\b[^,;/]{0,24}|"
    r"(?:[0-9]\s*[x×]\s*)?[^\W\d_]+\s(?:AAA?|PP3|9\s?V|L?R0?[36])",
    re.IGNORECASE,
)
_RANGE = re.compile(r"[0-9]{3,4}\s*[-\u2013]\s*[0-9]{3,4}")
_BARE = re.compile(r"[+\-\u2212]?[0-9]+(?:[.,][0-9]+)?")
_UNIT = re.compile(r"[0-9]\s*(?P<unit>[^\W\d_]+)\s*$")
"""A unit behind a number: one that is not of the field is no value of it."""


def place_facts(draft: ShowDraft, ledger: Ledger) -> None:
    """Enter transmitters, radio types, racks with their outputs and people, as far as the facts of the channels say them."""
    for record in draft.channels:
        _place_capsule(record)
    _place_transmitters(draft)
    _place_radios(draft)
    place_patch(draft, ledger)
    place_wearers(draft, ledger)


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
    fields |= {"display": "display", "cell_set": "set"}
    gains = [fact.text.strip() for record in draft.channels for fact in _facts(record, "gain")]
    is_signed = any(re.match(r"[+\-\u2212][0-9]", text) for text in gains)
    stated = [
        (record, fact, fields[fact.field], text)
        for record in draft.channels
        for fact in _facts(record, *fields)
        if (text := _say_of_pack(fact, is_signed))
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


def _say_of_pack(fact: Fact, is_signed: bool) -> str:
    """What a transmitter's field takes of a fact; "" for what is no such thing, as the state of a battery or another unit.

    A number gets the unit of its heading; a gain with a sign, or beside one, is in decibels.
    """
    text = fact.text.strip()
    if fact.field == "lock":
        return {"live": "yes", "idle": "no"}.get(read_mark(text), "")
    if fact.field == "battery":
        return text if _CELLS.fullmatch(text) else ""
    units = {"gain": ("dB",), "power": ("mW", "dBm", "W")}.get(fact.field, ())
    said = next((unit for unit in units if re.search(rf"\b{unit}\b", fact.title, re.IGNORECASE)), "")
    if units and _BARE.fullmatch(text):
        unit = said or ("dB" if fact.field == "gain" and is_signed else "")
        return f"{text} {unit}".strip()
    unit = match["unit"].casefold() if (match := _UNIT.search(text)) else ""
    return "" if units and unit and unit not in map(str.casefold, units) else text


def _place_radios(draft: ShowDraft) -> None:
    """A radio type for each band and each named type, and one for what is held in a hand. A step of tuning says it already."""
    for record in draft.channels:
        if "radio" in record.fields:
            continue
        band, type_ = (next(iter(_facts(record, name)), None) for name in ("band", "type"))
        capsule = record.fields.get("capsule")
        words = set(
            fold_word(f"{type_.text if type_ else ''} {capsule.text if isinstance(capsule, Text) else ''}").split()
        )
        pack = record.fields.get("pack")
        words |= {fold_word(read_id(id).prefix) for id in (record.id, pack.text if isinstance(pack, Text) else "")}
        is_held = bool(words & listed_words("handheld")) and not words & listed_words("lavalier")
        name = _name_type(type_, is_held=is_held)
        id = " ".join(filter(None, (band.text if band else "", name)))
        if not id:
            continue
        said = band or type_
        radio = draft.add("radios", id, said.place if said else record.place)
        record.put("radio", radio.id, said.place if said else record.place)
        if is_held:
            radio.put("kind", "handheld", radio.place)
        if band and _RANGE.fullmatch(band.text.strip()):
            radio.put("tunes", band.text, band.place)
        is_said = type_ and name and (not is_held or set(fold_word(type_.text).split()) & listed_words("handheld"))
        for fact in (band, type_ if is_said else None):
            if fact:
                record.settle(fact)


def _name_type(fact: Fact | None, *, is_held: bool) -> str:
    """What a radio type is called: as the list calls it under a heading of transmitters or where it is a pack's word, else
    handheld; "" for a type of something else."""
    if fact is None:
        return "handheld" if is_held else ""
    is_named = fold_heading(fact.title) in listed_words("type_of_radio")
    is_pack = fold_word(fact.text) in listed_words("beltpack")
    return fact.text if is_named or (is_pack and not is_held) else "handheld" if is_held else ""
