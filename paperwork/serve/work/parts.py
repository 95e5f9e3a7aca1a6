"""A part of a paper on the page: one label, those of some channels, or what shows a rack, as the command prints it."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from paperwork.serve.edit.editor import Desk
from paperwork.serve.replies import make_reply
from paperwork.serve.work.selection import print_part


class PartPress:
    """The answers to the address of a part: `part/PAPER.pdf?channels=05,11&racks=R1&copies=1`."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def list_routes(self) -> list[Route]:
        """One, below the address of a show."""
        return [Route("/part/{paper}.pdf", self.part), Route("/part", self.part)]

    async def part(self, request: Request) -> Response:
        """The part as a PDF; what is wrong with what was asked as the page says it."""
        opened, asked = self._desk.find(request), dict(request.query_params)
        paper = request.path_params.get("paper") or asked.get("paper", "")
        try:
            name, data = await self._desk.work(print_part, opened, paper, asked)
        except ValueError as error:
            raise HTTPException(404, f"{error}.") from None
        return make_reply(data, name)
