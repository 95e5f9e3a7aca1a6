"""A coordinator's table: which row got which frequency, under our headings or the coordinator's own."""

from collections.abc import Collection, Mapping

from paperwork.files.grid import Book, Grid, GridCell
from paperwork.frozen import frozen
from paperwork.intake.cells.rows import SheetRow, group_rows
from paperwork.place import Place
from paperwork.text.headings import fold_heading, mean
from paperwork.text.names import id_key
from paperwork.text.units import Doubt, parse_frequency
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words
from paperwork.text.words import LANGUAGES, words_of

_OURS = {"row": "request head row", "asked": "request head asked", "granted": "request head granted"}
"""The headings of our own request, by what they head."""


@frozen
class ReplyRow:
    """One row of the table. `granted_hz` is None where nothing is granted: refused, or not answered yet.

    `says_yes` is on where the frequency is granted as it was asked, and not written again.
    """

    name: str
    place: Place
    asked_hz: int | None = None
    granted_hz: int | None = None
    refused: bool = False
    says_yes: bool = False


@frozen
class ReplyTable:
    """What was read: rows with a name, how the columns were read, and what nobody can read."""

    rows: tuple[ReplyRow, ...]
    lines: tuple[str, ...]
    faults: tuple[str, ...]


@frozen
class _Table:
    """Headings, the column of each thing that is known, and the rows below."""

    heads: SheetRow
    columns: dict[str, int]
    rows: tuple[SheetRow, ...]


def read_reply(book: Book, names: Collection[str]) -> ReplyTable:
    """The rows of every visible table that names rows and holds an answer. `names` are those that were asked for."""
    keys = frozenset(map(id_key, names))
    rows: list[ReplyRow] = []
    lines: list[str] = []
    faults = [f"{one.place}: {one.text}" for one in book.findings if one.severity == "error"]
    for grid in book.grids:
        table = None if grid.is_hidden else _find_table(grid)
        named = _find_names(table, keys, faults) if table else 0
        if table and named:
            table.columns["row"] = named
            lines.append(_describe(table))
            for cells in table.rows:
                _read_row(cells, table.columns, rows, faults)
    if not lines and not faults:
        wanted = "a column that names the rows, as Row, and one with the answer, as Granted"
        faults.append(f"{book.name}: there is no table with {wanted}")
    return ReplyTable(tuple(rows), tuple(lines), tuple(faults))


def _find_table(grid: Grid) -> _Table | None:
    """The table below the first row that heads an answer; a letter above it, and headings said again, are no rows."""
    rows = list(group_rows(grid).values())
    for index, heads in enumerate(rows):
        columns = _find_columns(heads) if len(heads) > 1 else {}
        if columns.keys() & {"granted", "state"}:
            texts = {number: cell.text for number, cell in heads.items()}
            below = (row for row in rows[index + 1 :] if {number: cell.text for number, cell in row.items()} != texts)
            return _Table(heads, columns, tuple(below))
    return None


def _find_columns(row: SheetRow) -> dict[str, int]:
    """The column of each thing but the names. Our own headings go first; a lone frequency is what was granted."""
    heads = {number: fold_heading(cell.text) for number, cell in row.items()}
    found: dict[str, int] = {}
    for kind in ("granted", "asked", "state"):
        ours = {fold_heading(words_of(language)[_OURS[kind]]) for language in LANGUAGES if kind in _OURS}
        for known in (ours, listed_words(f"reply_{kind}")):
            free = [number for number, text in heads.items() if text in known and number not in found.values()]
            if kind not in found and free:
                found[kind] = free[0]
    if "granted" not in found:
        lone = [number for number, text in heads.items() if mean(text).fields[:1] == ("frequency",)]
        found |= {"granted": lone[0]} if len(lone) == 1 and lone[0] not in found.values() else {}
    return found


def _find_names(table: _Table, keys: frozenset[str], faults: list[str]) -> int:
    """The column whose cells name most of the rows that were asked for; 0 if none does.

    A coordinator may count the rows anew: where two columns name as many and disagree, somebody has to say which.
    """
    ours = {fold_heading(words_of(language)[_OURS["row"]]) for language in LANGUAGES}
    named: dict[int, list[str]] = {}
    for number, head in table.heads.items():
        if number not in table.columns.values():
            held = [id_key(row[number].text) if number in row else "" for row in table.rows]
            named[number] = [key if key in keys else "" for key in held]
            if fold_heading(head.text) in ours and any(named[number]):
                return number
    most = max((sum(map(bool, held)) for held in named.values()), default=0)
    best = [number for number, held in named.items() if most and sum(map(bool, held)) == most]
    other = next((number for number in best if named[number] != named[best[0]]), 0)
    if other:
        first, second = table.heads[best[0]], table.heads[other]
        faults.append(f"{first.place}: {first.text} and {second.text} both could name the rows: head the right one Row")
        return 0
    return best[0] if best else 0


def _describe(table: _Table) -> str:
    kinds = sorted(table.columns.items(), key=lambda one: one[1])
    read = ", ".join(f'"{table.heads[number].text}" is {_MEANS[kind]}' for kind, number in kinds)
    return f"{next(iter(table.heads.values())).place}: {read}"


_MEANS = {
    "row": "the name of the row",
    "asked": "what was asked",
    "granted": "what is granted",
    "state": "the decision",
}


def _read_row(
    cells: Mapping[int, GridCell], columns: Mapping[str, int], rows: list[ReplyRow], faults: list[str]
) -> None:
    found = {kind: cells[number] for kind, number in columns.items() if number in cells}
    texts = {kind: (cell.kept if cell.struck else cell.text).strip() for kind, cell in found.items()}
    if not texts.get("row") or len(cells) == 1:
        return
    granted, state = texts.get("granted", ""), fold_word(texts.get("state", ""))
    refused = fold_word(granted) in listed_words("reply_no") or state in listed_words("reply_no")
    says_yes = fold_word(granted) in listed_words("reply_yes") or (not granted and state in listed_words("reply_yes"))
    try:
        asked_hz = _read_hz(texts.get("asked", ""))
    except Doubt:
        asked_hz = None  # only compared: what is granted is what counts
    granted_hz = None
    if not refused and not says_yes:
        try:
            granted_hz = _read_hz(granted)
        except Doubt as doubt:
            faults.append(f"{found['granted'].place}: {doubt}; for a refusal write no")
            return
    rows.append(ReplyRow(texts["row"], found["row"].place, asked_hz, granted_hz, refused, says_yes))


def _read_hz(text: str) -> int | None:
    return None if not text or is_nobody(text) else parse_frequency(text)
