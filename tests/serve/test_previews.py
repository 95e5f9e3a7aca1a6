"""A preview of a paper while the show is typed: the pages that would be printed, of what is not saved too."""

import re

import pytest

from tests.serve.asgi import ask
from tests.serve.test_edit import Page
from tests.serve.test_editions import RUN, Shown


@pytest.fixture
def page(tmp_path) -> Shown:
    return Shown(tmp_path, RUN)


def preview(page: Page, path: str):
    return ask(page.app, f"/secret/shows/show1/preview/{path}")


def test_a_picture_is_the_page_that_would_be_printed_with_what_is_not_saved(page):
    first = preview(page, "channel-chart/1.svg").body
    page.edit("channels/1/mhz=488.100")
    assert page.opened.is_edited and page.opened.papers is None
    seen = preview(page, "channel-chart/1.svg")
    assert seen.headers["content-type"] == "image/svg+xml" and seen.body != first
    page.opened.print()
    assert seen.body == page.opened.papers.files["pictures/rack/channel-chart-1.svg"]
    page.post("undo", ("section", "channels"))
    assert preview(page, "channel-chart/1.svg").body == first


def test_the_first_paper_is_shown_and_each_other_can_be(page):
    body = preview(page, "").body.decode()
    assert "<h1>Channel chart</h1>" in body and "channel-chart/1.svg" in body and "unsaved" not in body
    names = re.findall(r'preview/([a-z-]+)/"', body)
    assert "pack-labels" in names and "dressing-list" in names
    assert "no facts for this paper" in preview(page, "frequency-reply/").body.decode()
    assert (
        preview(page, "nothing/").status
        == preview(page, "channel-chart/99.svg").status
        == preview(page, "x/1.svg").status
        == 404
    )


def test_of_several_days_the_papers_of_the_run_are_previewed(page):
    page.send("edition", on="..", first="2027-03-06", last="2027-03-08")
    assert set(re.findall(r'preview/([a-z-]+)/"', preview(page, "").body.decode())) == {"performances", "week-grids"}


def test_what_is_no_show_has_no_previews(tmp_path):
    assert preview(Shown(tmp_path, b"show: [\n"), "").status == 404
