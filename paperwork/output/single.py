"""One file by itself, whole or not at all: a new one never takes the place of another."""

import os
from pathlib import Path

from paperwork.output.disk import HIDDEN, OutputError, keep_file, replace_file, sync_folder, word_errors, write_file


def refuse_taken(path: Path) -> None:
    """Raises OutputError if something of that name is there already."""
    if os.path.lexists(path):
        raise _taken(path)


def write_new(path: Path, data: bytes) -> None:
    """Writes a file that was not there. Raises OutputError if it is, or cannot be written; then nothing is left behind."""
    refuse_taken(path)
    draft = path.with_name(f"{HIDDEN}{path.name}")
    with word_errors(path):
        try:
            draft.unlink(missing_ok=True)
            write_file(draft, data)
            keep_file(draft, path)
        except FileExistsError:
            raise _taken(path) from None
        finally:
            if os.path.isdir(path.parent):
                draft.unlink(missing_ok=True)
        sync_folder(path.parent)


def write_over(path: Path, data: bytes) -> None:
    """Puts a whole file in place of one of ours, in one step. Raises OutputError if that cannot be done."""
    with word_errors(path):
        replace_file(path, data)


def _taken(path: Path) -> OutputError:
    return OutputError(f"{path} is there already", "it is never overwritten; choose another name")
