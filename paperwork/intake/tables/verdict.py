"""The verdict on a table once all is read: one of which less than half came through was not understood, and is asked about."""

from collections.abc import Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision
from paperwork.intake.tables.around import sketch
from paperwork.intake.tables.versions import SortedTable

ROWS = {
    "nothing": "leave this table out",
    "channels": "its rows are channels, and what is read of them will do",
    "people": "its rows are people, and what is read of them will do",
    "breakdown": "its rows are scenes with names, and what is read of them will do",
    "scenes": "its rows are scenes",
    "roles": "its rows are people or characters, and its columns are scenes",
}
"""What the rows of a table may be, and what an answer says of it to a person."""


def find_rows(table: SortedTable, ledger: Ledger) -> tuple[str, str]:
    """What an answer says of the rows of a table, of it alone or of its sheet: under which name, and the answer, "" for none."""
    title = table.grid.title
    if given := ledger.find_answer("rows", table.key, title):
        return table.key, given
    return title, ledger.find_answer("rows", title, title)


def judge_tables(tables: Sequence[SortedTable], ledger: Ledger, *, has_channels: bool) -> None:
    """Ask what the rows are of each table whose cells are mostly not understood, unless an answer has said so.

    A table of something else beside a list of channels is left out until then; any other stops the papers.
    """
    for table in tables:
        cells = [cell for row in (*table.rows, *table.scene_rows) for cell in row.own]
        unknown = [cell for cell in cells if ledger.uses.get(cell.place) == "unknown"]
        if len(unknown) * 2 <= len(cells) or find_rows(table, ledger)[1]:
            continue
        found = next((one for one in ledger.decisions if one.kind == "rows" and one.place == table.place), None)
        taken = found.value if found else "nothing"
        may_wait = taken == "nothing" and has_channels
        is_alone = sum(one.grid.title == table.grid.title for one in tables) == 1
        fitting = {taken, "scenes", "roles"} if is_alone else {taken}  # a sheet is turned as a whole
        because = f"not understood: {len(unknown)} of its {len(cells)} cells are not read"
        decision = Decision(
            "rows",
            table.grid.title if is_alone else table.key,
            table.place,
            f"rows of {table.title}",
            "nothing" if may_wait else "",
            because,
            {kind: words for kind, words in ROWS.items() if kind in {"nothing", *fitting}},
            "likely" if may_wait else "open",
            found.samples if found else (),
        )
        if may_wait:
            ledger.dissolve(table.table.all_cells)
        text = f"the table under {sketch(table.table.heads)} was {because}. What is a row of it?"
        ledger.doubt(decision, text, unknown)
