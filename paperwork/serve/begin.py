"""The ways to a first show: a new one of a few answers, the example, and somebody's own list made a show file."""

import re
from pathlib import Path
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from paperwork.editing.conversion import write_show
from paperwork.files.refusal import Refused
from paperwork.files.yaml.write import quote_text
from paperwork.output import OutputError, safe_name, write_new
from paperwork.resources import find_folder
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.pages import render_start
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened

MOST = {"channels": 200, "racks": 40, "scenes": 100}
"""What a form may ask for at most: more is pasted from a list. A choice of this project."""

EXAMPLE = ("show.yaml", "sweep.csv")


class Beginnings:
    """The answers to the addresses of beginning."""

    def __init__(self, desk: Desk, shelf: Shelf) -> None:
        self._desk, self._shelf = desk, shelf

    def list_routes(self) -> list[Route]:
        """The addresses beside those of shows."""
        return [
            Route("/new", self.new, methods=["POST"]),
            Route("/example", self.example, methods=["POST"]),
            Route("/shows/{id}/convert", self.convert, methods=["POST"]),
        ]

    async def new(self, request: Request) -> Response:
        """A new show file in the folder, to be edited."""
        given = dict(await read_form(request))
        try:
            return self._edit(await self._desk.begin(_begin, self._shelf, given))
        except (OutputError, ValueError, Refused) as wrong:
            return HTMLResponse(await self._desk.work(render_start, self._shelf, self._desk.base, (str(wrong),)), 400)

    async def example(self, request: Request) -> Response:
        """The example show, held in memory until it is saved."""
        await read_form(request)
        opened = await self._desk.begin(_open_example, self._shelf)
        return RedirectResponse(f"{self._desk.base}shows/{opened.id}/", 303)

    async def convert(self, request: Request) -> Response:
        """A show file of somebody's own list, to be edited."""
        await read_form(request)
        opened = self._desk.find(request)
        try:
            return self._edit(await self._desk.begin(_convert, self._shelf, opened))
        except Refused as refused:
            said: tuple[str, ...] = (refused.finding.text,)
        except (OutputError, ValueError) as error:
            said = (str(error),)
        return HTMLResponse(await self._desk.work(render_start, self._shelf, self._desk.base, said), 400)

    def _edit(self, opened: Opened) -> Response:
        return RedirectResponse(f"{self._desk.base}shows/{quote(opened.id)}/edit/", 303)


def _begin(shelf: Shelf, given: dict[str, str]) -> Opened:
    title = given.get("title", "").strip()
    if not title:
        raise ValueError("A new show needs a title.")
    counts = {name: _count(given.get(name, ""), name) for name in MOST}
    if not counts["channels"]:
        raise ValueError("A new show needs a channel.")
    name = f"{safe_name(title)}.yaml"
    write_new(shelf.folder / name, make_show(title, **counts).encode("utf-8"))
    return shelf.open(name)


def _count(text: str, name: str) -> int:
    text = text.strip() or "0"
    if not re.fullmatch("[0-9]{1,4}", text) or int(text) > MOST[name]:
        raise ValueError(f"{text} {name}: write a number up to {MOST[name]}.")
    return int(text)


def make_show(title: str, channels: int, racks: int, scenes: int) -> str:
    """A show in YAML with so many channels, dealt to racks in their order, and so many scenes, to be filled in."""
    width = max(2, len(str(channels)))
    ids = [f"{number:0{width}}" for number in range(1, channels + 1)]
    racks = min(racks, channels)
    lines = [f"show: {{title: {quote_text(title)}, revision: A}}"]
    if racks:
        lines += ["", "racks:"]
        size = -(-channels // racks)
        for number, first in enumerate(range(0, channels, size), 1):
            held = ids[first : first + size]
            lines.append(
                f"  R{number}: {{channels: {held[0]}-{held[-1]}}}"
                if len(held) > 1
                else f"  R{number}: {{channels: {held[0]}}}"
            )
    lines += ["", "channels:", *(f"  {id}: {{}}" for id in ids)]
    if scenes:
        lines += ["", "scenes:", *(f"  {number}: {{name: Scene {number}}}" for number in range(1, scenes + 1))]
    return "\n".join(lines) + "\n"


def _open_example(shelf: Shelf) -> Opened:
    folder = find_folder("example_show")
    return shelf.drop({name: (folder / name).read_bytes() for name in EXAMPLE})


def _convert(shelf: Shelf, opened: Opened) -> Opened:
    """Beside the list, or in memory where it was dropped. Raises Refused, OutputError, ValueError."""
    if opened.source.raw is None or opened.source.understanding is None:
        raise ValueError(f"{opened.name} is not a list that a show can be made of.")
    if any(one.severity == "error" for one in opened.source.findings):
        raise ValueError(f"{opened.name}: settle its errors and questions first.")
    data, _ = write_show(opened.source.raw, ".yaml")
    name = f"{Path(opened.name).stem}.yaml"
    if opened.folder is None:
        return shelf.drop({name: data})
    write_new(opened.folder / name, data)
    return shelf.open(name)
