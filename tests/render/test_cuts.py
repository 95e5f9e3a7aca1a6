"""Whatever is cut to size: nothing across a cut in any script, the sizes that were asked for, a ruler, and no scaling."""

import io
from itertools import pairwise

import numpy as np
import pypdf
import pypdfium2
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from paperwork.document import Card, Cards, CardSlot, Strips, UnitStrip, fact
from paperwork.document.styles import (
    CARD_STRONG,
    CARD_TEXT,
    POUCH_KEY,
    RACK_SMALL,
    SQUARE_KEY,
    SQUARE_NAME,
    SQUARE_TEXT,
    STRIP_NUMBER,
    STRIP_ROLE,
)
from paperwork.pipeline import LabelChoice, make_papers
from paperwork.render.boxes import Frame, Room, Rule
from paperwork.render.layout import lay_out
from paperwork.sheets.rack.receiver_strips import HEIGHTS_MM
from paperwork.sheets.wardrobe.pouch_cards import SIZES_MM
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import check_layout, inside, overlap, texts
from tests.sheets.reading import example as example_show

METRICS = load_metrics()
NAMES = st.text(
    alphabet=st.sampled_from("AEIO MNRS-/'ÁẤộȘŻłΕλένЮрийЇgjpq&<(\u0301שָׁרهأمِينة王明김さที่รักปู่दुर्गा"),
    min_size=1,
    max_size=44,
)
HARBOUR = "THE HARBOURMASTER'S DAUGHTER / ÉLÉONORE"


def slot(number: int, name: str, output: str = "FOH 1") -> CardSlot:
    small = (fact("486.200", RACK_SMALL), fact(output, RACK_SMALL))
    return CardSlot(fact(f"{number:02d}", STRIP_NUMBER), (fact(name, STRIP_ROLE),), small, hatch=number == 2)


def strips(names, high_mm: int, output: str = "FOH 1"):
    slots = tuple(slot(n, name, output) for n, name in enumerate(names, 1))
    block = Strips((UnitStrip("R1, unit 1", slots, "Rack R1"),), 440_000, high_mm * 1_000, scaled=True)
    return lay_out(samples.chart(name="receiver-strips", blocks=(block,), orientation="landscape"), METRICS)


def cells_of(page, high_um: int) -> list[Room]:
    """The rectangles that the dotted lines of a page cut out."""
    lines = [box for box in page.boxes if isinstance(box, Rule) and box.dotted and box.x1 == box.x2]
    edges = sorted({(box.y1, box.x1) for box in lines})
    assert all(abs(box.y2 - box.y1) == high_um for box in lines)
    return [Room(a[1], a[0], b[1] - a[1], high_um) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def crossing(page, rooms: list[Room]) -> list[str]:
    """Texts that touch a rectangle to be cut out and are not in it whole, half a millimetre off its edge."""
    kept = [Room(r.x + 500, r.y + 500, r.width - 1_000, r.height - 1_000) for r in rooms]
    return [
        text.text
        for text in texts(page)
        if text.text.strip()
        for room, inner in zip(rooms, kept, strict=True)
        if overlap(text.ink, room) and not inside(text.ink, inner)
    ]


@settings(max_examples=few_examples(12), deadline=None)
@given(st.sampled_from(HEIGHTS_MM), st.lists(NAMES, min_size=2, max_size=8), NAMES)
@example(8, [HARBOUR] * 8, "ÉTABLI")
@example(22, ["ปู่จ๋าย ที่รัก", "กู้ป้ำ / ที่รัก"], "FOH 1")
def test_no_text_of_a_strip_is_across_a_cut_whatever_the_names_are(high, names, output):
    layout = strips(names, high, output[:9])
    check_layout(layout)
    for page in layout.pages:
        rooms = cells_of(page, high * 1_000)
        assert rooms and crossing(page, rooms) == []


@settings(max_examples=few_examples(12), deadline=None)
@given(st.sampled_from([*SIZES_MM, (65, 65)]), st.lists(st.tuples(NAMES, NAMES, NAMES), min_size=1, max_size=4))
@example((60, 40), [(HARBOUR, HARBOUR, HARBOUR)])
def test_no_text_of_a_card_is_across_its_frame_and_every_card_has_the_size_that_it_is_cut_to(size, people):
    stacked = size == (65, 65)
    cards = tuple(
        Card(
            fact(f"{n:02d}", SQUARE_KEY if stacked else POUCH_KEY),
            (fact(a, SQUARE_NAME if stacked else CARD_STRONG), fact(b, CARD_TEXT)),
            foot=() if stacked else (fact(c, CARD_STRONG), fact(a, CARD_TEXT), fact(b, CARD_TEXT)),
        )
        for n, (a, b, c) in enumerate(people, 1)
    )
    width, height = (length * 1_000 for length in size)
    block = Cards(cards, 2, height, width, stacked=stacked, signed=True)
    layout = lay_out(samples.chart(name="cards", blocks=(block,)), METRICS)
    check_layout(layout)
    boxes = [(page, box) for page in layout.pages for box in page.boxes if isinstance(box, Frame)]
    frames = [(page, box) for page, box in boxes if box.width == width and box.height > 20_000]
    assert [box.height for _, box in frames] == [height] * len(cards)
    for page, box in frames:
        assert crossing(page, [Room(box.x, box.y, box.width, box.height)]) == []
    shown = {text.text for page in layout.pages for text in texts(page)}
    cut = [finding for finding in layout.findings if finding.code in ("text-across-cut", "text-abbreviated")]
    assert cut or all(any(word in one for one in shown) for a, *_ in people if a.isascii() for word in a.split()[:1])


SQUARE = Card(fact("01", SQUARE_KEY), (fact("MARA", SQUARE_NAME),))


def frames_of(page, side: int) -> list[Frame]:
    return [box for box in page.boxes if isinstance(box, Frame) and box.width == box.height == side]


def test_one_cut_parts_two_squares_and_three_times_four_of_them_are_on_a_page_of_a4():
    block = Cards((SQUARE,) * 12, 1, 65_000, 65_000, stacked=True, signed=True)
    (page,) = lay_out(samples.chart(name="squares", blocks=(block,)), METRICS).pages
    frames = frames_of(page, 65_000)
    assert len(frames) == 12 and len({box.x for box in frames}) == 3 and len({box.y for box in frames}) == 4
    for places in ({box.x for box in frames}, {box.y for box in frames}):
        assert {b - a for a, b in pairwise(sorted(places))} == {65_000}


@pytest.mark.parametrize(("count", "rows"), [(37, [3, 3, 3, 4]), (25, [3, 3, 3]), (13, [2, 3]), (12, [4])])
def test_no_page_of_squares_is_left_with_one_row_where_others_can_give_it_some(count, rows):
    block = Cards((SQUARE,) * count, 1, 65_000, 65_000, stacked=True, signed=True)
    pages = lay_out(samples.chart(name="squares", blocks=(block,)), METRICS).pages
    assert [len({box.y for box in frames_of(page, 65_000)}) for page in pages] == rows


def test_a_sheet_of_cards_lies_across_where_that_takes_fewer_sheets():
    """Ninety millimetres go twice into the width of A4 and three times into its length, as 55 go four times and thrice."""
    card = Card(fact("01", POUCH_KEY), (fact("Mara Lind", CARD_STRONG),))
    for count, width, pages in ((8, 210_000, 1), (9, 297_000, 1), (16, 210_000, 2), (18, 297_000, 2)):
        block = Cards((card,) * count, 2, 55_000, 90_000, signed=True)
        found = lay_out(samples.chart(name="cards", blocks=(block,), turns=True), METRICS).pages
        assert (len(found), found[0].width) == (pages, width)


def test_what_would_be_across_a_cut_is_left_off_and_said_with_its_place():
    many = tuple(fact(f"small of back from {n}.1", CARD_TEXT) for n in range(1, 9))
    card = Card(fact("01", POUCH_KEY), (fact("Mara Lind", CARD_STRONG),), foot=many)
    layout = lay_out(samples.chart(name="cards", blocks=(Cards((card,), 2, 40_000, 60_000, signed=True),)), METRICS)
    (finding,) = (one for one in layout.findings if one.code == "text-across-cut")
    shown = " ".join(text.text for page in layout.pages for text in texts(page))
    gone = [line.text for line in many if line.text not in shown]
    assert gone and all(text in finding.text for text in gone) and "Mara Lind" in shown


def test_a_number_over_long_names_gives_way_to_its_floor_and_only_there():
    long = (fact("THE HARBOUR MASTER'S GRANDMOTHER", SQUARE_NAME), fact("Alexandrina Featherstonehaugh", SQUARE_TEXT))
    cards = tuple(Card(fact(key, SQUARE_KEY), items) for key, items in (("1", long[1:]), ("2", long)))
    layout = lay_out(
        samples.chart(name="squares", blocks=(Cards(cards, 1, 65_000, 65_000, stacked=True, signed=True),)), METRICS
    )
    assert layout.findings == ()
    shown = {text.text: text.cap_um for page in layout.pages for text in texts(page)}
    assert shown["2"] == SQUARE_KEY.floor_um < shown["1"] and shown["Alexandrina Featherstonehaugh"]


@pytest.mark.parametrize("high", HEIGHTS_MM)
def test_a_strip_says_the_same_at_every_height_and_from_half_a_unit_on_it_is_read_from_a_metre(high):
    layout = strips(("VERA", "TOM", "NURSE", "PILOT"), high)
    assert layout.findings == ()
    shown = {text.text: text for page in layout.pages for text in texts(page)}
    least = 4_654 if high >= 22 else 2_560  # 16 minutes of arc at 1 m, 22 at 0.4 m (ISO 9241-3)
    for said in ("01", "VERA", "04", "PILOT"):
        assert shown[said].cap_um >= least
    small = [text for said, text in shown.items() if said.startswith("486.200")]
    assert small and all(text.cap_um >= least for text in small)
    assert all("FOH 1" in said for said in shown if said.startswith("486.200   "))


DPI = 200


def pixels(pdf: bytes) -> np.ndarray:
    """Which dots of the first page are dark."""
    return np.asarray(pypdfium2.PdfDocument(pdf)[0].render(scale=DPI / 72, grayscale=True).to_pil()) < 200


def runs_of(dark: np.ndarray) -> set[int]:
    """How long unbroken rows of dark dots are."""
    ends = np.zeros((dark.shape[0], 1), bool)
    steps = np.diff(np.hstack((ends, dark, ends)).astype(int), axis=1)
    return {
        int(stop - start)
        for row in steps
        for start, stop in zip(np.nonzero(row == 1)[0], np.nonzero(row == -1)[0], strict=True)
    }


def edges_of(lines: np.ndarray, dots: float) -> list[int]:
    """The numbers of those lines of dots of which so many in a row are dark; of each stroke the first."""
    long = [number for number, line in enumerate(lines) if max(runs_of(line[None, :]), default=0) >= dots - 4]
    return [number for number in long if number - 1 not in long]


CUT = ("receiver-strips", "pouch-cards", "mic-table-squares", "pack-labels", "desk-strips", "spare-cards")


@pytest.fixture(scope="module")
def printed():
    return {
        path.rpartition("/")[2].removesuffix(".pdf"): data
        for path, data in make_papers(example_show(), (), only=frozenset(CUT), pictured=False).files.items()
        if path.endswith(".pdf")
    }


@pytest.mark.parametrize("name", CUT)
def test_whatever_is_cut_to_size_prints_at_actual_size_with_a_ruler_of_a_hundred_millimetres(printed, name):
    """The ruler is measured in pixels of the PDF, not in the boxes that it was made of."""
    assert pypdf.PdfReader(io.BytesIO(printed[name])).trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert any(abs(run - 100 / 25.4 * DPI) <= 2 for run in runs_of(pixels(printed[name])))


@pytest.mark.parametrize(("width", "height"), SIZES_MM)
def test_pouch_cards_come_in_two_sizes_and_squares_are_square(width, height):
    choice = LabelChoice(card_mm=(width, height))
    only = frozenset({"pouch-cards", "mic-table-squares"})
    papers = make_papers(example_show(), (), only=only, labels=choice, pictured=False)
    for name, size in (("pouch-cards", (width, height)), ("mic-table-squares", (65, 65))):
        dark = pixels(papers.files[f"wardrobe/{name}.pdf"])
        for lines, length, across in ((dark.T, *size), (dark, *reversed(size))):
            dots, edges = length / 25.4 * DPI, edges_of(lines, across / 25.4 * DPI)
            assert len(edges) > 2 and any(abs(b - a - dots) <= 2 for a, b in pairwise(edges)), (name, length)
    left_off = [one.text for one in papers.findings if one.code == "text-across-cut"]
    assert bool(left_off) == ((width, height) == (60, 40))
