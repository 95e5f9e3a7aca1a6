"""What papers say by themselves has its room in every language: only a show's own words may give way."""

from dataclasses import replace
from itertools import product

import pytest

from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS
from tests.few import few_of
from tests.metrics import load_metrics
from tests.shows_text import EXAMPLES

METRICS = load_metrics()
SHOW = read_show(EXAMPLES / "show.yaml", "show.yaml").show
LABELS = {"pack-labels"}
"""Their size is of their stock, and what they leave off is a finding that names it."""

EVERY = [*product(("de", "fr", "es", "en"), ("Letter", "A4"))]


@pytest.mark.parametrize("where", few_of(EVERY), ids="-".join)
def test_nothing_of_the_example_is_shortened(where):
    language, paper = where
    show = replace(SHOW, production=replace(SHOW.production, language=language, paper=paper))
    sheets = [sheet for one in SHEETS for sheet in one.make(show) if sheet.name not in LABELS]
    assert len(sheets) > 30
    assert [finding for sheet in sheets for finding in lay_out(sheet, METRICS).findings] == []
