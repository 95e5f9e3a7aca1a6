"""One file by itself, whole or not at all: a new one never takes the place of another."""

import os
from collections.abc import Callable
from pathlib import Path

from paperwork.output.disk import HIDDEN, OutputError, keep_file, replace_file, sync_folder, word_errors, write_file


def _go_on(_: str) -> None:
    """The step of an ordinary run."""


def refuse_taken(path: Path) -> None:
    """Raises OutputError if something of that name is there already.

    It says so where the file is one that an earlier run wrote whole before it was cut off.
    """
    if not os.path.lexists(path):
        return
    draft = _draft_of(path)
    if os.path.lexists(draft) and os.path.samestat(draft.lstat(), path.lstat()):
        draft.unlink()
        text = f"{path} is there already, whole: an earlier run was cut off just after it wrote it"
        raise OutputError(text, "use it, or choose another name")
    raise _taken(path)


def write_new(path: Path, data: bytes, *, step: Callable[[str], None] = _go_on) -> None:
    """Writes a file that was not there. Raises OutputError if it is, or cannot be written; then nothing is left behind.

    `step` is called before each change to the disk with its name. A run that dies leaves at most a hidden draft, which
    the next one clears away.
    """
    refuse_taken(path)
    draft = _draft_of(path)
    with word_errors(path):
        try:
            step("clear the draft")
            draft.unlink(missing_ok=True)
            step("write the draft")
            write_file(draft, data)
            step("name the file")
            keep_file(draft, path)
        except FileExistsError:
            raise _taken(path) from None
        except (OSError, KeyboardInterrupt):
            if os.path.isdir(path.parent):
                draft.unlink(missing_ok=True)
            raise
        step("drop the draft")
        draft.unlink(missing_ok=True)
        sync_folder(path.parent)


def write_over(path: Path, data: bytes) -> None:
    """Puts a whole file in place of one of ours, in one step. Raises OutputError if that cannot be done."""
    with word_errors(path):
        replace_file(path, data)


def _draft_of(path: Path) -> Path:
    return path.with_name(f"{HIDDEN}{path.name}")


def _taken(path: Path) -> OutputError:
    return OutputError(f"{path} is there already", "it is never overwritten; choose another name")
