"""Boxes that are folded up and opened again are the same boxes, and so is what is painted of them."""

from dataclasses import replace

from paperwork.render.boxes import CLOSE, Layout, Open
from paperwork.render.folded import Folded, Framed, fold
from paperwork.render.layout import FEW_PAGES, lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from tests.big_shows import big_show

METRICS = Metrics()


def layouts() -> list[Layout]:
    """Every paper of a big show in many scripts: all kinds of boxes are among them."""
    return [lay_out(sheet, METRICS) for paper in SHEETS for sheet in paper.make(big_show(3))]


def test_every_box_of_every_paper_comes_back_as_it_was_in_a_tenth_of_the_room():
    kinds, room = set(), 0
    for layout in layouts():
        for page in layout.pages:
            folded = fold(page.boxes)
            assert tuple(folded) == tuple(page.boxes) and len(folded) == len(page.boxes)
            assert [box is CLOSE for box in folded] == [box is CLOSE for box in page.boxes]
            assert all(type(one) is type(other) for one, other in zip(folded, page.boxes, strict=True))
            kinds |= {type(box).__name__ for box in folded}
            room = max(room, len(folded.data) / len(page.boxes))
    assert kinds == {"TextBox", "Fill", "Frame", "Rule", "Hatch", "QrBox", "Open", "Close"}
    assert room < 60, "bytes a box; open it takes some 300"


def test_a_folded_layout_is_painted_to_the_same_bytes():
    for layout in layouts()[::4]:
        folded = [replace(page, boxes=fold(page.boxes)) for page in layout.pages]
        assert paint_pdf(layout) == paint_pdf(replace(layout, pages=tuple(folded)))
        framed, both = (
            [replace(page, boxes=Framed((Open("Sect"),), page.boxes, (CLOSE,))) for page in pages]
            for pages in (layout.pages, folded)
        )
        assert paint_pdf(replace(layout, pages=tuple(framed))) == paint_pdf(replace(layout, pages=tuple(both)))


def test_a_long_paper_is_folded_page_by_page_and_its_boxes_are_those_of_one_that_is_kept():
    (sheet,) = (one for paper in SHEETS if paper.name == "running-sheet" for one in paper.make(big_show(3)))
    many = replace(sheet, blocks=sheet.blocks * 12)
    folded, kept = lay_out(many, METRICS), lay_out(many, METRICS, {})
    assert len(folded.pages) > FEW_PAGES and all(isinstance(page.boxes, Folded) for page in folded.pages)
    assert [tuple(page.boxes) for page in folded.pages] == [tuple(page.boxes) for page in kept.pages]
    assert not any(isinstance(page.boxes, Folded) for page in kept.pages)
