"""Several tables with the same list: which one counts, and in what they differ."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from paperwork.finding import find
from paperwork.intake.columns import Columns
from paperwork.intake.frequencies import read_frequency
from paperwork.intake.ids import key_of
from paperwork.intake.ledger import Ledger, count_more
from paperwork.intake.questions import Choice, Question
from paperwork.intake.rows import DataRow
from paperwork.intake.tables import Table
from paperwork.place import Place
from paperwork.vocabulary import fold_word, listed_words

_COMPARED = ("performer", "role", "frequency", "pack", "capsule")
_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(slots=True)
class Listing:
    """One table with its columns and rows, before anything is made of it."""

    table: Table
    columns: Columns
    rows: tuple[DataRow, ...]

    @property
    def title(self) -> str:
        """What to call it: the sheet's name, and where it starts if a sheet holds several."""
        return self.table.grid.title or "the table"


def choose_versions(listings: Sequence[Listing], hidden: Sequence[str], ledger: Ledger) -> list[Listing]:
    """The listings without those that another one replaces. Where nothing tells which, it is asked."""
    lists = [listing for listing in listings if listing.columns.of("channel") is not None]
    groups: list[list[Listing]] = []
    for listing in lists:
        home = next((group for group in groups if all(_is_version(other, listing) for other in group)), None)
        if home:
            home.append(listing)
        else:
            groups.append([listing])
    dropped: list[int] = []
    for group in groups:
        if len(group) > 1:
            kept = _choose(group, hidden, ledger)
            dropped += [id(listing) for listing in group if listing is not kept]
            for listing in group:
                if listing is not kept:
                    _set_aside(listing, ledger)
    return [listing for listing in listings if id(listing) not in dropped]


def _is_version(one: Listing, other: Listing) -> bool:
    """Whether two tables are one list: the same fields told of mostly the same channels."""
    if one.table.grid.title == other.table.grid.title and one.table.grid.title:
        return False
    fields = [{name for name in listing.columns.fields.values() if name in _COMPARED} for listing in (one, other)]
    if len(fields[0] & fields[1]) * 2 <= max(len(fields[0]), len(fields[1])) or ("frequency" in fields[0]) != (
        "frequency" in fields[1]
    ):
        return False
    keys = [set(_facts_of(listing)) for listing in (one, other)]
    return len(keys[0] & keys[1]) * 2 > min(len(keys[0]), len(keys[1])) > 0


def _facts_of(listing: Listing) -> dict[str, tuple[tuple[str, str], ...]]:
    """What a table says of each channel, in a form in which spellings of one fact are equal."""
    column = listing.columns.of("channel")
    found = {}
    for row in listing.rows:
        key = row.cells.get(column) if column is not None else None
        if key is not None:
            found[key_of(key.text)] = tuple((name, _fact(row, listing.columns, name)) for name in _COMPARED)
    return found


def _fact(row: DataRow, columns: Columns, name: str) -> str:
    column = columns.of(name)
    cell = row.cells.get(column) if column is not None else None
    if cell is None:
        return ""
    if name == "frequency" and (mhz := read_frequency(cell.text).mhz):
        return f"{float(mhz.replace(',', '.')):.6f}"
    return key_of(cell.text) if name == "pack" else fold_word(cell.text)


def list_changes(old: Listing, new: Listing) -> tuple[str, ...]:
    """What differs from one table to another, channel by channel, in plain words."""
    before, after = _facts_of(old), _facts_of(new)
    told = [f"{key} is new" for key in after if key not in before]
    told += [f"{key} is gone" for key in before if key not in after]
    for key in after:
        differing = [name for (name, a), (_, b) in zip(before.get(key, ()), after[key], strict=False) if a != b]
        if differing:
            told.append(f"{key} has another {' and '.join(differing)}")
    return tuple(sorted(told))


def _choose(group: list[Listing], hidden: Sequence[str], ledger: Ledger) -> Listing:
    ranks = [_rank(listing.title) for listing in group]
    newest = max(ranks)
    tops = [listing for listing, rank in zip(group, ranks, strict=True) if rank == newest]
    if len(tops) == 1:
        others = sorted(
            (listing for listing in group if listing is not tops[0]), key=lambda item: _rank(item.title), reverse=True
        )
        changes = list_changes(others[0], tops[0])
        told = f"{len(changes)} change{'s' if len(changes) != 1 else ''} from {others[0].title}"
        told += f": {'; '.join(changes[:6])}{count_more(len(changes), 6)}" if changes else ""
        ledger.findings.append(
            find(
                "list-revised",
                _place(tops[0]),
                others=tuple(map(_place, others)),
                new=tops[0].title,
                changes=told,
                old=", ".join(listing.title for listing in others),
            )
        )
        return tops[0]
    first = tops[0]
    choices = tuple(Choice(listing.title, _describe(listing, first)) for listing in tops)
    unseen = f"; hidden, and not looked at: {', '.join(hidden)}" if hidden else ""
    answer = ledger.ask(
        Question(
            kind="sheet",
            about=" | ".join(sorted(listing.title for listing in tops)),
            place=_place(first),
            others=tuple(map(_place, tops[1:])),
            text=f"{len(tops)} sheets hold the same list{unseen}",
            choices=choices,
        )
    )
    return next((listing for listing in tops if listing.title == answer), first)


def _describe(listing: Listing, first: Listing) -> str:
    told = f"{listing.title}, {len(listing.rows)} rows"
    if listing is first:
        return told
    changes = list_changes(first, listing)
    return f"{told}, {len(changes)} different from {first.title}" + (f" ({'; '.join(changes[:3])})" if changes else "")


def _rank(title: str) -> tuple[int, str]:
    """How new a title says its sheet is: words for old and new, and a date."""
    parts: Mapping[str, None] = dict.fromkeys(fold_word(title).split())
    age = (
        -1
        if any(part in listed_words("older") for part in parts)
        else int(any(part in listed_words("newer") for part in parts))
    )
    dates = _ISO.findall(title)
    return age, max(dates, default="")


def _place(listing: Listing) -> Place:
    heads = listing.table.heads
    return min(cell.place for cell in heads)


def _set_aside(listing: Listing, ledger: Ledger) -> None:
    """The cells of a table that is not read: every one of them is an older or another version."""
    for row in listing.table.rows.values():
        ledger.enter(row.values(), "repeat")
    ledger.enter(listing.table.heads + listing.table.repeats, "repeat")
