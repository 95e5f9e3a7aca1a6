"""A show that is open on the page, and what can be done with it."""

import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from paperwork import limits
from paperwork.archive import attach_inputs
from paperwork.editing.edited import EditedShow, read_edited
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.files.sweep import Level, StatedUnit
from paperwork.finding import Finding, find
from paperwork.intake import Source, read_source_bytes
from paperwork.intake.answers import name_answers, read_answers, read_answers_bytes, write_answers
from paperwork.intake.questions import Question
from paperwork.overlay import read_rows
from paperwork.pipeline import LabelChoice, Papers, make_papers, make_tonight
from paperwork.place import Place
from paperwork.plan.covers import Tonight, plan_tonight, stage_all
from paperwork.reading import Reading, judge_source
from paperwork.serve.aside.bench import Bench, OverBudget
from paperwork.serve.edit.history import EditHistory
from paperwork.serve.held.beside import gather_beside, load_beside, load_sweep_beside
from paperwork.serve.held.choices import PrintChoice
from paperwork.sheets import OF_RUN
from paperwork.sheets.evening.page import Night
from paperwork.text.names import fold

if TYPE_CHECKING:
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Comparison

Key = tuple[str, str]
T = TypeVar("T")


@dataclass(eq=False)
class Opened:
    """One show on the page. `folder` is where it lies, None if it was dropped from somewhere else.

    `venue` and `on` say of which house and of which performance, or from which date to which, its papers are. `are_loose`: answers are in no file but this program's memory. `history` knows what was edited on the page, `outdated` that papers were made of an earlier state. `dropped` holds files by their names, the show's own among them; what is not there is read from the folder.
    """

    id: str
    name: str
    dropped: dict[str, bytes]
    folder: Path | None = None
    venue: str = ""
    on: str = ""
    answers: dict[Key, str] | None = None
    source: Source = field(default_factory=lambda: Source(None, ()))
    reading: Reading = field(default_factory=lambda: Reading(None, (), readable=False))
    labels: LabelChoice = field(default_factory=LabelChoice)
    printing: PrintChoice = field(default_factory=PrintChoice)
    laid: dict[str, LabelChoice] = field(default_factory=dict)
    printer: str = ""
    papers: Papers | None = None
    tonight: Papers | None = None
    evening: Tonight | None = None
    away: tuple[str, ...] = ()
    dead: tuple[str, ...] = ()
    compared: "Comparison | None" = None
    since: Papers | None = None
    progress: tuple[str, int] = ("", 0)
    kept: str = ""
    outdated: bool = False
    are_loose: bool = False
    press: "Press | None" = None
    bench: Bench | None = None
    history: EditHistory = field(init=False)
    _edited: EditedShow | None = None

    def __post_init__(self) -> None:
        self.history = EditHistory(self.data)

    @property
    def data(self) -> bytes:
        """The bytes of the show file."""
        return self.dropped[self.name]

    @property
    def questions(self) -> tuple[Question, ...]:
        """What a foreign sheet leaves open."""
        return self.source.understanding.questions if self.source.understanding else ()

    @property
    def venues(self) -> tuple[str, ...]:
        """The venues that the show names."""
        return tuple(dict.fromkeys(row.venue for row in read_rows(self.source.raw))) if self.source.raw else ()

    @property
    def edition(self) -> str:
        """The venue and the performance that its papers are of, "" for the show as it is."""
        return self.reading.show.edition if self.reading.show else self.venue

    @property
    def choice(self) -> LabelChoice:
        """How labels and what is cut out are printed."""
        return replace(self.labels, strip_mm=self.printing.strip_mm, card_mm=self.printing.card_mm)

    @property
    def is_edited(self) -> bool:
        """Whether the show was changed on the page and is in no file yet."""
        return self.data != self.history.base

    @property
    def unsaved(self) -> bool:
        """Whether something would be lost with this program."""
        return self.are_loose or self.is_edited

    def was_saved(self) -> bool:
        """Whether the show's file in its folder says something else now."""
        return self.load_saved() not in (self.data, self.history.base)

    def may_refresh(self) -> bool:
        """Whether reading it anew would show something else, and lose nothing."""
        return not self.is_edited and self.was_saved()

    def load_saved(self) -> bytes:
        """What the file in the folder says; what it said, where it cannot be read or there is none."""
        try:
            return load_file(self.folder / self.name, self.name) if self.folder else self.history.base
        except Refused:
            return self.history.base

    def refresh(self) -> bool:
        """Reads the show anew if its file in the folder was saved again; whether it was. What was edited here stays."""
        data = self.load_saved()
        if self.is_edited or data == self.data:
            return False
        self.history = EditHistory(data)
        self.dropped[self.name] = data
        self.answers = None
        self.read()
        return True

    def __getstate__(self) -> dict[str, Any]:
        """What work aside needs of it; what it makes is given back by itself."""
        own = ("press", "bench", "papers", "tonight", "since", "evening", "_edited")
        return {**self.__dict__, **dict.fromkeys(own)}

    def do_aside(self, act: Callable[..., T], *values: Any, seconds: int = limits.PRINT_SECONDS) -> T:
        """What `act` gives for this show and the values, in another process where there is one. Raises OverBudget."""
        if self.bench is None:
            return act(self, *values)
        done: T = self.bench.run(self.id, act, (self, *values), seconds, self._note_progress)
        return done

    def read(self) -> None:
        """Reads the show anew; what was made of it before is gone."""
        try:
            anew = self.do_aside(_read_anew, seconds=limits.READ_SECONDS)
        except OverBudget as over:
            heavy = (find("file-heavy", Place(self.name), name=self.name, most=over.most),)
            anew = Source(None, heavy), Reading(None, heavy, readable=False), self.venue, self.on, self.answers
        self.source, self.reading, self.venue, self.on, self.answers = anew
        self._forget_papers()

    def judge(self, on: str = "") -> Reading:
        """The show as it is in its venue, of the whole run or of one performance."""
        return judge_source(self.source, self._load_sweep, venue=self.venue, on=on)

    def open_edited(self) -> EditedShow:
        """The show file itself, to be edited, without a venue. Raises Refused where it cannot be."""
        if self._edited is None or self._edited.data != self.data:
            self._edited = read_edited(self.data, self.name, self._load_sweep)
        return self._edited

    def take(self, edited: EditedShow) -> None:
        """Another state of the show file, which was read already; what was made of the one before is gone."""
        self.dropped[self.name] = edited.data
        self._edited = edited
        if self.venue or self.on:
            self.read()
            return
        self.source, self.reading = edited.source, edited.reading
        self._forget_papers()

    def rename(self, name: str) -> None:
        """Goes on with the same show under the name of another file of its folder."""
        self.dropped[name] = self.dropped.pop(self.name)
        self.name, self._edited = name, None
        self.read()

    def _forget_papers(self) -> None:
        self.outdated = self.outdated or self.papers is not None
        self.papers = self.tonight = self.compared = self.since = self.evening = None
        self.kept = ""

    def recall(self) -> tuple[Mapping[Key, str], tuple[Finding, ...]]:
        """The answers: those that were kept with the sheet, until the page has its own."""
        name = name_answers(self.name)
        wrong: tuple[Finding, ...] = ()
        if self.answers is None and name in self.dropped:
            self.answers, wrong = read_answers_bytes(self.dropped[name], name)
        elif self.answers is None and self.folder:
            self.answers, wrong = read_answers(self.folder / name, name)
        self.answers = self.answers or {}
        return self.answers, wrong

    def _load_sweep(self, sweep: str, stated: StatedUnit) -> tuple[tuple[Level, ...], tuple[Finding, ...]]:
        return load_sweep_beside(self.dropped, self.folder, sweep, stated)

    def keep_answers(self, answers: dict[Key, str]) -> None:
        """Beside the sheet where it has a folder; else only in memory, to be downloaded. Raises OutputError."""
        from paperwork.output import write_new, write_over

        if answers == self.answers:
            return
        name, data = name_answers(self.name), write_answers(answers, self.name).encode("utf-8")
        if self.folder and name not in self.dropped:
            path = self.folder / name
            (write_over if os.path.exists(path) else write_new)(path, data)
        else:
            self.dropped[name] = data
            self.are_loose = True
        self.answers = answers
        self.read()

    @property
    def answers_file(self) -> bytes:
        """The answers as their file."""
        return write_answers(self.answers or {}, self.name).encode("utf-8")

    def print(self) -> None:
        """Makes every paper; of several performances those that are of them all. Raises OverBudget."""
        self.progress = "", 0
        self.refresh()
        labels = self.labels
        if papers := self.do_aside(_make_papers):
            self.laid["papers"], self.outdated, self.papers = labels, False, papers

    def take_press(self) -> "Press":
        """What prints it, and keeps what it printed."""
        from paperwork.render.pdf.press import Press

        self.press = self.press or Press(self._note_progress)
        return self.press

    def _note_progress(self, path: str, left: int) -> None:
        self.progress = path, left

    def gather(self) -> dict[str, bytes]:
        """The inputs, in the order in which the command gathers them; none where one could not be put back."""
        sweeps = self.reading.show.spectrum.sweeps if self.reading.show else ()
        return gather_beside(self.name, sweeps, lambda name: load_beside(self.dropped, self.folder, name))

    def is_laid(self, papers: str) -> bool:
        """Whether the labels of `papers`, `tonight` or `since` lie where the choice of now says."""
        return self.laid.get(papers) == self.labels

    def plan(self, away: Sequence[str], dead: Sequence[str]) -> None:
        """Makes the papers of tonight: who is off, and the channels whose packs died."""
        show = self.reading.show
        if show is None or show.is_of_days:
            return
        self.away, self.dead = tuple(away), tuple(id for id in dead if id in show.channels)
        if not (self.away or self.dead):
            self.tonight = self.evening = None
            return
        whole = stage_all(show)
        self.evening = plan_tonight(whole, self.away)
        packs = [show.channels[id] for id in self.dead]
        self.laid["tonight"] = self.labels
        date = show.performances[self.on].date if self.on in show.performances else ""
        self.tonight = make_tonight(
            show, self.reading.findings, self.evening, packs, night=Night(date=date), labels=self.labels
        )


def _read_anew(opened: Opened) -> tuple[Source, Reading, str, str, dict[Key, str] | None]:
    """Source, reading, venue, performance and answers of a show, as its file says them now."""
    opened.source = read_source_bytes(opened.data, opened.name, opened.recall)
    opened.venue = next((venue for venue in opened.venues if fold(venue) == fold(opened.venue)), "")
    reading = opened.judge(opened.on)
    if opened.on and reading.show is None and (run := opened.judge()).show:
        opened.on, reading = "", run  # there is no such performance any more
    return opened.source, reading, opened.venue, opened.on, opened.answers


def _make_papers(opened: Opened) -> Papers | None:
    """Every paper of a show that can be read. Of a performance the book carries no file."""
    show = opened.reading.show
    if show is None:
        return None
    return make_papers(
        show,
        opened.reading.findings,
        only=OF_RUN if show.is_of_days else frozenset(),
        labels=opened.choice,
        blank=opened.printing.blank,
        press=opened.take_press(),
        attached=() if opened.on else attach_inputs(opened.gather(), opened.venue),
    )
