"""Inventory and hire return: what went out, by serial, what came back, and in which state. Signed by both sides."""

from typing import NamedTuple

from paperwork.document import Column, Group, Row, Sheet, Table, cell, fact, row, words
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.names import natural_key
from paperwork.plan.stock import count_capsules
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import HAND, HAND_STRONG
from paperwork.words import words_of

NAME = "inventory"
ROW_UM = 9_400


class Item(NamedTuple):
    """What it is, how many, its serial, what it is used as; `of` is the fact where `what` holds words of a language."""

    what: str
    count: str
    serial: str
    used: str
    subject: Subject
    of: str = ""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: transmitters by pack, capsules by kind, racks, and lines for what nobody ever writes down."""
    if not (show.transmitters or show.capsules or show.racks):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["inventory head item"], share=4), Column(w["inventory head count"], 16_000),
        Column(w["inventory head serial"], share=3), Column(w["inventory head used"], share=2),
        forms.tick_column(w["inventory head out"]), forms.tick_column(w["inventory head back"]),
        Column(w["inventory head state"], 44_000),
    )
    titled = (
        (w["inventory transmitters"], _transmitters(show)), (w["inventory capsules"], _capsules(show)),
        (w["inventory racks"], _racks(show)),
    )
    groups = [Group(tuple(map(_row_of, items)), title) for title, items in titled if items]
    groups.append(Group(tuple(_open_row(name) for name in w["inventory accessories"].split(", ")), w["inventory others"]))
    blocks = (Table(columns, tuple(groups), row_um=ROW_UM), _signatures(show))
    sheet = frame_sheet(
        show, NAME, w["inventory"], blocks, subtitle=(w["inventory order"],), cautions=(w["inventory caution"], w["cell caution"])
    )
    return (forms.keep(sheet),)


def _signatures(show: Show) -> Table:
    """Who signs for what went out and for what came back, with room for a signature."""
    w = words_of(show.production.language)
    columns = (
        Column("", 24_000), Column(w["inventory head show"]), Column(w["inventory head hire"]), Column(w["inventory head date"], 34_000)
    )
    rows = tuple(
        row(cell(words(w[f"inventory {when}"], HAND_STRONG)), *(forms.write_cell() for _ in range(3))) for when in ("going", "coming")
    )
    return Table(columns, (Group(rows),), row_um=14_000)


def _transmitters(show: Show) -> list[Item]:
    used = {channel.pack: channel.id for channel in show.channels.values()}
    return [
        Item(" ".join(filter(None, (id, one.radio))), "1", one.serial, used.get(id, ""), Subject("transmitters", id))
        for id, one in sorted(show.transmitters.items(), key=lambda pair: natural_key(pair[0]))
    ]


def _capsules(show: Show) -> list[Item]:
    items = []
    for line in count_capsules(show):
        capsule = show.capsules[line.id]
        told = ", ".join(filter(None, (capsule.type, capsule.pattern)))
        count = "" if line.owned is None else str(line.owned)
        items.append(Item(f"{line.id}, {told}" if told else line.id, count, capsule.serial, "", Subject("capsules", line.id)))
    return items


def _racks(show: Show) -> list[Item]:
    w = words_of(show.production.language)
    return [
        Item(
            w["inventory rack"].format(rack=rack.id, slots=rack.slots), str(len(rack.units)), "", "", Subject("racks", rack.id),
            of=f"{rack.id} {rack.slots}",
        )
        for rack in show.racks.values()
    ]


def _row_of(item: Item) -> Row:
    return row(
        cell(fact(item.what, HAND_STRONG, of=item.of)),
        cell(fact(item.count, HAND_STRONG)),
        cell(fact(item.serial, HAND)) if item.serial else forms.write_cell(),
        cell(fact(item.used, HAND)),
        forms.tick_cell(),
        forms.tick_cell(),
        forms.write_cell(),
        subjects=(item.subject,),
    )


def _open_row(name: str) -> Row:
    return row(
        cell(words(name, HAND_STRONG)), cell(), forms.write_cell(), cell(), forms.tick_cell(), forms.tick_cell(),
        forms.write_cell(),
    )
