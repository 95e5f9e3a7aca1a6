"""Archives by hand: made on the page of a show, verified against a digest, put back, and two of them compared."""

import pytest

from tests.browser.access import assert_accessible
from tests.browser.conftest import open_alone
from tests.browser.shows_text import GALA

pytestmark = pytest.mark.browser


@pytest.fixture
def kept(tmp_path, page):
    (tmp_path / "show.yaml").write_text(
        GALA.replace("  2: {role: TOM, mhz: 486.200}", "  2: {role: TOM}"), encoding="utf-8"
    )
    with open_alone(page, tmp_path) as opened:
        yield opened


def test_a_revision_is_kept_verified_put_back_and_compared_with_the_next(kept, tmp_path):
    page = kept
    page.get_by_role("button", name="Make the archive").click()
    page.get_by_role("heading", name="show-B.zip").wait_for()
    digest = page.locator("#verdict ~ dl code").inner_text()
    page.get_by_label("Digest you noted").fill(digest)
    page.get_by_label("make its papers again").check()
    page.get_by_role("button", name="Verify again").click()
    page.get_by_text("as it was noted").wait_for()
    assert "made again are the same" in page.locator("main").inner_text()
    page.get_by_role("button", name="Restore its files").click()
    page.get_by_text("show-B-restored/show.yaml").wait_for()
    assert (tmp_path / "show-B-restored" / "show.yaml").read_bytes() == (tmp_path / "show.yaml").read_bytes()
    assert_accessible(page)
    (tmp_path / "show.yaml").write_text(GALA.replace("revision: B", "revision: C, revisions: [B]"), encoding="utf-8")
    page.get_by_role("link", name="Shows").click()
    page.get_by_role("button", name="show.yaml").click()
    page.get_by_role("button", name="Make the archive").click()
    page.get_by_role("heading", name="show-C.zip").wait_for()
    assert page.locator(".revisions .letter").all_inner_texts() == ["B", "C"]
    page.locator("#archive").set_input_files(
        {"name": "sent.zip", "mimeType": "application/zip", "buffer": (tmp_path / "show-B.zip").read_bytes()[:-40]}
    )
    page.get_by_role("heading", name="sent.zip").wait_for()
    assert "not as it was made" in page.locator("main").inner_text()
    assert_accessible(page)
    page.get_by_label("From").select_option("show-B.zip")
    page.get_by_label("to", exact=True).select_option("show-C.zip")
    page.get_by_role("button", name="Compare them").click()
    page.get_by_role("list", name="What changed").wait_for()
    assert "B to C" in page.locator("#changes").inner_text()
