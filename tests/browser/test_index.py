"""The index of a folder in Chromium: pictures that are the pages, a search for people and codes, a page that prints."""

import io
import re
import subprocess
import sys

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from tests.browser.access import NARROW, assert_accessible, tab_to

pytestmark = pytest.mark.browser


def picture_of(page, path, width: int, height: int) -> Image.Image:
    page.set_viewport_size({"width": width, "height": height})
    page.goto(path.as_uri())
    return Image.open(io.BytesIO(page.screenshot())).convert("L")


@pytest.fixture
def index(page, printed):
    page.goto((printed / "papers" / "index.html").as_uri())
    return page


@pytest.mark.parametrize("name", ("rack/channel-chart", "wardrobe/mic-plot", "wardrobe/pack-labels"))
def test_a_picture_is_the_page_that_the_pdf_prints(page, printed, name):
    pdf = pypdfium2.PdfDocument(printed / "papers" / f"{name}.pdf")
    svg = printed / "papers" / "pictures" / f"{name}-1.svg"
    scale = 96 / 72
    printed_page = pdf[0].render(scale=scale).to_pil().convert("L")
    shown = picture_of(page, svg, *printed_page.size)
    one, other = (
        np.asarray(image.resize((image.width // 4, image.height // 4), Image.BOX), float)
        for image in (printed_page, shown)
    )
    assert np.abs(one - other).mean() < 5 and np.quantile(np.abs(one - other), 0.99) < 60


def test_codes_in_a_picture_are_read_by_an_independent_reader(page, printed):
    svg = printed / "papers" / "pictures" / "wardrobe" / "pack-labels-1.svg"
    shown = picture_of(page, svg, 794, 1123).resize((2382, 3369))
    found = {code.text for code in zxingcpp.read_barcodes(shown)}
    assert len(found) >= 10 and all(re.fullmatch(r"\d\d:[^:]+:C:\w{4}", text) for text in found)


def test_an_index_with_findings_is_accessible_wide_and_narrow_light_and_dark(page, printed_gala):
    page.goto((printed_gala / "index.html").as_uri())
    assert (
        page.locator(".stamp").count()
        and page.locator(".tag.error").count()
        and page.locator("bdi", has_text="עומר כץ").count()
    )
    assert_accessible(page)
    first = page.locator(".pages img").first
    first.scroll_into_view_if_needed()
    assert first.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100


def test_the_index_finds_people_and_the_codes_of_labels(index):
    index.set_viewport_size({"width": NARROW[0], "height": NARROW[1]})
    cards, verdict = index.locator(".card:visible"), index.locator("#verdict")
    index.fill("#find", "haddad")
    assert cards.count() >= 3 and all("Haddad" in card for card in cards.all_inner_texts())
    assert index.locator(".bar:visible span").first.inner_text() == "2 of 32"
    assert index.evaluate("document.documentElement.scrollWidth") <= NARROW[0]
    index.fill("#find", "zolcik")
    assert "Łukasz Żółcik" in cards.first.inner_text()
    index.fill("#find", "11")
    assert any("SPARE" in card for card in cards.all_inner_texts()), "a channel's number finds its spare too"
    code = index.locator("[data-numbers='05']").get_attribute("data-codes")
    index.fill("#find", code.lower())
    assert verdict.inner_text() == "Label 05 is up to date." and cards.count() == 1
    index.fill("#find", "05:SMUGGLER:B:AAAA")
    assert verdict.inner_text().startswith("Label 05 is out of date") and cards.count() == 1
    index.fill("#find", "99:NOBODY:B:AAAA")
    assert verdict.inner_text().startswith("No pack of this show") and cards.count() == 0
    index.fill("#find", "qqqq")
    assert verdict.inner_text().startswith("Nothing found.") and cards.count() == 0
    index.keyboard.press("Escape")
    assert cards.count() > 30 and index.locator(".bar:visible span").first.inner_text() != "2 of 32"


def test_an_exact_channel_comes_first_and_papers_last(index):
    index.set_viewport_size({"width": NARROW[0], "height": NARROW[1]})
    index.fill("#find", "01")
    cards = index.locator("[data-card]:visible")
    assert cards.first.locator(".key").inner_text() == "01"
    assert cards.first.bounding_box()["y"] < NARROW[1], "in the first screen of a telephone"
    kinds = [card.get_attribute("class").split()[-1] for card in cards.element_handles()]
    assert "card" not in kinds[kinds.index("paper") :] if "paper" in kinds else kinds
    index.keyboard.press("Escape")
    assert index.locator("[data-card]:visible").first.evaluate("card => card.classList.contains('paper')")


def test_a_frequency_is_found_with_a_comma_too(index):
    mhz = index.locator(".card .mhz").first.inner_text()
    for typed in (mhz, mhz.replace(".", ",")):
        index.fill("#find", typed)
        assert index.locator(".card:visible").first.locator(".mhz").inner_text() == mhz


def test_a_curly_apostrophe_finds_a_straight_one(page, tmp_path):
    (tmp_path / "show.yaml").write_text("show: {title: G}\nchannels:\n  1: {by: Ann O'Shea}\n  2: {by: Bo Lim}\n")
    build = [sys.executable, "-m", "paperwork", "build", "show.yaml", "-o", "papers"]
    subprocess.run(build, cwd=tmp_path, check=False, capture_output=True)
    page.goto((tmp_path / "papers" / "index.html").as_uri())
    for typed in ("o'shea", "O\u2019Shea"):
        page.fill("#find", typed)
        assert "Shea" in page.locator(".card:visible").first.inner_text()
        assert page.locator(".card:visible", has_text="Bo Lim").count() == 0


def test_the_index_is_driven_by_the_keyboard_alone(index):
    index.keyboard.press("Tab")
    assert index.evaluate("document.activeElement.textContent") == "To the papers"
    tab_to(index, "#find", most=12)
    index.keyboard.type("31")
    assert index.locator(".card:visible").first.inner_text().startswith("31")


def test_the_index_prints_black_on_white_with_every_name_and_without_what_is_for_the_screen(index):
    blank = "<svg xmlns='http://www.w3.org/2000/svg'/>"
    index.route(
        "**/pictures/**", lambda asked: asked.fulfill(body=blank, content_type="image/svg+xml")
    )  # they are not printed
    index.emulate_media(color_scheme="dark")
    pdf = pypdfium2.PdfDocument(index.pdf(format="A4", print_background=True))
    text = "".join(page.get_textpage().get_text_range() for page in pdf)
    assert "Noor Haddad" in text and "470.200" in text and "Find" not in text
    corner = pdf[0].render(scale=1).to_pil().convert("L").getpixel((5, 5))
    assert corner == 255 and len(pdf) <= 6
