"""What is lent: files by path, behind the guard of the page, for reading alone, until its time is over."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Mount, Route
from starlette.types import ASGIApp, Receive, Scope, Send

from paperwork.pipeline import Papers, make_papers
from paperwork.serve.guard import Guard, Keys
from paperwork.serve.pages import render_way
from paperwork.serve.replies import make_reply
from paperwork.serve.shows import Opened
from paperwork.sheets import SHEETS

CLOCK = "%Y-%m-%d-%H%M"
"""How the command line gives the time."""


@dataclass
class Lent:
    """The papers of one show as they were when they were lent. `papers` are those of the page that they were made of,
    `until` the end by the clock, `beats` what is left of it in beats of the server."""

    id: str
    papers: Papers
    files: Mapping[str, bytes]
    keys: Keys
    host: str
    until: str
    beats: int

    @property
    def address(self) -> str:
        """What the one telephone that is to be paired opens, "" once it did."""
        return next((f"http://{self.host}/{self.keys.token}/enter/{ticket}" for ticket in self.keys.tickets), "")

    def is_over(self, now: str) -> bool:
        """By whichever ends first: a clock may be set back, and a machine that slept counts no beats."""
        return now >= self.until or self.beats <= 0


def find_end(now: str, minutes: int) -> str:
    """The time so many minutes on, as if no hour were left out or doubled. Raises ValueError for what is not a time."""
    return (datetime.strptime(now, CLOCK).replace(tzinfo=UTC) + timedelta(minutes=minutes)).strftime(CLOCK)


def pick_files(opened: Opened) -> Mapping[str, bytes]:
    """The papers and their index. The show book is left out: it carries the show file, with everything in it."""
    show = opened.reading.show
    if show is None:
        return {}
    only = frozenset(paper.name for paper in SHEETS)
    return make_papers(show, opened.reading.findings, only=only, labels=opened.labels, press=opened.take_press()).files


def make_lent_app(lent: Lent, read_clock: Callable[[], str]) -> ASGIApp:
    """The application for telephones: it reads nothing that was sent, and refuses everything once its time is over."""

    async def enter(_: Request) -> Response:
        return HTMLResponse(render_way(f"/{lent.keys.token}/index.html"))

    async def file(request: Request) -> Response:
        path = request.path_params["path"] or "index.html"
        if path not in lent.files:
            raise HTTPException(404, "There is no such paper.")
        return make_reply(lent.files[path], path)

    routes = [Route("/enter/{ticket}", enter), Route("/{path:path}", file)]
    inner = Guard(Starlette(routes=[Mount(f"/{lent.keys.token}", routes=routes)]), lent.host, lent.keys, reads=True)

    async def timed(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http" and lent.is_over(read_clock()):
            await PlainTextResponse("refused: the time is over\n", 403)(scope, receive, send)
            return
        await inner(scope, receive, send)

    return timed
