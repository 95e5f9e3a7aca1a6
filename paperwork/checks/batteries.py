"""Batteries: whether the cells reach their next change, and whether marked sets stay unmixed."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show, Transmitter
from paperwork.names import fold, shorten_ids
from paperwork.place import Place
from paperwork.plan.batteries import BatteryPlan, plan_batteries
from paperwork.units import format_clock

DAY_S = 24 * 3600


def check_batteries(show: Show) -> Iterator[Finding]:
    """The cells reach the next change, with the margin. One finding for all packs whose hours stand in one place."""
    groups: dict[tuple[str, Place, tuple], list[BatteryPlan]] = {}
    for plan in plan_batteries(show):
        if plan.tight:
            code = "battery-short" if plan.short else "battery-tight"
            groups.setdefault((code, _place_of_hours(show, plan), plan.longest), []).append(plan)
    for (code, place, run), plans in groups.items():
        plan = plans[0]
        needed_s = -(-run.on_s * plan.margin_hundredths // 100)
        yield find(
            code, place, about=tuple(Subject("channels", one.channel) for one in plans),
            others=(show.day.where["power-up"],), packs=_name_packs([one.pack for one in plans]),
            hours=_word_hours(plan.hours_s), on=_word_hours(run.on_s), start=_word_time(run.change.at_s),
            end=_word_time(run.until_s), margin=f"{plan.margin_hundredths / 100:g}", needed=_word_hours(needed_s),
        )


def _name_packs(packs: list[str]) -> str:
    return f"{'packs' if len(packs) > 1 else 'pack'} {shorten_ids(packs)}"


def _word_hours(seconds: int) -> str:
    """Hours and minutes, a part of a minute counted as one."""
    return format_clock(-(-seconds // 60) * 60)


def _word_time(seconds: int) -> str:
    return format_clock(seconds % DAY_S)


def _place_of_hours(show: Show, plan: BatteryPlan) -> Place:
    """Where the hours are told that do not suffice: at the transmitter, else at its radio type."""
    transmitter = show.transmitters.get(plan.pack)
    if transmitter and transmitter.hours_s is not None:
        return transmitter.where["hours"]
    radio = show.radio_of(show.channels[plan.channel])
    return radio.where["hours"] if radio else show.channels[plan.channel].where.record


def check_sets(show: Show) -> Iterator[Finding]:
    """A marked set holds cells of one kind, a transmitter takes cells of one set, and none of its kind is unmarked."""
    first: dict[str, Transmitter] = {}
    marked: dict[str, Transmitter] = {}
    for transmitter in show.transmitters.values():
        if any(sign in transmitter.set for sign in ",/+;&"):
            yield _tell(transmitter, "set", transmitter.where["set"], f"holds cells of more than one set, {transmitter.set}")
            continue
        if not transmitter.set:
            continue
        marked.setdefault(fold(transmitter.cells), transmitter)
        other = first.setdefault(fold(transmitter.set), transmitter)
        if fold(other.cells) != fold(transmitter.cells):
            told = f"has {transmitter.cells or 'cells of a kind not told'} in set {transmitter.set}, where {other.id} has {other.cells or 'a kind not told'}"
            yield _tell(transmitter, "cells", other.where["cells"], told)
    for transmitter in show.transmitters.values():
        other = marked.get(fold(transmitter.cells))
        if transmitter.cells and not transmitter.set and other:
            told = f"has {transmitter.cells} of no set, where {other.id} has them of set {other.set}"
            yield _tell(transmitter, "cells", other.where["set"], told)


def _tell(transmitter: Transmitter, name: str, other: Place, told: str) -> Finding:
    return find("cells-mixed", transmitter.where[name], about=(Subject("transmitters", transmitter.id),), others=(other,),
                pack=transmitter.id, told=told)


CHECKS = (check_batteries, check_sets)
