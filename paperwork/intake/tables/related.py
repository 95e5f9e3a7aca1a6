"""Columns that are known by each other: a preset's group and channel, a place's rack and slot, ears beside microphones."""

from collections.abc import Mapping, Sequence, Set

from paperwork.intake.reading import quote
from paperwork.intake.tables.column import BACKUP, IGNORE, NOTES, OFFERED, ListColumn, TableColumns
from paperwork.intake.tables.towns import take_towns
from paperwork.intake.tables.values import are_names, is_capsule
from paperwork.intake.texts.bodies import is_named_mic
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.ids import read_place
from paperwork.intake.texts.scenes import read_mark
from paperwork.place import format_column
from paperwork.text.headings import mean
from paperwork.text.vocabulary import listed_words

_LONGEST = 16
"""Letters of a label: longer ones are prose."""


def take_related(found: TableColumns) -> None:
    """Decide what columns beside each other say together, before each is asked for itself."""
    take_towns(found)
    _take_presets(found)
    _take_places(found)
    _take_ears(found)
    _take_jacks(found)
    _take_packs(found)
    found.columns = {number: _leave_counts(one, found) for number, one in found.columns.items()}


def _take_presets(found: TableColumns) -> None:
    """A receiver's preset is a group, and the channel that is counted within it. Neither is a channel of ours."""
    for number, column in found.columns.items():
        if number in found.taken or column.options[:1] != ("preset",):
            continue
        found.decide(column, "preset", "a group of the receiver's own table")
        after = found.columns.get(number + 1)
        others = [c for c in found.columns.values() if c is not after and {"channel", "pack"} & set(c.options)]
        if after and after.number not in found.taken and others and after.says_channel:
            found.decide(after, "preset", "the channel within that group")


def _take_places(found: TableColumns) -> None:
    """A rack in one column, and in others its unit and its slot: none of them numbers our channels."""
    named = [
        one for one in _list_open(found, "receiver") if one.options[0] == "receiver" and not _are_places(one.texts)
    ]
    racks = [one for one in named if not ("slot" in one.options and _are_counts(one.texts))]
    slots = [one for one in _list_open(found, "slot") if one not in racks and _are_counts(one.texts)]
    units = [one for one in _list_open(found, "unit") if one not in (*racks, *slots) and _are_counts(one.texts)]
    if not racks and units and slots:
        racks, units = units[:1], units[1:]
    if (
        not racks
        or not (slots or units)
        or not _has_number(found, (*racks[:1], *slots[:1], *units[:1]), {"channel", "pack"})
    ):
        return
    racks.sort(key=lambda one: not set(one.key.split()) & listed_words("rack"))
    found.decide(racks[0], "receiver", "a rack, whose slot is in another column")
    for other in racks[1:]:
        found.decide(other, "notes", "the rack and the slot say the place")
    if units:
        found.decide(units[0], "unit", "a unit of the rack")
    if slots:
        found.decide(slots[0], "slot", "a place in the rack")


def _take_ears(found: TableColumns) -> None:
    """In-ears beside the microphone of the same person: their number, frequency and mix."""
    ears = [one for name in ("ear", "ear_frequency", "ear_send") for one in _list_open(found, name)]
    if not ears or not _has_number(found, ears):
        return
    for column in dict.fromkeys(one.number for one in ears):
        one = found.columns[column]
        name = next(option for option in one.options if option.startswith("ear"))
        if name == "ear" and one.texts and all(read_frequency(text).mhz and "." in text for text in one.texts):
            name = "ear_frequency"
        elif (
            name == "ear"
            and one.texts
            and all(read_mark(text) in ("live", "idle") and text != "1" for text in one.texts)
        ):
            name = "notes"
        found.decide(one, name, "in-ears beside a microphone")
    for one in _list_open(found, "send"):
        found.decide(one, "ear_send", "what feeds the in-ears beside it")


def _leave_counts(column: ListColumn, found: TableColumns) -> ListColumn:
    """A column without what only counts within a rack, where it counts nothing or a whole place is said in another column."""
    if {"slot", "receiver"} <= set(column.options) and not _are_places(column.texts) and not _are_counts(column.texts):
        return column._replace(options=tuple(name for name in column.options if name not in ("slot", "receiver")))
    counts = {"slot", "unit"} & set(column.options)
    is_alone = not any("receiver" in one.options for one in found.columns.values() if one is not column)
    if not counts or (is_alone and column.texts and _are_counts(column.texts)):
        return column
    return column._replace(options=tuple(name for name in column.options if name not in counts))


def _take_jacks(found: TableColumns) -> None:
    """What counts right beside a stage box is its jack, where the desk's input is in another column."""
    for box in _list_open(found, "box"):
        beside = found.columns.get(box.number + 1)
        others = [one for one in _list_open(found, "input") if one is not beside]
        is_open = beside is not None and beside.number not in found.taken and "input" in beside.options
        if beside and is_open and others and _are_counts(beside.texts):
            found.decide(beside, "jack", "the jack of the box beside it")


def _take_packs(found: TableColumns) -> None:
    """A column of transmitters does not number the channels where another is headed as their number alone."""
    numbers = [
        one for one in _list_open(found, "channel") if one.key in listed_words("channel_alone") and _count_up(one)
    ]
    for one in _list_open(found, "pack"):
        if numbers and one.key in listed_words("pack_first"):
            found.decide(one, "pack", "the channels have a number of their own")


def _count_up(column: ListColumn) -> bool:
    """Whether a column counts the rows: 1, 2, 3."""
    numbers = [int(text) for text in column.texts if text.isascii() and text.isdigit()]
    return len(numbers) == len(column.texts) > 1 and len(set(numbers)) == len(numbers)


def _list_open(found: TableColumns, name: str) -> list[ListColumn]:
    return [one for number, one in found.columns.items() if number not in found.taken and name in one.options]


def _has_number(found: TableColumns, beside: Sequence[ListColumn], names: Set[str] = frozenset({"channel"})) -> bool:
    """Whether another column may number the channels, by a heading that means one of some fields."""
    numbers = {one.number for one in beside}
    return any(names & set(one.options) for number, one in found.columns.items() if number not in numbers)


def _are_places(texts: Sequence[str]) -> bool:
    return sum(bool(read_place(text)[0]) for text in texts) * 2 > len(texts)


def _are_counts(texts: Sequence[str]) -> bool:
    """Whether texts count something small: `1`, `12`, `A`."""
    return all((text.isdigit() and int(text) <= 64) or (text.isalpha() and len(text) == 1) for text in texts)


def take_key(found: TableColumns) -> None:
    """Let the first column of labels number the channels, where nothing else does: `REF 1`, `COACH H`, `IEM 2`. Packs number
    them too, but not before mics that are named in a column without a heading."""
    if found.has("channel") or not (found.has("frequency") or found.has("pack")):
        return
    labels = [column for column in found.columns.values() if _may_label(column, found)]
    whole = _count_rows(found)
    partial = [n for n, name in found.taken.items() if name == "pack" and len(found.columns[n].cells) < whole]
    if found.has("pack") and not partial:
        labels = [one for one in labels if one.heading is None and all(map(is_named_mic, one.texts))]
    if labels:
        for number in partial:
            found.decide(found.columns[number], "notes", "it does not number every row")
        found.decide(min(labels, key=lambda one: one.number), "channel", "it names each row, and nothing numbers them")


def _may_label(column: ListColumn, found: TableColumns) -> bool:
    taken = found.taken.get(column.number, "")
    texts = column.texts
    is_counted = (taken == "send" and _are_ears(column)) or (taken == "receiver" and _count_up(column))
    is_mic = taken == "capsule" and "channel" in column.options and not any(map(is_capsule, texts))
    is_free = taken in ("", "notes") or is_counted or is_mic
    is_whole = len(texts) == _count_rows(found) > 1 or (len(texts) > 2 and column.number == found.table.columns[0])
    is_short = all(len(text) <= _LONGEST and not read_frequency(text).mhz for text in texts)
    is_label = is_free and is_whole and is_short and len(set(texts)) == len(texts)
    is_meant = column.options[:1] in (("performer",), ("role",), ("notes",), ("input",), ("output",))
    are_marked = any(any(map(str.isdigit, text)) for text in texts) or not are_names(texts)
    return is_label and not is_meant and are_marked


def _count_rows(found: TableColumns) -> int:
    """The rows that say several things: any other is a title between them."""
    return sum(len(row) > 1 for row in found.table.rows.values())


def _are_ears(column: ListColumn) -> bool:
    """Whether a column of mixes has the names of in-ears in it, `IEM 1`."""
    return all(text.casefold().split()[0] in listed_words("in_ear") for text in column.texts)


def is_misspelled(column: ListColumn) -> bool:
    """Whether a heading means something only as a slip of others."""
    return column.heading is not None and bool(column.options) and not mean(column.heading.text).fields


def ask_slip(found: TableColumns, column: ListColumn, choices: Mapping[str, str]) -> None:
    """What a misspelled heading means that is near to several, `Tanche` to a desk input and to a pouch, where its values fit
    no one better than another: the first until it is answered."""
    heading = column.heading.text if column.heading else ""
    question = f"column {format_column(column.number)} is headed {quote(heading)}, which is near to several headings"
    because = "its heading is misspelled"
    found.taken[column.number] = found.ask(column, column.key, because, question, choices, value=next(iter(choices)))


def ask_twin(found: TableColumns, column: ListColumn) -> None:
    """A second column for a field that there can be only one of: kept in the notes until an answer says what it is."""
    name = next((option for option in column.options if found.has(option)), column.options[0])
    other = next(found.columns[n] for n, taken in found.taken.items() if taken == name)
    mine, theirs = ({cell.row: cell.text for cell in one.cells} for one in (column, other))
    if all(theirs.get(row) == text for row, text in mine.items()):
        found.taken[column.number] = "ignore" if mine else ""
        return
    question = f"{column.title} holds {column.sample}, and {name} is read from {other.title} with other values"
    choices = {"notes": NOTES, "first": f"this is the {name}; the other column is kept in the notes"}
    if name in ("channel", "pack"):
        choices |= {"input": OFFERED["input"], "preset": "the channel within a group of the receiver's own table"}
    if name in ("channel", "pack", "frequency"):
        choices["second"] = "a second pack on the same person"
    value = "notes"
    if name == "frequency":
        choices |= {
            "newer": "the newer frequency, where it has one; the other holds in all other rows",
            "backup": BACKUP,
            "ear_frequency": "the in-ears of the same person",
        }
        value = "newer" if set(column.key.split()) & listed_words("newer") else value
    key = f"{column.key} (second)"
    answer = found.ask(column, key, f"{name} is another column", question, {**choices, "ignore": IGNORE}, value=value)
    if answer == "newer":
        _replace_older(found, column, other)
    elif answer == "first":
        found.taken |= {other.number: "notes", column.number: name}
    else:
        found.taken[column.number] = "frequency2" if (answer, name) == ("second", "frequency") else answer


def _replace_older(found: TableColumns, column: ListColumn, other: ListColumn) -> None:
    """Let a column hold what another holds in the rows where it says nothing; what it replaces is left out."""
    found.taken |= {other.number: "ignore", column.number: found.taken[other.number]}
    for row in found.table.rows.values():
        if isinstance(row, dict) and other.number in row and column.number not in row:
            row[column.number] = row[other.number]
