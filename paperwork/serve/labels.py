"""The form that says how labels are printed: which stock, which printer, and where the part-used sheet starts."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from paperwork.document import Printer
from paperwork.document.printed import Printed
from paperwork.pipeline import LabelChoice
from paperwork.render.labels.stocks import Stock, load_stocks
from paperwork.serve.held.choices import PrintChoice
from paperwork.serve.shows import Opened
from paperwork.sheets.rack.receiver_strips import HEIGHT_UM as STRIP_UM
from paperwork.sheets.rack.receiver_strips import HEIGHTS_MM as STRIPS_MM
from paperwork.sheets.wardrobe.pouch_cards import SIZES_MM as CARDS_MM

PLAIN_DPI = (203, 300, 600)
"""Dots per inch that a printer without a name may have: those that the command offers."""


def describe_labels(
    opened: Opened, printed: Sequence[Printed], printers: Mapping[str, Printer]
) -> dict[str, Any] | None:
    """The first label sheet as cells to click, of the chosen stock, else of the pack labels; None without labels."""
    papers = [paper for paper in printed if paper.tags]
    if not papers:
        return None
    stocks = load_stocks()
    stock = stocks.get(opened.labels.stock or _stock_of(opened)) or next(iter(stocks.values()))
    used = {*opened.labels.blocked, *range(1, opened.labels.start)}
    return {
        "stocks": [(one.id, _say_stock(one), one is stock) for one in stocks.values()],
        "stock": stock.id,
        "columns": stock.columns,
        "on_tape": stock.on_tape,
        "cells": [(cell, cell in used) for cell in range(1, stock.cells + 1)],
        "printers": list(_list_printers(opened, printers)),
        "proof": opened.labels.proof,
        "papers": papers,
    }


def _stock_of(opened: Opened) -> str:
    from paperwork.sheets.wardrobe.pack_labels import STOCKS

    return STOCKS[opened.reading.show.production.paper] if opened.reading.show else ""


def _say_stock(stock: Stock) -> str:
    """`A4, 21 of 63.5 × 38.1 mm`: what is printed on the box of them."""
    size = " × ".join(f"{length / 1000:.1f}".removesuffix(".0") for length in (stock.width_um, stock.height_um))
    if stock.on_tape:
        return f"Tape, {stock.height_um // 1000} mm"
    return f"{stock.paper}, {stock.cells} of {size} mm{', no gaps' if stock.id.endswith('-butt') else ''}"


def _list_printers(opened: Opened, printers: Mapping[str, Printer]) -> Iterator[tuple[str, str, bool]]:
    """Each printer: what the form sends, what it says, whether it is the chosen one."""
    for name in printers:
        yield f"name {name}", name, name == opened.printer
    for dpi in PLAIN_DPI:
        words = f"any other, {dpi} dots per inch" if printers else f"{dpi} dots per inch"
        yield f"dpi {dpi}", words, not opened.printer and opened.labels.printer.dpi == dpi


def choose_labels(opened: Opened, fields: Sequence[tuple[str, str]], printers: Mapping[str, Printer]) -> None:
    """Takes the choice of a form; what makes no sense stays as it was. Another stock begins with a whole sheet."""
    given = dict(fields)
    stock = load_stocks().get(given.get("stock", ""))
    if stock is None:
        return
    kind, _, value = given.get("printer", "").partition(" ")
    if kind == "name" and value in printers:
        opened.printer = value
    elif kind == "dpi" and value in map(str, PLAIN_DPI):
        opened.printer = ""
    printer = printers.get(opened.printer) or (
        Printer(int(value)) if kind == "dpi" and not opened.printer else opened.labels.printer
    )
    peeled = [
        int(v) for k, v in fields if k == "peeled" and v.isascii() and v.isdigit() and 0 < int(v[:6]) <= stock.cells
    ]
    is_same = given.get("shown", stock.id) == stock.id and len(set(peeled)) < stock.cells
    blocked = tuple(sorted(set(peeled))) if is_same else ()
    opened.labels = LabelChoice(stock.id, blocked=blocked, printer=printer, proof="proof" in given)


def choose_printing(opened: Opened, fields: Sequence[tuple[str, str]]) -> None:
    """Takes the sizes of strips and cards of a form, and whether blank forms are wanted; none changes nothing."""
    given = dict(fields)
    if "strip" not in given or "card" not in given:
        return
    strips, cards = {str(one): one for one in STRIPS_MM}, {_name_size(one): one for one in CARDS_MM}
    opened.printing = PrintChoice("blank" in given, strips.get(given["strip"], 0), cards.get(given["card"], (0, 0)))


def describe_printing(opened: Opened) -> dict[str, Any]:
    """Blank forms and sizes as a form offers them: what it sends and says, whether it is chosen. Strips need racks."""
    chosen, show = opened.printing, opened.reading.show
    strip_mm, card_mm = chosen.strip_mm or STRIP_UM // 1_000, chosen.card_mm if chosen.card_mm[0] else CARDS_MM[0]
    return {
        "blank": chosen.blank,
        "strips": [(one, f"{one} mm high", one == strip_mm) for one in STRIPS_MM] if show and show.racks else [],
        "cards": [(_name_size(one), f"{one[0]} × {one[1]} mm", one == card_mm) for one in CARDS_MM],
    }


def _name_size(size: tuple[int, int]) -> str:
    return f"{size[0]}x{size[1]}"
