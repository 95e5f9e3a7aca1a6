"""Where the headings of a sheet of ours are, and which field each of them names, whatever its user has done to it
since.

Written by us, row 1 has the names of fields, and `id` is the first. Since then a title may have come above them,
columns may have been moved or added, and headings been said in the user's own words.
"""

from collections.abc import Iterable, Mapping

from paperwork.files.grid import GridCell
from paperwork.frozen import frozen
from paperwork.model.fields import SECTIONS

_LOOKED_AT = 12
"""Rows in which the headings are looked for: a title, and what belongs to it, is above them."""


@frozen
class Heads:
    """The row of the headings, the column of the ids, and the name of each column: a field's where it means one."""

    row: int
    id: int
    names: Mapping[int, str]


def fold(title: str) -> str:
    """A sheet's name or a heading as a name of ours: lower case, blanks trimmed and single."""
    return " ".join(title.lower().split())


def find_heads(cells: Iterable[GridCell], section: str) -> Heads | None:
    """The headings of a section's sheet; None where no row holds them."""
    rows: dict[int, dict[int, GridCell]] = {}
    for cell in cells:
        if cell.kind != "failed":
            rows.setdefault(cell.row, {})[cell.column] = cell
    known = SECTIONS[section].fields if section in SECTIONS else {}
    for row in sorted(rows)[:_LOOKED_AT]:
        key = _find_key(row, rows, known)
        if key:
            return Heads(row, key, _name_columns(rows[row], key, known))
    return None


def _find_key(row: int, rows: Mapping[int, Mapping[int, GridCell]], known: Iterable[str]) -> int:
    """The column of the ids if a row holds headings, else 0. What heads them may be another word than `id`, where two
    fields beside it are spelled as we write them, and no id comes twice."""
    heads, fields = rows[row], frozenset(known)
    named = sum(fold(cell.text) in fields for cell in heads.values())
    key = next((column for column, cell in heads.items() if fold(cell.text) == "id"), 0)
    if key:
        return key if named or (row, key) == (1, 1) else 0
    spelled, first = sum(cell.text in fields for cell in heads.values()), min(heads)
    ids = [cells[first].text for below, cells in rows.items() if below > row and first in cells]
    is_free = fold(heads[first].text) not in fields and len(set(ids)) == len(ids) > 0
    return first if is_free and spelled > 1 and spelled * 2 >= len(heads) - 1 else 0


def _name_columns(heads: Mapping[int, GridCell], key: int, known: Iterable[str]) -> dict[int, str]:
    """The name of each column, in the order of the sheet. A word of another language is that of the field that it
    means, unless the sheet has the field already."""
    names = {column: fold(cell.text) for column, cell in heads.items()} | {key: "id"}
    fields = frozenset(known)
    for column in [column for column, name in names.items() if name not in fields and column != key]:
        meant = _mean_field(heads[column].text)
        if meant in fields and meant not in names.values():
            names[column] = meant
    return names


def _mean_field(heading: str) -> str:
    from paperwork.text.headings import OURS, mean

    meaning = mean(heading)
    return OURS.get(meaning.fields[0], meaning.fields[0]) if meaning.is_exact else ""
