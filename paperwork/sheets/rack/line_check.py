"""The line check: desk order, handhelds and spares last, a second pass on the body. A2 calls, A1 repeats, both tick."""

from collections.abc import Iterable

from paperwork.document import Column, Panel, Panels, RowGroup, Sheet, Table, TableRow, WriteIn, cell, fact, row, words
from paperwork.document.styles import RACK_PLUG, RACK_SMALL, RACK_STRONG
from paperwork.model import Channel, Show
from paperwork.plan.patch import list_inputs, name_on_desk
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, is_staged, phrase, subjects_in_rack
from paperwork.sheets.times import day_time_words
from paperwork.text.names import natural_key

NAME = "line-check"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in the order of the first desk's inputs; in channel order where no outputs are given."""
    if not show.channels or not (show.racks or show.scenes or show.day.checks_s):
        return ()
    inputs = _inputs_of(show)
    columns = headed(
        show,
        Column("line head input", 23_000),
        Column("head channel", forms.NUMBER_UM, spares=True),
        Column("head role", share=1),
        forms.tick_column("line head first"),
        forms.tick_column("line head second"),
        Column("line head heard", 42_000),
    )
    passes = tuple(
        Panel(phrase(show, f"line {which}"), tuple(_said(show, f"line {which} {number}") for number in (1, 2, 3)))
        for which in ("first", "second")
    )
    groups = tuple(
        RowGroup(tuple(_row_of(show, *one) for one in listed), title, facts=(kind,))
        for kind, title, listed in list_in_desk_order(show)
        if listed
    )
    order = phrase(show, "line order") if inputs else phrase(show, "chart order plain")
    return (
        frame_sheet(
            show,
            NAME,
            "line check",
            (Panels(passes), Table(columns, groups, row_um=forms.FORM_ROW_UM)),
            subtitle=tuple(filter(None, (order, _times(show)))),
            cautions=("patch caution", "privacy caution"),
            facts=(str(bool(inputs)), *map(str, (*show.day.checks_s, "half", *show.day.half_s))),
        ),
    )


def _said(show: Show, key: str) -> str:
    return phrase(show, "line second 1 parts" if key == "line second 1" and not is_staged(show) else key)


def _times(show: Show) -> str:
    day = show.day
    parts = [phrase(show, "line checks at", time=_times_of(show, day.checks_s))] if day.checks_s else []
    parts += [phrase(show, "line half at", time=_times_of(show, day.half_s))] if day.half_s else []
    return ", ".join(parts)


def _times_of(show: Show, times: Iterable[int]) -> str:
    return " / ".join(day_time_words(show, time) for time in times)


def _inputs_of(show: Show) -> dict[str, tuple[str, int]]:
    """For each channel the desk input that it comes up on first: analogue before digital before network."""
    found: dict[str, tuple[str, int]] = {}
    for copy in ("analogue", "digital", "network"):
        for one in sorted(list_inputs(show), key=lambda one: one.copy):
            if one.kind == copy and one.channel:
                found.setdefault(one.channel, (one.console, one.number))
    return found


def list_in_desk_order(show: Show) -> list[tuple[str, str, list[tuple[Channel, str]]]]:
    """Packs, handhelds and spares, each with its name and its title: the channels by the first desk input of each,
    which is `FOH 4`, or "" where there is none."""
    inputs = _inputs_of(show)

    def place(channel: Channel) -> tuple[object, ...]:
        console, number = inputs.get(channel.id, ("", 0))
        return (channel.id not in inputs, natural_key(console), number, natural_key(channel.id))

    ordered = sorted(show.channels.values(), key=place)
    packs = [one for one in ordered if not one.spare and not forms.is_handheld(show, one)]
    held = [one for one in ordered if not one.spare and forms.is_handheld(show, one)]
    spares = [one for one in ordered if one.spare]
    kinds = {"packs": packs, "handhelds": held, "spares": spares}
    desks = {id: f"{console} {number}" for id, (console, number) in inputs.items()}
    return [
        (kind, phrase(show, kind), [(one, desks.get(one.id, "")) for one in channels])
        for kind, channels in kinds.items()
    ]


def _row_of(show: Show, channel: Channel, at: str) -> TableRow:
    name = forms.desk_name(show, channel)
    desk = fact(at, RACK_STRONG) if at else words(" ", RACK_STRONG)
    second = forms.tick_cell() if not channel.spare else cell(words("–", RACK_STRONG))
    return row(
        cell(desk, fact(name, RACK_SMALL, of=name_on_desk(show, channel) if name else "")),
        forms.number_cell(channel),
        forms.role_cell(show, channel, big=RACK_PLUG),
        forms.tick_cell(),
        second,
        cell(WriteIn(phrase(show, "line note"))),
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )
