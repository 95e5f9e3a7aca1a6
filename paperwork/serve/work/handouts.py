"""What is taken along from a show's page: a reader's papers as one PDF or one file for a telephone, a part.

And which house and performance all of it is of, where the show has several.
"""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from paperwork.pocket import make_pocket
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.readers import READERS, join_for
from paperwork.serve.replies import make_download, make_reply
from paperwork.serve.shows import Opened
from paperwork.serve.work.choosing import choose_edition
from paperwork.serve.work.selection import print_part


class Handouts:
    """The answers to the addresses of what is handed out."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show; a part is `part/PAPER.pdf?channels=05,11&racks=R1&copies=1`."""
        return [
            Route("/edition", self.choose, methods=["POST"]),
            Route("/reader/{reader}.pdf", self.join),
            Route("/pocket/{reader}.html", self.pocket),
            Route("/part/{paper}.pdf", self.part),
            Route("/part", self.part),
        ]

    async def choose(self, request: Request) -> Response:
        """Reads the show as it is in a venue and a performance."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        await self._desk.work(choose_edition, opened, given)
        return self._desk.lead(opened, "#glance")

    async def join(self, request: Request) -> Response:
        """The papers of one reader as one PDF."""
        found = await self._desk.work(join_for, self._desk.find(request), request.path_params["reader"])
        if found is None:
            raise HTTPException(404, "There are no such papers; make them first.")
        name, data = found
        return make_reply(data, name)

    async def pocket(self, request: Request) -> Response:
        """One file for a telephone."""
        opened = self._desk.find(request)
        if opened.reading.show and opened.reading.show.is_of_days:
            raise HTTPException(409, "A file for a phone is for one performance: choose one first.")
        found = await self._desk.work(opened.do_aside, _pocket_for, request.path_params["reader"])
        if found is None:
            raise HTTPException(404, "There is no show, or no such reader.")
        name, data = found
        return make_download(data, name, "text/html; charset=utf-8")

    async def part(self, request: Request) -> Response:
        """A part of a paper as a PDF, as the command prints it; what is wrong with the request as the page says it."""
        opened, asked = self._desk.find(request), dict(request.query_params)
        paper = request.path_params.get("paper") or asked.get("paper", "")
        try:
            name, data = await self._desk.work(print_part, opened, paper, asked)
        except ValueError as error:
            raise HTTPException(404, f"{error}.") from None
        return make_reply(data, name)


def _pocket_for(opened: Opened, reader: str) -> tuple[str, bytes] | None:
    show = opened.reading.show
    return make_pocket(show, opened.reading.findings, reader) if show and reader in READERS else None
