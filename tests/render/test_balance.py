"""Pages are filled alike: no row lost on the way, base lines on one grid, blocks as tall as their pages let them be."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.document import Column, RowGroup, Table, cell, fact, row, words
from paperwork.document.styles import HAND_NUMBER, HAND_STRONG, RACK_NUMBER, RACK_ROLE, RACK_SMALL, SCALE_UM
from paperwork.render.boxes import HAIR_UM, HEAVY_UM, LINE_UM, Rule
from paperwork.render.layout import lay_out
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout, texts

METRICS = load_metrics()


def numbers_on(page) -> list[str]:
    return [text.text for text in texts(page) if text.floor_um == RACK_NUMBER.floor_um]


@pytest.mark.parametrize("channels", (17, 20, 26, 40))
def test_no_page_is_nearly_empty_where_another_could_give_it_rows(channels):
    """Racks of six stay whole, so that two pages differ by one rack at the most."""
    counts = [len(numbers_on(page)) for page in lay_out(samples.chart(channels), METRICS).pages]
    assert sum(counts) == channels and (len(counts) == 1 or max(counts) - min(counts) <= 8)


@pytest.mark.parametrize("channels", (4, 11, 23))
def test_second_lines_stand_as_far_under_the_first_in_every_row_with_accents_or_without(channels):
    """VERA over Mara Lind as ÁNH over Ελένη Παππά, and a row with a stamp as one without."""
    layout = lay_out(samples.chart(channels), METRICS)
    steps = set()
    for page in layout.pages:
        roles = [one for one in texts(page) if one.floor_um == RACK_ROLE.floor_um]
        for one in roles:
            under = [
                other.y
                for other in texts(page)
                if other.floor_um == RACK_SMALL.floor_um and other.x == one.x and other.y > one.y
            ]
            if sum(other.x == one.x and abs(other.y - one.y) < 9_000 for other in roles) == 1:
                steps.add(min(under) - one.y)
    assert steps and max(steps) - min(steps) <= 1, "a micrometre is lost in growing"


def listed(count: int, least_um: int = 0, **changes):
    rows = tuple(
        row(cell(fact(f"{n:03d}", HAND_NUMBER)), cell(fact(f"ROLE {n}", HAND_STRONG), words("note", RACK_SMALL)))
        for n in range(count)
    )
    table = Table((Column("Ch", 22_000), Column("Role")), (RowGroup(rows, "All"),), least_um=least_um)
    return samples.chart(2, blocks=(table,), **changes)


@settings(max_examples=few_examples(40), deadline=None)
@given(
    st.integers(1, 120),
    st.sampled_from((0, 60_000, 85_000)),
    st.sampled_from(("A4", "Letter", "A3", "Tabloid")),
    st.sampled_from(("portrait", "landscape")),
)
def test_rows_side_by_side_are_all_there_in_order_and_hold_their_rooms(count, least_um, paper, orientation):
    layout = lay_out(listed(count, least_um, paper=paper, orientation=orientation), METRICS)
    check_layout(layout)
    found = [text.text for text in all_texts(layout) if text.floor_um == HAND_NUMBER.floor_um]
    assert [one for one in found if one.isdigit()] == [f"{n:03d}" for n in range(count)]
    for page in layout.pages:
        assert all(text.ink.bottom <= page.height - 10_000 for text in texts(page))


def test_a_short_list_is_set_in_taller_type_of_the_same_scale_and_the_same_rules():
    short, long = (lay_out(listed(count), METRICS) for count in (3, 60))
    caps = [{text.cap_um for text in all_texts(one) if text.text in ("000", "001")} for one in (short, long)]
    assert min(caps[0]) > max(caps[1])
    for text in all_texts(short):
        assert min(abs(text.cap_um - step) for step in SCALE_UM) <= 12 or text.cap_um == text.floor_um
    strokes = {box.stroke for page in short.pages for box in page.boxes if isinstance(box, Rule)}
    assert strokes <= {HAIR_UM, LINE_UM, HEAVY_UM}


def test_paper_for_a_wall_has_taller_type_than_paper_for_a_rack():
    caps = [
        min(text.cap_um for text in all_texts(lay_out(replace(samples.chart(18), paper=paper), METRICS)))
        for paper in ("A4", "A3")
    ]
    assert caps[1] >= caps[0] * 1.18


def test_a_doubt_moves_no_row_to_another_page():
    pages = [
        [numbers_on(page) for page in lay_out(samples.chart(40, doubts=doubts), METRICS).pages]
        for doubts in ((), (samples.doubt("03"),), (samples.doubt("40"),))
    ]
    assert pages[0] == pages[1] == pages[2]
