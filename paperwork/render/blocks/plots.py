"""A plot as slices: a head with its legend, its acts and its scenes, and one slice a row."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal, assert_never

from paperwork.document import Plot, Sign
from paperwork.document.styles import GROUP, LEGEND, PLOT_NAME, PLOT_NOTE, PLOT_SCENE
from paperwork.render.blocks.plot_parts import (
    CAP_UM,
    bar_height_of,
    divide,
    has_room_for_both,
    head_width,
    measure_head,
)
from paperwork.render.blocks.plot_rows import STROKE_UM, RowLook, lay_row
from paperwork.render.blocks.slices import MARK_GAP_UM, Context, Series, Slice
from paperwork.render.boxes import HEAVY_UM, LINE_UM, Box, Fill, Frame, Open, Room, Rule, wrap
from paperwork.render.grids import wrap_heads, wrap_table
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter, set_turned

ACT_UM = 6_400
LEGEND_UM = 6_000
SIGN_UM, SIGN_HIGH_UM = 11_000, 3_400
TURNED_MOST_UM = 46_000
"""The longest scene name that is set upwards on one line; two lines need `TURNED_TWO_UM` of a column."""

TURNED_TWO_UM = 8_000


def lay_plot(plot: Plot, context: Context) -> list[Series]:
    """One series a part, each with the heads of its columns; every row whole on one page."""
    found = []
    parts, keyed = divide(plot, context.width, context.metrics), any(row.key for row in plot.rows)
    heads = [measure_head(row, head_width(plot), keyed, context.metrics) for row in plot.rows]
    for number, part in enumerate(parts):
        both = has_room_for_both(plot, part.pitch, context.metrics)
        cap = bar_height_of(plot, part.pitch, both, context.metrics)
        look = RowLook(part, head_width(plot), cap, both)
        key = f"plot {context.number}.{number}"
        head = _head(plot, look, key, len(parts) > 1, context)
        rows = (lay_row(row, own, look, key, context) for row, own in zip(plot.rows, heads, strict=True))
        found.append(Series(tuple(rows), head, new_page=number > 0))
    return found


# The head: legend, acts, scenes.


def _head(plot: Plot, look: RowLook, key: str, divided: bool, context: Context) -> Slice:
    shown = look.part
    legend, top = _legend(plot, look.both, f"legend {context.number}", context)
    acts, y = _acts(plot, look, top, divided, context)
    scenes, height = _scenes(look, y, context.setter)
    columns = wrap_heads([(), *scenes], "scenes")
    rule = Rule(0, y + height, shown.right, y + height, LINE_UM)
    titles = [(title, sum(left < x for left in shown.lefts)) for title, x, _ in shown.acts]
    scenes_shown = [(scene.number, scene.name, scene.note) for scene in shown.scenes]
    span = (shown.first, shown.last, sum(len(act.scenes) for act in plot.acts)) if divided else ()
    facts = (titles, scenes_shown, span, [sign for sign, _ in plot.legend])
    return Slice(y + height, (*legend, *wrap_table(key, [*acts, *columns]), rule), facts=facts)


def _acts(plot: Plot, look: RowLook, top: int, divided: bool, context: Context) -> tuple[list[Box], int]:
    """The row of acts, and behind it which scenes these are where they are not all; and its foot."""
    setter, shown = context.setter, look.part
    titles = [setter.fit(title, GROUP, width - 3_000) if title else None for title, _, width in shown.acts]
    acts = [title for title in titles if title]
    if not (divided or acts):
        return [], top
    tall = max([ACT_UM, *(one.rise_um + one.drop_um + 2 * MARK_GAP_UM for one in acts)])
    corner: list[Box] = []
    if divided:
        count = sum(len(act.scenes) for act in plot.acts)
        key = "part" if shown.last > shown.first else "part one"
        text = context.words[key].format(first=shown.first + 1, last=shown.last + 1, all=count)
        corner.append(setter.set(text, PLOT_NOTE, Room(0, top, look.head - 3_000, tall)))
    boxes = wrap(Open("TD"), corner)
    for fitted, (_, x, width) in zip(titles, shown.acts, strict=True):
        cell = Open("TH", scope="Column") if fitted else Open("TD")
        inside: list[Box] = []
        if fitted:
            room = Room(x + 1_500, top, width - 3_000, tall)
            base = max((tall + fitted.cap_um) // 2, fitted.rise_um + MARK_GAP_UM)
            inside = [Fill(x, top, width, tall), setter.line(fitted, room, top + base, white=True)]
        boxes += wrap(cell._replace(columns=width // shown.pitch), inside)
    return wrap(Open("TR", "acts", once=True), boxes), top + tall


def _scenes(look: RowLook, top: int, setter: Typesetter) -> tuple[list[list[Box]], int]:
    """Number, name and note of each scene: names upwards where one of them is too long for its column."""
    part = look.part
    room = part.pitch - 1_600
    turned = any(fit(s.name, PLOT_NAME, room, setter.metrics).outcome != "whole" for s in part.scenes if s.name)
    style = replace(PLOT_NAME, lines=1) if turned and room < TURNED_TWO_UM else PLOT_NAME
    length = TURNED_MOST_UM if turned else room
    names = [setter.fit(s.name, style, length) if s.name else None for s in part.scenes]
    shown = [name for name in names if name]
    number_foot = top + 1_500 + PLOT_SCENE.wanted_um if any(s.number for s in part.scenes) else top
    deep = _name_depth(shown, turned, setter.metrics)
    note_foot = number_foot + deep + (PLOT_NOTE.wanted_um + 1_700 if any(s.note for s in part.scenes) else 0)
    found = []
    for scene, name, x in zip(part.scenes, names, part.lefts, strict=True):
        boxes: list[Box] = []
        area = Room(x + 800, top, room, note_foot + 1_300 - top)
        if scene.number:
            boxes.append(setter.set(scene.number, PLOT_SCENE, area, number_foot, "centre"))
        if name and turned:
            boxes += _set_upwards(name, area, number_foot, deep, setter.metrics)
        elif name:
            boxes += setter.lines(name, area, number_foot + _lift(shown), "centre")
        if scene.note:
            boxes.append(setter.set(scene.note, PLOT_NOTE, area, note_foot, "centre"))
        found.append(boxes)
    return found, note_foot + 1_300 - top


def _name_depth(names: list[Fitted], turned: bool, metrics: Metrics) -> int:
    """What the names of scenes take under their numbers."""
    if not names:
        return 0
    if turned:
        return 2_600 + max(metrics.width_um(line, n.face, n.cap_um) for n in names for line in n.lines)
    return _lift(names) + max((len(n.lines) - 1) * n.pitch_um for n in names)


def _lift(names: list[Fitted]) -> int:
    """From the number's foot to the first baseline of the names under it: clear of the accents on their capitals."""
    return max(max(1_900 + name.cap_um, 600 + name.rise_um) for name in names)


def _set_upwards(name: Fitted, area: Room, foot: int, deep: int, metrics: Metrics) -> Iterator[Box]:
    middle = area.x + area.width // 2 + name.cap_um // 2 - (len(name.lines) - 1) * name.pitch_um // 2
    for index, line in enumerate(name.lines):
        yield set_turned(line, name, middle + index * name.pitch_um, foot + deep - 1_000, area, metrics)


def _legend(plot: Plot, both: bool, key: str, context: Context) -> tuple[list[Box], int]:
    """The signs as they stand in the plot, each with its words, over as many lines as they need."""
    boxes: list[Box] = []
    if not plot.legend:
        return boxes, 0
    x, y = 0, 1_000
    for sign, text in plot.legend:
        fitted = context.setter.fit(text, LEGEND, context.width - SIGN_UM - 1_600)
        width = fitted.width_um(context.metrics)
        if x and x + SIGN_UM + 1_600 + width > context.width:
            x, y = 0, y + LEGEND_UM
        boxes += set_sign("stacked" if sign == "second" and not both else sign, x, y + 600)
        room = Room(x + SIGN_UM + 1_600, y, width + 200, LEGEND_UM)
        line = context.setter.line(fitted, room, y + 600 + (SIGN_HIGH_UM + fitted.cap_um) // 2)
        boxes += wrap(Open("P", f"{key} {sign}", once=True), [line])
        x += SIGN_UM + 1_600 + width + 7_000
    return boxes, y + LEGEND_UM


def set_sign(sign: Sign | Literal["stacked"], x: int, y: int) -> list[Box]:
    """A sign as it stands in the plot, for its legend: a second pack beside the first, or `stacked` under it."""
    whole, high = SIGN_UM, SIGN_HIGH_UM
    match sign:
        case "put on":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x, y, whole * 4 // 10, high)]
        case "taken off":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x + whole - CAP_UM, y, CAP_UM, high)]
        case "held":
            return [Frame(x, y, whole, high, STROKE_UM, dashed=True)]
        case "second":
            middle, across, down = x + whole // 2, y + high // 2, high * 3 // 10
            return [
                Frame(x, y, whole, high, STROKE_UM),
                Rule(middle - down, across, middle + down, across, HEAVY_UM),
                Rule(middle, across - down, middle, across + down, HEAVY_UM),
            ]
        case "stacked":
            return [
                Frame(x, y - 400, whole, high // 2, STROKE_UM),
                Frame(x, y + high // 2 + 400, whole, high // 2, STROKE_UM),
            ]
        case "keeps":
            third = whole * 3 // 10
            line = Rule(x + third, y + high // 2, x + whole - third, y + high // 2, HEAVY_UM)
            return [Frame(x, y, third, high, STROKE_UM), Frame(x + whole - third, y, third, high, STROKE_UM), line]
        case _:
            assert_never(sign)
