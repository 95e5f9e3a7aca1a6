"""Rows of a channel list as entries: which channel each row is about, and what to do where one is named twice."""

from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.files.grid import GridCell
from paperwork.finding import find
from paperwork.intake.cells import Cells, ask_date
from paperwork.intake.columns import Columns
from paperwork.intake.ids import Numbered, Style, find_style, is_plain_prefix, key_of, print_id, read_id
from paperwork.intake.ledger import Ledger, Use, quote
from paperwork.intake.names import is_blank, is_spare, key_of_name
from paperwork.intake.questions import Choice, Question
from paperwork.intake.rows import DataRow
from paperwork.vocabulary import fold_word, is_nobody, listed_words

SHARED = "shared"
PAIR = "pair"


@dataclass(slots=True)
class Entry:
    """One row about one channel. `id` is the number as it will be printed; `joins` the entry whose pack it shares."""

    row: DataRow
    cell: GridCell
    parts: Numbered
    id: str = ""
    joins: "Entry | None" = None
    doubles: str = ""
    kind: str = ""


def list_entries(rows: Sequence[DataRow], columns: Columns, cells: Cells, ledger: Ledger) -> list[Entry]:
    """An entry for every row that names a channel, in their order; rows that name none are asked about or left."""
    column = columns.of("channel")
    found: list[Entry] = []
    nameless: list[list[GridCell]] = []
    for number, row in enumerate(rows, 1):
        cell = row.cells.get(column) if column is not None else None
        if cell is None or cell.struck == "whole" or (is_blank(cell.text) and cell.kind != "failed"):
            told = _ask_key(row, columns, number, cell, column is None, nameless, ledger)
            if told:
                anchor = cell or min(row.cells.values(), key=lambda c: c.column)
                found.append(Entry(row, anchor, read_id(told)))
            continue
        text = cells.text(cell)
        text = ask_date(cell, ledger, "channel") if cell.kind == "date" else text
        if text:
            found.append(Entry(row, cell, read_id(text)))
    _leave_nameless(nameless, columns, ledger)
    return found


def _ask_key(
    row: DataRow,
    columns: Columns,
    number: int,
    cell: GridCell | None,
    is_whole: bool,
    nameless: list[list[GridCell]],
    ledger: Ledger,
) -> str:
    """The number of a row that has none; a row that has no frequency either goes to `nameless`. Of a whole table without
    numbers it is asked once."""
    own = [c for c in row.cells.values() if c.row == row.number]
    anchor = cell or min(row.cells.values(), key=lambda c: c.column)
    if is_whole:
        answer = ledger.ask(
            Question(
                kind="key",
                about="channel numbers",
                place=anchor.place,
                typed="",
                text="no column of this table numbers the channels, and frequencies need one",
                choices=(Choice("count", "number the rows in their order: 1, 2, 3"),),
            )
        )
        return str(number) if answer == "count" else _set_aside(own, "asked", ledger)
    telling = [
        c for c in own if columns.fields.get(c.column) in ("performer", "role", "frequency") and not is_blank(c.text)
    ]
    if cell is not None and cell.struck == "whole":
        answer = ledger.ask(_ask_struck(cell, telling))
        if answer == "keep":
            return cell.text
    elif any(columns.fields[c.column] == "frequency" for c in telling):
        answer = ledger.ask(_ask_number(anchor, telling))
    else:
        nameless.append(own)
        return ""
    return _set_aside(own, "cut" if answer else "asked", ledger) if answer in ("", "cut") else answer


def _ask_struck(cell: GridCell, telling: list[GridCell]) -> Question:
    return Question(
        kind="struck",
        about=f"{cell.text}: {' '.join(c.text for c in telling)}",
        place=cell.place,
        text=f"the number {quote(cell.text)} is struck through: the channel is cut, or it has another number?",
        choices=(Choice("cut", "the channel is cut: leave the row out"), Choice("keep", f"{cell.text} still holds")),
        typed="text",
    )


def _ask_number(anchor: GridCell, telling: list[GridCell]) -> Question:
    about = " ".join(c.text for c in sorted(telling, key=lambda c: c.column))
    return Question(
        kind="key",
        about=about,
        place=anchor.place,
        typed="text",
        text=f"the row of {quote(about)} has no channel number",
        choices=(Choice("cut", "leave the row out"),),
    )


def _leave_nameless(rows: list[list[GridCell]], columns: Columns, ledger: Ledger) -> None:
    """Rows without number and frequency are left out: the names in them are listed first, and all of them."""
    names = [
        c for own in rows for c in own if columns.fields.get(c.column) in ("performer", "role") and not is_blank(c.text)
    ]
    what = "rows without a channel number"
    ledger.leave(names, what)
    ledger.leave([cell for own in rows for cell in own], what)
    if names:
        ledger.told.append(f"no channel number stands beside {', '.join(dict.fromkeys(cell.text for cell in names))}")


def _set_aside(cells: list[GridCell], use: Use, ledger: Ledger) -> str:
    """No number: the row waits for its answer, or was told to go."""
    ledger.enter(cells, use)
    return ""


def settle_ids(entries: list[Entry], ledger: Ledger) -> None:
    """Give every entry its number in the one printed style, the majority's; mixed styles are asked about once."""
    style = find_style([entry.parts for entry in entries])
    if style.is_mixed and len({key_of(entry.parts.text) for entry in entries}) > 1:
        style = _ask_style(entries, style, ledger)
    for entry in entries:
        entry.id = print_id(entry.parts, style)


def _ask_style(entries: list[Entry], style: Style, ledger: Ledger) -> Style:
    plain = [e for e in entries if e.parts.digits and is_plain_prefix(e.parts.prefix)]
    width = max((len(e.parts.digits.lstrip("0") or "0") for e in plain), default=1)
    styles = {"plain": style._replace(width=1), "padded": style._replace(width=max(2, width))}
    shown = {name: ", ".join(print_id(e.parts, s) for e in plain[:3]) for name, s in styles.items()}
    written = dict.fromkeys(e.parts.text for e in plain)
    answer = ledger.ask(
        Question(
            kind="channel-style",
            about="channel numbers",
            place=plain[0].cell.place,
            default="plain" if style.width == 1 else "padded",
            text=f"channel numbers are written in several ways: {', '.join(list(written)[:8])}",
            choices=tuple(Choice(name, f"as {words_}") for name, words_ in shown.items()),
        )
    )
    return styles.get(answer, style)


def settle_twins(entries: list[Entry], columns: Columns, ledger: Ledger) -> list[Entry]:
    """The entries with channels that stand in several rows settled: one row read once, shared, paired or asked.

    An in-ear and a microphone may carry one number: each kind counts for itself.
    """
    first: dict[tuple[str, str], Entry] = {}
    kept: list[Entry] = []
    for entry in entries:
        other = first.setdefault((entry.kind, key_of(entry.id)), entry)
        if other is entry:
            kept.append(entry)
        elif _values(other, columns) == _values(entry, columns):
            own = [c for c in entry.row.cells.values() if c.row == entry.row.number]
            for cell in own:
                ledger.uses[cell.place] = "repeat"
            ledger.findings.append(
                find("row-twice", entry.cell.place, others=(other.cell.place,), first=other.row.number)
            )
        else:
            kept += _settle_twin(other, entry, columns, ledger)
    return kept


def _settle_twin(first: Entry, second: Entry, columns: Columns, ledger: Ledger) -> list[Entry]:
    who = [_said(entry, columns, "performer") or _said(entry, columns, "role") for entry in (first, second)]
    same_person = who[0] and key_of_name(who[0]) == key_of_name(who[1])
    mhz = [_said(entry, columns, "frequency") for entry in (first, second)]
    ranges = [_said(entry, columns, "scenes") for entry in (first, second)]
    if not same_person and all(ranges) and (mhz[0] == mhz[1] or not all(mhz)):
        second.joins = first
        return [second]
    pair = Choice(PAIR, f"two packs: {first.id} and {first.id}B")
    share = Choice(SHARED, f"one pack that {who[0] or 'one'} hands to {who[1] or 'another'}")
    choices: tuple[Choice, ...] = (
        pair,
        Choice("first", f"the first row, {_sketch(first, columns)}"),
        Choice("second", f"the second row, {_sketch(second, columns)}"),
    )
    if not same_person and (mhz[0] == mhz[1] or not all(mhz)):
        choices = (share, *choices)
    about = f"{first.id}: {_sketch(first, columns)} | {_sketch(second, columns)}"
    answer = ledger.ask(
        Question(
            kind="channel-twice",
            about=about,
            place=second.cell.place,
            others=(first.cell.place,),
            choices=choices,
            text=f"channel {first.id} stands in rows {first.row.number} and {second.row.number}: {_sketch(first, columns)}, and {_sketch(second, columns)}",
        )
    )
    if answer == SHARED:
        second.joins = first
    elif answer == PAIR:
        second.id, second.doubles = f"{first.id}B", first.id if same_person else ""
    elif answer == "second":
        first.row, second.row = second.row, first.row
        first.cell = second.cell
    if answer in (SHARED, PAIR):
        return [second]
    ledger.enter([cell for cell in second.row.cells.values() if cell.row == second.row.number], "repeat")
    return []


def pair_up(entries: Sequence[Entry], columns: Columns) -> None:
    """`05B` beside `05`, or `12B` beside `12A`, on one person is that person's second pack."""
    by_key = {key_of(entry.id): entry for entry in entries if not entry.kind}
    for entry in entries:
        suffix = entry.parts.suffix.upper()
        if suffix not in ("B", "C") or entry.doubles:
            continue
        stem = key_of(entry.id)[:-1]
        main = by_key.get(stem) or by_key.get(stem + "a")
        who = _said(entry, columns, "performer")
        if main and (not who or key_of_name(who) == key_of_name(_said(main, columns, "performer"))):
            entry.doubles = main.id


def find_kind(entry: Entry, columns: Columns, title: str) -> str:
    """`in-ear`, `intercom`, or "" for a microphone: by the number's prefix, the section above, or the table's title."""
    told = [entry.parts.prefix or entry.parts.text, entry.row.section, title]
    for text in told:
        parts = fold_word(text.replace(".", ""))
        heads = {parts, *parts.split()[:1], " ".join(parts.split()[:2])}
        if heads & listed_words("in_ear"):
            return "in-ear"
        if heads & listed_words("intercom"):
            return "intercom"
    return ""


def is_spare_row(entry: Entry, columns: Columns) -> bool:
    """Whether a row is a spare: by its name, its role, its number or the section above."""
    texts = [_said(entry, columns, name) for name in ("performer", "role")]
    if entry.parts.spare or any(is_spare(text) for text in texts if text):
        return True
    return is_spare(entry.row.section) and not any(text and not is_blank(text) for text in texts)


def _said(entry: Entry, columns: Columns, name: str) -> str:
    column = columns.of(name)
    cell = entry.row.cells.get(column) if column is not None else None
    is_open = cell is None or is_blank(cell.text) or (name == "performer" and is_nobody(cell.text))
    return "" if is_open else cell.text  # type: ignore[union-attr]


def _values(entry: Entry, columns: Columns) -> dict[int, str]:
    return {c: cell.text or cell.formula for c, cell in entry.row.cells.items() if columns.fields.get(c) != "ignore"}


def _sketch(entry: Entry, columns: Columns) -> str:
    told = [_said(entry, columns, name) for name in ("performer", "role", "frequency")]
    return quote(" ".join(filter(None, told)))
