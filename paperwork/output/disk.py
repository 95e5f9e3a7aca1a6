"""The few things done to a disk, each so that it never follows a link and never leaves half a file."""

import errno
import hashlib
import os
import shutil
import stat
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from paperwork.text.names import is_file_name

HIDDEN = ".paperwork-"
"""Beginning of the names that this room keeps for itself in an output folder."""

_LOCK = HIDDEN + "lock"
_NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)
_BINARY = getattr(os, "O_BINARY", 0)


class OutputError(Exception):
    """The folder could not be written. `text` says what is wrong, `fix` what would mend it."""

    def __init__(self, text: str, fix: str) -> None:
        super().__init__(f"{text}; {fix}")
        self.text = text
        self.fix = fix

    def __reduce__(self) -> "tuple[type[OutputError], tuple[str, str]]":
        return OutputError, (self.text, self.fix)


@contextmanager
def word_errors(folder: Path) -> Iterator[None]:
    """Turns what the system reports inside the block into an OutputError about the folder."""
    try:
        yield
    except OSError as error:
        name = str(error.filename2 or error.filename or folder)
        name = str(folder) if HIDDEN in name else name
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise OutputError(f"the disk of {folder} is full", "free some space and run again") from error
        if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
            fix = "close the file if a program holds it open, or choose a folder of your own with -o"
            raise OutputError(f"{name} may not be written", fix) from error
        if error.errno == errno.ENOENT:
            text = f"{name} could not be written, because its folder is not there"
            raise OutputError(text, "make that folder first, or name another") from error
        reason = error.strerror or type(error).__name__
        raise OutputError(f"{name} could not be written ({reason})", "choose another folder with -o") from error


@contextmanager
def lock_folder(folder: Path) -> Iterator[None]:
    """Holds the folder for one writer; others wait. The system lets go when a process dies, so no lock is stale."""
    handle = os.open(folder / _LOCK, os.O_RDWR | os.O_CREAT | _NO_FOLLOW | _BINARY, 0o666)
    try:
        _wait_for_lock(handle)
        yield
    finally:
        os.close(handle)


def _wait_for_lock(handle: int) -> None:
    """Waits as long as it takes. What Windows calls a wait ends after ten seconds (docs.python.org, msvcrt.LK_LOCK)."""
    if sys.platform != "win32":
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX)
        return
    import msvcrt

    while True:
        try:
            msvcrt.locking(handle, msvcrt.LK_LOCK, 1)
            return
        except OSError as error:
            if error.errno != errno.EDEADLK:
                raise


def check_path(path: str) -> None:
    """Raises OutputError unless the path names a file below the folder, on every common file system."""
    parts = path.split("/")
    if not all(is_file_name(part) and not part.startswith(HIDDEN) for part in parts):
        raise OutputError(f"{path!r} is not a name for a file in the output folder", "give the paper another name")


def list_folders(path: str) -> list[str]:
    """The folders on the way to a path, outermost first."""
    return [str(parent) for parent in reversed(PurePosixPath(path).parents) if str(parent) != "."]


def digest_file(path: Path) -> str | None:
    """The SHA-256 of a file, or None if nothing is there. Links, folders and devices give a word that is no digest."""
    try:
        mode = path.lstat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return None
    if not stat.S_ISREG(mode):
        return "link" if stat.S_ISLNK(mode) else "folder" if stat.S_ISDIR(mode) else "device"
    with open(os.open(path, os.O_RDONLY | _NO_FOLLOW | _BINARY), "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def digest_bytes(data: bytes) -> str:
    """The SHA-256 of bytes."""
    return hashlib.sha256(data).hexdigest()


def write_file(path: Path, data: bytes) -> None:
    """Writes a new file and waits until the disk has it, or leaves none. Raises FileExistsError."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_FOLLOW | _BINARY, 0o666)
    try:
        with open(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:  # a full disk, an interrupt: half a file is worse than none
        path.unlink(missing_ok=True)
        raise


def replace_file(path: Path, data: bytes) -> None:
    """Puts a whole file in place of another, or of nothing, in one step."""
    draft = path.with_name(path.name + ".new")
    draft.unlink(missing_ok=True)
    write_file(draft, data)
    os.replace(draft, path)
    sync_folder(path.parent)


def keep_file(path: Path, copy: Path) -> None:
    """A second name for a file's present contents, or a copy where the file system has no second names."""
    try:
        os.link(path, copy, follow_symlinks=False)
    except (OSError, NotImplementedError):
        write_file(copy, path.read_bytes())


def sync_folder(folder: Path) -> None:
    """Waits until the disk has the names in a folder, where the system can say so."""
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def remove_tree(folder: Path) -> None:
    """Removes a folder of this room's own, if it is there; a link of that name is removed as a link."""
    if folder.is_symlink():
        folder.unlink()
    elif folder.exists():
        shutil.rmtree(folder)
