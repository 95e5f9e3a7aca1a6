"""The index and the local page in Chromium: looked at, searched, driven by keyboard, dropped on, printed from."""

import io
import re

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from axe_playwright_python.sync_playwright import Axe
from PIL import Image

MESSY = "THE FERRY;;;\nMic;Role;Actor;Freq\n1;VERA;Mara Lind;520,2\n2;TOM;Ben Arlo;1.518,200\n3;<b>NURSE</b>;Ida Voss;524.100\n"

pytestmark = pytest.mark.browser


def assert_accessible(page) -> None:
    """No violation of any rule of axe-core, best practice included."""
    violations = Axe().run(page).response["violations"]
    assert not [(rule["id"], [node["html"] for node in rule["nodes"]][:2]) for rule in violations]


def picture_of(page, path, width: int, height: int) -> Image.Image:
    page.set_viewport_size({"width": width, "height": height})
    page.goto(path.as_uri())
    return Image.open(io.BytesIO(page.screenshot())).convert("L")


@pytest.mark.parametrize("name", ("rack/channel-chart", "wardrobe/mic-plot", "wardrobe/pack-labels"))
def test_a_picture_is_the_page_that_the_pdf_prints(page, printed, name):
    pdf = pypdfium2.PdfDocument(printed / "papers" / f"{name}.pdf")
    svg = printed / "papers" / "pictures" / f"{name}-1.svg"
    scale = 96 / 72
    printed_page = pdf[0].render(scale=scale).to_pil().convert("L")
    shown = picture_of(page, svg, *printed_page.size)
    one, other = (np.asarray(image.resize((image.width // 4, image.height // 4), Image.BOX), float) for image in (printed_page, shown))
    assert np.abs(one - other).mean() < 5 and np.quantile(np.abs(one - other), 0.99) < 60


def test_codes_in_a_picture_are_read_by_an_independent_reader(page, printed):
    svg = printed / "papers" / "pictures" / "wardrobe" / "pack-labels-1.svg"
    shown = picture_of(page, svg, 794, 1123).resize((2382, 3369))
    found = {code.text for code in zxingcpp.read_barcodes(shown)}
    assert len(found) >= 10 and all(re.fullmatch(r"\d\d:[^:]+:C:\w{4}", text) for text in found)


@pytest.mark.parametrize("scheme", ("light", "dark"))
def test_the_index_from_the_disk_is_accessible_in_light_and_dark(page, printed, scheme):
    page.emulate_media(color_scheme=scheme)
    page.goto((printed / "papers" / "index.html").as_uri())
    assert_accessible(page)
    first = page.locator(".pages img").first
    first.scroll_into_view_if_needed()
    assert first.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100


def test_the_index_fits_a_telephone_and_finds_people_and_the_codes_of_labels(page, printed):
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto((printed / "papers" / "index.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert_accessible(page)
    cards = page.locator(".card:visible")
    page.fill("#find", "haddad")
    assert cards.count() >= 3 and all("Haddad" in card for card in cards.all_inner_texts())
    page.fill("#find", "zolcik")
    assert "Łukasz Żółcik" in cards.first.inner_text()
    code = page.locator("[data-numbers='05']").get_attribute("data-codes")
    page.fill("#find", code.lower())
    assert page.inner_text("#verdict") == "Label 05 is up to date." and cards.count() == 1
    page.fill("#find", "05:SMUGGLER:B:AAAA")
    assert page.inner_text("#verdict").startswith("Label 05 is out of date") and cards.count() == 1
    page.fill("#find", "99:NOBODY:B:AAAA")
    assert page.inner_text("#verdict").startswith("No pack of this show") and cards.count() == 0
    page.keyboard.press("Escape")
    assert cards.count() > 30


def test_the_index_is_driven_by_the_keyboard_alone(page, printed):
    page.goto((printed / "papers" / "index.html").as_uri())
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the papers"
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "find":
            break
    page.keyboard.type("31")
    assert page.locator(".card:visible").first.inner_text().startswith("31")


def test_the_example_is_dropped_printed_and_saved_byte_for_byte(served, page, printed):
    page.emulate_media(color_scheme="dark")
    page.goto(served.address)
    assert_accessible(page)
    page.emulate_media(color_scheme="light")
    page.set_input_files("#files", [printed / "show.yaml", printed / "sweep.csv"])
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("button", name="Make them again").wait_for(timeout=90_000)
    for name in ("rack/channel-chart.pdf", "wardrobe/pack-labels.pdf", "production/show-book.pdf", "pictures/rack/patch-sheet-1.svg"):
        answer = page.evaluate("async path => [...new Uint8Array(await (await fetch(path)).arrayBuffer())]", f"papers/{name}")
        assert bytes(answer) == (printed / "papers" / name).read_bytes(), name
    page.locator(".peel label").nth(4).click()
    page.get_by_role("button", name="Lay the labels out").click()
    page.wait_for_url("**#labels")
    assert page.locator(".peel input").nth(4).is_checked()
    page.get_by_label("Noor Haddad").check()
    page.get_by_role("button", name="Plan tonight").click()
    page.get_by_text("Aoife Ní Bhriain for Noor Haddad").wait_for(timeout=60_000)
    for scheme, width in (("light", 1280), ("dark", 1280), ("dark", 360)):
        page.emulate_media(color_scheme=scheme)
        page.set_viewport_size({"width": width, "height": 740})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert_accessible(page)
    assert list(served.folder.iterdir()) == []


def test_a_messy_sheet_is_settled_by_keyboard_alone(served, page):
    sheet = served.folder / "list.csv"
    sheet.write_text(MESSY, encoding="utf-8")
    page.goto(served.address)
    page.get_by_role("button", name="list.csv").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/shows/**")
    assert_accessible(page)
    assert page.locator("td.means", has_text="1.518,200").count() == 1
    page.locator("input[type=radio]").first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.get_by_text("No question is open").wait_for()
    assert "518.200" in (served.folder / "list.csv.answers.yaml").read_text(encoding="utf-8")
    assert page.locator("b", has_text=re.compile("^NURSE$")).count() == 0


def test_closing_the_last_page_ends_the_server(browser, served):
    context = browser.new_context()
    page = context.new_page()
    page.goto(served.address)
    page.goto(served.address)
    assert served.process.poll() is None
    context.close()
    assert served.process.wait(20) == 0


def test_another_origin_gets_nothing_from_a_running_page(served, page, printed):
    page.goto((printed / "papers" / "index.html").as_uri())
    other = page.context.browser.new_context(bypass_csp=True).new_page()
    other.goto((printed / "papers" / "index.html").as_uri())
    told = other.evaluate("""async address => {
        const read = await fetch(address).then(answer => answer.text(), () => "refused");
        const sent = await fetch(address + "stop", {method: "POST", mode: "no-cors"}).then(() => "sent", () => "refused");
        return [read, sent];
    }""", served.address)
    other.context.close()
    assert told[0] == "refused" and served.process.poll() is None
