"""Two revisions side by side: the pages that changed, and marks on what differs in them and on nothing else."""

import re

import pypdfium2
import pytest

from paperwork.pipeline import make_papers
from paperwork.render.boxes import Open, Room, TextBox, wrap
from paperwork.render.boxes import Page as SheetPage
from paperwork.render.compared import mark_changes
from paperwork.render.furniture import REVISION_KEY
from paperwork.serve.work.comparing import compare
from tests.serve.asgi import ask
from tests.serve.test_edit import Page

ROWS = "".join(f"  {n:02d}: {{role: ROLE {n}, by: Person {n}, mhz: {470 + n * 0.4:.3f}}}\n" for n in range(1, 13))
OLD = f"show: {{title: Gala, revision: A}}\nchannels:\n{ROWS}".encode()
NEW = (
    OLD.replace(b"revision: A", b"revision: B, revisions: [A]")
    .replace(b"by: Person 5,", b"by: Quillon Zimt,")
    .replace(b"  07:", b"  06b: {role: EXTRA, by: Ann New, mhz: 480.600}\n  07:")
)


@pytest.fixture(scope="module")
def page(tmp_path_factory) -> Page:
    folder = tmp_path_factory.mktemp("beside")
    page = Page(folder, NEW)
    assert compare(page.opened, "old.yaml", OLD) == ""
    return page


def beside(page: Page) -> str:
    return ask(page.app, "/secret/shows/show1/beside/").body.decode()


def printed(side) -> bytes:
    """The chart of one side as it is printed."""
    return make_papers(side.show, side.findings, only=frozenset({"channel-chart"})).files["rack/channel-chart.pdf"]


def texts_below(pdf: bytes, rooms: list[tuple[int, ...]]) -> list[str]:
    """What stands in rectangles of the first page, by an independent reader of PDF; rooms are micrometres from the top."""
    sheet = pypdfium2.PdfDocument(pdf)[0]
    points, height = 72 / 25_400, sheet.get_height()
    text = sheet.get_textpage()
    found = []
    for x, y, width, high in rooms:
        box = (x * points, height - (y + high) * points, (x + width) * points, height - y * points)
        found.append(text.get_text_bounded(*box).strip())
    return found


def test_what_differs_is_marked_on_both_sides_and_what_only_moved_is_not(page):
    body = beside(page)
    chart = body.partition("Channel chart <span>")[2].partition("</section>")[0]
    sides = [
        [
            tuple(map(int, one))
            for one in re.findall(r'class="differs" x="(-?\d+)" y="(-?\d+)" width="(\d+)" height="(\d+)"', side)
        ]
        for side in chart.split("<figure>")[1:]
    ]
    before, after = (printed(side) for side in (page.opened.compared.old, page.opened.compared.new))
    assert texts_below(before, sides[0]) == ["Person 5"]
    marked = texts_below(after, sides[1])
    assert "Quillon Zimt" in marked and "EXTRA" in marked and "Ann New" in marked and "480.600" in marked
    assert not [text for text in marked if text.startswith(("ROLE", "Person"))] and len(marked) < 9
    assert ask(page.app, "/secret/shows/show1/beside/1/0.svg").status == 200


def test_each_side_is_the_page_as_it_is_printed(page):
    old, new = (ask(page.app, f"/secret/shows/show1/beside/1/{side}.svg") for side in (0, 1))
    assert old.headers["content-type"] == new.headers["content-type"] == "image/svg+xml" and old.body != new.body
    texts = [shape for shape in re.findall(rb"<g transform.*?</g>", old.body) if shape not in new.body]
    assert texts and old.body.count(b"<g ") > len(texts)
    for path in ("0/0", "1/2", "999/0"):
        assert ask(page.app, f"/secret/shows/show1/beside/{path}.svg").status == 404


def test_without_a_comparison_there_is_nothing_to_see(tmp_path):
    assert ask(Page(tmp_path, OLD).app, "/secret/shows/show1/beside/").status == 404


def line(y: int, *texts: str) -> list[TextBox]:
    room = Room(0, y - 3_000, 9_000, 4_000)
    return [TextBox(10_000 * n, y, text, "Text", 2_600, 2_600, room, room) for n, text in enumerate(texts)]


def test_the_box_of_the_revision_is_never_marked_and_a_doubled_word_counts_twice():
    def sheet(*boxes: TextBox) -> SheetPage:
        return SheetPage(210_000, 297_000, boxes)

    head = [wrap(Open("P", REVISION_KEY, once=True), line(18_000, text)) for text in "AB"]
    old = sheet(*head[0], *line(100_000, "one", "one"), *line(110_000, "two"))
    new = sheet(*head[1], *line(105_000, "one"), *line(115_000, "two"))
    gone, come = mark_changes(old, new)
    assert len(gone) == 1 and come == ()
    assert mark_changes(old, old) == ((), ())
    assert mark_changes(old, sheet(*head[1], *line(100_000, "one", "one")), frozenset({"two"})) == ((), ())
