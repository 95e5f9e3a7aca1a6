"""What the page keeps of the shows that were used last, so that nothing is laid out anew for each picture."""

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")

LAID_OUT = 3
"""Shows whose pages are kept laid out; a long paper is some tens of megabytes. Our own choice."""


class Held(Generic[T]):
    """A value of each of at most so many shows, by their ids; the one that was asked for longest ago makes room."""

    def __init__(self, most: int, leave: Callable[[T], None] = lambda _: None) -> None:
        self._most = most
        self._leave = leave
        self._values: dict[str, T] = {}

    def __len__(self) -> int:
        return len(self._values)

    def get(self, id: str) -> T | None:
        """The value of a show, None where none is kept."""
        value = self._values.pop(id, None)
        if value is not None:
            self._values[id] = value
        return value

    def put(self, id: str, value: T) -> T:
        """Keeps a value, and gives it back; whatever has no room any more is left."""
        self.drop(id)
        self._values[id] = value
        while len(self._values) > self._most:
            self.drop(next(iter(self._values)))
        return value

    def drop(self, id: str) -> None:
        """Leaves what is kept of a show."""
        if id in self._values:
            self._leave(self._values.pop(id))

    def clear(self) -> None:
        """Leaves all that is kept."""
        for id in tuple(self._values):
            self.drop(id)
