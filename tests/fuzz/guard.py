"""What watches a process that is fed inputs: files opened for writing, the network, time, memory, and what is left behind."""

import hashlib
import json
import os
import resource
import signal
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SECONDS = 5
SEARCH_SECONDS = 30
"""Of processor time that one input may take; a search for frequencies is bounded by its effort, and takes longer."""

MEMORY_BYTES = 400_000_000
"""That the process may hold, libraries and all."""

_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_CHANGES = frozenset(
    {
        "os.rename",
        "os.remove",
        "os.mkdir",
        "os.rmdir",
        "os.link",
        "os.symlink",
        "os.chmod",
        "os.chown",
        "os.truncate",
        "os.utime",
        "shutil.rmtree",
        "shutil.move",
        "shutil.copyfile",
        "os.mkfifo",
        "os.mknod",
    }
)
_FORBIDDEN = frozenset(
    {
        "socket.connect",
        "socket.bind",
        "socket.getaddrinfo",
        "socket.gethostbyname",
        "socket.sendto",
        "urllib.Request",
        "subprocess.Popen",
        "os.system",
        "os.exec",
        "os.posix_spawn",
        "os.spawn",
        "os.fork",
        "os.kill",
        "webbrowser.open",
        "smtplib.connect",
        "ftplib.connect",
        "http.client.connect",
        "pickle.find_class",
    }
)
_READ_FROM = tuple(
    map(
        os.path.realpath,
        {
            sys.prefix,
            sys.base_prefix,
            str(Path(__file__).resolve().parents[2]),
            "/dev",
            "/proc",
            "/sys",
            "/usr",
            "/etc/localtime",
            "/etc/mime.types",
            "/lib",
            "/etc/ssl",
        },
    )
)
"""Where the program itself and its libraries lie: what is read there is no secret of the user."""


_TWO_PATHS = frozenset({"os.rename", "os.link", "shutil.move", "shutil.copyfile"})


def _paths_of(event: str, values: tuple) -> Iterator[str]:
    """The paths that an event changes. Each may count from an open folder, whose number stands behind it."""
    paths = values[:2] if event in _TWO_PATHS else values[1:2] if event == "os.symlink" else values[:1]
    numbers = [value for value in values[len(paths) :] if isinstance(value, int)]
    for index, path in enumerate(paths):
        if isinstance(path, str | bytes | os.PathLike):
            at = (
                numbers[index]
                if event in ("os.rename", "os.link") and index < len(numbers)
                else numbers[-1]
                if numbers
                else -1
            )
            folder = (
                os.readlink(f"/proc/self/fd/{at}")
                if at > 2 and event.startswith("os.") and event != "os.truncate"
                else ""
            )
            yield os.path.join(folder, os.fsdecode(path))


class Hang(BaseException):
    """More time than an input may take. No `except Exception` keeps it from being told."""


class Broken(AssertionError):
    """What must hold of every input does not."""


class Guard:
    """Watches one process for good: an audit hook cannot be taken off."""

    def __init__(self) -> None:
        self.room = ""
        self.faults: list[str] = []
        sys.addaudithook(self._hear)

    def _hear(self, event: str, values: tuple) -> None:
        if not self.room:
            return
        if event == "open":
            self._judge_open(values)
        elif event in _CHANGES:
            for path in _paths_of(event, values):
                if not self._is_inside(path, ("out", "tmp", "in")):
                    self.faults.append(f"{event} {path}")
        elif event in _FORBIDDEN:
            self.faults.append(f"{event} {values!r:.200}")

    def _judge_open(self, values: tuple) -> None:
        path, mode, flags = values
        if not isinstance(path, str | bytes | os.PathLike):
            return
        writes = (flags or 0) & _WRITES if isinstance(flags, int) else 0
        if writes or (isinstance(mode, str) and any(sign in mode for sign in "wax+")):
            if not self._is_inside(path, ("out", "tmp", "in")) and os.fsdecode(path) != os.devnull:
                self.faults.append(f"opened for writing: {os.fsdecode(path)}")
        elif not self._is_inside(path, ("",)) and not os.path.realpath(os.fsdecode(path)).startswith(_READ_FROM):
            self.faults.append(f"read: {os.fsdecode(path)}")

    def _is_inside(self, path: str | bytes | os.PathLike, rooms: tuple[str, ...]) -> bool:
        """Whether the path is one of the folders of the room, or leads to something below it, links followed."""
        whole = os.path.normpath(os.path.join(self.room, os.fsdecode(path)))
        real = os.path.join(os.path.realpath(os.path.dirname(whole)), os.path.basename(whole))
        return any(f"{real}/".startswith(os.path.normpath(os.path.join(self.room, one)) + "/") for one in rooms)

    @contextmanager
    def watch(self, room: Path, seconds: float = 0) -> Iterator[None]:
        """Raises Broken if the block touched what is not its own, held too much, or Hang if it took too long."""
        self.faults.clear()
        _forget_peak()
        signal.signal(signal.SIGPROF, _stop)
        signal.setitimer(signal.ITIMER_PROF, seconds or SECONDS)
        self.room = str(room)
        try:
            yield
        finally:
            self.room = ""
            signal.setitimer(signal.ITIMER_PROF, 0)
        if self.faults:
            raise Broken("; ".join(self.faults[:5]))
        if (peak := _read_peak()) > MEMORY_BYTES:
            raise Broken(f"{peak:,} bytes of memory were held")


def _stop(number: int, frame: object) -> None:
    raise Hang("more time than it may take")


def _forget_peak() -> None:
    with open("/proc/self/clear_refs", "w") as file:
        file.write("5")


def _read_peak() -> int:
    with open("/proc/self/status") as file:
        return next(int(line.split()[1]) * 1024 for line in file if line.startswith("VmHWM"))


def bound_memory() -> None:
    """What is beyond any doubt too much makes the system refuse it."""
    resource.setrlimit(resource.RLIMIT_DATA, (3 * MEMORY_BYTES, resource.RLIM_INFINITY))


def digest_tree(folder: Path) -> dict[str, str]:
    """Every file below a folder by its path: its digest; links by where they lead."""
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_symlink():
            found[str(path.relative_to(folder))] = f"link to {os.readlink(path)}"
        elif path.is_file():
            found[str(path.relative_to(folder))] = hashlib.sha256(path.read_bytes()).hexdigest()
    return found


def judge_leftovers(
    room: Path, argv: tuple[str, ...], code: int, before: dict[str, str], lying: dict[str, bytes]
) -> None:
    """Raises Broken if an input was altered, or if what was written is not whole."""
    after = digest_tree(room / "in")
    kept = {
        path: digest for path, digest in after.items() if argv[:1] != ("answer",) or not path.endswith(".answers.yaml")
    }
    if {path: digest for path, digest in before.items() if path in kept} != {
        path: kept[path] for path in before if path in kept
    } or set(kept) - set(before):
        raise Broken(f"the inputs were altered: {sorted(set(kept) ^ set(before))}")
    left = [
        path.name for path in (room / "tmp").iterdir() if not path.name.startswith("openpyxl.")
    ]  # it clears those when a process ends
    if left:
        raise Broken(f"left in the temporary folder: {left}")
    written = digest_tree(room / "out")
    odd = [
        path
        for path in written
        if "/.paperwork-" in f"/{path}"
        and not path.endswith(("manifest.json", ".paperwork-lock"))
        and path not in lying
    ]
    if odd:
        raise Broken(f"drafts are left: {odd}")
    if code == 2 and argv[:1] != ("check",) and set(written) - set(lying) - {".paperwork-lock"}:
        raise Broken(f"refused, and yet written: {sorted(written)}")
    if argv[:1] in (("build",), ("tonight",)) and code < 2 and not lying:
        _judge_set(room / "out", written)


def _judge_set(folder: Path, written: dict[str, str]) -> None:
    """A set of papers is whole: just the files of the manifest, byte for byte, the index among them, or one for a telephone."""
    if not written:
        return
    manifest = json.loads((folder / ".paperwork-manifest.json").read_bytes())["files"]
    own = {path: digest for path, digest in written.items() if not path.startswith(".paperwork-")}
    if own != manifest or not ("index.html" in manifest or all(path.endswith(".html") for path in manifest)):
        raise Broken(f"half a set of papers: {sorted(set(own) ^ set(manifest))}")
    for path in manifest:
        if path.endswith(".pdf") and not (folder / path).read_bytes().rstrip().endswith(b"%%EOF"):
            raise Broken(f"half a paper: {path}")


def make_room() -> Path:
    """A folder for one process, in memory where the system has such a place."""
    shared = Path("/dev/shm")
    return Path(tempfile.mkdtemp(prefix="fuzz-", dir=shared if shared.is_dir() else None))
