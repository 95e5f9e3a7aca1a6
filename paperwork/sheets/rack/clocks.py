"""Clock domains and network: who leads, who follows, who converts, and at which address each box answers."""

from collections.abc import Iterator

from paperwork.document import (
    Column,
    Item,
    Panel,
    Panels,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    Tag,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import RACK_PLUG, RACK_ROLE, RACK_SMALL, RACK_STRONG
from paperwork.finding import Subject
from paperwork.model import Console, Rack, Show
from paperwork.plan.clocks import OWN, Device, Domain, list_domains
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.text.names import fold

NAME = "clocks-and-network"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, domain by domain, the leader on top. Needs a clock, a rate or an address of some box."""
    domains = list_domains(show)
    if not any(_has_clock_facts(device) for domain in domains for device in domain.devices):
        return ()
    columns = headed(
        show,
        Column("clock head box", share=4),
        Column("clock head clock", share=3),
        Column("clock head rate", 25_000),
        Column("clock head address", 49_000),
        Column("clock head locked", 18_000),
        Column("clock head answers", 18_000),
    )
    groups = tuple(_group_of(show, domain) for domain in domains)
    steps = tuple(phrase(show, f"clock step {number}") for number in (1, 2, 3))
    blocks = (
        Table(columns, groups, row_um=forms.FORM_ROW_UM),
        Panels((Panel(phrase(show, "clock steps"), steps),), across=1),
    )
    return (frame_sheet(show, NAME, "clocks", blocks, order="clock order"),)


def _has_clock_facts(device: Device) -> bool:
    return bool(device.clock or device.rate or (isinstance(device, Rack) and (device.address or device.network)))


def _group_of(show: Show, domain: Domain) -> RowGroup:
    rows = tuple(_row_of(show, device, leads=device.id == domain.leader) for device in domain.devices)
    title = phrase(show, "clock domain", leader=domain.leader) if domain.leader else phrase(show, "clock unknown")
    return RowGroup(rows, title, phrase(show, "clock boxes", count=len(rows)), facts=(domain.leader, str(len(rows))))


def _row_of(show: Show, device: Device, *, leads: bool) -> TableRow:
    follows = "" if leads or fold(device.clock) in OWN else device.clock
    section = "racks" if isinstance(device, Rack) else "consoles"
    if leads:
        clock = cell(fact(phrase(show, "clock leads"), RACK_PLUG, of="leads"))
    elif follows:
        clock = cell(fact(phrase(show, "clock follows", leader=follows), RACK_STRONG, of=follows))
    else:
        clock = cell(WriteIn())
    return row(
        cell(fact(device.id, RACK_ROLE), *_what_it_is(show, device)),
        clock,
        cell(fact(device.rate, RACK_STRONG) if device.rate else WriteIn(), *_converts(show, device)),
        cell(*_address(device)),
        forms.tick_cell(),
        forms.tick_cell(),
        subjects=(Subject(section, device.id),),
        where=device.where.record,
    )


def _what_it_is(show: Show, device: Device) -> Iterator[Item]:
    if isinstance(device, Console):
        yield fact(device.name, RACK_SMALL)
    else:
        yield fact(phrase(show, "clock rack", count=device.slots), RACK_SMALL, of=f"{device.slots} slots")


def _converts(show: Show, device: Device) -> Iterator[Tag]:
    if isinstance(device, Console) and device.converts:
        yield Tag(phrase(show, "converts"), fact="converts")


def _address(device: Device) -> tuple[Item, ...]:
    if isinstance(device, Console):
        return (words("–", RACK_STRONG),)
    return (fact(device.address, RACK_STRONG) if device.address else WriteIn(), fact(device.network, RACK_SMALL))
