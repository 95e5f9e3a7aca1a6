"""What the page keeps of shows: little, of those used last, and never what is not so any more."""

import itertools
from urllib.parse import urlencode

import pytest

from paperwork.render.labels.stocks import load_stocks
from paperwork.serve.work import held, previews
from paperwork.serve.work.comparing import compare
from paperwork.serve.work.held import Held
from tests.serve.asgi import ask
from tests.serve.test_beside import NEW, OLD
from tests.serve.test_edit import Page


def test_the_one_that_was_asked_for_longest_ago_makes_room():
    left: list[str] = []
    kept = Held(2, left.append)
    kept.put("a", "1")
    kept.put("b", "2")
    assert kept.get("a") == "1"
    kept.put("c", "3")
    assert left == ["2"] and kept.get("b") is None and kept.get("a") == "1" and len(kept) == 2
    kept.put("a", "4")
    assert left == ["2", "1"] and kept.get("a") == "4"
    kept.clear()
    assert sorted(left) == ["1", "2", "3", "4"] and not len(kept)


@pytest.fixture
def watched(monkeypatch) -> list[Held]:
    """Whatever the page keeps, as it is made."""
    made: list[Held] = []
    begin = Held.__init__

    def note(self, *given) -> None:
        begin(self, *given)
        made.append(self)

    monkeypatch.setattr(Held, "__init__", note)
    return made


def test_seven_shows_looked_at_leave_the_pages_of_three(tmp_path, watched):
    page = Page(tmp_path, NEW)
    for number in range(2, 8):
        (tmp_path / f"show{number}.yaml").write_bytes(NEW)
        page.shelf.open(f"show{number}.yaml")
    for opened in page.shelf.opened:
        assert compare(opened, "old.yaml", OLD) == ""
        for path in ("preview/channel-chart/1.svg", "beside/1/0.svg"):
            assert ask(page.app, f"/secret/shows/{opened.id}/{path}").status == 200
    assert sorted(map(len, watched), reverse=True)[:2] == [held.LAID_OUT] * 2
    oldest = page.shelf.opened[0]
    assert ask(page.app, f"/secret/shows/{oldest.id}/preview/channel-chart/1.svg").status == 200


def test_pages_are_laid_out_once_for_all_their_pictures_and_anew_once_anything_is_changed(tmp_path, monkeypatch):
    page, laid = Page(tmp_path, NEW), itertools.count()
    real = previews.lay_out_one
    monkeypatch.setattr(previews, "lay_out_one", lambda *given: (next(laid), real(*given))[1])

    def look() -> bytes:
        return ask(page.app, "/secret/shows/show1/preview/pack-labels/1.svg").body

    first = look()
    assert look() == first and next(laid) == 1
    page.edit("channels/05/by=Zoe")
    assert look() != first and next(laid) == 3
    second, stock = look(), next(iter(load_stocks()))
    chosen = urlencode({"stock": stock, "peeled": "1"}).encode()
    assert ask(page.app, "/secret/shows/show1/labels", method="POST", body=chosen).status == 204
    assert look() != second
