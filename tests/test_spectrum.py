"""The spectrum page: everything on the air is on it, nothing stands on anything else, black is what is taken."""

from dataclasses import replace
from itertools import combinations

import pytest

from paperwork.document import Band, Mark, SpectrumWindow
from paperwork.document.facts import code, subjects_of
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.blocks.spectra import PLOT_UM
from paperwork.render.boxes import Fill, Hatch, Rule, TextBox
from paperwork.render.layout import lay_out
from paperwork.render.text.measuring import Metrics
from paperwork.sheets.rack import spectrum
from paperwork.text.words import LANGUAGES
from tests.pdf_text import read_pages
from tests.shows_text import EXAMPLES, show_of

METRICS = Metrics()
MHZ = 1_000_000


def example():
    return read_show(EXAMPLES / "show.yaml", "show.yaml").show


def drawn(block: SpectrumWindow):
    (sheet,) = spectrum.make_sheets(example())
    (page,) = lay_out(replace(sheet, blocks=(block,)), METRICS).pages
    return page.boxes


def window(**told) -> SpectrumWindow:
    return SpectrumWindow("470 to 494 MHz", "", 470 * MHZ, 494 * MHZ, **told)


def test_every_carrier_and_tv_channel_of_the_example_is_on_the_page():
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    papers = make_papers(reading.show, reading.findings, only=frozenset({"spectrum"}))
    text = " ".join(" ".join(read_pages(papers.files["rack/spectrum.pdf"])).split())
    words = text.split()
    assert [id for id in reading.show.channels if id not in words] == []
    for name in (
        *reading.show.others,
        "470 to 494 MHz",
        "TV 21",
        "TV 23",
        "TV 35",
        "dBm",
        "24 of 24 MHz free, carriers aside",
        "racks R1, R2",
    ):
        assert name in text


def test_numbers_stand_clear_of_each_other_and_on_the_page():
    (sheet,) = spectrum.make_sheets(example())
    for page in lay_out(sheet, METRICS).pages:
        texts = [box for box in page.boxes if isinstance(box, TextBox)]
        for one, two in combinations(texts, 2):
            apart = (
                one.ink.right <= two.ink.x
                or two.ink.right <= one.ink.x
                or one.ink.bottom <= two.ink.y
                or two.ink.bottom <= one.ink.y
            )
            assert apart, (one.text, two.text)
        for box in texts:
            assert box.ink.x >= 0 and box.ink.right <= page.width and box.cap_um >= box.floor_um


def test_carriers_next_to_each_other_are_told_in_rows():
    marks = tuple(Mark(480 * MHZ + n * 300_000, f"{n:02}") for n in range(12))
    texts = {
        box.text: box
        for box in drawn(window(marks=marks))
        if isinstance(box, TextBox) and box.text.isdigit() and len(box.text) == 2
    }
    assert len(texts) == 12 and len({box.y for box in texts.values()}) > 1
    assert not any(
        one.y == two.y and one.ink.right > two.ink.x and two.ink.right > one.ink.x
        for one, two in combinations(texts.values(), 2)
    )


def test_lines_stand_at_their_frequencies():
    boxes = drawn(window(marks=(Mark(470 * MHZ, "a"), Mark(482 * MHZ, "b", spare=True), Mark(494 * MHZ, "c"))))
    lines = sorted(
        (box.x1, box.dotted)
        for box in boxes
        if isinstance(box, Rule) and box.x1 == box.x2 and box.stroke == 350 and box.y2 - box.y1 > 3_000
    )
    assert [dotted for _, dotted in lines] == [False, True, False]
    assert abs(lines[0][0] + lines[2][0] - 2 * lines[1][0]) <= 1


def test_the_profile_is_as_high_as_the_loudest_level_and_has_gaps_where_nothing_was_swept():
    levels = (
        (470 * MHZ, 476 * MHZ, -11_000),
        (476 * MHZ, 482 * MHZ, -7_500),
        (476 * MHZ, 482 * MHZ, -9_000),
        (488 * MHZ, 494 * MHZ, -4_000),
    )
    boxes = drawn(window(levels=levels))
    columns = [box for box in boxes if isinstance(box, Fill) and box.width <= 700]
    heights = {box.height for box in columns}
    assert heights == {PLOT_UM // 2, PLOT_UM}, "half of the scale, and all of it; at its foot there is nothing to draw"
    quarter = (max(box.x for box in columns) - min(box.x for box in columns) + 700) // 3
    full = [box.x for box in columns if box.height == PLOT_UM]
    half = [box.x for box in columns if box.height == PLOT_UM // 2]
    assert min(full) - max(half) > quarter - 2_000


@pytest.mark.parametrize(
    ("kind", "black", "hatched"),
    (("free", False, False), ("weak", False, True), ("taken", True, True), ("kept", True, True)),
)
def test_what_is_taken_is_black_and_what_is_weak_is_hatched(kind, black, hatched):
    boxes = drawn(window(bands=(Band(478 * MHZ, 486 * MHZ, "TV 22", kind),)))
    (name,) = (box for box in boxes if isinstance(box, TextBox) and box.text == "TV 22")
    assert name.white == black
    assert any(isinstance(box, Hatch) and box.height == PLOT_UM for box in boxes) == hatched
    assert any(isinstance(box, Fill) and box.height == 6_600 for box in boxes) == black


def test_the_code_follows_the_facts_and_not_the_language(tmp_path):
    text = "show: {title: X, language: %s}\nracks: {R1: {channels: 1, window: 470-494}}\nspectrum: {region: Europe, tv: %s}\nchannels: {1: {by: Ann, mhz: 480.000}}\n"

    def codes(*told):
        return {
            code(sheet)
            for language, tv in told
            for sheet in spectrum.make_sheets(show_of(text % (language, tv), tmp_path))
        }

    assert len(codes(*((language, 23) for language in LANGUAGES))) == 1
    assert len(codes(("en", 23), ("en", 21))) == 2


def test_a_wide_carrier_is_as_wide_as_it_is_and_named_by_its_channels(tmp_path):
    text = "radios: {w: {tunes: 510-530, bandwidth: 6 MHz}}\nchannels:\n" + "".join(
        f"  0{n}: {{by: P{n}, carrier: W, mhz: 518.000}}\n" for n in (1, 2, 3)
    )
    (sheet,) = spectrum.make_sheets(show_of(text, tmp_path))
    block = next(block for block in sheet.blocks if isinstance(block, SpectrumWindow))
    assert [(mark.text, mark.bandwidth_hz) for mark in block.marks] == [("01–03", 6 * MHZ)]
    assert (block.low_hz, block.high_hz) == (514 * MHZ, 522 * MHZ), (
        "what radios tune to is no window; the carrier is shown"
    )
    assert {subject.id for subject in subjects_of(sheet)} == {"01", "02", "03"}


def test_a_wide_window_is_divided(tmp_path):
    text = "racks: {R1: {channels: 1, window: 470-694}}\nchannels: {1: {by: Ann, mhz: 480.000}}\n"
    (sheet,) = spectrum.make_sheets(show_of(text, tmp_path))
    pieces = [(block.low_hz, block.high_hz) for block in sheet.blocks if isinstance(block, SpectrumWindow)]
    assert pieces == [(470 * MHZ, 526 * MHZ), (526 * MHZ, 582 * MHZ), (582 * MHZ, 638 * MHZ), (638 * MHZ, 694 * MHZ)]


def test_a_show_with_frequencies_alone_has_no_spectrum_page():
    assert spectrum.make_sheets(read_show(EXAMPLES / "first_show.yaml", "first").show) == ()


def test_the_chart_says_the_tv_channel_where_the_region_is_known(tmp_path):
    from paperwork.sheets.rack import channel_chart

    def lines(region):
        text = f"spectrum: {{region: {region}}}\nchannels: {{1: {{by: Ann, mhz: 521.900}}}}\n"
        (sheet,) = channel_chart.make_sheets(show_of(text, tmp_path))
        row = sheet.blocks[0].groups[0].rows[0]
        return [item.text for item in row.cells[2][0].items]

    assert lines("Europe") == ["521.900", "TV 27"] and lines("Japan") == ["521.900", "TV 21"]
    assert lines('""') == ["521.900"]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("paper", ("A4", "A3", "Letter", "Tabloid"))
def test_the_legend_stands_on_the_first_page_with_windows_under_it(paper, language):
    show = example()
    show = replace(show, production=replace(show.production, paper=paper, language=language))
    (sheet,) = spectrum.make_sheets(show)
    layout = lay_out(sheet, METRICS)
    start = sheet.blocks[0].text.split()[:3]
    for number, page in enumerate(layout.pages):
        told = [" ".join(box.text.split()) for box in page.boxes if isinstance(box, TextBox)]
        assert any(text.split()[:3] == start for text in told) == (number == 0)
        heads = "470", "640", "566", sheet.blocks[-1].groups[0].title
        assert any(text.startswith(heads) for text in told), "no page without a window or the margins"
        assert any(text == " ".join(sheet.blocks[1].title.split()) for text in told) == (number == 0)


def test_tv_channels_in_use_that_no_window_shows_are_listed():
    """Of 24, 26, 31, 32, 37, 40 and 45 (494 to 670 MHz on the European raster) none reaches into a window of the example."""
    (sheet,) = spectrum.make_sheets(example())
    assert "TV channels in use outside these windows: 24, 26, 31, 32, 37, 40, 45." in sheet.blocks[0].text
    assert sheet.blocks[0].facts == (
        *("off", "24", "26", "31", "32", "37", "40", "45"),
        *("200000", "\u221297.4 sweep.csv"),
    )


def test_a_tv_channel_that_a_window_shows_is_not_listed_again(tmp_path):
    text = "show: {title: X}\nracks: {R1: {channels: 1, window: 470-494}}\nspectrum: {region: Europe, tv: '23, 30'}\nchannels: {1: {by: Ann, mhz: 480.000}}\n"
    (sheet,) = spectrum.make_sheets(show_of(text, tmp_path))
    assert "outside these windows: 30." in sheet.blocks[0].text
