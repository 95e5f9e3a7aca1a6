"""What holds for every paper: languages, codes, room for a pen, and blanks that never differ from their papers."""

from dataclasses import replace
from itertools import chain

import pytest

from paperwork.document import Line, Note, Table, Tick, WriteIn
from paperwork.document.facts import code
from paperwork.render.boxes import Frame, Rule
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS
from paperwork.sheets.blanks import list_blanks
from paperwork.text.words import LANGUAGES
from tests.few import few_of
from tests.metrics import load_metrics
from tests.render.proofs import check_layout
from tests.sheet_texts import texts_of
from tests.sheets.reading import example, make, speaking

OWN = tuple(paper.name for paper in SHEETS if paper.make.__module__.count(".") == 3 and paper.name != "spectrum")
"""The papers of the rooms rack, wardrobe and production under `sheets`."""

BY_HAND = tuple(paper.name for paper in SHEETS if paper.by_hand)


def pages_of(sheet):
    return lay_out(sheet, load_metrics()).pages


@pytest.mark.parametrize("language", few_of(LANGUAGES[1:]))
@pytest.mark.parametrize("name", OWN)
def test_a_paper_in_another_language_is_whole_and_has_the_same_code(name, language):
    for sheet, english in zip(make(name, speaking(example(), language)), make(name), strict=True):
        layout = lay_out(sheet, load_metrics())
        assert layout.findings == ()
        check_layout(layout)
        assert code(sheet) == code(english)


@pytest.mark.parametrize("name", OWN)
def test_another_revision_keeps_the_code_and_another_fact_changes_it(name):
    show = example()
    later = replace(show, production=replace(show.production, revision="D", revised="2027-05-01", reason="moved"))
    assert [code(sheet) for sheet in make(name, later)] == [code(sheet) for sheet in make(name)]


@pytest.mark.parametrize("name", BY_HAND)
def test_a_pen_has_room(name):
    """Squares of 6 mm, lines of 25 mm for initials, rows of 8 mm."""
    for sheet in make(name):
        for block in sheet.blocks:
            if isinstance(block, Table) and any(isinstance(item, Tick | WriteIn) for item in items_of(block)):
                assert block.row_um >= 8_000
        for box in chain.from_iterable(page.boxes for page in pages_of(sheet)):
            if isinstance(box, Rule) and box.dotted:
                assert box.x2 - box.x1 >= 20_000, box
            if isinstance(box, Frame) and box.width == box.height:
                assert box.width >= 6_000


def items_of(table: Table):
    for group in table.groups:
        for row in group.rows:
            for parts in row.cells:
                for part in parts:
                    yield from part.items


@pytest.mark.parametrize("size", few_of(("A4", "A3", "Letter", "Tabloid")))
def test_every_paper_for_a_pen_has_a_blank_of_full_pages(size):
    """One page; two for the inventory on Letter, where the list of what is forgotten leaves no room for rows on the first."""
    show = replace(example(), production=replace(example().production, paper=size))
    blanks = list_blanks(SHEETS, lambda sheet: len(pages_of(sheet)))
    assert [blank.name for blank in blanks] == [f"blank-{name}" for name in BY_HAND]
    for blank in blanks:
        (sheet,) = blank.make(show)
        layout = lay_out(sheet, load_metrics())
        check_layout(layout)
        assert len(layout.pages) == (2 if "inventory" in blank.name and size == "Letter" else 1)
        assert layout.findings == ()
        empty = [row for table in sheet.blocks if isinstance(table, Table) for row in written_rows(table)]
        assert len(empty) >= (2 if blank.name == "blank-contact-strip" else 8), blank.name


def written_rows(table: Table):
    """The rows that begin with a line to write on."""
    return [
        row
        for group in table.groups
        for row in group.rows
        if any(isinstance(item, WriteIn) for item in row.cells[0][0].items)
    ]


def test_a_blank_holds_no_fact_and_keeps_heads_words_and_squares():
    blanks = list_blanks(SHEETS, lambda sheet: len(pages_of(sheet)))
    for blank, name in zip(blanks, BY_HAND, strict=True):
        (sheet,) = blank.make(example())
        (paper,) = make(name)
        tables = [block for block in sheet.blocks if isinstance(block, Table)]
        assert not any(isinstance(item, Line) and item.fact for table in tables for item in items_of(table))
        assert not any(isinstance(block, Note) and block.facts for block in sheet.blocks)
        originals = [block.columns for block in paper.blocks if isinstance(block, Table)]
        # carriers by margin, hired gear and contacts by department are only where a show has them
        shown = [columns for columns in originals if "Arrives" not in (one.heading for one in columns)]
        shown = [columns for columns in shown if columns[0].heading not in ("Carrier", "Job")]
        assert [table.columns for table in tables] == shown or name == "contact-strip"
        assert sheet.revision == "" and sheet.replaces == "" and sheet.title == paper.title
        assert not any(name in text for name in example().people for text in texts_of(sheet))
        assert not any(sign.isdigit() for line in sheet.subtitle for sign in line), "no time of a specimen"


def test_blanks_need_no_facts(tmp_path):
    from tests.shows_text import show_of

    tiny = show_of("show: {title: Gala, language: fr}\nchannels: {1: {by: Imke Vos}}\n", tmp_path)
    for blank in list_blanks(SHEETS, lambda sheet: len(pages_of(sheet))):
        (sheet,) = blank.make(tiny)
        assert sheet.show == "Gala"
