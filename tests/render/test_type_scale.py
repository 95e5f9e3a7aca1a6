"""The whole book of the example has few heights of text, few weights of rules and few holes, as a reader that is not ours
finds them.

Labels are looked at by themselves: what is beside their number is on the scale on every stock.
"""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest

from paperwork.document import styles
from paperwork.render.boxes import HAIR_UM, HEAVY_UM, LINE_UM
from paperwork.render.composing import MOST_STEPS
from paperwork.render.labels.stocks import load_stocks
from paperwork.render.layout import lay_out
from tests.few import few_of
from tests.metrics import load_metrics
from tests.render.proofs import all_texts
from tests.sheets.reading import make
from tests.tools.typography import Measured, measure_pdf, print_papers

NEAR = 0.005
"""The PDF tells the em in hundredths of a point; two steps are further apart than ten times this."""

ON_A_STEP = 0.93
"""The least share of all texts that is on a step: the others are at a floor between two."""

MOST_HEIGHTS = 22

MOST_BLANK = {"A4": 0.085, "A3": 0.125}
MOST_PAGES = {"A4": 74, "A3": 61}


@pytest.fixture(scope="module", params=few_of(["A4", "A3"]))
def book(request) -> dict[str, Measured]:
    papers = print_papers(request.param)
    return {name: measure_pdf(pdf) for name, pdf in papers.items() if not name.endswith("labels")}


def nearest(hundredths: int, heights: frozenset[int] | tuple[int, ...]) -> int | None:
    near = [um for um in heights if abs(hundredths * 10 - um) <= um * NEAR + 5]
    return min(near, key=lambda um: abs(hundredths * 10 - um), default=None)


def floors() -> frozenset[int]:
    """Every height below which a text must not fall, and what it becomes where its block has grown."""
    own = {one.floor_um for one in vars(styles).values() if isinstance(one, styles.Style)}
    return frozenset(round(um * 2 ** (step / 4)) for um in own for step in range(MOST_STEPS + 2))


def test_every_text_is_on_a_step_of_the_scale_or_at_the_floor_of_a_purpose(book):
    heights = frozenset(styles.SCALE_UM) | floors()
    assert len(book) > 20
    for name, found in book.items():
        astray = {cap for cap in found.caps if nearest(cap, heights) is None}
        assert found.caps and not astray, name


def test_almost_every_text_is_on_a_step_and_there_are_few_heights_in_all(book):
    caps = sum((found.caps for found in book.values()), Counter())
    stepped = sum(texts for cap, texts in caps.items() if nearest(cap, styles.SCALE_UM))
    assert stepped >= ON_A_STEP * caps.total()
    assert len({nearest(cap, frozenset(styles.SCALE_UM) | floors()) for cap in caps}) <= MOST_HEIGHTS


@pytest.mark.parametrize("stock", load_stocks())
def test_whatever_is_on_a_label_beside_its_number_is_on_a_step_or_at_its_floor(stock):
    (sheet,) = make("pack-labels")
    (block,) = sheet.blocks
    numbers = {label.number for label in block.labels}
    layout = lay_out(replace(sheet, blocks=(replace(block, stock=stock),)), load_metrics())
    caps = {text.cap_um for text in all_texts(layout) if text.text not in numbers}
    assert layout.pages and caps <= {*styles.SCALE_UM, styles.LABEL_ROLE.floor_um}


def test_rules_have_three_weights(book):
    weights = {
        min((HAIR_UM, LINE_UM, HEAVY_UM), key=lambda um: abs(um - stroke)) - stroke
        for found in book.values()
        for stroke in found.strokes
    }
    assert set().union(*(found.strokes for found in book.values())) and max(map(abs, weights)) <= 3


def test_a_step_of_the_scale_is_the_fourth_root_of_two():
    steps = [later / earlier for earlier, later in pairwise(styles.SCALE_UM[:-1])]
    assert all(abs(step - 2 ** (1 / 4)) < 0.001 for step in steps)


def test_pages_are_filled_and_no_paper_ends_on_one_that_is_mostly_blank(book, request):
    size = request.node.callspec.params["book"]
    pages = [share for found in book.values() for share in found.blank]
    assert sum(pages) / len(pages) < MOST_BLANK[size] and len(pages) <= MOST_PAGES[size]
    assert not {name for name, found in book.items() if len(found.blank) > 1 and max(found.blank) > 0.5}


def test_every_height_that_is_wanted_is_a_step():
    off = {
        one.purpose
        for one in vars(styles).values()
        if isinstance(one, styles.Style)
        and not one.purpose.startswith("label")
        and one.wanted_um not in styles.SCALE_UM
    }
    assert not off and list(styles.SCALE_UM) == sorted(set(styles.SCALE_UM))
