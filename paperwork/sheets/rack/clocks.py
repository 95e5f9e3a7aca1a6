"""Clock domains and network: who leads, who follows, who converts, and at which address each box answers."""

from collections.abc import Iterator

from paperwork.document import (
    Column,
    Group,
    Panel,
    Panels,
    Row,
    Sheet,
    Table,
    Tag,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.finding import Subject
from paperwork.model import Console, Rack, Show
from paperwork.names import fold
from paperwork.plan.clocks import OWN, Device, Domain, list_domains
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import RACK_ROLE, RACK_SMALL, RACK_STRONG
from paperwork.words import words_of

NAME = "clocks-and-network"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, domain by domain, the leader on top. Needs a clock, a rate or an address of some box."""
    domains = list_domains(show)
    if not any(_tells(device) for domain in domains for device in domain.devices):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["clock head box"], share=4),
        Column(w["clock head clock"], share=3),
        Column(w["clock head rate"], 27_000),
        Column(w["clock head address"], 50_000),
        forms.tick_column(w["clock head locked"]),
        forms.tick_column(w["clock head answers"]),
    )
    groups = tuple(_group_of(show, domain) for domain in domains)
    steps = tuple(w[f"clock step {number}"] for number in (1, 2, 3))
    blocks = (Table(columns, groups, row_um=forms.FORM_ROW_UM), Panels((Panel(w["clock steps"], steps),), across=1))
    return (frame_sheet(show, NAME, w["clocks"], blocks, subtitle=(w["clock order"],)),)


def _tells(device: Device) -> bool:
    return bool(device.clock or device.rate or (isinstance(device, Rack) and (device.address or device.network)))


def _group_of(show: Show, domain: Domain) -> Group:
    w = words_of(show.production.language)
    rows = tuple(_row_of(show, device, leads=device.id == domain.leader) for device in domain.devices)
    title = w["clock domain"].format(leader=domain.leader) if domain.leader else w["clock unknown"]
    return Group(rows, title, w["clock boxes"].format(count=len(rows)), facts=(domain.leader,))


def _row_of(show: Show, device: Device, *, leads: bool) -> Row:
    w = words_of(show.production.language)
    follows = "" if leads or fold(device.clock) in OWN else device.clock
    section = "racks" if isinstance(device, Rack) else "consoles"
    if leads:
        clock = cell(fact(w["clock leads"], RACK_ROLE, of="leads"))
    elif follows:
        clock = cell(fact(w["clock follows"].format(leader=follows), RACK_STRONG, of=follows))
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


def _what_it_is(show: Show, device: Device) -> Iterator:
    w = words_of(show.production.language)
    if isinstance(device, Console):
        yield fact(device.name, RACK_SMALL)
    else:
        yield words(w["clock rack"].format(count=device.slots), RACK_SMALL)


def _converts(show: Show, device: Device) -> Iterator[Tag]:
    if isinstance(device, Console) and device.converts:
        yield Tag(words_of(show.production.language)["converts"], fact="converts")


def _address(device: Device) -> tuple:
    if isinstance(device, Console):
        return (words("–", RACK_STRONG),)
    return (fact(device.address, RACK_STRONG) if device.address else WriteIn(), fact(device.network, RACK_SMALL))
