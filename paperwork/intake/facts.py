"""What stands above the tables: the show's title, its revision and its date."""

import re

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.draft import Draft
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.questions import Choice, Question
from paperwork.vocabulary import fold_word

_REVISION = re.compile(
    r"\b(?:rev(?:ision)?|version|stand|v)\.?\s*:?\s*([A-Z]\b|[0-9]{1,3}\b(?![./-][0-9]))", re.IGNORECASE
)
_ISO = re.compile(r"\b([0-9]{4}-[0-9]{2}-[0-9]{2})\b")
_SLASHED = re.compile(r"(?<![0-9/])([0-9]{1,2})\s*[/]\s*([0-9]{1,2})\s*[/]\s*([0-9]{4}|[0-9]{2})(?![0-9/])")
_DOTTED = re.compile(r"(?<![0-9.])([0-9]{1,2})\.\s?([0-9]{1,2})\.\s?([0-9]{4})(?![0-9])")


def read_facts(grid: Grid, above: list[GridCell], draft: Draft, ledger: Ledger) -> None:
    """Enter title, revision and date from the cells above the first table, in reading order."""
    if not above:
        return
    record = draft.add("show", "show", above[0].place)
    for cell in above:
        ledger.enter([cell], "title")
        day = _read_day(cell, ledger)
        if day and "revised" not in record.fields:
            record.put("revised", day, cell.place)
        revision = _REVISION.search(cell.text)
        if revision and "revision" not in record.fields:
            record.put("revision", revision[1].upper(), cell.place)
        is_title = (
            any(char.isalpha() for char in cell.text)
            and cell.kind == "text"
            and not fold_word(cell.text).startswith(("date", "datum", "fecha", "data"))
        )
        if is_title and "title" not in record.fields:
            record.put("title", " ".join(cell.text.split()), cell.place)
    if "title" not in record.fields:
        del draft.sections["show"]


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
        return ledger.ask(
            Question(
                kind="day",
                about=match.group(),
                place=cell.place,
                stops=False,
                text=f"{quote(match.group())} is one day in one country and another in the next",
                choices=tuple(Choice(day, day) for day in days),
            )
        )
    return ""


def _iso(year: str, month: str, day: str) -> str:
    return f"{year}-{int(month):02d}-{int(day):02d}" if 1 <= int(month) <= 12 and 1 <= int(day) <= 31 else ""
