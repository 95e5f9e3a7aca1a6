"""A show held against an earlier revision, and what must be printed again of it."""

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from paperwork.files.refusal import Refused
from paperwork.pipeline import Papers
from paperwork.revisions import Comparison, Side, compare_revisions, make_since
from paperwork.serve.bundles import read_files, unpack
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened


class Comparing:
    """The answers to the addresses of a comparison."""

    def __init__(self, desk: Desk, shelf: Shelf) -> None:
        self._desk, self._shelf = desk, shelf

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [Route("/compare", self.compare, methods=["POST"]), Route("/since", self.since, methods=["POST"])]

    async def compare(self, request: Request) -> Response:
        """With a file of the folder, by its name in a form; or with a dropped one."""
        opened = self._desk.find(request)
        if request.headers.get("x-files"):
            ((name, data),) = list((await read_files(request)).items())[:1]
            wrong = await self._desk.work(compare, opened, name, data)
            go = f"{self._desk.base}shows/{opened.id}/#changes"
            return JSONResponse({"wrong": wrong} if wrong else {"go": go}, 400 if wrong else 200)
        name = dict(await read_form(request)).get("name", "")
        try:
            data = await self._desk.work(self._shelf.load, name)
            wrong = await self._desk.work(compare, opened, name, data)
        except Refused as refused:
            wrong = refused.finding.text
        return await self._desk.again(opened, [wrong]) if wrong else self._desk.lead(opened, "#changes")

    async def since(self, request: Request) -> Response:
        """What must be printed again."""
        opened = self._desk.find(request)
        await self._desk.work(print_since, opened)
        return self._desk.lead(opened, "#changes")


def compare(opened: Opened, name: str, data: bytes) -> str:
    """Compares with an earlier revision, from a show file, an archive or a show book; says why it cannot, or "".
    Raises OverBudget."""
    found = opened.do_aside(_compare, name, data)
    if isinstance(found, str):
        return found
    opened.compared = found
    return ""


def _compare(opened: Opened, name: str, data: bytes) -> Comparison | str:
    show = opened.reading.show
    if show is not None and show.is_of_days:
        return f"{show.at_performance} is several performances; choose one of them, or the whole run, and compare again"
    try:
        inside = unpack(name, {**opened.dropped, name: data})
    except Refused as refused:
        return refused.finding.text
    # An archive or a book counts as it was printed, for its own venue, and for the whole run.
    shown, is_own = inside.show, inside.show == name
    folder, venue = (opened.folder, opened.venue) if is_own else (None, inside.venue)
    earlier = Opened("", shown, dict(inside.files), folder, venue, opened.on)
    earlier.read()
    if is_own and opened.venue and not earlier.venue:
        return (
            f"{name} does not know the venue {opened.venue}; look at the show as it is in its file, and compare again"
        )
    if opened.on and not earlier.on:
        return f"{name} does not know the performance {opened.on}; look at the whole run, and compare again"
    if earlier.reading.show is None or show is None:
        first = next((finding for finding in earlier.reading.findings if finding.severity == "error"), None)
        return f"{name} cannot be used: {first.text if first else 'there is no show in it'}"
    prints = () if opened.on else inside.prints
    old = Side(earlier.reading.show, earlier.reading.findings, earlier.name, prints)
    return compare_revisions(old, Side(show, opened.reading.findings, opened.name))


def print_since(opened: Opened) -> None:
    """Makes the change list and what must be printed again. Raises OverBudget."""
    labels = opened.labels
    if since := opened.do_aside(_make_since):
        opened.laid["since"], opened.since = labels, since


def _make_since(opened: Opened) -> Papers | None:
    return make_since(opened.compared, labels=opened.choice) if opened.compared else None
