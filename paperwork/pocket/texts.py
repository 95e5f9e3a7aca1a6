"""What a sheet says, as values to read line by line: rows become cards, since no table fits a telephone.

What is for a pen (squares to tick, lines to write on) and what is cut out (labels, strips) is left to paper.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from paperwork.document import (
    Blank,
    Board,
    BoardRow,
    Card,
    Cards,
    Cell,
    Item,
    Line,
    Note,
    Panels,
    Plot,
    PlotRow,
    PlotScene,
    Ribbon,
    Sheet,
    Table,
    TableRow,
    Tag,
)

UNKNOWN = "not certain"
"""What is said where paper has a blank to write in."""


def list_parts(sheet: Sheet) -> list[dict[str, Any]]:
    """The parts of a sheet in order: each a title, a note, and rows of a key, lines and facts; drawings have none."""
    return [part for block in sheet.blocks for part in _read(block) if part["rows"]]


def _read(block: Any) -> Iterator[dict[str, Any]]:
    match block:
        case Table(groups=groups, columns=columns):
            heads = [column.heading for column in columns]
            for group in groups:
                yield _part(group.title, [_read_row(heads, one) for one in group.rows], group.note)
        case Cards(cards=cards):
            yield _part("", map(_read_card, cards))
        case Board(groups=boards):
            for board in boards:
                yield _part(board.title, map(_read_board, board.rows))
        case Plot(rows=rows, acts=acts):
            scenes = [scene for act in acts for scene in act.scenes]
            yield _part("", [_read_plot(scenes, one) for one in rows])
        case Panels(panels=panels):
            for panel in panels:
                yield _part(panel.title, [_row("", [line]) for line in panel.lines])
        case Note(text=text):
            yield _part("", [_row("", [text])])


def _part(title: str, rows: Iterable[dict[str, Any]], note: str = "") -> dict[str, Any]:
    return {"title": title, "note": note, "rows": [one for one in rows if one["key"] or one["lines"] or one["facts"]]}


def _row(
    key: str, lines: Sequence[str] = (), facts: Sequence[tuple[str, str]] = (), hatch: bool = False
) -> dict[str, Any]:
    return {"key": key, "lines": [*filter(None, lines)], "facts": [one for one in facts if one[1]], "hatch": hatch}


def _list_texts(items: Iterable[Item]) -> list[str]:
    found = []
    for item in items:
        if isinstance(item, Blank):
            found.append(UNKNOWN)
        elif isinstance(item, Line | Tag | Ribbon) and item.text:
            found.append(item.text)
    return found


def _say(cells: Sequence[Cell]) -> str:
    parts = (" · ".join([*_list_texts(one.items), *(line.text for line in one.beside)]) for one in cells)
    return " / ".join(filter(None, parts))


def _read_row(heads: Sequence[str], row: TableRow) -> dict[str, Any]:
    """The key of a row is what is set large in it, else its first text."""
    said = [_say(cells) for cells in row.cells]
    large = next((at for at, cells in enumerate(row.cells) if any(one.key for one in cells) and said[at]), None)
    first = large if large is not None else next((at for at, text in enumerate(said) if text), 0)
    key, *under = said[first].split(" · ") if said else ("",)
    hatch = any(one.hatch for cells in row.cells for one in cells)
    facts = [(heads[at], text) for at, text in enumerate(said) if at != first]
    return _row(key, [*under, row.mark], facts, hatch)


def _read_card(card: Card) -> dict[str, Any]:
    lines = [*_list_texts(card.items), *_list_texts(card.foot), card.doubt]
    return _row(card.key.text, lines, [("", " · ".join(line.text for line in card.band))], card.hatch)


def _read_board(row: BoardRow) -> dict[str, Any]:
    lines = [row.under.text if row.under else "", *(line.text for line in row.notes)]
    facts = [("up", " ".join(row.up)), ("new", " ".join(row.new)), ("gone", " ".join(row.gone))]
    return _row(row.title.text, lines, facts)


def _read_plot(scenes: Sequence[PlotScene], row: PlotRow) -> dict[str, Any]:
    """Each bar as the scenes that it spans, and what it is of."""
    facts = []
    for lane in row.lanes:
        for bar in lane.bars:
            ends = [scenes[at].number or scenes[at].name for at in (bar.first, bar.last)]
            said = " ".join(filter(None, (bar.text, bar.second and f"and {bar.second}", bar.note)))
            facts.append((" – ".join(dict.fromkeys(ends)), said or "on"))
    lines = [line.text for line in (row.title if row.key else None, row.under) if line]
    return _row((row.key or row.title).text, lines, facts, row.hatch)
