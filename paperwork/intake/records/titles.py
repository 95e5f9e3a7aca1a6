"""What is written above the tables: the production, its company, house, days, revision, and who keeps the list."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.records.language import find_language
from paperwork.intake.tables.find import cells_above
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.dates import is_span, read_days
from paperwork.intake.texts.headings import find_label
from paperwork.intake.texts.personal import holds_number
from paperwork.place import Place
from paperwork.raw import Text
from paperwork.text.headings import mean
from paperwork.text.vocabulary import fold_word, listed_words

_REVISION = re.compile(
    r"\b(?:rev(?:ision|isión|isione)?|version|versión|versione|versie|révision|fassung|stand|v)\.?\s*:?\s*([A-Z]\b|[0-9]{1,3}\b(?![./-][0-9]))",
    re.IGNORECASE,
)
_PARTS = re.compile(r"\s*[|\u2022\u00b7\n;]\s*|\s{3,}|,\s+(?=[^:,]{2,30}:)")
_DASH = re.compile(r"\s+[\u2013\u2014-]\s+")
_NUMBERS = re.compile(r"(?<![0-9])[0-9]{2}(?![0-9])")


_HOUSES = ("theater", "theatre", "teater", "oper", "opernhaus", "schauspielhaus", "playhouse")
"""How a word for a house ends: `Staatsoper`."""


class Said(NamedTuple):
    """One part of a title block: the cell, the field that a label in front of it names ("" for none), and the text."""

    cell: GridCell
    field: str
    text: str


def read_titles(grids: Sequence[Grid], tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> None:
    """The cells above the first table of each sheet; the first sheet that has a title names the show.

    What says nothing of the show is said in a line. Titles of tables side by side are theirs alone.
    """
    is_day_first = find_language(tables).is_day_first
    for grid in grids:
        own = [table for table in tables if table.grid is grid]
        beside = [cell.place.line for table in tables if table.grid.title == grid.title for cell in table.table.heads]
        top = min((table.table.top for table in own), default=0) if own else min(beside, default=0)
        above = [cell for (row, _), cell in grid.cells.items() if row < top and cell.place not in ledger.uses]
        is_shared = len([table for table in own if table.table.top == top]) > 1 and len({c.row for c in above}) < 2
        left = above
        if above and "show" not in draft.sections and not is_shared:
            left = _read_facts(above, draft, ledger, is_day_first=is_day_first)
        ledger.enter(above, "title")
        if left:
            ledger.lines.append(f"above the tables: {', '.join(quote(cell.text) for cell in left)}")
    for table in tables:
        title = table.table.title
        ledger.enter([cell for cell in cells_above(table.table) if title and cell.text == title], "title")


def _read_facts(above: Sequence[GridCell], draft: ShowDraft, ledger: Ledger, *, is_day_first: bool) -> list[GridCell]:
    """Enter what some cells say of the show. Returns those that say nothing of it."""
    private = [cell for cell in above if _is_private(cell)]
    for cell in private:
        ledger.leave_personal("above the tables", [cell])
    above = [cell for cell in above if cell not in private]
    if not above:
        return []
    record = draft.add("show", "show", above[0].place)
    said = sorted(_part(above), key=lambda one: one.field == "phone")  # a number is of whoever is named
    read = {
        one.cell.place
        for one in said
        if one.field == "label" or _enter(one, record, draft, ledger, is_day_first=is_day_first)
    }
    read |= _enter_titles(said, record)
    if "title" not in record.fields:
        del draft.sections["show"]
        return list(above)
    return [cell for cell in above if cell.place not in read and any(map(str.isalnum, cell.text))]


def _enter_titles(said: Sequence[Said], record: DraftRecord) -> set[Place]:
    """Enter what no label is in front of: the title and the house; only what the list is, `Mic list`, is better than no title.
    Returns where they are."""
    free = [one for one in said if not one.field and any(map(str.isalpha, one.text))]
    plain = [one for one in free if one.cell.kind == "text"]
    titles = [one for one in plain if not _is_date(one.text) and not _is_list(one.text)]
    title = next((one for one in titles if not _is_house(one.text)), titles[0] if titles else None)
    read = {one.cell.place for one in plain if _enter_plain(one, record, is_title=one is title)}
    last = next((one for one in free if not read_days(one.text) and not mean(one.text).is_exact), None)
    if "title" not in record.fields and last:
        record.put("title", last.text, last.cell.place)
        read.add(last.cell.place)
    return read


def _is_private(cell: GridCell) -> bool:
    """Whether a cell above the tables is about a person by its label, or has a number to call that is not the department's."""
    label, sign, _ = cell.text.partition(":")
    words = label if sign else cell.text
    is_ours = any(find_label(piece) in ("phone", "contact", "returns") for piece in (label, *words.split()[:1]))
    is_labelled = bool(sign) and mean(label).fields[:1] == ("personal",)
    return not is_ours and (is_labelled or holds_number(cell.text))


def _part(above: Sequence[GridCell]) -> Iterator[Said]:
    """The parts of a title block. A label may have its text behind a colon, or in the next cell of its row."""
    rows: dict[int, list[GridCell]] = {}
    for cell in sorted(above, key=lambda cell: (cell.row, cell.column)):
        rows.setdefault(cell.row, []).append(cell)
    for row in rows.values():
        waiting: tuple[str, GridCell] | None = None
        for cell in row:
            bare = cell.text.strip().rstrip(":")
            field = find_label(bare)
            if waiting and not field:
                text = f"{waiting[1].text.strip(' :')} {cell.text}" if waiting[0] == "phone" else cell.text
                yield Said(cell, waiting[0], " ".join(text.split()))
                yield Said(waiting[1], "label", "")
                waiting = None
            elif field and (len(row) > 1 or cell.text.strip().endswith(":")):
                waiting = field, cell
            else:
                yield from _part_cell(cell)


def _part_cell(cell: GridCell) -> Iterator[Said]:
    for part in filter(None, _PARTS.split(cell.text.strip())):
        label, sign, text = part.partition(":")
        field = find_label(label) if sign and text.strip() else ""
        if not field and _calls(part):
            field, label, text = "phone", "", part  # `poste 61`, `Tel. sound office: 61`
        if sign and not field and text.strip() and _is_list(label):
            field = "title"  # `Radio mics: The Glass Ferry`
        text = f"{label} {text}".strip() if field == "phone" else text
        yield Said(cell, field, " ".join((text if field else part).split()))


def _calls(part: str) -> bool:
    """Whether a part says how to reach somebody: `poste 61`, `vestry ext. 7`, `Tel. sound office: 61`."""
    words = fold_word(part).split()
    called = [at for at, word in enumerate(words) if word in listed_words("show_phone")]
    return bool(called) and any(word.isdigit() for word in words[called[0] + 1 :])


def _enter(one: Said, record: DraftRecord, draft: ShowDraft, ledger: Ledger, *, is_day_first: bool) -> bool:
    """Enter what a part says by its label, and its day and revision. Returns whether anything of it is taken."""
    place, is_taken = one.cell.place, False
    days = _settle_days(one, ledger, is_day_first=is_day_first) if one.field != "phone" else ()
    is_event = one.field == "dates" or is_span(one.text) or (not one.field and (_has_weekday(one) or _names_show(one)))
    if one.field != "title" and days and is_event:
        record.fields.setdefault("dates", _text_at(" to ".join(dict.fromkeys((days[0], days[-1]))), one))
        return one.field == "dates" or _is_date(one.text)
    if days and one.field in ("", "revised", "revision") and "revised" not in record.fields:
        record.put("revised", days[0], place)
        is_taken = True
    revision = _REVISION.search(one.text) or (
        re.fullmatch(r"([A-Z]|[0-9]{1,3})", one.text, re.IGNORECASE) if one.field == "revision" else None
    )
    if revision and "revision" not in record.fields:
        record.put("revision", revision[1].upper(), place)
        is_taken = True
    if one.field in ("title", "company", "venue", "contact", "returns", "licence") and one.field not in record.fields:
        record.put(one.field, _strip_list(one.text) if one.field == "title" else one.text, place)
        return True
    if one.field == "phone":
        known = record.fields.get("contact")
        record.fields["contact"] = _text_at(f"{known.text}, {one.text}" if isinstance(known, Text) else one.text, one)
        return True
    if one.field == "tv" and (numbers := _NUMBERS.findall(one.text)):
        draft.add("spectrum", "spectrum", place).put("tv", ", ".join(numbers), place)
        return True
    return is_taken


def _enter_plain(one: Said, record: DraftRecord, *, is_title: bool) -> bool:
    """Enter a part without a label: the title, or the house by its words."""
    if is_title and "title" not in record.fields:
        record.put("title", _strip_list(one.text), one.cell.place)
        return True
    house = next((part for part in re.split(r"\s[\u2013\u2014-]\s|,", one.text) if _is_house(part)), "")
    if house and "venue" not in record.fields:
        record.put("venue", house.strip(), one.cell.place)
        return True
    return False


def _is_house(text: str) -> bool:
    words, houses = fold_word(text).split(), listed_words("house")
    return any(word in houses or word.endswith(_HOUSES) for word in words)


def _is_list(text: str) -> bool:
    """Whether a text only says what the list is, and in which state: `MIC PLOT v7 (post tech)`."""
    bare = re.sub(r"\([^)]*\)", " ", _REVISION.sub(" ", text))
    words = [word for word in fold_word(bare).split() if not word.isdigit()]
    return bool(words) and all(word in listed_words("list_title") for word in words)


def _strip_list(text: str) -> str:
    """A title without what only says that it is a list of microphones: `HARBOUR LIGHTS - radio mic plot`."""
    parts = _DASH.split(text)
    kept = [p for p in parts if not (_is_list(p) or _is_date(p) or read_days(p) or _REVISION.fullmatch(p.strip()))]
    return " \N{EN DASH} ".join(kept) if kept and len(kept) < len(parts) else text


def _is_date(text: str) -> bool:
    """Whether a text is the date of the show and no name: a weekday alone or with a figure, or a label of a date with one."""
    if len(_DASH.split(text)) > 1:
        return all(map(_is_date, _DASH.split(text)))
    word, has_figure = fold_word(text), any(map(str.isdigit, text))
    days = set(word.split()) & listed_words("weekday")
    label = find_label(re.sub(r"[0-9].*", "", text))
    is_labelled = label in ("revised", "revision", "dates")
    return (bool(days) and (has_figure or set(word.split()) <= days)) or (is_labelled and has_figure)


def _names_show(one: Said) -> bool:
    """Whether a part has a name beside its date: `Messiah - 12.12.2026`."""
    parts = _DASH.split(one.text)
    return len(parts) > 1 and any(not (_is_list(part) or _is_date(part) or read_days(part)) for part in parts)


def _has_weekday(one: Said) -> bool:
    """Whether a part begins with a day of the week: a day of the show, and not of the list."""
    parts = [part for part in _DASH.split(one.text) if read_days(part)]
    weekdays = listed_words("weekday") | listed_words("weekday_short")
    return any(set(fold_word(part).split()[:1]) & weekdays for part in parts)


def _settle_days(one: Said, ledger: Ledger, *, is_day_first: bool) -> tuple[str, ...]:
    """The days of a part as ISO dates; one that can be read in two ways is asked,
    unless the list is in a language that puts the day first."""
    found = []
    for days in read_days(one.text):
        if len(days) > 1 and not is_day_first:
            match = re.search(r"[0-9]{1,2}\s*/\s*[0-9]{1,2}\s*/\s*[0-9]{2,4}", one.text)
            words = match.group() if match else one.text
            text = f"{quote(words)} is one day in one country and another in the next"
            answer = ledger.ask("day", words, one.cell.place, text, {day: day for day in days}, stops=False)
            found += [answer] if answer else []
        else:
            found += days[:1]
    return tuple(found)


def _text_at(text: str, one: Said) -> Text:
    return Text(text, one.cell.place)
