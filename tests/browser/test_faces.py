"""The page is set in the faces of the papers, and nothing of it moves while it loads or works."""

import pytest

from tests.browser.access import wait_until
from tests.browser.shows_text import GALA

pytestmark = pytest.mark.browser

WATCH = """() => {
    window.moved = [];
    new PerformanceObserver((list) => {
        for (const one of list.getEntries()) if (!one.hadRecentInput) window.moved.push(one.value);
    }).observe({ type: "layout-shift", buffered: true });
}"""
"""Layout Instability API (W3C community group draft): what moved in sight, as a share of the window."""

LOADED = "(weight) => [...faces].some((one) => one.weight === weight && one.status === 'loaded')"


def test_every_page_is_set_in_the_faces_of_the_papers_and_nothing_moves(served_here, tmp_path, page):
    (tmp_path / "show.yaml").write_text(GALA, encoding="utf-8")
    served_here.open(page)
    for step in ("start", "show", "edit"):
        if step == "show":
            page.get_by_role("button", name="show.yaml").click()
            page.wait_for_url("**/shows/**")
        if step == "edit":
            page.get_by_role("link", name="Edit", exact=True).click()
            page.locator("#grid td").first.wait_for()
        wait_until(page, "document.fonts.ready.then((faces) => ['400', '700'].every(LOADED))".replace("LOADED", LOADED))
        assert "Paper" in page.evaluate("getComputedStyle(document.body).fontFamily")
        page.evaluate(WATCH)
        page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))")
        assert page.evaluate("window.moved.reduce((all, one) => all + one, 0)") < 0.01, step
