"""The contact strip: whom to call when something stops, on the rack door. One line is known, the others are for a pen."""

import re

from paperwork.document import Column, Group, Note, Row, Sheet, Table, WriteIn, cell, fact, row, words
from paperwork.model import Production, Show
from paperwork.sheets.frame import frame_sheet, licence_caution
from paperwork.styles import CONTACT, RACK_STRONG
from paperwork.words import format_date, words_of

NAME = "contact-strip"
OTHERS = ("stage", "desk", "wardrobe", "hire", "coordinator", "house")
MORE = 2
"""Rows for whoever else has to be called."""

REACHED = re.compile(r"\S*@\S+|[+(]?\d(?=[\d\s()/.-]*)")
"""Where an address or a number starts."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs a contact or a licence."""
    production = show.production
    if not (production.contact or production.licence):
        return ()
    w = words_of(production.language)
    columns = (Column(w["contact head who"], 52_000), Column(w["contact head name"]), Column(w["contact head reach"]))
    rows = [_row(w["contact sound"], *split_contact(production.contact))]
    rows += [_row(w[f"contact {name}"]) for name in OTHERS]
    rows += [row(*(cell(WriteIn()) for _ in columns)) for _ in range(MORE)]
    blocks: list = [Table(columns, (Group(tuple(rows)),), row_um=20_000)]
    if production.licence:
        blocks.append(Note(_licence(production), facts=(production.licence, production.licensed_for)))
    return (
        frame_sheet(
            show, NAME, w["contacts"], tuple(blocks), subtitle=(w["contact order"],), cautions=(licence_caution(show),)
        ),
    )


def split_contact(contact: str) -> tuple[str, str]:
    """Who it is and how they are reached: the part from the first number or address on, with the words that lead to it.

    `Mara Lind, house extension 21` is parted at the comma, `Mara Lind 555 0134` before the number.
    """
    for match in re.finditer(r"\s*[,;:·]\s*", contact):
        if REACHED.search(contact, match.end()):
            return contact[: match.start()].strip(), contact[match.end() :].strip()
    found = REACHED.search(contact)
    return (contact[: found.start()].strip(), contact[found.start() :].strip()) if found else (contact.strip(), "")


def _row(who: str, name: str = "", reach: str = "") -> Row:
    told = (cell(fact(text, CONTACT)) if text else cell(WriteIn()) for text in (name, reach))
    return row(cell(words(who, RACK_STRONG)), *told)


def _licence(production: Production) -> str:
    w = words_of(production.language)
    told = w["contact licence"].format(licence=production.licence)
    days = [format_date(day, production.language) for day in (production.licensed_from, production.licensed_to) if day]
    parts = (told, production.licensed_for, " – ".join(dict.fromkeys(days)))
    return "  ·  ".join(filter(None, parts))
