"""Blank versions of the papers that are filled in by hand, for the day on which there is no machine to print with.

A blank is made of the paper itself: the rows that hold facts of a specimen show become empty rows, everything else
(heads, instructions, cautions, rows of words) stays. So a blank never differs from its paper, and needs no facts.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace

from paperwork.document import Block, Cell, Item, Line, Note, Sheet, Table, TableRow, Tick, Tree, WriteIn
from paperwork.model import (
    AntennaPart,
    Capsule,
    Channel,
    Day,
    Look,
    Person,
    Production,
    Rack,
    RadioType,
    Role,
    Scene,
    Show,
    Slot,
    Transmitter,
)
from paperwork.sheets.paper import Paper
from paperwork.text.words import words_of

FOLDER = "blank"
LEAST_ROWS, MOST_ROWS = 8, 60
"""A blank with fewer rows than eight on its one page takes a second one (a choice of this project)."""

CountPages = Callable[[Sheet], int]
"""How many pages a sheet takes."""


def list_blanks(papers: Iterable[Paper], count_pages: CountPages) -> tuple[Paper, ...]:
    """A blank paper for each that is filled in by hand."""
    return tuple(_blank_of(paper, count_pages) for paper in papers if paper.by_hand)


def _blank_of(paper: Paper, count_pages: CountPages) -> Paper:
    def make(show: Show) -> tuple[Sheet, ...]:
        return tuple(fill_page(sheet, count_pages) for sheet in paper.make(make_specimen(show.production)))

    return Paper(FOLDER, f"blank-{paper.name}", make, paper.needs)


def fill_page(sheet: Sheet, count_pages: CountPages) -> Sheet:
    """The blank of a sheet with as many rows as one page holds, or two where one holds too few."""
    few, many = 1, MOST_ROWS
    pages = 1 if count_pages(blank_sheet(sheet, LEAST_ROWS)) == 1 else 2
    while few < many:
        middle = (few + many + 1) // 2
        few, many = (middle, many) if count_pages(blank_sheet(sheet, middle)) <= pages else (few, middle - 1)
    return blank_sheet(sheet, few)


def blank_sheet(sheet: Sheet, rows: int) -> Sheet:
    """The sheet without its facts, with so many empty rows where rows of facts stood."""
    blocks = tuple(
        _blank_table(block, rows) if isinstance(block, Table) else block
        for block in sheet.blocks
        if not (isinstance(block, Tree) or (isinstance(block, Note) and block.facts))
    )
    said = tuple(line for line in sheet.subtitle if not any(map(str.isdigit, line)))  # no times of the specimen
    return replace(sheet, name=f"blank-{sheet.name}", blocks=blocks, subtitle=said)


def _blank_table(table: Table, count: int) -> Block:
    """Empty rows in place of the rows of facts, in the first group that has any. Rows of mere words stay.

    A row that begins with words is a question: it stays where it is, and only its answer is emptied.
    """
    groups, wanted = [], True
    for group in table.groups:
        rows: list[TableRow] = []
        named = bool(group.title)
        for row in group.rows:
            if _asks(row):
                rows.append(_blank_row(row, _is_no_fact) if _holds_facts(row) else row)
            elif wanted:
                rows += [_blank_row(row, _is_for_pen)] * count
                wanted = named = False
        if rows:
            groups.append(replace(group, rows=tuple(rows), facts=(), note="", title=group.title if named else ""))
    return replace(table, groups=tuple(groups))


def _asks(row: TableRow) -> bool:
    """Whether a row is of words alone, or begins with them; a running number is none."""
    first = [line for cell in row.cells[0] for line in cell.items if isinstance(line, Line)]
    words = any(sign.isalpha() for line in first for sign in line.text)
    return not _holds_facts(row) or (words and not any(line.fact for line in first))


def _holds_facts(row: TableRow) -> bool:
    return any(isinstance(item, Line) and item.fact for parts in row.cells for cell in parts for item in cell.items)


def _blank_row(row: TableRow, is_kept: Callable[[Item], bool]) -> TableRow:
    """The row with what is kept of each cell, and a line to write on where nothing is."""
    cells = ((tuple(filter(is_kept, cell.items)) for cell in parts) for parts in row.cells)
    return TableRow(tuple(tuple(Cell(kept or (WriteIn(),)) for kept in parts) for parts in cells))


def _is_for_pen(item: Item) -> bool:
    return isinstance(item, Tick | WriteIn)


def _is_no_fact(item: Item) -> bool:
    """Whether it is for a pen, or mere words."""
    is_word = isinstance(item, Line) and not item.fact and any(map(str.isalpha, item.text))
    return _is_for_pen(item) or is_word


def make_specimen(production: Production) -> Show:
    """A show of one of everything, in a production's name and language, so that every paper has a row for blanks."""
    word = words_of(production.language)["spare"]
    named = Production(
        title=production.title,
        company=production.company,
        venue=production.venue,
        contact=word,
        paper=production.paper,
        language=production.language,
        returns=production.returns,
    )
    return Show(
        production=named,
        day=Day(power_up_s=(0,), curtain_s=(3600,), bows_s=(7200,), cells=("power-up",)),
        radios={"R": RadioType("R", hours_s=6 * 3600), "H": RadioType("H", kind="handheld")},
        racks={"R1": Rack("R1", units=(1,))},
        antennas={"A1": AntennaPart("A1", feeds=("R1",), cables=("1 m",))},
        transmitters={"01": Transmitter("01", radio="R", serial="S", cells="C")},
        capsules={"C": Capsule("C", type="C", owned=1)},
        people={"P": Person("P", room="1", pouch="1", belt="B"), "Q": Person("Q")},
        roles={"A": Role("A", by="P"), "B": Role("B"), "C": Role("C", by="Q")},
        channels={
            "01": Channel(
                "01", roles=("A", "C"), radio="R", pack="01", capsule="C", slots=(Slot("R1", 1),), hz=500_000_000
            ),
            "02": Channel("02", roles=("B",), radio="H", pack="02"),
        },
        scenes=(
            Scene("s1", "1", at_s=0, live=("A", "B")),
            Scene("s2", "2", at_s=600, live=("A",)),
            Scene("s3", "3", at_s=1200, live=("C",)),
        ),
        looks={
            "l1": Look("l1", by="P", wears="W"),
            "l2": Look("l2", by="P", scene="s2", wears="V", sits="S", capsule="C"),
        },
    )
