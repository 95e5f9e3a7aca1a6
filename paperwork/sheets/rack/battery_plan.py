"""The battery plan: which cells go in when, for how long they must last, and which come out. At the mic station."""

from collections.abc import Iterator

from paperwork.document import Block, Cell, Column, Group, Note, Row, Sheet, Table, Tag, WriteIn, cell, fact, row
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.names import natural_key, shorten_ids
from paperwork.plan.batteries import BatteryPlan, CellChange, CellRun, fits, plan_batteries
from paperwork.plan.rules import margin_hundredths
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, subjects_of_channel, title_fact_of, title_of
from paperwork.styles import RACK_NUMBER, RACK_SMALL, RACK_STRONG
from paperwork.units import format_clock
from paperwork.words import list_words, words_of

NAME = "battery-plan"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: change by change, and at each every pack that takes fresh cells, so that none is left out."""
    plans = plan_batteries(show)
    if not plans and not any(transmitter.cells for transmitter in show.transmitters.values()):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["battery head pack"], forms.NUMBER_UM, spares=True),
        Column(w["head role only"], share=5),
        Column(w["battery head cells"], share=4),
        Column(w["battery head on"], 33_000),
        forms.tick_column(w["battery head in"]),
        forms.tick_column(w["battery head out"]),
        Column(w["head initials"], forms.WRITE_UM),
    )
    blocks: tuple[Block, ...] = (
        Table(columns, tuple(_groups(show, plans)), row_um=forms.FORM_ROW_UM),
        *_notes(show, plans),
    )
    margin = w["battery margin"].format(margin=_factor(margin_hundredths(show)))
    return (
        frame_sheet(
            show,
            NAME,
            w["battery"],
            blocks,
            subtitle=(w["battery order"], margin),
            cautions=(w["battery caution"], w["cell caution"]),
        ),
    )


def _factor(hundredths: int) -> str:
    return f"{hundredths // 100}.{hundredths % 100:02d}".rstrip("0").rstrip(".")


def _groups(show: Show, plans: tuple[BatteryPlan, ...]) -> Iterator[Group]:
    """A bar for each time at which cells are changed, with the count of packs; at last those of unknown hours."""
    w = words_of(show.production.language)
    at: dict[CellChange, list[tuple[Channel, BatteryPlan, CellRun]]] = {}
    for plan in plans:
        for run in plan.runs:
            at.setdefault(run.change, []).append((show.channels[plan.channel], plan, run))
    for change in sorted(at):
        rows = tuple(_row_of(show, *one) for one in sorted(at[change], key=lambda one: natural_key(one[0].pack)))
        title = w["battery at"].format(time=forms.time_of_day(change.at_s), point=w[f"battery {change.point}"])
        yield Group(rows, title, w["battery count"].format(count=len(rows)), facts=(str(change.at_s), change.point))
    known = {plan.channel for plan in plans}
    unknown = [one for one in show.channels.values() if not one.spare and one.id not in known]
    if unknown:
        rows = tuple(_row_of(show, one) for one in sorted(unknown, key=lambda one: natural_key(one.pack)))
        yield Group(
            rows, w["battery untold"] if plans else "", w["battery count"].format(count=len(rows)), facts=("untold",)
        )


def _row_of(show: Show, channel: Channel, plan: BatteryPlan | None = None, run: CellRun | None = None) -> Row:
    w = words_of(show.production.language)
    transmitter = show.transmitters.get(channel.pack)
    cells = transmitter.cells if transmitter else ""
    told_set = w["battery set"].format(set=transmitter.set) if transmitter and transmitter.set else ""
    number = "" if channel.pack == channel.id else w["battery channel"].format(channel=channel.id)
    return row(
        cell(fact(channel.pack, RACK_NUMBER), key=True),
        cell(
            fact(title_of(show, channel), RACK_STRONG, of=title_fact_of(channel)),
            fact(number, RACK_SMALL, of=channel.id),
        ),
        cell(fact(told_set, RACK_STRONG, of=transmitter.set), fact(cells, RACK_SMALL))
        if told_set and transmitter
        else cell(fact(cells, RACK_SMALL))
        if cells
        else cell(WriteIn()),
        _hours_cell(show, plan, run) if plan and run else cell(WriteIn()),
        forms.tick_cell(),
        forms.tick_cell(),
        forms.write_cell(),
        subjects=(
            *subjects_of_channel(show, channel),
            *((Subject("transmitters", channel.pack),) if transmitter else ()),
        ),
        where=channel.where.record,
    )


def _hours_cell(show: Show, plan: BatteryPlan, run: CellRun) -> Cell:
    """How long the pack is on with these cells, what that asks for with the margin, and what the cells have."""
    w = words_of(show.production.language)
    needs_s = -(-run.on_s * plan.margin_hundredths // 6000) * 60
    low = (
        "short" if run.on_s > plan.hours_s else "" if fits(run.on_s, plan.hours_s, plan.margin_hundredths) else "tight"
    )
    needs = w["battery needs"].format(needs=_hours(needs_s), have=_hours(plan.hours_s))
    return cell(
        fact(w["battery on"].format(time=_hours(run.on_s)), RACK_STRONG, of=f"on {run.on_s}"),
        Tag(w[f"battery {low}"], fact=low) if low else fact(needs, RACK_SMALL, of=f"{needs_s} of {plan.hours_s}"),
    )


def _hours(seconds: int) -> str:
    return format_clock(-(-seconds // 60) * 60)


def _notes(show: Show, plans: tuple[BatteryPlan, ...]) -> Iterator[Note]:
    w = words_of(show.production.language)
    if plans and any(plan.chosen for plan in plans):
        yield Note(w["battery chosen"])
    spares = [channel.pack for channel in show.channels.values() if channel.spare]
    if spares:
        yield Note(w["battery spares"].format(packs=shorten_ids(spares)), facts=tuple(spares))
    in_ears = [pack for other in show.others.values() for pack in other.packs]
    if in_ears:
        told = list_words(in_ears, show.production.language)
        yield Note(w["battery in-ears"].format(packs=told), facts=tuple(in_ears))
