"""Antenna and cable plan: from each antenna to the racks, drawn, with the list of cables to be laid."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from paperwork.document import (
    Block,
    Column,
    Line,
    Note,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    Tree,
    TreeLink,
    TreeNode,
    cell,
    fact,
    row,
)
from paperwork.document.styles import HAND, HAND_STRONG, TONIGHT_NOTE
from paperwork.finding import Subject
from paperwork.model import AntennaPart, Rack, Show
from paperwork.plan.aerials import Cable, find_ring, list_cables, list_systems, measure_depths
from paperwork.sheets import forms
from paperwork.sheets.frame import JOINED, frame_sheet, headed, phrase

NAME = "antenna-plan"
LEAST_UM = 122_000
"""A list of cables stands beside itself on a wide page."""

MOST_DRAWN, MOST_BESIDE, MOST_CABLES = 12, 6, 60
"""More boxes over each other, or side by side, would not stand on a page of A4, and more cables not be followed; the list
holds them all. Choice of this project."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs antennas."""
    if not show.antennas:
        return ()
    cables = list_cables(show)
    blocks: list[Block] = []
    systems = list_systems(show, cables)
    if not find_ring(show):
        at = {id: number for number, ids in enumerate(systems) for id in ids}
        laid: list[list[Cable]] = [[] for _ in systems]
        for one in cables:
            laid[at[one.start]].append(one)
        drawn = [_draw(show, ids, own) for ids, own in zip(systems, laid, strict=True) if own]
        blocks += [tree for tree in drawn if tree]
    if cables:
        blocks += [_total(show, cables), _list_laid(show, cables)]
    if lone := [show.antennas[ids[0]] for ids in systems if len(ids) == 1]:
        blocks.append(_list_parts(show, lone))
    return (frame_sheet(show, NAME, "antenna plan", tuple(blocks), order="antenna order", landscape=True),)


def _draw(show: Show, ids: tuple[str, ...], cables: Sequence[Cable]) -> Tree | None:
    """What hangs together, as boxes and cables, each box as near to the racks as what it feeds lets it be; None where that
    is more than a page holds."""
    depths = measure_depths(ids, cables)
    deepest, tallest = max(depths.values()), max(Counter(depths.values()).values())
    if deepest >= MOST_BESIDE or tallest > MOST_DRAWN or len(cables) > MOST_CABLES:
        return None
    place = {id: number for number, id in enumerate(ids)}
    nodes = (
        _part_node(show, show.antennas[id]) if id in show.antennas else _rack_node(show, show.racks.get(id, Rack(id)))
        for id in ids
    )
    links = tuple(
        TreeLink(place[one.start], place[one.end], fact(one.length, HAND_STRONG) if one.length else None)
        for one in cables
    )
    return Tree(tuple(replace(node, column=deepest - depths[id]) for id, node in zip(ids, nodes, strict=True)), links)


def _part_node(show: Show, part: AntennaPart) -> TreeNode:
    kind = phrase(show, f"antenna {part.kind}")
    texts = (" ".join(filter(None, (kind, part.gain))), ", ".join(filter(None, (part.side, part.place))))
    facts = (f"{part.kind} {part.gain}", f"{part.side} {part.place}".strip())
    lines = [fact(text, HAND, of=of) for text, of in zip(texts, facts, strict=True) if text]
    if part.power:
        lines.append(fact(phrase(show, "antenna power", power=part.power), HAND, of=part.power))
    about = (Subject("antennas", part.id),)
    return TreeNode(fact(part.id, HAND_STRONG), tuple(lines), subjects=about, where=part.where.record)


def _rack_node(show: Show, rack: Rack) -> TreeNode:
    notes = [note for note in forms.rack_note(show, rack).split(JOINED) if note]
    facts = (" ".join(forms.rack_facts(rack)[1:]), "")
    lines = tuple(Line(note, HAND, of) for note, of in zip(notes, facts, strict=False))
    title = fact(phrase(show, "rack", rack=rack.id), HAND_STRONG, of=rack.id)
    return TreeNode(title, lines, heavy=True, subjects=(Subject("racks", rack.id),), where=rack.where.record)


def _total(show: Show, cables: tuple[Cable, ...]) -> Note:
    """How many cables of each length are wanted."""
    counted = Counter(one.length for one in cables)
    unknown = counted.pop("", 0)
    parts = [f"{count} × {length}" for length, count in counted.items()]
    parts += [phrase(show, "antenna unknown", count=unknown)] if unknown else []
    facts = tuple(f"{count} {length}" for length, count in (*counted.items(), ("", unknown)))
    return Note(phrase(show, "antenna total", cables=",  ".join(parts)), TONIGHT_NOTE, facts)


def _list_laid(show: Show, cables: tuple[Cable, ...]) -> Table:
    """Each cable, to be ticked when it is laid and when it is measured."""
    columns = headed(
        show,
        Column("antenna head from", share=4),
        Column("antenna head to", share=4),
        Column("antenna head length", forms.SHORT_UM),
        *(forms.tick_column(f"antenna head {step}") for step in ("laid", "checked")),
        Column("antenna head note", share=4),
    )
    rows = tuple(_cable_row(show, one) for one in cables)
    return Table(columns, (RowGroup(rows),), row_um=9_000, least_um=LEAST_UM)


def _cable_row(show: Show, cable: Cable) -> TableRow:
    start = show.antennas.get(cable.start)
    ends = [Subject("antennas" if id in show.antennas else "racks", id) for id in (cable.start, cable.end)]
    text = ", ".join(filter(None, (start.side, start.place))) if start else ""
    return row(
        cell(fact(cable.start, HAND_STRONG), fact(text, HAND)),
        cell(fact(cable.end, HAND_STRONG)),
        forms.known_cell(cable.length, HAND_STRONG),
        *(forms.tick_cell() for _ in range(2)),
        forms.write_cell(),
        subjects=tuple(ends),
    )


def _list_parts(show: Show, parts: Sequence[AntennaPart]) -> Table:
    """Parts without a cable between them: what they are and where they go."""
    columns = headed(show, Column("antenna head part", share=2), Column("antenna head what", share=5))
    rows = tuple(_lone_row(show, part) for part in parts)
    return Table(columns, (RowGroup(rows),), row_um=9_000)


def _lone_row(show: Show, part: AntennaPart) -> TableRow:
    node = _part_node(show, part)
    return row(cell(node.title), cell(*node.lines), subjects=node.subjects, where=node.where)
