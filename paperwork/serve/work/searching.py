"""Frequencies looked for, and windows surveyed, by the command in a process of its own: it can be ended at any time,
and what it found is looked at before it is taken."""

import atexit
import os
import re
import signal
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from paperwork import limits
from paperwork.changes import diff_shows, list_changes
from paperwork.coordinate.grants import list_answered
from paperwork.editing.edited import EditedShow
from paperwork.files.refusal import Refused
from paperwork.model import Show
from paperwork.pipeline import lay_out_papers
from paperwork.render.pdf.svg import paint_svg
from paperwork.serve.edit.acts import take_state
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.pages import POLICY, SCRIPTS
from paperwork.serve.replies import make_reply
from paperwork.serve.shows import Opened
from paperwork.serve.wording import EFFORTS, WAYS, say_here
from paperwork.serve.work.held import Held
from paperwork.sheets import SHEETS
from paperwork.sheets.rack.spectrum import NAME as SPECTRUM
from paperwork.text.names import join_words
from paperwork.text.templating import render_policy, render_template

_OPTIONS = {way.option for way in WAYS if way.option}

FOUND = "frequencies-found"
"""The stem of the file that the command writes: beside the show, so that it is checked with what lies there."""

_SPARES = re.compile(r"[\w .=,:-]{0,80}")
_PLACED = re.compile(r"\S+ .+: [0-9.]+ MHz")
"""A line that says no more than the change which is listed."""

_PROGRESS = re.compile(r"(\d+) placed, (\d+) % of the effort")


@dataclass
class Search:
    """One run of the command. `data` is the show that it began with, `found` what it wrote, read again."""

    kind: str
    data: bytes
    folder: "TemporaryDirectory[str]"
    process: "subprocess.Popen[bytes]"
    result: Path
    is_read: bool = False
    lines: list[str] = field(default_factory=list)
    found: EditedShow | None = None
    entries: tuple[Any, ...] = ()
    pages: tuple[bytes, ...] = ()
    report: bytes = b""

    @property
    def is_running(self) -> bool:
        """Whether its process has not ended."""
        return self.process.poll() is None

    def read(self, name: str) -> str:
        """What it printed so far, to `out` or to `err`."""
        return (Path(self.folder.name) / name).read_text(encoding="utf-8", errors="replace")

    def end(self, number: signal.Signals = signal.SIGTERM) -> None:
        """Asks its process to end, or to come to an end with what it has (SIGINT)."""
        if self.is_running:
            self.process.send_signal(number)


class Searching:
    """The answers to the addresses of a search, one for each show at a time."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._held: Held[Search] = Held(limits.OPEN_SHOWS, Search.end)
        atexit.register(self._held.clear)

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [
            Route("/search/", self.show),
            Route("/search/begin", self.begin, methods=["POST"]),
            Route("/search/end", self.end, methods=["POST"]),
            Route("/search/take", self.take, methods=["POST"]),
            Route("/search/progress", self.progress),
            Route("/search/{number:int}.svg", self.picture),
            Route("/search/windows.pdf", self.windows),
        ]

    async def show(self, request: Request) -> Response:
        """What can be looked for, what is being looked for, what was found."""
        return await self._show(self._desk.find(request))

    async def _show(self, opened: Opened, said: tuple[str, ...] = (), status: int = 200) -> Response:
        search = self._held.get(opened.id)
        if search and not search.is_running:
            await self._desk.work(_finish, opened, search)
        show = opened.reading.show
        if show is None or opened.source.raw is None or opened.source.understanding is not None:
            raise HTTPException(404, "Make a show file of the list first.")
        return HTMLResponse(
            render_template(
                "search.html.j2",
                policy=render_policy(styles=("look.css",), scripts=(*SCRIPTS, "search.js"), **POLICY),
                base=self._desk.base,
                here=f"{self._desk.base}shows/{opened.id}/",
                said=said,
                title=show.production.title or opened.name,
                venue=opened.venue,
                needs=_describe_needs(show, opened.venue),
                efforts=EFFORTS.items(),
                ways=WAYS,
                search=search,
                can_stop=os.name == "posix",
            ),
            status,
        )

    async def begin(self, request: Request) -> Response:
        """Begins a search; one that runs for this show is ended."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        self._held.drop(opened.id)
        if not _SPARES.fullmatch(given.get("spares", "")):
            return await self._show(opened, ("Write spares as 2, or as low=2,hand=1.",), 400)
        self._held.put(opened.id, await self._desk.work(_begin, opened, given))
        return self._go(opened)

    def _go(self, opened: Opened, part: str = "search/") -> Response:
        return RedirectResponse(f"{self._desk.base}shows/{opened.id}/{part}", 303)

    async def end(self, request: Request) -> Response:
        """Ends the search: with what is found so far, or without anything."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        search = self._held.get(opened.id)
        if search and "keep" in given and os.name == "posix":
            search.end(signal.SIGINT)
        elif search:
            self._held.drop(opened.id)
        return self._go(opened)

    async def progress(self, request: Request) -> Response:
        """Whether it runs, how many have a place, and how much of the effort is spent, in percent."""
        search = self._held.get(self._desk.find(request).id)
        said = _PROGRESS.findall(search.read("err")) if search else []
        placed, percent = map(int, said[-1]) if said else (0, 0)
        return JSONResponse({"running": bool(search and search.is_running), "placed": placed, "percent": percent})

    async def take(self, request: Request) -> Response:
        """Takes what was found as one step that can be undone."""
        opened = self._desk.find(request)
        await read_form(request)
        search = self._held.get(opened.id)
        if search is None or search.found is None:
            return await self._show(opened, ("There is nothing to take.",), 400)
        if search.data != opened.data:
            return await self._show(opened, ("The show was changed since: look again.",), 400)
        await self._desk.work(take_state, opened, search.found, f"{len(search.entries)} frequencies found")
        self._held.drop(opened.id)
        return self._go(opened, "#findings")

    async def picture(self, request: Request) -> Response:
        """A page of the spectrum as it would be."""
        search, number = self._held.get(self._desk.find(request).id), request.path_params["number"]
        if search is None or not 1 <= number <= len(search.pages):
            raise HTTPException(404, "There is no such page.")
        return make_reply(search.pages[number - 1], "page.svg")

    async def windows(self, request: Request) -> Response:
        """The windows that were surveyed, drawn."""
        search = self._held.get(self._desk.find(request).id)
        if search is None or not search.report:
            raise HTTPException(404, "There is no survey.")
        return make_reply(search.report, "windows.pdf")


def _begin(opened: Opened, given: dict[str, str]) -> Search:
    """The command on a copy of the show and of what lies beside it."""
    folder: TemporaryDirectory[str] = TemporaryDirectory(prefix="paperwork-")
    files = opened.gather() or {opened.name: opened.data}
    for path, data in files.items():
        target = Path(folder.name) / "in" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    show = next(iter(files))
    kind = "survey" if given.get("kind") == "survey" else "assign"
    result = Path(folder.name) / "in" / ("windows.pdf" if kind == "survey" else f"{FOUND}{Path(show).suffix}")
    words = [kind, show, "-o", result.name]
    words += ["--venue", opened.venue] if opened.venue else []
    if kind == "assign":
        words += ["--effort", given.get("effort", "")] if given.get("effort") in EFFORTS else []
        words += [f"--{given['way']}"] if given.get("way") in _OPTIONS else []
        spares = given.get("spares", "").strip()
        words += [f"--spares={spares}"] if spares and given.get("way") != "repair" else []
    with (Path(folder.name) / "out").open("wb") as out, (Path(folder.name) / "err").open("wb") as err:
        process = subprocess.Popen(
            [sys.executable, "-P", "-m", "paperwork", *words],
            cwd=result.parent,
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=err,
            env={**os.environ, "PAPERWORK_PROGRESS": "1", "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        )
    return Search(kind, opened.data, folder, process, result)


def _describe_needs(show: Show, venue: str) -> str:
    """How many channels have no frequency, and how many were not granted theirs, as a line."""
    answered = list_answered(show, venue)
    heard = [one for id, one in show.channels.items() if id in answered]
    refused = {one.id for one in heard if one.refused}
    counts = (
        (sum(one.hz is None for id, one in show.channels.items() if id not in refused), "has none", "have none"),
        (len(refused), "was refused", "were refused"),
        (sum(one.granted_hz not in (None, one.hz) for one in heard), "was granted another", "were granted another"),
    )
    said = [f"{count} {one if count == 1 else more}" for count, one, more in counts if count]
    if not said:
        return "every channel has one"
    number, _, rest = said[0].partition(" ")
    return join_words([f"{number} channel{'s' * (number != '1')} {rest}", *said[1:]])


def _finish(opened: Opened, search: Search) -> None:
    """Reads what came of it, once."""
    if search.is_read:
        return
    search.is_read = True
    aside = [line for line in search.read("err").splitlines() if not _PROGRESS.search(line)]
    lines = search.read("out").splitlines()
    search.lines = [say_here(line) for line in lines if search.result.name not in line] or [*map(say_here, aside)]
    if search.kind == "survey":
        search.report = search.result.read_bytes() if search.result.is_file() else b""
        return
    if not search.result.is_file():
        return
    before = opened.open_edited()
    if before.data != search.data:
        return
    try:
        search.found = before.take(search.result.read_bytes())
    except Refused as refused:
        search.lines.append(refused.finding.text)
        return
    old, new = before.reading.show, search.found.reading.show
    if old is None or new is None:
        search.found = None
        return
    search.lines = [line for line in search.lines if not _PLACED.fullmatch(line)]
    search.entries = tuple(list_changes(old, new, diff_shows(old, new), "en"))
    drawn = [paper for paper in SHEETS if paper.name == SPECTRUM]
    laid = lay_out_papers(drawn, new, search.found.reading.findings)[0]
    search.pages = tuple(paint_svg(page, one.sheet.title) for one in laid for page in one.layout.pages)
