"""Blocks as strips: pieces that run across the page and are never split, ready to be stacked on pages."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from paperwork.document import Blank, Group, Item, Line, Note, PageWords, Panel, Panels, Row, Table
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place
from paperwork.render.boxes import Box, Fill, Frame, Room, Rule, moved
from paperwork.render.cells import GUTTER_UM, INDENT_UM, Point
from paperwork.render.columns import column_widths, make_room
from paperwork.render.fit import Fitted, drop_um, fit, set_line
from paperwork.render.fonts import Metrics, em_um
from paperwork.render.rows import (
    SNUG,
    WIDE,
    Grid,
    MeasuredRow,
    common_drops,
    common_keys,
    cut_row,
    measure_row,
    row_height,
    set_row,
)
from paperwork.styles import GROUP, GROUP_NOTE, HEADING, PANEL_TITLE, STEP, Style

Said: TypeAlias = tuple[str, Style, int]
"""A text of the page's furniture, its style and the width that it has."""

BAR_UM = 6_800
HEADING_PAD_UM = 900
PANEL_PAD_UM = 2_400
PANEL_GAP_UM = 4_000
STEP_GAP_UM = 700
BLOCK_GAP_UM = 4_000

SNUG_PERCENT = 85
"""How much of a height is left at the least where a paper is set snug: blocks do not give up more, and a paper that would
need its last page even then is not tried."""


@dataclass(frozen=True, slots=True)
class Strip:
    """Boxes of one piece, from its own top left corner. `bar` strips stay with the strip that follows."""

    height: int
    boxes: tuple[Box, ...] = ()
    bar: bool = False


@dataclass(frozen=True, slots=True)
class Run:
    """Strips under one bar. `head` and `again` open every page on which the run goes on.

    A `tied` run stays on a page with the last strip of the run before it.
    """

    strips: tuple[Strip, ...]
    head: Strip = Strip(0)
    bar: Strip = Strip(0)
    again: Strip = Strip(0)
    new_page: bool = False
    tied: bool = False


@dataclass(frozen=True, slots=True)
class Context:
    """What every block needs: how wide and tall the page is inside its furniture, the faces, the words of the page."""

    width: int
    height: int
    metrics: Metrics
    words: PageWords
    sheet: str
    revision: str = ""
    snug: bool = False
    """Whether the blocks give up what they can spare: tried where a paper may come on fewer pages for it."""


def lay_table(table: Table, context: Context) -> tuple[list[Run], list[Finding]]:
    """The table's groups as runs, and what had to be cut."""
    widths, measured = _measure(table, context)
    lefts = tuple(sum(widths[:index]) for index in range(len(widths)))
    every = [row for rows in measured for row in rows]
    points = tuple(_point(table, index, widths[index], context.metrics) for index in range(len(widths)))
    pads = SNUG if context.snug else WIDE
    grid = Grid(
        table.columns,
        lefts,
        widths,
        points,
        common_drops(every),
        table.row_um,
        common_keys(every, len(widths), table.row_um, pads),
        pads,
    )
    head = _head(grid, context)
    findings = cut_findings(_said(table, grid, context), context)
    findings.extend(finding for row in every for finding in _findings(row, context))
    most = context.height - head.height - BAR_UM
    runs = []
    for group, rows in zip(table.groups, measured, strict=True):
        shown = []
        for row in rows:
            height = row_height(row, grid)
            if height > most:
                findings.append(_too_tall(row.row, context))
                row = cut_row(row, grid, most)
                height = row_height(row, grid)
            shown.append(Strip(height, tuple(set_row(row, grid, height, context.metrics))))
        runs.append(run_under_bar(group, tuple(shown), head, context))
    return runs, findings


def _measure(table: Table, context: Context) -> tuple[tuple[int, ...], list[list[MeasuredRow]]]:
    """The widths of the columns, and each group's rows in them; made anew where a number asks for more room."""
    widths = column_widths(table.columns, context.width)
    measured = _measure_rows(table, widths, context)
    wider = make_room(widths, [row for rows in measured for row in rows], context.metrics)
    return (widths, measured) if wider == widths else (wider, _measure_rows(table, wider, context))


def _measure_rows(table: Table, widths: tuple[int, ...], context: Context) -> list[list[MeasuredRow]]:
    return [[measure_row(row, table.columns, widths, context.metrics) for row in group.rows] for group in table.groups]


def _point(table: Table, index: int, width: int, metrics: Metrics) -> Point:
    """Where the points of the column stand: with room for four decimals, told or not, so that a fourth moves nothing.

    A fifth decimal, or a column too narrow for four, makes its longest fraction end at the right edge.
    """
    room = width - GUTTER_UM - (INDENT_UM if table.columns[index].spares else 0)
    if table.columns[index].align != "point":
        return Point(room, room)
    tail = three = 0
    for item in _numbers(table, index):
        fitted = fit(item.text, item.style, room, metrics)
        fraction = item.text[item.text.index(".") :]
        tail = max(tail, metrics.width_um(fraction, fitted.face, fitted.cap_um))
        three = max(three, metrics.width_um(".000", fitted.face, fitted.cap_um))
        four = fit("000.0000", item.style, room, metrics)
        if four.outcome == "whole":
            tail = max(tail, metrics.width_um(".0000", four.face, four.cap_um))
    return Point(room - tail, room - tail + three)


def _numbers(table: Table, index: int) -> Iterator[Line | Blank]:
    for group in table.groups:
        for row in group.rows:
            for cell in row.cells[index]:
                for item in cell.items:
                    if isinstance(item, Line | Blank) and item.style.figures and "." in item.text:
                        yield item


def run_under_bar(group: Group, strips: tuple[Strip, ...], head: Strip, context: Context) -> Run:
    """The strips of a group under its bar, which says on later pages that it goes on."""
    bar = again = Strip(0)
    if group.title:
        bar = _bar(group.title, group.title, group.note, context)
        again = _bar(group.title, context.words.continued.format(title=group.title), group.note, context)
    return Run(strips, head, bar, again, group.new_page)


def _bar_width(context: Context) -> int:
    return context.width - INDENT_UM - 3_000


def _bar_title_width(context: Context) -> int:
    return _bar_width(context) * 6 // 10


def _bar_note_width(title: str, context: Context) -> int:
    """What the title leaves, told by the longer of the two that the bar may show, so that the note stays in place."""
    again = fit(context.words.continued.format(title=title), GROUP, _bar_title_width(context), context.metrics)
    return _bar_width(context) - context.metrics.width_um(again.lines[0], again.face, again.cap_um) - 4_000


def _bar(title: str, shown: str, note: str, context: Context) -> Strip:
    inner = Room(INDENT_UM, 0, _bar_width(context), BAR_UM)
    fitted = fit(shown, GROUP, _bar_title_width(context), context.metrics)
    baseline = (BAR_UM + fitted.cap_um) // 2
    left = set_line(fitted.lines[0], fitted, inner, baseline, context.metrics, white=True)
    boxes: list[Box] = [Fill(0, 0, context.width, BAR_UM), left]
    if note:
        room = Room(inner.right - _bar_note_width(title, context), 0, _bar_note_width(title, context), BAR_UM)
        small = fit(note, GROUP_NOTE, room.width, context.metrics)
        boxes.append(set_line(small.lines[0], small, room, baseline, context.metrics, "right", white=True))
    return Strip(BAR_UM, tuple(boxes), bar=True)


def _head(grid: Grid, context: Context) -> Strip:
    rooms, texts = [], []
    for column, left, point in zip(grid.columns, grid.lefts, grid.points, strict=True):
        indent = INDENT_UM if column.spares else 0
        rooms.append((left + indent, point.end))
        texts.append(fit(column.heading, HEADING, point.end, context.metrics) if column.heading else None)
    lines = max((len(text.lines) for text in texts if text), default=0)
    if not lines:
        return Strip(0)
    pitch = HEADING.wanted_um * 17 // 10
    height = lines * pitch + 2 * HEADING_PAD_UM
    boxes: list[Box] = []
    for column, (left, width), text in zip(grid.columns, rooms, texts, strict=True):
        if text:
            for index, line in enumerate(text.lines):
                baseline = height - HEADING_PAD_UM - 700 - (len(text.lines) - 1 - index) * pitch
                align = "right" if column.align == "point" else column.align
                room = Room(left, 0, width, height)
                boxes.append(set_line(line, text, room, baseline, context.metrics, align))
    boxes.append(Rule(0, height, context.width, height, 350))
    return Strip(height, tuple(boxes))


def _too_tall(row: Row, context: Context) -> Finding:
    who = " ".join(f"{s.section} {s.id}" for s in row.subjects[:1]) or "the sheet"
    return find("row-too-tall", row.where, about=row.subjects, who=who, sheet=context.sheet)


def _findings(measured: MeasuredRow, context: Context) -> list[Finding]:
    row = measured.row
    found = []
    for band in measured.bands:
        for cell in band.cells:
            for item, fitted in cell.cuts:
                found.append(cut_finding(item, fitted, row.where, row.subjects, context.sheet))
    return found


def _said(table: Table, grid: Grid, context: Context) -> list[Said]:
    """What heads and bars say, with the room that they have."""
    said: list[Said] = [(c.heading, HEADING, p.end) for c, p in zip(grid.columns, grid.points, strict=True)]
    for group in table.groups:
        again = context.words.continued.format(title=group.title) if group.title else ""
        said.append((again, GROUP, _bar_title_width(context)))
        if group.note:
            said.append((group.note, GROUP_NOTE, _bar_note_width(group.title, context)))
    return said


def cut_findings(said: Iterable[Said], context: Context) -> list[Finding]:
    """A finding for each of the texts that does not stand whole in its width."""
    found = []
    for text, style, width in said:
        fitted = fit(text, style, width, context.metrics)
        if fitted.outcome != "whole":
            found.append(cut_finding(Line(text, style), fitted, Place(""), (), context.sheet))
    return found


def cut_finding(item: Item, fitted: Fitted, where: Place, subjects: tuple[Subject, ...], sheet: str) -> Finding:
    """The finding for a text that was abbreviated, or for a number that has no room at its floor."""
    about = " ".join(f"{s.section} {s.id}" for s in subjects[:1]) or "the sheet"
    if fitted.outcome == "too wide":
        return find("number-does-not-fit", where, about=subjects, number=item.text, sheet=sheet, who=about)
    shown = " ".join(fitted.lines)
    return find("text-abbreviated", where, about=subjects, text=item.text, shown=shown, sheet=sheet, who=about)


def lay_note(note: Note, context: Context) -> tuple[list[Run], list[Finding]]:
    """A paragraph, line by line, so that a long one goes over pages."""
    fitted = fit(note.text, note.style, context.width, context.metrics)
    strips = []
    for line in fitted.lines:
        room = Room(0, 0, context.width, fitted.pitch_um)
        baseline = fitted.pitch_um - (em_um(fitted.face, fitted.cap_um) * 27 + 99) // 100
        strips.append(Strip(fitted.pitch_um, (set_line(line, fitted, room, baseline, context.metrics),)))
    return [Run(tuple(strips))], cut_findings([(note.text, note.style, context.width)], context)


def lay_panels(panels: Panels, context: Context) -> tuple[list[Run], list[Finding]]:
    """Panels side by side, each row of them one strip."""
    across = min(panels.across, len(panels.panels)) or 1
    width = (context.width - PANEL_GAP_UM * (across - 1)) // across
    runs: list[Run] = []
    findings: list[Finding] = []
    for start in range(0, len(panels.panels), across):
        shown = panels.panels[start : start + across]
        insides = []
        for panel in shown:
            boxes, height, cuts = _panel_inside(panel, width, context)
            insides.append((boxes, height))
            findings.extend(cuts)
        tallest = max(height for _, height in insides)
        strip: list[Box] = []
        for index, (boxes, _) in enumerate(insides):
            left = index * (width + PANEL_GAP_UM)
            strip.append(Frame(left, 0, width, tallest, 450, 1_500))
            strip.extend(moved(box, left, 0) for box in boxes)
        runs.append(Run((Strip(tallest, tuple(strip)),), tied=panels.tied and not runs))
    return runs, findings


def _panel_inside(panel: Panel, width: int, context: Context) -> tuple[list[Box], int, list[Finding]]:
    metrics = context.metrics
    inner = width - 2 * PANEL_PAD_UM
    boxes: list[Box] = []
    findings = cut_findings([(panel.title, PANEL_TITLE, inner)], context)
    title = fit(panel.title, PANEL_TITLE, inner, metrics)
    y = PANEL_PAD_UM + title.cap_um
    area = Room(PANEL_PAD_UM, 0, inner, y + title.cap_um)
    boxes.append(set_line(title.lines[0], title, area, y, metrics))
    y += 1_200
    indent = metrics.width_um("00  ", "text-bold", STEP.wanted_um) if panel.numbered else 0
    for number, text in enumerate(panel.lines, 1):
        fitted = fit(text, STEP, inner - indent, metrics)
        findings.extend(cut_findings([(text, STEP, inner - indent)], context))
        pitch = fitted.pitch_um
        room = Room(PANEL_PAD_UM + indent, y, inner - indent, pitch * len(fitted.lines) + 1_200)
        if panel.numbered:
            sign = fit(str(number), _NUMBER, indent, metrics)
            boxes.append(set_line(str(number), sign, Room(PANEL_PAD_UM, y, indent, room.height), y + pitch, metrics))
        for index, line in enumerate(fitted.lines):
            boxes.append(set_line(line, fitted, room, y + pitch * (index + 1), metrics))
        y += pitch * len(fitted.lines) + STEP_GAP_UM
    return boxes, y + drop_um("g", "text-regular", STEP.wanted_um) + PANEL_PAD_UM - 1_200, findings


_NUMBER = Style("step number", STEP.wanted_um, STEP.floor_um, "bold", figures=True, breaks=False)
