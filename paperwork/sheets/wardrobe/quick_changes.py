"""The quick-change sheet: every change of costume or of body that touches a pack, step by step, in show order.

For dresser and A2 together, in the booth: the steps of the microphone stand between those of the garments.
"""

from dataclasses import dataclass

from paperwork.document import Cell, Column, Group, Line, Row, Sheet, Table, cell, fact, row, words
from paperwork.finding import Subject
from paperwork.model import Scene, Show
from paperwork.plan.covers import usual_evening
from paperwork.plan.evening import PackChange, list_pack_changes
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.plan.looks import LookChange, list_look_changes
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, short_scene
from paperwork.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.words import words_of

NAME = "quick-changes"
ROW_UM = 16_000


@dataclass(frozen=True, slots=True)
class Step:
    """One row: what happens before which scene, to whom, in which order."""

    before: Scene
    who: tuple[str, ...]
    packs: tuple[str, ...]
    lines: tuple[Line, ...]
    sides: tuple[str, str]
    seconds: int | None
    at_least: bool
    in_vision: bool = False
    subjects: tuple[Subject, ...] = ()


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in show order. Needs looks, or packs that change bodies; no frequency is on it."""
    steps = _steps(show)
    if not steps:
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["quick head number"], 15_000), Column(w["quick head when"], 30_000), Column(w["quick head who"], share=4),
        Column(w["head numbers"], 24_000), Column(w["quick head steps"], share=6), Column(w["quick head place"], 27_000),
        Column(w["quick head time"], 29_000), forms.tick_column(w["quick head sound"]), forms.tick_column(w["quick head done"]),
    )
    rows = tuple(_row_of(show, number, step) for number, step in enumerate(steps, 1))
    return (
        frame_sheet(
            show, NAME, w["quick changes"], (Table(columns, (Group(rows),), row_um=ROW_UM),), subtitle=(w["quick order"],),
            cautions=(w["shared caution"], w["body caution"]), landscape=True,
        ),
    )


def _steps(show: Show) -> list[Step]:
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    steps = [
        *(_of_look(show, change) for change in list_look_changes(show)),
        *(_of_handover(show, one) for one in list_all_handovers(show)),
        *(_of_pack_change(show, one) for one in list_pack_changes(show, usual_evening(show))),
    ]
    return sorted(steps, key=lambda step: order[step.before.id])


def _line(show: Show, key: str, **facts: str) -> Line:
    told = words_of(show.production.language)[key].format(**facts)
    return fact(told, HAND, of=" ".join((key, *facts.values())))


def _of_look(show: Show, change: LookChange) -> Step:
    """Garment off, pack, garment on, capsule: hats and wigs come last, and the capsule with them."""
    old, new = change.old, change.new
    lines = [_line(show, "quick off", wears=old.wears)] if old and old.wears else []
    was = old.sits if old else ""
    if new.sits and was and new.sits != was:
        lines.append(_line(show, "quick pack moves", was=was, now=new.sits))
    elif new.sits:
        lines.append(_line(show, "quick pack stays", now=new.sits))
    if new.wears:
        lines.append(_line(show, "quick on", wears=new.wears))
    if new.capsule and old and old.capsule and new.capsule != old.capsule:
        lines.append(_line(show, "quick capsule moves", was=old.capsule, now=new.capsule))
    elif new.capsule:
        lines.append(_line(show, "quick capsule stays", now=new.capsule))
    worn = forms.list_worn(show).get(change.by, ())
    return Step(
        change.before, (change.by,), tuple(one.channel.pack for one in worn), tuple(lines), (change.exit, change.enter),
        change.seconds, change.at_least, subjects=(Subject("people", change.by), Subject("looks", new.id)),
    )


def _of_handover(show: Show, one: Handover) -> Step:
    channel = show.channels[one.channel]
    lines = (
        _line(show, "quick comes off", name=forms.wall_name(show, one.from_by), pack=channel.pack),
        _line(show, "quick wipe"),
        _line(show, "quick goes on", name=forms.wall_name(show, one.to_by), pack=channel.pack),
    )
    return Step(
        one.before, (one.from_by, one.to_by), (channel.pack,), lines, (one.exit, one.enter), one.seconds, one.at_least,
        one.in_vision, (Subject("channels", channel.id), Subject("people", one.from_by), Subject("people", one.to_by)),
    )


def _of_pack_change(show: Show, one: PackChange) -> Step:
    off, on = show.channels[one.from_channel], show.channels[one.to_channel]
    lines = (
        _line(show, "quick comes off", name=forms.wall_name(show, one.by), pack=off.pack),
        _line(show, "quick goes on", name=forms.wall_name(show, one.by), pack=on.pack),
    )
    return Step(
        one.before, (one.by,), (off.pack, on.pack), lines, (one.exit, one.enter), one.seconds, one.at_least,
        subjects=(Subject("channels", off.id), Subject("channels", on.id), Subject("people", one.by)),
    )


def _row_of(show: Show, number: int, step: Step) -> Row:
    """The mark of a step is its number; the text of its lines is numbered too, so that nobody starts with the hat."""
    lines = tuple(
        Line(f"{index}  {line.text}", line.style, line.fact) for index, line in enumerate(step.lines, 1)
    )
    return row(
        cell(words(str(number), HAND_NUMBER)),
        cell(fact(short_scene(step.before), HAND_STRONG), fact(forms.scene_time(show, step.before), HAND)),
        cell(*(fact(forms.wall_name(show, name), HAND_STRONG) for name in step.who)),
        cell(fact("  ".join(dict.fromkeys(step.packs)), HAND_NUMBER)),
        cell(*lines),
        _place_cell(show, step),
        _time_cell(show, step),
        forms.tick_cell(),
        forms.tick_cell(),
        subjects=step.subjects,
        where=step.before.where.record,
    )


def _place_cell(show: Show, step: Step) -> Cell:
    w = words_of(show.production.language)
    out, back = step.sides
    if not out and not back:
        return forms.write_cell()
    return cell(
        fact(w["exits"].format(side=out) if out else "", HAND_STRONG, of=f"off {out}"),
        fact(w["enters"].format(side=back) if back else "", HAND_STRONG, of=f"on {back}"),
    )


def _time_cell(show: Show, step: Step) -> Cell:
    w = words_of(show.production.language)
    if step.in_vision:
        return cell(fact(w["in vision"], HAND_STRONG, of="in vision"))
    if step.seconds is None:
        return forms.write_cell()
    minutes, seconds = divmod(step.seconds, 60)
    told = fact(f"{minutes}:{seconds:02d}", HAND_NUMBER)
    return cell(told, words(w["quick or more"] if step.at_least else w["quick unit"], HAND))
