"""The frequency column: each channel's frequency, resolved where it points elsewhere, asked where it is in doubt."""

from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.files.grid import GridCell
from paperwork.finding import Subject, find
from paperwork.intake.cells import Cells
from paperwork.intake.draft import Draft, Record
from paperwork.intake.frequencies import Reading, find_middle, is_far_off, mixes_signs, read_frequency
from paperwork.intake.ids import key_of
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.questions import UNTOLD, Choice, Question
from paperwork.intake.television import edges_of, find_raster
from paperwork.raw import Text
from paperwork.units import Doubt, format_mhz, parse_frequency
from paperwork.vocabulary import is_nobody

BOTH = "both"


@dataclass(slots=True)
class Carrier:
    """The frequency cell of one record, and the television channel that its row names."""

    record: Record
    cell: GridCell
    text: str = ""
    mhz: str = ""
    tv: str = ""
    is_spread: bool = False
    """Whether the cell stands in another row and reaches this one by a merge."""


def read_carriers(carriers: Sequence[Carrier], cells: Cells, draft: Draft, ledger: Ledger) -> None:
    """Set the frequency of every record. A doubt, or what is no frequency at all, leaves it out and asks."""
    readings: list[Reading] = []
    for carrier in carriers:
        readings.append(_read(carrier, cells, ledger))
        carrier.mhz = readings[-1].mhz
    _follow(carriers, readings, ledger)
    middle_hz = find_middle([carrier.mhz for carrier in carriers if carrier.mhz and _is_sound(carrier.mhz)])
    for carrier, reading in zip(carriers, readings, strict=True):
        _settle(carrier, reading, middle_hz, draft, ledger)
    _tell_signs(carriers, ledger)
    _check_television(carriers, ledger)


def _read(carrier: Carrier, cells: Cells, ledger: Ledger) -> Reading:
    cell = carrier.cell
    if cell.struck == "whole":
        ledger.enter([cell], "used")
        carrier.text = cell.text
        return _ask_struck(carrier, ledger)
    if cell.kind == "date" and cell.serial:
        ledger.enter([cell], "used")
        carrier.text = cell.serial
        reading = read_frequency(cell.serial)
        if reading.mhz:
            ledger.repair(
                "frequencies that a format shows as dates",
                cell,
                cell.text,
                reading.mhz,
                f"the number behind it is {cell.serial}",
            )
        return reading
    carrier.text = cells.text(cell)
    if carrier.is_spread and not is_nobody(carrier.text):
        mhz = read_frequency(carrier.text).mhz
        return Reading(doubt=f"{carrier.text} is merged over several channels", choices=(mhz,) if mhz else ())
    if is_nobody(carrier.text):  # `frei` and `tbc` are no frequencies either
        carrier.text = ""
        return Reading()
    reading = read_frequency(carrier.text)
    if cell.recovered and reading.mhz:
        ledger.repair(
            "frequencies that a format shows as dates",
            cell,
            cell.text,
            reading.mhz,
            "letters in the number format look like a date's",
        )
    elif reading.kind:
        ledger.repair(reading.kind, cell, carrier.text, reading.mhz, reading.because)
    return reading


def _ask_struck(carrier: Carrier, ledger: Ledger) -> Reading:
    id = carrier.record.id
    answer = ledger.ask(
        Question(
            kind="struck",
            about=f"{id}: {carrier.text}",
            place=carrier.cell.place,
            channel=id,
            stops=False,
            typed="frequency",
            text=f"{quote(carrier.text)} is struck through: the channel is cut, or the frequency is an old one?",
            choices=(Choice("old", "an old frequency: leave it blank"), Choice("keep", f"{carrier.text} still holds")),
        )
    )
    if not answer:
        _leave_open(carrier)
    return (
        Reading(mhz=carrier.text)
        if answer == "keep"
        else Reading(mhz=answer)
        if answer not in ("", "old")
        else Reading(same="-")
    )


def _follow(carriers: Sequence[Carrier], readings: list[Reading], ledger: Ledger) -> None:
    """Fill in what other rows tell: `same as 4`, ditto marks."""
    by_key = {key_of(carrier.record.id): index for index, carrier in enumerate(carriers)}
    for index, reading in enumerate(readings):
        target, seen = index, set()
        while readings[target].same not in ("", "-") and target not in seen:
            seen.add(target)
            same = readings[target].same
            target = target - 1 if same == "^" else by_key.get(key_of(same), -1)
            if target < 0:
                break
        if reading.same in ("", "-"):
            continue
        carrier = carriers[index]
        if target >= 0 and target != index and carriers[target].mhz:
            carrier.mhz = carriers[target].mhz
            ledger.repair(
                "frequencies told by another row",
                carrier.cell,
                carrier.text,
                carrier.mhz,
                f"channel {carriers[target].record.id} has it",
            )
        else:
            readings[index] = Reading(doubt=f"{quote(carrier.text)} points at a frequency that is not there")


def _settle(carrier: Carrier, reading: Reading, middle_hz: int, draft: Draft, ledger: Ledger) -> None:
    if reading.same == "-" or (not carrier.text and not carrier.mhz):
        return
    meant = is_far_off(carrier.mhz, middle_hz) if carrier.mhz and _is_sound(carrier.mhz) else ""
    if meant and not reading.doubt:
        doubt = f"{carrier.text} is far from all the others; {meant} would be among them"
        reading = Reading(doubt=doubt, choices=(meant, carrier.mhz))
    if not reading.doubt and not (carrier.mhz and _is_sound(carrier.mhz)):
        reading = Reading(doubt=f"{carrier.text} is no frequency")
    if reading.doubt:
        carrier.mhz = _ask(carrier, reading, draft, ledger)
    told = carrier.record.fields.get("mhz")
    if carrier.mhz and isinstance(told, Text) and _is_sound(told.text) and _is_sound(carrier.mhz):
        if parse_frequency(told.text) == parse_frequency(carrier.mhz):
            return
        doubt = f"two tables say {told.text} and {carrier.text}"
        del carrier.record.fields["mhz"]
        carrier.text = f"{told.text} | {carrier.text}"
        carrier.mhz = _ask(carrier, Reading(doubt=doubt, choices=(told.text, carrier.mhz)), draft, ledger)
    if carrier.mhz:
        carrier.record.put("mhz", carrier.mhz, carrier.cell.place)


def _ask(carrier: Carrier, reading: Reading, draft: Draft, ledger: Ledger) -> str:
    """The frequency that was answered, or "". `both` makes a second channel of the second frequency."""
    id = carrier.record.id
    choices = [Choice(mhz, f"{mhz} MHz") for mhz in reading.choices]
    if len(reading.choices) == 2 and "two packs" in reading.doubt and id.isalnum():
        choices.append(Choice(BOTH, f"both: channels {id} and {id}B"))
    choices.append(Choice(UNTOLD, "leave it blank on paper"))
    answer = ledger.ask(
        Question(
            kind="frequency",
            about=f"{id}: {carrier.text}",
            text=reading.doubt,
            choices=tuple(choices),
            typed="frequency",
            place=carrier.cell.place,
            channel=id,
            stops=False,
        )
    )
    if answer == BOTH:
        second = draft.add("channels", f"{id}B", carrier.cell.place)
        second.put("mhz", reading.choices[1], carrier.cell.place)
        second.put("doubles", id, carrier.cell.place)
        second.users = list(carrier.record.users)
        return reading.choices[0]
    if not answer:
        _leave_open(carrier)
    return "" if answer == UNTOLD else answer


def _leave_open(carrier: Carrier) -> None:
    """A frequency that is told and asked about is not one that was forgotten."""
    carrier.record.fields.setdefault("mhz", Text("", carrier.cell.place))


def _is_sound(mhz: str) -> bool:
    try:
        return bool(parse_frequency(mhz))
    except Doubt:
        return False


def _tell_signs(carriers: Sequence[Carrier], ledger: Ledger) -> None:
    texts = [carrier.text for carrier in carriers if carrier.mhz and carrier.cell.kind == "text"]
    if mixes_signs(texts):
        commas = [carrier for carrier in carriers if "," in carrier.text and carrier.mhz]
        for carrier in commas:
            ledger.repair(
                "decimal commas beside decimal points",
                carrier.cell,
                carrier.text,
                format_mhz(parse_frequency(carrier.mhz)),
                "both are read as the decimal sign",
            )
    elif any("," in text for text in texts):
        ledger.told.append("frequencies are written with a decimal comma")


def _check_television(carriers: Sequence[Carrier], ledger: Ledger) -> None:
    """A television channel beside a frequency has to hold it, by the raster that most rows agree with."""
    pairs = [(c, int(c.tv), parse_frequency(c.mhz)) for c in carriers if c.tv and c.mhz and _is_sound(c.mhz)]
    raster = find_raster([(tv, hz) for _, tv, hz in pairs])
    if raster is None:
        ledger.told += ["the television channels fit no raster that is known, so they witness nothing"] if pairs else []
        return
    for carrier, tv, hz in pairs:
        low, high = edges_of(tv, raster)
        if low <= hz < high:
            continue
        subject = (Subject("channels", carrier.record.id),)
        edges = f"{low // 1_000_000} to {high // 1_000_000}"
        ledger.findings.append(
            find(
                "frequency-against-tv",
                carrier.cell.place,
                about=subject,
                channel=carrier.record.id,
                mhz=format_mhz(hz),
                tv=tv,
                edges=edges,
            )
        )
