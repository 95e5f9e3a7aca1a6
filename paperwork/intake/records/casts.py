"""Columns of days with the names of who plays each role on that day: performances, each with its cast."""

import re
from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.dates import read_days
from paperwork.intake.texts.names import is_blank, key_of_name, split_roles
from paperwork.intake.texts.scenes import read_mark
from paperwork.place import Place
from paperwork.raw import Map, Node, Text
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

_OFF = re.compile(r"^\w+\s*[\N{EN DASH}\N{EM DASH}:>/-]+\s*(?=\w)")
"""A word before a name that says that the usual performer is off: `OFF - Ted Marsh`."""


def read_casts_of_days(table: SheetTable, rows: Sequence[DataRow], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter a performance for each column of a day, with whoever plays another's role on it. A blank is the usual cast."""
    fields = rows[0].columns.fields if rows else {}
    columns = [n for n, name in fields.items() if name == "cast"]
    first = next((n for n, name in fields.items() if columns and name == "performer"), None)
    if first is not None and (head := table.headings[first]) and _is_first_night(head):
        draft.add("performances", " ".join(head.text.split()), head.place)  # with the usual cast
    for column in columns:
        heading = table.headings[column]
        if heading is None:
            continue
        name = heading.text[:10] if heading.kind == "date" else " ".join(heading.text.split())
        record = draft.add("performances", name, heading.place)
        days = read_days(heading.text)
        if len(days) == 1 and len(days[0]) == 1:
            record.put("date", days[0][0], heading.place)
        cast: list[tuple[Text, Node]] = []
        for row in rows:
            cell, role = row.cells.get(column), row.cell("role")
            by = _read_name(cell, ledger) if cell else ""
            if cell and role and by and key_of_name(by) != key_of_name(row.stated("performer")):
                cast += [(Text(part, role.place), Text(by, cell.place)) for part in split_roles(role.text)]
        if cast:
            record.fields["cast"] = Map(tuple(cast), heading.place)


def _is_first_night(heading: GridCell) -> bool:
    return bool(set(fold_word(heading.text).split()) & listed_words("first_night"))


def _read_name(cell: GridCell, ledger: Ledger) -> str:
    """The name in a cell, without a word before it that says that somebody is off; "" for nobody. Who is off alone is said."""
    if read_mark(cell.text) == "idle" and any(map(str.isalpha, cell.text)) and not is_blank(cell.text):
        ledger.leave([cell], "somebody is off, and nobody is named who plays")
        return ""
    text = ledger.text(cell)
    first = text.split()[0] if text.split() else ""
    if read_mark(first) == "idle" and _OFF.match(text):
        text = _OFF.sub("", text)
    return "" if is_blank(text) or is_nobody(text) or read_mark(text) in ("idle", "live") else text


def list_cast_names(draft: ShowDraft) -> list[tuple[str, Place]]:
    """Everybody who plays on some day."""
    casts = [cast for record in draft.records("performances") if isinstance(cast := record.fields.get("cast"), Map)]
    return [(by.text, by.place) for cast in casts for _, by in cast.items if isinstance(by, Text)]
