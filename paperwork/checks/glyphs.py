"""Texts that would be printed, against the signs that the shipped fonts have."""

from collections.abc import Iterator, Mapping
from dataclasses import fields
from typing import Any

from paperwork.finding import Finding, Subject, find
from paperwork.glyphs import missing_glyphs
from paperwork.model import Show, Where

SECTIONS = (
    "radios", "racks", "consoles", "others", "transmitters", "capsules", "people", "roles", "channels", "scenes",
    "moves", "looks", "covers", "venues",
)


def check_glyphs(show: Show) -> Iterator[Finding]:
    """Every text of every record can be drawn; each text that cannot is told once, where it first stands."""
    told: set[str] = set()
    yield from _check_record("", show.production, told)
    for section in SECTIONS:
        records = getattr(show, section)
        for record in records.values() if isinstance(records, Mapping) else records:
            yield from _check_record(section, record, told)


def _check_record(section: str, record: Any, told: set[str]) -> Iterator[Finding]:
    about = (Subject(section, record.id),) if section else ()
    for field in fields(record):
        value = getattr(record, field.name)
        for text in value if isinstance(value, tuple) else (value,):
            if not isinstance(text, str) or text.isascii() or text in told:
                continue
            signs = missing_glyphs(text)
            if signs:
                told.add(text)
                yield find(
                    "glyph-missing", _place_of(record.where, field.name), about=about, text=text,
                    signs=" ".join(f"{sign} (U+{ord(sign[-1]):04X})" for sign in signs),
                )


def _place_of(where: Where, name: str):
    """The place of a field; a role's name came in with `role` or `shared` of its channel."""
    spelled = {"id": "", "roles": "role"}.get(name, name)
    return where.record if not spelled else where[spelled] if spelled in where else where["shared"]


CHECKS = (check_glyphs,)
