"""The frequencies of a list in other towns: rows of the section venues."""

from collections.abc import Iterator

from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.records.frequency_cells import FrequencyCell
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.towns import read_town
from paperwork.intake.texts.names import is_blank
from paperwork.raw import Text

_AT = "mhz at "
"""What begins the name of a field that holds the frequency in a town, until all are read."""


def list_town_cells(row: DataRow, record: DraftRecord, table: SheetTable, ledger: Ledger) -> Iterator[FrequencyCell]:
    """The frequency of a channel in each town. That there is none beside those of others is kept in its notes."""
    for column in [column for column, name in row.columns.fields.items() if name == "venue"]:
        heading, cell = table.headings[column], row.cells.get(column)
        town = read_town(heading.text)[0] if heading else ""
        if heading and cell and not is_blank(cell.text):
            yield FrequencyCell(record, cell, heading=heading.text, field=_AT + town)
        elif heading:
            record.notes.append((f"{town}: no frequency in the list", (cell or heading).place))
            ledger.enter([cell] if cell else [], "blank")


def enter_towns(table: SheetTable, draft: ShowDraft, fields: dict[int, str]) -> None:
    """Make rows of venues of the frequencies in towns, and a venue of the town whose frequencies are those at home."""
    found = [
        (section, record, name)
        for section in ("channels", "others")
        for record in draft.records(section)
        for name in list(record.fields)
        if name.startswith(_AT)
    ]
    for section, record, name in found:
        value = record.fields.pop(name)
        if isinstance(value, Text) and value.text:
            entry = draft.add("venues", f"v{len(draft.table('venues')) + 1}", value.place)
            said = {"venue": name.removeprefix(_AT), "section": section, "record": record.id, "field": "mhz"}
            for field, text in {**said, "value": value.text}.items():
                entry.put(field, text, value.place)
    home = next((head for n, head in table.headings.items() if head and fields.get(n) == "frequency"), None)
    show = draft.find("show", "show") if "show" in draft.sections else None
    if found and home and show and "venue" not in show.fields and (town := read_town(home.text)[0]):
        show.put("venue", town, home.place)
