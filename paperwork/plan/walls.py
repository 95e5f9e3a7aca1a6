"""What may hang on a wall. Any paper may, so the rule is one for all: of whoever is marked a child, initials.

The show is changed before a paper is made of it, so that no paper, old or new, can print the name by an oversight. The
show file, the screen and what a book or an archive carries keep both.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import cached_property
from typing import Any, TypeVar

from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.text.names import fold, match_names

T = TypeVar("T")


@dataclass(frozen=True)
class Walls:
    """The initials that papers carry for each hidden name, and what puts them there."""

    initials: Mapping[str, str] = field(default_factory=dict)

    def hide(self, value: T) -> T:
        """The value with every hidden name in its texts replaced: a show, findings, an evening."""
        return self._hide(value) if self.initials else value

    def hide_rooms(self, show: Show, value: T) -> T:
        """The value with the rooms of those who are hidden left out too, for what is not hung in wardrobe. A number is
        not known from any other."""
        rooms = {show.people[name].room for name in self.initials if name in show.people}
        named = {room: "…" for room in rooms if any(map(str.isalpha, room)) and len(room) > 1}
        return replace(self, initials={**self.initials, **named}).hide(value)

    def reveal(self, subjects: Iterable[Subject]) -> frozenset[Subject]:
        """What papers show, by the ids that the show itself has: for what is on the screen."""
        names = {initials: name for name, initials in self.initials.items()}
        return frozenset(Subject(one.section, names.get(one.id, one.id)) for one in subjects)

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """A child of one name may be called as a role is, which another case tells apart."""
        return match_names(self.initials, exact=[name for name in self.initials if len(name.split()) == 1])

    @cached_property
    def _by_key(self) -> Mapping[str, str]:
        return {fold(name): initials for name, initials in self.initials.items()}

    def _hide(self, value: Any) -> Any:
        if isinstance(value, str):
            return self._pattern.sub(lambda match: self._by_key[fold(match[0])], value)
        if is_dataclass(value) and not isinstance(value, type):
            held = {one.name: getattr(value, one.name) for one in fields(value) if one.compare}
            changed = {name: self._hide(item) for name, item in held.items()}
            return replace(value, **{name: item for name, item in changed.items() if item != held[name]})
        if isinstance(value, tuple):
            hidden = [self._hide(item) for item in value]
            return type(value)(*hidden) if hasattr(value, "_fields") else tuple(hidden)
        if isinstance(value, Mapping):
            return {self._hide(key): self._hide(item) for key, item in value.items()}
        return value


def walls_of(show: Show) -> Walls:
    """The names that stay off papers: people marked as children. Two with the same initials are counted apart."""
    found: dict[str, str] = {}
    for name, person in show.people.items():
        if person.child and name:
            found[name] = _next_free(initials_of(name), {*found.values()})
    return Walls(found)


def put_on_walls(show: Show, walls: Walls | None = None) -> Show:
    """The show as papers may say it: children by their initials. `walls` are its own by default."""
    walls = walls_of(show) if walls is None else walls
    if not walls.initials:
        return show
    initials = {fold(name): short for name, short in walls.initials.items()}
    people = {
        name: replace(person, short=initials[fold(name)]) if fold(name) in initials else person
        for name, person in show.people.items()
    }
    return walls.hide(replace(show, people=people))


def initials_of(name: str) -> str:
    """`P. L.` of Pia Lund."""
    return " ".join(f"{letters[0]}." for word in re.split(r"[\s-]+", name) if (letters := re.sub(r"[\W_]", "", word)))


def _next_free(initials: str, taken: set[str]) -> str:
    number, shown = 1, initials
    while shown in taken:
        number += 1
        shown = f"{initials} {number}"
    return shown
