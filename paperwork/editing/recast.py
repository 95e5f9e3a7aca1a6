"""Somebody else plays the part: what changes in people, roles, channels, looks and covers, as one set of edits."""

from collections.abc import Iterator, Sequence

from paperwork.editing.merging import add_record
from paperwork.files.references import replace_references, write_value
from paperwork.finding import Edit
from paperwork.raw import Map
from paperwork.text.names import fold

GOES_WITH_THE_PART = ("room", "pouch", "second pouch")
"""What somebody new takes over. Sizes, colours and names are of a body and stay with it. Common practice, no source."""


def list_recast(raw: Map, old: str, new: str, known: Sequence[str], *, stays: bool = False) -> tuple[Edit, ...]:
    """The edits by which `new` plays whatever `old` did, and wears it. `known` are all names of the company.

    With `stays` the one who played it goes on as its cover, and keeps what else names them; else they leave the
    company. Whoever covered the part that they now play does not any more. Raises ValueError where the names say
    nothing.
    """
    if not old.strip() or not new.strip():
        raise ValueError("a recast needs two names: who leaves the part, and who plays it")
    if fold(old) == fold(new):
        raise ValueError(f"{new} plays it already")
    if old not in known:
        raise ValueError(f"{old} plays nothing in this show")
    parts = list_parts(raw, old)
    if stays and not parts:
        raise ValueError(f"{old} plays no role that could be covered")
    edits = [*_list_followed(raw, old, new, known, stays=stays), *_list_people(raw, old, new, stays=stays)]
    dropped = {id for id, role, by in _list_covers(raw) if role in parts and fold(by) == fold(new)}
    edits += [Edit("covers", id, "", "") for id in sorted(dropped)]
    if stays:
        taken = {id for id, _, _ in _list_covers(raw)}
        free = (f"c{number}" for number in range(1, len(taken) + len(parts) + 2) if f"c{number}" not in taken)
        for id, role in zip(free, parts, strict=False):
            edits += [Edit("covers", id, "role", role), Edit("covers", id, "by", old)]
    return tuple(edits)


def list_parts(raw: Map, name: str) -> tuple[str, ...]:
    """The roles that somebody plays, by the roles and by the channels."""
    parts: dict[str, None] = {}
    for id, record in _list_records(raw, "roles"):
        if fold(_value(record, "by")) == fold(name):
            parts[id] = None
    for _, record in _list_records(raw, "channels"):
        if fold(_value(record, "by")) == fold(name):
            parts.update(dict.fromkeys(filter(None, map(str.strip, _value(record, "role").split(",")))))
        for pair in _value(record, "shared").split(","):
            role, _, by = pair.partition(":")
            if fold(by.strip()) == fold(name):
                parts[role.strip()] = None
    return tuple(parts)


def _list_followed(raw: Map, old: str, new: str, known: Sequence[str], *, stays: bool) -> Iterator[Edit]:
    """Whatever names them names the other; who stays keeps the covers of other roles, and what they listen to."""
    for edit in replace_references(raw, "people", old, new, known):
        if not stays or edit.section in ("roles", "channels", "looks"):
            yield edit


def _list_people(raw: Map, old: str, new: str, *, stays: bool) -> Iterator[Edit]:
    people = dict(_list_records(raw, "people"))
    if raw.get("people") is None or (old not in people and new in people):
        return
    left, held = people.get(old), people.get(new)
    taken = [(name, _value(left, name)) for name in GOES_WITH_THE_PART if left is not None and not stays]
    given = [Edit("people", new, name, value) for name, value in taken if value and not (held and _value(held, name))]
    yield from given
    if held is None and not given:
        yield from add_record("people", new)
    if left is not None and not stays:
        yield Edit("people", old, "", "")


def _list_covers(raw: Map) -> Iterator[tuple[str, str, str]]:
    for id, record in _list_records(raw, "covers"):
        yield id, _value(record, "role"), _value(record, "by")


def _list_records(raw: Map, section: str) -> Iterator[tuple[str, Map]]:
    held = raw.get(section)
    for key, record in held.items if isinstance(held, Map) else ():
        yield key.text, record if isinstance(record, Map) else Map((), key.place)


def _value(record: Map, name: str) -> str:
    value = record.get(name)
    return write_value(value) if value is not None else ""
