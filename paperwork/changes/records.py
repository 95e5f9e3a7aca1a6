"""The sections of a show as one shape, and which fields name a record of which section."""

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from paperwork.model import Output, Show, Slot
from paperwork.names import natural_key

SINGLES: Mapping[str, str] = {"show": "production", "day": "day", "spectrum": "spectrum"}
"""Sections that are one record, and what the model calls them."""

TABLES = (
    "radios",
    "people",
    "capsules",
    "transmitters",
    "racks",
    "consoles",
    "others",
    "roles",
    "channels",
    "scenes",
    "moves",
    "looks",
    "covers",
    "venues",
)
"""Sections of records by id. One stands behind all that it names, so that renames are known before they are met."""

ORDERED = ("scenes", "covers")
"""Sections whose order is a fact."""

REFERENCES: Mapping[str, tuple[tuple[str, str], ...]] = {
    "radios": (("transmitters", "radio"), ("channels", "radio")),
    "people": (
        ("others", "listeners"),
        ("roles", "by"),
        ("roles", "alternates"),
        ("channels", "by"),
        ("looks", "by"),
        ("covers", "by"),
    ),
    "capsules": (("channels", "capsule"), ("covers", "capsule")),
    "transmitters": (("channels", "pack"), ("others", "packs")),
    "racks": (("channels", "slots"),),
    "consoles": (("racks", "outputs"), ("racks", "clock"), ("consoles", "clock")),
    "roles": (("roles", "group"), ("channels", "roles"), ("scenes", "live"), ("moves", "role"), ("covers", "role")),
    "channels": (("channels", "backs"), ("channels", "doubles"), ("channels", "alternate"), ("covers", "channel")),
    "scenes": (("moves", "scene"), ("looks", "scene"), ("covers", "scenes")),
}
"""For each section the fields, of any section, that hold its ids."""


def records_of(show: Show, section: str) -> dict[str, Any]:
    """The records of a table by id, in the order of the show."""
    held = getattr(show, section)
    return {record.id: record for record in held} if section in ORDERED else dict(held)


def facts_of(record: Any) -> dict[str, Any]:
    """The values of a record by field, without its id and without where it was written."""
    return {f.name: getattr(record, f.name) for f in fields(record) if f.compare and f.name != "id"}


def put_records(show: Show, section: str, records: Mapping[str, Any]) -> Show:
    """The show with other records in one table; tables without an order of their own are sorted as people count."""
    table: Any = tuple(records.values())
    if section not in ORDERED:
        table = dict(sorted(records.items(), key=lambda item: natural_key(item[0])))
    return replace(show, **{section: table})


def rename_records(show: Show, section: str, names: Mapping[str, str]) -> Show:
    """The show with other ids in one table, and wherever these are named."""
    if not names:
        return show
    renamed = (replace(record, id=names.get(id, id)) for id, record in records_of(show, section).items())
    show = put_records(show, section, {record.id: record for record in renamed})
    for place, field in REFERENCES.get(section, ()):
        held = {
            id: replace(record, **{field: _swap(getattr(record, field), names)})
            for id, record in records_of(show, place).items()
        }
        show = put_records(show, place, held)
    return show


def contexts_of(show: Show, section: str) -> dict[str, frozenset[tuple[str, str, str]]]:
    """Where each id of a table is named: the section, record and field of every naming."""
    found: dict[str, set[tuple[str, str, str]]] = {id: set() for id in records_of(show, section)}
    for place, field in REFERENCES.get(section, ()):
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
