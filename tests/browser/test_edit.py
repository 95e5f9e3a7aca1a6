"""Editing in Chromium: a table that behaves as a spreadsheet, by keyboard and by pointer, and the file that comes of it."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.access import assert_accessible
from tests.browser.conftest import Served

pytestmark = pytest.mark.browser

SHOW = """# Kept by hand.
show: {title: Gala}
channels:
  01: {role: VERA, by: Ann Lee, mhz: 486.200}   # lead
  02: {role: TOM, by: Bo Lim, mhz: 487.400}
scenes:
  1: {name: Quay, live: VERA TOM}
"""

CLASHING = SHOW.replace("487.400", "486.200")


class Shown:
    """A show of a folder, open for editing."""

    def __init__(self, served: Served, page, text: str = SHOW) -> None:
        self.file, self.page = served.folder / "show.yaml", page
        self.file.write_text(text, encoding="utf-8")
        served.open(page)
        page.get_by_role("button", name="show.yaml").click()
        page.get_by_role("link", name="Edit").click()
        page.locator("#grid td").first.wait_for()

    @property
    def text(self) -> str:
        return self.file.read_text(encoding="utf-8")

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)

    def cell(self, row: int, column: str):
        head = self.page.locator("#grid thead th").all_inner_texts()
        at = [one.lower() for one in head].index(column.lower())
        return self.page.locator(f"#grid tbody tr:nth-child({row}) > :nth-child({at + 1})")

    def settle(self, words: str) -> None:
        expect(self.page.locator("#kept")).to_have_text(words)

    def save(self) -> None:
        self.settle("changed, not saved")
        self.page.keyboard.press("Control+s")
        self.settle("saved")


@pytest.fixture
def edited(tmp_path, page):
    served = Served(tmp_path)
    yield lambda text=SHOW: Shown(served, page, text)
    page.close()  # also where it is opening the next revision, which leading it elsewhere would interrupt
    served.stop()


def paste(page, text: str) -> None:
    page.evaluate(
        """text => { const data = new DataTransfer(); data.setData("text/plain", text);
        document.activeElement.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true})); }""",
        text,
    )


def test_typing_replaces_enter_goes_down_tab_goes_right_and_escape_leaves_all_as_it_was(edited):
    show = edited()
    show.press("ArrowRight", "ArrowRight")
    show.type("Cy Moss")
    show.press("Enter")
    show.type("Di Orr")
    show.press("Tab")
    show.press("ArrowLeft")
    show.type("nobody")
    show.press("Escape")
    show.save()
    assert show.text == SHOW.replace("Ann Lee", "Cy Moss").replace("Bo Lim", "Di Orr")
    (kept,) = show.file.parent.glob("show.20*.yaml")
    assert kept.read_text(encoding="utf-8") == SHOW


def test_what_is_wrong_is_said_beside_the_cell_while_one_types_and_marked_afterwards(edited):
    show = edited()
    show.cell(2, "frequency").click()
    show.type("486.200")
    show.page.locator("#hint", has_text="486.200").wait_for()
    show.press("Enter")
    show.page.locator("#grid [aria-invalid]").first.wait_for()
    show.cell(2, "frequency").click()
    assert "486.200" in show.page.locator("#about ul").inner_text()
    show.page.get_by_role("button", name="Undo").click()
    show.settle("saved")
    assert show.cell(2, "frequency").inner_text() == "487.400"


def test_choices_and_names_of_the_show_are_offered(edited):
    show = edited()
    show.cell(2, "by").click()
    show.type("an")
    show.page.get_by_role("option", name="Ann Lee").wait_for()
    show.press("ArrowDown", "Enter")
    show.save()
    assert "role: TOM, by: Ann Lee" in show.text


def test_forty_rows_of_a_spreadsheet_are_pasted_and_undone_in_one_step(edited):
    show = edited()
    block = "\n".join(f"{n:02d}\tROLE {n}\tPerson {n}" for n in range(3, 43))
    show.page.get_by_role("button", name="Add a row").click()
    paste(show.page, block + "\n")
    show.cell(42, "role").wait_for()
    show.save()
    assert show.text.count("\n  ") == 43 and "  42: {role: ROLE 42, by: Person 42}\n" in show.text
    show.press("Control+z")
    show.save()
    assert show.text == SHOW


def test_rows_are_added_moved_renamed_and_deleted(edited):
    show = edited()
    show.page.get_by_role("button", name="Add a row").click()
    show.press("ArrowRight")
    show.type("IDA")
    show.press("Enter")
    show.cell(3, "channel").filter(has_text="03").wait_for()
    show.press("ArrowUp", "Alt+ArrowUp")
    show.cell(2, "role").filter(has_text="IDA").wait_for()
    show.cell(3, "channel").click()
    show.type("12")
    show.press("Enter")
    show.cell(3, "channel").filter(has_text="12").wait_for()
    show.cell(1, "channel").click()
    show.page.get_by_role("button", name="Delete row").click()
    show.cell(1, "role").filter(has_text="IDA").wait_for()
    show.save()
    assert "  03: {role: IDA}\n  12: {role: TOM, by: Bo Lim, mhz: 487.400}\n" in show.text


def test_who_is_live_is_a_grid_to_click(edited):
    show = edited()
    show.page.get_by_role("link", name="Who is live").click()
    tom = show.cell(1, "tom")
    tom.filter(has_text="●").wait_for()
    tom.click()
    tom.filter(has_text="●").wait_for(state="detached")
    show.save()
    assert "live: VERA}" in show.text


def test_a_fix_shows_its_line_before_and_after_and_is_undone(edited):
    show = edited(CLASHING)
    show.page.get_by_role("link", name="Findings").click()
    show.page.locator("#listed").get_by_role("button", name="Use it").first.click()
    lines = show.page.locator("#fix-lines")
    assert "mhz: 486.200" in lines.locator("del").inner_text() and "mhz: " in lines.locator("ins").inner_text()
    assert_accessible(show.page)
    show.page.get_by_role("button", name="Use it", exact=True).last.click()
    show.settle("changed, not saved")
    show.press("Control+z")
    show.settle("saved")
    assert show.text == CLASHING


def test_a_file_that_was_saved_elsewhere_is_merged_and_asked_about(edited):
    show = edited()
    show.cell(1, "frequency").click()
    show.type("488.600")
    show.press("Enter")
    show.cell(1, "by").click()
    show.type("Cy Moss")
    show.press("Enter")
    show.settle("changed, not saved")
    theirs = SHOW.replace("486.200", "489.900").replace("Bo Lim", "Di Orr")
    show.file.write_text(theirs, encoding="utf-8")
    show.press("Control+s")
    body = show.page.locator("#clash-body")
    body.wait_for()
    assert "channel 01 mhz, was 486.200" in body.inner_text() and "by: Di Orr" in body.inner_text()
    assert show.page.evaluate("document.activeElement.id") == "clash-title"
    show.press("Escape")
    expect(body).to_be_hidden()
    assert show.text == theirs, "nothing is written over"
    show.press("Control+s")
    body.wait_for()
    assert_accessible(show.page)
    show.page.get_by_role("button", name="Put both together").click()
    show.page.locator("#said", has_text="put together").wait_for()
    show.save()
    assert show.text == theirs.replace("489.900", "488.600").replace("Ann Lee", "Cy Moss")


def test_a_new_revision_has_a_reason_and_keeps_the_last_one(edited):
    show = edited()
    show.cell(1, "by").click()
    show.type("Cy Moss")
    show.press("Enter")
    show.settle("changed, not saved")
    show.page.get_by_role("button", name="Save").click()
    show.page.get_by_label("Reason").fill("new cast")
    assert_accessible(show.page)
    show.page.locator("#save-dialog").get_by_role("button", name="Save").click()
    show.page.wait_for_load_state()
    show.settle("saved")
    assert "revision: A" in show.text and "reason: new cast" in show.text and "by: Cy Moss" in show.text


def test_a_show_that_was_dropped_is_saved_as_a_download(served, page):
    served.open(page)
    page.set_input_files("#files", {"name": "gala.yaml", "mimeType": "text/plain", "buffer": SHOW.encode()})
    page.wait_for_url("**/shows/**")
    page.get_by_role("link", name="Edit").click()
    page.locator("#grid td").first.click()
    page.keyboard.type("IDA")
    page.keyboard.press("Enter")
    page.locator("#kept", has_text="changed, not saved").wait_for()
    page.get_by_role("button", name="Save").click()
    with page.expect_download() as told:
        page.locator("#save-dialog").get_by_role("button", name="Save").click()
    assert told.value.suggested_filename == "gala.yaml"
    assert Path(told.value.path()).read_text(encoding="utf-8") == SHOW.replace("VERA, by", "IDA, by")
    page.locator("#kept", has_text="saved").wait_for()


@pytest.mark.parametrize("section", ("channels", "show", "scenes", "live", "findings"))
def test_every_state_of_editing_is_accessible_wide_and_narrow_light_and_dark(edited, section):
    show = edited(CLASHING)
    if section != "channels":
        show.page.locator(f"#sections a[data-section={section}]").click()
    show.page.locator(f"#sections a[data-section={section}][aria-current]").wait_for()
    assert_accessible(show.page)
    if section == "channels":
        show.cell(1, "by").click()
        show.type("b")
        show.page.locator("#choices li").first.wait_for()
        assert_accessible(show.page)


def test_a_recast_is_one_step_that_says_what_it_changes(edited):
    show = edited()
    show.page.get_by_role("button", name="Recast").click()
    show.page.get_by_label("Who plays it now").fill("Cy Moss")
    show.page.locator("#recast-lines li").first.wait_for()
    assert "channels 01 by: was Ann Lee, is Cy Moss" in show.page.locator("#recast-lines").inner_text()
    assert_accessible(show.page)
    show.page.locator("#recast-do").click()
    show.save()
    assert show.text == SHOW.replace("Ann Lee", "Cy Moss")


def test_a_channel_is_a_card_with_what_belongs_to_it(edited):
    show = edited(SHOW + "looks:\n  l1: {by: Ann Lee, wears: blue coat}\n")
    show.page.get_by_role("button", name="Card").click()
    wears = show.page.get_by_label("Wears")
    wears.wait_for()
    assert "Live in 1 Quay." in show.page.locator("#listed").inner_text()
    assert_accessible(show.page)
    wears.fill("red coat")
    wears.press("Tab")
    show.page.get_by_role("button", name="Channel after").click()
    show.page.get_by_role("heading", name="Channel 02").wait_for()
    show.save()
    assert "wears: red coat" in show.text
