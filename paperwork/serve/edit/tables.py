"""A section of a show as a table to type in: its fields, its rows, and the findings at their cells, as plain values."""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from paperwork.editing.edited import EditedShow
from paperwork.files.references import list_naming, write_value
from paperwork.finding import Finding
from paperwork.model.fields import SECTIONS
from paperwork.model.kinds import LIVE, TEXT
from paperwork.model.row import Field
from paperwork.place import Place
from paperwork.raw import Map, Node
from paperwork.serve.shows import Opened
from paperwork.serve.wording import say_here
from paperwork.text.names import id_key, split_names

FIRST_COLUMNS = 2
"""Columns that a table has even while nothing is in them, beside those by which a record is known. Our own choice."""


Order = tuple[str, int, int]


class Spot(NamedTuple):
    """Where in a table a finding points: a cell, a row without a field, a section without a record."""

    section: str = ""
    record: str = ""
    field: str = ""


def describe_table(show: EditedShow, name: str) -> dict[str, Any]:
    """One section with all that is needed to edit it. Raises KeyError for a section that there is not."""
    section = SECTIONS[name]
    held = show.raw.get(name)
    records = {"": held} if section.is_single else dict(list_records(held))
    used = {key.text for record in records.values() if isinstance(record, Map) for key, _ in record.items}
    fields = [*section.fields.values(), *(Field(one, TEXT, "") for one in sorted(used - {*section.fields}))]
    return {
        "section": name,
        "word": section.word,
        "help": section.description,
        "single": section.is_single,
        "fields": [_describe_field(field, number, used) for number, field in enumerate(fields)],
        "rows": [
            {"id": id, "cells": {key.text: write_value(value) for key, value in record.items}}
            if isinstance(record, Map)
            else {"id": id, "cells": {}}
            for id, record in records.items()
        ],
        "known": {to: list_known(show, to) for field in fields for to in field.refers.split()},
        "live": describe_live(show) if name == "scenes" else {},
        "findings": list(describe_findings(show)),
    }


def list_records(held: Any) -> Iterator[tuple[str, Any]]:
    """The records of a section by their ids; none of what is not a table."""
    for key, value in held.items if isinstance(held, Map) else ():
        yield key.text, value


def _describe_field(field: Field, number: int, used: set[str]) -> dict[str, Any]:
    is_shown = field.name in used or number < FIRST_COLUMNS or field.is_marked("required") or field.is_marked("brief")
    return {
        "name": field.name,
        "title": field.title,
        "help": field.help if not field.default else field.description,
        "example": field.sample or field.kind.example,
        "choices": field.kind.choices,
        "refers": field.refers.split(),
        "many": field.kind.takes_list,
        "shown": is_shown,
        "required": field.is_marked("required"),
    }


def list_known(show: EditedShow, section: str) -> list[str]:
    """The names by which records of a section can be meant: its ids, and what other records call so already."""
    found = dict.fromkeys(key for key, _ in list_records(show.raw.get(section)))
    for of, name in sorted(list_naming(section)):
        for _, record in list_records(show.raw.get(of)):
            value = record.get(name) if isinstance(record, Map) else None
            if value is not None and SECTIONS[of].fields[name].kind != LIVE:
                found.update(dict.fromkeys(list_names(value, section)))
    built = getattr(show.reading.show, SECTIONS[section].held, None)
    return list({**found, **dict.fromkeys(built if isinstance(built, Mapping) else ())})


def list_names(value: Node, section: str) -> list[str]:
    """The names in a value; of pairs the second half where they are people."""
    parts = [part.strip() for part in write_value(value).split(",")]
    pairs = [part.partition(":") for part in parts if part]
    return [(after if section == "people" and after else before).strip() for before, _, after in pairs]


def describe_live(show: EditedShow) -> dict[str, list[str]]:
    """The roles that each scene names as live, as the table of who is live has them."""
    known = list_known(show, "roles")
    keys = {id_key(role): role for role in reversed(known)}
    return {
        id: [
            keys.get(id_key(name), name) for name in split_names(write_value(live), known, lambda n: id_key(n) in keys)
        ]
        for id, scene in list_records(show.raw.get("scenes"))
        if isinstance(scene, Map) and (live := scene.get("live")) is not None
    }


def describe_findings(show: EditedShow) -> Iterator[dict[str, Any]]:
    """Each finding with the cell that it points to."""
    marks = sorted(_list_places(show.raw), key=lambda mark: _order(mark[0]))
    starts = [_order(place) for place, _ in marks]
    for number, finding in enumerate(show.reading.findings):
        spot = _locate(finding.place, marks, starts) or _guess(finding)
        also = [_locate(place, marks, starts) for place in finding.others]
        yield {
            "number": number,
            "section": spot.section,
            "id": spot.record,
            "field": spot.field,
            "also": [one for one in also if one],
            "severity": finding.severity,
            "text": finding.text,
            "fix": say_here(finding.fix),
            "code": finding.code,
            "usable": bool(finding.edits),
            "decides": finding.row.decides,
        }


def _order(place: Place) -> Order:
    """Sheet by sheet, and in each from the top."""
    return place.sheet, place.line, place.column


def _locate(at: Place, marks: Sequence[tuple[Place, Spot]], starts: Sequence[Order]) -> Spot | None:
    """The cell of a place: the last that begins before it; in a workbook of its row. None for one in no table."""
    number = bisect_right(starts, _order(at)) - 1
    if not at.line or number < 0:
        return None
    place, spot = marks[number]
    if (place.file, place.sheet) != (at.file, at.sheet):
        return None
    if place.sheet and place != at:
        return spot._replace(field="") if place.line == at.line else None
    return spot


def _guess(finding: Finding) -> Spot:
    """A finding that points to no cell, by whom it is about."""
    about = [one for one in finding.subjects if one.section in SECTIONS]
    return Spot(about[0].section, about[0].id) if len(about) == 1 else Spot()


def _list_places(raw: Map) -> Iterator[tuple[Place, Spot]]:
    for key, held in raw.items:
        if not key.place.sheet:
            yield key.place, Spot(key.text)
        if not isinstance(held, Map):
            continue
        is_single = key.text in SECTIONS and SECTIONS[key.text].is_single
        for name, value in held.items:
            spot = Spot(key.text, "", name.text) if is_single else Spot(key.text, name.text)
            yield name.place, spot
            if is_single:
                yield value.place, spot
            for field, one in value.items if isinstance(value, Map) and not is_single else ():
                cell = spot._replace(field=field.text)
                yield one.place, cell
                if not field.place.sheet:  # in a workbook it is the heading, which all rows share
                    yield field.place, cell


def describe_state(opened: Opened) -> dict[str, Any]:
    """Around the table: what can be undone, what is not saved, and how many records each section has."""
    show = opened.open_edited()
    return {
        "undo": opened.history.undoes,
        "redo": opened.history.redoes,
        "edited": opened.is_edited,
        "saved": opened.was_saved(),
        "counts": {name: len([*list_records(show.raw.get(name))]) for name in SECTIONS},
    }
