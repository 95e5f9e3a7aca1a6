"""Labels: every one in its cell, clear of the edge, none lost or doubled, every code read from dots."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from hypothesis import example, given, settings
from hypothesis import strategies as st

from paperwork.document import Printer
from paperwork.document.facts import label_code, payload
from paperwork.document.styles import LABEL_NUMBER, SMALL_PRINT
from paperwork.render.boxes import Close, Fill, Frame, Open, QrBox, Room, Rule, TextBox
from paperwork.render.labels.pages import cells_for
from paperwork.render.labels.qr import QUIET_MODULES, module_um
from paperwork.render.labels.stocks import load_stocks
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.text.words import LANGUAGES, words_of
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout, inside, texts

METRICS = load_metrics()
STOCKS = list(load_stocks())


def numbers_of(layout):
    """The label numbers in the order in which they stand."""
    return [text.text for text in all_texts(layout) if text.floor_um == LABEL_NUMBER.floor_um]


def cell_of(stock, x, y):
    """The cell that a point lies in, or None."""
    for cell in range(stock.cells):
        room = stock.room(cell)
        if room.x <= x < room.right and room.y <= y < room.bottom:
            return room
    return None


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("name", STOCKS)
def test_every_box_keeps_two_millimetres_from_the_edge_of_its_label(name, dpi):
    stock = load_stocks()[name]
    edge = stock.edge_um
    assert edge == (1_000 if stock.on_tape else 2_000)
    layout = lay_out(samples.labels(name, 13, printer=Printer(dpi)), METRICS)
    check_layout(layout)
    for page in layout.pages:
        for box in (box for box in page.boxes if not isinstance(box, Open | Close)):
            room = cell_of(
                stock, box.x1 if isinstance(box, Rule) else box.x, box.y1 if isinstance(box, Rule) else box.y
            )
            if room is None:
                continue
            clear = Room(room.x + edge, room.y + edge, room.width - 2 * edge, room.height - 2 * edge)
            if isinstance(box, TextBox):
                up, down = box.cap_um, box.y - clear.bottom
                assert box.x >= clear.x and box.ink.right <= clear.right
                assert box.y - up >= clear.y - 1 and down <= 1
                assert inside(box.ink, room)
            elif isinstance(box, QrBox):
                side = -(-box.side * box.dots * 25_400 // box.dpi)
                assert inside(Room(box.x, box.y, side, side), clear)
                assert inside(box.quiet, room)
                assert box.x - box.quiet.x >= QUIET_MODULES * box.dots * 25_400 // box.dpi
                assert module_um(box.dots, box.dpi) >= 330
            elif isinstance(box, Fill | Frame):
                assert inside(Room(box.x, box.y, box.width, box.height), clear)


@pytest.mark.parametrize("name", STOCKS)
def test_every_label_has_number_role_code_and_frequency(name):
    sheet = samples.labels(name, 9, labels=tuple(samples.label(i) for i in (0, 1, 2, 3, 5, 6, 8, 9)))
    found = " ".join(text.text.replace("  ", " ") for text in all_texts(lay_out(sheet, METRICS)))
    for label in sheet.blocks[0].labels:
        for expected in (label.number, label.role, label.frequency, f"C {label_code(label)}"):
            assert found.count(expected) >= label.copies, (expected, found)


@pytest.mark.parametrize("name", STOCKS)
def test_the_number_is_the_largest_and_carries_a_bar_below_it(name):
    layout = lay_out(samples.labels(name, 6), METRICS)
    for page in layout.pages:
        numbers = [text for text in texts(page) if text.floor_um > 5_000]
        bars = [box for box in page.boxes if isinstance(box, Fill)]
        assert len(numbers) == len(bars)
        for number, bar in zip(numbers, bars, strict=True):
            assert number.cap_um >= (5_600 if name == "tape-9" else 7_000)
            assert bar.x == number.x and number.y < bar.y < number.y + 3_000 + number.cap_um // 10
            assert abs(bar.width - number.ink.width) <= 1 and bar.height >= 700
        assert min(n.cap_um for n in numbers) > max(t.cap_um for t in texts(page) if t not in numbers)


def _decode(layout, dpi):
    decoded = []
    document = pypdfium2.PdfDocument(paint_pdf(layout))
    for page in document:
        grey = np.asarray(page.render(scale=dpi / 72, grayscale=True).to_pil())
        dots = np.where(grey < 128, 0, 255).astype(np.uint8)
        decoded += [code.text for code in zxingcpp.read_barcodes(dots, formats=zxingcpp.BarcodeFormat.QRCode)]
    return decoded


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("name", ["a4-21-63.5x38.1", "letter-30-2.625x1", "a4-65-38.1x21.2-gap", "letter-6-4x3.333"])
def test_every_code_is_read_from_the_printers_own_dots(name, dpi):
    sheet = samples.labels(name, 12, printer=Printer(dpi))
    layout = lay_out(sheet, METRICS)
    drawn = [box.payload for page in layout.pages for box in page.boxes if isinstance(box, QrBox)]
    assert Counter(_decode(layout, dpi)) == Counter(drawn)
    expected = [payload(label, "C") for label in sheet.blocks[0].labels for _ in range(label.copies)]
    if name != "a4-65-38.1x21.2-gap":
        assert drawn == expected
    else:
        assert len(drawn) >= 20


@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_a_painted_module_is_a_whole_number_of_printer_dots(dpi):
    layout = lay_out(samples.labels(count=1, printer=Printer(dpi)), METRICS)
    code = next(box for box in layout.pages[0].boxes if isinstance(box, QrBox))
    page = pypdfium2.PdfDocument(paint_pdf(layout))[0]
    dots = np.asarray(page.render(scale=dpi / 72, grayscale=True).to_pil()) < 128
    left, top = (round(edge * dpi / 25_400) for edge in (code.quiet.x, code.quiet.y))
    side = round(code.quiet.width * dpi / 25_400)
    rows, columns = np.nonzero(dots[top : top + side, left : left + side])
    for extent in (rows, columns):
        assert abs(extent.max() - extent.min() + 1 - code.side * code.dots) <= 1


def test_codes_still_read_after_a_viewer_shrank_the_page():
    sheet = samples.labels("a4-21-63.5x38.1", 10)
    expected = {payload(label, "C") for label in sheet.blocks[0].labels}
    assert set(_decode(lay_out(sheet, METRICS), 300 * 0.94)) >= expected


def test_copies_stand_side_by_side_in_the_order_given():
    assert numbers_of(lay_out(samples.labels(count=4), METRICS)) == ["01", "01", "02", "02", "03", "03", "04", "04"]


@given(st.integers(0, 70), st.integers(1, 21), st.sets(st.integers(1, 21), max_size=20))
def test_labels_in_are_labels_out_each_in_a_cell_of_its_own(count, start, blocked):
    stock = load_stocks()["a4-21-63.5x38.1"]
    cells = cells_for(count, stock, start, tuple(blocked))
    assert len(cells) == len(set(cells)) == count
    assert cells == sorted(cells)
    for page, cell in cells:
        assert 0 <= cell < stock.cells
        assert page > 0 or (cell + 1 >= start and cell + 1 not in blocked)


def test_start_and_blocked_cells_hold_on_the_first_sheet_only():
    stock = load_stocks()["a4-21-63.5x38.1"]
    sheet = samples.labels(count=12, start=4, blocked=(5, 21))
    layout = lay_out(sheet, METRICS)
    assert len(numbers_of(layout)) == 24
    first, second = (
        {stock.room(c) for t in texts(page) if t.floor_um == 7_000 for c in range(21) if inside(t.ink, stock.room(c))}
        for page in layout.pages
    )
    assert len(first) == 16 and stock.room(4) not in first and stock.room(0) not in first
    assert stock.room(0) in second


@pytest.mark.parametrize("changes", [{"start": 22}, {"start": 0}, {"blocked": (40,)}, {"start": 21, "blocked": (21,)}])
def test_a_cell_that_the_sheet_does_not_have_loses_no_label_in_silence(changes):
    layout = lay_out(samples.labels(count=3, **changes), METRICS)
    assert layout.pages == ()
    assert {finding.code for finding in layout.findings} == {"labels-misplaced"}


def test_an_unknown_stock_names_the_known_ones():
    layout = lay_out(samples.labels("a4-21", 3), METRICS)
    assert layout.pages == () and layout.findings[0].code == "stock-unknown"
    assert "a4-21-63.5x38.1" in layout.findings[0].fix


def test_what_a_small_label_leaves_off_is_said_once_for_each_kind():
    layout = lay_out(samples.labels("letter-80-1.75x0.5", 10), METRICS)
    codes = Counter(finding.code for finding in layout.findings)
    assert codes["label-code-left-out"] == 1 and codes["label-text-left-out"] == 3
    assert not any(isinstance(box, QrBox) for page in layout.pages for box in page.boxes)


def test_a_label_without_a_frequency_has_none_and_one_unknown_has_a_ruled_blank():
    none, blank = samples.label(0, frequency=None, copies=1), samples.label(1, frequency="", copies=1)
    layout = lay_out(samples.labels(labels=(none, blank)), METRICS)
    boxes = layout.pages[0].boxes
    assert sum(isinstance(box, Rule) and box.stroke == 350 for box in boxes) == 6
    assert not any(text.text.startswith("000") for text in texts(layout.pages[0]))


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", STOCKS)
def test_a_doubted_label_has_a_broken_bar_on_every_stock_and_loses_nothing_else(name, language):
    doubt = words_of(language)["label doubt"]
    sure = tuple(samples.label(i, copies=1, mark="") for i in range(3))
    doubted = (sure[0], replace(sure[1], doubt=doubt), sure[2])
    layout = lay_out(replace(samples.labels(name, labels=doubted), language=language), METRICS)
    check_layout(layout)
    bars = [box for page in layout.pages for box in page.boxes if isinstance(box, Fill)]
    assert len(bars) == 1 + 4 + 1, "four dashes for one of three"
    told = [text.text for text in all_texts(layout)]
    assert sum(text.startswith("?") for text in told) == (0 if name == "letter-80-1.75x0.5" else 1)
    assert all(label.frequency in told and label.role in told for label in doubted)
    assert not any(finding.code in ("text-abbreviated", "number-does-not-fit") for finding in layout.findings)
    assert label_code(doubted[1]) != label_code(sure[1]), "a label that says ASK is another label"


@pytest.mark.parametrize("name", STOCKS)
def test_a_capsule_and_a_pack_with_marks_above_and_below_stay_on_their_label(name):
    for capsule, pack in (("Écru", "Ą1"), ("Ébène g", "02"), ("Ộ", "Ộ1")):
        labels = (samples.label(0, capsule=capsule, mark=""), samples.label(1, capsule=capsule, pack=pack, mark=""))
        check_layout(lay_out(samples.labels(name, labels=labels), METRICS))


def test_one_wide_number_takes_no_frequency_from_the_other_labels():
    wide = samples.label(6, number="05B", copies=1, mark="")
    layout = lay_out(samples.labels("letter-80-1.75x0.5", labels=(*SHORT, wide)), METRICS)
    told = [text.text for text in all_texts(layout)]
    assert all(told.count(label.frequency) == label.copies for label in SHORT)


def test_the_ruler_is_a_hundred_millimetres_in_the_margin():
    page = lay_out(samples.labels(), METRICS).pages[0]
    rule = next(box for box in page.boxes if isinstance(box, Rule) and box.y1 == box.y2)
    assert rule.x2 - rule.x1 == 100_000 and rule.y1 < 15_150


def test_labels_carry_no_borders():
    sheet = samples.labels(labels=tuple(samples.label(i, mark="") for i in range(6)))
    assert not any(isinstance(box, Frame) for box in lay_out(sheet, METRICS).pages[0].boxes)


def test_a_changed_label_changes_its_own_code_alone():
    labels = tuple(samples.label(i) for i in range(3))
    changed = (labels[0], replace(labels[1], frequency="490.000"), labels[2])
    before, after = ([label_code(label) for label in row] for row in (labels, changed))
    assert [a == b for a, b in zip(before, after, strict=True)] == [True, False, True]


def codes_and_numbers(name, labels):
    """The dots of a code's module and the heights of the numbers, label by label."""
    layout = lay_out(samples.labels(name, labels=labels), METRICS)
    assert not any(finding.code == "text-abbreviated" for finding in layout.findings)
    boxes = [box for page in layout.pages for box in page.boxes]
    numbers = [box.cap_um for box in boxes if isinstance(box, TextBox) and box.floor_um == LABEL_NUMBER.floor_um]
    return [box.dots for box in boxes if isinstance(box, QrBox)], numbers


SHARED = samples.label(4, role="SMUGGLER / WIDOW", performers=("Ravi Menon", "Aoife Ní Bhriain"), mark="")
SHORT = tuple(
    samples.label(n, role=role, performers=(by,), mark="")
    for n, (role, by) in enumerate((("VERA", "Mara Lind"), ("TOM", "Ben Arlo")))
)


LADIES = "THE LADIES OF THE HARBOUR COMMITTEE / CHORUS"
SCRIPTS = ("VERA", "ÉLÉONORE / ÂGÉE", "Ấ Ộ", "Юрий Їжак", "ΜΑΡΚΆΚΗ", LADIES, "שרה", "أمينة", "王小明", "ที่รัก", "दुर्गा")


def still_of(stock, page, cell, origin=(0, 0)):
    """What never moves, from the corner of a label: left end and base line of the number, its bar, the code, and the base
    lines of performers and foot."""
    room = stock.room(cell)
    found = {}
    for box in page.boxes:
        if isinstance(box, TextBox) and inside(box.ink, room):
            kind = {"figures-bold": "number"}.get(box.face) or ("foot" if box.text.startswith("C ") else "")
            if box.text in ("Mara Lind", "Юрий Ким", "488.900"):
                kind = box.text
            if kind:
                found[kind] = (box.x - room.x if kind == "number" else 0, box.y - room.y, box.cap_um)
        elif isinstance(box, QrBox) and inside(box.quiet, room):
            found["code"] = (box.x - room.x, box.y - room.y, box.dots, box.side)
        elif isinstance(box, Fill) and inside(Room(*box[:4]), room):
            found["bar"] = (box.y - room.y, box.height)
    return found


@pytest.mark.parametrize("name", STOCKS)
def test_number_code_and_base_lines_are_at_one_place_whatever_the_role_is(name):
    stock = load_stocks()[name]
    made = [
        samples.label(
            4, role=role, brief="LADIES" if role == LADIES else "", performers=("Mara Lind",), mark="", copies=1
        )
        for role in SCRIPTS
    ]
    layout = lay_out(samples.labels(name, labels=tuple(made)), METRICS)
    check_layout(layout)
    seen = [
        still_of(stock, layout.pages[page], cell) for page, cell in cells_for(len(made), stock, 1, ())
    ]  # fmt: skip
    assert all(one["number"] == seen[0]["number"] and one["bar"] == seen[0]["bar"] for one in seen)
    for kind in ("code", "foot", "488.900", "Mara Lind"):
        assert len({one[kind][:2] for one in seen if kind in one}) <= 1, kind
        assert kind == "Mara Lind" or len([one for one in seen if kind in one]) in (0, len(seen)), kind
    assert len({one["code"] for one in seen if "code" in one}) <= 1


@pytest.mark.parametrize("name", STOCKS)
def test_a_label_by_itself_is_the_one_that_is_printed_among_others(name):
    """Nothing of a label depends on its neighbours: one can be printed again and put in the old one's place."""
    alone, among = (
        lay_out(samples.labels(name, labels=labels), METRICS).pages[0].boxes
        for labels in (
            (replace(SHARED, copies=1),),
            (replace(SHARED, copies=1), *SHORT, samples.label(99, number="105B")),
        )
    )
    first = [box for box in alone if not isinstance(box, Rule)]
    kept = [box for box in first if not (isinstance(box, TextBox) and box.floor_um == SMALL_PRINT.floor_um)]
    assert kept and set(kept) <= set(among)


def test_a_performer_gives_way_by_the_short_name_before_anything_is_cut():
    """`short` of people is what fits on a small label; a name that has room stays whole."""

    def shown(name, *briefs):
        label = samples.label(4, role="CHAIR", performers=(name,), brief_performers=briefs, mark="", copies=1)
        layout = lay_out(samples.labels(labels=(label,)), METRICS)
        check_layout(layout)
        return [one.text for one in all_texts(layout)], [one.code for one in layout.findings]

    long = "Dr. Anne-Marie Featherstonehaugh-Okonkwo the Younger"
    assert "Anne-Marie" in shown(long, "Anne-Marie")[0] and shown(long, "Anne-Marie")[1] == []
    assert shown(long)[1] == ["text-abbreviated"] and "Anne Cole" in shown("Anne Cole", "Anne")[0]


def test_a_role_gives_way_by_its_short_name_first_and_then_by_two_lines():
    def shown(name, role, brief):
        label = samples.label(4, role=role, brief=brief, performers=("Mara Lind",), mark="", copies=1)
        layout = lay_out(samples.labels(name, labels=(label,)), METRICS)
        check_layout(layout)
        return [t.text for t in all_texts(layout) if t.face == "text-bold"], [f.code for f in layout.findings]

    long, brief = "THE LAMPLIGHTER OF THE QUAY / STRANGER", "LAMPLITE / STRANGER"
    assert shown("a4-21-63.5x38.1", "LAMPLIGHTER", brief) == (["LAMPLIGHTER"], [])
    assert shown("a4-21-63.5x38.1", long, brief) == ([brief], [])
    assert shown("a4-21-63.5x38.1", long, "") == (["THE LAMPLIGHTER OF THE", "QUAY / STRANGER"], [])
    assert shown("letter-80-1.75x0.5", long, "LAMPLITE")[0] == ["LAMPLITE"]
    lines, codes = shown("letter-80-1.75x0.5", long, "")
    assert lines[0].endswith("…") and "text-abbreviated" in codes, "cut only where nothing else is left, and said"


@pytest.mark.parametrize("name", [name for name in STOCKS if name not in ("letter-80-1.75x0.5", "tape-9", "tape-18")])
def test_a_label_for_two_is_whole_with_the_number_and_the_code_of_all_others(name):
    dots, numbers = codes_and_numbers(name, (*SHORT, SHARED))
    assert len(set(dots)) == len(set(numbers)) == 1


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize(
    "name", ["a4-21-63.5x38.1", "letter-30-2.625x1", "letter-20-4x1", "a4-44-48.3x25.4-butt", "tape-12"]
)
def test_four_modules_of_white_are_around_every_code_in_printed_dots(name, dpi):
    """Counted in the printer's own dots: from the dark modules to the nearest ink and to the cut."""
    stock = load_stocks()[name]
    layout = lay_out(
        samples.labels(name, labels=(replace(SHARED, role=LADIES, copies=1),), printer=Printer(dpi)), METRICS
    )
    code = next(box for box in layout.pages[0].boxes if isinstance(box, QrBox))
    dots = np.asarray(pypdfium2.PdfDocument(paint_pdf(layout))[0].render(scale=dpi / 72, grayscale=True).to_pil()) < 128
    left, top = (round(edge * dpi / 25_400) for edge in (code.x, code.y))
    side, quiet = code.side * code.dots, QUIET_MODULES * code.dots
    grown = [dots[top - n : top + side + n, left - n : left + side + n] for n in (1, quiet - 1)]
    assert grown[0].sum() == grown[1].sum() > 0, "no ink in the quiet zone, and the code in it whole"
    room = stock.room(0)
    cut = [round(edge * dpi / 25_400) for edge in (room.x, room.y, room.right, room.bottom)]
    assert left - quiet >= cut[0] - 1 and top - quiet >= cut[1] - 1
    assert left + side + quiet <= cut[2] + 1 and top + side + quiet <= cut[3] + 1
    assert code.quiet.width == (code.side + 2 * QUIET_MODULES) * module_um(code.dots, dpi), "four modules and no more"
    assert _decode(layout, dpi) == [code.payload]


@pytest.mark.parametrize("name", ["a4-21-63.5x38.1", "a4-18-63.5x46.6", "letter-30-2.625x1", "tape-24"])
def test_the_code_is_as_large_as_the_stock_allows(name):
    """One printer dot more a module would leave the label, the capsule under the code or the role under it no room."""
    stock = load_stocks()[name]
    layout = lay_out(samples.labels(name, labels=(replace(SHORT[0], copies=1),)), METRICS)
    code = next(box for box in layout.pages[0].boxes if isinstance(box, QrBox))
    wider = (code.side + 2 * QUIET_MODULES) * module_um(code.dots + 1, 300) - 2 * stock.edge_um
    role = next(text for text in all_texts(layout) if text.text == "VERA")
    under = role.y - role.cap_um - stock.room(0).y - stock.edge_um
    assert wider > min(under, (stock.width_um - 2 * stock.edge_um) // 4)


def test_codes_of_one_sheet_are_of_one_size_even_where_one_says_more():
    labels = (*SHORT, samples.label(5, number="EARS 12345678901234"))
    layout = lay_out(samples.labels(labels=labels), METRICS)
    codes = [box for page in layout.pages for box in page.boxes if isinstance(box, QrBox)]
    assert len({box.side for box in codes}) == 1 and codes[0].side == 25
    assert Counter(_decode(layout, 300)) == Counter(box.payload for box in codes)


@pytest.mark.parametrize("name", ["letter-30-2.625x1", "tape-24"])
def test_each_of_two_performers_stands_on_a_line_of_its_own_where_one_line_is_too_short(name):
    layout = lay_out(samples.labels(name, labels=(*SHORT, replace(SHARED, copies=1))), METRICS)
    told = {text.text for text in all_texts(layout)}
    assert {"Ravi Menon", "Aoife Ní Bhriain"} <= told and "SMUGGLER / WIDOW" not in told


@pytest.mark.parametrize("name", [name for name in STOCKS if name not in ("letter-80-1.75x0.5", "tape-9")])
def test_a_number_that_is_a_word_is_whole_and_its_listener_too(name):
    labels = tuple(
        samples.label(n, number=f"EARS {n}", role=role, performers=(), pack="", capsule="", mark="", copies=1)
        for n, role in enumerate(("Jonah Teale", "Ελένη Μαρκάκη", "Łukasz Żółcik"))
    )
    layout = lay_out(samples.labels(name, labels=labels), METRICS)
    check_layout(layout)
    told = " ".join(text.text for text in all_texts(layout))
    assert all(label.number in told and all(word in told for word in label.role.split()) for label in labels)
    assert "…" not in told


def test_a_spares_pack_is_on_the_label_in_every_language():
    for language in LANGUAGES:
        for name in STOCKS:
            spare = samples.label(11, role="SPARE", performers=("for 01 to 05",), pack="S1", capsule="tone 2", mark="")
            layout = lay_out(replace(samples.labels(name, labels=(spare, *SHORT)), language=language), METRICS)
            shown = {"S1", words_of(language)["label pack"].format(pack="S1")}
            assert sum(text.text in shown for text in all_texts(layout)) == spare.copies, (name, language)


NAMES = st.text(
    alphabet=st.sampled_from("AEIO MNRS-/'ÁẤộȘŻłΕλένЮрийЇgjpq·&<>(\u0301שָׁרהأمِينة王明김さที่รักदुर्गा"), max_size=50
)


@settings(max_examples=few_examples(30), deadline=None)
@given(
    st.sampled_from(STOCKS),
    st.lists(st.tuples(st.sampled_from(["1", "07", "123", "H1"]), NAMES, NAMES, NAMES), min_size=1, max_size=4),
)
@example("tape-9", [("1", "<<<<<‹Ю", "", "")])
def test_any_names_hold_their_rooms_on_any_stock(stock, people):
    labels = tuple(
        samples.label(i, number=n, role=role, brief=b[:9], performers=(a, b), copies=1)
        for i, (n, role, a, b) in enumerate(people)
    )
    layout = lay_out(samples.labels(stock, labels=labels), METRICS)
    check_layout(layout)
    rooms = [load_stocks()[stock].room(cell) for cell in range(load_stocks()[stock].cells)]
    for page in layout.pages:
        for text in (text for text in texts(page) if text.floor_um != SMALL_PRINT.floor_um):
            assert any(inside(text.ink, room) for room in rooms), "nothing is across a cut"
