"""Batteries: whether the cells reach their next change, and whether marked sets stay unmixed."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show, Transmitter
from paperwork.place import Place
from paperwork.plan.day.batteries import BatteryPlan, CellRun, list_change_points, plan_batteries
from paperwork.plan.day.clockface import say_day_time, spans_days
from paperwork.text.names import fold, join_words, shorten_ids
from paperwork.text.units import format_clock, format_hours

DAY_S = 24 * 3600


def check_batteries(show: Show) -> Iterator[Finding]:
    """Cells reach the next change, with the margin. One finding for all packs whose hours are given in one place."""
    groups: dict[tuple[bool, Place, CellRun], list[BatteryPlan]] = {}
    for plan in plan_batteries(show):
        if plan.tight:
            groups.setdefault((plan.short, _place_of_hours(show, plan), plan.longest), []).append(plan)
    for (is_short, place, run), plans in groups.items():
        plan = plans[0]
        needed_s = -(-run.on_s * plan.margin_hundredths // 100)
        yield find(
            "battery-short" if is_short else "battery-tight",
            place,
            about=tuple(Subject("channels", one.channel) for one in plans),
            others=(show.day.where["power-up"],),
            packs=_name_packs([one.pack for one in plans]),
            hours=format_clock(plan.hours_s // 60 * 60),
            on=format_hours(run.on_s),
            start=_word_time(show, run.change.at_s),
            end=_word_time(show, run.until_s),
            margin=f"{plan.margin_hundredths / 100:g}",
            needed=format_hours(needed_s),
            between=_advise_change(show, plan, run),
        )


def _advise_change(show: Show, plan: BatteryPlan, run: CellRun) -> str:
    """What to write so that batteries are changed within a run: a point not used yet, else a new one."""
    if plan.chosen:
        return "give the time in interval of day"
    free = [point.point for point in list_change_points(show) if run.change.at_s < point.at_s < run.until_s]
    unused = next((point for point in free if point not in show.day.cells), None)
    return f"add {unused} to cells of day" if unused else "give the time in interval of day, and add interval to cells"


def _name_packs(packs: list[str]) -> str:
    return f"{'packs' if len(packs) > 1 else 'pack'} {shorten_ids(packs)}"


def _word_time(show: Show, seconds: int) -> str:
    return say_day_time(show, seconds) if spans_days(show) else format_clock(seconds % DAY_S)


def _place_of_hours(show: Show, plan: BatteryPlan) -> Place:
    """Where the hours are given that do not suffice: at the transmitter, else at its radio type."""
    transmitter = show.transmitters.get(plan.pack)
    if transmitter and transmitter.hours_s is not None:
        return transmitter.where["hours"]
    radio = show.radio_of(show.channels[plan.channel])
    return radio.where["hours"] if radio else show.channels[plan.channel].where.record


def check_sets(show: Show) -> Iterator[Finding]:
    """A marked set holds cells of one kind, a transmitter takes cells of one set, and none of its kind is unmarked.

    What most of a set has is taken as right, so one slip is one finding whichever row it is in.
    """
    for transmitter in show.transmitters.values():
        if _names_several(transmitter):
            yield _word_odd([transmitter], "set", f"has batteries of more than one set, {transmitter.set}")
    marked = [one for one in show.transmitters.values() if one.set and not _names_several(one)]
    for members in _group(marked, "set").values():
        kinds = sorted(_group(members, "cells").values(), key=len, reverse=True)
        for odd in kinds[1:]:
            mine = f"has {odd[0].cells or 'batteries of unknown kind'}"
            yield _word_odd(
                odd,
                "cells",
                f"{mine} in set {odd[0].set}, but {kinds[0][0].id} has {kinds[0][0].cells or 'an unknown kind'}",
            )
    by_kind = _group(marked, "cells")
    loose = [one for one in show.transmitters.values() if one.cells and not one.set and fold(one.cells) in by_kind]
    for odd in _group(loose, "cells").values():
        other = by_kind[fold(odd[0].cells)][0]
        yield _word_odd(odd, "cells", f"has {odd[0].cells} without a set, but {other.id} has them in set {other.set}")


def _names_several(transmitter: Transmitter) -> bool:
    return any(sign in transmitter.set for sign in ",/+;&")


def _group(transmitters: list[Transmitter], name: str) -> dict[str, list[Transmitter]]:
    """Transmitters by the folded text of a field."""
    groups: dict[str, list[Transmitter]] = {}
    for transmitter in transmitters:
        groups.setdefault(fold(getattr(transmitter, name)), []).append(transmitter)
    return groups


def _word_odd(odd: list[Transmitter], name: str, fault: str) -> Finding:
    others = [transmitter.id for transmitter in odd[1:]]
    more = f"; the same for {join_words(others)}" if others else ""
    return find(
        "cells-mixed",
        odd[0].where[name],
        about=tuple(Subject("transmitters", one.id) for one in odd),
        others=tuple(one.where[name] for one in odd[1:]),
        pack=odd[0].id,
        fault=fault + more,
    )


CHECKS = (check_batteries, check_sets)
