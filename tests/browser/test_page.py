"""The local page in Chromium: dropped on, answered, printed from, by mouse and by keyboard alone, in every state usable by all."""

import re
import zipfile

import pytest

from paperwork.serve.pages import render_way
from tests.browser.access import assert_accessible, tab_to, wait_until
from tests.browser.shows_text import GALA, MESSY

pytestmark = pytest.mark.browser


def drop(page, served, name: str, text: str) -> None:
    served.open(page)
    page.set_input_files("#files", {"name": name, "mimeType": "text/plain", "buffer": text.encode("utf-8")})
    page.wait_for_url("**/shows/**")


def test_every_state_of_the_page_is_accessible_wide_and_narrow_light_and_dark(served, page):
    served.open(page)
    assert_accessible(page)
    drop(page, served, "list.csv", MESSY)
    page.get_by_role("button", name="Take these answers").wait_for()
    assert_accessible(page)
    drop(page, served, "gala.yaml", GALA)
    assert page.locator("mark", has_text="486.200").count() == 1
    page.get_by_label("Venue").select_option("Pier")
    page.get_by_role("button", name="Papers for this").click()
    page.get_by_text("Pier Pavilion").wait_for()
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("button", name="Lay the labels out").wait_for()
    page.get_by_label("עומר כץ").check()
    page.get_by_role("button", name="Plan tonight").click()
    page.locator("#differs").wait_for()
    older = GALA.replace("489.400", "490.200").encode("utf-8")
    page.set_input_files("#earlier", {"name": "older.yaml", "mimeType": "text/plain", "buffer": older})
    page.locator(".change").first.wait_for()
    assert page.locator("#differs").count() == 1 and page.locator(".peel").count() == 1
    assert_accessible(page)
    page.get_by_role("button", name="Make only what changed").click()
    page.locator("#since h3").first.wait_for()


def test_the_example_is_dropped_printed_and_saved_byte_for_byte(served, page, printed):
    before = list(served.folder.iterdir())
    served.open(page)
    page.set_input_files("#files", [printed / "show.yaml", printed / "sweep.csv"])
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("button", name="Make them again").wait_for(timeout=90_000)
    with page.expect_download() as saved:
        page.get_by_role("link", name="Save all").click()
    assert saved.value.suggested_filename == "show-papers.zip"
    with zipfile.ZipFile(saved.value.path()) as archive:
        packed = {name: archive.read(name) for name in archive.namelist()}
    papers = printed / "papers"
    assert packed == {path: (papers / path).read_bytes() for path in packed} and len(packed) > 100
    assert {path.relative_to(papers).as_posix() for path in papers.rglob("*.pdf")} <= packed.keys()
    first, last = page.locator(".peel label").nth(0), page.locator(".peel label").nth(4)
    first.hover()
    page.mouse.down()
    last.hover()
    page.mouse.up()
    assert [page.locator(".peel input").nth(cell).is_checked() for cell in (0, 4, 5)] == [True, True, False], (
        "a stroke over two"
    )
    page.locator(".peel label").nth(5).click()
    page.get_by_role("button", name="Lay the labels out").click()
    page.wait_for_url("**#labels")
    assert page.locator(".peel input").nth(5).is_checked()
    page.get_by_label("Noor Haddad").check()
    page.get_by_role("button", name="Plan tonight").click()
    page.locator("#differs + ul", has_text="Aoife Ní Bhriain for Noor Haddad").wait_for(timeout=60_000)
    assert list(served.folder.iterdir()) == before, "nothing is written for what was dropped"


def test_a_messy_sheet_is_settled_printed_and_planned_by_keyboard_alone(served, page):
    served.open(page)
    with page.expect_file_chooser() as chooser:
        tab_to(page, "#files")
        page.keyboard.press("Enter")
    chooser.value.set_files({"name": "list.csv", "mimeType": "text/csv", "buffer": MESSY.encode("utf-8")})
    page.wait_for_url("**/shows/**")
    assert page.locator("td.means", has_text="1.518,200").count() == 1
    assert page.locator(".context", has_text="Ben Arlo").count() == 1, "a question shows its row"
    tab_to(page, "input[type=radio]")
    page.keyboard.press("ArrowDown")
    tab_to(page, "button:not([type=button])")
    page.keyboard.press("Enter")
    page.get_by_text("No question is open").wait_for()
    assert page.locator("b", has_text=re.compile("^NURSE$")).count() == 0
    tab_to(page, "form[action$='/print'] button")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Make them again").wait_for()
    tab_to(page, "a[href$='channel-chart.pdf']")
    asked = []
    page.context.on("request", lambda request: asked.append(request.url))
    with page.context.expect_page():
        page.keyboard.press("Enter")
    page.bring_to_front()
    wait_until(page, "!document.hidden")
    assert [url for url in asked if url.endswith("rack/channel-chart.pdf")], (
        "a paper opens beside the page, which stays"
    )
    tab_to(page, "input[name=peeled]")
    page.keyboard.press("Space")
    assert page.locator(".peel input").first.is_checked()
    tab_to(page, "input[name=off]")
    page.keyboard.press("Space")
    tab_to(page, "form[action$='/tonight'] button")
    page.keyboard.press("Enter")
    page.locator("#differs").wait_for()


def test_answers_about_a_sheet_of_the_folder_are_kept_and_a_save_is_noticed(served, page):
    sheet = served.folder / "list.csv"
    sheet.write_text(MESSY, encoding="utf-8")
    served.open(page)
    page.get_by_role("button", name="list.csv").click()
    page.locator("input[type=radio]").nth(1).check()
    page.get_by_role("button", name="Take these answers").click()
    page.get_by_text("No question is open").wait_for()
    assert "518.200" in (served.folder / "list.csv.answers.yaml").read_text(encoding="utf-8")
    sheet.write_text(MESSY.replace("Ida Voss", "Ada Nilsen"), encoding="utf-8")
    page.evaluate("dispatchEvent(new Event('focus'))")
    page.get_by_text("Ada Nilsen").locator("visible=true").first.wait_for()
    for path in served.folder.iterdir():
        path.unlink()


def test_a_page_keeps_the_server_and_its_last_tab_ends_it_after_the_grace(browser, served_alone):
    context = browser.new_context()
    page = context.new_page()
    served_alone.open(page)
    for _ in range(3):
        page.wait_for_event("request", lambda request: request.url.endswith("/alive"))
    assert served_alone.process.poll() is None, "more than the grace has passed"
    page.goto("about:blank")
    page.go_back()
    page.get_by_text("Drop a show here").wait_for()
    context.close()
    assert served_alone.process.wait(30) == 0


def test_eight_tabs_at_once_all_load_and_work(browser, served_alone):
    context = browser.new_context()
    tabs = [context.new_page() for _ in range(8)]
    for page in tabs:
        drop(page, served_alone, "list.csv", MESSY)
    tabs[0].locator("input[type=radio]").nth(1).check()
    tabs[0].get_by_role("button", name="Take these answers").click()
    tabs[0].get_by_text("These answers are in no file yet").wait_for()
    tabs[7].get_by_role("link", name="Another show").click()
    tabs[7].get_by_role("button", name="Close the page").click()
    tabs[7].get_by_role("heading", name="Close the page?").wait_for()
    assert tabs[7].get_by_text("other tabs show this page").count() == 1
    assert_accessible(tabs[7])
    tabs[7].get_by_role("link", name="Keep it open").click()
    tabs[7].get_by_text("Drop a show here").wait_for()
    context.close()


def test_another_origin_gets_nothing_from_a_running_page(served, browser, printed):
    other = browser.new_context(bypass_csp=True).new_page()
    other.goto((printed / "papers" / "index.html").as_uri())
    told = other.evaluate(
        """async address => {
        const read = await fetch(address).then(answer => answer.text(), () => "refused");
        const sent = await fetch(address + "stop", {method: "POST", mode: "no-cors"}).then(() => "sent", () => "refused");
        return [read, sent];
    }""",
        served.address,
    )
    other.context.close()
    assert told[0] == "refused" and served.process.poll() is None


def test_a_browser_gets_in_by_the_file_that_it_is_handed_and_by_nothing_else(served_alone, browser, tmp_path):
    leading = tmp_path / "open.html"
    leading.write_text(render_way(served_alone.typed), encoding="utf-8")
    context, other = browser.new_context(), browser.new_context()
    page, stranger = context.new_page(), other.new_page()
    page.goto(leading.as_uri())
    page.get_by_text("Drop a show here").wait_for()
    assert page.url == served_alone.address and page.evaluate("document.cookie") == ""
    page.reload()
    page.get_by_text("Drop a show here").wait_for()
    for address in (page.url, served_alone.typed):
        assert stranger.goto(address).status == 403
    context.close()
    other.close()


def test_clicked_cells_close_the_old_labels_and_are_kept_by_every_button(served, page):
    drop(page, served, "gala.yaml", GALA.replace("486.200", "487.000", 1))
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("button", name="Lay the labels out").wait_for()
    links = page.locator("a[href$='pack-labels.pdf']")
    assert links.count() >= 2
    with page.expect_response(lambda answer: answer.url.endswith("/labels")):
        page.locator(".peel label").nth(2).click()
    assert page.locator("a[href*='pack-labels.pdf']").count() == 0
    assert page.get_by_text("are for another choice").is_visible()
    assert_accessible(page)
    page.reload()
    assert page.locator(".peel input").nth(2).is_checked() and links.count() == 0
    page.locator(".peel label").nth(4).click()
    page.get_by_role("button", name="Make them again").click()
    page.wait_for_url("**#papers")
    assert [page.locator(".peel input").nth(cell).is_checked() for cell in (2, 3, 4)] == [True, False, True]
    assert links.count() >= 2
