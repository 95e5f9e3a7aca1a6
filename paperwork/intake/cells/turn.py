"""Tables that lie on their side: headings down a column, or scenes down a grid. They are turned before they are read."""

from collections.abc import Iterator, Set
from dataclasses import replace
from itertools import takewhile

from paperwork.files.grid import Grid
from paperwork.intake.cells.rows import SheetRow, group_rows, split_runs
from paperwork.intake.cells.sideways import find_scenes_head, says_scenes
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import find_label, mean_label
from paperwork.intake.texts.scenes import is_scene
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import listed_words


def turn_grid(grid: Grid, rows: str = "", names: Set[str] = frozenset()) -> tuple[Grid, ...]:
    """The sheet with what lies on its side taken out and turned: first what is upright, then each part turned.

    Parts are rows without a blank row between them. Places and addresses stay the true ones. `rows` is what an answer says
    that a row is: of `scenes` every part is turned, of `channels`, `roles` or `nothing` none. `names` are the keys of those
    whom the lists of the book name.
    """
    if rows in ("channels", "roles", "nothing"):
        return (grid,)
    parts = list(_list_lying(grid, names, are_scenes=rows == "scenes"))
    if not parts:
        return (grid,)
    turned = {key for part, _ in parts for key in part.cells}
    rest = replace(grid, cells={key: cell for key, cell in grid.cells.items() if key not in turned})
    turned_parts = tuple(_turn_part(part, names) if is_plot else _turn(part) for part, is_plot in parts)
    return (rest, *turned_parts) if rest.cells else turned_parts


def _list_lying(grid: Grid, names: Set[str], *, are_scenes: bool) -> Iterator[tuple[Grid, bool]]:
    """The parts that lie on their side, and whether each is a plot; the titles above the headings of a list remain upright. What follows a plot in its
    columns, without a heading of its own, is more of it."""
    plot: Grid | None = None
    for part in _part_rows(grid):
        body = _cut_titles(part)
        if plot and _continues(plot, part):
            plot = replace(plot, cells={**plot.cells, **part.cells}, merges=(*plot.merges, *part.merges))
            continue
        if plot:
            yield plot, True
        plot = None
        if body.cells and not are_scenes and _has_fields_down(body) and not _has_scenes_down(body):
            yield body, False
        elif body.cells and (are_scenes or find_scenes_head(body, names) is not None):
            plot = body
    if plot:
        yield plot, True


def _has_scenes_down(grid: Grid) -> bool:
    """Whether what is headed by fields down its side is a plot with such rows above its scenes."""
    first = min(column for _, column in grid.cells)
    labels = [cell.text for (_, column), cell in grid.cells.items() if column == first]
    ours = ((), ("scenes",), ("scene_title",))
    says = any(says_scenes(text) and mean_label(text).fields[:1] in ours for text in labels)
    return sum(map(is_scene, labels)) > 1 or says


def _continues(plot: Grid, part: Grid) -> bool:
    """Whether rows below a plot, behind a blank one, are more of its scenes: in its columns, and labelled like scenes."""
    first, last = min(column for _, column in plot.cells), max(column for _, column in plot.cells)
    rows = group_rows(part).values()
    labels = [row[first] for row in rows if first in row and len(row) > 1]
    is_within = all(first <= column <= last for _, column in part.cells)
    return is_within and bool(labels) and all(is_scene(cell.text) for cell in labels)


def _cut_titles(grid: Grid) -> Grid:
    """A part without its first rows that hold one cell each, which is no heading, or a label of a title block and its text."""
    rows = group_rows(grid)
    widest = max(map(len, rows.values()), default=0)

    def is_title(number: int) -> bool:
        first, *more = (rows[number][column] for column in sorted(rows[number]))
        is_label = len(more) == 1 < widest - 1 and bool(find_label(first.text))
        is_wide = any(top == number and left == first.column < right for top, left, _, right in grid.merges)
        return is_label or (not more and (is_wide or not mean(first.text).is_exact))

    above = set(takewhile(is_title, rows))
    return replace(grid, cells={key: cell for key, cell in grid.cells.items() if key[0] not in above})


def _part_rows(grid: Grid) -> Iterator[Grid]:
    """The blocks of rows that blank rows part, each as a sheet of its own."""
    rows = group_rows(grid)
    for block in split_runs(rows):
        cells = {(number, column): cell for number in block for column, cell in rows[number].items()}
        merges = tuple(area for area in grid.merges if block[0] <= area[0] <= block[-1])
        yield replace(grid, cells=cells, hidden=(), merges=merges)


def _turn_part(part: Grid, names: Set[str]) -> Grid:
    head = find_scenes_head(part, names)
    if head is None:
        head = next((number for number, row in group_rows(part).items() if len(row) > 1), None)
    if head is None:
        return _turn(part)
    first = min(column for _, column in part.cells)
    return replace(_turn(_lift_labels(part, head)), head=first)


def _turn(grid: Grid) -> Grid:
    cells = sorted(grid.cells.values(), key=lambda cell: (cell.column, cell.row))
    return replace(
        grid,
        cells={(c.column, c.row): replace(c, row=c.column, column=c.row) for c in cells},
        merges=tuple(sorted((left, top, right, bottom) for top, left, bottom, right in grid.merges)),
        fills={(column, row): fill for (row, column), fill in grid.fills.items()},
        notes={(column, row): note for (row, column), note in grid.notes.items()},
        is_turned=not grid.is_turned,
    )


def _has_fields_down(grid: Grid) -> bool:
    """Whether two fields head rows, and half of all rows or one of carriers, and nowhere two of them head columns. A role may
    be called Singer."""
    columns = {column for _, column in grid.cells}
    if len(columns) < 3:
        return False
    first = min(columns)
    edge = [mean_label(cell.text) for (_, column), cell in grid.cells.items() if column == first]
    down = [meaning.fields[0] for meaning in edge if meaning.fields]
    rows = group_rows(grid).values()
    has_carriers = any(map(_is_carriers, rows))
    if len(set(down)) < 2 or (len(down) * 2 < len(edge) and not has_carriers):
        return False
    scenes = (sum(is_scene(cell.text) and not cell.text.isdigit() for cell in row.values()) > 1 for row in rows)
    if not has_carriers and any(scenes):  # a grid of roles that are called Host and Guest
        return False
    meant = [[mean(cell.text) for cell in row.values()] for row in rows]
    return all(len({one.fields[0] for one in row if one.is_exact}) < 2 for row in meant)


def _is_carriers(row: SheetRow) -> bool:
    """Whether a row is headed as frequencies and holds one, or holds nothing but frequencies behind a word."""
    first, *others = (row[column] for column in sorted(row))
    found = [bool(read_frequency(cell.text).mhz and not cell.text.strip().isdigit()) for cell in others]
    meant = {*mean(first.text).fields, *mean_label(first.text).fields}
    is_headed = "frequency" in meant and any(read_frequency(cell.text).mhz for cell in others)
    return is_headed or (len(found) > 1 and all(found) and not any(map(str.isdigit, first.text)))


def _is_act(text: str, are_numbers: bool) -> bool:
    """Whether a label alone in its row is over the scenes below it, and no scene in which nobody is."""
    is_named = fold_heading(text).split()[:1] in [[word] for word in listed_words("act")]
    return is_named or (are_numbers and not is_scene(text))


def _lift_labels(grid: Grid, head: int) -> Grid:
    """A grid whose scenes go down with what labels its other rows, `Freq` or `Actor` in the second column, moved into the
    first; and with the titles of its acts, alone in their rows, moved above the scenes that follow."""
    rows, cells, merges = group_rows(grid), dict(grid.cells), list(grid.merges)
    first = min(column for _, column in grid.cells)
    numbers = [number for number in rows if number > head]
    coloured = {row for row, _ in grid.fills}
    labels = [row[first].text for number, row in rows.items() if number > head and first in row and len(row) > 1]
    are_numbers = sum(map(is_scene, labels)) * 2 > len(labels)
    for index, number in enumerate(numbers):
        row = rows[number]
        column = min(row)
        if column != first and mean(row[column].text).is_exact:
            cells[number, first] = replace(cells.pop((number, column)), column=first)
        elif len(row) == 1 and column == first and number not in coloured and _is_act(row[column].text, are_numbers):
            last = next((n for n in numbers[index + 1 :] if len(rows[n]) == 1), numbers[-1] + 1) - 1
            cells[number + 1, 0] = replace(cells.pop((number, first)), row=number + 1, column=0)
            merges = [area for area in merges if area[0] != number]
            merges.append((number + 1, 0, last, 0))
    return replace(grid, cells=cells, merges=tuple(merges))
