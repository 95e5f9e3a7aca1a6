"""The contact strip: whom to call when something stops, on the rack door. One line is known, the others are for a pen."""

import re

from paperwork.document import Block, Column, Note, RowGroup, Sheet, Table, TableRow, WriteIn, cell, row, words
from paperwork.document.styles import CONTACT, RACK_STRONG
from paperwork.model import Show
from paperwork.sheets.forms import format_days, known_cell
from paperwork.sheets.frame import frame_sheet, headed, phrase

NAME = "contact-strip"
OTHERS = ("stage", "desk", "wardrobe", "hire", "coordinator", "house")
MORE = 2
"""Rows for whoever else has to be called."""

REACHED = re.compile(r"\S*@\S+|[+(]?(?<!\w)\d++(?!\w)")
"""Where an address or a number starts; the figure of a word, as in A2 or 2nd, is none."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs a contact or a licence."""
    production = show.production
    if not (production.contact or production.licence):
        return ()
    columns = headed(
        show, Column("contact head who", 52_000), Column("contact head name"), Column("contact head reach")
    )
    rows = [_row(phrase(show, "contact sound"), *split_contact(production.contact))]
    rows += [_row(phrase(show, f"contact {name}")) for name in OTHERS]
    rows += [row(*(cell(WriteIn()) for _ in columns)) for _ in range(MORE)]
    blocks: list[Block] = [Table(columns, (RowGroup(tuple(rows)),), row_um=20_000)]
    if production.licence:
        blocks.append(
            Note(
                _licence(show),
                facts=(production.licence, production.licensed_for, production.licensed_from, production.licensed_to),
            )
        )
    return (frame_sheet(show, NAME, "contacts", tuple(blocks), order="contact order", cautions=("licence caution",)),)


def split_contact(contact: str) -> tuple[str, str]:
    """Who it is and how they are reached: the part from the first number or address on, with the words that lead to it.

    `Mara Lind, house extension 21` is parted at the comma, `Mara Lind 555 0134` before the number.
    """
    for match in re.finditer(r"\s*[,;:·]\s*", contact):
        if REACHED.search(contact, match.end()):
            return contact[: match.start()].strip(), contact[match.end() :].strip()
    found = REACHED.search(contact)
    return (contact[: found.start()].strip(), contact[found.start() :].strip()) if found else (contact.strip(), "")


def _row(who: str, name: str = "", reach: str = "") -> TableRow:
    return row(cell(words(who, RACK_STRONG)), known_cell(name, CONTACT), known_cell(reach, CONTACT))


def _licence(show: Show) -> str:
    production = show.production
    number = phrase(show, "contact licence", licence=production.licence)
    days = format_days(show, production.licensed_from, production.licensed_to)
    return "  ·  ".join(filter(None, (number, production.licensed_for, days)))
