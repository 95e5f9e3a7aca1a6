"""The addresses of the page, all below one secret: what is asked for, done on one thread, and sent back."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

import anyio
from anyio import to_thread
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route

from paperwork.files.refusal import Refused
from paperwork.intake.answers import name_answers
from paperwork.output import OutputError, folder_beside, publish
from paperwork.pipeline import Papers
from paperwork.serve.aside.bench import OverBudget
from paperwork.serve.begin import Beginnings
from paperwork.serve.bundles import pack_papers, read_files
from paperwork.serve.edit.editor import Editor
from paperwork.serve.guard import read_form
from paperwork.serve.held.answers import change_answer, forget_answers, take_answers
from paperwork.serve.labels import choose_labels, choose_printing
from paperwork.serve.pages import render_closed, render_closing, render_show, render_start, render_way
from paperwork.serve.readers import READERS, name_paper
from paperwork.serve.replies import give_face, make_download, make_reply
from paperwork.serve.share.lending import Lending, Sharing
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened
from paperwork.serve.tabs import Tabs
from paperwork.serve.wording import say_refusal
from paperwork.serve.work.archivist import Archivist
from paperwork.serve.work.auditing import Auditor
from paperwork.serve.work.beside import SideBySide
from paperwork.serve.work.comparing import Comparing
from paperwork.serve.work.handouts import Handouts
from paperwork.serve.work.previews import Previews
from paperwork.serve.work.searching import Searching

T = TypeVar("T")


class _Page:
    """The answers to every address. Work on one show is done one after the other: the press is not made for two."""

    def __init__(self, shelf: Shelf, token: str, tabs: Tabs, lending: Lending) -> None:
        self.shelf = shelf
        self.lending = lending
        self.base = f"/{token}/"
        self.tabs = tabs
        self._ones: WeakKeyDictionary[object, anyio.CapacityLimiter] = WeakKeyDictionary()

    async def work(self, act: Callable[..., T], *values: Any, **named: Any) -> T:
        """Does something on a thread: with one show one after the other, with several at once."""
        held = (getattr(act, "__self__", None), *values)
        opened = next((one for one in held if isinstance(one, Opened)), self)
        one = self._ones.setdefault(opened, anyio.CapacityLimiter(1))
        return await to_thread.run_sync(partial(act, *values, **named), limiter=one)

    async def begin(self, act: Callable[..., Opened], *values: Any) -> Opened:
        """Opens a show, while others are worked on or opened; read anew if it was open and its file was saved again."""
        opened = await to_thread.run_sync(act, *values)
        await self.work(opened.refresh)
        return opened

    async def end_over(self, request: Request, error: Exception) -> Response:
        """What is said of work that was ended: on the page of its show, or as a line."""
        assert isinstance(error, OverBudget)
        opened = self.shelf.get(error.show)
        if opened is None or "text/html" not in request.headers.get("accept", ""):
            return PlainTextResponse(str(error), 400)
        return await self.again(opened, [str(error)])

    def find(self, request: Request) -> Opened:
        opened = self.shelf.get(request.path_params["id"])
        if opened is None:
            raise HTTPException(404, "That show is not open any more; open it again.")
        return opened

    @property
    def now(self) -> str:
        """The time as the command line reads it."""
        return self.shelf.read_clock()

    def lead(self, opened: Opened, part: str = "") -> Response:
        """On to the page of a show, and to a part of it."""
        return RedirectResponse(f"{self.base}shows/{opened.id}/{part}", 303)

    async def start(self, request: Request) -> Response:
        return HTMLResponse(await self.work(render_start, self.shelf, self.base))

    async def wrong(self, request: Request, error: Exception) -> Response:
        """An address that leads nowhere any more: the start, which says so, or a line for what is not a page."""
        if not isinstance(error, HTTPException):
            raise error
        if request.method != "GET" or "text/html" not in request.headers.get("accept", ""):
            return PlainTextResponse(error.detail, error.status_code)
        said = "There is nothing at this address." if error.detail == "Not Found" else error.detail
        return HTMLResponse(await self.work(render_start, self.shelf, self.base, (said,)), error.status_code)

    async def open(self, request: Request) -> Response:
        fields = dict(await read_form(request))
        try:
            opened = await self.begin(self.shelf.open, fields.get("name", ""))
        except Refused as refused:
            said = (say_refusal(refused),)
            return HTMLResponse(await self.work(render_start, self.shelf, self.base, said), 400)
        return self.lead(opened)

    async def drop(self, request: Request) -> Response:
        """Files as one body: a list of names and lengths in the header, the bytes one after the other."""
        files = await read_files(request)
        try:
            opened = await self.begin(self.shelf.drop, files)
        except Refused as refused:
            return JSONResponse({"wrong": say_refusal(refused)}, 400)
        return JSONResponse({"go": f"{self.base}shows/{opened.id}/"})

    async def show(self, request: Request) -> Response:
        """The page of a show, read anew if its file was saved again."""
        opened = self.find(request)
        said = [f"{opened.name} was saved again. This is what it says now."] if await self.work(opened.refresh) else []
        reader = request.path_params.get("reader", "")
        if reader and reader not in READERS:
            raise HTTPException(404, "There is no such reader.")
        return HTMLResponse(await self.work(render_show, opened, self.shelf, self.base, said, reader))

    async def again(self, opened: Opened, said: list[str]) -> Response:
        """The page of a show, with what went wrong."""
        return HTMLResponse(await self.work(render_show, opened, self.shelf, self.base, said), 400)

    async def answers(self, request: Request) -> Response:
        opened = self.find(request)
        fields = await read_form(request)
        given = dict(fields)
        typed = [
            ((question.kind, question.about), given.get(f"t{number}", "").strip() or given.get(f"a{number}", ""))
            for number, question in enumerate(opened.questions, 1)
            if given.get(f"k{number}") == f"{question.kind}|{question.about}"
        ]
        try:
            if forget := [tuple(value.partition("|")[::2]) for name, value in fields if name == "forget"]:
                await self.work(forget_answers, opened, forget)
            wrong = await self.work(take_answers, opened, typed)
            wrong += await self.work(change_answer, opened, given.get("say", "").strip())
        except OutputError as error:
            wrong = [str(error)]
        return (
            await self.again(opened, wrong)
            if wrong
            else self.lead(opened, "#questions" if opened.questions else "#findings")
        )

    async def answers_file(self, request: Request) -> Response:
        opened = self.find(request)
        opened.are_loose = False
        return make_download(opened.answers_file, name_answers(opened.name), "application/yaml")

    async def print(self, request: Request) -> Response:
        opened = self.find(request)
        fields = await read_form(request)
        choose_labels(opened, fields, self.shelf.printers)
        choose_printing(opened, fields)
        await self.work(opened.print)
        return self.lead(opened, "#labels" if ("to", "labels") in fields else "#papers")

    async def labels(self, request: Request) -> Response:
        """Keeps what is clicked at once, so that nothing that loads the page anew drops it."""
        choose_labels(self.find(request), await read_form(request), self.shelf.printers)
        return Response(status_code=204)

    async def _lay(self, opened: Opened) -> None:
        """Lays labels out again that are to be handed out and do not match what was chosen since."""
        if opened.papers is not None and not opened.is_laid("papers"):
            await self.work(opened.print)

    async def keep(self, request: Request) -> Response:
        opened = self.find(request)
        if opened.folder is None or opened.papers is None:
            raise HTTPException(409, "these papers have no folder to go to")
        folder = folder_beside(opened.folder / opened.name, "papers", opened.edition)
        await self._lay(opened)
        title = opened.reading.show.production.title if opened.reading.show else ""
        try:
            await self.work(partial(publish, title=title, venue=opened.edition), folder, opened.papers.files)
        except OutputError as error:
            return await self.again(opened, [str(error)])
        opened.kept = folder.name
        return self.lead(opened, "#papers")

    async def tonight(self, request: Request) -> Response:
        opened = self.find(request)
        fields = await read_form(request)
        away, dead = ([value for name, value in fields if name == wanted] for wanted in ("off", "dead"))
        await self.work(opened.plan, away, dead)
        return self.lead(opened, "#differs" if opened.tonight else "#tonight")

    async def progress(self, request: Request) -> Response:
        """Which paper is being printed and how many follow it; whether the file was saved again since it was read."""
        opened = self.find(request)
        path, left = opened.progress
        saved, paired = await to_thread.run_sync(opened.may_refresh), self.lending.count_paired(opened)
        return JSONResponse({"path": path, "left": left, "saved": saved, "paired": paired})

    async def file(self, request: Request) -> Response:
        opened = self.find(request)
        sets: dict[str, Papers | None] = {"papers": opened.papers, "tonight": opened.tonight, "since": opened.since}
        papers = sets.get(request.path_params["set"])
        path = request.path_params["path"]
        if papers is None or path not in papers.files:
            raise HTTPException(404, "There is no such paper; make the papers again.")
        if any(one.tags and one.path == path for one in papers.printed) and not opened.is_laid(
            request.path_params["set"]
        ):
            raise HTTPException(409, "Other cells or another stock were chosen since: lay the labels out again.")
        return make_reply(papers.files[path], path, name_paper(opened, path))

    async def bundle(self, request: Request) -> Response:
        opened = self.find(request)
        if opened.papers is None:
            raise HTTPException(404, "make the papers first")
        await self._lay(opened)
        data = await self.work(pack_papers, opened.papers)
        name = folder_beside(Path(opened.name), "papers", opened.edition).name
        return make_download(data, f"{name}.zip", "application/zip")

    async def alive(self, request: Request) -> Response:
        """A tab says that it is there, or that it goes."""
        fields = dict(await read_form(request))
        (self.tabs.leave if "gone" in fields else self.tabs.note)(fields.get("tab", "")[:64])
        return Response(status_code=204)

    async def enter(self, request: Request) -> Response:
        """Leads to the start by a step of our own: a strict cookie is not sent on a way that began at another site."""
        return HTMLResponse(render_way(self.base))

    async def stop(self, request: Request) -> Response:
        """Ends the server; asks first where other tabs or answers that are in no file would be lost."""
        fields = dict(await read_form(request))
        others, unsaved = self.tabs.count_others(fields.get("tab", "")), self.shelf.unsaved
        if (others or unsaved) and "sure" not in fields:
            return HTMLResponse(render_closing(self.base, others, unsaved))
        self.tabs.stopped.set()
        return HTMLResponse(render_closed())


def make_app(shelf: Shelf, token: str, tabs: Tabs, lending: Lending | None = None) -> Starlette:
    """The page as an application. It trusts whoever asks: put a `Guard` before it."""
    shelf.lending = lending = lending or Lending("", 0, shelf.read_clock, shelf.name_next)
    page = _Page(shelf, token, tabs, lending)
    one = [
        Route("/", page.show),
        Route("/for/{reader}", page.show),
        Route("/answers", page.answers, methods=["POST"]),
        Route("/answers.yaml", page.answers_file),
        Route("/print", page.print, methods=["POST"]),
        Route("/labels", page.labels, methods=["POST"]),
        Route("/keep", page.keep, methods=["POST"]),
        Route("/tonight", page.tonight, methods=["POST"]),
        Route("/progress", page.progress),
        Route("/papers.zip", page.bundle),
        *(route for part in _list_parts(page, shelf, lending) for route in part.list_routes()),
        Route("/{set}/{path:path}", page.file),
    ]
    routes = [
        Route("/", page.start),
        Route("/enter/{ticket}", page.enter),
        Route("/faces/{name}", give_face),
        Route("/open", page.open, methods=["POST"]),
        Route("/drop", page.drop, methods=["POST"]),
        Route("/alive", page.alive, methods=["POST"]),
        Route("/stop", page.stop, methods=["POST"]),
        *Beginnings(page, shelf).list_routes(),
        *Archivist(page, shelf).list_routes(),
        Mount("/shows/{id}", routes=one),
    ]
    return Starlette(
        routes=[Mount(f"/{token}", routes=routes)],
        exception_handlers={HTTPException: page.wrong, OverBudget: page.end_over},
    )


def _list_parts(page: _Page, shelf: Shelf, lending: Lending) -> list[Any]:
    """What is done with a show beside the page itself, each with its addresses."""
    work = [one(page) for one in (Handouts, Searching, SideBySide, Previews, Auditor, Editor)]
    return [*work, Comparing(page, shelf), Sharing(page, lending)]
