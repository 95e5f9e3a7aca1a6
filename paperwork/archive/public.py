"""A show that may be handed on: without names of people and private notes. Roles stay."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cached_property
from typing import Any

from paperwork.changes.records import rename_records
from paperwork.finding import Finding, Subject
from paperwork.model import Show, VenueRow
from paperwork.model.fields import SECTIONS
from paperwork.model.row import Field

NAME = "(name)"
"""What stands where a name stood inside a text."""


@dataclass(frozen=True)
class Secrets:
    """The texts that must not be handed on, and what was taken out, in plain words.

    `roles` are the new names of those who are roles by being in a group: such a role is a person's name.
    """

    texts: tuple[str, ...]
    removed: tuple[str, ...]
    roles: Mapping[str, str]

    def hide(self, text: str) -> str:
        """The text with every secret in it replaced."""
        return self._pattern.sub(NAME, text) if self.texts else text

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

    def _hide_subject(self, subject: Subject) -> Subject:
        if subject.section == "roles":
            return replace(subject, id=self.roles.get(subject.id, subject.id))
        return replace(subject, id=self.hide(subject.id)) if subject.section == "people" else subject

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """The longest first, whole words only, so that no name is found inside another word."""
        listed = "|".join(re.escape(text) for text in sorted(self.texts, key=lambda text: (-len(text), text)))
        return re.compile(rf"(?<!\w)(?:{listed})(?!\w)")


def make_public(show: Show) -> tuple[Show, Secrets]:
    """The show without performers, people, covers, looks, listeners, contacts and notes; names in other texts are hidden.

    A role that is called like somebody is a role, and stays; a member of a group who is only there by name does not.
    """
    members = {id for role in show.roles.values() for id in role.group if show.roles[id].by == id}
    roles = {id: f"{NAME} {number}" for number, id in enumerate(sorted(members), 1)}
    show = rename_records(show, "roles", roles)
    secrets = _find_secrets(show, roles)
    venues = {id: row for id, row in show.venues.items() if not _field_of(row).is_marked("personal")}
    bare = replace(
        show,
        production=replace(show.production, contact="", returns=""),
        others={id: replace(other, listeners=()) for id, other in show.others.items()},
        people={},
        roles={id: replace(role, by="", alternates=()) for id, role in show.roles.items()},
        channels={id: replace(channel, by="", notes="") for id, channel in show.channels.items()},
        looks={},
        covers=(),
        venues=venues,
        performances={id: replace(one, cast=()) for id, one in show.performances.items()},
    )
    return _hide(bare, secrets), secrets


def _field_of(row: VenueRow) -> Field:
    return SECTIONS[row.section].fields[row.name]


def _find_secrets(show: Show, roles: Mapping[str, str]) -> Secrets:
    names = {*show.people, *(person.short for person in show.people.values())}
    for role in show.roles.values():
        names |= {role.by, *role.alternates}
    names |= {channel.by for channel in show.channels.values()} | {cover.by for cover in show.covers}
    names |= {name for other in show.others.values() for name in other.listeners}
    names |= {look.by for look in show.looks.values()}
    names |= {name for one in show.performances.values() for _, name in one.cast}
    notes = {channel.notes for channel in show.channels.values()} - {""}
    private = {show.production.contact, show.production.returns} - {""}
    names -= {"", *show.roles}
    removed = (
        (len(names), "names of people"),
        (len(show.people), "records of people"),
        (len(show.covers), "covers"),
        (len(show.looks), "looks"),
        (len(notes), "notes"),
        (len(private), "contacts"),
    )
    counts = tuple(f"{count} {what}" for count, what in removed if count)
    return Secrets(tuple(sorted(names | notes | private)), counts, roles)


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
