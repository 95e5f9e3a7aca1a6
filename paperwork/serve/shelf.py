"""What is open on the page: each show by its own id, so that two tabs do not mix."""

import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NamedTuple, Protocol, TypeVar

from paperwork import limits
from paperwork.document import Printer
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.files.sweep.heads import split_cells
from paperwork.finding import find
from paperwork.place import Place
from paperwork.serve.aside.bench import Bench
from paperwork.serve.bundles import unpack
from paperwork.serve.shows import Opened

SUFFIXES = (".yaml", ".yml", ".xlsx", ".xlsm", ".csv", ".tsv")
"""What a show, or somebody's list of one, ends in."""


HEAD_BYTES = 4096
SWEEP_ROWS = 5
"""How much of a file says whether it is a sweep, and rows of levels that make it one; our own choice."""

_LEVEL = re.compile(r"-\d+(?:[.,]\d+)?")


UNKNOWN_TIME = "0000-00-00-0000"
"""What a clock says that nobody gave."""


T = TypeVar("T")


class Lends(Protocol):
    """What lends papers to telephones."""

    def describe(self, opened: Opened) -> dict[str, Any] | None:
        """What the page of a show says of it."""


class Listed(NamedTuple):
    """The files of a folder that the page offers, by name, and how many more there are."""

    names: tuple[str, ...]
    left_off: int


class Shelf:
    """The open shows by id. Ids come from whoever makes the shelf, so that nobody can guess them."""

    def __init__(
        self,
        folder: Path,
        name_next: Callable[[], str],
        printers: Mapping[str, Printer] | None = None,
        read_clock: Callable[[], str] = lambda: UNKNOWN_TIME,
    ) -> None:
        self.folder = folder
        self.printers = printers or {}
        self.read_clock = read_clock
        self.lending: Lends | None = None
        self.bench: Bench | None = None
        self.name_next = name_next
        self._shows: dict[str, Opened] = {}

    def get(self, id: str) -> Opened | None:
        """The show of an id, None if it was never open or was closed for newer ones."""
        return self._shows.get(id)

    @property
    def unsaved(self) -> tuple[Opened, ...]:
        """The open shows whose answers are in no file."""
        return tuple(opened for opened in self._shows.values() if opened.unsaved)

    @property
    def opened(self) -> tuple[Opened, ...]:
        """The open shows, the latest first."""
        return tuple(reversed(self._shows.values()))

    def do_aside(self, act: Callable[..., T], *values: Any, seconds: int = limits.READ_SECONDS) -> T:
        """What `act` gives for the values, done in another process where there are some. Raises OverBudget."""
        if self.bench is None:
            return act(*values)
        done: T = self.bench.run("", act, values, seconds)
        return done

    def list_files(self) -> Listed:
        """The shows and lists that lie in the folder."""
        try:
            names = sorted(
                path.name for path in self.folder.iterdir() if path.suffix.lower() in SUFFIXES and path.is_file()
            )
        except OSError:
            return Listed((), 0)
        named = [name for name in names if not name.startswith((".", "~$")) and not name.endswith(".answers.yaml")]
        named = [name for name in named if not _is_sweep(self.folder / name)]
        return Listed(tuple(named[: limits.FOLDER_NAMES]), max(0, len(named) - limits.FOLDER_NAMES))

    def open(self, name: str) -> Opened:
        """Opens a file of the folder, or finds it open already, as it was read then. Raises Refused."""
        data = self.load(name)
        for opened in self.opened:
            if opened.folder and opened.name == name:
                return opened
        return self._add(name, {name: data}, self.folder)

    def load(self, name: str) -> bytes:
        """The bytes of a file of the folder. Raises Refused."""
        if name not in self.list_files().names:
            raise Refused(find("file-missing", Place(name), name=name, nearest=""))
        return load_file(self.folder / name, name)

    def drop(self, files: Mapping[str, bytes]) -> Opened:
        """Opens what was dropped: the first file that can be a show, or what an archive or a show book was made from;
        the others lie beside it. Raises Refused."""
        inside = self.do_aside(unpack, _pick_show(files), files)
        name, data = inside.show, inside.files[inside.show]
        if len(data) > limits.FILE_BYTES:
            raise Refused(find("file-large", Place(name), name=name, most=f"{limits.FILE_BYTES:,}"))
        folder = self.folder if self._lies_here(name, data) else None
        return self._add(name, dict(inside.files), folder, inside.venue)

    def _lies_here(self, name: str, data: bytes) -> bool:
        """Whether the dropped file is the one in the folder, byte for byte: then its answers belong there."""
        path = self.folder / name
        try:
            return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data
        except OSError:
            return False

    def _add(self, name: str, files: dict[str, bytes], folder: Path | None, venue: str = "") -> Opened:
        opened = Opened(self.name_next(), name, files, folder, venue, bench=self.bench)
        opened.read()
        self._shows[opened.id] = opened
        while len(self._shows) > limits.OPEN_SHOWS:
            oldest = next((one for one in self._shows.values() if not one.unsaved), None)
            del self._shows[oldest.id if oldest and oldest is not opened else next(iter(self._shows))]
        return opened


def _is_sweep(path: Path) -> bool:
    """Whether a file holds levels alone, by its beginning: rows of numbers, the last of each below zero.

    No list of channels has those. A sweep in other units is listed as if it could be a show.
    """
    if path.suffix.lower() not in (".csv", ".tsv"):
        return False
    try:
        with path.open("rb") as file:
            lines = file.read(HEAD_BYTES).decode("ascii").splitlines()[:-1]
    except (OSError, ValueError):
        return False
    rows = [cells for line in lines if len(cells := split_cells(line)) > 1 and _LEVEL.fullmatch(cells[-1].strip())]
    return len(rows) >= SWEEP_ROWS and len(rows) > len(lines) // 2


def _pick_show(files: Mapping[str, bytes]) -> str:
    """The name of the show among the files: by its ending, a sheet of values last, since a sweep is one too."""

    def rank(name: str) -> int:
        suffix = Path(name).suffix.lower()
        if name.endswith(".answers.yaml") or suffix not in SUFFIXES:
            return len(SUFFIXES)
        return SUFFIXES.index(suffix)

    return min(files, key=rank)
