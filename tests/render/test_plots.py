"""Plots: bars where the scenes are, heads on every page, rows whole, divided by act and told."""

from dataclasses import replace

import pytest

from paperwork.document import Act, Bar, Keep, Lane, Plot, PlotRow, PlotScene, fact
from paperwork.document.styles import PLOT_BAR, PLOT_TITLE
from paperwork.render import composing
from paperwork.render.blocks.plot_parts import COLUMN_FLOOR_UM, divide, pieces_of_bar
from paperwork.render.blocks.plot_rows import BAR_UM
from paperwork.render.boxes import Fill, Frame, Rule
from paperwork.render.layout import lay_out
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout, texts

METRICS = load_metrics()
INNER_UM = 272_000


@pytest.fixture(autouse=True)
def ungrown(monkeypatch):
    """Blocks at the heights that are wanted of them, however much room a page has left."""
    monkeypatch.setattr(composing, "MOST_STEPS", 0)


def acts(*counts: int, name: str = "Quay") -> tuple[Act, ...]:
    return tuple(
        Act(f"Act {n}", tuple(PlotScene(f"{n}.{s}", name, f"0:{s:02d}") for s in range(1, count + 1)))
        for n, count in enumerate(counts, 1)
    )


def body(name: str, *bars: Bar, keeps: tuple[Keep, ...] = ()) -> PlotRow:
    return PlotRow(fact(name, PLOT_TITLE), lanes=(Lane(bars, keeps),))


def plot(*rows: PlotRow, shape=(7, 7), **changes) -> Plot:
    return replace(Plot(acts(*shape), rows, (("put on", "on from here"), ("held", "handheld"))), **changes)


def sheet(block: Plot):
    return samples.chart(name="mic-plot", title="Mic plot", orientation="landscape", blocks=(block,))


def test_a_bar_covers_its_scenes_and_ends_where_an_act_ends():
    part = divide(plot(), INNER_UM, METRICS)[0]
    one, two = pieces_of_bar(Bar(5, 8, "05", put_on=True, taken_off=True), part)
    assert part.lefts[5] < one.x and one.x + one.width < part.lefts[6] + part.pitch
    assert part.lefts[7] < two.x and two.x + two.width < part.lefts[8] + part.pitch
    assert (one.put_on, one.taken_off, two.put_on, two.taken_off) == (True, False, False, True)


def test_a_number_is_repeated_where_its_bar_goes_on_in_the_next_act():
    layout = lay_out(sheet(plot(body("Mara", Bar(0, 13, "05", put_on=True)))), METRICS)
    numbers = [text for text in all_texts(layout) if text.text == "05"]
    assert [text.white for text in numbers] == [True, False]


def test_the_line_of_a_kept_pack_touches_the_bars_on_both_sides():
    row = body("Mara", Bar(0, 1, "05", put_on=True), Bar(9, 9, "05"), keeps=(Keep(2, 8),))
    page = lay_out(sheet(plot(row)), METRICS).pages[0]
    bars = sorted((box for box in page.boxes if isinstance(box, Frame) and box.height == BAR_UM), key=lambda box: box.x)
    line = next(box for box in page.boxes if isinstance(box, Rule) and box.stroke == 800 and box.y1 > bars[0].y)
    assert line.x1 == bars[0].x + bars[0].width and line.x2 == bars[1].x


def test_rows_and_heads_stand_whole_on_every_page():
    rows = [body(f"Person {n}", Bar(0, 3, f"{n:02d}", put_on=True)) for n in range(60)]
    layout = lay_out(sheet(plot(*rows)), METRICS)
    check_layout(layout)
    assert len(layout.pages) > 2
    shown = [text.text for text in all_texts(layout) if text.text.startswith("Person")]
    assert shown == [f"Person {n}" for n in range(60)]
    for page in layout.pages:
        found = {text.text for text in texts(page)}
        assert {"Act 1", "Act 2", "1.1", "2.7", "on from here"} <= found


@pytest.mark.parametrize(
    ("shape", "parts"),
    [
        ((7, 7), ["1 14"]),
        ((20, 20), ["1 20", "21 40"]),
        ((50,), ["1 25", "26 50"]),
        ((4, 4, 20, 20), ["1 8", "9 28", "29 48"]),
    ],
)
def test_a_plot_that_is_too_wide_is_divided_by_act_and_says_so(shape, parts):
    layout = lay_out(sheet(plot(body("Mara", Bar(0, sum(shape) - 1, "05")), shape=shape)), METRICS)
    check_layout(layout)
    assert len(layout.pages) == len(parts)
    for page, part in zip(layout.pages, parts, strict=True):
        first, last = part.split()
        said = f"scenes {first} to {last} of {sum(shape)}"
        assert (said in {text.text for text in texts(page)}) == (len(parts) > 1)
        assert "Mara" in {text.text for text in texts(page)}


def test_every_scene_is_shown_once_however_the_plot_is_divided():
    for shape in ((1,), (30, 30), (60,), (26, 2, 40), (8,) * 8):
        parts = divide(plot(shape=shape), INNER_UM, METRICS)
        assert [scene for part in parts for scene in part.scenes] == [s for act in acts(*shape) for s in act.scenes]
        assert all(part.pitch >= COLUMN_FLOOR_UM and part.right <= INNER_UM for part in parts)


def test_a_name_too_long_for_its_column_is_set_upwards_and_whole():
    name = "The long market street"
    layout = lay_out(sheet(plot(body("Mara", Bar(0, 3, "05")), acts=acts(10, 12, name=name))), METRICS)
    check_layout(layout)
    assert layout.findings == ()
    assert sum(text.turned and text.text == name for text in all_texts(layout)) == 22


def test_three_figures_fit_the_narrowest_column_at_their_floor():
    rows = [body("Mara", Bar(n, n, f"1{n:02d}", put_on=True, taken_off=True, note="to Max")) for n in range(20)]
    layout = lay_out(sheet(plot(*rows, shape=(25,))), METRICS)
    check_layout(layout)
    assert layout.findings == ()
    assert all(
        text.cap_um >= PLOT_BAR.floor_um
        for text in all_texts(layout)
        if text.text.startswith("1") and len(text.text) == 3
    )


def test_a_second_pack_stands_in_the_bars_of_the_first_where_they_are_wide_enough():
    bars = (Bar(0, 1, "01", put_on=True, second="22"), Bar(4, 4, "01", second="22"))
    wide, narrow = (lay_out(sheet(plot(body("Mara", *bars), shape=(count,))), METRICS) for count in (14, 26))
    for layout in (wide, narrow):
        check_layout(layout)
        assert layout.findings == ()
    told = [
        [text.text for text in all_texts(layout) if text.text in ("01", "22", "01+22")] for layout in (wide, narrow)
    ]
    assert told == [["01+22", "01+22"], ["01", "01", "22", "22"]]


def test_a_note_stands_behind_its_bar_where_nothing_follows_and_the_row_stays_low():
    bars = (Bar(2, 3, "05", put_on=True, taken_off=True, note="to Maximiliane, SL / SR"), Bar(9, 9, "31", "held"))
    page = lay_out(sheet(plot(body("Mara", *bars))), METRICS).pages[0]
    note = next(text for text in texts(page) if text.text.startswith("to Max"))
    first, last = sorted(
        (box for box in page.boxes if isinstance(box, Frame) and box.height == BAR_UM), key=lambda box: box.x
    )
    assert first.x + first.width < note.ink.x and note.ink.right < last.x
    assert first.y < note.ink.y and note.ink.bottom < first.y + BAR_UM


def test_a_page_of_a4_holds_fifteen_bodies_and_one_of_a3_twenty():
    rows = [body(f"Person {n}", Bar(0, 3, f"{n:02d}", put_on=True)) for n in range(60)]
    for size, most in (("A4", 15), ("A3", 20)):
        layout = lay_out(replace(sheet(plot(*rows)), paper=size), METRICS)
        assert sum(text.text.startswith("Person") for text in texts(layout.pages[0])) >= most


def test_a_note_that_does_not_fit_its_bar_stands_under_it_and_clear_of_the_next():
    bars = [Bar(n, n, "05", put_on=True, taken_off=True, note="to Maximiliane, SL / SR") for n in range(0, 14, 3)]
    layout = lay_out(sheet(plot(body("Mara", *bars))), METRICS)
    check_layout(layout)
    assert sum(text.text.startswith("to Max") for text in all_texts(layout)) == 5


def test_put_on_taken_off_and_held_are_three_different_shapes():
    row = body("Mara", Bar(0, 1, "05", put_on=True), Bar(3, 4, "06", taken_off=True), Bar(6, 6, "31", "held"))
    page = lay_out(sheet(plot(row, legend=())), METRICS).pages[0]
    frames = {box.x: box for box in page.boxes if isinstance(box, Frame) and box.height == BAR_UM}
    fills = [box for box in page.boxes if isinstance(box, Fill) and box.height == BAR_UM]
    assert len(frames) == 3 and len(fills) == 2
    tab, cap = sorted(fills, key=lambda box: box.x)
    one, two, three = (frames[x] for x in sorted(frames))
    assert tab.x == one.x and cap.x + cap.width == two.x + two.width
    assert three.dashed and not one.dashed


def test_no_guide_runs_through_a_letter():
    bars = [Bar(n, n + 1, "05", put_on=True, taken_off=True, note="to Maximiliane, SL / SR") for n in range(0, 14, 3)]
    page = lay_out(sheet(plot(body("Mara", *bars))), METRICS).pages[0]
    guides = [box for box in page.boxes if isinstance(box, Rule) and box.stroke == 150 and box.dotted]
    assert len(guides) > 15
    for text in texts(page):
        for guide in guides:
            crossed = text.ink.x <= guide.x1 <= text.ink.right and guide.y1 < text.ink.bottom and guide.y2 > text.ink.y
            assert not crossed, text
