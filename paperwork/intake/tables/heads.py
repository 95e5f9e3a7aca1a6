"""Which cells of a row are headings: by how many of them are spelled like headings, and by what is in the row below."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import takewhile

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.cells.rows import SheetRow, split_runs
from paperwork.intake.texts.bodies import are_repeated, is_named_mic, read_body
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import REPEATABLE, mean_label
from paperwork.intake.texts.scenes import is_scene
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import fold_word, listed_words

_LOOKED_AT = 40
"""Rows below a heading that are looked at: more tell no more."""


def _names_columns(grid: Grid, rows: Mapping[int, SheetRow], number: int) -> bool:
    """Whether a row only has words over groups of the headings below it: `WHO`, `RF` and `AUDIO`, each merged over several."""
    over = {left for top, left, _, right in grid.merges if top == number and right > left}
    row, below = rows[number], rows.get(number + 1, {})
    is_group = len(row) > 1 and len(over & set(row)) * 2 > len(row) and len(below) > len(row)
    return is_group and _is_heading_run([below[column] for column in sorted(below)], rows.get(number + 2, {}))


_SLIPS = 2
"""Words that are near to headings, and may be so by chance."""


def find_headings(grid: Grid, rows: Mapping[int, SheetRow], number: int) -> Iterator[tuple[int, ...]]:
    """The columns of each table whose headings are in a row."""
    row = rows[number]
    if grid.head:
        if number == grid.head:
            yield tuple(sorted(row))
        return
    if _names_columns(grid, rows, number):
        return
    runs = split_runs(row)
    heading_runs = [run for run in runs if _is_heading_run([row[c] for c in run], rows.get(number + 1, {}))]
    if not heading_runs:
        if _heads_plot(grid, rows, number):
            yield tuple(sorted(row))
        return
    joined: list[list[int]] = []
    before = [run for run in runs if run < heading_runs[0]][-1:]
    if before and all(mean_label(row[column].text).fields for column in before[0]):
        heading_runs = [before[0], *heading_runs]  # `Mic` before a column without a heading
    for run in runs:
        is_heading = run in heading_runs
        may_join = not any(_looks_like_data(row[column]) for column in run)
        if joined and may_join and not (is_heading and _begins_table(row, joined[-1], run)):
            joined[-1] += run
        elif is_heading:
            joined.append(list(run))
    for columns in joined:
        yield from _part_repeats(row, columns)


def _is_heading_run(cells: Sequence[GridCell], below: SheetRow) -> bool:
    """Whether neighbouring cells look like headings: two known fields, or one and two scenes, or scenes over marks."""
    if any(map(_looks_like_data, cells)) or (len(cells) < 3 and any(cell.kind == "date" for cell in cells)):
        return False
    known = {mean(cell.text).fields[:1] for cell in cells} - {()}
    near = {mean_label(cell.text).fields[:1] for cell in cells} - {()}
    scenes = [cell for cell in cells if not mean(cell.text).fields and (is_scene(cell.text) or cell.kind == "date")]
    if known or len(scenes) > 1:
        known |= near
    if len(known) > 1 and len(known) * 3 >= len(cells) - len(scenes):
        return True
    if len(known) > 1 and ("frequency",) in known and _is_over_carrier(cells, below):
        return True
    if len(near) > _SLIPS and len(near) * 2 > len(cells):
        return True  # every word of it is misspelled
    return _head_scenes(cells, scenes, below, has_known=bool(known))


def _head_scenes(cells: Sequence[GridCell], scenes: Sequence[GridCell], below: SheetRow, *, has_known: bool) -> bool:
    """Whether scenes head a plot: beside a known heading, two of them, or one in a short row; else alone, and over marks whose
    row begins to their left."""
    are_different = len({cell.text for cell in scenes}) > 1
    if has_known and (are_different if len(scenes) > 1 else bool(scenes) and len(cells) <= 3):
        return True
    before = cells[0].column - 1
    is_alone = 2 < len(scenes) == len(cells) and are_different
    return is_alone and 0 < before in below and not any(map(_looks_like_data, below.values()))


def _is_over_carrier(cells: Sequence[GridCell], below: SheetRow) -> bool:
    """Whether a frequency is right below the heading of frequencies, and all cells are texts: so they head a list."""
    over = [cell.column for cell in cells if "frequency" in mean(cell.text).fields and mean(cell.text).is_exact]
    is_plain = all(cell.kind == "text" and any(map(str.isalpha, cell.text)) for cell in cells)
    return is_plain and any(read_frequency(below[column].text).mhz for column in over if column in below)


def _heads_plot(grid: Grid, rows: Mapping[int, SheetRow], number: int) -> bool:
    """Whether a row heads a plot whose scenes no word gives away, as songs: words for people or mics, or nothing, over
    labels, then headings that are all different, and below them the marks, mics or names of a plot."""
    row = rows[number]
    labels = list(takewhile(lambda column: mean_label(row[column].text).fields, sorted(row)))
    free = {column: cell for column, cell in row.items() if column not in labels and not mean(cell.text).is_exact}
    below = [rows[n] for n in range(number + 1, number + 1 + _LOOKED_AT) if n in rows]
    if not _may_be_scenes(free.values()) or not any(min(one) < min(free) for one in below):
        return False
    if not labels and (_holds_more_than_acts(rows.get(number - 1, {})) or len(free) < 3):
        return False
    lines = [[cell.text for column, cell in one.items() if column in free] for one in below]
    body = read_body([text for line in lines for text in line])
    if not body:
        return any(row > number and column in free for row, column in grid.fills)
    are_mics = bool(labels) and len(free) > 2 and all(is_named_mic(cell.text) for cell in free.values())
    return are_mics or body in ("marks", "mics") or (body == "names" and are_repeated(lines))


def _may_be_scenes(cells: Collection[GridCell]) -> bool:
    """Whether headings may be of scenes: two at least, all different, and none of them data."""
    are_data = any((one.kind == "number" and not one.text.isdigit()) or _looks_like_data(one) for one in cells)
    return len(cells) > 1 and len({one.text for one in cells}) == len(cells) and not are_data


def _holds_more_than_acts(row: SheetRow) -> bool:
    """Whether a row above headings says more than a title, or the acts over their scenes."""
    return len(row) > 1 and not all(
        is_scene(cell.text) and fold_word(cell.text).split()[:1][0] in listed_words("act") for cell in row.values()
    )


def _looks_like_data(cell: GridCell) -> bool:
    """Whether a cell holds a frequency, or a number too large for a scene's."""
    if cell.kind == "failed" or cell.formula:
        return True
    if not any(char.isdigit() for char in cell.text) or mean(cell.text).fields or is_scene(cell.text):
        return False
    return bool(read_frequency(cell.text).mhz)


def _begins_table(row: SheetRow, left: Sequence[int], run: Sequence[int]) -> bool:
    """Whether headings behind a gap begin a table of their own: they repeat fields of the left one."""
    first = {name for column in left for name in mean(row[column].text).fields[:1]}
    own = [fields[0] for column in run if (fields := mean(row[column].text).fields)]
    return len(own) >= 2 and any(name in first and name not in REPEATABLE for name in own)


def _part_repeats(row: SheetRow, columns: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Headings that repeat a whole set, as a list printed in two columns, are two tables."""
    keys = [fold_heading(row[column].text) for column in columns]
    known = [bool(mean(row[column].text).fields) for column in columns]
    for index in range(2, len(columns) - 1):
        repeats = [i for i in range(index, len(columns)) if keys[i] in keys[:index] and known[i]]
        if len(repeats) >= 2 and repeats[0] == index:
            start = index if known[index - 1] or keys[index] == keys[0] else index - 1
            yield tuple(columns[:start])
            yield from _part_repeats(row, columns[start:])
            return
    yield tuple(columns)
