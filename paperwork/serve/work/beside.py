"""Two revisions side by side: each page that changed, before and after, with what differs marked."""

from collections.abc import Iterator, Mapping
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from paperwork.frozen import frozen
from paperwork.pipeline import Laid, lay_out_papers
from paperwork.render.boxes import Page, Room
from paperwork.render.compared import mark_changes
from paperwork.render.pdf.svg import paint_svg
from paperwork.revisions import Comparison, Side
from paperwork.serve.edit.editor import Desk
from paperwork.serve.pages import POLICY, SCRIPTS
from paperwork.serve.replies import make_reply
from paperwork.serve.shows import Opened
from paperwork.serve.work.held import LAID_OUT, Held
from paperwork.sheets import SHEETS
from paperwork.text.templating import render_policy, render_template
from paperwork.text.words import words_of


@frozen
class PagePair:
    """One page of a paper on both sides, None where one has none, and what is marked on each."""

    title: str
    number: int
    pages: tuple[Page | None, Page | None]
    marks: tuple[tuple[Room, ...], tuple[Room, ...]]


class SideBySide:
    """The answers to the addresses of two revisions."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._held: Held[tuple[Comparison, tuple[PagePair, ...]]] = Held(LAID_OUT)

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [Route("/beside/", self.show), Route("/beside/{number:int}/{side:int}.svg", self.picture)]

    def _pair(self, opened: Opened) -> tuple[PagePair, ...]:
        """The pages that changed, laid out once for one comparison."""
        compared = opened.compared
        if compared is None:
            raise HTTPException(404, "Compare with another revision first.")
        held = self._held.get(opened.id)
        if held is None or held[0] is not compared:
            held = self._held.put(opened.id, (compared, tuple(_pair_pages(compared))))
        return held[1]

    async def show(self, request: Request) -> Response:
        """Every page that changed, before and after."""
        opened = self._desk.find(request)
        pairs = await self._desk.work(self._pair, opened)
        compared = opened.compared
        assert compared is not None
        return HTMLResponse(
            render_template(
                "beside.html.j2",
                policy=render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY),
                base=self._desk.base,
                here=f"{self._desk.base}shows/{opened.id}/",
                said=(),
                old=compared.old.revision,
                new=compared.new.revision,
                pairs=[_describe(pair) for pair in pairs],
            )
        )

    async def picture(self, request: Request) -> Response:
        """A page of one side."""
        number, side = request.path_params["number"], request.path_params["side"]
        pairs = await self._desk.work(self._pair, self._desk.find(request))
        page = pairs[number - 1].pages[side] if 1 <= number <= len(pairs) and side in (0, 1) else None
        if page is None:
            raise HTTPException(404, "There is no such page.")
        return make_reply(await self._desk.work(paint_svg, page, pairs[number - 1].title), "page.svg")


def _pair_pages(compared: Comparison) -> Iterator[PagePair]:
    before, after = _lay_out(compared.old), _lay_out(compared.new)
    for fate in compared.reprint.papers:
        name = fate.paper.name
        for number in sorted({page.number for page in (*fate.printed, *fate.destroyed)}):
            old, new = (_find_page(side.get(name), number) for side in (before, after))
            quiet = frozenset(text for side in (before, after) if name in side for text in _list_quiet(side[name]))
            marks = mark_changes(old, new, quiet) if old and new else ((), ())
            if old or new:
                yield PagePair(fate.paper.title, number, (old, new), marks)


def _lay_out(side: Side) -> Mapping[str, Laid]:
    return {one.sheet.name: one for one in lay_out_papers(SHEETS, side.show, side.findings)[0]}


def _find_page(laid: Laid | None, number: int) -> Page | None:
    return laid.layout.pages[number - 1] if laid and number <= len(laid.layout.pages) else None


def _list_quiet(laid: Laid) -> Iterator[str]:
    """What says which revision it is, on every page."""
    sheet = laid.sheet
    if sheet.replaces:
        yield words_of(sheet.language)["replaces"].format(revision=sheet.replaces)


def _describe(pair: PagePair) -> dict[str, Any]:
    sides = [
        {"width": page.width, "height": page.height, "marks": marks, "code": page.code} if page else None
        for page, marks in zip(pair.pages, pair.marks, strict=True)
    ]
    return {"title": pair.title, "number": pair.number, "sides": sides, "marked": sum(map(len, pair.marks))}
