"""Whether a cell that was read is found again in the show: the proof behind "used"."""

import re
from collections.abc import Iterable, Iterator, Mapping

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.texts.ids import key_of
from paperwork.intake.texts.names import is_blank, is_open
from paperwork.intake.texts.scenes import read_mark
from paperwork.place import Place
from paperwork.raw import Map, Node, Text
from paperwork.text.vocabulary import fold_word

_PARTS = re.compile(r"[/,;&+\n\u2192()]|\bthen\b|\band\b")


def prove(cells: Iterable[GridCell], show: Map, ledger: Ledger) -> None:
    """Take back that cells were used of which the show has nothing: they say that there is nothing, wait for an answer,
    are in a finding already, or are not understood."""
    asked = {place for question in ledger.questions for place in (question.place, *question.others)}
    reported = {place for finding in ledger.findings for place in (finding.place, *finding.others)}
    used = [cell for cell in cells if ledger.uses.get(cell.place) == "used"]
    for cell in _find_lost(used, show, ledger.carried):
        says_nothing = not any(map(str.isalnum, cell.text)) or (is_blank(cell.text) and not is_open(cell.text))
        if says_nothing or read_mark(cell.text) == "idle":
            ledger.reenter([cell], "blank")
        elif cell.place in asked or not cell.text:
            ledger.reenter([cell], "asked")
        elif cell.place in reported:
            ledger.reenter([cell], "unknown")
        else:
            del ledger.uses[cell.place]
            what = "not assigned yet" if is_open(cell.text) else "read, but nothing of it is in the show"
            ledger.leave([cell], what)


def _find_lost(cells: Iterable[GridCell], show: Map, carried: Mapping[Place, str]) -> list[GridCell]:
    """The cells of which the show holds neither a value that was made of them nor what they say, whole or part by part."""
    nodes = list(_walk(show))
    places: set[Place] = {node.place for node in nodes}
    texts = [node.text for node in nodes if isinstance(node, Text)]
    known = {key_of(text) for text in texts} | {fold_word(text) for text in texts}
    joined = f" {' | '.join(dict.fromkeys(map(fold_word, texts)))} "
    said: dict[str, bool] = {}
    lost = []
    for cell in cells:
        if cell.place in places or (cell.place in carried and f" {fold_word(carried[cell.place])} " in joined):
            continue
        if cell.text not in said:
            parts = [part for part in _PARTS.split(cell.text) if fold_word(part)]
            said[cell.text] = _is_said(cell.text, known, joined) or (
                bool(parts) and all(_is_said(part, known, joined) for part in parts)
            )
        if not said[cell.text]:
            lost.append(cell)
    return lost


def _is_said(text: str, known: set[str], joined: str) -> bool:
    words = fold_word(text)
    return key_of(text) in known or words in known or (bool(words) and f" {words} " in joined)


def _walk(node: Node) -> Iterator[Node]:
    if isinstance(node, Text):
        yield node
        return
    for one in node.items:
        if isinstance(one, tuple):
            yield one[0]
            yield from _walk(one[1])
        else:
            yield from _walk(one)
