"""The quick-change sheet: every change of costume or of body that touches a pack, the quick ones first and step by step.

For dresser and A2 together, in the booth: the steps of the microphone stand between those of the garments. Numbers are
those of the swap sheets.
"""

from collections.abc import Iterable
from typing import TypeAlias

from paperwork.document import (
    Cell,
    Column,
    Line,
    Note,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import (
    DRESS,
    DRESS_NUMBER,
    DRESS_STRONG,
    DRESS_TIME,
    HAND,
    HAND_NUMBER,
    HAND_STRONG,
    Style,
)
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.plan.bodies.events import Event, list_events
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import LookChange
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene
from paperwork.sheets.times import clock_fact, clock_word, time_line
from paperwork.sheets.wardrobe.change_steps import bodies_of, channels_of, list_steps

NAME = "quick-changes"
ROW_UM = 11_000


@frozen
class _RowStyles:
    """How large a row is set: one for the booth, one for those with time to spare."""

    number: Style
    time: Style
    strong: Style
    text: Style


QUICK = _RowStyles(DRESS_NUMBER, DRESS_TIME, DRESS_STRONG, DRESS)
PLAIN = _RowStyles(HAND_NUMBER, HAND_STRONG, HAND_STRONG, HAND)

Near: TypeAlias = dict[str, list[Event]]
"""The changes by the scene before which they must be done."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: what is quick, what nobody timed, costumes with time. Swaps with time have sheets of their own."""
    events = list_events(show)
    near: Near = {}
    for event in events:
        near.setdefault(event.change.before.id, []).append(event)
    groups = tuple(_groups(show, events, near))
    if not groups:
        return ()
    swaps = ", ".join(str(event.number) for event in events if _class_of(event, near) == "swap")
    rest = (Note(phrase(show, "quick swaps", numbers=swaps), facts=(swaps,)),) if swaps else ()
    columns = headed(
        show,
        Column("quick head number", 15_000),
        Column("quick head when", 27_000),
        Column("quick head who", share=4),
        Column("head numbers", 28_000),
        Column("quick head steps", share=6),
        Column("quick head place", 27_000),
        Column("quick head time", 26_000),
        forms.tick_column("quick head laid"),
        forms.tick_column("quick head sound"),
        forms.tick_column("quick head done"),
    )
    table = Table(columns, groups, row_um=ROW_UM)
    return (
        frame_sheet(
            show,
            NAME,
            "quick changes",
            (table, *rest),
            order="quick order",
            subtitle=(clock_word(show),),
            cautions=("shared caution", "body caution"),
            facts=(clock_fact(show),),
            landscape=True,
        ),
    )


def _class_of(event: Event, near: Near) -> str:
    """`quick`, also if it is done in one go with a quick one; `unknown` time; `costume` or `swap`, with time."""
    if event.is_quick or any(other.is_quick for other in _done_together(event, near)):
        return "quick"
    if event.change.seconds is None:
        return "unknown"
    return "costume" if isinstance(event.change, LookChange) else "swap"


def _groups(show: Show, events: Iterable[Event], near: Near) -> Iterable[RowGroup]:
    """Quick ones, those that could be, costumes with time; each in show order, under a bar that says which."""
    for kind, title, note, look in (
        ("quick", phrase(show, "quick under"), phrase(show, "quick ready"), QUICK),
        ("unknown", phrase(show, "quick unknown"), "", QUICK),
        ("costume", phrase(show, "quick over"), "", PLAIN),
    ):
        rows = tuple(_row_of(show, event, near, look) for event in events if _class_of(event, near) == kind)
        if rows:
            yield RowGroup(rows, title, note, facts=(kind,))


def _row_of(show: Show, event: Event, near: Near, look: _RowStyles) -> TableRow:
    change, plain = event.change, look is PLAIN
    at_s = change.on_s if change.on_s is not None else change.before.at_s
    packs = (show.channels[id].pack for id in channels_of(show, event))
    ticks = (cell(), cell(), cell()) if plain else (forms.tick_cell(),) * 3
    return row(
        cell(fact(str(event.number), look.number)),
        cell(
            fact(short_scene(change.before), look.strong),
            time_line(show, at_s, look.text),
            *_together(show, event, near),
        ),
        cell(*(fact(name, look.strong) for name in bodies_of(change))),
        cell(fact("  ".join(dict.fromkeys(packs)), look.number)),
        cell(*_step_lines(show, event, look)),
        _place_cell(show, event, look),
        _time_cell(show, event, look),
        *ticks,
        subjects=tuple(_subjects(show, event)),
        where=change.before.where.record,
    )


def _subjects(show: Show, event: Event) -> Iterable[Subject]:
    yield from (Subject("channels", id) for id in channels_of(show, event))
    yield from (Subject("people", name) for name in bodies_of(event.change))
    if isinstance(event.change, LookChange):
        yield Subject("looks", event.change.new.id)


def _done_together(event: Event, near: Near) -> list[Event]:
    """Other changes on one of the bodies before the same entrance: they are done in one go."""
    own = set(bodies_of(event.change))
    return [
        other for other in near[event.change.before.id] if other is not event and own & set(bodies_of(other.change))
    ]


def _together(show: Show, event: Event, near: Near) -> tuple[Line, ...]:
    numbers = [str(other.number) for other in _done_together(event, near)]
    text = phrase(show, "quick with", numbers=", ".join(numbers))
    return (fact(text, HAND_STRONG, of=f"with {' '.join(numbers)}"),) if numbers else ()


def _step_lines(show: Show, event: Event, look: _RowStyles) -> tuple[Line, ...]:
    """The steps with numbers, so that nobody starts with the hat."""
    steps = list_steps(show, event)
    return tuple(fact(f"{index}  {text}", look.text, of=of) for index, (text, of) in enumerate(steps, 1))


def _place_cell(show: Show, event: Event, look: _RowStyles) -> Cell:
    """Where they leave and enter, and who helps: a line to write on where it is done in a hurry."""
    out, back = event.change.exit, event.change.enter
    text = (
        fact(phrase(show, "exits", side=out) if out else "", look.strong, of=f"off {out}"),
        fact(phrase(show, "enters", side=back) if back else "", look.strong, of=f"on {back}"),
    )
    if look is PLAIN:
        return cell(*text)
    return cell(*text, WriteIn()) if out or back else cell(WriteIn(), WriteIn())


def _time_cell(show: Show, event: Event, look: _RowStyles) -> Cell:
    change = event.change
    if isinstance(change, Handover) and change.in_vision:
        return cell(fact(phrase(show, "in vision"), look.strong, of="in vision"))
    if change.seconds is None:
        return forms.write_cell()
    minutes, seconds = divmod(change.seconds, 60)
    more = (fact(phrase(show, "swap or more"), look.text, of="or more"),) if change.at_least else ()
    pause = (fact(phrase(show, "in the interval"), look.text, of="interval"),) if event.in_interval else ()
    if look is PLAIN:
        return cell(fact(phrase(show, "minutes", minutes=minutes), look.time, of=str(change.seconds)), *more, *pause)
    return cell(
        fact(f"{minutes}:{seconds:02d}", look.time), *(more or (words(phrase(show, "quick unit"), look.text),)), *pause
    )
