"""The addresses of the page, all below one secret: what is asked for, done on one thread, and sent back."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, TypeVar
from urllib.parse import quote

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
from paperwork.serve.bundles import pack_papers, read_files
from paperwork.serve.guard import read_form
from paperwork.serve.labels import choose_labels
from paperwork.serve.pages import render_closed, render_closing, render_show, render_start, render_way
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened
from paperwork.serve.tabs import Tabs

T = TypeVar("T")

MEDIA = {"pdf": "application/pdf", "svg": "image/svg+xml", "html": "text/html; charset=utf-8"}


class _Page:
    """The answers to every address. Work on shows goes to one thread, one after the other: the press is not made for two."""

    def __init__(self, shelf: Shelf, token: str, tabs: Tabs) -> None:
        self.shelf = shelf
        self.base = f"/{token}/"
        self.tabs = tabs
        self._one = anyio.CapacityLimiter(1)

    async def _work(self, act: Callable[..., T], *values: Any) -> T:
        return await to_thread.run_sync(act, *values, limiter=self._one)

    def _find(self, request: Request) -> Opened:
        opened = self.shelf.get(request.path_params["id"])
        if opened is None:
            raise HTTPException(404, "That show is not open any more; open it again.")
        return opened

    def _show(self, opened: Opened, part: str = "") -> Response:
        return RedirectResponse(f"{self.base}shows/{opened.id}/{part}", 303)

    async def start(self, request: Request) -> Response:
        return HTMLResponse(await self._work(render_start, self.shelf, self.base))

    async def wrong(self, request: Request, error: Exception) -> Response:
        """An address that leads nowhere any more: the start, which says so, or a line for what is no page."""
        if not isinstance(error, HTTPException):
            raise error
        if request.method != "GET" or "text/html" not in request.headers.get("accept", ""):
            return PlainTextResponse(error.detail, error.status_code)
        said = "There is nothing at this address." if error.detail == "Not Found" else error.detail
        return HTMLResponse(await self._work(render_start, self.shelf, self.base, (said,)), error.status_code)

    async def open(self, request: Request) -> Response:
        fields = dict(await read_form(request))
        try:
            opened = await self._work(self.shelf.open, fields.get("name", ""))
        except Refused as refused:
            said = (f"{refused.finding.text}; {refused.finding.fix}",)
            return HTMLResponse(await self._work(render_start, self.shelf, self.base, said), 400)
        return self._show(opened)

    async def drop(self, request: Request) -> Response:
        """Files as one body: a list of names and lengths in the header, the bytes one after the other."""
        files = await read_files(request)
        try:
            opened = await self._work(self.shelf.drop, files)
        except Refused as refused:
            return JSONResponse({"wrong": f"{refused.finding.text}; {refused.finding.fix}"}, 400)
        return JSONResponse({"go": f"{self.base}shows/{opened.id}/"})

    async def show(self, request: Request) -> Response:
        """The page of a show, read anew if its file was saved again."""
        opened = self._find(request)
        said = [f"{opened.name} was saved again. This is what it says now."] if await self._work(opened.refresh) else []
        return HTMLResponse(await self._work(render_show, opened, self.shelf, self.base, said))

    async def _again(self, opened: Opened, said: list[str]) -> Response:
        return HTMLResponse(await self._work(render_show, opened, self.shelf, self.base, said), 400)

    async def answers(self, request: Request) -> Response:
        opened = self._find(request)
        fields = await read_form(request)
        given = dict(fields)
        typed = [
            ((question.kind, question.about), given.get(f"t{number}", "").strip() or given.get(f"a{number}", ""))
            for number, question in enumerate(opened.questions, 1)
            if given.get(f"k{number}") == f"{question.kind}|{question.about}"
        ]
        try:
            if forget := [tuple(value.partition("|")[::2]) for name, value in fields if name == "forget"]:
                await self._work(opened.forget, forget)
            wrong = await self._work(opened.answer, typed)
            wrong += await self._work(opened.change, given.get("say", "").strip())
        except OutputError as error:
            wrong = [str(error)]
        return (
            await self._again(opened, wrong)
            if wrong
            else self._show(opened, "#questions" if opened.questions else "#findings")
        )

    async def answers_file(self, request: Request) -> Response:
        opened = self._find(request)
        opened.unsaved = False
        return _download(opened.answers_file, name_answers(opened.name), "application/yaml")

    async def venue(self, request: Request) -> Response:
        opened = self._find(request)
        opened.venue = dict(await read_form(request)).get("venue", "")
        await self._work(opened.read)
        return self._show(opened, "#glance")

    async def print(self, request: Request) -> Response:
        opened = self._find(request)
        fields = await read_form(request)
        if any(name == "stock" for name, _ in fields):
            choose_labels(opened, fields, self.shelf.printers)
        await self._work(opened.print)
        return self._show(opened, "#labels" if ("to", "labels") in fields else "#papers")

    async def labels(self, request: Request) -> Response:
        """Keeps what is clicked at once, so that nothing that loads the page anew drops it."""
        choose_labels(self._find(request), await read_form(request), self.shelf.printers)
        return Response(status_code=204)

    async def _lay(self, opened: Opened) -> None:
        """Lays labels out again that are to be handed out and do not match what was chosen since."""
        if opened.papers is not None and not opened.is_laid("papers"):
            await self._work(opened.print)

    async def keep(self, request: Request) -> Response:
        opened = self._find(request)
        if opened.folder is None or opened.papers is None:
            raise HTTPException(409, "these papers have no folder to go to")
        folder = folder_beside(opened.folder / opened.name, "papers", opened.venue)
        await self._lay(opened)
        title = opened.reading.show.production.title if opened.reading.show else ""
        try:
            await self._work(partial(publish, title=title, venue=opened.venue), folder, opened.papers.files)
        except OutputError as error:
            return await self._again(opened, [str(error)])
        opened.kept = folder.name
        return self._show(opened, "#papers")

    async def tonight(self, request: Request) -> Response:
        opened = self._find(request)
        fields = await read_form(request)
        away, dead = ([value for name, value in fields if name == wanted] for wanted in ("off", "dead"))
        await self._work(opened.plan, away, dead)
        return self._show(opened, "#differs" if opened.tonight else "#tonight")

    async def compare(self, request: Request) -> Response:
        """With a file of the folder, by its name in a form; or with a dropped one."""
        opened = self._find(request)
        if request.headers.get("x-files"):
            ((name, data),) = list((await read_files(request)).items())[:1]
            wrong = await self._work(opened.compare, name, data)
            return JSONResponse(
                {"wrong": wrong} if wrong else {"go": f"{self.base}shows/{opened.id}/#changes"}, 400 if wrong else 200
            )
        name = dict(await read_form(request)).get("name", "")
        try:
            data = await self._work(self.shelf.load, name)
            wrong = await self._work(opened.compare, name, data)
        except Refused as refused:
            wrong = refused.finding.text
        return await self._again(opened, [wrong]) if wrong else self._show(opened, "#changes")

    async def since(self, request: Request) -> Response:
        opened = self._find(request)
        await self._work(opened.print_since)
        return self._show(opened, "#changes")

    async def progress(self, request: Request) -> Response:
        """Which paper is being printed and how many follow it; whether the file was saved again since it was read."""
        opened = self._find(request)
        path, left = opened.progress
        return JSONResponse({"path": path, "left": left, "saved": await to_thread.run_sync(opened.was_saved)})

    async def file(self, request: Request) -> Response:
        opened = self._find(request)
        sets: dict[str, Papers | None] = {"papers": opened.papers, "tonight": opened.tonight, "since": opened.since}
        papers = sets.get(request.path_params["set"])
        path = request.path_params["path"]
        if papers is None or path not in papers.files:
            raise HTTPException(404, "There is no such paper; make the papers again.")
        if any(one.tags and one.path == path for one in papers.printed) and not opened.is_laid(
            request.path_params["set"]
        ):
            raise HTTPException(409, "Other cells or another stock were chosen since: lay the labels out again.")
        media = MEDIA.get(path.rpartition(".")[2], "application/octet-stream")
        headers = (
            {"content-security-policy": "default-src 'none'; style-src 'unsafe-inline'"}
            if path.endswith(".svg")
            else {}
        )
        return Response(papers.files[path], media_type=media, headers=headers)

    async def bundle(self, request: Request) -> Response:
        opened = self._find(request)
        if opened.papers is None:
            raise HTTPException(404, "make the papers first")
        await self._lay(opened)
        data = await self._work(pack_papers, opened.papers)
        name = folder_beside(Path(opened.name), "papers", opened.venue).name
        return _download(data, f"{name}.zip", "application/zip")

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


def make_app(shelf: Shelf, token: str, tabs: Tabs) -> Starlette:
    """The page as an application. It trusts whoever asks: put a `Guard` before it."""
    page = _Page(shelf, token, tabs)
    one = [
        Route("/", page.show),
        Route("/answers", page.answers, methods=["POST"]),
        Route("/answers.yaml", page.answers_file),
        Route("/venue", page.venue, methods=["POST"]),
        Route("/print", page.print, methods=["POST"]),
        Route("/labels", page.labels, methods=["POST"]),
        Route("/keep", page.keep, methods=["POST"]),
        Route("/tonight", page.tonight, methods=["POST"]),
        Route("/compare", page.compare, methods=["POST"]),
        Route("/since", page.since, methods=["POST"]),
        Route("/progress", page.progress),
        Route("/papers.zip", page.bundle),
        Route("/{set}/{path:path}", page.file),
    ]
    routes = [
        Route("/", page.start),
        Route("/enter/{ticket}", page.enter),
        Route("/open", page.open, methods=["POST"]),
        Route("/drop", page.drop, methods=["POST"]),
        Route("/alive", page.alive, methods=["POST"]),
        Route("/stop", page.stop, methods=["POST"]),
        Mount("/shows/{id}", routes=one),
    ]
    return Starlette(routes=[Mount(f"/{token}", routes=routes)], exception_handlers={HTTPException: page.wrong})


def _download(data: bytes, name: str, media: str) -> Response:
    return Response(
        data, media_type=media, headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    )
