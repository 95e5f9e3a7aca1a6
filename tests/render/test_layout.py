"""Pages: nothing outside its room, over another, under its floor, lost, split or orphaned."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.document import (
    Act,
    Column,
    Note,
    Panel,
    Panels,
    Plot,
    PlotScene,
    RowGroup,
    Table,
    Tick,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import RACK_FREQUENCY, RACK_NUMBER, RACK_ROLE, RACK_SMALL
from paperwork.render import composing
from paperwork.render.blocks.cells import INDENT_UM, PointLine, measure_cell, set_cell_line, tick_side_um
from paperwork.render.blocks.slices import BAR_UM, SNUG_BAR_UM
from paperwork.render.boxes import Fill, Frame, Room, Rule, TextBox
from paperwork.render.layout import lay_out
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout, shown_everywhere, texts, words_of

METRICS = load_metrics()


@pytest.fixture
def ungrown(monkeypatch):
    """Blocks at the heights that are wanted of them, however much room a page has left."""
    monkeypatch.setattr(composing, "MOST_STEPS", 0)


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter", "Tabloid"])
@pytest.mark.parametrize("orientation", ["portrait", "landscape"])
def test_chart_and_patch_hold_their_rooms_on_every_paper(paper, orientation):
    for sheet in (samples.chart(26, doubts=(samples.doubt("02", "20"),)), samples.patch(3)):
        if sheet.name == "patch-sheet" and orientation == "portrait" and paper != "A3":
            continue
        layout = lay_out(replace(sheet, paper=paper, orientation=orientation), METRICS)
        check_layout(layout)
        shown_everywhere(sheet, layout)


def test_every_channel_of_sixty_is_on_the_chart_once():
    layout = lay_out(samples.chart(60), METRICS)
    keys = [text.text for text in all_texts(layout) if text.floor_um == RACK_NUMBER.floor_um]
    assert keys == [f"{i:02d}" for i in range(1, 61)]
    frequencies = [text.text for text in all_texts(layout) if text.floor_um == RACK_FREQUENCY.floor_um]
    assert frequencies.count(".") == 1
    assert [f for f in frequencies if f != "."] == [samples.mhz(i) for i in range(60) if i != 3]


def test_reading_distances_hold_at_the_rack():
    caps = {}
    for text in all_texts(lay_out(samples.chart(24), METRICS)):
        caps.setdefault(text.floor_um, []).append(text.cap_um)
    for style, least in ((RACK_NUMBER, 7_000), (RACK_ROLE, 5_000), (RACK_FREQUENCY, 4_700)):
        assert min(caps[style.floor_um]) >= least


def test_revision_and_code_are_at_least_four_millimetres_on_every_page():
    sheet = samples.chart(40)
    for page in lay_out(sheet, METRICS).pages:
        for sign in (sheet.revision, page.code):
            assert any(text.text == sign and text.cap_um >= 4_000 for text in texts(page))


def test_pages_say_their_number_and_how_many_there_are():
    layout = lay_out(samples.chart(60), METRICS)
    count = len(layout.pages)
    assert count == 5
    for number, page in enumerate(layout.pages, 1):
        assert f"{number} of {count}" in {text.text for text in texts(page)}


def test_a_group_that_goes_on_says_so_and_repeats_the_heads():
    table = samples.chart(18).blocks[0]
    rows = tuple(row for group in table.groups for row in group.rows)
    sheet = samples.chart(18, blocks=(replace(table, groups=(RowGroup(rows, "Rack R1"),)),))
    first, second = lay_out(sheet, METRICS).pages
    assert "Rack R1" in {text.text for text in texts(first)}
    found = {text.text for text in texts(second)}
    assert "Rack R1, continued" in found and "Frequency, MHz" in found and "Rack R1" not in found


@pytest.mark.parametrize("channels", range(6, 40))
def test_no_bar_stands_without_a_row_at_the_foot_of_a_page(channels, ungrown):
    table = samples.chart(channels).blocks[0]
    singles = tuple(RowGroup((row,), f"Bar {i}") for i, group in enumerate(table.groups) for row in group.rows)
    for page in lay_out(samples.chart(channels, blocks=(replace(table, groups=singles),)), METRICS).pages:
        bars = [box for box in page.boxes if isinstance(box, Fill) and box.height in (BAR_UM, SNUG_BAR_UM)]
        keys = [text for text in texts(page) if text.floor_um == RACK_NUMBER.floor_um]
        assert max(bar.y for bar in bars) < max(key.y for key in keys)


def test_a_group_can_begin_on_a_new_page():
    table = samples.chart(12).blocks[0]
    first, second = table.groups
    sheet = samples.chart(12, blocks=(replace(table, groups=(first, replace(second, new_page=True))),))
    assert len(lay_out(sheet, METRICS).pages) == 2


def test_a_row_is_never_split_over_pages():
    layout = lay_out(samples.patch(9), METRICS)
    for page in layout.pages:
        shown = [text.text for text in texts(page)]
        assert shown.count("left") == shown.count("right")
    check_layout(layout)


def test_big_lines_of_a_row_share_a_baseline_and_so_do_small_ones():
    layout = lay_out(samples.chart(3), METRICS)
    found = {text.text: text.y for text in all_texts(layout)}
    assert found["VERA"] == found["486.200"] == found["FOH 1"]
    assert found["Mara Lind"] == found["R1.1"]


def test_decimal_points_stand_in_line():
    layout = lay_out(samples.chart(12), METRICS)
    points = set()
    for text in all_texts(layout):
        if text.floor_um == RACK_FREQUENCY.floor_um and text.text != ".":
            whole = text.text.partition(".")[0]
            points.add(text.x + METRICS.width_um(whole, text.face, text.cap_um))
    assert len(points) == 1


def test_columns_stand_where_they_stood_in_the_last_revision():
    before = lay_out(samples.chart(12), METRICS).pages[0]
    rows = samples.chart(12).blocks[0]
    changed = samples.chart_row(1, "R1", 2)
    longer = replace(
        changed, cells=(changed.cells[0], (cell(fact("A VERY LONG NAME INDEED", RACK_ROLE)),), *changed.cells[2:])
    )
    group = replace(rows.groups[0], rows=(rows.groups[0].rows[0], longer, *rows.groups[0].rows[2:]))
    after = lay_out(samples.chart(12, blocks=(replace(rows, groups=(group, rows.groups[1])),)), METRICS).pages[0]
    for column in ("Channel", "Role, on tonight", "Pack, slot", "Capsule", "Desk, notes"):
        places = [next(t.x for t in texts(page) if t.text == column) for page in (before, after)]
        assert places[0] == places[1]


def test_a_long_role_is_broken_then_abbreviated_and_that_is_said():
    layout = lay_out(samples.chart(18), METRICS)
    assert [finding.code for finding in layout.findings] == ["text-abbreviated"]
    finding = layout.findings[0]
    assert "THE HARBOURMASTER'S DAUGHTER" in finding.text and "…" in finding.text
    assert str(finding.place) == "show.yaml:32:3"
    assert finding.subjects[0].id == "13"


def _sheet_of(*rows, **changes):
    table = samples.chart(6).blocks[0]
    return samples.chart(6, blocks=(replace(table, groups=(RowGroup(rows, "Rack"),)),), **changes)


def test_a_number_without_room_is_an_error_and_a_blank_never_a_smaller_number():
    plain = samples.chart_row(0, "R1", 1)
    wide = replace(
        plain, cells=(*plain.cells[:2], (cell(fact("123456" * 5 + ".125", RACK_FREQUENCY)),), *plain.cells[3:])
    )
    layout = lay_out(_sheet_of(wide), METRICS)
    assert [(f.code, f.severity) for f in layout.findings] == [("number-does-not-fit", "error")]
    assert not any("123456" in text.text for text in all_texts(layout))
    assert sum(isinstance(b, Rule) and b.stroke == 350 and b.x2 - b.x1 < 20_000 for b in layout.pages[0].boxes) == 3
    check_layout(layout)


def test_a_number_longer_than_its_column_takes_room_from_words_and_stands_at_its_floor():
    rows = [samples.chart_row(index, "R1", index + 1) for index in range(3)]
    long = [
        replace(row, cells=((cell(fact(f"{index:04d}", RACK_NUMBER), key=True),), *row.cells[1:]))
        for index, row in enumerate(rows, 1)
    ]
    layout = lay_out(_sheet_of(*long), METRICS)
    assert not layout.findings
    numbers = [text for text in all_texts(layout) if text.text in ("0001", "0002", "0003")]
    assert len(numbers) == 3 and all(text.cap_um >= RACK_NUMBER.floor_um for text in numbers)
    check_layout(layout)


def test_a_row_taller_than_a_page_is_an_error_and_stays_on_its_page():
    plain = samples.chart_row(0, "R1", 1)
    many = cell(*(fact(f"Person number {i}", RACK_SMALL) for i in range(120)))
    layout = lay_out(_sheet_of(replace(plain, cells=(plain.cells[0], (many,), *plain.cells[2:])), plain), METRICS)
    assert [f.code for f in layout.findings] == ["row-too-tall"]
    check_layout(layout)


def test_a_blank_frequency_is_ruled_and_holds_no_figure():
    layout = lay_out(samples.chart(4), METRICS)
    rules = [
        box for box in layout.pages[0].boxes if isinstance(box, Rule) and box.stroke == 350 and box.x2 - box.x1 < 5_000
    ]
    assert len(rules) == 6 and len({rule.y1 for rule in rules}) == 1
    assert not any(text.text.startswith(("0.", "000")) for text in all_texts(layout))


def test_a_changed_row_has_a_bar_and_a_sign_in_the_margin():
    page = lay_out(samples.chart(6), METRICS).pages[0]
    sign = next(text for text in texts(page) if text.text == "new")
    left = min(text.x for text in texts(page) if text.text != "new")
    assert sign.ink.right < left
    assert any(isinstance(b, Fill) and sign.ink.right < b.x < left and b.height > 10_000 for b in page.boxes)


def stamps_of(page) -> str:
    """What stands over the table and under the masthead."""
    top = next(text.y for text in texts(page) if text.text == "Frequency, MHz")
    return " ".join(text.text for text in texts(page) if 30_000 < text.y < top and text.text != "Channel")


def test_a_stamp_stands_above_the_table_of_the_pages_that_show_what_is_doubted():
    sheet = samples.chart(40, doubts=(samples.doubt("20", "02"), samples.doubt("03", text="no capsule")))
    pages = lay_out(sheet, METRICS).pages
    shown = [{text.text for text in texts(page)} for page in pages]
    stamped = [stamps_of(page) for page in pages]
    assert stamped[0].startswith("NOT CONFIRMED: 02: frequency refused; 03: no capsule.")
    assert [bool(one) for one in stamped] == [bool({"02", "03", "20"} & one) for one in shown] and not stamped[-1]
    assert all(page.stamp.startswith(one) for page, one in zip(pages, stamped, strict=True))
    clean = lay_out(samples.chart(40), METRICS).pages
    first = [min(text.y for text in texts(one) if text.text == "Frequency, MHz") for one in (pages[-1], clean[-1])]
    assert first[0] == first[1], "a page without a stamp gives nothing up for one"


def test_a_row_in_doubt_has_a_question_mark_and_a_bar_in_the_margin():
    page = lay_out(samples.chart(6, doubts=(samples.doubt("02"),)), METRICS).pages[0]
    (sign,) = [text for text in texts(page) if text.text == "?"]
    number = next(text for text in texts(page) if text.text == "02")
    assert sign.ink.right < number.ink.x and abs(sign.y - number.y) < 10_000
    assert sum(isinstance(box, Fill) and box.x < 13_000 and box.height > 10_000 for box in page.boxes) == 2, (
        "new, and in doubt"
    )


def test_every_stamped_page_holds_its_rows_and_no_row_is_lost():
    for count in range(10, 34):
        doubts = tuple(samples.doubt(f"{number:02d}") for number in range(1, count, 3))
        layout = lay_out(samples.chart(count, doubts=doubts), METRICS)
        check_layout(layout)
        assert sum(text.text == "?" for text in all_texts(layout)) == len(doubts)


def test_the_code_of_a_page_counts_what_is_doubted_on_it_and_not_what_is_on_another():
    clean, doubted, other = (
        [page.code for page in lay_out(samples.chart(40, doubts=doubts), METRICS).pages]
        for doubts in ((), (samples.doubt("40"),), (samples.doubt("40", text="kein Recht"),))
    )
    assert clean[:-1] == doubted[:-1] and clean[-1] != doubted[-1] == other[-1]


def test_footer_tells_what_to_destroy_and_where_pen_marks_go():
    found = words_of(lay_out(samples.chart(3), METRICS))
    assert "Replaces revision B. Destroy it." in found
    assert "Pen changes go back to sound, stage left" in found
    assert "licence H-0001" in found


def test_small_print_keeps_clear_of_the_rules():
    page = lay_out(samples.chart(12), METRICS).pages[0]
    rules = [box.y1 for box in page.boxes if isinstance(box, Rule) and box.y1 == box.y2 and box.stroke == 150]
    for text in texts(page):
        for rule in rules:
            if text.y < rule and not text.white:
                assert rule - text.ink.bottom >= 1_000


def test_a_spare_keeps_its_number_in_line_with_the_others():
    layout = lay_out(samples.chart(12), METRICS)
    lefts = {text.room.x for text in all_texts(layout) if text.floor_um == RACK_NUMBER.floor_um}
    assert len(lefts) == 1 and lefts == {13_000 + INDENT_UM}


def test_empty_sheets_are_whole_pages():
    for blocks in ((), (Note("Nothing tonight."),), (Panels((Panel("Empty", ()),)),)):
        layout = lay_out(samples.chart(1, blocks=blocks), METRICS)
        assert len(layout.pages) == 1
        check_layout(layout)


def test_words_of_the_page_are_in_the_language_of_the_sheet():
    found = words_of(lay_out(replace(samples.chart(18), language="de"), METRICS))
    assert "1 von 2" in found and "Ersetzt Stand B (vernichten)." in found and "Destroy" not in found


def test_ticks_and_lines_to_write_on_leave_room_for_a_pen():
    plain = samples.chart_row(0, "R1", 1)
    ticked = replace(plain, cells=(*plain.cells[:4], (cell(Tick("done")),), (cell(words("by"), WriteIn("initials")),)))
    layout = lay_out(_sheet_of(ticked), METRICS)
    check_layout(layout)
    assert {"done", "initials"} <= {text.text for text in all_texts(layout)}


def test_a_row_with_too_few_cells_is_a_bug():
    with pytest.raises(ValueError, match="1 cells for 6 columns"):
        lay_out(_sheet_of(row(cell(fact("01", RACK_NUMBER)))), METRICS)


def test_columns_wider_than_the_page_are_a_bug():
    table = Table(tuple(replace(c, width_um=90_000) for c in samples.chart(1).blocks[0].columns), ())
    with pytest.raises(ValueError, match="wider than the page"):
        lay_out(samples.chart(1, blocks=(table,)), METRICS)


NAMES = st.text(
    alphabet=st.sampled_from("AEIO MNRS-/'ÁẤộŻłΕλένηЮрийЇgjpqy…·&<>()Q,"), min_size=0, max_size=60
)  # fmt: skip


@settings(max_examples=few_examples(60), deadline=None)
@given(st.lists(st.tuples(NAMES, NAMES, NAMES), min_size=1, max_size=20), st.booleans())
def test_any_names_hold_their_rooms(people, landscape):
    rows = tuple(
        replace(
            samples.chart_row(i, "R1", i),
            cells=(
                *samples.chart_row(i, "R1", i).cells[:1],
                (cell(fact(role, RACK_ROLE), fact(name, RACK_SMALL)),),
                *samples.chart_row(i, "R1", i).cells[2:4],
                (cell(fact(capsule, RACK_SMALL)),),
                *samples.chart_row(i, "R1", i).cells[5:],
            ),
        )
        for i, (role, name, capsule) in enumerate(people)
    )
    layout = lay_out(_sheet_of(*rows, orientation="landscape" if landscape else "portrait"), METRICS)
    check_layout(layout)
    cut = {finding.subjects[0].id for finding in layout.findings}
    shown = [text for text in all_texts(layout) if isinstance(text, TextBox)]
    assert any("…" in text.text for text in shown) or not cut


def test_a_row_is_as_tall_as_its_key_where_the_table_gives_no_height(ungrown):
    small = row(cell(fact("01", RACK_NUMBER), key=True), cell(fact("VERA", RACK_SMALL)))
    table = Table((Column("Channel", 25_000), Column("Role")), (RowGroup((small, small)),))
    layout = lay_out(samples.chart(2, blocks=(table,)), METRICS)
    check_layout(layout)
    assert {text.cap_um for text in all_texts(layout) if text.text == "01"} == {RACK_NUMBER.wanted_um}


@pytest.mark.parametrize("style", (RACK_NUMBER, RACK_ROLE, RACK_SMALL), ids=lambda style: f"{style.wanted_um}")
@pytest.mark.parametrize("text", ("", "9:30"))
def test_a_square_to_tick_keeps_clear_of_lines_words_and_other_squares(style, text, ungrown):
    """A pen needs air around the square, and a mark in one row must not touch the next."""
    columns = (Column("Ch"), Column("Off"), Column("On"), Column("Who"))
    rows = tuple(
        row(
            cell(fact(f"{n:02d}", RACK_NUMBER)),
            cell(Tick(text, style)),
            cell(Tick(text, style)),
            cell(words("A", RACK_SMALL)),
        )
        for n in range(1, 9)
    )
    layout = lay_out(replace(samples.chart(2), blocks=(Table(columns, (RowGroup(rows),)),)), METRICS)
    (page,) = layout.pages
    side = tick_side_um(style.wanted_um)
    squares = [box for box in page.boxes if isinstance(box, Frame) and box.width == box.height == side]
    assert len(squares) == 16
    for square in squares:
        air = (square.x - 300, square.y - 300, square.x + side + 300, square.y + side + 300)
        for box in page.boxes:
            if box is not square and isinstance(box, Frame | TextBox | Rule):
                assert not _meets(air, _extent(box)), (square, box)


def _extent(box) -> tuple[int, int, int, int]:
    if isinstance(box, TextBox):
        return (box.ink.x, box.ink.y, box.ink.x + box.ink.width, box.ink.y + box.ink.height)
    if isinstance(box, Rule):
        return (min(box.x1, box.x2), min(box.y1, box.y2), max(box.x1, box.x2), max(box.y1, box.y2))
    return (box.x, box.y, box.x + box.width, box.y + box.height)


def _meets(one, other) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


LONG = "A name that no bar, no margin and no panel of this page can hold in one line, whatever is done to it, " * 2


@pytest.mark.parametrize(
    "block",
    (
        Table((Column("role"),), (RowGroup((row(cell(words("VERA")), mark=LONG),)),)),
        Table((Column("role"),), (RowGroup((row(cell(words("VERA"))),), LONG),)),
        Panels((Panel(LONG * 2, ("Swap the pack.",)),)),
        Plot((Act(LONG, (PlotScene("1"),)),), ()),
    ),
    ids=("mark", "bar", "panel", "act"),
)
def test_whatever_is_cut_to_draw_it_is_found_once(block):
    layout = lay_out(samples.chart(1, blocks=(block,)), METRICS)
    cut = [text.text for text in all_texts(layout) if text.text.endswith("…")]
    assert len(cut) == len(layout.findings) == 1 and layout.findings[0].code == "text-abbreviated"


def test_a_column_of_long_names_is_one_finding_with_their_number_and_some_of_them():
    names = [f"THE HONOURABLE HARBOURMASTER'S {n}TH DAUGHTER" for n in range(40)]
    rows = [
        replace(one, cells=(one.cells[0], (cell(fact(name, RACK_ROLE)),), *one.cells[2:]))
        for n, name in enumerate(names)
        for one in (samples.chart_row(n, "R1", n % 16 + 1),)
    ]
    block = replace(samples.chart(1).blocks[0], groups=(RowGroup(tuple(rows)),))
    layout = lay_out(samples.chart(1, blocks=(block,)), METRICS)
    shown = [text.text for text in all_texts(layout) if text.text.endswith("…")]
    (finding,) = layout.findings
    assert len(shown) == 40 and "39 more like it" in finding.text and all(name in finding.text for name in names[:4])
    assert len(finding.subjects) == 40 and len(finding.text) < 400 and finding.place == rows[0].where


def test_a_square_to_tick_is_drawn_once_however_many_lines_its_words_take():
    metrics = load_metrics()
    long = measure_cell(cell(Tick("18 min or more than anybody thought of")), Column("Time", 30_000), 30_000, metrics)
    assert len(long.lines) > 1
    boxes = [
        box
        for line in long.lines
        for box in set_cell_line(line, Room(0, 0, 30_000, 40_000), 9_000, "left", PointLine(0, 0), metrics)
    ]
    assert sum(isinstance(box, Frame) for box in boxes) == 1
