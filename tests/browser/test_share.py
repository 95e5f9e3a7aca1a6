"""Papers lent to a telephone: turned on, paired by the address of its code, read, and over when its time is."""

import pytest

from tests.browser.access import assert_accessible, wait_until
from tests.browser.conftest import Served
from tests.browser.shows_text import GALA

pytestmark = pytest.mark.browser

CLOCKED = "import paperwork.cli as cli; cli._now = lambda: open('now').read().strip(); cli.main()"
"""The command, with a clock that the test sets."""


@pytest.fixture
def sharing(tmp_path, page):
    (tmp_path / "show.yaml").write_text(GALA, encoding="utf-8")
    (tmp_path / "now").write_text("2027-03-01-1620")
    served = Served(tmp_path, "-c", CLOCKED, more=("--share", "127.0.0.1"))
    served.open(page)
    page.get_by_role("button", name="show.yaml").click()
    yield page
    page.close()
    served.stop()


def test_a_telephone_is_let_in_once_reads_and_is_shut_out_when_the_time_is_over(sharing, browser, tmp_path):
    page = sharing
    assert page.get_by_role("button", name="Share the papers").is_disabled()
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("button", name="Share the papers").click()
    page.locator(".shared .code").wait_for()
    assert "shared until 16:50" in page.locator("#share").inner_text()
    assert_accessible(page)
    address = page.locator(".shared code").inner_text()
    context = browser.new_context(viewport={"width": 390, "height": 844})
    phone = context.new_page()
    phone.goto(address)
    phone.get_by_role("heading", name="Gala").wait_for()
    assert phone.url.endswith("/index.html") and phone.locator(".pages img").count() > 2
    first = phone.locator(".pages img").first
    assert first.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100
    page.get_by_text("1 phone is let in").wait_for()
    other = browser.new_context().new_page()
    assert other.goto(address).status == 403 and other.goto(phone.url).status == 403
    other.context.close()
    (tmp_path / "now").write_text("2027-03-01-1650")
    wait_until(
        page,
        "fetch(document.documentElement.dataset.here + 'progress').then(one => one.json()).then(one => one.paired === -1)",
    )
    with pytest.raises(Exception, match=r"ERR_CONNECTION_REFUSED|ERR_EMPTY|403|ERR_CONNECTION_RESET"):
        assert phone.goto(phone.url).status == 200, "403"
    context.close()
    page.reload()
    assert "not shared" in page.locator("#share").inner_text()
