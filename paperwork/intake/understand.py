"""A foreign book to what a show file says: tables found, rows read, every cell accounted for."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from paperwork import limits
from paperwork.files.grid import Book, Grid, GridCell
from paperwork.finding import Finding, find
from paperwork.intake.breakdown import is_breakdown, read_breakdown, read_rooms
from paperwork.intake.cells import Cells
from paperwork.intake.channels import read_channels
from paperwork.intake.columns import assign_columns
from paperwork.intake.draft import Draft
from paperwork.intake.facts import read_facts
from paperwork.intake.finish import finish
from paperwork.intake.ledger import Answers, Ledger, count_more, quote
from paperwork.intake.namesakes import settle_people
from paperwork.intake.plot import read_plot
from paperwork.intake.questions import Question
from paperwork.intake.rows import sort_rows
from paperwork.intake.tables import Table, find_tables
from paperwork.intake.turn import turn_grid
from paperwork.intake.versions import Listing, choose_versions
from paperwork.place import Place, format_column
from paperwork.raw import Map
from paperwork.vocabulary import fold_word


@dataclass(frozen=True, slots=True)
class Understanding:
    """What came of a foreign file: the show as far as it is understood, findings, and the questions still open.

    `told` says in plain lines what was read as what. `account` counts the cells by what became of them; its values
    add up to `cells`.
    """

    raw: Map
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    told: tuple[str, ...]
    account: Mapping[str, int]
    cells: int


def understand(book: Book, answers: Answers | None = None) -> Understanding:
    """Everything that the sheets say. Pure: the same book and answers, the same understanding."""
    ledger = Ledger(book.name, answers)
    ledger.findings += book.findings
    draft = Draft(book.name)
    shown = [part for grid in book.grids if not grid.is_hidden for part in turn_grid(grid)]
    _tell_hidden(book, ledger)
    readers = {id(grid): Cells(grid, ledger) for grid in shown}
    listings: list[Listing] = []
    for grid in shown:
        listings += _list_tables(grid, ledger)
    _tell_empty(listings, ledger)
    hidden = [grid.title for grid in book.grids if grid.is_hidden and grid.cells]
    kept = choose_versions(listings, hidden, ledger)
    left = {id(listing.table.grid) for listing in listings} - {id(listing.table.grid) for listing in kept}
    _tell_notes([grid for grid in shown if id(grid) not in left], ledger)
    _read_titles(shown, listings, draft, ledger)
    _read_listings(kept, readers, draft, ledger)
    settle_people(draft, ledger)
    finish(draft)
    for cells in readers.values():
        cells.close()
    ledger.leave_sheets([grid for grid in shown if not any(listing.table.grid is grid for listing in listings)])
    for grid in shown:
        ledger.leave(grid.cells.values(), "outside any table")
    _tell_blank(book, draft, ledger)
    return _close(book, draft, ledger)


def _list_tables(grid: Grid, ledger: Ledger) -> list[Listing]:
    found = []
    tables = find_tables(grid)
    if len(tables) > limits.TABLES:
        what = f"there seem to be more than {limits.TABLES} tables"
        ledger.findings.append(find("sheet-large", tables[-1].heads[0].place, what=what))
        return []
    inside = {cell.place for table in tables for row in table.rows.values() for cell in row.values()}
    for table in tables:
        table.title = _title_above(grid, table, inside)
        if len(table.rows) > limits.RECORDS:
            what = f"a table holds more than {limits.RECORDS:,} rows"
            ledger.findings.append(find("sheet-large", table.heads[0].place, what=what))
            continue
        columns = assign_columns(table, ledger)
        rows = sort_rows(table, columns, ledger)
        found.append(Listing(table, columns, rows))
    return found


def _tell_empty(listings: Sequence[Listing], ledger: Ledger) -> None:
    """Headings below a table with no row of their own: a form for later, or a row that was taken for headings."""
    for listing in listings:
        if listing.table.is_below and not listing.rows:
            heads = sorted(listing.table.heads, key=lambda cell: (cell.row, cell.column))
            ledger.findings.append(find("table-empty", heads[0].place, what=_sketch(heads)))


def _title_above(grid: Grid, table: Table, inside: set[Place]) -> str:
    """The nearest text above a table within its columns, and inside no other; that of its first column before others."""
    low, high = table.columns
    top = min(cell.row for cell in table.heads)
    for row in (top - 1, top - 2):
        for column in range(low, high + 1):
            cell = grid.cells.get((row, column))
            if cell is not None and cell.kind == "text" and cell.place not in inside:
                return cell.text
    return ""


def _read_titles(grids: Sequence[Grid], listings: Sequence[Listing], draft: Draft, ledger: Ledger) -> None:
    """The cells above the first table of each sheet; the first sheet that has a title names the show."""
    for grid in grids:
        tops = [min(c.row for c in listing.table.heads) for listing in listings if listing.table.grid is grid]
        if not tops:
            continue
        above = [cell for (row, _), cell in grid.cells.items() if row < min(tops) and cell.place not in ledger.uses]
        if "show" not in draft.sections:
            read_facts(grid, above, draft, ledger)
        ledger.enter(above, "title")
    for listing in listings:
        table, (low, high) = listing.table, listing.table.columns
        top = min(cell.row for cell in table.heads)
        near = [table.grid.cells.get((row, column)) for row in (top - 1, top - 2) for column in range(low, high + 1)]
        ledger.enter([c for c in near if c is not None and table.title and c.text == table.title], "title")


def _read_listings(listings: Sequence[Listing], readers: Mapping[int, Cells], draft: Draft, ledger: Ledger) -> None:
    """Channel lists first, then grids, which may name channels and roles of the lists."""
    records = {}
    for listing in listings:
        table, cells = listing.table, readers[id(listing.table.grid)]
        ledger.enter([*table.heads], "heading")
        ledger.enter(table.repeats, "repeat")
        told = set(listing.columns.fields.values())
        if "channel" in told or "frequency" in told:
            records[id(listing)] = read_channels(table, listing.columns, listing.rows, cells, draft, ledger)
    for listing in listings:
        cells = readers[id(listing.table.grid)]
        is_read = id(listing) in records or bool(listing.columns.scenes)
        if is_breakdown(listing.columns) and id(listing) not in records:
            read_breakdown(listing.columns, listing.rows, cells, draft, ledger)
        elif listing.columns.of("room") is not None and id(listing) not in records:
            read_rooms(listing.columns, listing.rows, cells, draft)
        elif not is_read:
            _leave_table(listing, ledger)
        if listing.columns.scenes:
            read_plot(listing.table, listing.columns, listing.rows, records.get(id(listing), {}), cells, draft, ledger)
        _leave_columns(listing, ledger)
        _tell(listing, ledger)


def _leave_table(listing: Listing, ledger: Ledger) -> None:
    """A table of which nothing is read, as one of outputs, is one finding and not one for each column."""
    rows = listing.table.rows.items()
    names = ", ".join(heading.text for heading in listing.table.headings.values() if heading)
    cells = [cell for number, row in rows for cell in row.values() if cell.row == number]
    ledger.leave(cells, f"a table of {quote(names)}: not of channels, people or scenes")


def _leave_columns(listing: Listing, ledger: Ledger) -> None:
    """Columns that nobody understood, one finding for each, and those that a question told to leave."""
    table = listing.table
    for column, heading in table.headings.items():
        cells = [row[column] for number, row in table.rows.items() if column in row and row[column].row == number]
        title = quote(heading.text) if heading else "no heading"
        if listing.columns.fields.get(column) == "ignore":
            ledger.enter(cells, "repeat")
        else:
            ledger.leave(cells, f"column {format_column(column)}, {title}")


def _tell(listing: Listing, ledger: Ledger) -> None:
    """One line on what a table was read as."""
    table = listing.table
    cells = [*table.heads, *(cell for row in listing.rows for cell in row.cells.values())]
    rows, columns = zip(
        *((c.place.line, c.place.column) if c.place.sheet else (c.row, c.column) for c in cells), strict=True
    )
    sheet = f"{table.grid.title}!" if table.grid.title else ""
    area = f"{sheet}{format_column(min(columns))}{min(rows)}:{format_column(max(columns))}{max(rows)}"
    fields = [
        f"{_name_column(table, column)} is {name}"
        for column, name in listing.columns.fields.items()
        if name not in ("ignore", "open")
    ]
    if listing.columns.scenes:
        fields.append(f"{len(listing.columns.scenes)} scenes")
    under = f" under {_sketch(sorted(table.heads, key=lambda cell: (cell.row, cell.column)))}" if table.is_below else ""
    ledger.told.append(f"{area}: {len(listing.rows)} rows{under}; {', '.join(fields)}")


def _name_column(table: Table, column: int) -> str:
    """The letter of a column; of a table that lay on its side, the number of the row that it was."""
    heading = table.headings[column]
    if heading is not None and heading.place.sheet and heading.place.column != column:
        return f"row {heading.place.line}"
    return format_column(column)


def _tell_hidden(book: Book, ledger: Ledger) -> None:
    """What is hidden is left out and listed: one finding for sheets, one for rows, one for columns."""
    sheets = [grid for grid in book.grids if grid.is_hidden and (grid.cells or grid.hidden)]
    if sheets:
        ledger.findings.append(find("sheets-hidden", Place(book.name), which=", ".join(grid.title for grid in sheets)))
    for grid in book.grids:
        ledger.enter(grid.hidden, "hidden")
        if grid.is_hidden:
            ledger.enter(grid.cells.values(), "hidden")
    told = [(grid, *_list_hidden(grid)) for grid in book.grids if grid.hidden and not grid.is_hidden]
    for part in (0, 1):
        found = [(grid.title, parts[part]) for grid, *parts in told if parts[part]]
        if found:
            title, which = found[0]
            which += "".join(f"; of {other}: {words}" for other, words in found[1:])
            place = Place(book.name, 0, 0, title)
            hidden = find("columns-hidden" if part else "rows-hidden", place, title=title, which=which)
            ledger.findings.append(hidden)


def _list_hidden(grid: Grid) -> tuple[str, str]:
    """The hidden rows and the hidden columns that hold something, each as a list; "" for none."""
    rows_shown = {row for row, _ in grid.cells}
    columns_shown = {column for _, column in grid.cells}
    rows = sorted({cell.row for cell in grid.hidden if cell.row not in rows_shown})
    columns = sorted({cell.column for cell in grid.hidden if cell.column not in columns_shown and cell.row not in rows})
    return (
        ", ".join(map(str, rows[:12])) + count_more(len(rows), 12),
        ", ".join(map(format_column, columns[:12])) + count_more(len(columns), 12),
    )


def _tell_notes(grids: Sequence[Grid], ledger: Ledger) -> None:
    notes = [(grid, key, text) for grid in grids for key, text in sorted(grid.notes.items()) if text]
    if notes:
        grid, (row, column), _ = notes[0]
        told = "; ".join(f"{g.title}!{format_column(c)}{r} {quote(text)}" for g, (r, c), text in notes[:6])
        place = Place(ledger.name, row, column, grid.title)
        ledger.findings.append(find("notes-kept", place, notes=told + count_more(len(notes), 6)))


def _tell_blank(book: Book, draft: Draft, ledger: Ledger) -> None:
    """A book without a value is an error, one without a table a question."""
    cells = [cell for grid in book.grids if not grid.is_hidden for cell in grid.cells.values()]
    if not cells:
        pictured = ", only a picture" if any(grid.has_picture for grid in book.grids) else ""
        ledger.findings.append(find("workbook-blank", Place(book.name), name=book.name, detail=pictured))
    elif not (draft.sections.get("channels") or draft.sections.get("others") or _is_stopped(ledger)):
        ledger.findings.append(find("table-missing", cells[0].place, what=_sketch(cells)))


def _is_stopped(ledger: Ledger) -> bool:
    """Whether a question or an error already says why no channel was read."""
    return any(not q.default for q in ledger.questions) or any(f.row.stops for f in ledger.findings)


def _sketch(cells: list[GridCell]) -> str:
    words = [cell.text for cell in cells[:6] if fold_word(cell.text)]
    return quote(", ".join(words))


def _close(book: Book, draft: Draft, ledger: Ledger) -> Understanding:
    cells = [cell for grid in book.grids for cell in (*grid.cells.values(), *grid.hidden)]
    account = Counter(ledger.uses.get(cell.place, "lost") for cell in cells)
    parts = [f"{count} {word}" for word, count in sorted(account.items())]
    told = (*book.told, *ledger.told, f"{len(cells)} cells: {', '.join(parts)}")
    return Understanding(
        draft.raw(), ledger.close(), tuple(ledger.questions), tuple(dict.fromkeys(told)), dict(account), len(cells)
    )
