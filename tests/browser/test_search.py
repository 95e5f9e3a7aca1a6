"""Frequencies found on the page: progress, a result on the spectrum, taken and undone; and a search that is cancelled."""

import shutil

import pytest

from tests.browser.access import assert_accessible
from tests.shows_text import EXAMPLES

pytestmark = pytest.mark.browser


def test_a_plan_is_looked_for_cancelled_looked_for_again_taken_and_undone(served_here, tmp_path, page):
    shutil.copy(EXAMPLES / "sweep.csv", tmp_path)
    text = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
    (tmp_path / "show.yaml").write_text(
        text.replace(", mhz: 474.750", "").replace(", mhz: 519.075", ""), encoding="utf-8"
    )
    served_here.open(page)
    page.get_by_role("button", name="show.yaml").click()
    page.get_by_role("link", name="Frequencies").click()
    assert "2 channels have none" in page.locator(".masthead").inner_text()
    assert_accessible(page)
    page.get_by_label("plan all again").check()
    page.get_by_label("Look", exact=True).select_option("sixteen times as long")
    page.get_by_role("button", name="Look for them").click()
    page.get_by_role("heading", name="Looking for frequencies").wait_for()
    assert_accessible(page)
    page.get_by_role("button", name="Cancel").click()
    page.get_by_role("heading", name="Find frequencies").wait_for()
    page.get_by_role("button", name="Look for them").click()
    page.get_by_role("heading", name="What was found").wait_for(timeout=90_000)
    assert page.get_by_role("list", name="What changes").locator("li").count() == 2
    drawn = page.locator(".drawn img").first
    assert drawn.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100
    assert_accessible(page)
    page.get_by_role("button", name="Take it").click()
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Undo").wait_for(state="detached")
    page.get_by_role("link", name="Frequencies").click()
    assert "2 channels have none" in page.locator(".masthead").inner_text()


def test_what_was_refused_gets_another(served_here, tmp_path, page):
    channels = "  1: {radio: belt, mhz: 488.700, granted: no}\n  2: {radio: belt, mhz: 490.000}\n"
    text = f"show: {{title: Gala}}\nradios: {{belt: {{tunes: 486-508}}}}\nchannels:\n{channels}"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    served_here.open(page)
    page.get_by_role("button", name="show.yaml").click()
    page.get_by_role("link", name="Frequencies").click()
    assert "1 channel was refused" in page.locator(".masthead").inner_text()
    page.get_by_label("Answered").check()
    assert_accessible(page)
    page.get_by_role("button", name="Look for them").click()
    page.get_by_role("heading", name="What was found").wait_for(timeout=90_000)
    assert "channel 1" in page.get_by_role("list", name="What changes").inner_text()
    assert "--" not in page.locator("main").inner_text()
