"""How the papers at the rack stand on their pages, read off the boxes: on every size, in every language, stamped or not."""

import re
from dataclasses import replace
from itertools import groupby, pairwise
from math import radians, tan

import pytest

from paperwork.document import SheetDoubt
from paperwork.document.styles import PATCH_NUMBER, RACK_FREQUENCY, RACK_NUMBER, RACK_PLUG, RACK_ROLE, STRIP_NUMBER
from paperwork.finding import Subject
from paperwork.render.boxes import HAIR_UM, Layout, Rule, TextBox
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS
from paperwork.text.words import LANGUAGES, words_of
from tests.metrics import load_metrics
from tests.render.proofs import all_texts, check_layout, texts
from tests.sheets.reading import example, make, speaking
from tests.shows_text import reading_of, show_of

SIZES = ("A4", "A3", "Letter", "Tabloid")


def on_paper(name: str, size: str, language: str = "en", doubted: tuple[str, ...] = ()) -> Layout:
    show = speaking(example(), language)
    show = replace(show, production=replace(show.production, paper=size))
    (sheet,) = make(name, show)
    doubts = tuple(SheetDoubt("slot-doubled", "two in one slot", ((Subject("channels", id), id),)) for id in doubted)
    return lay_out(replace(sheet, doubts=doubts), load_metrics())


@pytest.mark.parametrize("doubted", ((), ("07",), ("01", "07", "13", "19", "25", "31")))
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("size", SIZES)
def test_both_procedures_stand_on_the_page_of_their_rack(size, language, doubted):
    layout = on_paper("patch-sheet", size, language, doubted)
    w = words_of(language)
    pages = [{text.text for text in texts(page)} for page in layout.pages]
    assert len(pages) <= (6 if doubted else 5), "of six racks"
    for told in pages:
        assert {w["dead pack"], w["bad frequency"]} <= told
    for number in range(1, 7):
        assert any(f"R{number}.4" in told for told in pages)


BIG = """
radios: {belt: {kind: pack}}
racks: {R1: {channels: 01-%d, units: [%s], analogue 1: FOH 1-%d}}
channels:
%s
"""


def big_rack(slots: int, tmp_path):
    rows = "".join(f"  {n:02d}: {{role: {n} OF ALL, radio: belt, by: Performer {n}}}\n" for n in range(1, slots + 1))
    return show_of(BIG % (slots, ", ".join(["2"] * (slots // 2)), slots, rows), tmp_path)


@pytest.mark.parametrize("slots", range(4, 40, 2))
def test_the_procedures_never_stand_alone_however_many_slots_a_rack_has(tmp_path, slots):
    (sheet,) = make("patch-sheet", big_rack(slots, tmp_path))
    layout = lay_out(sheet, load_metrics())
    check_layout(layout)
    for page in layout.pages:
        told = {text.text for text in texts(page)}
        assert any(text.startswith("R1.") for text in told)
    assert sum("Dead pack, frequency clean" in {text.text for text in texts(page)} for page in layout.pages) == len(
        layout.pages
    )


@pytest.mark.parametrize("name", ("channel-chart", "line-check", "programming-checklist", "battery-plan"))
def test_the_numbers_of_a_paper_are_of_one_height_and_never_under_seven_millimetres(name):
    ids = {*example().channels, *(channel.pack for channel in example().channels.values())}
    for size in SIZES:
        heights = {
            text.cap_um
            for page in on_paper(name, size).pages
            for text in texts(page)
            if text.text in ids and text.floor_um == RACK_NUMBER.floor_um
        }
        assert len(heights) == 1 and min(heights) >= 7_000, (size, heights)


def test_what_is_read_at_a_metre_fills_sixteen_minutes_of_arc():
    """On the patch sheet whatever is plugged, on the chart whatever belongs to a pack; slots and notes are for the hand."""
    least = tan(radians(16 / 60)) * 1_000_000
    for name, styles in (
        ("patch-sheet", (PATCH_NUMBER, RACK_PLUG)),
        ("channel-chart", (RACK_NUMBER, RACK_ROLE, RACK_FREQUENCY, RACK_PLUG)),
    ):
        floors = {style.floor_um for style in styles}
        caps = [text.cap_um for text in all_texts(on_paper(name, "A4")) if text.floor_um in floors]
        assert len(caps) > 90 and min(caps) >= least
    shown = {text.text: text.cap_um for text in all_texts(on_paper("channel-chart", "A4"))}
    assert min(shown["tone 5"], shown["FOH 1"], shown["FOH 32"]) >= least


def test_the_programming_checklist_of_the_example_takes_two_pages():
    assert len(on_paper("programming-checklist", "A4").pages) == 2


@pytest.mark.parametrize("name", ("line-check", "battery-plan", "patch-sheet", "channel-chart", "fitting-call"))
def test_texts_of_neighbouring_columns_keep_a_gap(name):
    """Of two texts on one baseline the ink keeps 3 mm, so that no role runs into the next word or square."""
    for page in on_paper(name, "A4").pages:
        lines: dict[int, list[TextBox]] = {}
        for text in texts(page):
            if text.y > 30_000 and not text.turned:
                lines.setdefault(text.y, []).append(text)
        for line in lines.values():
            ordered = sorted(line, key=lambda text: text.ink.x)
            for one, two in pairwise(ordered):
                assert two.ink.x - one.ink.right >= 3_000, (one.text, two.text)


def test_a_long_head_takes_more_lines_and_is_not_cut():
    show = example()
    venue = "The Great Hall of the Harbour Commissioners, Upper Promenade, Brindle Quay by the Sea"
    returns = "the sound department's pigeonhole at the stage door, or to whoever is on the headset as sound two"
    long = replace(show, production=replace(show.production, venue=venue, returns=returns))
    for name in ("channel-chart", "line-check", "swap-sheets"):
        for sheet in make(name, long):
            layout = lay_out(sheet, load_metrics())
            check_layout(layout)
            assert layout.findings == ()
            shown = " ".join(text.text for text in texts(layout.pages[0]))
            assert "Upper Promenade" in shown and sheet.subtitle[-1].split()[-1] in shown and "as sound two" in shown


@pytest.mark.parametrize(("size", "pages", "torn"), (("A4", 4, 3), ("Letter", 4, 3), ("A3", 2, 0), ("Tabloid", 2, 0)))
def test_the_strips_of_a_rack_stand_one_right_under_the_other_and_over_a_page_where_that_saves_one(size, pages, torn):
    """Read off the cut lines: of a rack each strip begins where the one above it ends."""
    layout = on_paper("receiver-strips", size)
    check_layout(layout)
    assert len(layout.pages) == pages and layout.findings == ()
    racks: list[str] = []
    for page in layout.pages:
        own = [text.text[:2] for text in texts(page) if re.match(r"R\d, ", text.text)]
        racks += dict.fromkeys(own)
        tops = sorted(
            box.y1
            for box in page.boxes
            if isinstance(box, Rule) and box.stroke == 150 and box.dotted and box.y1 == box.y2
        )
        strips = sum(len(text.text) == 2 and text.floor_um == STRIP_NUMBER.floor_um for text in texts(page))
        assert strips and len(tops) % 2 == 0
        joined = sum(one == two for one, two in pairwise(tops))
        assert joined == len(tops) // 2 - len({*own})
        for mark in (
            box
            for box in page.boxes
            if isinstance(box, Rule) and box.stroke == 150 and not box.dotted and box.y2 < page.height - 10_000
        ):
            assert all(not (left < mark.x1 < right) for left, right in _lengths(page))
    assert [rack for rack, _ in groupby(racks)] == [f"R{number}" for number in range(1, 7)]
    assert len(racks) == 6 + torn


def _lengths(page) -> set[tuple[int, int]]:
    return {
        (box.x1, box.x2)
        for box in page.boxes
        if isinstance(box, Rule) and box.stroke == 150 and box.dotted and box.y1 == box.y2
    }


@pytest.mark.parametrize("paper", ("A4", "Letter", "A3"))
def test_a_number_of_three_figures_has_room_on_every_paper_at_the_rack(tmp_path, paper):
    """A festival counts to 120; a number is never broken or cut, so its column must take it at its floor."""
    rows = "".join(
        f"  {n:03d}: {{role: ACT {n}, by: Player {n}, radio: belt, pack: '{n:03d}'}}\n" for n in range(95, 121)
    )
    show = show_of(
        f"show: {{title: Field, paper: {paper}}}\n"
        "day: {power-up: '12:00', curtain: '13:00', bows: '2:00'}\nradios: {belt: {kind: pack, hours: 8}}\n"
        f"racks: {{R1: {{channels: 095-120, units: [{', '.join(['2'] * 13)}], analogue 1: FOH 1-26}}}}\nchannels:\n{rows}"
        "scenes: {a: {name: 1.1 Opening, live: ACT 95 ACT 120}, b: {name: 1.2 Close, live: ACT 101}}\n",
        tmp_path,
    )
    for one in (one for one in SHEETS if one.folder == "rack"):
        for sheet in one.make(show):
            assert not [finding.text for finding in lay_out(sheet, load_metrics()).findings], one.name


def test_a_disputed_slot_is_no_channels_and_none_of_them_is_lost(tmp_path):
    show = reading_of(
        "racks: {R1: {slots: 2, channels: 01-02, analogue 1: FOH 1-2}}\nradios: {belt: {power: 10 mW}}\nchannels:\n"
        "  01: {role: VERA, mhz: 486.2}\n  02: {role: TOM, mhz: 488.2}\n  03: {role: ANNE, mhz: 490.9, slot: R1.2}\n",
        tmp_path,
    ).show

    def told(paper):
        return " ".join(text.text for text in all_texts(lay_out(make(paper, show)[0], load_metrics())))

    assert "02 TOM?" in told("patch-sheet") and "03 ANNE?" in told("patch-sheet")
    assert "02 / 03?" in told("receiver-strips")
    for paper in ("channel-chart", "programming-checklist", "walk-test"):
        assert all(role in told(paper) for role in ("VERA", "TOM", "ANNE")), paper


def test_lines_between_slots_reach_the_edge_of_the_table(tmp_path):
    rows = "".join(f"  {n}: {{role: R{n}}}\n" for n in range(1, 5))
    racks = "racks: {A: {channels: 1-4, analogue 1: FOH 1-4}, B: {slots: 2, network 1: REC 1-2}}\n"
    (sheet,) = make("patch-sheet", show_of(f"{racks}channels:\n{rows}", tmp_path))
    for page in lay_out(sheet, load_metrics()).pages:
        lines = [box for box in page.boxes if isinstance(box, Rule) and box.y1 == box.y2 and box.stroke == HAIR_UM]
        last = max(line.x1 for line in lines)
        assert (
            len({line.x2 for line in lines if line.x1 in (last, min(line.x1 for line in lines)) and line.x2 > last})
            == 1
        )
