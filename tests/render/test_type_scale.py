"""The whole book of the example has few heights of text and few weights of rules, as a reader that is not ours finds them.

Labels are left out: their sizes come from their stock.
"""

from collections import Counter

import pytest

from paperwork.document import styles
from paperwork.render.boxes import HAIR_UM, HEAVY_UM, LINE_UM
from tests.tools.typography import Measured, measure_pdf, print_papers

NEAR = 0.005
"""The PDF tells the em in hundredths of a point; two steps are further apart than ten times this."""

ON_A_STEP = 0.93
"""The least share of all texts that is on a step: the others are at a floor between two."""

MOST_HEIGHTS = 24


@pytest.fixture(scope="module", params=["A4", "A3"])
def book(request) -> dict[str, Measured]:
    papers = print_papers(request.param)
    return {name: measure_pdf(pdf) for name, pdf in papers.items() if not name.endswith("labels")}


def nearest(hundredths: int, heights: frozenset[int] | tuple[int, ...]) -> int | None:
    near = [um for um in heights if abs(hundredths * 10 - um) <= um * NEAR + 5]
    return min(near, key=lambda um: abs(hundredths * 10 - um), default=None)


def floors() -> frozenset[int]:
    return frozenset(one.floor_um for one in vars(styles).values() if isinstance(one, styles.Style))


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


def test_rules_have_three_weights(book):
    weights = {
        min((HAIR_UM, LINE_UM, HEAVY_UM), key=lambda um: abs(um - stroke)) - stroke
        for found in book.values()
        for stroke in found.strokes
    }
    assert set().union(*(found.strokes for found in book.values())) and max(map(abs, weights)) <= 3


def test_every_height_that_is_wanted_is_a_step():
    off = {
        one.purpose
        for one in vars(styles).values()
        if isinstance(one, styles.Style)
        and not one.purpose.startswith("label")
        and one.wanted_um not in styles.SCALE_UM
    }
    assert not off and list(styles.SCALE_UM) == sorted(set(styles.SCALE_UM))
