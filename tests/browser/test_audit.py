"""An audit on the page: a photograph is chosen, marked, and told in words that everybody can reach."""

import pytest

from paperwork.audit import list_labels
from paperwork.reading import read_show
from tests.browser.access import assert_accessible
from tests.serve.test_auditing import SHOW, photograph

pytestmark = pytest.mark.browser


def test_a_photograph_is_chosen_and_marked(served_here, tmp_path, page):
    (tmp_path / "show.yaml").write_bytes(SHOW)
    good = list_labels(read_show(tmp_path / "show.yaml", "show.yaml").show, ())
    data = photograph({"good": f"1:VERA:C:{min(good['1'])}", "stale": "2:TOM:B:AAAA", "smeared": "3::C:AAAA"})
    served_here.open(page)
    page.get_by_role("button", name="show.yaml").click()
    page.get_by_role("link", name="Audit").click()
    assert_accessible(page)
    assert page.locator("#photo").get_attribute("capture") == "environment"
    page.locator("#photo").set_input_files({"name": "table.jpg", "mimeType": "image/jpeg", "buffer": data})
    page.get_by_role("heading", name="1 of 4 packs are there").wait_for()
    assert page.locator(".photo .mark").count() == 3
    assert (
        page.locator(".photo image").evaluate(
            "one => new Promise(done => { const i = new Image(); i.onload = () => done(i.width); i.src = one.href.baseVal; })"
        )
        == 1000
    )
    assert "cannot be read: go closer" in page.locator(".note:visible").inner_text()
    assert_accessible(page)
