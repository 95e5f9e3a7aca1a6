"""Two shows to changes. Renames are found first, so that a new name is one change and not one wherever it is used."""

from collections import Counter
from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from typing import Any, Literal, TypeAlias

from paperwork.changes.records import TABLES, contexts_of, expect_racks, facts_of, records_of, rename_records
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.text.names import fold

Kind: TypeAlias = Literal["renamed", "removed", "added", "changed", "ordered"]

ALIKE = 0.6
"""How alike two names must be to be spellings of one person's, on the scale of `difflib`: its own default for a close
match. Another body with the same room and pouch is a change of cast, never a rename."""


IDEAS = ("roles", "scenes")
"""Sections of what is no thing and no body: named in just the same places, it is the same under another name."""


@frozen
class Change:
    """One fact that differs.

    `renamed`: `old` and `new` are ids. `removed` and `added`: `old` or `new` is the whole record. `changed`: `field`
    was `old` and is `new`. `ordered`: `old` and `new` are the ids of an ordered section. `id` is that of the new show
    where it has one, "" for a section that is one record or for an order.
    """

    kind: Kind
    section: str
    id: str = ""
    field: str = ""
    old: Any = None
    new: Any = None


def diff_shows(old: Show, new: Show) -> tuple[Change, ...]:
    """Everything that turns the old show into the new one, in the order in which it must be applied.

    Equal shows give nothing. Records that changed their place in an ordered section are one change of the
    section, since each place depends on the others.
    """
    changes: list[Change] = []
    for section in TABLES:
        names = find_renames(old, new, section)
        changes += (Change("renamed", section, now, old=id, new=now) for id, now in names.items())
        old = rename_records(old, section, names)
    for section in SINGLES:
        name = SECTIONS[section].held
        changes += _diff_record(section, "", getattr(old, name), getattr(new, name))
    for section in TABLES:
        changes += _diff_table(section, old, new)
    return tuple(changes)


def find_renames(old: Show, new: Show, section: str) -> dict[str, str]:
    """Old ids to new ones: for what is gone and what is new, each matched by a serial, or by all else that is stated.

    Only a pair that can be matched in one way counts. A role, a scene, or a record of which nothing else is stated is
    also matched by where it is named; people must moreover have names that are alike.
    """
    before, after = records_of(old, section), records_of(new, section)
    gone = {id: record for id, record in before.items() if id not in after}
    come = {id: record for id, record in after.items() if id not in before}
    if not gone or not come:
        return {}
    found: dict[str, str] = {}
    for ours, theirs in zip(_list_signs(old, section, gone), _list_signs(new, section, come), strict=True):
        pairs = _match(
            {id: s for id, s in ours.items() if id not in found},
            {id: s for id, s in theirs.items() if id not in found.values()},
        )
        found |= {a: b for a, b in pairs.items() if section != "people" or _are_alike(a, b)}
    return found


def _list_signs(show: Show, section: str, records: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """What records can be matched by: their serials, all else that they state, and where they are named."""
    stated, places = {id: _sign(record) for id, record in records.items()}, contexts_of(show, section)
    yield {id: getattr(record, "serial", "") for id, record in records.items()}
    yield stated
    yield {id: places[id] for id in records if section in IDEAS or not stated[id]}


def _match(ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> dict[str, str]:
    """The pairs whose sign is stated, equal, and found once on either side."""
    once = {sign for sign, count in Counter(ours.values()).items() if count == 1 and sign}
    by_sign = {sign: id for id, sign in theirs.items()}
    alone = {sign for sign, count in Counter(theirs.values()).items() if count == 1}
    return {id: by_sign[sign] for id, sign in ours.items() if sign in once & alone}


def _sign(record: Any) -> tuple[tuple[str, Any], ...]:
    """What a record states beside its id. A pack of the channel's own number is its default."""
    blank = facts_of(type(record)(id=record.id))
    stated = facts_of(record)
    if stated.get("pack") == record.id:
        stated["pack"] = ""
    return tuple((name, value) for name, value in stated.items() if value != blank[name])


def _are_alike(one: str, other: str) -> bool:
    return SequenceMatcher(None, fold(one), fold(other)).ratio() >= ALIKE


def _diff_table(section: str, old: Show, new: Show) -> list[Change]:
    before, after = records_of(old, section), records_of(new, section)
    changes = [Change("removed", section, id, old=record) for id, record in before.items() if id not in after]
    changes += (Change("added", section, id, new=record) for id, record in after.items() if id not in before)
    for id, record in after.items():
        if id in before:
            changes += _diff_record(section, id, before[id], record)
    if SECTIONS[section].order:
        order = tuple(id for id in before if id in after) + tuple(id for id in after if id not in before)
        order = expect_racks(tuple(before), tuple(after)) if section == "racks" else order
        if order != tuple(after):
            changes.append(Change("ordered", section, old=order, new=tuple(after)))
    return changes


def _diff_record(section: str, id: str, old: Any, new: Any) -> list[Change]:
    theirs = facts_of(new)
    return [
        Change("changed", section, id, name, value, theirs[name])
        for name, value in facts_of(old).items()
        if value != theirs[name]
    ]
