"""Draw the pictures of the README from the example: `python -m tests.tools.make_pictures`.

Pages come from the papers as they are printed, the two of the local page from Chromium; nothing is retouched.
"""

import io
import shutil
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import pypdfium2
from PIL import Image

from paperwork.pipeline import make_papers
from paperwork.reading import read_show

EXAMPLE = Path(__file__).resolve().parents[2] / "example_show"
PAGES = {
    "channel-chart": ("rack/channel-chart.pdf", 0),
    "patch-sheet": ("rack/patch-sheet.pdf", 1),
    "pack-labels": ("wardrobe/pack-labels.pdf", 0),
    "mic-plot": ("wardrobe/mic-plot.pdf", 0),
    "swap-sheet": ("rack/swaps-sl.pdf", 0),
    "who-is-live": ("rack/who-is-live.pdf", 0),
}
SCALE = 1.1
COLOURS = 16
"""Greys that are kept: enough for smooth letters, and a third of the bytes."""


WINDOW = {"width": 1280, "height": 860}


def draw_page(folder: Path) -> None:
    """Write the page of the example and its table of channels, as Chromium shows them."""
    from playwright.sync_api import sync_playwright

    program = shutil.which("chromium") or shutil.which("chromium-browser")
    with TemporaryDirectory() as shows, sync_playwright() as playwright:
        for name in ("show.yaml", "sweep.csv"):
            shutil.copy(EXAMPLE / name, shows)
        serve = [sys.executable, "-u", "-m", "paperwork", "serve", "--no-open"]
        served = subprocess.Popen(serve, cwd=shows, stdout=subprocess.PIPE, encoding="utf-8")
        try:
            browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-gpu"])
            page = browser.new_page(viewport=WINDOW)
            page.goto(served.stdout.readline().split()[-1])
            page.get_by_role("button", name="show.yaml").click()
            page.get_by_role("button", name="Make the papers").click()
            page.locator(".pages img").first.wait_for(timeout=60_000)
            page.locator("#papers").evaluate("one => one.scrollIntoView()")
            page.wait_for_load_state("networkidle")
            _keep(page.screenshot(), folder / "page-papers.png")
            page.evaluate("scrollTo(0, 0)")
            page.get_by_role("link", name="Edit", exact=True).click()
            page.locator("#grid td").first.wait_for()
            _keep(page.screenshot(), folder / "page-edit.png")
        finally:
            served.terminate()
            served.wait(20)


def _keep(png: bytes, path: Path) -> None:
    Image.open(io.BytesIO(png)).convert("RGB").quantize(4 * COLOURS).save(path, optimize=True)


def main() -> None:
    """Write one PNG a paper into example_show/pictures."""
    reading = read_show(EXAMPLE / "show.yaml", "show.yaml")
    papers = make_papers(reading.show, reading.findings)
    folder = EXAMPLE / "pictures"
    folder.mkdir(exist_ok=True)
    for name, (path, page) in PAGES.items():
        picture = pypdfium2.PdfDocument(papers.files[path])[page].render(scale=SCALE).to_pil().convert("L")
        picture.quantize(COLOURS).save(folder / f"{name}.png", optimize=True)
    draw_page(folder)


if __name__ == "__main__":
    main()
