"""Changes put to the show that they were found from: the inverse of the diff, and so its proof."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from paperwork.changes.diff import Change
from paperwork.changes.records import order_racks, put_records, records_of, rename_records
from paperwork.model import Show
from paperwork.model.fields import SECTIONS, SINGLES


def apply_changes(show: Show, changes: Sequence[Change]) -> Show:
    """The new show: `apply_changes(a, diff_shows(a, b)) == b`.

    Raises ValueError where a change does not fit the show, because it was found from another one.
    """
    for section in dict.fromkeys(change.section for change in changes if change.kind == "renamed"):
        names = {change.old: change.new for change in changes if change.kind == "renamed" and change.section == section}
        show = rename_records(show, section, names)
    for change in changes:
        if change.kind != "renamed":
            show = _apply(show, change)
    return show


def _apply(show: Show, change: Change) -> Show:
    if change.section in SINGLES:
        name = SECTIONS[change.section].held
        return replace(show, **{name: _put(getattr(show, name), change)})
    records = records_of(show, change.section)
    match change.kind:
        case "removed":
            _expect(records.pop(change.id, None) == change.old, change)
        case "added":
            _expect(change.id not in records, change)
            records[change.id] = change.new
        case "changed":
            _expect(change.id in records, change)
            records[change.id] = _put(records[change.id], change)
        case "ordered":
            _expect(set(records) == set(change.new), change)
            if change.section == "racks":
                return order_racks(show, records, change.new)
            records = {id: records[id] for id in change.new}
    return put_records(show, change.section, records)


def _put(record: Any, change: Change) -> Any:
    _expect(getattr(record, change.field) == change.old, change)
    return replace(record, **{change.field: change.new})


def _expect(fits: bool, change: Change) -> None:
    if not fits:
        raise ValueError(f"{change.section} {change.id or change.field}: found from another show")
