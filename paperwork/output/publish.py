"""How a set of files becomes the contents of a folder.

1. Look: nothing that we did not make, and nothing that was altered since, stands where a file must go.
2. Stage: every new file is written beside the others, and every file to be replaced gets a second name.
3. Journal: one small file says what is about to happen. From here on the set will be whole, come what may.
4. Commit: files are renamed into place, the index last; what is no longer wanted goes; the manifest follows.

A run that dies before 3 has changed nothing; the next run clears its stage away. A run that dies in 4 is finished
by the next. A run whose step the system refuses in 4 takes everything back, or the next run does.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from shlex import quote

from paperwork.frozen import frozen
from paperwork.output.commit import Step, commit, look, recover, stage
from paperwork.output.disk import OutputError, check_path, digest_bytes, list_folders, lock_folder, word_errors
from paperwork.output.naming import safe_name
from paperwork.output.record import FolderPlan, Manifest, PathChange, read_manifest
from paperwork.text.names import disk_key, fold

_ELSEWHERE = "move it away, or choose another folder with -o"


@frozen
class Report:
    """What was done, as paths in the folder. `left` are former files of ours that someone has altered since.

    `earlier` is `finished` or `undone` if an interrupted run was found, else "".
    """

    written: tuple[str, ...]
    unchanged: tuple[str, ...]
    removed: tuple[str, ...]
    left: tuple[str, ...]
    earlier: str


def _go_on(_: str) -> None:
    """The step of an ordinary run."""


def publish(
    folder: Path,
    files: Mapping[str, bytes],
    *,
    title: str = "",
    venue: str = "",
    more_follows: bool = False,
    last: str = "index.html",
    step: Step = _go_on,
) -> Report:
    """Makes the files the whole of what we have in the folder, or raises OutputError and changes nothing.

    The folder notes of which show they are, and for which venue ("" is the home venue): the papers of one venue are
    never put in place of those of another. With `more_follows` the set counts as cut off until it is published again.

    Keys are paths below the folder with `/`; `last` is put in place after all others. Files that we did not make,
    and files of ours that were altered since, are never touched: one in the way is refused before anything is
    written. `step` is called before each change to the disk.
    """
    _check_paths(files)
    wanted = {path: digest_bytes(data) for path, data in files.items()}
    with word_errors(folder):
        _open_folder(folder)
        with lock_folder(folder):
            earlier = recover(folder, step)
            ours = read_manifest(folder)
            _refuse_other_venue(folder, ours, venue)
            found = {path: look(folder, path) for path in {*wanted, *ours.files}}
            for path in sorted(wanted):
                _refuse_foreign(folder, path, found[path], ours.files.get(path))
            after = Manifest(wanted, title=title, venue=venue, more_follows=more_follows)
            plan = _plan(folder, ours, found, after, last)
            if plan.changes or plan.after != ours:
                stage(folder, plan, files, step)
                commit(folder, plan, step)
    return _report(plan, found, earlier or "finished" * ours.more_follows)


def _report(plan: FolderPlan, found: Mapping[str, str | None], earlier: str) -> Report:
    wanted, ours = plan.after.files, plan.before.files
    return Report(
        written=tuple(change.path for change in plan.changes if change.new),
        unchanged=tuple(sorted(path for path in wanted if found[path] == wanted[path])),
        removed=tuple(change.path for change in plan.changes if not change.new),
        left=tuple(path for path in sorted(set(ours) - set(wanted)) if found[path] not in (None, ours[path])),
        earlier=earlier,
    )


def _check_paths(files: Iterable[str]) -> None:
    """Raises OutputError for a path that leaves the folder, or for two that cannot stand side by side."""
    seen: dict[str, str] = {}
    parents: set[str] = set()
    for path in sorted(files):
        check_path(path)
        parents.update(list_folders(path))
        for name in (*list_folders(path), path):
            if seen.setdefault(disk_key(name), name) != name:
                text = f"{name} and {seen[disk_key(name)]} are one name on some disks"
                raise OutputError(text, "give one of them another name")
    for path in sorted(parents.intersection(files)):
        raise OutputError(f"{path} would be both a file and a folder", "give one of them another name")


def _open_folder(folder: Path) -> None:
    if folder.exists() and not folder.is_dir():
        raise OutputError(f"{folder} is a file, not a folder", "choose another folder with -o")
    folder.mkdir(parents=True, exist_ok=True)


def _refuse_other_venue(folder: Path, ours: Manifest, venue: str) -> None:
    """Raises OutputError where the folder holds the papers of another venue."""
    if ours.files and fold(ours.venue) != fold(venue):
        held = " ".join(filter(None, (ours.title and f"of {ours.title}", f"for {ours.venue or 'the home venue'}")))
        text = f"{folder} holds the papers {held}, and these are for {venue or 'the home venue'}"
        other = folder.with_name(f"{folder.name}-{safe_name(venue) if venue else 'home'}")
        raise OutputError(text, f"give these a folder of their own: -o {quote(str(other))}")


def _plan(folder: Path, ours: Manifest, found: Mapping[str, str | None], after: Manifest, last: str) -> FolderPlan:
    """What must change, from what we made, what is there and what shall be."""
    wanted = after.files
    puts = [
        PathChange(path, found[path], wanted[path])
        for path in sorted(wanted, key=lambda path: (path == last, path))
        if found[path] != wanted[path]
    ]
    former = sorted(set(ours.files) - set(wanted))
    drops = [PathChange(path, found[path], None) for path in former if found[path] == ours.files[path]]
    needed = {parent for path in wanted for parent in list_folders(path)}
    made = {parent for parent in needed if not (folder / parent).is_dir()}
    after = replace(after, folders=tuple(sorted(made | (needed & set(ours.folders)))))
    return FolderPlan((*puts, *drops), ours, after, tuple(sorted(made | set(ours.folders))))


def _refuse_foreign(folder: Path, path: str, found: str | None, ours: str | None) -> None:
    """Raises OutputError if what is found at the path is not the file that we left there."""
    if found is None or found == ours:
        return
    if found.startswith("blocked by "):
        blocker = folder / found.removeprefix("blocked by ")
        what = "a link, which is never followed" if blocker.is_symlink() else "a file where a folder is needed"
        raise OutputError(f"{blocker} is {what}", _ELSEWHERE)
    if found in ("link", "folder", "device"):
        raise OutputError(f"{folder / path} is a {found} where a file is needed", _ELSEWHERE)
    why = "was altered since it was made" if ours else "was not made by this program"
    raise OutputError(f"{folder / path} {why}, so it is not replaced", _ELSEWHERE)
