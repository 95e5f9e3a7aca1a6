"""Inventory and hire return: what went out, by serial, what came back, and in which state. Signed by both sides.

Transmitters are ticked one by one, with what is clipped to each; whatever is had by the dozen is counted, out and back.
"""

from collections.abc import Iterator, Mapping

from paperwork.document import Cell, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Capsule, Hire, Show, Transmitter
from paperwork.plan.stock import count_capsules
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.sheets.wardrobe.ears import KIND as IN_EAR
from paperwork.text.names import natural_key, shorten_ids
from paperwork.text.words import format_date

NAME = "inventory"
ROW_UM = 9_400
COUNT_UM = 24_000
"""A column for a counted number with a word: 21 mm of handwriting (common practice, no source)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: transmitters by pack, then what is counted, and lines for what nobody ever writes down."""
    if not (show.transmitters or show.capsules or show.racks or show.hires):
        return ()
    blocks = (*_hired(show), *_transmitters(show), _counted(show), _signatures(show))
    sheet = frame_sheet(
        show, NAME, "inventory", blocks, order="inventory order", cautions=("inventory caution", "cell caution")
    )
    return (forms.keep(sheet),)


def _hired(show: Show) -> Iterator[Table]:
    """What goes back when, the first day first, and to whom."""
    if not show.hires:
        return
    columns = headed(
        show,
        Column("inventory head item", share=5),
        Column("inventory head serial", share=4),
        Column("inventory head count", forms.SHORT_UM),
        Column("inventory head from", 30_000),
        *(forms.tick_column(f"inventory head {name}") for name in ("out", "back")),
        Column("inventory head state", 46_000),
    )
    returns: dict[tuple[bool, str, str], list[Hire]] = {}
    for hire in show.hires.values():
        returns.setdefault((not hire.until_day, hire.until_day, hire.firm), []).append(hire)
    groups = tuple(_return_of(show, day, firm, hires) for (_, day, firm), hires in sorted(returns.items()))
    yield Table(columns, groups, row_um=ROW_UM)


def _return_of(show: Show, day: str, firm: str, hires: list[Hire]) -> RowGroup:
    date = format_date(day, show.production.language) if day else ""
    title = phrase(show, "inventory goes back" if day else "inventory goes back undated", date=date, firm=firm)
    rows = tuple(
        row(
            cell(fact(one.item, HAND_STRONG), fact(shorten_ids(one.packs), HAND, of=" ".join(one.packs))),
            forms.known_cell(one.serial),
            cell(fact(str(one.count or len(one.packs) or ""), HAND_STRONG))
            if one.count or one.packs
            else forms.write_cell(),
            cell(fact(format_date(one.from_day, show.production.language), HAND, of=one.from_day))
            if one.from_day
            else forms.write_cell(),
            *(forms.tick_cell() for _ in range(2)),
            forms.write_cell(),
            subjects=(Subject("hires", one.id),),
            where=one.where.record,
        )
        for one in hires
    )
    return RowGroup(rows, title, str(len(rows)), facts=(day, firm))


def _list_transmitters(show: Show) -> Mapping[str, Transmitter]:
    """Those of the section; where it is not there, the pack of each channel."""
    return show.transmitters or {
        channel.pack: Transmitter(channel.pack, radio=channel.radio, where=channel.where)
        for channel in show.channels.values()
    }


def _transmitters(show: Show) -> Iterator[Table]:
    """Each with its serial, the channel it plays, and a square for each thing that goes and comes with it."""
    if not (listed := _list_transmitters(show)):
        return
    ticked = ("out", "back", "antenna", "clip", "pouch")
    columns = headed(
        show,
        Column("inventory head item", share=4),
        Column("inventory head serial", share=4),
        Column("inventory head used", share=2),
        *(forms.tick_column(f"inventory head {name}") for name in ticked),
        Column("inventory head state", 46_000),
    )
    used = {channel.pack: channel.id for channel in show.channels.values()}
    rows = tuple(
        row(
            cell(fact(" ".join(filter(None, (id, one.radio))), HAND_STRONG)),
            forms.known_cell(one.serial),
            cell(fact(used.get(id, ""), HAND)),
            *(forms.tick_cell() for _ in ticked),
            forms.write_cell(),
            subjects=(Subject("transmitters", id), *(() if id in show.transmitters else _players(show, id))),
            where=one.where.record,
        )
        for id, one in sorted(listed.items(), key=lambda pair: natural_key(pair[0]))
    )
    yield Table(
        columns,
        (
            RowGroup(
                rows, phrase(show, "inventory transmitters"), str(len(rows)), facts=("transmitters", str(len(rows)))
            ),
        ),
        row_um=ROW_UM,
    )


def _counted(show: Show) -> Table:
    """What is had by the dozen, and what is forgotten: how many there should be, and how many were counted each way."""
    columns = headed(
        show,
        Column("inventory head item", share=5),
        Column("inventory head serial", share=3),
        Column("inventory head count", forms.SHORT_UM),
        *(Column(f"inventory head counted {way}", COUNT_UM) for way in ("out", "back")),
        Column("inventory head state", 46_000),
    )
    capsules = [line.owned for line in count_capsules(show)]
    listed = (
        ("capsules", list(_capsules(show)), str(sum(filter(None, capsules))) if None not in capsules else ""),
        ("racks", list(_racks(show)), str(sum(len(rack.units) for rack in show.racks.values()))),
        ("in-ears", list(_in_ears(show)), ""),
    )
    groups = [
        RowGroup(tuple(rows), phrase(show, f"inventory {kind}"), total, facts=(kind, total))
        for kind, rows, total in listed
        if rows
    ]
    names = phrase(show, "inventory accessories").split(", ")
    rest = tuple(_row_of(cell(words(name, HAND_STRONG)), "", None) for name in names)
    groups.append(RowGroup(rest, phrase(show, "inventory others")))
    return Table(columns, tuple(groups), row_um=ROW_UM)


def _players(show: Show, pack: str) -> Iterator[Subject]:
    return (Subject("channels", channel.id) for channel in show.channels.values() if channel.pack == pack)


def _capsules(show: Show) -> Iterator[TableRow]:
    """Those of the section with how many are owned; where it is not there, those that channels name."""
    for line in count_capsules(show):
        capsule = show.capsules.get(line.id, Capsule(line.id))
        text = ", ".join(filter(None, (line.id, capsule.type, capsule.pattern, capsule.fit)))
        yield _row_of(cell(fact(text, HAND_STRONG)), capsule.serial, line.owned, Subject("capsules", line.id))


def _racks(show: Show) -> Iterator[TableRow]:
    for rack in show.racks.values():
        text = phrase(show, "inventory rack", rack=rack.id, count=rack.slots)
        name = cell(fact(text, HAND_STRONG, of=f"{rack.id} {rack.slots}"))
        yield _row_of(name, "", len(rack.units), Subject("racks", rack.id))


def _in_ears(show: Show) -> Iterator[TableRow]:
    """The in-ears of our own people: each transmitter, and its packs, whose number may not be known."""
    for other in show.others.values():
        if other.kind == IN_EAR and (other.packs or other.listeners):
            packs = shorten_ids(other.packs)
            sender = phrase(show, "inventory ear sender", other=other.id)
            receivers = phrase(show, "inventory ear packs", other=other.id, packs=packs).strip()
            about, count = Subject("others", other.id), len(other.packs) or None
            yield _row_of(cell(fact(sender, HAND_STRONG, of=other.id)), "", 1, about)
            yield _row_of(cell(fact(receivers, HAND_STRONG, of=f"{other.id} {packs}")), "", count, about)


def _row_of(name: Cell, serial: str, count: int | None, *subjects: Subject) -> TableRow:
    counted = forms.write_cell() if count is None else cell(fact(str(count), HAND_STRONG))
    return row(name, forms.known_cell(serial), counted, *(forms.write_cell() for _ in range(3)), subjects=subjects)


def _signatures(show: Show) -> Table:
    """Who signs for what went out and for what came back, with room for a signature."""
    columns = headed(
        show,
        Column("", 24_000),
        Column("inventory head show"),
        Column("inventory head hire"),
        Column("inventory head date", 34_000),
    )
    rows = tuple(
        row(cell(words(phrase(show, f"inventory {when}"), HAND_STRONG)), *(forms.write_cell() for _ in range(3)))
        for when in ("going", "coming")
    )
    return Table(columns, (RowGroup(rows),), row_um=14_000)
