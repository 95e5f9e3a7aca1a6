"""Papers that follow their show file: each save is read again, and only what it changed is printed and written.

`Follower.look` is one step: it compares the bytes of the files with those of its last look, and takes them for a save
once two looks found the same. A save that lost half of the show is doubted, because an editor may be cut off at the end
of a line: the papers stay until it is saved again, grows, or has stayed so for a while. `follow` looks whenever the
system reports a change in the folders; it watches folders, not files, since many editors save by putting a new file in
place of the old one. The papers come first: book and index, which hold all of them, follow.
"""

import gc
import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from hashlib import sha256
from pathlib import Path
from time import monotonic, sleep
from typing import TYPE_CHECKING, TypeAlias

from paperwork import limits
from paperwork.archive import attach_inputs
from paperwork.changes import Entry, diff_shows, list_changes
from paperwork.files.refusal import Refused
from paperwork.files.sniff import ReadOnce
from paperwork.files.sweep import lies_below
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.intake.answers import name_answers
from paperwork.model import Show
from paperwork.output import Report, publish
from paperwork.pipeline import Papers, make_papers
from paperwork.reading import read_show
from paperwork.revisions import gather_inputs

if TYPE_CHECKING:
    from paperwork.render.pdf.pdfa import Attachment

QUIET_MS = 50
"""A save is over when nothing has changed for so long: editors write in several steps. The library's own default."""

MOST_MS = 1_500
"""And it is read at the latest after this, if somebody never stops writing."""

AGAIN_MS = 1_000
"""And looked at without a word from the system after this: some network shares report nothing, and a save may fall
between the first look and the first watch."""

DOUBTED_S = 15
"""A save that lost half of the show is believed once it has stayed as it is for so long. A choice of this project:
nobody waits so long in the middle of a save."""


@frozen
class WatchLook:
    """What one look found. Where nothing `is_printed` the papers are those of the last good save, and `doubt` says why
    the new one is not believed, if it could be read.

    `entries` are the facts that changed since then, `report` which files did. Without `papers` book and index are
    still to come; one that `follows` says what became of those alone.
    """

    findings: tuple[Finding, ...]
    is_printed: bool
    entries: tuple[Entry, ...] = ()
    report: Report | None = None
    papers: Papers | None = None
    follows: bool = False
    doubt: str = ""


@frozen
class _Doubt:
    """A save that lost half of the show: its size in bytes, when it was saved, and since when it has been so."""

    size: int
    saved_ns: int
    since_s: float


Files: TypeAlias = Mapping[str, bytes]

Digests: TypeAlias = Mapping[Path, bytes | None]
"""What each file held at a look; None where there was none, or nothing in it."""

Print: TypeAlias = "Callable[[Show, tuple[Finding, ...], tuple[Attachment, ...], Callable[[Files], None]], Papers]"
"""Makes the papers of a show, with what the show book carries; hands the papers over before it makes book and index."""


class Follower:
    """A show file, the folder of its papers, and what both were at the last look."""

    def __init__(
        self,
        show: Path,
        name: str,
        folder: Path,
        *,
        venue: str = "",
        on: str = "",
        printer: "Print | None" = None,
        clock: Callable[[], float] = monotonic,
    ) -> None:
        self.show = show
        self.name = name
        self.folder = folder
        self.venue = venue
        self.on = on
        self._print = printer or print_with_memory()
        self._clock = clock
        self._digests: Digests = {}
        self._seen: Digests = {}
        self._last: Show | None = None
        self._size = 0
        self._doubt: _Doubt | None = None
        self._files: Files = {}
        self._opened = ReadOnce()

    def files(self) -> Iterator[Path]:
        """What a save can change: the show file, the answers about it, and the sweeps that it names."""
        yield self.show
        yield self.show.with_name(name_answers(self.show.name))
        for sweep in self._last.spectrum.sweeps if self._last else ():
            if lies_below(sweep):
                yield self.show.parent / sweep

    def is_relevant(self, path: str) -> bool:
        """Whether a change at a path can matter, by its name: editors write beside the file, and then rename."""
        return Path(path).name in {own.name for own in self.files()}

    @property
    def is_waiting(self) -> bool:
        """Whether the last look found a save that may not be over: look again soon."""
        return self._seen != self._digests and self._seen.get(self.show) is not None

    def look(self, report: Callable[[WatchLook], None] | None = None) -> WatchLook | None:
        """What changed since the last look, printed; None if nothing did, or if a save may not be over. Raises
        OutputError.

        With `report`, papers that changed are written and reported as soon as they are made; what is returned is the
        rest. A file that is not there, or holds nothing, is in the middle of being saved: that is no news.
        """
        digests = {path: _digest(path) for path in self.files()}
        is_quiet, self._seen = digests == self._seen, digests
        saved = _stat(self.show)
        if digests[self.show] is None or saved is None or not is_quiet:
            return None
        if digests == self._digests and not (self._doubt and self._is_confirmed(self._doubt, saved)):
            return None
        self._opened = ReadOnce()
        reading = read_show(self.show, self.name, venue=self.venue, on=self.on, load=self._opened.load)
        self._digests = digests
        if reading.show is None:
            self._doubt = None
            return WatchLook(reading.findings, False)
        if doubt := self._doubt_save(reading.show, saved):
            return WatchLook(reading.findings, False, doubt=doubt)
        old, self._last, self._size = self._last, reading.show, saved.st_size
        self._digests = self._seen = {path: digests.get(path) or _digest(path) for path in self.files()}
        changes = list_changes(old, reading.show, diff_shows(old, reading.show)) if old else ()
        return self._publish(reading.show, reading.findings, changes, report)

    def _is_confirmed(self, doubt: "_Doubt", saved: os.stat_result) -> bool:
        """Whether a doubted save was saved again, or has stayed as it is for long enough."""
        return saved.st_mtime_ns != doubt.saved_ns or self._clock() - doubt.since_s >= DOUBTED_S

    def _doubt_save(self, show: Show, saved: os.stat_result) -> str:
        """What a save lost, where it is half of the show and nobody has confirmed it; else ""."""
        former, self._doubt = self._doubt, None
        lost = _say_lost(len(show.channels), len(self._last.channels), "channels") if self._last else ""
        lost = lost or _say_lost(saved.st_size, self._size, "bytes")
        if not lost or (former and saved.st_size <= former.size and self._is_confirmed(former, saved)):
            return ""
        self._doubt = _Doubt(saved.st_size, saved.st_mtime_ns, self._clock())
        return lost

    def _publish(
        self,
        show: Show,
        findings: tuple[Finding, ...],
        changes: tuple[Entry, ...],
        report: Callable[[WatchLook], None] | None,
    ) -> WatchLook:
        ahead: list[WatchLook] = []
        put = partial(publish, self.folder, title=show.production.title, venue=show.edition)

        def hand_over(files: Files) -> None:
            if report and self._files and (done := put({**self._files, **files}, more_follows=True)).written:
                ahead.append(WatchLook(findings, True, changes, done))
                report(ahead[0])

        papers = self._print(show, findings, self._attach(show), hand_over)
        done, self._files = put(papers.files), papers.files
        if not ahead:
            return WatchLook(papers.findings, True, changes, done, papers)
        rest = tuple(one for one in papers.findings if one not in findings)
        return WatchLook(rest, True, (), replace(done, earlier=""), papers, follows=True)

    def _attach(self, show: Show) -> "tuple[Attachment, ...]":
        """The inputs, as `build` attaches them; none for one performance, or where one of them cannot go along."""
        if self.on:
            return ()
        try:
            return attach_inputs(gather_inputs(self.show, self.name, show, self._opened.load), show.at_venue)
        except Refused:
            return ()


def print_with_memory(made: str = "") -> Print:
    """Makes papers, and keeps what it made: the next time only what changed is laid out and inked."""
    from paperwork.render.pdf.press import Press

    press = Press(lasting=True)
    return lambda show, findings, attached, hand_over: make_papers(
        show, findings, made=made, press=press, attached=attached, hand_over=hand_over
    )


def follow(follower: Follower, report: Callable[[WatchLook], None]) -> None:
    """Looks at once, then after every save, until interrupted. Raises ModuleNotFoundError without the extra `page`."""
    from watchfiles import watch

    _look_until_quiet(follower, report)
    for _ in watch(
        follower.show.parent,
        watch_filter=lambda _, path: follower.is_relevant(path),
        debounce=MOST_MS,
        step=QUIET_MS,
        rust_timeout=AGAIN_MS,
        yield_on_timeout=True,
    ):
        _look_until_quiet(follower, report)


def _look_until_quiet(follower: Follower, report: Callable[[WatchLook], None]) -> None:
    """Looks until a save is over. What a look leaves in memory is kept out of the searches for garbage, which would
    cost every save a quarter second."""
    while (found := follower.look(report)) is None and follower.is_waiting:
        sleep(QUIET_MS / 1000)
    if found:
        report(found)
        gc.unfreeze()
        gc.collect()
        gc.freeze()


def _say_lost(now: int, before: int, what: str) -> str:
    """How much is left of how much, where it is half or less."""
    return f"{now:,} of {before:,} {what} are left" if before > 1 and 2 * now <= before else ""


def _stat(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except OSError:
        return None


def _digest(path: Path) -> bytes | None:
    try:
        if not os.path.isfile(path):
            return None
        with path.open("rb") as file:
            data = file.read(limits.SWEEP_BYTES)
            data += str(os.fstat(file.fileno()).st_size).encode() if len(data) == limits.SWEEP_BYTES else b""
    except OSError:
        return None
    return sha256(data).digest() if data.strip() else None
