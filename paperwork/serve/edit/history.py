"""What was edited on the page and is in no file yet: every state of the show file, back to the one that was read."""

from collections.abc import Callable
from typing import NamedTuple

from paperwork import limits


class _Step(NamedTuple):
    """One edit: the bytes that it replaced, the bytes that it put there, and what it did in words."""

    at: int
    old: bytes
    new: bytes
    words: str


class EditHistory:
    """The way from `base`, what the file said when it was last read or saved, to the show on the page, step by step."""

    def __init__(self, base: bytes) -> None:
        self.base = base
        self._done: list[_Step] = []
        self._undone: list[_Step] = []

    @property
    def undoes(self) -> str:
        """What would be undone, "" where nothing can."""
        return self._done[-1].words if self._done else ""

    @property
    def redoes(self) -> str:
        """What would be done again."""
        return self._undone[-1].words if self._undone else ""

    def add(self, old: bytes, new: bytes, words: str) -> None:
        """One more step; what was undone before cannot be done again. The oldest of too many goes."""
        if old == new:
            return
        self._done.append(_compare(old, new, words))
        self._undone.clear()
        while (
            len(self._done) > limits.UNDO_STEPS or sum(len(s.old) + len(s.new) for s in self._done) > limits.UNDO_BYTES
        ):
            del self._done[0]

    def undo(self, data: bytes) -> bytes:
        """The show before its last step. Raises IndexError where there is none."""
        step = self._done.pop()
        self._undone.append(step)
        return data[: step.at] + step.old + data[step.at + len(step.new) :]

    def redo(self, data: bytes) -> bytes:
        """The show with the step that was undone last. Raises IndexError where there is none."""
        step = self._undone.pop()
        self._done.append(step)
        return data[: step.at] + step.new + data[step.at + len(step.old) :]


def _compare(old: bytes, new: bytes, words: str) -> _Step:
    """What differs, from the first byte that does to the last."""
    most = min(len(old), len(new))
    start = _count_same(lambda length: old[:length] == new[:length], most)
    end = _count_same(lambda length: old[len(old) - length :] == new[len(new) - length :], most - start)
    return _Step(start, old[start : len(old) - end], new[start : len(new) - end], words)


def _count_same(is_same: Callable[[int], bool], most: int) -> int:
    """The greatest length for which two beginnings, or two ends, are the same."""
    low = 0
    while low < most:
        middle = (low + most + 1) // 2
        low, most = (middle, most) if is_same(middle) else (low, middle - 1)
    return low
