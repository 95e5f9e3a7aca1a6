"""Text whose letters were garbled on the way: UTF-8 read as something older (`ZoÃ«` for `Zoë`), or an old encoding that was not
stated. Found, asked, and mended."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache

from paperwork.files.encodings import ENCODINGS, list_signs
from paperwork.files.grid import Book, Grid, GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.place import Place


def mend_grids(book: Book, grids: Sequence[Grid], ledger: Ledger) -> list[Grid]:
    """The sheets with garbled texts mended, as they are until it is answered; asked once for all of them."""
    return _mend_signs(_mend_encoding(book, grids, ledger), ledger)


def _mend_encoding(book: Book, grids: Sequence[Grid], ledger: Ledger) -> list[Grid]:
    """The text in the encoding that an answer says, where Windows-1252 does not give the likeliest letters."""
    taken = book.encodings[0] if book.encodings else "cp1252"
    cells = [cell for grid in grids for cell in grid.cells.values() if not cell.text.isascii()]
    if taken == "cp1252" or not cells:
        return list(grids)
    text = "".join(cell.text for cell in cells)
    second = _recode(text, taken, book.encodings[1])
    text = "".join(one for one, other in zip(text, second, strict=False) if one != other) or text
    choices = {codec: f"{ENCODINGS[codec]}: {list_signs(_recode(text, taken, codec))}" for codec in book.encodings}
    question = f"{book.name} does not say how its letters were saved; {ENCODINGS[taken]} gives {list_signs(text)}"
    place = Place(book.name, cells[0].place.line, cells[0].place.column)
    answer = ledger.ask("encoding", "file", place, question, choices, default=taken)
    return list(grids) if answer == taken else _change(grids, lambda one: _recode(one, taken, answer))


def _recode(text: str, taken: str, codec: str) -> str:
    return text.encode(taken, "replace").decode(codec, "replace")


def _mend_signs(grids: Sequence[Grid], ledger: Ledger) -> list[Grid]:
    """The texts that were saved as UTF-8 and read as something else."""
    found = [cell for grid in grids for cell in grid.cells.values() if _mend(cell.text)]
    if not found:
        return list(grids)
    cell = found[0]
    # only the sign itself is shown: the text around it may be an address
    sign = next(
        match.group() for codec in ENCODINGS for match in _sign_in(codec).finditer(cell.text) if _mend(match.group())
    )
    text = f"{quote(sign)} looks like {quote(_mend(sign))} saved in two ways, and so do {len(found)} cells in all"
    choices = {"mend": f"it is {_mend(sign)}: mend all of them", "keep": "it is right as it is"}
    if ledger.ask("encoding", "signs", cell.place, text, choices, default="mend") != "mend":
        return list(grids)
    return _change(grids, lambda one: _mend(one) or one)


def _change(grids: Sequence[Grid], change: Callable[[str], str]) -> list[Grid]:
    def changed(cell: GridCell) -> GridCell:
        return cell if cell.text.isascii() else replace(cell, text=change(cell.text), kept=change(cell.kept))

    return [replace(grid, cells={key: changed(cell) for key, cell in grid.cells.items()}) for grid in grids]


@cache
def _sign_in(codec: str) -> re.Pattern[str]:
    """One sign of UTF-8 of two or three bytes, as an encoding shows its bytes."""

    def show(first: int, last: int) -> str:
        signs = (bytes([byte]).decode(codec, "ignore") for byte in range(first, last + 1))
        return f"[{''.join(map(re.escape, signs))}]"

    rest = show(0x80, 0xBF)
    return re.compile(f"{show(0xC2, 0xDF)}{rest}|{show(0xE0, 0xEF)}{rest}{rest}")


def _mend(text: str) -> str:
    """What a text was before it was read in the wrong way; "" where it is sound."""
    if text.isascii():
        return ""
    for codec in ENCODINGS:
        mended = _sign_in(codec).sub(lambda match: _decode(match[0], codec), text)  # noqa: B023
        if mended != text and _is_likely(mended):
            return mended
    return ""


def _is_likely(text: str) -> bool:
    """Whether what came of mending is a letter of names, or punctuation, and no sign that nobody types."""
    return all(
        char.isascii()
        or char.isalpha()
        or char in "\u2018\u2019\u201c\u201d\u2013\u2014\u2026\u00b0\u00bf\u00a1\u00a0\u2713\u2714"
        for char in text
    )


def _decode(signs: str, codec: str) -> str:
    try:
        return signs.encode(codec).decode("utf-8")
    except UnicodeError:
        return signs
