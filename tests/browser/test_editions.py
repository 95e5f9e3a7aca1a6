"""A performance, some days and a second venue chosen on the page, and tonight's labels on cells that are not peeled."""

import numpy as np
import pypdfium2
import pytest
from playwright.sync_api import expect

from tests.browser.access import assert_accessible, tab_to, wait_until
from tests.browser.conftest import open_alone
from tests.serve.test_editions import RUN

pytestmark = pytest.mark.browser


@pytest.fixture
def staged(tmp_path, page):
    (tmp_path / "show.yaml").write_bytes(RUN)
    with open_alone(page, tmp_path) as opened:
        yield opened


def test_a_performance_is_chosen_by_keyboard_and_some_days_only_where_they_are_asked_for(staged, tmp_path):
    tab_to(staged, "#on")
    staged.keyboard.type("blue e")
    expect(staged.locator("#first")).to_be_hidden()
    tab_to(staged, "form.edition button")
    staged.keyboard.press("Enter")
    staged.locator(".under", has_text="blue evening").wait_for()
    expect(staged.get_by_label("Bo")).to_be_visible()
    staged.get_by_label("Performance").select_option("..")
    expect(staged.locator("#first")).to_be_visible()
    assert_accessible(staged)
    staged.get_by_label("to", exact=True).select_option("2027-03-07")
    staged.get_by_role("button", name="Papers for this").click()
    staged.locator(".under", has_text="2027-03-06 to 2027-03-07").wait_for()
    staged.locator(".next").get_by_role("button", name="Make them now").click()
    staged.get_by_role("link", name="Performances").first.wait_for()
    assert staged.get_by_role("link", name="Channel chart").count() == 0
    assert_accessible(staged)


def test_a_paper_is_previewed_while_the_show_is_typed(staged):
    staged.get_by_role("link", name="Edit").click()
    staged.locator("#grid td").first.click()
    staged.keyboard.type("IDA")
    staged.keyboard.press("Enter")
    expect(staged.locator("#kept")).to_have_text("changed, not saved")
    staged.get_by_role("link", name="Preview").click()
    staged.get_by_text("unsaved changes").wait_for()
    wait_until(staged, "document.querySelector('.whole')?.complete && document.querySelector('.whole').naturalWidth")
    assert_accessible(staged)
    staged.get_by_role("link", name="Pack labels").click()
    staged.get_by_role("heading", name="Pack labels").wait_for()


def test_a_second_venue_has_a_folder_of_its_own(staged, tmp_path):
    for venue in ("", "Pier"):
        staged.get_by_label("Venue").select_option(venue)
        staged.get_by_role("button", name="Papers for this").click()
        staged.get_by_role("button", name="Make the papers").click()
        staged.get_by_role("button", name="Put them beside the show").click()
        staged.get_by_text("They are in").wait_for()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["show-Pier-papers", "show-papers", "show.yaml"]


def test_tonights_labels_are_laid_where_the_sheet_is_not_peeled_and_blank_forms_are_made(staged):
    staged.get_by_text("Blank forms, and the sizes").click()
    staged.get_by_label("Blank forms too").check()
    staged.get_by_label("Receiver strips").select_option("12")
    assert_accessible(staged)
    staged.locator(".next").get_by_role("button", name="Make them now").click()
    staged.get_by_role("heading", name="Blank forms").wait_for()
    expect(staged.locator("#strip")).to_have_value("12")
    for cell in (0, 1):
        with staged.expect_response(lambda answer: answer.url.endswith("/labels")):
            staged.locator(".peel label").nth(cell).click()
    staged.get_by_label("Ann", exact=True).check()
    staged.get_by_role("button", name="Plan tonight").click()
    link = staged.locator("#tonight ~ .papers").get_by_role("link", name="Labels")
    pdf = staged.request.get(link.first.evaluate("link => link.href")).body()
    assert _find_ink(pdf) > 2 / 3, "two of three cells of the first row are peeled"


def _find_ink(pdf: bytes) -> float:
    """The first ink of the first row of labels from the left, in parts of the page; above it is a ruler."""
    dark = np.asarray(pypdfium2.PdfDocument(pdf)[0].render(scale=2, grayscale=True).to_pil()) < 128
    row = dark[dark.shape[0] // 16 : dark.shape[0] // 6]
    return np.flatnonzero(row.any(0))[0] / dark.shape[1]
