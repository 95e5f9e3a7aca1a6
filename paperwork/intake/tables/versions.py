"""Several tables with the same list: which one counts, and in what they differ."""

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from paperwork import limits
from paperwork.files.grid import Grid
from paperwork.frozen import frozen
from paperwork.intake.ledger import Ledger, count_more
from paperwork.intake.questions import Choice, Question
from paperwork.intake.reading import Decision, Doubt, quote
from paperwork.intake.tables.column import Columns
from paperwork.intake.tables.columns import assign_columns
from paperwork.intake.tables.find import SheetTable, find_tables
from paperwork.intake.tables.rows import DataRow, fill_below, sort_rows
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.ids import key_of
from paperwork.place import Place
from paperwork.text.vocabulary import fold_word, listed_words

LEAVE = "leave"
"""The answer that leaves a whole sheet out."""

PARTS = "parts"
"""The answer that keeps all sheets of one list."""

_PARTS = "all of them: each is a part of the show, and the mics are handed on from one to the next"

TOWNS = "towns"
"""The answer that makes a venue of each sheet of one list."""

_TOWNS = "all of them: each is another house, with frequencies of its own"

_COMPARED = ("performer", "role", "frequency", "pack", "capsule")
_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@frozen
class SortedTable:
    """One table with its columns and rows, before anything is made of it. `scene_rows` are about the scenes over them."""

    table: SheetTable
    columns: Columns
    rows: tuple[DataRow, ...]
    scene_rows: tuple[DataRow, ...] = ()

    @property
    def grid(self) -> Grid:
        """Its sheet."""
        return self.table.grid

    @property
    def title(self) -> str:
        """What to call it: the name of its sheet."""
        return self.grid.title or "the table"

    @property
    def key(self) -> str:
        """What an answer calls it among several tables of its sheet: the sheet and its headings."""
        heads = sorted(self.table.heads, key=lambda cell: (cell.row, cell.column))
        words = " ".join(", ".join(cell.text for cell in heads).split())[:60]
        return f"{self.grid.title}: {words}" if self.grid.title else words

    @property
    def place(self) -> Place:
        """Where its headings begin."""
        return min(cell.place for cell in self.table.heads)


def sort_tables(grid: Grid, ledger: Ledger) -> list[SortedTable]:
    """The tables of a sheet with their columns and rows; none if there are more than the limit, or of more rows."""
    found = []
    tables = find_tables(grid)
    if len(tables) > limits.TABLES:
        what = f"there seem to be more than {limits.TABLES} tables"
        ledger.report("sheet-large", tables[-1].heads[0].place, what=what)
        return []
    for table in tables:
        if len(table.rows) > limits.RECORDS:
            what = f"a table holds more than {limits.RECORDS:,} rows"
            ledger.report("sheet-large", table.heads[0].place, what=what)
            continue
        columns = assign_columns(table, ledger)
        _leave_personal(table, columns, ledger)
        rows = sort_rows(table, columns, ledger)
        about = tuple(row for row in rows if row.about)
        found.append(
            SortedTable(table, columns, tuple(fill_below([row for row in rows if not row.about], columns)), about)
        )
    return found


def _leave_personal(table: SheetTable, columns: Columns, ledger: Ledger) -> None:
    """Columns of data about people are left out before anything else is made of their cells."""
    for column in (column for column, name in columns.fields.items() if name == "personal"):
        heading = table.headings[column]
        ledger.leave_personal(quote(heading.text) if heading else "no heading", table.list_own(column), heading)


def choose_versions(tables: Sequence[SortedTable], hidden: Sequence[str], ledger: Ledger) -> list[SortedTable]:
    """The tables without those that another one replaces. Where nothing says which, it is asked."""
    groups: list[list[SortedTable]] = []
    for table in tables:
        if not table.columns.has("channel") or ledger.find_answer("sheet", table.grid.title) == "use":
            continue
        home = next((group for group in groups if all(_is_version(other, table) for other in group)), None)
        if home:
            home.append(table)
        else:
            groups.append([table])
    dropped: set[int] = set()
    joined: dict[int, SortedTable] = {}
    for group in groups:
        kept = _choose(group, hidden, ledger) if len(group) > 1 else group[0]
        if ledger.find_taken("sheet", _name_group(group)) == TOWNS:
            joined[id(group[0])] = _join_towns(group, ledger)
            dropped |= {id(table) for table in group[1:]}
            continue
        for table in group:
            if table is not kept and table.grid.title not in ledger.parts:
                dropped.add(id(table))
                ledger.enter(table.table.all_cells, "repeat")
                ledger.dissolve(table.table.all_cells)
                if all(other is table or other.grid.title != table.grid.title for other in tables):
                    _decide_sheet(table.grid.title, table.place, LEAVE, f"a version of {kept.title}", ledger)
    return [joined.get(id(table), table) for table in tables if id(table) not in dropped]


def _join_towns(group: Sequence[SortedTable], ledger: Ledger) -> SortedTable:
    """The first table with a column for the frequencies of each other one, headed by the name of its sheet. What else another
    one says that the first does not is left, and named."""
    first, *others = group
    headings, fields = dict(first.table.headings), dict(first.columns.fields)
    rows = {key_of(cell.text): dict(row.cells) for row in first.rows if (cell := row.cell("channel"))}
    home = first.columns.of("frequency")
    if home is not None and (head := headings[home]):
        headings[home] = replace(head, text=f"MHz {first.title}")
    for table in others:
        column = max(headings) + 1
        at = table.columns.of("frequency")
        head = table.table.headings[at] if at is not None else None
        headings[column], fields[column] = head and replace(head, text=f"MHz {table.title}"), "venue"
        ledger.enter((*table.table.heads, *table.table.repeats), "repeat")
        for row in table.rows:
            number = row.cell("channel")
            own = rows.get(key_of(number.text) if number else "", {})
            said = {fold_word(cell.text) for cell in own.values()}
            if own and at in row.cells:
                own[column] = row.cells[at]
            ledger.enter((c for c in row.own if own and c.column != at and fold_word(c.text) in said), "repeat")
            ledger.leave(
                (c for c in row.own if not own or c.column != at), f"{table.title} says it, and {first.title} does not"
            )
        _decide_sheet(table.grid.title, table.place, "use", f"the frequencies in {table.title}", ledger)
    columns = replace(first.columns, fields=fields)
    made = tuple(
        replace(row, columns=columns, cells=rows[key_of(cell.text)] if (cell := row.cell("channel")) else row.cells)
        for row in first.rows
    )
    return replace(first, table=replace(first.table, headings=headings), columns=columns, rows=made)


def leave_sheets(grids: Sequence[Grid], ledger: Ledger) -> None:
    """Leave out the sheets of which an answer says so."""
    for grid in grids:
        ledger.enter(grid.cells.values(), "left")
        _decide_sheet(grid.title, Place(ledger.name, 1, 1, grid.title), LEAVE, "answered", ledger)


def leave_old(tables: Sequence[SortedTable], ledger: Ledger) -> list[SortedTable]:
    """The tables without those of sheets whose names say that they are old, where another sheet has a table of that kind."""
    kept: list[SortedTable] = []
    old = {table.grid.title for table in tables if _rank(table.title)[0] < 0}
    for table in tables:
        others = [one for one in tables if one.grid.title not in old and _is_kind(one, table)]
        if table.grid.title not in old or not others:
            kept.append(table)
            continue
        answer = _decide_sheet(
            table.grid.title, table.place, LEAVE, "its name says that it is old", ledger, doubt="likely"
        )
        if answer == LEAVE:
            ledger.enter(table.table.all_cells, "left")
        else:
            kept.append(table)
    for title, place in {table.grid.title: table.place for table in kept}.items():
        if title not in old:
            _decide_sheet(title, place, "use", "it holds tables", ledger)
    return kept


def _is_kind(one: SortedTable, other: SortedTable) -> bool:
    """Whether two tables say the same kind of thing: grids, or lists of channels."""
    return bool(one.columns.scenes) == bool(other.columns.scenes) or all(t.columns.has("channel") for t in (one, other))


def _decide_sheet(title: str, place: Place, value: str, because: str, ledger: Ledger, doubt: Doubt = "sure") -> str:
    subject = f"sheet {title or 'of the file'}"
    choices = {LEAVE: "leave the whole sheet out", "use": "use it beside the others"}
    question = f"sheet {quote(title)} has a table that another sheet has too, and its name says that it is old"
    return ledger.decide(Decision("sheet", title, place, subject, value, because, choices, doubt), question)


def _is_version(one: SortedTable, other: SortedTable) -> bool:
    """Whether two tables are one list: the same fields of mostly the same channels."""
    if one.grid.title == other.grid.title and one.grid.title:
        return False
    first, second = ({name for name in _COMPARED if table.columns.has(name)} for table in (one, other))
    if len(first & second) * 2 <= max(len(first), len(second)) or ("frequency" in first) != ("frequency" in second):
        return False
    keys, others = set(_facts_of(one)), set(_facts_of(other))
    return len(keys & others) * 2 > min(len(keys), len(others)) > 0


def _facts_of(table: SortedTable) -> dict[str, tuple[str, ...]]:
    """What a table says of each channel, in a form in which spellings of one fact are equal."""
    keys = [(row.cell("channel"), row) for row in table.rows]
    return {key_of(cell.text): tuple(_fact(row, name) for name in _COMPARED) for cell, row in keys if cell}


def _fact(row: DataRow, name: str) -> str:
    cell = row.cell(name)
    if cell is None:
        return ""
    if name == "frequency" and (mhz := read_frequency(cell.text).mhz):
        return str(Decimal(mhz.replace(",", ".")).normalize())
    return key_of(cell.text) if name == "pack" else fold_word(cell.text)


def _list_changes(old: SortedTable, new: SortedTable) -> tuple[str, ...]:
    """What differs from one table to another, channel by channel, in plain words."""
    before, after = _facts_of(old), _facts_of(new)
    changes = [f"{key} is new" for key in after if key not in before]
    changes += [f"{key} is gone" for key in before if key not in after]
    for key in after.keys() & before.keys():
        differing = [n for n, a, b in zip(_COMPARED, before[key], after[key], strict=True) if a != b]
        if differing:
            changes.append(f"{key} has another {' and '.join(differing)}")
    return tuple(sorted(changes))


def _choose(group: Sequence[SortedTable], hidden: Sequence[str], ledger: Ledger) -> SortedTable:
    """The newest table by its title, with what has changed in it; asked where several may be."""
    ordered = sorted(group, key=lambda table: _rank(table.title), reverse=True)
    tops = [table for table in ordered if _rank(table.title) == _rank(ordered[0].title)]
    first = tops[0]
    if len(tops) == 1:
        changes = _list_changes(ordered[1], first)
        words = f"{len(changes)} change{'s' if len(changes) != 1 else ''} from {ordered[1].title}"
        words += f": {'; '.join(changes[:6])}{count_more(len(changes), 6)}" if changes else ""
        old = ", ".join(table.title for table in ordered[1:])
        others = tuple(table.place for table in ordered[1:])
        ledger.report("list-revised", first.place, others=others, new=first.title, changes=words, old=old)
        return first
    unseen = f"; hidden, and not looked at: {', '.join(hidden)}" if hidden else ""
    differing = {change.partition(" has another ")[2] for table in tops[1:] for change in _list_changes(first, table)}
    are_towns = differing == {"frequency"} and len(tops) == len(group)
    answer = ledger.put(
        Question(
            kind="sheet",
            about=_name_group(tops),
            text=f"{len(tops)} sheets hold the same list{unseen}",
            choices=(
                *(Choice(table.title, _describe(table, first)) for table in tops),
                *([Choice(TOWNS, _TOWNS)] if are_towns else []),
                Choice(PARTS, _PARTS),
            ),
            place=first.place,
            others=tuple(table.place for table in tops[1:]),
        )
    )
    ledger.parts |= {table.title for table in tops if answer == PARTS}
    return next((table for table in tops if table.title == answer), first)


def _name_group(tables: Sequence[SortedTable]) -> str:
    """What an answer calls several sheets of one list."""
    return " | ".join(sorted(table.title for table in tables))


def _describe(table: SortedTable, first: SortedTable) -> str:
    words = f"{table.title}, {len(table.rows)} rows"
    if table is first:
        return words
    changes = _list_changes(first, table)
    return f"{words}, {len(changes)} different from {first.title}" + (f" ({'; '.join(changes[:3])})" if changes else "")


def _rank(title: str) -> tuple[int, str]:
    """How new a title says its sheet is: words for old and new, and a date."""
    parts = set(fold_word(title).split())
    age = -1 if parts & listed_words("older") else int(bool(parts & listed_words("newer")))
    return age, max(_ISO.findall(title), default="")
