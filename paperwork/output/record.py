"""What this room remembers in an output folder: the manifest of what we made, the journal of what is under way."""

import json
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import Any

from paperwork import limits
from paperwork.frozen import frozen
from paperwork.output.disk import HIDDEN, OutputError, check_path, digest_file, replace_file

_MANIFEST = HIDDEN + "manifest.json"
_JOURNAL = HIDDEN + "journal.json"
_DIGEST = re.compile("[0-9a-f]{64}")


@frozen
class PathChange:
    """One path: the digest that it has (None: nothing is there) and the digest that it shall have."""

    path: str
    old: str | None
    new: str | None


@frozen
class Manifest:
    """What we made: the digest of each file, the folders that were not there before, and of which show the files are.

    `venue` is "" for the home venue, and where nothing is noted. `more_follows`: the set is not whole yet.
    """

    files: Mapping[str, str]
    folders: tuple[str, ...] = ()
    title: str = ""
    venue: str = ""
    more_follows: bool = False


@frozen
class FolderPlan:
    """The changes in the order in which they are made, the manifests before and after, the folders we may make."""

    changes: tuple[PathChange, ...]
    before: Manifest
    after: Manifest
    folders: tuple[str, ...]


def read_manifest(folder: Path) -> Manifest:
    """What we made in this folder; nothing if there is no manifest. Raises OutputError if it is damaged."""
    path = folder / _MANIFEST
    with _word_damage(path):
        table = _read_table(path)
        return _unpack_manifest(table) if table is not None else Manifest({})


def write_manifest(folder: Path, manifest: Manifest) -> None:
    """Puts the manifest in place as a whole."""
    replace_file(folder / _MANIFEST, _pack({"made_by": "paperwork", **asdict(manifest)}))


def read_journal(folder: Path) -> tuple[FolderPlan, bool] | None:
    """The plan under way and whether it is being taken back, or None. Raises OutputError if it is damaged."""
    path = folder / _JOURNAL
    with _word_damage(path):
        table = _read_table(path)
        if table is None:
            return None
        plan = table["plan"]
        changes = tuple(PathChange(**change) for change in plan["changes"])
        for change in changes:
            _check_entry(change.path, *filter(None, (change.old, change.new)))
        for name in plan["folders"]:
            check_path(name)
        before, after = _unpack_manifest(plan["before"]), _unpack_manifest(plan["after"])
        return FolderPlan(changes, before, after, tuple(plan["folders"])), bool(table["back"])


def write_journal(folder: Path, plan: FolderPlan, *, back: bool = False) -> None:
    """Makes the plan count: from here on an interrupted run is finished, or taken back, by the next."""
    replace_file(folder / _JOURNAL, _pack({"back": back, "plan": asdict(plan)}))


def drop_journal(folder: Path) -> None:
    """Takes the journal away, and drafts that an interrupted run has left."""
    for name in (_JOURNAL, _JOURNAL + ".new", _MANIFEST + ".new"):
        (folder / name).unlink(missing_ok=True)


def _pack(table: dict[str, Any]) -> bytes:
    return (json.dumps(table, indent=1, sort_keys=True) + "\n").encode()


def _read_table(path: Path) -> Any:
    state = digest_file(path)
    if state is None:
        return None
    if not _DIGEST.fullmatch(state):
        raise ValueError(state)
    if path.stat().st_size > limits.RECORD_BYTES:
        raise ValueError(path)
    return json.loads(path.read_bytes())


def _unpack_manifest(table: dict[str, Any]) -> Manifest:
    for path, digest in table["files"].items():
        _check_entry(path, digest)
    for name in table["folders"]:
        check_path(name)
    title, venue = str(table.get("title", "")), str(table.get("venue", ""))
    return Manifest(table["files"], tuple(table["folders"]), title, venue, bool(table.get("more_follows")))


def _check_entry(path: str, *digests: str) -> None:
    """Raises for what we would never have written: a path that leaves the folder, or a digest that is none."""
    check_path(path)
    if not all(_DIGEST.fullmatch(digest) for digest in digests):
        raise ValueError(path)


@contextmanager
def _word_damage(path: Path) -> Iterator[None]:
    try:
        yield
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, OutputError) as error:
        fix = "choose another folder with -o, or delete that file and the papers beside it"
        raise OutputError(f"{path} is damaged, so it is not known which files were made here", fix) from error
