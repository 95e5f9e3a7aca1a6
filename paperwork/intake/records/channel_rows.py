"""Rows of a channel list: which channel each row is about, and what to do where one is named twice."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from paperwork.files.grid import GridCell
from paperwork.frozen import frozen
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.draft import DraftRecord
from paperwork.intake.tables.columns import ask_second, read_pair
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.ids import IdStyle, Numbered, find_style, is_plain_prefix, key_of, print_id, read_id
from paperwork.intake.texts.names import is_blank, is_spare, key_of_name
from paperwork.text.vocabulary import fold_word, listed_words

SHARED = "shared"
PAIR = "pair"


@frozen
class ChannelRow:
    """One row about one channel. `id` is the number as it will be printed; `joins` that of the row whose pack it
    shares, None for a row by itself; `doubles` that of the row whose second pack it is. `second`
    is the number of a second pack that its cell names besides."""

    row: DataRow
    cell: GridCell
    parts: Numbered
    id: str = ""
    joins: str | None = None
    doubles: str = ""
    kind: str = ""
    second: str = ""

    def text(self, field: str, ledger: Ledger) -> str:
        """The text that holds of a field, whose cell is entered as used; "" for none."""
        cell = self.row.cell(field)
        text = ledger.text(cell) if cell else ""
        return "" if is_blank(text) else text


def list_channel_rows(rows: Sequence[DataRow], table: SheetTable, ledger: Ledger) -> list[ChannelRow]:
    """The rows of a table that are about a channel, each numbered and of its kind."""
    title = table.title or table.grid.title
    numbered = [_split_pair(row, table, ledger) for row in _list_numbered(rows, ledger)]
    found = [replace(row, kind=find_kind(row, title)) for row in numbered]
    return _pair_up(_settle_twins(_settle_ids(found, ledger), ledger))


def _list_numbered(rows: Sequence[DataRow], ledger: Ledger) -> list[ChannelRow]:
    """The rows that name a channel, in their order; rows that name none are asked about or left."""
    found: list[ChannelRow] = []
    nameless: list[DataRow] = []
    for number, row in enumerate(rows, 1):
        cell = row.cell("channel")
        if cell is not None and fold_word(cell.text) in listed_words("no_channel"):
            ledger.enter(row.own, "left")
            ledger.lines.append(f"no channel is given to {', '.join(map(quote, (c.text for c in _stated_of(row))))}")
            continue
        if cell is not None and cell.struck != "whole" and (cell.kind == "failed" or not is_blank(cell.text)):
            text = ledger.text(cell)
            text = ledger.ask_date(cell, "channel") if cell.kind == "date" else text
        elif _is_nameless(row, cell):
            nameless.append(row)
            continue
        else:
            text = _ask_key(row, number, cell, ledger)
        if text:
            found.append(ChannelRow(row, cell or _first_of(row), read_id(text)))
    _leave_nameless(nameless, ledger)
    return found


def _split_pair(row: ChannelRow, table: SheetTable, ledger: Ledger) -> ChannelRow:
    """A row whose cell names a pack and its second, `A1/A2`, as that of the first; asked once for a table."""
    pair = read_pair(row.cell.text)
    if pair is None or row.row.columns.has("second"):
        return row
    answer = ask_second(table, row.cell.place, "the column of the numbers", [row.cell.text], "second", ledger)
    if answer == "notes":
        return row
    return replace(row, parts=read_id(pair[0]), second=pair[1] if answer != "ignore" else "")


def _first_of(row: DataRow) -> GridCell:
    return min(row.cells.values(), key=lambda cell: cell.column)


def _is_nameless(row: DataRow, cell: GridCell | None) -> bool:
    """Whether a row has neither a number nor a frequency, in a table that numbers its channels."""
    if row.columns.of("channel") is None or (cell is not None and cell.struck == "whole"):
        return False
    return not any(row.columns.fields[other.column] == "frequency" for other in _stated_of(row))


def _stated_of(row: DataRow) -> list[GridCell]:
    """The cells of a row that say who it is about."""
    fields = row.columns.fields
    return [c for c in row.own if fields.get(c.column) in ("performer", "role", "frequency") and not is_blank(c.text)]


def _ask_key(row: DataRow, number: int, cell: GridCell | None, ledger: Ledger) -> str:
    """The number of a row that has none, or one that is struck through. Of a whole table without numbers it is asked once.
    "" for a row that waits for its answer, or is left out."""
    stated = _stated_of(row)
    place = (cell or _first_of(row)).place
    if row.columns.of("channel") is None:
        text = "no column of this table numbers the channels, and frequencies need one"
        choices = {"count": "number the rows in their order: 1, 2, 3"}
        answer = str(number) if ledger.ask("key", "channel numbers", place, text, choices) == "count" else ""
    elif cell is not None and cell.struck == "whole":
        about = f"{cell.text}: {' '.join(c.text for c in stated)}"
        text = f"the number {quote(cell.text)} is struck through: the channel is cut, or it has another number?"
        choices = {"cut": "the channel is cut: leave the row out", "keep": f"{cell.text} still holds"}
        answer = ledger.ask("struck", about, place, text, choices, typed="text")
        if answer == "keep":
            return cell.text
    else:
        about = " ".join(c.text for c in sorted(stated, key=lambda c: c.column))
        text = f"the row of {quote(about)} has no channel number"
        answer = ledger.ask("key", about, place, text, {"cut": "leave the row out"}, typed="text")
    if answer in ("", "cut"):
        ledger.enter(row.own, "cut" if answer == "cut" else "asked")
        return ""
    return answer


def _leave_nameless(rows: Sequence[DataRow], ledger: Ledger) -> None:
    """Rows without number and frequency are left out: the names in them are listed first, and all of them."""
    names = [cell for row in rows for cell in _stated_of(row)]
    what = "rows without a channel number"
    ledger.leave(names, what)
    ledger.leave([cell for row in rows for cell in row.own], what)
    if names:
        ledger.lines.append(f"no channel number is beside {', '.join(dict.fromkeys(cell.text for cell in names))}")


def _settle_ids(rows: Sequence[ChannelRow], ledger: Ledger) -> list[ChannelRow]:
    """The rows with their numbers in the one printed style, the majority's; mixed styles are asked about once."""
    style = find_style([row.parts for row in rows])
    if style.is_mixed and len({key_of(row.parts.text) for row in rows}) > 1:
        style = _ask_style(rows, style, ledger)
    return [replace(row, id=print_id(row.parts, style)) for row in rows]


def _ask_style(rows: Sequence[ChannelRow], style: IdStyle, ledger: Ledger) -> IdStyle:
    plain = [row for row in rows if row.parts.digits and is_plain_prefix(row.parts.prefix)]
    width = max((len(row.parts.digits.lstrip("0") or "0") for row in plain), default=1)
    styles = {"plain": style._replace(width=1), "padded": style._replace(width=max(2, width))}
    written = list(dict.fromkeys(row.parts.text for row in plain))
    answer = ledger.ask(
        "channel-style",
        "channel numbers",
        plain[0].cell.place,
        f"channel numbers are written in several ways: {', '.join(written[:8])}",
        {name: f"as {', '.join(print_id(row.parts, one) for row in plain[:3])}" for name, one in styles.items()},
        default="plain" if style.width == 1 else "padded",
    )
    return styles.get(answer, style)


def _settle_twins(rows: Sequence[ChannelRow], ledger: Ledger) -> list[ChannelRow]:
    """The rows with channels that are in several rows settled: one row read once, shared, paired or asked.

    An in-ear and a microphone may carry one number: each kind counts for itself.
    """
    known: dict[tuple[str, str], int] = {}
    kept: list[ChannelRow] = []
    for row in rows:
        index = known.setdefault((row.kind, key_of(row.id)), len(kept))
        if index == len(kept):
            kept.append(row)
            continue
        first = kept[index]
        if _values(first) == _values(row):
            ledger.reenter(row.row.own, "repeat")
            ledger.report("row-twice", row.cell.place, others=(first.cell.place,), first=first.row.number)
            continue
        kept[index], *more = _settle_twin(first, row, ledger)
        kept += more
    return kept


def _settle_twin(first: ChannelRow, second: ChannelRow, ledger: Ledger) -> list[ChannelRow]:
    """Two rows about one channel: both, where they share a pack or the second is a second pack; else the one that counts."""
    one, other = (row.row.stated("performer") or row.row.stated("role") for row in (first, second))
    same_person = bool(one) and key_of_name(one) == key_of_name(other)
    mhz = [row.row.stated("frequency") for row in (first, second)]
    differs = any(
        key_of(first.row.stated(name)) != key_of(second.row.stated(name)) and second.row.stated(name)
        for name in ("frequency", "pack", "receiver", "input", "serial")
    )
    if same_person and not differs:
        return [first, replace(second, joins=first.id)]  # one mic on one person, who comes again
    may_share = not same_person and (mhz[0] == mhz[1] or not all(mhz))
    if may_share and first.row.stated("scenes") and second.row.stated("scenes"):
        return [first, replace(second, joins=first.id)]
    sketches = _sketch(first), _sketch(second)
    choices = {SHARED: f"one pack that {one or 'one'} hands to {other or 'another'}"} if may_share else {}
    choices |= {
        PAIR: f"two packs: {first.id} and {first.id}B",
        "first": f"the first row, {sketches[0]}",
        "second": f"the second row, {sketches[1]}",
    }
    answer = ledger.ask(
        "channel-twice",
        f"{first.id}: {' | '.join(sketches)}",
        second.cell.place,
        f"channel {first.id} is in rows {first.row.number} and {second.row.number}: {', and '.join(sketches)}",
        choices,
        others=(first.cell.place,),
    )
    if answer == SHARED:
        return [first, replace(second, joins=first.id)]
    if answer == PAIR:
        return [first, replace(second, id=f"{first.id}B", doubles=first.id if same_person else "")]
    counts, left = (second, first) if answer == "second" else (first, second)
    ledger.enter(left.row.own, "repeat")
    return [replace(first, row=counts.row, cell=counts.cell)]


def _pair_up(rows: Sequence[ChannelRow]) -> list[ChannelRow]:
    """The rows with second packs said: `05B` beside `05`, or `12B` beside `12A`, on one person."""
    by_key = {key_of(row.id): row for row in rows if not row.kind}
    return [replace(row, doubles=row.doubles or _find_main(row, by_key)) for row in rows]


def _find_main(row: ChannelRow, by_key: Mapping[str, ChannelRow]) -> str:
    """The number of the row whose second pack a row is, by its letter and its performer; "" for none."""
    stem, who = key_of(row.id)[:-1], row.row.stated("performer")
    suffix = row.parts.suffix.upper()
    main = by_key.get(stem) if suffix in ("A", "B", "C") else None
    main = main or (by_key.get(stem + "a") if suffix in ("B", "C") else None)
    is_same = main and ((not who and suffix != "A") or key_of_name(who) == key_of_name(main.row.stated("performer")))
    return main.id if main and is_same else ""


def note_home(row: ChannelRow, record: DraftRecord) -> None:
    """The rack or the stage that a title above a row names, as a note where no column says it: it proves neither slot nor
    zone."""
    home = " ".join(row.row.home.split())
    is_rack = not listed_words("rack").isdisjoint(fold_word(home).split())
    is_known = is_rack and row.row.columns.has("receiver", "unit", "slot")
    said = {fold_word(cell.text) for cell in row.row.own} | {fold_word(text) for text, _ in record.notes}
    if home and not is_known and fold_word(home) not in said:
        record.notes.append((home, row.cell.place))


def find_kind(row: ChannelRow, title: str) -> str:
    """`in-ear`, `intercom`, or "" for a microphone: by the number's prefix, what it says under `Type`, the section above, or
    the table's title."""
    type_ = row.row.stated("type")
    if set(fold_word(type_).split()) & (listed_words("handheld") | listed_words("beltpack") | listed_words("lavalier")):
        return ""
    for text in (row.parts.prefix or row.parts.text, type_, row.row.section, title):
        parts = fold_word(text.replace(".", ""))
        heads = {parts, *parts.split()[:1], " ".join(parts.split()[:2])}
        if heads & listed_words("in_ear"):
            return "in-ear"
        if heads & listed_words("intercom"):
            return "intercom"
    return ""


def is_spare_row(row: ChannelRow) -> bool:
    """Whether a row is a spare: by its name, its role, its number or the section above."""
    texts = list(filter(None, (row.row.stated("performer"), row.row.stated("role"))))
    return row.parts.spare or any(map(is_spare, texts)) or (is_spare(row.row.section) and not texts)


def _values(row: ChannelRow) -> dict[int, str]:
    fields = row.row.columns.fields
    return {c: cell.text or cell.formula for c, cell in row.row.cells.items() if fields.get(c) != "ignore"}


def _sketch(row: ChannelRow) -> str:
    return quote(" ".join(filter(None, map(row.row.stated, ("performer", "role", "frequency")))))
