"""What a paper says and how it is ordered, before any font, measure or ink: the vocabulary of every sheet.

A paper is one pure function that returns a `Sheet`. `render` measures and draws it and knows nothing of the show.
Whatever a show says is here as text; a sheet names its language, and `render` takes the words of every page from it. Text marked as a fact makes the sheet's code (`paperwork.document.facts`); mere words (titles, headings) do not.

    row(cell(fact("01", RACK_NUMBER), key=True),
        cell(fact("VERA", RACK_ROLE), fact("Mara Lind", RACK_SMALL)),
        cell(fact("486.200", RACK_FREQUENCY), words("TV 23", RACK_SMALL)))
"""

from paperwork.document.boards import Board, BoardGroup, BoardRow
from paperwork.document.cards import Card, Cards, CardSlot, Strips, UnitStrip
from paperwork.document.items import NOWHERE, Align, Blank, Cell, Item, Line, Tag, Tick, WriteIn, cell, fact, words
from paperwork.document.labels import Label, Labels, Printer
from paperwork.document.plots import (
    Act,
    Bar,
    BarKind,
    Keep,
    Lane,
    Plot,
    PlotRow,
    PlotScene,
    Sign,
    Tree,
    TreeLink,
    TreeNode,
)
from paperwork.document.printers import parse_printers
from paperwork.document.sheet import Block, Orientation, Sheet, SheetDoubt
from paperwork.document.spectra import Band, BandKind, Mark, Ribbon, SpectrumWindow
from paperwork.document.tables import Column, Note, Panel, Panels, RowGroup, Table, TableRow, row

__all__ = [
    "NOWHERE",
    "Act",
    "Align",
    "Band",
    "BandKind",
    "Bar",
    "BarKind",
    "Blank",
    "Block",
    "Board",
    "BoardGroup",
    "BoardRow",
    "Card",
    "CardSlot",
    "Cards",
    "Cell",
    "Column",
    "Item",
    "Keep",
    "Label",
    "Labels",
    "Lane",
    "Line",
    "Mark",
    "Note",
    "Orientation",
    "Panel",
    "Panels",
    "Plot",
    "PlotRow",
    "PlotScene",
    "Printer",
    "Ribbon",
    "RowGroup",
    "Sheet",
    "SheetDoubt",
    "Sign",
    "SpectrumWindow",
    "Strips",
    "Table",
    "TableRow",
    "Tag",
    "Tick",
    "Tree",
    "TreeLink",
    "TreeNode",
    "UnitStrip",
    "WriteIn",
    "cell",
    "fact",
    "parse_printers",
    "row",
    "words",
]
