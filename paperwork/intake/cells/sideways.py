"""Whether the scenes of a plot go down its side, and the row that heads such a plot."""

from collections.abc import Mapping, Sequence, Set
from itertools import islice, takewhile
from typing import NamedTuple

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.cells.rows import SheetRow, group_rows
from paperwork.intake.texts.bodies import Body, are_repeated, is_mic, is_named_mic, read_body
from paperwork.intake.texts.headings import mean_label
from paperwork.intake.texts.names import key_of_name
from paperwork.intake.texts.scenes import is_scene, read_mark
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import listed_words

_LOOKED_FOR = 12
"""Rows of a part in which the heading of a plot is looked for: titles, carriers and names may be above it."""

_LOOKED_AT = 200
"""Rows below it that are looked at: more tell no more."""

_OF_PEOPLE = ("channel", "pack", "performer", "role", "frequency")


def find_scenes_head(grid: Grid, names: Set[str]) -> int | None:
    """The row that heads a plot whose scenes go down, or None. What is below the headings of a list are its rows."""
    rows = group_rows(grid)
    wide = (number for number, row in rows.items() if len(row) > 1)
    heads = islice(takewhile(lambda number: not _heads_list(rows[number]), wide), _LOOKED_FOR)
    return next((number for number in heads if _heads_scenes(grid, rows, number, names)), None)


def _heads_list(row: SheetRow) -> bool:
    """Whether cells of a row are headings, each of another field, and more than two: all of them, or one that of frequencies."""
    meant = [meaning.fields[0] for cell in row.values() if (meaning := mean(cell.text)).is_exact]
    is_whole = len(set(meant)) == len(meant) == len(row)
    return len(set(meant)) > 2 and (is_whole or ("frequency" in meant and len(meant) * 2 > len(row)))


class _Plot(NamedTuple):
    """What may be a plot: its corner, the cells beside it that are over no word about scenes, the labels down its side, what each
    column says, what all of them are, and the rows below the heading."""

    corner: GridCell | None
    heads: Sequence[GridCell]
    down: Sequence[GridCell]
    lines: Sequence[Sequence[str]]
    body: Body
    below: Sequence[SheetRow]


def _heads_scenes(grid: Grid, rows: Mapping[int, SheetRow], number: int, names: Set[str]) -> bool:
    """Whether a row has mics or people beside a corner, and below it are scenes."""
    plot = _read_plot(grid, rows, number)
    if plot is None or not _holds_plot(plot, has_fills=bool(grid.fills)):
        return False
    has_people = any(map(_labels_people, plot.below)) and not any(map(_is_plain_scene, plot.heads))
    return _go_down(plot, names) or (plot.corner is None and has_people)


def _read_plot(grid: Grid, rows: Mapping[int, SheetRow], number: int) -> _Plot | None:
    """What a row and those below it would be as a plot; None where the row is data, or over lists of roles."""
    first = min(column for _, column in grid.cells)
    corner, heads = rows[number].get(first), [cell for column, cell in rows[number].items() if column != first]
    is_cued = sum(fold_heading(cell.text) in listed_words("mute_cue") for cell in heads) > 1
    if is_cued or (corner is not None and is_scene(corner.text)):
        return None
    coloured = {row for row, _ in grid.fills}
    rest = (row for n, row in rows.items() if n > number and (len(row) > 1 or n in coloured))
    below = tuple(islice(rest, _LOOKED_AT))
    scenes = [row for row in below if not _is_label(row)]
    down = [row[first] for row in scenes if first in row]
    if len(down) < 2 or _lists_roles(heads, scenes):
        return None
    known = {c.column for c in heads if _is_about(c.text) and not (is_named_mic(c.text) or _is_role(c, grid))}
    columns = {column for row in scenes for column in row} - {first}
    lines = [[row[column].text for row in scenes if column in row] for column in columns - known]
    if len(heads) * 10 < len(columns) * 7:
        return None
    return _Plot(corner, heads, down, lines, read_body([text for line in lines for text in line]), below)


def _holds_plot(plot: _Plot, *, has_fills: bool) -> bool:
    """Whether cells are those of a plot: marks, mics, names that come again, as in no list, or colours alone."""
    if plot.body == "names":
        return _are_mics(plot.heads) or are_repeated(plot.lines)
    return plot.body in ("marks", "mics") or (not plot.body and has_fills)


def _lists_roles(heads: Sequence[GridCell], below: Sequence[SheetRow]) -> bool:
    """Whether a heading is over lists of who is on, `Dolly, Horace`: a breakdown of scenes, and no plot."""
    over = [cell.column for cell in heads if mean(cell.text).is_exact and mean(cell.text).fields[0] == "role"]
    return any("," in row[column].text for column in over for row in below if column in row)


def _is_about(heading: str) -> bool:
    """Whether a heading beside the corner of a plot is over what is said of its scenes: `Page`, `Item`."""
    return bool(mean_label(heading).fields) or fold_heading(heading) in listed_words("scene_corner")


def _go_down(plot: _Plot, names: Set[str]) -> bool:
    """Whether the labels down the side of a plot are its scenes, and not those along its top: by what the corner says, by
    how they are spelled, by who is known, and by what the cells are."""
    corner, heads, down = plot.corner, plot.heads, plot.down
    has_scenes = sum(is_scene(cell.text) or cell.kind == "date" for cell in down) * 10 >= len(down) * 7
    are_scenes = sum(map(_is_plain_scene, heads)) * 2 >= len(heads)
    if plot.body == "names" and all(is_mic(cell.text) for cell in heads):
        return not are_scenes
    if corner is not None and says_scenes(corner.text):
        is_free = fold_heading(corner.text) in listed_words("scene_corner")
        return not are_scenes and (has_scenes or is_free or plot.body != "marks" or not _are_figures(heads))
    if corner is not None and mean_label(corner.text).fields:
        return has_scenes and not are_scenes and not all(is_mic(cell.text) for cell in down)
    if _are_named(down, names) != _are_named(heads, names):
        return _are_named(heads, names)
    is_told = has_scenes and not are_scenes and (corner is None or not _are_figures(down))
    return is_told or (has_scenes and _are_mics(heads))


def _is_plain_scene(cell: GridCell) -> bool:
    return cell.kind == "date" or (is_scene(cell.text) and not cell.text.isdigit() and not is_named_mic(cell.text))


def says_scenes(corner: str) -> bool:
    """Whether the corner of a plot names what goes down: `Scene`, `Song`, `Day`, `Scene / Mic`."""
    words = fold_heading(corner)
    parts = (words, *words.split()[:1])
    return mean_label(corner).fields[:1] == ("scenes",) or any(part in listed_words("scene_corner") for part in parts)


def _is_label(row: SheetRow) -> bool:
    """Whether a row says something of the columns, as `Freq` or `Actor` in its first cell does."""
    label = row[min(row)].text
    return bool(mean_label(label).fields) and not is_scene(label)


def _labels_people(row: SheetRow) -> bool:
    """Whether a row says of the columns whose they are or how they are tuned, so that people or mics are above it."""
    return _is_label(row) and mean_label(row[min(row)].text).fields[0] in _OF_PEOPLE


def _are_mics(heads: Sequence[GridCell]) -> bool:
    return len(heads) > 1 and sum(is_named_mic(cell.text) for cell in heads) * 3 >= len(heads) * 2


def _are_named(cells: Sequence[GridCell], names: Set[str]) -> bool:
    """Whether most of some labels are people or roles that a list of the book names."""
    return sum(key_of_name(cell.text) in names for cell in cells) * 2 > len(cells)


def _are_figures(cells: Sequence[GridCell]) -> bool:
    return all(cell.text.strip().isdigit() for cell in cells)


def _is_role(cell: GridCell, grid: Grid) -> bool:
    """Whether a heading word is somebody's role: `Host` over nothing but marks."""
    below = [c.text.strip() for (row, column), c in grid.cells.items() if column == cell.column and row > cell.row]
    is_grid = all(text.isdigit() or read_mark(text) in ("live", "idle") for text in below)
    return mean(cell.text).fields[:1] == ("performer",) and is_grid
