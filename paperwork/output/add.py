"""Files added to a folder: all of them or none, and nothing that is there is ever replaced."""

import os
from collections.abc import Callable, Mapping
from pathlib import Path

from paperwork.output.disk import (
    HIDDEN,
    OutputError,
    check_path,
    digest_bytes,
    digest_file,
    list_folders,
    remove_tree,
    sync_folder,
    word_errors,
    write_file,
)

_STAGE = HIDDEN + "adding"


def add_files(folder: Path, files: Mapping[str, bytes], *, step: Callable[[str], None] = lambda _: None) -> bool:
    """Puts new files into a folder, which is made if it is not there; whether an earlier run was cut off in it.

    Raises OutputError, with nothing added, if a path leaves the folder, or if something else stands at one of the paths
    or is a link on the way to it. Each file is whole from the moment that it has its name; one that is there already,
    byte for byte, is left, so that a run which was interrupted can be finished. `step` is called before each change.
    """
    for path in files:
        check_path(path)
    with word_errors(folder):
        files = {path: data for path, data in files.items() if digest_file(folder / path) != digest_bytes(data)}
        _refuse_present(folder, files)
        folder.mkdir(parents=True, exist_ok=True)
        stage = folder / _STAGE
        was_cut_off = os.path.lexists(stage)
        step("make the stage")
        remove_tree(stage)
        stage.mkdir()
        try:
            for number, (name, data) in enumerate(files.items()):
                step(f"stage {name}")
                write_file(stage / str(number), data)
            _name_all(folder, stage, files, step)
        except (OSError, KeyboardInterrupt):
            remove_tree(stage)
            raise
        step("clear the stage")
        remove_tree(stage)
    return was_cut_off


def _refuse_present(folder: Path, files: Mapping[str, bytes]) -> None:
    for path in files:
        for parent in list_folders(path):
            if os.path.lexists(folder / parent) and ((folder / parent).is_symlink() or not (folder / parent).is_dir()):
                raise OutputError(f"{folder / parent} is in the way", "choose another folder with -o")
        if os.path.lexists(folder / path):
            raise OutputError(f"{folder / path} is there already, and is not replaced", "choose another folder with -o")


def _name_all(folder: Path, stage: Path, files: Mapping[str, bytes], step: Callable[[str], None]) -> None:
    """Gives the staged files their names. What was named before a step failed is taken back."""
    named: list[Path] = []
    made: list[Path] = []
    try:
        for number, name in enumerate(files):
            for parent in list_folders(name):
                if not (folder / parent).is_dir():
                    (folder / parent).mkdir()
                    made.append(folder / parent)
            step(f"name {name}")
            _move(stage / str(number), folder / name)
            named.append(folder / name)
        for place in sorted({path.parent for path in named}):
            sync_folder(place)
    except OSError:
        for path in named:
            path.unlink(missing_ok=True)
        for place in reversed(made):
            place.rmdir()
        raise


def _move(source: Path, target: Path) -> None:
    """Gives a file its name only if nothing has it. Raises FileExistsError else."""
    try:
        os.link(source, target, follow_symlinks=False)
    except FileExistsError:
        raise
    except (OSError, NotImplementedError):  # a file system without second names
        write_file(target, source.read_bytes())
