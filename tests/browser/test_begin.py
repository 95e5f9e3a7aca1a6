"""From an empty folder to labels: a new show, the example, a list that becomes a show, and what to do next."""

import pytest
from playwright.sync_api import expect

from tests.browser.access import assert_accessible, tab_to
from tests.browser.conftest import Served
from tests.browser.shows_text import GALA
from tests.browser.test_edit import paste

pytestmark = pytest.mark.browser

FREQUENCIES = [
    "470.200",
    "471.050",
    "472.075",
    "473.800",
    "474.750",
    "476.700",
    "477.825",
    "479.125",
    "486.275",
    "488.250",
    "492.750",
    "493.525",
]
"""Frequencies of which some spoil each other."""

LIST = "Mic;Role;Actor;Freq\n1;VERA;Mara Lind;520,200\n2;TOM;Ben Arlo;521,300\n"


@pytest.fixture
def begun(tmp_path, page):
    served = Served(tmp_path)
    served.open(page)
    yield page
    page.close()  # a frame that is opening its viewer of PDFs may bring down a page that is led elsewhere
    served.stop()


def test_from_an_empty_folder_to_a_saved_show_of_twelve_channels_with_labels_by_keyboard(begun, tmp_path):
    page = begun
    assert_accessible(page)
    tab_to(page, "#title")
    page.keyboard.type("Glass Ferry")
    page.keyboard.press("Enter")
    page.locator("#grid td").first.wait_for()
    page.keyboard.press("ArrowRight")
    paste(page, "\n".join(f"ROLE {n}\tPerson {n}" for n in range(1, 13)))
    for column, values in (("frequency", FREQUENCIES), ("pack", [f"P{n}" for n in range(1, 13)])):
        heads = [text.lower() for text in page.locator("#grid thead th").all_inner_texts()]
        page.keyboard.press("Home")
        for _ in range(heads.index(column)):
            page.keyboard.press("ArrowRight")
        paste(page, "\n".join(values))
    expect(page.locator("#kept")).to_have_text("changed, not saved")
    page.get_by_role("link", name="Findings").press("Enter")
    page.get_by_role("button", name="Make every fix that needs no decision").press("Enter")
    page.locator("#said", has_text="fixed").wait_for()
    page.keyboard.press("Control+s")
    expect(page.locator("#kept")).to_have_text("saved")
    text = (tmp_path / "Glass-Ferry.yaml").read_text(encoding="utf-8")
    assert "  12: {role: ROLE 12, by: Person 12, mhz: 4" in text
    page.get_by_role("link", name="Papers").click()
    page.locator(".next").get_by_role("button", name="Make them now").click()
    page.get_by_role("link", name="Pack labels").first.wait_for(timeout=60_000)
    assert page.locator(".next").inner_text().startswith("Next: Every paper is made")
    assert_accessible(page)


def test_the_example_opens_and_nothing_is_written(begun, tmp_path):
    begun.get_by_role("button", name="Open the example").click()
    begun.get_by_role("heading", name="The Lantern Tide").wait_for()
    assert not list(tmp_path.iterdir())


def test_a_list_becomes_a_show_file_that_is_edited(begun, tmp_path):
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    begun.reload()
    begun.get_by_role("button", name="list.csv").click()
    begun.get_by_role("button", name="Make a show file of it").click()
    begun.locator("#grid td").first.wait_for()
    assert "520,200" in (tmp_path / "list.yaml").read_text(encoding="utf-8")


def test_the_page_of_a_show_says_what_to_do_next_and_uses_a_fix(begun, tmp_path):
    (tmp_path / "show.yaml").write_text(GALA, encoding="utf-8")
    begun.reload()
    begun.get_by_role("button", name="show.yaml").click()
    next_step = begun.locator(".next")
    assert "486.200" in next_step.inner_text() and next_step.get_by_role("link", name="Put it right").count() == 1
    begun.locator("#findings ~ *").get_by_role("button", name="Use it").first.click()
    assert "mhz: 486.200" in begun.locator("#fix-lines del").inner_text()
    begun.locator("#fix-dialog").get_by_role("button", name="Use it").click()
    begun.locator(".next", has_text="Changes here").wait_for()
    assert_accessible(begun)
    begun.locator(".next").get_by_role("button", name="Save").click()
    begun.locator(".next", has_text="not made yet").wait_for()
    assert (tmp_path / "show.yaml").read_text(encoding="utf-8") != GALA
    begun.get_by_role("link", name="Another show").click()
    begun.get_by_text("1 earlier version").wait_for()
    assert_accessible(begun)


def test_the_start_says_which_open_shows_have_changes_that_are_not_saved(begun, tmp_path):
    (tmp_path / "show.yaml").write_text(GALA, encoding="utf-8")
    begun.reload()
    begun.get_by_role("button", name="show.yaml").click()
    begun.get_by_role("link", name="Edit").click()
    begun.locator("#grid td").first.click()
    begun.keyboard.type("IDA")
    begun.keyboard.press("Enter")
    begun.locator("#kept", has_text="changed, not saved").wait_for()
    begun.get_by_role("link", name="Papers").click()
    begun.get_by_role("link", name="Another show").click()
    begun.get_by_text("changed, not saved").wait_for()
    begun.get_by_role("button", name="Close the page").click()
    begun.get_by_text("Not saved yet, and lost").wait_for()
    assert_accessible(begun)


def test_a_readers_papers_are_printed_by_the_browsers_own_dialog(begun, tmp_path):
    (tmp_path / "show.yaml").write_text(
        GALA.replace("2: {role: TOM, mhz: 486.200}", "2: {role: TOM, mhz: 487.400}"), encoding="utf-8"
    )
    begun.reload()
    begun.get_by_role("button", name="show.yaml").click()
    begun.get_by_role("button", name="Make the papers").click()
    begun.get_by_role("link", name="Rack", exact=True).click(timeout=60_000)
    begun.get_by_role("heading", name="Papers for the rack").wait_for()
    assert_accessible(begun)
    with begun.expect_request("**/reader/rack.pdf") as asked:
        begun.get_by_role("button", name="Print all of them").click()
    answer = asked.value.response()
    assert answer.status == 200 and answer.headers["content-type"] == "application/pdf"
    assert begun.locator("iframe#printed").count() == 1
