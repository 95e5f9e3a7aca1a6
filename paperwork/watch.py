"""Papers that follow their show file: each save is read again, and only what it changed is printed and written.

`Follower.look` is one step and needs no clock: it compares the bytes of the files with those of its last look. `follow`
calls it whenever the system tells of a change in their folders; it watches folders, not files, since many editors save
by putting a new file in place of the old one. The papers come first: book and index, which hold all of them, follow.
"""

import gc
import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from paperwork import limits
from paperwork.archive import attach_inputs
from paperwork.changes import Entry, diff_shows, tell_changes
from paperwork.files.refusal import Refused
from paperwork.files.sweep import lies_below
from paperwork.finding import Finding
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
"""And looked at without a word from the system after this: some network shares tell nothing, and a save may fall
between the first look and the first watch."""


@dataclass(frozen=True, slots=True)
class Told:
    """What one look found. Without a show nothing was written, and the papers are those of the last good save.

    `entries` are the facts that changed since then, `report` which files did. Without `papers` book and index are still to
    come; one that `follows` tells of those, and of nothing that was told before.
    """

    findings: tuple[Finding, ...]
    is_printed: bool
    entries: tuple[Entry, ...] = ()
    report: Report | None = None
    papers: Papers | None = None
    follows: bool = False


Files: TypeAlias = Mapping[str, bytes]

Print: TypeAlias = "Callable[[Show, tuple[Finding, ...], tuple[Attachment, ...], Callable[[Files], None]], Papers]"
"""Makes the papers of a show, with what the show book carries; hands the papers over before it makes book and index."""


class Follower:
    """A show file, the folder of its papers, and what both were at the last look."""

    def __init__(self, show: Path, name: str, folder: Path, *, venue: str = "", printer: "Print | None" = None) -> None:
        self.show = show
        self.name = name
        self.folder = folder
        self.venue = venue
        self._print = printer or print_with_memory()
        self._digests: dict[Path, bytes | None] = {}
        self._last: Show | None = None
        self._files: Files = {}

    def files(self) -> Iterator[Path]:
        """What a save can change: the show file, the answers about it, and the sweeps that it names."""
        yield self.show
        yield self.show.with_name(name_answers(self.show.name))
        for sweep in self._last.spectrum.sweeps if self._last else ():
            if lies_below(sweep):
                yield self.show.parent / sweep

    def minds(self, path: str) -> bool:
        """Whether a change at a path can matter, by its name: editors write beside the file, and then rename."""
        return Path(path).name in {own.name for own in self.files()}

    def look(self, tell: Callable[[Told], None] | None = None) -> Told | None:
        """What changed since the last look, printed; None if nothing did. Raises OutputError.

        With `tell`, papers that changed are written and told as soon as they are made; what is returned then tells the rest.
        A file that is not there, or holds nothing, is in the middle of being saved: that is no news.
        """
        digests = {path: _digest(path) for path in self.files()}
        if digests[self.show] is None or digests == self._digests:
            return None
        reading = read_show(self.show, self.name, venue=self.venue)
        self._digests = digests
        if reading.show is None:
            return Told(reading.findings, False)
        old, self._last = self._last, reading.show
        self._digests = {path: digests.get(path) or _digest(path) for path in self.files()}
        changes = tell_changes(old, reading.show, diff_shows(old, reading.show)) if old else ()
        return self._publish(reading.show, reading.findings, changes, tell)

    def _publish(
        self,
        show: Show,
        findings: tuple[Finding, ...],
        changes: tuple[Entry, ...],
        tell: Callable[[Told], None] | None,
    ) -> Told:
        ahead: list[Told] = []

        def hand_over(files: Files) -> None:
            if tell and self._files and (report := publish(self.folder, {**self._files, **files})).written:
                ahead.append(Told(findings, True, changes, report))
                tell(ahead[0])

        papers = self._print(show, findings, self._attach(show), hand_over)
        report, self._files = publish(self.folder, papers.files), papers.files
        if not ahead:
            return Told(papers.findings, True, changes, report, papers)
        return Told(
            tuple(one for one in papers.findings if one not in findings), True, (), report, papers, follows=True
        )

    def _attach(self, show: Show) -> "tuple[Attachment, ...]":
        """The inputs, as `build` attaches them; none where one of them cannot go along."""
        try:
            return attach_inputs(gather_inputs(self.show, self.name, show))
        except Refused:
            return ()


def print_with_memory(made: str = "") -> Print:
    """Makes papers, and keeps what it made: the next time only what changed is laid out and inked."""
    from paperwork.render.pdf.press import Press

    press = Press(lasting=True)
    return lambda show, findings, attached, hand_over: make_papers(
        show,
        findings,
        made=made,
        press=press,
        attached=attached,
        hand_over=hand_over,
    )


def follow(follower: Follower, tell: Callable[[Told], None]) -> None:
    """Looks at once, and then after every save, until interrupted. Raises ModuleNotFoundError without the extra `page`."""
    from watchfiles import watch

    _tell_look(follower, tell)
    for _ in watch(
        follower.show.parent,
        watch_filter=lambda _, path: follower.minds(path),
        debounce=MOST_MS,
        step=QUIET_MS,
        rust_timeout=AGAIN_MS,
        yield_on_timeout=True,
    ):
        _tell_look(follower, tell)


def _tell_look(follower: Follower, tell: Callable[[Told], None]) -> None:
    """One look. What it leaves in memory is kept out of the searches for garbage, which would cost every save a quarter second."""
    told = follower.look(tell)
    if told:
        tell(told)
        gc.unfreeze()
        gc.collect()
        gc.freeze()


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
