"""A show that may be handed on: without names of people and private notes. Roles stay."""

import itertools
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cached_property
from typing import Any

from paperwork.archive.container import read_parts
from paperwork.archive.pdf_source import read_text
from paperwork.changes.records import TABLES, put_records, records_of, rename_records
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, Subject, find
from paperwork.model import Show, VenueRow
from paperwork.model.fields import SECTIONS
from paperwork.model.row import Field, Section
from paperwork.place import Place
from paperwork.text.names import fold, match_names

NAME = "(name)"
"""What stands where a name stood inside a text."""


@dataclass(frozen=True)
class Secrets:
    """What must not be handed on, and what was taken out, in plain words.

    `names` are people, looked for in any case; `texts` are notes and the like. `ids` are the new ids of records whose
    own held a name, by section.
    """

    names: tuple[str, ...]
    texts: tuple[str, ...]
    removed: tuple[str, ...]
    ids: Mapping[str, Mapping[str, str]]

    def hide(self, text: str) -> str:
        """The text with every secret in it replaced."""
        text = self._texts.sub(NAME, text) if self.texts else text
        return self._names.sub(NAME, text) if self.names else text

    def hide_findings(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """Findings without secrets in words and subjects; none is left out, because each puts a stamp on its sheets."""
        return tuple(
            replace(
                one,
                text=self.hide(one.text),
                fix=self.hide(one.fix),
                subjects=tuple(map(self._hide_subject, one.subjects)),
                edits=(),
            )
            for one in findings
        )

    def find_name(self, text: str) -> str:
        """The first name in a text, as it is written there, or ""."""
        found = self._names.search(text) if self.names else None
        return found[0] if found else ""

    def _hide_subject(self, subject: Subject) -> Subject:
        return replace(subject, id=self.ids.get(subject.section, {}).get(subject.id) or self.hide(subject.id))

    @cached_property
    def _names(self) -> re.Pattern[str]:
        return match_names(self.names)

    @cached_property
    def _texts(self) -> re.Pattern[str]:
        listed = "|".join(re.escape(text) for text in sorted(self.texts, key=lambda text: (-len(text), text)))
        return re.compile(rf"(?<!\w)(?:{listed})(?!\w)")


def make_public(show: Show) -> tuple[Show, Secrets]:
    """The show without records of somebody (people, covers, looks) and private texts; names elsewhere are hidden.

    What is marked personal in the table of fields is what goes, so that a new field cannot be forgotten. A role that is
    called by one word as somebody is a role, and stays; so does a word of the title.
    """
    secrets = _find_secrets(show)
    for name, ids in secrets.ids.items():
        show = rename_records(show, name, ids)
    kept = {id: row for id, row in show.venues.items() if not _field_of(row).is_marked("personal")}
    show = replace(show, production=_bare(show.production, SECTIONS["show"], show), venues=kept)
    for name in TABLES:
        section = SECTIONS[name]
        bare = {id: _bare(record, section, show) for id, record in records_of(show, name).items()}
        show = put_records(show, name, {} if _is_about_somebody(section) else bare)
    return _hide(show, secrets), secrets


def refuse_names(data: bytes, secrets: Secrets, name: str) -> None:
    """Raises Refused where a finished archive holds a name after all, in a file as a reader would read it."""
    _, parts = read_parts(data, name)[0]
    for part in parts:
        content = part.data or b""
        text = read_text(content) if part.name.endswith(".pdf") else content.decode("utf-8", "replace")
        if held := secrets.find_name(f"{part.name}\n{text}"):
            raise Refused(find("archive-public-name", Place(name), file=part.name, held=held))


def _field_of(row: VenueRow) -> Field:
    return SECTIONS[row.section].fields[row.name]


def _is_about_somebody(section: Section) -> bool:
    """Whether each record is about a person: all of its fields are personal, or one that it must have is."""
    personal = [field for field in section.fields.values() if field.is_marked("personal")]
    return len(personal) == len(section.fields) or any(field.is_marked("required") for field in personal)


def _list_private(section: Section, record: Any, show: Show) -> Iterator[tuple[str, Any]]:
    """The attributes of a record that must not be handed on, with their values."""
    for field in section.fields.values():
        for attr in field.attrs if field.is_marked("personal") else ():
            value = getattr(record, attr)
            if value and not (field.refers == "roles" and all(item in show.roles for item in value)):
                yield attr, value


def _bare(record: Any, section: Section, show: Show) -> Any:
    defaults = {one.name: one.default for one in fields(record)}
    return replace(record, **{attr: defaults[attr] for attr, _ in _list_private(section, record, show)})


def _find_secrets(show: Show) -> Secrets:
    names: set[str] = {person.short for person in show.people.values()}
    texts: set[str] = set()
    for name in ("show", *TABLES):
        section = SECTIONS[name]
        records = {"": show.production} if name == "show" else records_of(show, name)
        if section.fields and all(field.is_marked("personal") for field in section.fields.values()):
            names |= records.keys()
        for record in records.values():
            own, said = _sort_private(section, record, show)
            names |= own
            texts |= said
    public = _list_public(show)
    kept = tuple(sorted(name for name in names if name and (len(name.split()) > 1 or fold(name) not in public)))
    return _list_ids(show, Secrets(kept, tuple(sorted(texts)), _count(show, names, texts), {}))


def _sort_private(section: Section, record: Any, show: Show) -> tuple[set[str], set[str]]:
    """The names in what a record must not hand on, and its other texts."""
    people = {attr for field in section.fields.values() if "people" in field.refers.split() for attr in field.attrs}
    names, texts = set[str](), set[str]()
    for attr, value in _list_private(section, record, show):
        if attr in people:
            names |= set(_texts_in(value))
        elif isinstance(value, tuple):
            names |= set(_texts_in(value)) - set(show.roles)
        elif isinstance(value, str) and not _is_about_somebody(section):
            texts.add(value)
    return names, texts


def _list_public(show: Show) -> set[str]:
    """Words that stay though somebody is called so: roles not called by their performer, words of the title."""
    by_name = {id for role in show.roles.values() for id in role.group if show.roles[id].by == id}
    return {fold(id) for id in show.roles if id not in by_name} | set(re.findall(r"\w+", fold(show.production.title)))


def _texts_in(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts_in(item)


def _count(show: Show, names: set[str], texts: set[str]) -> tuple[str, ...]:
    notes = {channel.notes for channel in show.channels.values()} - {""}
    removed = (
        (len(names - {""} - set(show.roles)), "names of people"),
        (len(show.people), "records of people"),
        (len(show.covers), "covers"),
        (len(show.looks), "looks"),
        (len(notes), "notes"),
        (len(texts - notes), "contacts"),
    )
    return tuple(f"{count} {what}" for count, what in removed if count)


def _list_ids(show: Show, secrets: Secrets) -> Secrets:
    """The secrets, with a new id for each record whose own holds one: counted where it would be nothing but a name, or
    another's."""
    ids: dict[str, dict[str, str]] = {}
    for section in (name for name in TABLES if not _is_about_somebody(SECTIONS[name])):
        hidden = {id: secrets.hide(id) for id in sorted(records_of(show, section))}
        taken = {id for id, new in hidden.items() if new == id}
        for id, new in hidden.items():
            if new == id:
                continue
            numbered = (f"{new} {number}" for number in itertools.count(1))
            free = next(one for one in itertools.chain((new,) if new != NAME else (), numbered) if one not in taken)
            taken.add(free)
            ids.setdefault(section, {})[id] = free
    return replace(secrets, ids=ids)


def _hide(value: Any, secrets: Secrets) -> Any:
    """The value with the secrets hidden in each of its texts; ids are left, since other records name them."""
    if is_dataclass(value) and not isinstance(value, type):
        held = {f.name: getattr(value, f.name) for f in fields(value) if f.compare and f.name != "id"}
        changed = {name: _hide(item, secrets) for name, item in held.items()}
        return replace(value, **{name: item for name, item in changed.items() if item != held[name]})
    if isinstance(value, str):
        return secrets.hide(value)
    if isinstance(value, tuple):
        hidden = [_hide(item, secrets) for item in value]
        return type(value)(*hidden) if hasattr(value, "_fields") else tuple(hidden)
    if isinstance(value, Mapping):
        return {key: _hide(item, secrets) for key, item in value.items()}
    return value
