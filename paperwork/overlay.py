"""Overlays: what is different in one venue, or tonight, as small tables over Raw.

A row says section, record, field and value; the value keeps its own place, so that a slip in it is found where it was
written. What a row may touch is marked in the table of fields: from town to town the spectrum changes and the company
does not, and for one night somebody steps in while the racks stay as they are.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from paperwork.finding import Edit, Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.model import VenueRow
from paperwork.model.fields import SINGLES, list_marked
from paperwork.place import Place
from paperwork.raw import Map, Node, Text
from paperwork.text.names import Hints, fold, id_key, join_words, nearest

VENUE: Mapping[str, tuple[str, ...]] = list_marked("venue")
"""What a venue may change: the house, its air and its patch, and the rooms."""

TONIGHT: Mapping[str, tuple[str, ...]] = list_marked("tonight")
"""What one night may change: who is on, with which pack, tape, capsule and spare, and a bad frequency."""

_STALE = {(section, "mhz"): ("asked", "granted") for section in ("channels", "others")}
"""What falls with a value that a row replaces: a grant is for one frequency, and another house answers anew."""

_BORROWED = ("racks", "channels")
"""What a venue may have more: a rack of the house, once a row of it says which channels are in it."""


@frozen
class Row:
    """One value that is different. `place` is where the row was written."""

    id: str
    section: str
    record: str
    name: str
    value: Text
    place: Place
    venue: str = ""


def read_rows(raw: Map) -> tuple[Row, ...]:
    """The rows of the section `venues`. Rows that are not whole are left to the schema."""
    section = raw.get("venues")
    rows = []
    for key, node in section.items if isinstance(section, Map) else ():
        texts = (
            {name.text: value for name, value in node.items if isinstance(value, Text)} if isinstance(node, Map) else {}
        )
        if {"venue", "section", "field", "value"} <= texts.keys():
            of, record, name, venue = (
                texts[key].text.strip() if key in texts else "" for key in ("section", "record", "field", "venue")
            )
            rows.append(Row(key.text, of, record, name, texts["value"], texts["field"].place, venue))
    return tuple(rows)


def state_in_venue(rows: Iterable[Row | VenueRow], venue: str, wanted: Sequence[Edit]) -> list[Edit]:
    """Values of the show as they are in one venue: put into its rows, and into new ones, numbered on from the last."""
    rows = tuple(rows)
    own = {(*_key(row), row.name): row.id for row in rows if fold(row.venue) == fold(venue)}
    spelled = next((row.venue for row in rows if fold(row.venue) == fold(venue)), venue)
    numbers = [int(row.id[1:]) for row in rows if row.id[:1] == "v" and row.id[1:].isascii() and row.id[1:].isdigit()]
    edits: list[Edit] = []
    fresh: list[list[Edit]] = []
    for one in wanted:
        held = own.get((one.section, id_key(one.record), one.field))
        if held:
            edits.append(Edit("venues", held, "value", one.value))
        else:
            texts = {"venue": spelled, "section": one.section, "record": one.record, "field": one.field}
            id = f"v{max(numbers, default=0) + len(fresh) + 1}"
            fresh.append(
                [Edit("venues", id, name, text) for name, text in {**texts, "value": one.value}.items() if text]
            )
    most = max(map(len, fresh), default=0)
    # One field of every row at a time: the records are then all new at once, which an editor of text can splice in one go.
    return edits + [row[at] for at in range(most) for row in fresh if at < len(row)]


def check_rows(raw: Map, rows: Iterable[Row], allowed: Mapping[str, tuple[str, ...]] = VENUE) -> Iterator[Finding]:
    """Rows that touch what they may not, and rows about records that do not exist."""
    hints, rows = Hints(), tuple(rows)
    borrowed = {(fold(row.venue), *_key(row)) for row in rows if row.venue and (row.section, row.name) == _BORROWED}
    for row in rows:
        about = (Subject("venues", row.id),)
        if row.name not in allowed.get(row.section, ()):
            fields = allowed.get(row.section, ())
            words = f"{join_words(fields)} of {row.section}" if fields else f"the sections {join_words(allowed)}"
            yield find(
                "overlay-field-barred",
                row.place,
                about=about,
                row=row.id,
                name=row.name,
                section=row.section,
                allowed=words,
            )
        elif (
            row.section not in SINGLES and _find_key(raw, row) is None and (fold(row.venue), *_key(row)) not in borrowed
        ):
            section = raw.get(row.section)
            known = [key.text for key, _ in section.items] if isinstance(section, Map) else []
            yield find(
                "overlay-record-unknown",
                row.place,
                about=about,
                row=row.id,
                record=row.record or "nothing",
                section=row.section,
                at=about[0] if row.venue else None,
                near=hints.nearest(row.record, known),
            )


def check_doubles(rows: Iterable[Row]) -> Iterator[Finding]:
    """Rows that give a field another value than a row before them, in the same venue or for the same night."""
    first: dict[tuple[str, ...], Row] = {}
    for row in rows:
        other = first.setdefault((fold(row.venue), *_key(row), row.name), row)
        if other.value.text != row.value.text:
            yield find(
                "overlay-row-doubled",
                row.value.place,
                about=(Subject("venues", row.id),),
                others=(other.value.place,),
                row=row.id,
                first=other.id,
                name=row.name,
                record=row.record or row.section,
                value=row.value.text,
                other=other.value.text,
            )


def apply_venue(raw: Map, venue: str) -> tuple[Map, tuple[Finding, ...]]:
    """The show as it is in one venue, and what is wrong with the rows of all venues; "" changes nothing."""
    rows = read_rows(raw)
    found = [*check_rows(raw, rows), *check_doubles(rows)]
    names = dict.fromkeys(row.venue for row in rows)
    if venue and fold(venue) not in map(fold, names):
        section = raw.get("venues")
        place = section.place if isinstance(section, Map) else raw.place
        known = f"the venues are {join_words(names)}" if names else "add it to venues, or leave --venue out"
        found.append(find("venue-unknown", place, venue=venue, known=known, near=nearest(venue, names)))
    if found or not venue:
        return raw, tuple(found)
    return apply_rows(raw, (row for row in rows if fold(row.venue) == fold(venue))), ()


def apply_rows(raw: Map, rows: Iterable[Row]) -> Map:
    """Raw with each row's value in its place. The rows must have passed `check_rows`."""
    rows = tuple(rows)
    given = {(*_key(row), row.name) for row in rows}
    for row in rows:
        section = raw.get(row.section)
        base = section if isinstance(section, Map) else Map((), row.place)
        if row.section in SINGLES:
            changed = _put(base, row.name, row.value, row.place)
        else:
            id = _find_key(raw, row) or row.record
            record = base.get(id) or Map((), row.place)
            if isinstance(record, Map):
                stale = {name for name in _STALE.get((row.section, row.name), ()) if (*_key(row), name) not in given}
                kept = Map(tuple(item for item in record.items if item[0].text not in stale), record.place)
                changed = _put(base, id, _put(kept, row.name, row.value, row.place), row.place)
            else:
                changed = base
        raw = _put(raw, row.section, changed, row.place)
    return raw


def _key(row: Row | VenueRow) -> tuple[str, str]:
    return row.section, id_key(row.record)


def _find_key(raw: Map, row: Row) -> str | None:
    """The id of the record that a row names, as its section spells it."""
    section = raw.get(row.section)
    keys = [key.text for key, value in section.items if isinstance(value, Map)] if isinstance(section, Map) else []
    return next(
        (key for key in keys if key == row.record),
        next((key for key in keys if id_key(key) == id_key(row.record)), None),
    )


def _put(node: Map, name: str, value: Node, place: Place) -> Map:
    if node.get(name) is None:
        return Map((*node.items, (Text(name, place), value)), node.place)
    return Map(tuple((key, value if key.text == name else old) for key, old in node.items), node.place)
