"""The contact strip: whom to call when something stops, on the rack door. Where one line is known, the others are for a pen."""

import re
from collections.abc import Iterator

from paperwork.document import Block, Column, Note, RowGroup, Sheet, Table, TableRow, WriteIn, cell, fact, row, words
from paperwork.document.styles import CONTACT, RACK_STRONG
from paperwork.model import Contact, Show
from paperwork.sheets.forms import format_days, known_cell
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.text.names import fold

NAME = "contact-strip"
OTHERS = ("stage", "desk", "wardrobe", "hire", "coordinator", "house")
MORE = 2
"""Rows for whoever else has to be called."""

WHOM = ("name", "reach")
LISTED = (("job", 3), ("name", 4), ("reach", 4))

REACHED = re.compile(r"\S*@\S+|[+(]?(?<!\w)\d++(?!\w)")
"""Where an address or a number starts; the figure of a word, as in A2 or 2nd, is none."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs a contact, contacts or a licence."""
    production = show.production
    if not (production.contact or production.licence or show.contacts):
        return ()
    if show.contacts:
        columns = headed(show, *(Column(f"contact head {head}", share=share) for head, share in LISTED))
    else:
        columns = headed(show, Column("contact head who", 52_000), *(Column(f"contact head {head}") for head in WHOM))
    groups = tuple(_list_departments(show)) if show.contacts else (RowGroup(tuple(_list_usual(show))),)
    blank = row(*(cell(WriteIn()) for _ in columns))
    rows = (*groups, RowGroup((blank,) * MORE, phrase(show, "contact others") if show.contacts else ""))
    if not show.contacts:
        rows = (RowGroup((*groups[0].rows, *(blank,) * MORE)),)
    blocks: list[Block] = [Table(columns, rows, row_um=12_000 if show.contacts else 20_000)]
    if production.licence:
        blocks.append(
            Note(
                _licence(show),
                facts=(production.licence, production.licensed_for, production.licensed_from, production.licensed_to),
            )
        )
    return (frame_sheet(show, NAME, "contacts", tuple(blocks), order="contact order", cautions=("licence caution",)),)


def _list_usual(show: Show) -> Iterator[TableRow]:
    """Whoever answers for the plan, and a line for each of the others that a show has."""
    yield _row(phrase(show, "contact sound"), *split_contact(show.production.contact))
    yield from (_row(phrase(show, f"contact {name}")) for name in OTHERS)


def _list_departments(show: Show) -> Iterator[RowGroup]:
    """Whoever answers for the plan, unless the contacts name them; then the departments as they come in the show."""
    name, reach = split_contact(show.production.contact)
    known = {fold(text) for one in show.contacts for text in (one.id, one.phone, one.other)} - {""}
    if name and known.isdisjoint((fold(name), fold(reach))):
        yield RowGroup((_row("", name, reach),), phrase(show, "contact plan"))
    for department in dict.fromkeys(one.department for one in show.contacts):
        rows = tuple(_contact_row(one) for one in show.contacts if one.department == department)
        yield RowGroup(rows, department or phrase(show, "contact others"), facts=(department,))


def _contact_row(one: Contact) -> TableRow:
    reach = [fact(text, CONTACT) for text in (one.phone, one.other) if text]
    return row(
        cell(fact(one.job, RACK_STRONG)),
        cell(fact(one.id, CONTACT)),
        cell(*reach) if reach else cell(WriteIn()),
        where=one.where.record,
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


def _row(who: str, name: str = "", reach: str = "") -> TableRow:
    return row(cell(words(who, RACK_STRONG)), known_cell(name, CONTACT), known_cell(reach, CONTACT))


def _licence(show: Show) -> str:
    production = show.production
    number = phrase(show, "contact licence", licence=production.licence)
    days = format_days(show, production.licensed_from, production.licensed_to)
    return "  ·  ".join(filter(None, (number, production.licensed_for, days)))
