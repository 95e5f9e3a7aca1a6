"""The sections of a show as one shape, and which fields name a record of which section."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

from paperwork.model import Output, Show, Slot
from paperwork.model.fields import SECTIONS, SINGLES, list_references
from paperwork.text.names import list_unsorted, natural_key

_FIRST = ("radios", "people", "capsules", "transmitters")
TABLES = tuple(dict.fromkeys((*_FIRST, *(name for name in SECTIONS if name not in SINGLES))))
"""Sections of records by id. One is behind all that it names, so that renames are known before they are met."""

REFERENCES: Mapping[str, tuple[tuple[str, str], ...]] = {
    section: tuple(
        dict.fromkeys((of, field.attrs[-1]) for of, field, to in list_references() if to == section and field.attrs)
    )
    for section in TABLES
}
"""For each section the attributes of records, of any section, that hold its ids."""


def records_of(show: Show, section: str) -> dict[str, Any]:
    """The records of a table by id, in the order of the show."""
    held = getattr(show, section)
    return {record.id: record for record in held} if isinstance(held, tuple) else dict(held)


def facts_of(record: Any) -> dict[str, Any]:
    """The values of a record by field, without its id and without where it was written."""
    return {f.name: getattr(record, f.name) for f in fields(record) if f.compare and f.name != "id"}


def put_records(show: Show, section: str, records: Mapping[str, Any]) -> Show:
    """The show with other records in one table; tables without an order of their own are sorted as people count. Racks
    are, where they were; where not, new ones come last."""
    if section == "racks":
        return order_racks(show, records, _arrange_racks(show.rack_order, records))
    table: Any = tuple(records.values())
    if not SECTIONS[section].order:
        table = dict(sorted(records.items(), key=lambda item: natural_key(item[0])))
    return replace(show, **{section: table})


def _arrange_racks(order: Sequence[str], ids: Iterable[str]) -> tuple[str, ...]:
    place = {id: number for number, id in enumerate(order)}
    return tuple(sorted(ids, key=lambda id: (place.get(id, len(place)), natural_key(id))))


def expect_racks(before: Sequence[str], after: Sequence[str]) -> tuple[str, ...]:
    """The order that racks have when those that are gone are taken out, one by one, and new ones put in."""
    ids = tuple(id for id in before if id in after)
    for id in after:
        if id not in before:
            ids = _arrange_racks(list_unsorted(ids), (*ids, id))
    return ids


def order_racks(show: Show, records: Mapping[str, Any], ids: Sequence[str]) -> Show:
    """The show with these racks in this order."""
    return replace(show, racks={id: records[id] for id in ids}, rack_order=list_unsorted(ids))


def rename_records(show: Show, section: str, names: Mapping[str, str]) -> Show:
    """The show with other ids in one table, and wherever these are named."""
    if not names:
        return show
    renamed = (replace(record, id=names.get(id, id)) for id, record in records_of(show, section).items())
    records = {record.id: record for record in renamed}
    show = order_racks(show, records, tuple(records)) if section == "racks" else put_records(show, section, records)
    for place, field in REFERENCES[section]:
        held = {
            id: replace(record, **{field: _swap(getattr(record, field), names)})
            for id, record in records_of(show, place).items()
        }
        show = put_records(show, place, held)
    return show


def contexts_of(show: Show, section: str) -> dict[str, frozenset[tuple[str, str, str]]]:
    """Where each id of a table is named: the section, record and field of every naming."""
    found: dict[str, set[tuple[str, str, str]]] = {id: set() for id in records_of(show, section)}
    for place, field in REFERENCES[section]:
        for id, record in records_of(show, place).items():
            for named in _named(getattr(record, field)):
                if named in found:
                    found[named].add((place, id, field))
    return {id: frozenset(places) for id, places in found.items()}


def _swap(value: Any, names: Mapping[str, str]) -> Any:
    match value:
        case str():
            return names.get(value, value)
        case Slot():
            return replace(value, rack=names.get(value.rack, value.rack))
        case Output():
            return replace(value, console=names.get(value.console, value.console))
        case tuple():
            return tuple(_swap(item, names) for item in value)
    return value


def _named(value: Any) -> tuple[str, ...]:
    match value:
        case str():
            return (value,)
        case Slot():
            return (value.rack,)
        case Output():
            return (value.console,)
        case tuple():
            return tuple(name for item in value for name in _named(item))
    return ()
