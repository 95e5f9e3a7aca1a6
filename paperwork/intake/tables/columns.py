"""Which column of a table holds what: by its heading, and where that leaves a choice, by the values below."""

from collections.abc import Mapping, Sequence, Set

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import MIC, SCENE, Decision, Doubt, quote
from paperwork.intake.tables.column import BACKUP, IGNORE, NOTES, OFFERED, Columns, ListColumn, TableColumns
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.plots import find_cast_columns, find_mic_columns, find_scene_columns, name_rows
from paperwork.intake.tables.related import ask_slip, ask_twin, is_misspelled, take_key, take_related
from paperwork.intake.tables.values import are_names, are_shouted, choose_field, fit, is_capsule, list_best
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import REPEATABLE, find_rank, mean_base, mean_near
from paperwork.intake.texts.ids import read_id
from paperwork.intake.texts.personal import are_about_health, are_personal
from paperwork.intake.texts.television import find_raster
from paperwork.place import Place, format_column
from paperwork.text.headings import fields, mean
from paperwork.text.units import parse_frequency
from paperwork.text.vocabulary import fold_word, listed_words

_SECOND = {
    "second": "a second pack on the same person",
    "spare": "a spare that stands by for it",
    "notes": NOTES,
    "ignore": IGNORE,
}
_MOSTLY = 0.75
"""How many of the values of a column have to look like a field."""

_NAMES = ("performer", "role", "channel", "pack")


def assign_columns(table: SheetTable, ledger: Ledger) -> Columns:
    """A field for every column: by an answer, by its heading, by its values, by a question. Each is a decision."""
    values = {column: [row[column] for row in table.rows.values() if column in row] for column in table.headings}
    columns = {
        n: ListColumn(n, cell, values[n], _list_options(cell), table.grid.is_turned)
        for n, cell in table.headings.items()
    }
    given = {n: answer for n, column in columns.items() if (answer := _find_answer(column, table, ledger))}
    days = [n for n in find_cast_columns(columns) if n not in given]
    mics = find_mic_columns(columns)
    said = {n for n, answer in given.items() if answer == SCENE}
    likely = {*(mics or find_scene_columns(columns, table))} - given.keys() - {*days}
    scenes = tuple(sorted(likely | said))
    found = TableColumns(table, {n: column for n, column in columns.items() if n not in scenes}, ledger)
    _decide_scenes(found, [columns[n] for n in scenes], said, is_mics=bool(mics))
    _take_answered(found, given, days)
    found.columns = {
        n: c._replace(options=tuple(o for o in c.options if o != "personal")) for n, c in found.columns.items()
    }
    if scenes:
        name_rows(found, scenes)
    take_related(found)
    _take_known(found)
    take_key(found)
    packs = [column for column, name in found.taken.items() if name == "pack"]
    if packs and not found.has("channel"):
        found.taken[packs[0]] = "channel"  # packs number the channels where nothing else does
    for number, column in found.columns.items():
        if not found.taken.get(number) and column.texts:
            _guess(found, column)
    return Columns({n: name for n, name in sorted(found.taken.items()) if name}, scenes, bool(mics))


def _decide_scenes(found: TableColumns, scenes: Sequence[ListColumn], said: Set[int], *, is_mics: bool) -> None:
    because = "headed by mics, with scenes in their cells" if is_mics else "headed like scenes, or like a plot"
    for column in scenes:
        found.decide(
            column, MIC if is_mics else SCENE, "answered" if column.number in said and not is_mics else because
        )
        del found.taken[column.number]


def _take_answered(found: TableColumns, given: Mapping[int, str], days: Sequence[int]) -> None:
    """What an answer says of columns, those of days, and those about a person."""
    names = any(one.options[:1] == ("performer",) for n, one in found.columns.items() if n not in days)
    for number in days:
        is_first = (
            number == days[0] and not names and set(found.columns[number].key.split()) & listed_words("first_night")
        )
        name, because = (
            ("performer", "the first performance") if is_first else ("cast", "headed by a day, with names beside roles")
        )
        found.decide(found.columns[number], name, because)
    for number, column in found.columns.items():
        if number in days:
            continue
        if number in given:
            found.decide(column, given[number], "answered")
        elif _is_personal(column):
            found.decide(column, "personal", "about a person: left out, and printed nowhere")


def _list_options(heading: GridCell | None) -> tuple[str, ...]:
    if heading is None:
        return ()
    return mean_near(heading.text).fields or (mean_base(heading.text).fields if find_rank(heading.text) else ())


def _find_answer(column: ListColumn, table: SheetTable, ledger: Ledger) -> str:
    """The field that an answer gives to a column, by its heading or by its letter."""
    keys = (column.key, format_column(column.number))
    answers = [ledger.find_answer("column", key, table.grid.title) for key in keys]
    return next((answer for answer in answers if answer in (*fields(), "ignore", SCENE)), "")


def _is_personal(column: ListColumn) -> bool:
    is_named = column.options[:1] == ("personal",)
    are_addresses = column.texts and all(text.replace(".", "").replace("/", "").isdigit() for text in column.texts)
    is_other = bool({"frequency", "serial", "channel", "receiver"} & set(column.options))
    if not column.options and column.heading and are_about_health(column.texts):
        return True
    return (is_named and not (are_addresses and "." in column.texts[0])) or (
        not is_other and are_personal(column.texts)
    )


def _take_known(found: TableColumns) -> None:
    """The columns that say by their headings what they are. Those that leave no choice come first, the second of a pair last."""
    open_columns = [column for number, column in found.columns.items() if number not in found.taken]
    for column in sorted(open_columns, key=_order_of):
        free = [name for name in column.options if name in REPEATABLE or not found.has(name)]
        if free and _contradicts(column, free):
            continue
        if column.is_second and (name := _find_second(column, found)):
            _ask_second(found, column, name)
        elif free and is_misspelled(column) and len(alike := list_best(free, column.texts)) > 1:
            ask_slip(found, column, {name: OFFERED.get(name, name) for name in alike})
        elif free and not _may_be_number(column, choose_field(free, column.texts), found):
            because = "its heading" if len(free) == 1 else "its heading and its values"
            found.decide(column, choose_field(free, column.texts), because)
        elif column.options:
            ask_twin(found, column)


def _contradicts(column: ListColumn, free: Sequence[str]) -> bool:
    """Whether a heading that is spelled loosely, as `Pack colour tape`, speaks of what its values are not."""
    if column.heading is None or mean(column.heading.text).is_exact or not column.texts:
        return False
    return set(free) <= {"pack", "channel"} and not any(fit(name, column.texts) > 0 for name in free)


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
    is_other = column.options[:1] == ("backup",) and fit("frequency", column.texts) <= 0
    if {"frequency", "backup"} & set(column.options) and found.has("frequency") and not is_other:
        return "" if found.has("frequency2") else "frequency2"
    is_number = {"channel", "pack"} & set(column.options) or (is_other and fit("pack", column.texts) > 0)
    is_number = is_number and found.has("channel", "pack")
    return "second" if is_number and not found.has("second") else ""


def _ask_second(found: TableColumns, column: ListColumn, name: str) -> None:
    """What the second of a pair is: a pack more, a spare, or a remark. Asked once for a table."""
    numbers = [c for c in found.columns.values() if {"channel", "pack"} & set(c.options)]
    is_pair = any(c.is_second for c in numbers) or any(read_pair(text) for c in numbers for text in c.texts[:3])
    likeliest = "second" if is_pair else "backup" if name == "frequency2" else "notes"
    is_alone = column.heading is not None and fold_word(column.heading.text) == "backup"  # it may be a pack
    is_said = likeliest == "backup" and column.options[:1] == ("backup",) and not is_alone
    answer = ask_second(found.table, column.place, column.title, column.texts, likeliest, found.ledger, is_said=is_said)
    found.taken[column.number] = name if answer in ("second", "spare") else answer


def ask_second(
    table: SheetTable,
    place: Place,
    subject: str,
    samples: Sequence[str],
    likeliest: str,
    ledger: Ledger,
    *,
    is_said: bool = False,
) -> str:
    """What the second of each pair of a table is: `likeliest` until it is answered, or the heading `is_said` to tell."""
    about = table.grid.title or "the table"
    question = f"{subject} holds the second of a pair: {quote(', '.join(samples[:4]))}"
    offered = {"backup": BACKUP, **_SECOND} if likeliest == "backup" else _SECOND
    doubt: Doubt = "sure" if is_said else "likely"
    because = "its heading" if is_said else "the second of a pair"
    made = Decision("second", about, place, subject, likeliest, because, offered, doubt, samples[:3])
    return ledger.decide(made, question)


def read_pair(text: str) -> tuple[str, str] | None:
    """The two numbers of a cell that names a pack and its second, `A1/A2`; None for any other."""
    one, sign, two = (part.strip() for part in text.replace("+", "/").replace("&", "/").partition("/"))
    both = [read_id(part) for part in (one, two)]
    is_pair = bool(sign) and all(part.digits and part.prefix for part in both) and both[0].prefix == both[1].prefix
    return (one, two) if is_pair else None


def _guess(found: TableColumns, column: ListColumn) -> None:
    """A column that no heading explains: by its values where they leave no doubt, asked where a name or a number is missing,
    else kept in the notes."""
    is_list = found.has("channel", "pack", "frequency", "performer", "role")
    looks = _find_looks(found, column)
    names = column.heading is not None and not found.has("performer") and are_names(column.texts)
    if column.heading is None and looks == "channel" and _is_first_count(found, column):
        found.decide(column, "channel", "it counts the rows")
    elif column.heading and not found.has("capsule") and found.has("channel") and all(map(is_capsule, column.texts)):
        found.decide(column, "capsule", "its values are capsules")
    elif column.heading and _may_be_roles(found, column.texts):
        choices = {"role": OFFERED["role"], "notes": NOTES, "ignore": IGNORE}
        answer = found.ask(column, column.key, "it may be the role", _word_unknown(column), choices, value="notes")
        found.taken[column.number] = answer
    elif looks or names or not found.has(*_NAMES):
        first = ["performer", "role", "understudy"] if names else [looks] if looks else []
        choices = {name: OFFERED[name] for name in dict.fromkeys((*first, *OFFERED))}
        answer = found.ask(column, column.key, "its heading is not known", _word_unknown(column), choices)
        found.taken[column.number] = answer or "open"
    else:
        found.decide(column, "notes" if is_list else "", "its heading is not known")


def _find_looks(found: TableColumns, column: ListColumn) -> str:
    """The field that the table has not and that the values of a column look like: a frequency, or the number of a channel."""
    looks = next((n for n in ("frequency", "channel") if not found.has(n) and fit(n, column.texts) >= _MOSTLY), "")
    is_plot = found.has("scenes") and found.has("role", "performer")
    return "" if looks == "channel" and is_plot else looks


def _is_first_count(found: TableColumns, column: ListColumn) -> bool:
    return column.number == found.table.columns[0] and len(set(column.texts)) == len(column.texts)


def _may_be_roles(found: TableColumns, texts: Sequence[str]) -> bool:
    """Whether names in capitals beside those of the performers may be their roles."""
    return found.has("performer") and not found.has("role") and are_names(texts) and are_shouted(texts)


def _word_unknown(column: ListColumn) -> str:
    title = f"is headed {quote(column.heading.text)}" if column.heading else "has no heading"
    return f"column {format_column(column.number)} {title} and holds {column.sample}"
