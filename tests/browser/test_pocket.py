"""A file for a telephone, opened alone in Chromium without a network: read, searched, and dimmed."""

import subprocess
import sys

import pytest

from tests.browser.access import NARROW, assert_accessible

pytestmark = pytest.mark.browser


@pytest.fixture
def pocket(page, printed):
    build = [sys.executable, "-m", "paperwork", "build", "show.yaml", "--pocket", "wardrobe", "-o", "pocket"]
    subprocess.run(build, cwd=printed, check=True, capture_output=True)
    page.context.set_offline(True)
    page.set_viewport_size({"width": NARROW[0], "height": NARROW[1]})
    page.goto((printed / "pocket" / "The-Lantern-Tide-rev-C-wardrobe.html").as_uri())
    return page


def test_it_is_searched_by_person_number_and_code_and_its_drawings_open(pocket):
    page, verdict = pocket, pocket.locator("#verdict")
    page.fill("#find", "haddad")
    shown = page.locator("[data-card]:visible")
    assert shown.count() > 4 and all("haddad" in text.lower() for text in shown.all_inner_texts())
    page.fill("#find", "05")
    assert page.locator(".card:visible").first.locator(".key").inner_text() == "05"
    code = page.locator("[data-numbers='05']").get_attribute("data-codes")
    page.fill("#find", code)
    assert verdict.inner_text() == "Label 05 is up to date."
    page.fill("#find", code[:-4] + "AAAA")
    assert verdict.inner_text().startswith("Label 05 is out of date")
    page.keyboard.press("Escape")
    page.get_by_role("link", name="Mic plot: people by scene").click()
    page.get_by_text("As drawn").first.click()
    drawn = page.locator(".drawn img").first
    assert drawn.evaluate("image => image.decode().then(() => image.naturalWidth)") > 300
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW[0]


def test_dim_is_dark_whatever_the_telephone_says_and_all_of_it_is_accessible(pocket):
    page = pocket
    assert_accessible(page)
    page.emulate_media(color_scheme="light")
    page.get_by_role("button", name="Dim").press("Enter")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(0, 0, 0)"
    assert_accessible(page)
    page.get_by_role("button", name="Dim").click()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
