"""The addresses of editing: what is typed comes as edits of the show file, each answer is the table as it is."""

from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from paperwork.editing.edited import EditedShow
from paperwork.files.refusal import Refused
from paperwork.finding import Edit, parse_edit
from paperwork.model.fields import SECTIONS
from paperwork.output import OutputError
from paperwork.serve.edit import acts, saving
from paperwork.serve.edit.card import describe_card
from paperwork.serve.edit.describe import describe_clash, render_editor
from paperwork.serve.edit.tables import describe_state, describe_table
from paperwork.serve.guard import read_form
from paperwork.serve.shows import Opened
from paperwork.serve.wording import say_refusal


class Desk(Protocol):
    """What the page gives to its parts."""

    base: str

    async def work(self, act: Callable[..., Any], *values: Any, **named: Any) -> Any:
        """Does something with a show, one after the other."""

    async def begin(self, act: Callable[..., Opened], *values: Any) -> Opened:
        """Opens a show."""

    def find(self, request: Request) -> Opened:
        """The show of an address."""

    def lead(self, opened: Opened, part: str = "") -> Response:
        """On to the page of a show, and to a part of it."""

    async def again(self, opened: Opened, said: list[str]) -> Response:
        """The page of a show, with what went wrong."""

    @property
    def now(self) -> str:
        """The time as `2027-03-01-1620`."""


Fields = list[tuple[str, str]]
Act = Callable[[Opened, Fields], Any]


class Editor:
    """The answers of one page. What cannot be done is said in words, beside the table as it then is."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def list_routes(self) -> list[Route]:
        """The addresses below a show."""
        acts_by_path: dict[str, Act] = {
            "make": _make,
            "move": _move,
            "mend": _mend,
            "recast": _recast,
            "undo": lambda opened, _: acts.undo(opened),
            "redo": lambda opened, _: acts.redo(opened),
            "save": self._save,
            "merge": _merge,
        }
        return [
            Route("/edit/", self.page),
            Route("/edit/table/{section}", self.table),
            Route("/edit/try", self.attempt, methods=["POST"]),
            Route("/edit/clash", self.clash),
            Route("/edit/card/{channel}", self.card),
            Route("/edit/recast/try", self.attempt_recast, methods=["POST"]),
            Route("/edit/file", self.file),
            *(Route(f"/edit/{path}", self._answer(act), methods=["POST"]) for path, act in acts_by_path.items()),
        ]

    async def page(self, request: Request) -> Response:
        """The page on which a show is edited; back to the show where it cannot be."""
        opened = self._desk.find(request)
        await self._desk.work(opened.refresh)
        try:
            return HTMLResponse(await self._desk.work(render_editor, opened, self._desk.base))
        except Refused:
            return RedirectResponse(f"{self._desk.base}shows/{opened.id}/#findings", 303)

    async def table(self, request: Request) -> Response:
        """One section."""
        opened, section = self._desk.find(request), request.path_params["section"]
        return JSONResponse(await self._desk.work(_describe, opened, section, {}))

    def _answer(self, act: Act) -> Callable[[Request], Awaitable[Response]]:
        async def answer(request: Request) -> Response:
            opened, fields = self._desk.find(request), await read_form(request)
            return JSONResponse(await self._desk.work(_do, act, opened, fields))

        return answer

    async def attempt(self, request: Request) -> Response:
        """What edits would do."""
        opened, fields = self._desk.find(request), await read_form(request)
        return JSONResponse(await self._desk.work(_attempt, opened, fields))

    async def card(self, request: Request) -> Response:
        """One channel with all that belongs to it."""
        opened, channel = self._desk.find(request), request.path_params["channel"]
        try:
            return JSONResponse(await self._desk.work(_describe_card, opened, channel))
        except KeyError:
            raise HTTPException(404, "There is no such channel.") from None

    async def attempt_recast(self, request: Request) -> Response:
        """What a recast would change."""
        opened, fields = self._desk.find(request), await read_form(request)
        return JSONResponse(await self._desk.work(_attempt_recast, opened, dict(fields)))

    async def clash(self, request: Request) -> Response:
        """The file as it was saved elsewhere, against the show on the page."""
        opened = self._desk.find(request)
        try:
            return JSONResponse(await self._desk.work(describe_clash, opened))
        except Refused as refused:
            return JSONResponse({"wrong": say_refusal(refused)})

    async def file(self, request: Request) -> Response:
        """The show as a download; one that lies in no folder is then saved."""
        opened = self._desk.find(request)
        if opened.folder is None:
            opened.history.base = opened.data
        name = f"attachment; filename*=UTF-8''{quote(Path(opened.name).name)}"
        return Response(opened.data, media_type="application/octet-stream", headers={"content-disposition": name})

    def _save(self, opened: Opened, fields: Fields) -> dict[str, str]:
        given, now = dict(fields), self._desk.now
        try:
            if given.get("way") == "new":
                return {"said": f"Saved as {saving.save_new(opened, given.get('name', ''))}."}
            if given.get("way") == "revision":
                if opened.was_saved():
                    raise saving.Changed
                saving.make_revision(opened, given.get("revision", ""), given.get("reason", ""), now)
            kept = saving.save_over(opened, now)
        except saving.Changed:
            return {"clash": "yes"}
        return {"said": f"Saved. What was there is kept as {kept}." if kept else "Saved."}


def _describe(opened: Opened, section: str, said: dict[str, Any]) -> dict[str, Any]:
    if section not in SECTIONS:
        raise HTTPException(404, "There is no such section.")
    try:
        return {**describe_table(opened.open_edited(), section), "state": describe_state(opened), **said}
    except Refused as refused:
        return {"wrong": say_refusal(refused)}


def _do(act: Act, opened: Opened, fields: Fields) -> dict[str, Any]:
    """Does it, and says what came of it; a refusal leaves everything as it was."""
    said: dict[str, Any] = {}
    try:
        done = act(opened, fields)
        said = done if isinstance(done, dict) else {}
    except Refused as refused:
        said = {"wrong": say_refusal(refused)}
    except (OutputError, ValueError) as error:
        said = {"wrong": str(error)}
    return _describe(opened, dict(fields).get("section", "channels"), said)


def _attempt(opened: Opened, fields: Fields) -> dict[str, Any]:
    try:
        return acts.try_edits(opened, _read_edits(opened, fields))
    except Refused as refused:
        return {"wrong": say_refusal(refused)}
    except ValueError as error:
        return {"wrong": str(error)}


def _read_edits(opened: Opened, fields: Fields) -> list[Edit]:
    """The edits of a form, or those of the finding that it names. Raises ValueError where there are none."""
    edits = [parse_edit(value) for name, value in fields if name == "edit"]
    for code, text in [(value.partition("|")[0], value.partition("|")[2]) for name, value in fields if name == "fix"]:
        found = [one for one in opened.open_edited().reading.findings if (one.code, one.text) == (code, text)]
        edits += found[0].edits if found else ()
    if not edits:
        raise ValueError("that finding is not there any more")
    return edits


def _make(opened: Opened, fields: Fields) -> None:
    edits, added = [], []
    for name, value in fields:
        if name == "add":
            section, _, record = value.partition("/")
            if section not in SECTIONS or SECTIONS[section].is_single or not record.strip():
                raise ValueError("a row needs a name")
            added.append((section, record.strip()))
    if not added or any(name in ("edit", "fix") for name, _ in fields):
        edits = _read_edits(opened, fields)
    acts.make_edits(opened, edits, added)


def _move(opened: Opened, fields: Fields) -> None:
    given = dict(fields)
    acts.move(opened, given.get("section", ""), given.get("record", ""), given.get("before", ""))


def _recast(opened: Opened, fields: Fields) -> dict[str, str]:
    given = dict(fields)
    old, new = given.get("old", "").strip(), given.get("new", "").strip()
    acts.recast(opened, old, new, stays=bool(given.get("stays")))
    return {"said": f"{new} plays it now. Sizes and colours of {old} were not copied."}


def _attempt_recast(opened: Opened, given: dict[str, str]) -> dict[str, Any]:
    try:
        old, new = given.get("old", "").strip(), given.get("new", "").strip()
        return {"lines": acts.try_recast(opened, old, new, stays=bool(given.get("stays")))}
    except Refused as refused:
        return {"wrong": say_refusal(refused)}
    except ValueError as error:
        return {"wrong": str(error)}


def _describe_card(opened: Opened, channel: str) -> dict[str, Any]:
    try:
        return {**describe_card(opened.open_edited(), channel), "state": describe_state(opened)}
    except Refused as refused:
        return {"wrong": say_refusal(refused)}


def _mend(opened: Opened, _: Fields) -> dict[str, str]:
    count = acts.mend(opened)
    return {"said": f"{count} fixed." if count else "There is nothing that can be fixed without a decision."}


def _merge(opened: Opened, fields: Fields) -> dict[str, str]:
    theirs: EditedShow = opened.open_edited().take(opened.load_saved())
    kept = []
    for value in (value for name, value in fields if name == "kept"):
        one = parse_edit(f"{value}=x")
        kept.append((one.section, one.record, one.field))
    acts.take_merge(opened, theirs, kept)
    return {"said": "Both are put together. Nothing is saved yet."}
