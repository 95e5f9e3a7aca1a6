"""What one reader takes along: their papers as one PDF to print, or as one file for a telephone."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from paperwork.pocket import make_pocket
from paperwork.serve.edit.editor import Desk
from paperwork.serve.readers import READERS, join_for
from paperwork.serve.replies import make_download, make_reply
from paperwork.serve.shows import Opened


class Handouts:
    """The answers to the addresses of what is handed out."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [Route("/reader/{reader}.pdf", self.join), Route("/pocket/{reader}.html", self.pocket)]

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


def _pocket_for(opened: Opened, reader: str) -> tuple[str, bytes] | None:
    show = opened.reading.show
    return make_pocket(show, opened.reading.findings, reader) if show and reader in READERS else None
