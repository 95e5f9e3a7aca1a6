"""Which house and which performance the papers are of, where the show has several."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.work.choosing import choose_edition


class Editions:
    """The answer to the address at which one is chosen."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def list_routes(self) -> list[Route]:
        """One, below the address of a show."""
        return [Route("/edition", self.choose, methods=["POST"])]

    async def choose(self, request: Request) -> Response:
        """Reads the show as it is in a venue and a performance."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        await self._desk.work(choose_edition, opened, given)
        return self._desk.lead(opened, "#glance")
