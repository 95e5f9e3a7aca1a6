"""A paper as it would be now, what is typed and not saved included: laid out alone, so that it is there at once."""

from typing import Any, NamedTuple

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from paperwork.pipeline import LabelChoice, lay_out_papers
from paperwork.reading import Reading
from paperwork.render.boxes import Page
from paperwork.render.pdf.svg import paint_svg
from paperwork.serve.edit.editor import Desk
from paperwork.serve.pages import POLICY, SCRIPTS
from paperwork.serve.readers import READERS, say_paper
from paperwork.serve.replies import make_reply
from paperwork.serve.shows import Opened
from paperwork.serve.work.held import LAID_OUT, Held
from paperwork.sheets import OF_RUN, SHEETS, Paper
from paperwork.text.templating import render_policy, render_template


class _Preview(NamedTuple):
    """The pages of one paper with their titles, and what they were laid out of."""

    paper: str
    reading: Reading
    choice: LabelChoice
    pages: tuple[tuple[str, Page], ...]


class Previews:
    """The answers to the addresses of previews: `preview/` and `preview/PAPER/`, with a picture a page."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._held: Held[_Preview] = Held(LAID_OUT)

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [
            Route("/preview/", self.show),
            Route("/preview/{paper}/", self.show),
            Route("/preview/{paper}/{number:int}.svg", self.picture),
        ]

    async def show(self, request: Request) -> Response:
        """One paper, and the way to the others."""
        opened = self._desk.find(request)
        page = await self._desk.work(self._render, opened, request.path_params.get("paper", ""))
        return HTMLResponse(page)

    def _render(self, opened: Opened, name: str) -> str:
        papers = list_papers(opened)
        if not papers:
            raise HTTPException(404, "There is no show to make papers of yet; see its findings.")
        paper = next((one for one in papers if one.name == name), None if name else papers[0])
        if paper is None:
            raise HTTPException(404, f"There is no paper {name}.")
        preview = self._lay_out(opened, paper)
        return render_template(
            "previews.html.j2",
            policy=render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY),
            base=self._desk.base,
            here=f"{self._desk.base}shows/{opened.id}/",
            said=(),
            opened=opened,
            groups=[
                (word, [(one.name, say_paper(one.name), one is paper) for one in papers if one.folder == folder])
                for folder, word in READERS.items()
            ],
            title=say_paper(paper.name),
            paper=paper.name,
            pages=[_describe(title, page) for title, page in preview.pages],
        )

    async def picture(self, request: Request) -> Response:
        """One page of it."""
        opened = self._desk.find(request)
        name, number = request.path_params["paper"], request.path_params["number"]
        paper = next((one for one in list_papers(opened) if one.name == name), None)
        pages = (await self._desk.work(self._lay_out, opened, paper)).pages if paper else ()
        if not 1 <= number <= len(pages):
            raise HTTPException(404, "There is no such page.")
        title, page = pages[number - 1]
        return make_reply(await self._desk.work(paint_svg, page, title), "page.svg")

    def _lay_out(self, opened: Opened, paper: Paper) -> _Preview:
        held, reading, choice = self._held.get(opened.id), opened.reading, opened.choice
        if held and held.paper == paper.name and held.reading is reading and held.choice == choice:
            return held
        return self._held.put(opened.id, _Preview(paper.name, reading, choice, lay_out_one(opened, paper)))


def list_papers(opened: Opened) -> list[Paper]:
    """The papers that can be previewed: of several days those of the run, of a show that cannot be read none."""
    show = opened.reading.show
    return [one for one in SHEETS if show and (not show.is_of_days or one.name in OF_RUN)]


def lay_out_one(opened: Opened, paper: Paper) -> tuple[tuple[str, Page], ...]:
    """The pages of one paper, as it would be printed now, each with its title."""
    show = opened.reading.show
    laid = lay_out_papers([paper], show, opened.reading.findings, opened.choice)[0] if show else []
    return tuple(
        (f"{one.layout.title}, page {number} of {len(one.layout.pages)}", page)
        for one in laid
        for number, page in enumerate(one.layout.pages, 1)
    )


def _describe(title: str, page: Page) -> dict[str, Any]:
    return {"title": title, "width": page.width // 1000, "height": page.height // 1000}
