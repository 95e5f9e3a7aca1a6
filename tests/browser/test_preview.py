"""A page large: opened, turned and zoomed by keys, and two revisions side by side."""

import pytest

from tests.browser.access import assert_accessible
from tests.browser.conftest import Served
from tests.serve.test_beside import NEW, OLD

pytestmark = pytest.mark.browser


@pytest.fixture
def made(tmp_path, page):
    (tmp_path / "show.yaml").write_bytes(NEW)
    (tmp_path / "old.yaml").write_bytes(OLD)
    served = Served(tmp_path)
    served.open(page)
    page.get_by_role("button", name="show.yaml").click()
    page.get_by_role("button", name="Make the papers").click()
    page.locator(".pages img").first.wait_for()
    yield page
    page.close()
    served.stop()


def test_a_page_is_looked_at_turned_and_zoomed_by_keys(made):
    page, title, picture = made, made.locator("#preview-title"), made.locator(".looked img")
    page.locator(".pages a").first.press("Enter")
    first = title.inner_text()
    assert "page 1" in first and picture.evaluate("one => one.decode().then(() => one.naturalWidth)") > 100
    room = page.locator(".looked").bounding_box()
    whole = picture.bounding_box()
    assert whole["height"] <= room["height"] + 1 and whole["width"] <= room["width"] + 1
    assert_accessible(page)
    page.keyboard.press("ArrowRight")
    assert title.inner_text() != first
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    assert title.inner_text() == first and page.get_by_role("button", name="Page before").is_disabled()
    before = picture.bounding_box()["width"]
    page.keyboard.press("+")
    page.keyboard.press("+")
    assert picture.bounding_box()["width"] > 1.5 * before
    page.keyboard.press("ArrowRight")
    assert title.inner_text() == first, "zoomed in, arrows move the page"
    page.keyboard.press("0")
    assert abs(picture.bounding_box()["width"] - before) < 2
    page.keyboard.press("Escape")
    assert not page.locator("#preview").is_visible()
    assert page.evaluate("document.activeElement.matches('.pages a')")


def test_two_revisions_are_side_by_side_and_one_below_the_other_on_a_telephone(made):
    page = made
    page.get_by_label("Or one in the folder").select_option("old.yaml")
    page.get_by_role("button", name="Compare with it").click()
    page.get_by_role("link", name="Look at both, side by side").click()
    page.locator(".beside").first.wait_for()
    assert page.locator(".differs").count() > 3
    assert_accessible(page)
    figures = page.locator(".beside").first.locator("figure")
    left, right = (figures.nth(n).bounding_box() for n in (0, 1))
    assert left["y"] == right["y"] and left["x"] + left["width"] <= right["x"]
    page.set_viewport_size({"width": 390, "height": 844})
    above, below = (figures.nth(n).bounding_box() for n in (0, 1))
    assert above["y"] + above["height"] <= below["y"]
