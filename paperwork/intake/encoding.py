"""Text that was saved as UTF-8 and read as Windows-1252, `ZoÃ«` for `Zoë`: found, asked, and mended."""

import re
from collections.abc import Sequence
from dataclasses import replace

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.ledger import Ledger, quote

_REST = "[\u0080-\u00bf\u0152\u0153\u0160\u0161\u0178\u017d\u017e\u0192\u02c6\u02dc\u2013-\u203a\u20ac\u2122]"
_SIGN = re.compile(f"[\u00c2-\u00df]{_REST}|[\u00e0-\u00ef]{_REST}{_REST}")
"""The bytes of one sign of UTF-8, as Windows-1252 shows them."""


def mend_grids(grids: Sequence[Grid], ledger: Ledger) -> list[Grid]:
    """The sheets with such texts mended, as they are until it is answered; asked once for all of them."""
    found = [cell for grid in grids for cell in grid.cells.values() if _mend(cell.text)]
    if not found:
        return list(grids)
    cell = found[0]
    # only the sign itself is shown: the text around it may be an address
    sign = next(one for one in _SIGN.findall(cell.text) if _mend(one))
    text = f"{quote(sign)} looks like {quote(_mend(sign))} saved in two ways, and so do {len(found)} cells in all"
    choices = {"mend": f"it is {_mend(sign)}: mend all of them", "keep": "it is right as it is"}
    if ledger.ask("encoding", "signs", cell.place, text, choices, default="mend") != "mend":
        return list(grids)
    return [replace(grid, cells={key: _with(cell) for key, cell in grid.cells.items()}) for grid in grids]


def _with(cell: GridCell) -> GridCell:
    mended = _mend(cell.text)
    return replace(cell, text=mended) if mended else cell


def _mend(text: str) -> str:
    """What a text was before it was read in the wrong way; "" where it is sound."""
    mended = "" if text.isascii() else _SIGN.sub(_decode, text)
    return mended if mended != text else ""


def _decode(match: re.Match[str]) -> str:
    try:
        return match.group().encode("cp1252").decode("utf-8")
    except UnicodeError:
        return match.group()
