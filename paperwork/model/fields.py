"""Every section and field of the show file, each stated once: what other rooms print, read, check and compare by."""

from collections.abc import Iterator, Mapping
from functools import cache

from paperwork.model.company_fields import COMPANY
from paperwork.model.house_fields import HOUSE
from paperwork.model.outside_fields import OUTSIDE
from paperwork.model.pack_fields import PACKS
from paperwork.model.row import Field, Section

SECTIONS: Mapping[str, Section] = {section.name: section for section in (*HOUSE, *PACKS, *COMPANY, *OUTSIDE)}
"""The sections by name, in the order of the published schema."""

SINGLES = tuple(name for name, section in SECTIONS.items() if section.is_single)
"""The sections that are one record."""


@cache
def fields_by_attr(section: str) -> Mapping[str, Field]:
    """The first field that holds each attribute of a section's records; an attribute that no field holds has none."""
    fields = reversed([*SECTIONS[section].fields.values()])
    return {attr: field for field in fields for attr in field.attrs}


def list_marked(mark: str) -> dict[str, tuple[str, ...]]:
    """The names of the fields that have a mark, by section; sections without one are left out."""
    found = {
        name: tuple(field.name for field in section.fields.values() if field.is_marked(mark))
        for name, section in SECTIONS.items()
    }
    return {name: fields for name, fields in found.items() if fields}


def list_references() -> Iterator[tuple[str, Field, str]]:
    """Each section and field that holds ids, with the section whose ids they are."""
    for section in SECTIONS.values():
        for field in section.fields.values():
            yield from ((section.name, field, to) for to in field.refers.split())


def name_record(section: str, id: str) -> str:
    """What to call one record in a sentence: `channel 01`, `person Mara Lind`; `show` for the one of its section."""
    return f"{SECTIONS[section].word} {id}".strip()
