"""A foreign book to what a show file says: cells, tables, columns, rows, records; and every cell accounted for."""

from collections import Counter
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

from paperwork.files.grid import Book
from paperwork.finding import Finding
from paperwork.intake.cells.settle import settle_cells
from paperwork.intake.cells.turn import turn_grid
from paperwork.intake.encoding import mend_grids
from paperwork.intake.ledger import Ledger
from paperwork.intake.proof import prove
from paperwork.intake.questions import Answers, Question
from paperwork.intake.reading import Decision
from paperwork.intake.records.breakdown import is_breakdown, read_breakdown, read_rooms
from paperwork.intake.records.channels import Channels, read_channels
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.records.finish import finish
from paperwork.intake.records.language import read_language
from paperwork.intake.records.namesakes import settle_people
from paperwork.intake.records.plot import read_plot
from paperwork.intake.records.titles import read_titles
from paperwork.intake.tables.around import report_blank, report_hidden, report_notes
from paperwork.intake.tables.describe import describe_table, leave_columns, leave_table, report_empty
from paperwork.intake.tables.verdict import find_rows, judge_tables
from paperwork.intake.tables.versions import LEAVE, SortedTable, choose_versions, leave_old, leave_sheets, sort_tables
from paperwork.raw import Map


@dataclass(frozen=True, slots=True)
class Understanding:
    """What came of a foreign file: the show as far as it is understood, findings, and the questions still open.

    `lines` say in plain words what was read as what. `account` counts the cells by what became of them; its values
    add up to `cells`. `decisions` are the reading: what each sheet, table and column was taken for.
    """

    raw: Map
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    lines: tuple[str, ...]
    account: Mapping[str, int]
    cells: int
    decisions: tuple[Decision, ...] = ()


def understand(book: Book, answers: Answers | None = None) -> Understanding:
    """Everything that the sheets say. Pure: the same book and answers, the same understanding."""
    given = answers or {}
    sheets = [grid for grid in book.grids if not grid.is_hidden and given.get(("sheet", grid.title)) != LEAVE]
    grids = [part for grid in sheets for part in turn_grid(grid, given.get(("rows", grid.title), ""))]
    ledger, draft = Ledger(book.name, [settle_cells(grid) for grid in grids], given), ShowDraft(book.name)
    ledger.findings += book.findings
    grids = mend_grids(grids, ledger)
    leave_sheets([grid for grid in book.grids if not grid.is_hidden and grid not in sheets], ledger)
    report_hidden(book, ledger)
    tables = [table for grid in grids for table in sort_tables(grid, ledger)]
    report_empty(tables, ledger)
    kept = choose_versions(tables, [grid.title for grid in book.grids if grid.is_hidden and grid.cells], ledger)
    kept = leave_old(kept, ledger)
    replaced = {id(table.grid) for table in tables} - {id(table.grid) for table in kept}
    report_notes([grid for grid in grids if id(grid) not in replaced], ledger)
    read_titles(grids, tables, draft, ledger)
    read_language(kept, draft, ledger)
    channels = _read_lists(kept, draft, ledger)
    _read_others(kept, channels, draft, ledger)
    settle_people(draft, ledger)
    finish(draft, ledger)
    ledger.close_formulas()
    ledger.leave_sheets([grid for grid in grids if not any(table.grid is grid for table in tables)])
    for grid in grids:
        ledger.leave(grid.cells.values(), "outside any table")
    heads = next((table.table.heads for table in tables if not table.table.rows), ())
    report_blank(book, ledger, heads=heads, has_channels=bool(draft.records("channels") or draft.records("others")))
    return _close(book, kept, draft, ledger)


def _read_lists(tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> dict[int, Channels]:
    """The channels of each table that lists some, by its number. They come first: grids name channels and roles of lists."""
    found = {}
    for number, table in enumerate(tables):
        ledger.enter(table.table.heads, "heading")
        ledger.enter(table.table.repeats, "repeat")
        is_left = find_rows(table, ledger)[1] == "nothing"
        if table.columns.has("channel", "frequency") and not is_left:
            found[number] = read_channels(table.table, table.rows, draft, ledger)
    return found


def _read_others(
    tables: Sequence[SortedTable], channels: Mapping[int, Channels], draft: ShowDraft, ledger: Ledger
) -> None:
    """Breakdowns, rooms and grids, in the order of the book; and what no table explains."""
    kinds = [_find_kind(table, number in channels) for number, table in enumerate(tables)]
    for number, table in enumerate(tables):
        same = {shown for other, (_, shown, _) in zip(tables, kinds, strict=True) if other.title == table.title}
        kind = _decide_rows(table, kinds[number], same, ledger)
        if kind == "breakdown":
            read_breakdown(table.rows, draft, ledger)
        elif kind == "people":
            read_rooms(table.rows, draft, ledger)
        elif kind == "nothing":
            leave_table(table, ledger)
        if table.columns.scenes and kind != "nothing":
            read_plot(table, channels.get(number, {}), draft, ledger)
        leave_columns(table, ledger)
        ledger.lines.append(describe_table(table))


def _find_kind(table: SortedTable, is_list: bool) -> tuple[str, str, str]:
    """What a row of a table is: a channel, a role of a grid, a scene with who is in it, a person, or nothing of use; what
    that is called in an answer; and why."""
    columns = table.columns
    kind, because = "nothing", "neither channels nor people nor scenes are known in it"
    if is_list:
        kind, because = "channels", "it has a column of channels or frequencies"
    elif is_breakdown(columns):
        kind, because = "breakdown", "each scene has the names of who is in it"
    elif columns.has("room"):
        kind, because = "people", "names have rooms"
    elif columns.scenes:
        kind, because = "roles", "its columns are scenes"
    shown = "scenes" if kind == "breakdown" or (table.grid.is_turned and columns.scenes) else kind
    return kind, shown, because


def _decide_rows(table: SortedTable, found: tuple[str, str, str], same: Set[str], ledger: Ledger) -> str:
    """What a row of a table is taken for. An answer may leave the table out; what else it says of the rows was heeded when
    the sheet was turned, so that one to which no table of the sheet (`same`) came is refused."""
    kind, shown, because = found
    columns = table.columns
    about, given = find_rows(table, ledger)
    choices = dict.fromkeys((shown, "nothing") if given else (shown, "scenes", "roles", "nothing"), "")
    plain = [[cell for at, cell in row.cells.items() if columns.fields.get(at) != "personal"] for row in table.rows[:3]]
    samples = [cell.text for cells in plain for cell in cells[:1]]
    made = Decision("rows", about, table.place, f"rows of {table.title}", shown, because, choices, "sure", samples)
    if given in same and given != shown:
        ledger.decisions.append(made)
        return kind
    if given == "nothing":
        ledger.dissolve(table.table.all_cells)
    return "nothing" if ledger.decide(made) == "nothing" else kind


def _close(book: Book, tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> Understanding:
    cells = [cell for grid in book.grids for cell in (*grid.cells.values(), *grid.hidden)]
    show = draft.raw()
    prove(cells, show, ledger)
    judge_tables(tables, ledger, has_channels=bool(draft.records("channels")))
    account = Counter(ledger.uses.get(cell.place, "lost") for cell in cells)
    parts = ", ".join(f"{count} {use}" for use, count in sorted(account.items()))
    findings = ledger.close()
    lines = dict.fromkeys((*book.remarks, *ledger.lines, f"{len(cells)} cells: {parts}"))
    questions = tuple(ledger.questions)
    return Understanding(show, findings, questions, tuple(lines), dict(account), len(cells), tuple(ledger.decisions))
