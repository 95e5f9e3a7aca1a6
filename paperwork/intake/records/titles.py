"""What is written above the tables: the show's title, its revision and its date."""

import re
from collections.abc import Sequence

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.tables.find import cells_above
from paperwork.intake.tables.versions import SortedTable
from paperwork.text.vocabulary import fold_word, listed_words

_REVISION = re.compile(
    r"\b(?:rev(?:ision)?|version|stand|v)\.?\s*:?\s*([A-Z]\b|[0-9]{1,3}\b(?![./-][0-9]))", re.IGNORECASE
)
_ISO = re.compile(r"\b([0-9]{4}-[0-9]{2}-[0-9]{2})\b")
_SLASHED = re.compile(r"(?<![0-9/])([0-9]{1,2})\s*[/]\s*([0-9]{1,2})\s*[/]\s*([0-9]{4}|[0-9]{2})(?![0-9/])")
_DOTTED = re.compile(r"(?<![0-9.])([0-9]{1,2})\.\s?([0-9]{1,2})\.\s?([0-9]{4})(?![0-9])")


def read_titles(grids: Sequence[Grid], tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> None:
    """The cells above the first table of each sheet; the first sheet that has a title names the show.

    What says nothing of the show is said in a line. Titles of tables side by side are theirs alone.
    """
    for grid in grids:
        own = [table for table in tables if table.grid is grid]
        beside = [cell.place.line for table in tables if table.grid.title == grid.title for cell in table.table.heads]
        top = min((table.table.top for table in own), default=0) if own else min(beside, default=0)
        above = [cell for (row, _), cell in grid.cells.items() if row < top and cell.place not in ledger.uses]
        is_shared = len([table for table in own if table.table.top == top]) > 1 and len({c.row for c in above}) < 2
        left = above
        if above and "show" not in draft.sections and not is_shared:
            left = _read_facts(above, draft, ledger)
        ledger.enter(above, "title")
        if left:
            ledger.lines.append(f"above the tables: {', '.join(quote(cell.text) for cell in left)}")
    for table in tables:
        title = table.table.title
        ledger.enter([cell for cell in cells_above(table.table) if title and cell.text == title], "title")


def _read_facts(above: Sequence[GridCell], draft: ShowDraft, ledger: Ledger) -> list[GridCell]:
    """Enter title, company, venue, contact, revision and date from some cells. Returns those that say nothing of these."""
    record = draft.add("show", "show", above[0].place)
    plain: list[GridCell] = []
    for cell in above:
        ledger.enter([cell], "title")
        day = _read_day(cell, ledger)
        if day and "revised" not in record.fields:
            record.put("revised", day, cell.place)
        revision = _REVISION.search(cell.text)
        if revision and "revision" not in record.fields:
            record.put("revision", revision[1].upper(), cell.place)
        name, text = _read_label(cell)
        if name and name not in record.fields:
            record.put(name, text, cell.place)
        elif cell.kind == "text" and any(map(str.isalpha, cell.text)):
            plain.append(cell)
    for cell in tuple(plain):
        text = " ".join(cell.text.split())
        house = next(
            (p for p in re.split(r"\s[\u2013\u2014-]\s|,", text) if listed_words("house") & set(fold_word(p).split())),
            "",
        )
        if "title" not in record.fields and not _is_date(text):
            record.put("title", text, cell.place)
            plain.remove(cell)
        elif house and "venue" not in record.fields:
            record.put("venue", house.strip(), cell.place)
    if "title" not in record.fields:
        del draft.sections["show"]
        return list(above)
    return [cell for cell in plain if not (_REVISION.search(cell.text) or _read_day(cell, ledger))]


def _is_date(text: str) -> bool:
    """Whether a text is the date of the show and no name: a weekday alone or with a figure, or a label of a date with one."""
    word, has_figure = fold_word(text), any(map(str.isdigit, text))
    days = set(word.split()) & listed_words("weekday")
    is_labelled = word.startswith(("date", "datum", "fecha", "data"))
    return (bool(days) and (has_figure or set(word.split()) <= days)) or (is_labelled and has_figure)


def _read_label(cell: GridCell) -> tuple[str, str]:
    """The field and the text of a cell with a label, `Produktion: ...`; "" for none."""
    label, sign, text = cell.text.partition(":")
    for field in ("title", "company", "venue", "contact"):
        if sign and text.strip() and fold_word(label) in listed_words(f"show_{field}"):
            return field, " ".join(text.split())
    return "", ""


def _read_day(cell: GridCell, ledger: Ledger) -> str:
    """The day of a cell as an ISO date; a day that can be read in two ways is asked."""
    if match := _ISO.search(cell.text):
        return match[1]
    if match := _DOTTED.search(cell.text):
        return _iso(match[3], match[2], match[1])
    if match := _SLASHED.search(cell.text):
        year = match[3] if len(match[3]) == 4 else f"20{match[3]}"
        days = dict.fromkeys(filter(None, (_iso(year, match[2], match[1]), _iso(year, match[1], match[2]))))
        if len(days) < 2:
            return next(iter(days), "")
        text = f"{quote(match.group())} is one day in one country and another in the next"
        return ledger.ask("day", match.group(), cell.place, text, {day: day for day in days}, stops=False)
    return ""


def _iso(year: str, month: str, day: str) -> str:
    return f"{year}-{int(month):02d}-{int(day):02d}" if 1 <= int(month) <= 12 and 1 <= int(day) <= 31 else ""
