"""Places in receivers: by one pattern in a cell, by a rack and a slot in two columns, or counted; and the units of a rack."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.ids import LETTERED, read_place
from paperwork.intake.texts.names import is_blank

_COUNTED = "receivers alone, their slots in the order of the rows"
_COLUMNS = "a rack and a slot in columns of their own"
_CHOICES = {"yes": "as said", "notes": "keep them in the notes"}


class ReadPlace(NamedTuple):
    """The cell of a place in a receiver, its text, what it was read as ("" for nothing), and by which pattern."""

    record: DraftRecord
    cell: GridCell
    text: str
    place: str = ""
    pattern: str = ""


def read_places(
    rows: Sequence[DataRow], found: Mapping[int, DraftRecord], draft: ShowDraft, ledger: Ledger
) -> list[tuple[DraftRecord, str, GridCell]]:
    """The slot of each channel whose place is read, with its cell; what fits no pattern is kept in the notes."""
    cells = [(row, cell, _text_of(cell, ledger)) for row in rows if (cell := _cell_of(row))]
    read = [ReadPlace(found[row.number], cell, text) for row, cell, text in cells if text and not is_blank(text)]
    if any(row.columns.has("slot", "unit") for row in rows):
        read = list(_join_columns(rows, found, draft, ledger))
    else:
        read = [one._replace(place=place, pattern=pattern) for one in read for place, pattern in [read_place(one.text)]]
        if len({one.text for one in read}) < len(read) and not any(one.place for one in read):
            read = list(_count_places(read))
    taken = _ask_patterns(read, ledger)
    slots = []
    for one in read:
        if one.place and one not in taken:
            slots.append((one.record, one.place, one.cell))
        else:
            one.record.notes.append((f"receiver {one.text}", one.cell.place))
    return slots


def _cell_of(row: DataRow) -> GridCell | None:
    return row.cell("receiver") or row.cell("slot") or row.cell("unit")


def _text_of(cell: GridCell, ledger: Ledger) -> str:
    text = ledger.text(cell)
    return ledger.ask_date(cell, "receiver").replace("-", ".") if cell.kind == "date" else text


def _ask_patterns(read: Sequence[ReadPlace], ledger: Ledger) -> list[ReadPlace]:
    """Decide once for each pattern how places are read. Returns those that stay in the notes."""
    left: list[ReadPlace] = []
    odd = _find_odd_letters(read)
    for pattern in dict.fromkeys(one.pattern for one in read if one.place):
        those = [one for one in read if one.place and one.pattern == pattern]
        first = those[0]
        rack, _, slot = first.place.rpartition(".")
        words = f"places in receivers are read as {pattern}: {first.text} is rack {rack}, slot {slot}"
        is_doubled = len({one.place for one in those}) < len(those)
        if is_doubled or pattern == _COUNTED:
            answer = ledger.ask("receiver", pattern, first.cell.place, words, _CHOICES, default="yes")
        else:
            samples = [one.text for one in those[:3]]
            made = Decision(
                "receiver", pattern, first.cell.place, "places in receivers", "yes", pattern, _CHOICES, "sure", samples
            )
            answer = ledger.decide(made)
        left += those if answer != "yes" else []
    for one in odd:
        rack, _, slot = one.place.rpartition(".")
        words = f"{one.text} would be slot {slot} of rack {rack}, and no other receiver has a slot of that letter"
        if ledger.ask("receiver", one.text, one.cell.place, words, _CHOICES, default="notes") != "yes":
            left.append(one)
    return left


def _find_odd_letters(read: Sequence[ReadPlace]) -> list[ReadPlace]:
    """Places with a letter that one receiver alone has, where two others or more end with an earlier one: `4C` beside `1B`
    and `2B`."""
    lettered = [one for one in read if one.place and one.pattern == LETTERED]
    last: dict[str, int] = {}
    for one in lettered:
        rack, _, slot = one.place.rpartition(".")
        last[rack] = max(last.get(rack, 0), int(slot))
    counts = Counter(last.values())
    usual = max((slot for slot, count in counts.items() if count > 1), default=0)
    return [one for one in lettered if usual and int(one.place.rpartition(".")[2]) > usual]


def _join_columns(
    rows: Sequence[DataRow], found: Mapping[int, DraftRecord], draft: ShowDraft, ledger: Ledger
) -> Iterator[ReadPlace]:
    """Places whose rack, unit and slot are in columns of their own; a unit has as many slots as any has."""
    parts: list[tuple[DataRow, str, int, int]] = []
    rack = ""
    for row in rows:
        texts = {name: ledger.text(cell) if (cell := row.cell(name)) else "" for name in ("receiver", "unit", "slot")}
        rack = texts["receiver"] if not is_blank(texts["receiver"]) and texts["receiver"] else rack
        unit, slot = _number_of(texts["unit"]), _number_of(texts["slot"])
        if rack and (slot or unit):
            parts.append((row, rack, unit if slot else 0, slot or unit))
    size = max((slot for *_, slot in parts), default=0)
    units: dict[str, int] = {}
    for row, rack, unit, slot in parts:
        units[rack] = max(units.get(rack, 0), unit)
        cell = _cell_of(row)
        if cell:
            slot_id = f"{rack}.{max(unit - 1, 0) * size + slot}"
            yield ReadPlace(found[row.number], cell, f"{rack} {unit or ''} {slot}", slot_id, _COLUMNS)
    for rack, count in units.items():
        if count:
            place = parts[0][0].cells[min(parts[0][0].cells)].place
            draft.add("racks", rack, place).put("units", ", ".join([str(size)] * count), place)


def _number_of(text: str) -> int:
    """The number that a text counts, by figures or by a letter; 0 for none."""
    text = text.strip()
    if text.isascii() and text.isdigit():
        return int(text)
    return ord(text.upper()) - ord("A") + 1 if len(text) == 1 and text.isascii() and text.isalpha() else 0


def _count_places(read: Iterable[ReadPlace]) -> Iterator[ReadPlace]:
    """Receivers that are named without their slots, `Box 1` on four rows: the slots are counted in the order of the rows."""
    counts: Counter[str] = Counter()
    for one in read:
        counts[one.text] += 1
        yield one._replace(place=f"{one.text}.{counts[one.text]}", pattern=_COUNTED)
