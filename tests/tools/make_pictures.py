"""Draw the pictures of the README from the example: `python -m tests.tools.make_pictures`.

Pages come from the papers as they are printed; nothing is retouched.
"""

from pathlib import Path

import pypdfium2

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


def main() -> None:
    """Write one PNG a paper into example_show/pictures."""
    reading = read_show(EXAMPLE / "show.yaml", "show.yaml")
    papers = make_papers(reading.show, reading.findings)
    folder = EXAMPLE / "pictures"
    folder.mkdir(exist_ok=True)
    for name, (path, page) in PAGES.items():
        picture = pypdfium2.PdfDocument(papers.files[path])[page].render(scale=SCALE).to_pil().convert("L")
        picture.quantize(COLOURS).save(folder / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main()
