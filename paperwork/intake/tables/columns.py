"""Which column of a table holds what: by its heading, and where that leaves a choice, by the values below."""

from collections.abc import Mapping, Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.reading import Decision
from paperwork.intake.tables.column import Columns, ListColumn, TableColumns
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.values import are_names, choose_field, fit, is_capsule, is_mark, looks_like_number
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import REPEATABLE, fields, find_rank, mean, mean_base
from paperwork.intake.texts.ids import is_id, read_id
from paperwork.intake.texts.personal import are_about_health, are_personal
from paperwork.intake.texts.scenes import is_scene
from paperwork.intake.texts.television import find_raster
from paperwork.place import Place, format_column
from paperwork.text.units import parse_frequency

_NOTES = "keep it in the notes, under its heading"
_IGNORE = "nothing of use: leave it out"
_OFFERED = {
    "channel": "the channel",
    "performer": "the performer",
    "role": "the role",
    "frequency": "the frequency",
    "pack": "the pack",
    "capsule": "the capsule",
    "receiver": "the place in the receiver",
    "input": "the desk input",
    "notes": _NOTES,
    "ignore": _IGNORE,
}
"""The fields that a question about a column offers, in their order; an answer may name any other field too."""

_SECOND = {
    "second": "a second pack on the same person",
    "spare": "a spare that stands by for it",
    "notes": _NOTES,
    "ignore": _IGNORE,
}
_SCENE = "scene"
_NAMES = ("performer", "role", "channel", "pack")


def assign_columns(table: SheetTable, ledger: Ledger) -> Columns:
    """A field for every column: by an answer, by its heading, by its values, by a question. Each is a decision."""
    values = {column: [row[column] for row in table.rows.values() if column in row] for column in table.headings}
    columns = {
        n: ListColumn(n, cell, values[n], _list_options(cell), table.grid.is_turned)
        for n, cell in table.headings.items()
    }
    given = {n: answer for n, column in columns.items() if (answer := _find_answer(column, table, ledger))}
    said = {n for n, answer in given.items() if answer == _SCENE}
    scenes = tuple(sorted({*_find_scenes(columns), *said} - (set(given) - said)))
    found = TableColumns(table, {n: column for n, column in columns.items() if n not in scenes}, ledger)
    for number, column in found.columns.items():
        if number in given:
            found.decide(column, given[number], "answered")
        elif _is_personal(column):
            found.decide(column, "personal", "about a person: left out, and printed nowhere")
    known = {n: c._replace(options=tuple(o for o in c.options if o != "personal")) for n, c in found.columns.items()}
    found.columns = known
    _take_presets(found)
    _take_known(found)
    packs = [column for column, name in found.taken.items() if name == "pack"]
    if packs and not found.has("channel"):
        found.taken[packs[0]] = "channel"  # packs number the channels where nothing else does
    if scenes and not found.has("channel"):
        _name_turned(found)
    for number, column in found.columns.items():
        if not found.taken.get(number) and column.cells:
            _guess(found, column)
    return Columns({n: name for n, name in sorted(found.taken.items()) if name}, scenes)


def _list_options(heading: GridCell | None) -> tuple[str, ...]:
    if heading is None:
        return ()
    return mean(heading.text).fields or (mean_base(heading.text).fields if find_rank(heading.text) else ())


def _find_answer(column: ListColumn, table: SheetTable, ledger: Ledger) -> str:
    """The field that an answer gives to a column, by its heading or by its letter."""
    keys = (column.key, format_column(column.number))
    answers = [ledger.find_answer("column", key, table.grid.title) for key in keys]
    return next((answer for answer in answers if answer in (*fields(), "ignore", _SCENE)), "")


def _is_personal(column: ListColumn) -> bool:
    is_named = column.options[:1] == ("personal",)
    are_addresses = column.texts and all(text.replace(".", "").replace("/", "").isdigit() for text in column.texts)
    is_other = bool({"frequency", "serial", "channel", "receiver"} & set(column.options))
    if not column.options and column.heading and are_about_health(column.texts):
        return True
    return (is_named and not (are_addresses and "." in column.texts[0])) or (
        not is_other and are_personal(column.texts)
    )


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


def _take_known(found: TableColumns) -> None:
    """The columns that say by their headings what they are. Those that leave no choice come first, the second of a pair last."""
    open_columns = [column for number, column in found.columns.items() if number not in found.taken]
    for column in sorted(open_columns, key=_order_of):
        free = [name for name in column.options if name in REPEATABLE or not found.has(name)]
        if column.is_second and (name := _find_second(column, found)):
            _ask_second(found, column, name)
        elif free and not _may_be_number(column, choose_field(free, column.texts), found):
            because = "its heading" if len(free) == 1 else "its heading and its values"
            found.decide(column, choose_field(free, column.texts), because)
        elif column.options:
            _ask_twin(found, column)


def _order_of(column: ListColumn) -> tuple[bool, bool, int, int, str, int]:
    """Columns that can be only one thing choose first, those spelled loosely after the rest, those unknown last."""
    options, heading = column.options, column.heading
    if heading is None or not options:
        return False, False, 9, len(fields()), column.key, column.number
    vague = len(options) + (0 if mean(heading.text).is_exact else 4)
    return column.is_second, column.says_channel, vague, fields().index(options[0]), column.key, column.number


def _may_be_number(column: ListColumn, name: str, found: TableColumns) -> bool:
    """Whether a column that is headed `Channel` is something else only because another column is the number: it is asked."""
    return column.says_channel and name != "channel" and found.has("channel") and not _is_witness(column, found)


def _is_witness(column: ListColumn, found: TableColumns) -> bool:
    """Whether the numbers of a column are the television channels of the frequencies beside them."""
    beside = next((one for one in found.columns.values() if "frequency" in one.options), None)
    mhz = {cell.row: read_frequency(cell.text).mhz for cell in beside.cells} if beside else {}
    pairs = [
        (int(cell.text), parse_frequency(hz))
        for cell in column.cells
        if cell.text.isdigit() and (hz := mhz.get(cell.row, ""))
    ]
    return find_raster(pairs) is not None


def _find_second(column: ListColumn, found: TableColumns) -> str:
    """Which field of a second pack a column holds, where the table has the first of the pair."""
    if "frequency" in column.options and found.has("frequency"):
        return "" if found.has("frequency2") else "frequency2"
    is_number = {"channel", "pack"} & set(column.options) and found.has("channel", "pack")
    return "second" if is_number and not found.has("second") else ""


def _ask_second(found: TableColumns, column: ListColumn, name: str) -> None:
    """What the second of a pair is: a pack more, a spare, or a remark. Asked once for a table."""
    numbers = [c for c in found.columns.values() if {"channel", "pack"} & set(c.options)]
    is_pair = any(c.is_second for c in numbers) or any(read_pair(text) for c in numbers for text in c.texts[:3])
    answer = ask_second(
        found.table, column.place, column.title, column.texts, "second" if is_pair else "notes", found.ledger
    )
    found.taken[column.number] = name if answer in ("second", "spare") else answer


def ask_second(
    table: SheetTable, place: Place, subject: str, samples: Sequence[str], likeliest: str, ledger: Ledger
) -> str:
    """What the second of each pair of a table is; `likeliest` until it is answered."""
    about = table.grid.title or "the table"
    question = f"{subject} holds the second of a pair: {quote(', '.join(samples[:4]))}"
    made = Decision("second", about, place, subject, likeliest, "the second of a pair", _SECOND, "likely", samples[:3])
    return ledger.decide(made, question)


def read_pair(text: str) -> tuple[str, str] | None:
    """The two numbers of a cell that names a pack and its second, `A1/A2`; None for any other."""
    one, sign, two = (part.strip() for part in text.replace("+", "/").replace("&", "/").partition("/"))
    both = [read_id(part) for part in (one, two)]
    is_pair = bool(sign) and all(part.digits and part.prefix for part in both) and both[0].prefix == both[1].prefix
    return (one, two) if is_pair else None


def _ask_twin(found: TableColumns, column: ListColumn) -> None:
    """A second column for a field that there can be only one of: kept in the notes until an answer says what it is."""
    name = next((option for option in column.options if found.has(option)), column.options[0])
    other = next(found.columns[n] for n, taken in found.taken.items() if taken == name)
    mine, theirs = ({cell.row: cell.text for cell in one.cells} for one in (column, other))
    if all(theirs.get(row) == text for row, text in mine.items()):
        found.taken[column.number] = "ignore" if mine else ""
        return
    question = f"{column.title} holds {column.sample}, and {name} is read from {other.title} with other values"
    choices = {"notes": _NOTES, "first": f"this is the {name}; the other column is kept in the notes"}
    if name in ("channel", "pack"):
        choices |= {"input": _OFFERED["input"], "preset": "the channel within a group of the receiver's own table"}
    if name in ("channel", "pack", "frequency"):
        choices["second"] = "a second pack on the same person"
    key = f"{column.key} (second)"
    answer = found.ask(
        column, key, f"{name} is another column", question, {**choices, "ignore": _IGNORE}, value="notes"
    )
    if answer == "first":
        found.taken |= {other.number: "notes", column.number: name}
    else:
        found.taken[column.number] = "frequency2" if (answer, name) == ("second", "frequency") else answer


def _name_turned(found: TableColumns) -> None:
    """A grid that was turned has its mics, or those who wear them, under the heading of its scenes."""
    for number in [number for number, name in found.taken.items() if name == "scenes"]:
        texts = [text for text in found.columns[number].texts if not mean(text).is_exact]
        if texts and all(is_id(text) and looks_like_number(text) for text in texts):
            found.taken[number] = "channel"
        elif not found.has("role", "performer"):
            found.taken[number] = "performer"


def _guess(found: TableColumns, column: ListColumn) -> None:
    """A column that no heading explains: by its values where they leave no doubt, asked where a name or a number is missing,
    else kept in the notes."""
    texts, heading = column.texts, column.heading
    looks = next((n for n in ("frequency", "channel") if not found.has(n) and texts and fit(n, texts) >= 0.75), "")
    is_first = heading is None and looks == "channel" and column.number == found.table.columns[0]
    if is_first and len(set(texts)) == len(texts):
        found.decide(column, "channel", "it counts the rows")
        return
    if heading and not found.has("capsule") and found.has("channel") and texts and all(map(is_capsule, texts)):
        found.decide(column, "capsule", "its values are capsules")
        return
    names = heading is not None and not found.has("performer") and are_names(texts)
    is_list = found.has("channel", "pack", "frequency")
    if not texts or not (looks or names or not found.has(*_NAMES)):
        found.decide(column, "notes" if is_list and texts else "", "its heading is not known")
        return
    title = f"is headed {quote(heading.text)}" if heading else "has no heading"
    question = f"column {format_column(column.number)} {title} and holds {column.sample}"
    first = ["performer", "role"] if names else [looks] if looks else []
    choices = {name: _OFFERED[name] for name in dict.fromkeys((*first, *_OFFERED))}
    found.taken[column.number] = found.ask(column, column.key, "its heading is not known", question, choices) or "open"


def _find_scenes(columns: Mapping[int, ListColumn]) -> tuple[int, ...]:
    """The columns of a grid: headed by scenes, two at least. A column of marks between or beside them is a scene too."""
    headed = {n: heading for n, column in columns.items() if (heading := column.heading)}
    named = [
        n for n, cell in headed.items() if not mean(cell.text).fields and (is_scene(cell.text) or cell.kind == "date")
    ]
    marked = [
        n
        for n, cell in headed.items()
        if columns[n].cells and not mean(cell.text).is_exact and all(map(is_mark, columns[n].cells))
    ]
    if not named:
        found = set(marked) if len(marked) > 2 else set()
    else:
        found = {*named, *(n for n in marked if min(named) - 1 <= n <= max(named) + 1)}
    return tuple(sorted(found)) if len(found) > 1 else ()
