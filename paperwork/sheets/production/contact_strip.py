"""The contact strip: whom to call when something stops, on the rack door. One line is known, the others are for a pen."""

from paperwork.document import Cell, Column, Group, Note, Row, Sheet, Table, WriteIn, cell, fact, row, words
from paperwork.model import Production, Show
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import RACK_ROLE, RACK_STRONG
from paperwork.words import format_date, words_of

NAME = "contact-strip"
OTHERS = ("stage", "desk", "wardrobe", "hire", "coordinator", "house")


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs a contact or a licence."""
    production = show.production
    if not (production.contact or production.licence):
        return ()
    w = words_of(production.language)
    columns = (Column(w["contact head who"], 62_000), Column(w["contact head name"], share=1), Column(w["contact head reach"], 62_000))
    rows = [_row(w["contact sound"], cell(fact(production.contact, RACK_ROLE)) if production.contact else cell(WriteIn()))]
    rows += [_row(w[f"contact {name}"], cell(WriteIn())) for name in OTHERS]
    blocks: list = [Table(columns, (Group(tuple(rows)),), row_um=20_000)]
    if production.licence:
        blocks.append(Note(_licence(production), facts=(production.licence, production.licensed_for)))
    return (
        frame_sheet(show, NAME, w["contacts"], tuple(blocks), subtitle=(w["contact order"],), cautions=(w["licence caution"],)),
    )


def _row(who: str, name: Cell) -> Row:
    return row(cell(words(who, RACK_STRONG)), name, cell(WriteIn()))


def _licence(production: Production) -> str:
    w = words_of(production.language)
    told = w["contact licence"].format(licence=production.licence)
    days = [format_date(day, production.language) for day in (production.licensed_from, production.licensed_to) if day]
    parts = (told, production.licensed_for, " – ".join(dict.fromkeys(days)))
    return "  ·  ".join(filter(None, parts))
