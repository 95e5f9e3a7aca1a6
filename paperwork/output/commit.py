"""Staging, committing, taking back, and picking up after a run that died. Each may be run again at any point."""

import contextlib
import os
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

from paperwork.output.disk import HIDDEN, digest_file, keep_file, list_folders, remove_tree, sync_folder, write_file
from paperwork.output.record import (
    FolderPlan,
    PathChange,
    drop_journal,
    read_journal,
    read_manifest,
    write_journal,
    write_manifest,
)

_STAGE = HIDDEN + "stage"

_WRITERS = 8
"""Files written at a time: what takes long is waiting for the disk, and a hundred files wait a third as long together
(measured); more writers gain nothing."""

Step = Callable[[str], None]
"""Called before each change to the disk with its name; a test stops there by raising."""


def look(folder: Path, path: str) -> str | None:
    """The digest of the file at a path, or None; a word that is not a digest if it, or a folder on its way, is odd."""
    for parent in list_folders(path):
        state = digest_file(folder / parent)
        if state is None:
            return None
        if state != "folder":
            return f"blocked by {parent}"
    return digest_file(folder / path)


def stage(folder: Path, plan: FolderPlan, files: Mapping[str, bytes], step: Step) -> None:
    """Writes all that the commit needs to the disk, then the journal, which makes it count."""
    try:
        step("make the stage")
        remove_tree(folder / _STAGE)
        for name in ("new", "old"):
            (folder / _STAGE / name).mkdir(parents=True)
        with ThreadPoolExecutor(_WRITERS) as writers:
            written = []
            for number, change in enumerate(plan.changes):
                step(f"stage {change.path}")
                if change.new:
                    written.append(writers.submit(_write_staged, folder, number, files, change.path))
                if change.old:
                    keep_file(folder / change.path, _kept(folder, number))
        for file in written:
            file.result()  # raises what went wrong
        for name in ("new", "old", "."):
            sync_folder(folder / _STAGE / name)
        step("write the journal")
        write_journal(folder, plan)
    except OSError:
        _clear(folder)
        raise


def _write_staged(folder: Path, number: int, files: Mapping[str, bytes], path: str) -> None:
    """Reads the file only now, so that few of them are in memory at a time."""
    write_file(_staged(folder, number), files[path])


def commit(folder: Path, plan: FolderPlan, step: Step) -> None:
    """Makes the plan true. If the system refuses a step, everything is taken back and its OSError goes on."""
    try:
        _go_forward(folder, plan, step)
    except OSError:
        step("turn the journal")
        write_journal(folder, plan, back=True)
        _go_back(folder, plan, step)
        raise
    with contextlib.suppress(OSError):  # the set is whole; what is left over the next run clears away
        step("tidy")
        _remove_empty(folder, set(plan.folders) - set(plan.after.folders))
        _clear(folder)


def recover(folder: Path, step: Step) -> str:
    """Finishes or takes back an interrupted run; `finished`, `undone`, or "" if there was none."""
    journal = read_journal(folder)
    if journal is None:
        if os.path.lexists(folder / _STAGE):  # a run that died before its journal, or after its manifest
            step("clear the stage")
            _clear(folder)
        return ""
    plan, back = journal
    if back:
        _go_back(folder, plan, step)
        return "undone"
    commit(folder, plan, step)
    return "finished"


def _go_forward(folder: Path, plan: FolderPlan, step: Step) -> None:
    needed = {parent for change in plan.changes if change.new for parent in list_folders(change.path)}
    for parent in plan.folders:
        if parent in needed:
            step(f"make {parent}")
            (folder / parent).mkdir(exist_ok=True)
    files = dict(plan.after.files)
    for number, change in enumerate(plan.changes):
        step(f"commit {change.path}")
        if look(folder, change.path) == change.new:
            continue
        if not _replace(folder, change.path, change.old, change.new, _staged(folder, number)):
            files.pop(change.path, None)
    _sync_parents(folder, plan.changes)
    step("write the manifest")
    write_manifest(folder, replace(plan.after, files=files))


def _go_back(folder: Path, plan: FolderPlan, step: Step) -> None:
    for number, change in enumerate(plan.changes):
        step(f"take back {change.path}")
        if look(folder, change.path) != change.old:
            _replace(folder, change.path, change.new, change.old, _kept(folder, number))
    _sync_parents(folder, plan.changes)
    step("take back the manifest")
    if read_manifest(folder) != plan.before:
        write_manifest(folder, plan.before)
    _remove_empty(folder, set(plan.folders) - set(plan.before.folders))
    _clear(folder)


def _replace(folder: Path, path: str, expected: str | None, wanted: str | None, source: Path) -> bool:
    """Whether the path was brought from what is expected to what is wanted.

    What somebody has altered since the plan was made is not ours any more, and stays.
    """
    if look(folder, path) != expected or (wanted and not source.exists()):
        return False
    if wanted:
        os.replace(source, folder / path)
    else:
        (folder / path).unlink()
    return True


def _staged(folder: Path, number: int) -> Path:
    return folder / _STAGE / "new" / str(number)


def _kept(folder: Path, number: int) -> Path:
    return folder / _STAGE / "old" / str(number)


def _sync_parents(folder: Path, changes: Iterable[PathChange]) -> None:
    for parent in sorted({(folder / change.path).parent for change in changes}):
        if parent.is_dir():
            sync_folder(parent)


def _remove_empty(folder: Path, names: Iterable[str]) -> None:
    """Removes those of our own folders that hold nothing, innermost first."""
    for name in sorted(names, reverse=True):
        path = folder / name
        if digest_file(path) == "folder" and not any(path.iterdir()):
            path.rmdir()


def _clear(folder: Path) -> None:
    """The journal first: without it the stage means nothing."""
    drop_journal(folder)
    sync_folder(folder)
    remove_tree(folder / _STAGE)
