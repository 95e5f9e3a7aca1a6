"""Every paper of big random shows: measured on its boxes. Nothing outside its box, over another, too small or lost."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from paperwork.document import Labels, Sheet
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.blocks.slices import SNUG_BAR_UM
from paperwork.render.boxes import Fill, Layout
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS, Paper
from paperwork.text.units import format_mhz
from paperwork.text.words import words_of
from tests.big_shows import big_show
from tests.metrics import load_metrics
from tests.pdf_text import read_pages
from tests.render.proofs import all_texts, check_layout, texts
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

pytestmark = pytest.mark.usefixtures("every_shortfall_is_named")

MARKS = "\u200e\u200f"
"""Marks of direction, which a line of a broken text may begin with; they show nothing."""

SEEDS = range(200)
"""Shows that are measured in the sweep; a few of them on every run."""


def words_in(shown: list[str]) -> set[str]:
    return {word.rstrip("…") for text in shown for word in text.split()}


def check_whole(sheet: Sheet, layout: Layout) -> None:
    """Every word of the sheet is on a page, or a finding tells that it was cut."""
    if isinstance(sheet.blocks[0], Labels):
        return
    told = " ".join(finding.text for finding in layout.findings)
    shown = [text.text.strip(MARKS) for text in all_texts(layout)]
    broken = "".join(text.replace(" ", "") for text in shown)
    found = words_in(shown)
    for text in texts_of(replace(sheet, returns="", replaces="")):
        for word in text.split():
            blank = not word.strip("0.:_")
            assert blank or word in found or word in told or word in broken, (sheet.name, word, text)


def check_bars(layout: Layout) -> None:
    """No bar of a group is the last thing on a page."""
    for page in layout.pages:
        bars = [
            box
            for box in page.boxes
            if isinstance(box, Fill) and SNUG_BAR_UM <= box.height < 9_000 and box.width > page.width * 3 // 4
        ]
        below = [text.y for text in texts(page) if not text.white and text.floor_um >= 2_400]
        for bar in bars:
            assert any(y > bar.y + bar.height for y in below), layout.title


def measure(seed: int, papers: Sequence[Paper]) -> int:
    show = big_show(seed)
    pages = 0
    for paper in papers:
        for sheet in paper.make(show):
            layout = lay_out(sheet, load_metrics())
            assert layout.pages, sheet.name
            check_layout(layout)
            check_whole(sheet, layout)
            check_bars(layout)
            for number, page in enumerate(layout.pages, 1):
                if not isinstance(sheet.blocks[0], Labels):
                    shown = words_of(sheet.language)["page"].format(n=number, m=len(layout.pages))
                    assert shown in {text.text for text in texts(page)}
            pages += len(layout.pages)
    return pages


def test_a_big_random_show_is_measured_whole():
    assert measure(9, SHEETS) >= 10


def test_stacked_marks_in_a_name_stand_in_the_bar_that_carries_it():
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    scenes = tuple(replace(scene, name="Ẩn dưới cầu", act="Ẩn dưới cầu") for scene in show.scenes)
    barred = set()
    for paper in SHEETS:
        for sheet in paper.make(replace(show, scenes=scenes)) if paper.name in ("mic-plot", "running-sheet") else ():
            layout = lay_out(sheet, load_metrics())
            check_layout(layout)
            if any(text.white and "Ẩn" in text.text for page in layout.pages for text in texts(page)):
                barred.add(sheet.name)
    assert barred >= {"mic-plot", "mic-plot-channels", "running-sheet"}


@pytest.mark.sweep
@pytest.mark.parametrize("seed", SEEDS)
def test_every_paper_of_a_random_show_is_measured_whole(seed):
    """Every other paper of each show, so that each is measured on a hundred."""
    assert measure(seed, SHEETS[seed % 2 :: 2]) >= 1


@pytest.mark.sweep
@pytest.mark.parametrize("seed", (3, 21, 47, 88, 120, 161))
def test_a_random_show_is_read_back_whole_from_its_pdfs(seed):
    """By a reader that is not ours: every number and frequency on the chart, every label, every page that was laid out."""
    show = big_show(seed)
    papers = make_papers(show, (), pictured=False)
    pages = {printed.path: read_pages(papers.files[printed.path]) for printed in papers.printed}
    assert all(len(pages[printed.path]) == len(printed.pages) for printed in papers.printed)
    chart = " ".join(pages["rack/channel-chart.pdf"]).split()
    labels = " ".join(pages["wardrobe/pack-labels.pdf"])
    for channel in show.channels.values():
        assert channel.id in chart
        if channel.hz is not None:
            assert format_mhz(channel.hz) in chart and format_mhz(channel.hz) in labels
