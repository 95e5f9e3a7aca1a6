"""The battery plan: which cells go in when, for how long they must last, and which come out. At the mic station."""

from collections.abc import Iterator

from paperwork.document import (
    Block,
    Cell,
    Column,
    Note,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    Tag,
    WriteIn,
    cell,
    fact,
    row,
)
from paperwork.document.styles import RACK_NUMBER, RACK_SMALL, RACK_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.plan.day.batteries import BatteryPlan, CellChange, CellRun, fits, plan_batteries
from paperwork.plan.rules import margin_hundredths
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, is_staged, phrase, subjects_of_channel, title_line
from paperwork.sheets.times import day_time_words
from paperwork.text.names import natural_key, shorten_ids
from paperwork.text.units import format_clock, format_hours
from paperwork.text.words import decimal, list_words

NAME = "battery-plan"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: change by change, and at each every pack that takes fresh cells, so that none is left out."""
    plans = plan_batteries(show)
    if not plans and not any(transmitter.cells for transmitter in show.transmitters.values()):
        return ()
    columns = headed(
        show,
        Column("battery head pack", forms.NUMBER_UM, spares=True),
        Column("head role only", share=5),
        Column("battery head cells", share=4),
        Column("battery head on", 33_000),
        forms.tick_column("battery head in"),
        forms.tick_column("battery head out"),
        Column("head initials", forms.WRITE_UM),
    )
    blocks: tuple[Block, ...] = (
        Table(columns, tuple(_groups(show, plans)), row_um=forms.FORM_ROW_UM),
        *_notes(show, plans),
    )
    margin = phrase(
        show, "battery margin", margin=decimal(f"{margin_hundredths(show) / 100:g}", show.production.language)
    )
    return (
        frame_sheet(
            show,
            NAME,
            "battery",
            blocks,
            order="battery order",
            subtitle=(margin,),
            cautions=("battery caution", "cell caution"),
            facts=(str(margin_hundredths(show)),),
        ),
    )


def _groups(show: Show, plans: tuple[BatteryPlan, ...]) -> Iterator[RowGroup]:
    """A bar for each time at which cells are changed, with the count of packs; at last those of unknown hours."""
    at: dict[CellChange, list[tuple[Channel, BatteryPlan, CellRun]]] = {}
    for plan in plans:
        for run in plan.runs:
            at.setdefault(run.change, []).append((show.channels[plan.channel], plan, run))
    for change in sorted(at):
        rows = tuple(_row_of(show, *one) for one in sorted(at[change], key=lambda one: natural_key(one[0].pack)))
        point = phrase(show, _name_between(show) if change.point == "between" else f"battery {change.point}")
        title = phrase(show, "battery at", time=day_time_words(show, change.at_s), point=point)
        yield RowGroup(
            rows,
            title,
            phrase(show, "battery count", count=len(rows)),
            facts=(str(change.at_s), change.point, str(len(rows))),
        )
    known = {plan.channel for plan in plans}
    unknown = [one for one in show.channels.values() if not one.spare and one.id not in known]
    if unknown:
        rows = tuple(_row_of(show, one) for one in sorted(unknown, key=lambda one: natural_key(one.pack)))
        yield RowGroup(
            rows,
            phrase(show, "battery unknown") if plans else "",
            phrase(show, "battery count", count=len(rows)),
            facts=("unknown", str(bool(plans)), str(len(rows))),
        )


def _row_of(show: Show, channel: Channel, plan: BatteryPlan | None = None, run: CellRun | None = None) -> TableRow:
    transmitter = show.transmitters.get(channel.pack)
    cells, mark = (transmitter.cells, transmitter.set) if transmitter else ("", "")
    set_text = phrase(show, "battery set", set=mark) if mark else ""
    number = "" if channel.pack == channel.id else phrase(show, "battery channel", channel=channel.id)
    return row(
        cell(fact(channel.pack, RACK_NUMBER), key=True),
        cell(title_line(show, channel, RACK_STRONG), fact(number, RACK_SMALL, of=channel.id)),
        cell(fact(set_text, RACK_STRONG, of=mark), fact(cells, RACK_SMALL)) if mark or cells else cell(WriteIn()),
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
    needs_s = -(-run.on_s * plan.margin_hundredths // 6000) * 60
    reaches = fits(run.on_s, plan.hours_s, plan.margin_hundredths)
    low = "short" if run.on_s > plan.hours_s else "" if reaches else "tight"
    needs = phrase(show, "battery needs", needs=format_hours(needs_s), have=format_clock(plan.hours_s // 60 * 60))
    on = fact(phrase(show, "battery on", time=format_hours(run.on_s)), RACK_STRONG, of=f"on {run.on_s}")
    if low:
        return cell(on, Tag(phrase(show, f"battery {low}"), fact=low))
    return cell(on, fact(needs, RACK_SMALL, of=f"{needs_s} of {plan.hours_s}"))


def _notes(show: Show, plans: tuple[BatteryPlan, ...]) -> Iterator[Note]:
    if plans and any(plan.chosen for plan in plans):
        yield Note(phrase(show, "battery chosen"), facts=("chosen",))
    spares = [channel.pack for channel in show.channels.values() if channel.spare]
    if spares:
        yield Note(phrase(show, "battery spares", packs=shorten_ids(spares)), facts=tuple(spares))
    in_ears = [pack for other in show.others.values() for pack in other.packs]
    if in_ears:
        text = list_words(in_ears, show.production.language)
        yield Note(phrase(show, "battery in-ears", packs=text), facts=tuple(in_ears))


def _name_between(show: Show) -> str:
    """Between shows; within one between the acts of a bill, or the parts of a match or a conference."""
    if is_staged(show):
        return "battery between"
    return "battery between parts" if any(scene.kind == "set" for scene in show.scenes) else "battery between segments"
