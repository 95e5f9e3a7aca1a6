"""Photographs on the page, held against the show: the picture marked, and who and where beside each number."""

from collections.abc import Iterator, Mapping
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from paperwork import limits
from paperwork.audit import Photo, compare, describe_packs, judge, list_labels, look_at
from paperwork.files.refusal import Refused
from paperwork.serve.bundles import read_files
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.pages import POLICY, SCRIPTS
from paperwork.serve.shows import Opened
from paperwork.serve.wording import say_refusal
from paperwork.serve.work.held import Held
from paperwork.text.templating import render_policy, render_template

MOST = 8
"""Photographs of one show that are held at once; the oldest makes room. A choice of this project."""

EXTRA = "Reading photographs needs an extra: pip install 'show-paperwork[audit]'"

SAID = {"good": "", "stale": "old", "foreign": "not ours", "unreadable": "?"}
"""What is written beside the number of a code in the picture."""


class Auditor:
    """The answers to the addresses of an audit. Photographs are held in memory, of as many shows as can be open."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._photos: Held[dict[str, Photo]] = Held(limits.OPEN_SHOWS)
        self._each: Held[int] = Held(limits.OPEN_SHOWS)

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [
            Route("/audit/", self.show),
            Route("/audit/drop", self.drop, methods=["POST"]),
            Route("/audit/set", self.set, methods=["POST"]),
            Route("/audit/{number:int}.jpg", self.picture),
        ]

    async def show(self, request: Request) -> Response:
        """The photographs, and what came of them."""
        opened = self._desk.find(request)
        if opened.reading.show is None:
            raise HTTPException(404, "There is no show in this file yet.")
        return HTMLResponse(await self._desk.work(self._render, opened))

    def _render(self, opened: Opened) -> str:
        show = opened.reading.show
        assert show is not None
        photos, each = self._photos.get(opened.id) or {}, self._each.get(opened.id) or 1
        labels, who = list_labels(show, opened.reading.findings), describe_packs(show)
        audit = compare(labels, {name: photo.codes for name, photo in photos.items()}, each) if photos else None
        return render_template(
            "audit.html.j2",
            policy=render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY),
            base=self._desk.base,
            here=f"{self._desk.base}shows/{opened.id}/",
            said=(),
            title=show.production.title or opened.name,
            photos=[_describe(name, photo, labels) for name, photo in photos.items()],
            audit=audit,
            count=len(labels),
            who=who,
            each=each,
        )

    async def drop(self, request: Request) -> Response:
        """Reads photographs, and keeps them beside those that are there."""
        opened = self._desk.find(request)
        files = await read_files(request)
        held = self._photos.get(opened.id) or self._photos.put(opened.id, {})
        try:
            for name, data in files.items():
                held[name] = await self._desk.work(look_at, data, name)
        except Refused as refused:
            return JSONResponse({"wrong": say_refusal(refused)}, 400)
        except ModuleNotFoundError:
            return JSONResponse({"wrong": EXTRA}, 400)
        while len(held) > MOST:
            del held[next(iter(held))]
        return JSONResponse({"go": f"{self._desk.base}shows/{opened.id}/audit/#found"})

    async def set(self, request: Request) -> Response:
        """How many labels of one pack lie side by side; or begins anew."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        if "anew" in given:
            self._photos.drop(opened.id)
        elif given.get("each", "") in {"1", "2", "3"}:
            self._each.put(opened.id, int(given["each"]))
        return RedirectResponse(f"{self._desk.base}shows/{opened.id}/audit/", 303)

    async def picture(self, request: Request) -> Response:
        """A photograph as it is shown."""
        held = [*(self._photos.get(self._desk.find(request).id) or {}).values()]
        number = request.path_params["number"]
        if not 1 <= number <= len(held):
            raise HTTPException(404, "There is no such photograph.")
        return Response(held[number - 1].shown, media_type="image/jpeg")


def _describe(name: str, photo: Photo, labels: Mapping[str, frozenset[str]]) -> dict[str, Any]:
    counted = [judge(seen.text, labels)[0] for seen in photo.codes]
    return {
        "name": name,
        "width": photo.width,
        "height": photo.height,
        "marks": [*_mark(photo, labels)],
        "counted": {state: counted.count(state) for state in SAID if state in counted},
    }


def _mark(photo: Photo, labels: Mapping[str, frozenset[str]]) -> Iterator[dict[str, Any]]:
    """A frame around each code, wider than it, with what is to be said above it."""
    text = max(photo.width, photo.height) // 30
    for seen in photo.codes:
        state, number = judge(seen.text, labels)
        side = max(seen.size * 13 // 10, text)
        yield {
            "state": state,
            "x": seen.x - side // 2,
            "y": seen.y - side // 2,
            "side": side,
            "size": text,
            "line": max(text // 8, 2) * (1 if state == "good" else 2),
            "text": " ".join(filter(None, (number, SAID[state]))),
            "low": max(seen.y - side // 2 - text // 3, text),
        }
