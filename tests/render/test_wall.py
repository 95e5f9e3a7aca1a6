"""On paper for a wall racks stand side by side where they have room, and what is the same for both is said once, under both."""

from dataclasses import replace

import pytest

from paperwork.document.styles import PATCH_NUMBER, RACK_NUMBER
from paperwork.model import Show
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.sheets.rack import channel_chart, patch_sheet
from tests.metrics import load_metrics
from tests.render.proofs import check_layout, texts
from tests.shows_text import EXAMPLES

METRICS = load_metrics()


def example(paper: str, copies: int = 4) -> Show:
    """The example on a size of paper, its racks with so many of their outputs."""
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    kept = [("analogue", 1), ("analogue", 2), ("digital", 1), ("network", 1)][:copies]
    racks = {
        id: replace(rack, outputs=tuple(one for one in rack.outputs if (one.kind, one.copy) in kept))
        for id, rack in show.racks.items()
    }
    return replace(show, production=replace(show.production, paper=paper), racks=racks)


def lay(make, show: Show):
    (sheet,) = make(show)
    layout = lay_out(sheet, METRICS)
    check_layout(layout)
    return layout


def numbers(page, style) -> list[tuple[int, str]]:
    return [(text.x, text.text) for text in texts(page) if text.floor_um == style.floor_um and text.text.isdigit()]


@pytest.mark.parametrize("paper", ("A3", "Tabloid"))
def test_a_chart_for_a_wall_has_two_racks_side_by_side_in_taller_type_than_one_for_a_rack(paper):
    wall, rack = lay(channel_chart.make_sheets, example(paper)), lay(channel_chart.make_sheets, example("A4"))
    tall = [max(text.cap_um for page in one.pages for text in texts(page) if text.text == "01") for one in (wall, rack)]
    assert tall[0] >= tall[1] * 1.18 and len(wall.pages) < len(rack.pages)
    for page in wall.pages:
        assert page.width > page.height
        middle = [text for x, text in numbers(page, RACK_NUMBER) if x > page.width // 2]
        assert 6 <= len(middle) <= 10
    shown = [text for page in wall.pages for _, text in numbers(page, RACK_NUMBER)]
    assert sorted(shown) == [f"{n:02d}" for n in range(1, 33)]


@pytest.mark.parametrize("copies", (1, 2))
def test_a_patch_for_a_wall_has_racks_with_the_same_spares_side_by_side_and_what_to_do_under_both(copies):
    pages = lay(patch_sheet.make_sheets, example("A3", copies)).pages
    assert len(pages) == 2
    first = pages[0]
    beside = {text for x, text in numbers(first, PATCH_NUMBER) if x > first.width // 2}
    assert beside == {*(f"{n:02d}" for n in (*range(7, 13), *range(19, 25)))}
    dead = [text.y for text in texts(first) if text.text == "Dead pack, frequency clean"]
    rows = {text.text: text.y for text in texts(first)}
    assert len(dead) == 2 and rows["R1.6"] < dead[0] < rows["R3.1"] and rows["R4.6"] < dead[1]


def test_a_rack_with_more_outputs_than_half_a_wall_has_room_for_has_the_whole_width():
    for page in lay(patch_sheet.make_sheets, example("A3")).pages:
        assert all(x < page.width // 4 for x, _ in numbers(page, PATCH_NUMBER))


def test_what_to_do_is_under_the_columns_of_each_page_that_a_block_goes_on_to():
    """A foot takes the whole width, so that it is in the first column's place and under both."""
    show = example("A3", 1)
    alike = replace(show, channels={id: replace(one, spare=False) for id, one in show.channels.items()})
    for page in lay(patch_sheet.make_sheets, alike).pages:
        dead = [text for text in texts(page) if text.text == "Dead pack, frequency clean"]
        assert len(dead) == 1 and dead[0].x < page.width // 4
        assert all(text.y < dead[0].y for text in texts(page) if text.floor_um == PATCH_NUMBER.floor_um)
