"""The frequency column: each channel's frequency, resolved where it points elsewhere, asked where it is in doubt."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from paperwork.files.grid import GridCell
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.intake.ledger import Ledger
from paperwork.intake.questions import LEAVE_BLANK, is_frequency
from paperwork.intake.reading import quote
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.texts.frequencies import (
    FrequencyText,
    doubt_number,
    doubt_unit,
    find_middle,
    mixes_signs,
    read_frequency,
)
from paperwork.intake.texts.ids import key_of
from paperwork.intake.texts.television import edges_of, find_raster
from paperwork.raw import Text
from paperwork.text.units import MHZ, format_mhz, parse_frequency
from paperwork.text.vocabulary import is_nobody

_BOTH = "both"
_MANY = 2
"""Cells with one and the same doubt that are asked about together."""

_BLANK = "leave it blank on paper, and keep what is written in the notes"
_DATES = "frequencies that a format shows as dates"


@frozen
class FrequencyCell:
    """The frequency cell of one record, and the television channel that its row names.

    `is_spread` is on where the cell is in another row and reaches this one by a merge. `heading` is over it, `field` is what
    it sets. `text` is what it says, `read` what
    that was taken as, `mhz` what came of it; all three are set while the column is read.
    """

    record: DraftRecord
    cell: GridCell
    tv: str = ""
    is_spread: bool = False
    heading: str = ""
    field: str = "mhz"
    text: str = ""
    read: FrequencyText = FrequencyText()
    mhz: str = ""


def read_frequency_cells(cells: Sequence[FrequencyCell], draft: ShowDraft, ledger: Ledger) -> None:
    """Set the frequency of every record. A doubt, or what is not a frequency at all, leaves it out and asks."""
    cells = _follow([_read(one, ledger) for one in cells], ledger)
    middle_hz = find_middle([one.mhz for one in cells if is_frequency(one.mhz)])
    cells = _ask_groups([_doubt(one, middle_hz) for one in cells], ledger)
    cells = [_settle(one, draft, ledger) for one in cells]
    _repair_signs(cells, ledger)
    _check_television(cells, ledger)


def _read(one: FrequencyCell, ledger: Ledger) -> FrequencyCell:
    """The cell with its text and what that says by itself."""
    cell = one.cell
    if cell.struck == "whole":
        ledger.enter([cell], "used")
        text, read = cell.text, _ask_struck(one, ledger)
    elif cell.kind == "date" and cell.serial:
        ledger.enter([cell], "used")
        text, read = cell.serial, read_frequency(cell.serial)
        if read.mhz:
            ledger.repair(_DATES, cell.place, cell.text, read.mhz, f"the number behind it is {text}")
    else:
        text = ledger.text(cell)
        if is_nobody(text):  # `frei` and `tbc` are not frequencies either
            return one
        read = read_frequency(text)
        if one.is_spread:
            choices = (read.mhz,) if read.mhz else ()
            read = FrequencyText(doubt=f"{text} is merged over several channels", choices=choices)
        elif cell.recovered and read.mhz:
            ledger.repair(_DATES, cell.place, cell.text, read.mhz, "letters in the number format look like a date's")
        elif read.kind:
            ledger.repair(read.kind, cell.place, text, read.mhz, read.because)
    return replace(one, text=text, read=read, mhz=read.mhz)


def _ask_struck(one: FrequencyCell, ledger: Ledger) -> FrequencyText:
    answer = ledger.ask(
        "struck",
        f"{one.record.id}: {one.cell.text}",
        one.cell.place,
        f"{quote(one.cell.text)} is struck through: the channel is cut, or the frequency is an old one?",
        {"old": "an old frequency: leave it blank", "keep": f"{one.cell.text} still holds"},
        channel=one.record.id,
        stops=False,
        typed="frequency",
    )
    if not answer:
        _leave_open(one)
    if answer in ("", "old"):
        return FrequencyText(same="-")
    return FrequencyText(mhz=one.cell.text if answer == "keep" else answer)


def _follow(cells: Sequence[FrequencyCell], ledger: Ledger) -> list[FrequencyCell]:
    """The cells with what other rows say filled in: `same as 4`, ditto marks."""
    by_key = {key_of(one.record.id): index for index, one in enumerate(cells) if one.field == "mhz"}
    found = list(cells)
    for index, one in enumerate(cells):
        if one.read.same in ("", "-"):
            continue
        target, seen = index, set()
        while target >= 0 and target not in seen and (same := found[target].read.same) not in ("", "-"):
            seen.add(target)
            target = _find_above(cells, target) if same == "^" else by_key.get(key_of(same), -1)
        if target >= 0 and target != index and (mhz := found[target].mhz):
            because = f"channel {found[target].record.id} has it"
            ledger.repair("frequencies given by another row", one.cell.place, one.text, mhz, because)
            found[index] = replace(one, mhz=mhz)
        else:
            doubt = f"{quote(one.text)} points at a frequency that is not there"
            found[index] = replace(one, read=FrequencyText(doubt=doubt))
    return found


def _find_above(cells: Sequence[FrequencyCell], at: int) -> int:
    """The cell before one in its own column, which a ditto mark repeats; -1 for none. A row's second pack is another."""
    return next((i for i in range(at - 1, -1, -1) if cells[i].cell.column == cells[at].cell.column), -1)


def _doubt(one: FrequencyCell, middle_hz: int) -> FrequencyCell:
    """The cell with the doubt that its value raises beside the others, under its heading, or by itself."""
    if one.read.same == "-" or one.read.doubt or not (one.text or one.mhz):
        return one
    if not is_frequency(one.mhz):
        meant = _move_point(one, middle_hz)
        is_preset = re.fullmatch(r"[0-9]{1,2}[.,][0-9]{1,2}", one.text.strip()) is not None
        doubt = f"{one.text} is no frequency{', but perhaps a group and channel of the radio' if is_preset else ''}"
        return replace(one, read=FrequencyText(doubt=doubt, choices=meant, group="preset" if is_preset else "none"))
    found = doubt_number(one.text, one.mhz, middle_hz)
    found = found if found.doubt else doubt_unit(one.text, one.mhz, one.heading)
    return replace(one, read=found) if found.doubt else one


def _move_point(one: FrequencyCell, middle_hz: int) -> tuple[str, ...]:
    """What a number would be with its point moved, where that brings it among the others."""
    if not middle_hz or not one.text.isdigit():
        return ()
    moved = (int(one.text) * factor for factor in (MHZ // 10, MHZ // 100, MHZ // 1000))
    return tuple(format_mhz(hz) for hz in moved if 4 * middle_hz <= 5 * hz <= 6 * middle_hz)


def _ask_groups(cells: Sequence[FrequencyCell], ledger: Ledger) -> list[FrequencyCell]:
    """The cells with what an answer says of all that are in doubt for one reason: a column of them is asked about once."""
    found = list(cells)
    for group in dict.fromkeys(one.read.group for one in cells if one.read.group):
        those = [one for one in cells if one.read.group == group]
        if len(those) < _MANY:
            continue
        first = those[0]
        choices = {}
        if all(one.read.choices for one in those):
            choices["first"] = f"{first.text} is {first.read.choices[0]} MHz, and the others likewise"
        if all(len(one.read.choices) > 1 for one in those):
            choices["second"] = f"{first.text} is {first.read.choices[1]} MHz, and the others likewise"
        choices[LEAVE_BLANK] = _BLANK
        text = f"{len(those)} frequencies are like this one: {first.read.doubt}"
        others = tuple(one.cell.place for one in those[1:])
        answer = ledger.ask("unit", group, first.cell.place, text, choices, others=others, stops=False)
        for index, one in enumerate(found):
            if one.read.group == group:
                found[index] = _take_group(one, answer)
    return found


def _take_group(one: FrequencyCell, answer: str) -> FrequencyCell:
    """A cell once its group is answered. One that is left blank has its text in the notes."""
    if answer in ("first", "second"):
        return replace(one, mhz=one.read.choices[answer == "second"], read=FrequencyText(mhz="taken"))
    _leave_open(one)
    if answer:
        _keep(one)
    return replace(one, mhz="", read=FrequencyText(same="-"))


def _keep(one: FrequencyCell) -> None:
    """Keep in the notes what is written where no frequency is read."""
    heading = " ".join(one.heading.split())
    one.record.notes.append((f"{heading}: {one.text}" if heading else one.text, one.cell.place))


def _settle(one: FrequencyCell, draft: ShowDraft, ledger: Ledger) -> FrequencyCell:
    """The cell with the frequency that holds once its doubt is asked; its record gets it."""
    read = one.read
    if read.same == "-" or not (one.text or one.mhz):
        return one
    if read.doubt:
        one = replace(one, mhz=_ask(one, read, draft, ledger))
    known = one.record.fields.get(one.field)
    if isinstance(known, Text) and is_frequency(known.text) and is_frequency(one.mhz):
        if parse_frequency(known.text) == parse_frequency(one.mhz):
            return one
        doubt = f"two tables say {known.text} and {one.text}"
        del one.record.fields[one.field]
        read = FrequencyText(doubt=doubt, choices=(known.text, one.mhz))
        one = replace(one, text=f"{known.text} | {one.text}")
        one = replace(one, mhz=_ask(one, read, draft, ledger))
    if one.mhz:
        one.record.put(one.field, one.mhz, one.cell.place)
    return one


def _ask(one: FrequencyCell, read: FrequencyText, draft: ShowDraft, ledger: Ledger) -> str:
    """The frequency that was answered, or "". `both` makes a second channel of the second frequency."""
    id, place = one.record.id, one.cell.place
    choices = {mhz: f"{mhz} MHz" for mhz in read.choices}
    if len(read.choices) == 2 and "two packs" in read.doubt and id.isalnum():
        choices[_BOTH] = f"both: channels {id} and {id}B"
    choices[LEAVE_BLANK] = _BLANK
    about = f"{id}: {one.text}"
    answer = ledger.ask("frequency", about, place, read.doubt, choices, typed="frequency", channel=id, stops=False)
    if answer == _BOTH:
        second = draft.add("channels", f"{id}B", place)
        second.put("mhz", read.choices[1], place)
        second.put("doubles", id, place)
        second.mirrors = id
        return read.choices[0]
    if not answer:
        _leave_open(one)
    if answer == LEAVE_BLANK:
        _keep(one)
    return "" if answer == LEAVE_BLANK else answer


def _leave_open(one: FrequencyCell) -> None:
    """A frequency that is given and asked about is not one that was forgotten."""
    if one.field == "mhz":
        one.record.fields.setdefault("mhz", Text("", one.cell.place))


def _repair_signs(cells: Sequence[FrequencyCell], ledger: Ledger) -> None:
    texts = [one.text for one in cells if one.mhz and one.cell.kind == "text"]
    if mixes_signs(texts):
        for one in cells:
            if "," in one.text and one.mhz:
                mhz, because = format_mhz(parse_frequency(one.mhz)), "both are read as the decimal sign"
                ledger.repair("decimal commas beside decimal points", one.cell.place, one.text, mhz, because)
    elif any("," in text for text in texts):
        ledger.lines.append("frequencies are written with a decimal comma")


def _check_television(cells: Sequence[FrequencyCell], ledger: Ledger) -> None:
    """A television channel beside a frequency has to hold it, by the raster that most rows agree with."""
    pairs = [(one, int(one.tv), parse_frequency(one.mhz)) for one in cells if one.tv and is_frequency(one.mhz)]
    raster = find_raster([(tv, hz) for _, tv, hz in pairs])
    if raster is None:
        if pairs:
            ledger.lines.append("the television channels fit no raster that is known, so they witness nothing")
        return
    for one, tv, hz in pairs:
        low, high = edges_of(tv, raster)
        if not low <= hz < high:
            about, edges = (Subject("channels", one.record.id),), f"{low // MHZ} to {high // MHZ}"
            facts: dict[str, Any] = {"channel": one.record.id, "mhz": format_mhz(hz), "tv": tv, "edges": edges}
            ledger.report("frequency-against-tv", one.cell.place, about=about, **facts)
