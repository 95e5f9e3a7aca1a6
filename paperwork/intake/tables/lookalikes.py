"""A row below headings that looks like headings: more of them, or a row of the list. `4, Mei Ota, tbc, 3, Lav` is one."""

from collections.abc import Mapping
from itertools import pairwise

from paperwork.files.grid import GridCell
from paperwork.intake.texts.scenes import is_scene
from paperwork.text.headings import fold_heading, mean

_TELLING = ("channel", "performer", "role", "frequency")
"""Fields that make a row: what is under them is a heading word, or somebody's data."""


def is_repeat(first: Mapping[int, GridCell | None], second: Mapping[int, GridCell | None]) -> bool:
    """Whether headings say again what the headings above them say, as they do at the top of each printed page."""
    above = {column: fold_heading(cell.text) for column, cell in first.items() if cell}
    below = {column: fold_heading(cell.text) for column, cell in second.items() if cell}
    same = sum(above.get(column) == text for column, text in below.items())
    return same == len(below) >= max(2, round(0.7 * len(above)))


def is_row(headings: Mapping[int, GridCell | None], row: Mapping[int, GridCell], *, is_next: bool) -> bool:
    """Whether a row with heading words in it is a row of the table above, whose headings are given.

    The columns that say which channel, who and on what frequency decide: a number or a name there is data, and a lone
    heading word may be a role's name. Where nothing decides, a row next to the table (`is_next`) is one of its rows.
    """
    fields = _find_telling(headings)
    stated = {column: cell for column, cell in row.items() if column in fields and cell.kind != "date"}
    heads = {column for column, cell in stated.items() if mean(cell.text).is_exact}
    key = {column for column in heads if fields[column] == "channel"}
    if not key and not any(mean(row[column].text).fields[0] in _TELLING for column in heads):
        heads = set()
    scenes = {column for column, cell in row.items() if column not in heads and is_scene(cell.text)}
    data = set(stated) - heads - scenes
    if not data and _is_grid(row, heads, scenes):
        return False
    if any(fields[column] == "channel" and cell.text.strip().isdigit() for column, cell in stated.items()):
        return True
    if len(data) == len(heads) or (len(heads) == 1 and not key and not data):
        return is_next
    return len(data) > len(heads)


def _find_telling(headings: Mapping[int, GridCell | None]) -> dict[int, str]:
    """The columns of the telling fields, each field once: where its heading leaves the least choice."""
    meant = {column: mean(cell.text).fields for column, cell in headings.items() if cell}
    found: dict[str, int] = {}
    for column in sorted(meant, key=lambda column: (len(meant[column]), column)):
        if meant[column] and meant[column][0] in _TELLING:
            found.setdefault(meant[column][0], column)
    return {column: field for field, column in found.items()}


def _is_grid(row: Mapping[int, GridCell], heads: set[int], scenes: set[int]) -> bool:
    """Whether a row heads a grid: a word for roles or people, then scenes, all different, with nothing else between them;
    plain numbers follow one another."""
    named = [column for column in heads if mean(row[column].text).fields[0] in _TELLING]
    columns = [column for column in sorted(scenes) if named and column > min(named)]
    if any(columns[0] < column < columns[-1] and column not in scenes for column in row if columns):
        return False
    behind = [row[column].text.strip() for column in columns]
    if len(behind) < 2 or len(set(behind)) < len(behind) or len(behind) < len(scenes):
        return False
    if not all(text.isascii() and text.isdigit() for text in behind):
        return True
    numbers = [int(text) for text in behind]
    return 2 * sum(two == one + 1 for one, two in pairwise(numbers)) >= len(numbers) - 1
