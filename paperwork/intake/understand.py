"""A foreign book to what a show file says: cells, tables, columns, rows, records; and every cell accounted for."""

from collections import Counter
from collections.abc import Mapping, Sequence, Set
from typing import NamedTuple

from paperwork.files.grid import Book, Grid
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.intake.cells.rows import list_names
from paperwork.intake.cells.settle import settle_cells
from paperwork.intake.cells.turn import turn_grid
from paperwork.intake.encoding import mend_grids
from paperwork.intake.finish import finish
from paperwork.intake.gear.transmitters import place_facts
from paperwork.intake.gear.wearers import PERSONS, SITS, ask_children, read_people, read_remarks
from paperwork.intake.ledger import Ledger
from paperwork.intake.proof import prove
from paperwork.intake.questions import Answers, Question
from paperwork.intake.reading import CellNote, Decision
from paperwork.intake.records.breakdown import is_breakdown, read_breakdown
from paperwork.intake.records.channels import read_channels
from paperwork.intake.records.cuts import leave_cut
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.records.language import read_language
from paperwork.intake.records.namesakes import part_roles, settle_people
from paperwork.intake.records.plots.mic_columns import read_mic_columns
from paperwork.intake.records.plots.plot import read_plot
from paperwork.intake.records.titles import read_titles
from paperwork.intake.references import settle_references
from paperwork.intake.tables.around import (
    describe_table,
    leave_columns,
    leave_table,
    report_blank,
    report_empty,
    report_far,
    report_hidden,
    report_notes,
)
from paperwork.intake.tables.plots import says_which_way
from paperwork.intake.tables.verdict import ROWS, find_rows, judge_tables
from paperwork.intake.tables.versions import LEAVE, SortedTable, choose_versions, leave_old, leave_sheets, sort_tables
from paperwork.raw import Map


@frozen
class Understanding:
    """What came of a foreign file: the show as far as it is understood, findings, and the questions still open.

    `lines` say in plain words what was read as what. `account` counts the cells by what became of them; its values
    add up to `cells`. `decisions` are the reading: what each sheet, table and column was taken for; `notes` are the single
    cells in it that were not taken as they are written, or are in doubt.
    """

    raw: Map
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    lines: tuple[str, ...]
    account: Mapping[str, int]
    cells: int
    decisions: tuple[Decision, ...] = ()
    notes: tuple[CellNote, ...] = ()


def understand(book: Book, answers: Answers | None = None) -> Understanding:
    """Everything that the sheets say. Pure: the same book and answers, the same understanding.

    First it is read which sheets count, what their tables are and what each row and column of them is; the show is made of
    that alone, and of the answers about single cells.
    """
    ledger, draft = Ledger(book.name, answers), ShowDraft(book.name)
    ledger.findings += book.findings
    sheets = _read_sheets(book, ledger)
    _make_show(sheets, draft, ledger)
    ledger.leave_sheets([grid for grid in sheets.grids if not any(table.grid is grid for table in sheets.found)])
    for grid in sheets.grids:
        ledger.leave(grid.cells.values(), "outside any table")
    heads = next((table.table.heads for table in sheets.found if not table.table.rows), ())
    report_blank(book, ledger, heads=heads, has_channels=bool(draft.records("channels") or draft.records("others")))
    return _close(book, sheets, draft, ledger)


class Sheets(NamedTuple):
    """What is read of the sheets before anything is made of it: those that count, turned where they lie on their side, all
    tables on them, and of these the ones that are used, each with what its rows are."""

    grids: Sequence[Grid]
    found: Sequence[SortedTable]
    used: Sequence[tuple[SortedTable, str]]


def _read_sheets(book: Book, ledger: Ledger) -> Sheets:
    visible = [grid for grid in book.grids if not grid.is_hidden]
    sheets = [grid for grid in visible if ledger.find_answer("sheet", grid.title) != LEAVE]
    names = list_names(sheets)
    turned = [part for one in sheets for part in turn_grid(one, ledger.find_answer("rows", one.title), names)]
    ledger.settle([settle_cells(grid) for grid in turned])
    grids = mend_grids(book, turned, ledger)
    leave_sheets([grid for grid in visible if grid not in sheets], ledger)
    report_hidden(book, ledger)
    report_far(book, ledger)
    found = [table for grid in grids for table in sort_tables(grid, ledger)]
    report_empty(found, ledger)
    kept = choose_versions(found, [grid.title for grid in book.grids if grid.is_hidden and grid.cells], ledger)
    kept = settle_references(leave_old(kept, ledger), ledger)
    replaced = {id(table.grid) for table in found} - {id(table.grid) for table in kept}
    report_notes([grid for grid in grids if id(grid) not in replaced], ledger)
    kinds = [_find_kind(table) for table in kept]
    used = []
    for table, kind in zip(kept, kinds, strict=True):
        same = {shown for other, (_, shown, _) in zip(kept, kinds, strict=True) if other.title == table.title}
        used.append((table, _decide_rows(table, kind, same, names, ledger)))
    return Sheets(grids, found, used)


def _make_show(sheets: Sheets, draft: ShowDraft, ledger: Ledger) -> None:
    """Fill the draft: what is above the tables, then lists of channels, since breakdowns, rooms and plots name the channels
    and roles of lists; and what no table explains."""
    read_titles(sheets.grids, sheets.found, draft, ledger)
    read_language([table for table, _ in sheets.used], draft, ledger)
    channels = {}
    kept = iter(leave_cut([table for table, kind in sheets.used if kind == "channels"], ledger))
    for number, (table, kind) in enumerate(sheets.used):
        ledger.enter(table.table.heads, "heading")
        ledger.enter(table.table.repeats, "repeat")
        if kind == "channels":
            channels[number] = read_channels(table.table, next(kept), draft, ledger)
    part_roles(draft, ledger)
    for number, (table, kind) in enumerate(sheets.used):
        if kind == "breakdown":
            read_breakdown(table.rows, draft, ledger)
        elif kind == "people" or (kind == "roles" and _has_people(table)):
            read_people(table, draft, ledger)
        elif kind == "nothing":
            leave_table(table, ledger)
        if table.columns.are_mics and kind != "nothing":
            read_mic_columns(table, draft, ledger)
        elif table.columns.scenes and kind != "nothing":
            read_plot(table, channels.get(number, {}), draft, ledger)
        if kind in ("people", "roles"):
            read_remarks(table, draft, ledger)
        leave_columns(table, ledger)
        ledger.lines.append(describe_table(table))
    settle_people(draft, ledger)
    place_facts(draft, ledger)
    ask_children([table for table, _ in sheets.used], draft, ledger)
    finish(draft, ledger)
    ledger.close_formulas()


def _has_people(table: SortedTable) -> bool:
    """Whether a table says something of people beside their names."""
    return table.columns.has("performer") and table.columns.has(*PERSONS, *SITS)


def _find_kind(table: SortedTable) -> tuple[str, str, str]:
    """What a row of a table is: a channel, a role of a grid, a scene with who is in it, a person, or nothing of use; what
    that is called in an answer; and why."""
    columns = table.columns
    kind, because = "nothing", "neither channels nor people nor scenes are known in it"
    if columns.has("channel", "frequency"):
        kind, because = "channels", "it has a column of channels or frequencies"
    elif is_breakdown(columns):
        kind, because = "breakdown", "each scene has the names of who is in it"
    elif _has_people(table) and not columns.scenes:
        kind, because = "people", "names have rooms, belts or the like"
    elif columns.scenes:
        kind, because = "roles", "its columns are scenes"
    shown = "scenes" if kind == "breakdown" or (table.grid.is_turned and columns.scenes) else kind
    return kind, shown, because


def _decide_rows(
    table: SortedTable, found: tuple[str, str, str], same: Set[str], names: Set[str], ledger: Ledger
) -> str:
    """What a row of a table is taken for. An answer may leave the table out; what else it says of the rows was heeded when
    the sheet was turned, so that one to which no table of the sheet (`same`) came is refused."""
    kind, shown, because = found
    columns = table.columns
    about, given = find_rows(table, ledger)
    choices = dict.fromkeys((shown, "nothing") if given else (shown, "scenes", "roles", "nothing"), "")
    is_open = not given and kind == "roles" and not says_which_way(table.table, columns.scenes, names)
    if is_open:
        because = "nothing says whether people or scenes go down"
        choices = {name: ROWS[name] for name in ("roles", "scenes", "nothing")}
    plain = [[cell for at, cell in row.cells.items() if columns.fields.get(at) != "personal"] for row in table.rows[:3]]
    samples = [cell.text for cells in plain for cell in cells[:1]]
    made = Decision(
        "rows",
        about,
        table.place,
        f"rows of {table.title}",
        shown,
        because,
        choices,
        "likely" if is_open else "sure",
        samples,
    )
    if given in same and given != shown:
        ledger.decisions.append(made)
        return kind
    if given == "nothing":
        ledger.dissolve(table.table.all_cells)
    return "nothing" if ledger.decide(made) == "nothing" else kind


def _close(book: Book, sheets: Sheets, draft: ShowDraft, ledger: Ledger) -> Understanding:
    cells = [cell for grid in book.grids for cell in (*grid.cells.values(), *grid.hidden)]
    show = draft.raw()
    prove(cells, show, ledger)
    judge_tables([table for table, _ in sheets.used], ledger, has_channels=bool(draft.records("channels")))
    account = Counter(ledger.uses.get(cell.place, "lost") for cell in cells)
    parts = ", ".join(f"{count} {use}" for use, count in sorted(account.items()))
    findings = ledger.close()
    lines = dict.fromkeys((*book.remarks, *ledger.lines, f"{len(cells)} cells: {parts}"))
    questions = tuple(ledger.questions)
    decisions, notes = tuple(ledger.decisions), ledger.list_notes(cells)
    return Understanding(show, findings, questions, tuple(lines), dict(account), len(cells), decisions, notes)
