"""A wall on which pages, labels and cards hang: what is printed is put up, what is to be destroyed is taken down, literally.

What a page says is read off its boxes: every text on it but revision, date, page number and the sign of a changed row.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.changes import LabelPrint, PaperPrint, Reprint
from paperwork.document import Card, Cards, Labels, Line, Sheet, Tag
from paperwork.document.facts import card_code, label_code
from paperwork.pipeline import Laid, lay_out_papers
from paperwork.render import furniture
from paperwork.render.boxes import Page, TextBox
from paperwork.render.pdf.press import Press
from paperwork.render.stamp import DOUBTED
from paperwork.revisions import Comparison, Side, changed_papers
from paperwork.sheets import SHEETS
from paperwork.sheets.change_sheet import list_labels
from paperwork.text.fingerprint import ALPHABET
from paperwork.text.words import words_of


class Hung(NamedTuple):
    """One thing on the wall: its code, what it says, and in which language and on which paper it was printed."""

    code: str
    text: str
    look: tuple[str, str]


def lay_out_all(side: Side) -> list[Laid]:
    """Every paper of a full build."""
    return lay_out_papers(SHEETS, side.show, side.findings)[0]


def print_of(one: Laid) -> PaperPrint:
    """What a sheet that is laid out is known by."""
    return PaperPrint(one.paper.folder, one.sheet.name, one.sheet.title, one.codes, list_labels(one.sheet))


def say_page(page: Page, sheet: Sheet) -> str:
    """What a page says, blanks between its texts left out, since a line breaks where there is room."""
    shown = {sheet.revision, sheet.dated, page.code}
    replaced = words_of(sheet.language)["replaces"].format(revision=sheet.replaces) if sheet.replaces else ""
    said = [
        "".join(box.text.split())
        for box in page.boxes
        if isinstance(box, TextBox)
        and box.text not in shown
        and not (len(box.text) > 4 and box.text in replaced)
        and not _is_sign(box, sheet)
    ]
    return "".join(_leave_out(said, sheet))


def _is_sign(box: TextBox, sheet: Sheet) -> bool:
    """Whether it is in the margin of the page or of a column and says that a row is new or changed."""
    words = words_of(sheet.language)
    in_margin = box.ink.right < furniture.LEFT_UM and box.text != DOUBTED
    return in_margin or box.text in (words["sign new"], words["sign changed"])


def _leave_out(said: list[str], sheet: Sheet) -> Iterator[str]:
    """The texts without the page's number and without the revision before the code of a strip or a card."""
    number = words_of(sheet.language)["page"]
    ends = {part for part in number.format(n="", m="").split() if part}
    for text in said:
        digits = text
        for end in ends:
            digits = digits.replace(end, "")
        if digits.isdigit() and text != digits:
            continue
        is_coded = sheet.revision and len(text) >= 4 and set(text[-4:]) <= set(ALPHABET)
        yield text.replace(f"{sheet.revision}{text[-4:]}", text[-4:]) if is_coded else text


@dataclass
class Wall:
    """Pages by house, paper and number; labels and cards by house and paper, each as often as it hangs there."""

    pages: dict[tuple[str, str, int], Hung] = field(default_factory=dict)
    labels: Counter[tuple[str, str, Hung]] = field(default_factory=Counter)

    @classmethod
    def full(cls, laid: Iterable[Laid]) -> "Wall":
        """The wall after a full build."""
        wall = cls()
        wall.put_up(laid)
        return wall

    def put_up(self, laid: Iterable[Laid]) -> None:
        """Hangs what was printed; a place that is taken already is a fault of the lists."""
        for one in laid:
            look, house = (one.sheet.language, one.sheet.paper), one.sheet.at_venue
            cut = [*labels_of(one.sheet)]
            self.labels.update((house, one.sheet.name, Hung(code, text, look)) for code, text in cut)
            for number, page in zip(one.pages, one.layout.pages, strict=True):
                key = house, one.sheet.name, number
                if not cut:
                    assert key not in self.pages, f"{key} hangs there still"
                    self.pages[key] = Hung(page.code, say_page(page, one.sheet), look)

    def take_down(self, reprint: Reprint, house: str) -> None:
        """Takes down what the list says is to be destroyed: it must hang there, and carry the code that the list names."""
        for fate in reprint.papers:
            for page in fate.destroyed:
                assert self.pages.pop((house, fate.paper.name, page.number)).code == page.code
        for name, labels in reprint.bin_labels.items():
            for label in labels:
                self._take_label(house, name, label)

    def _take_label(self, house: str, name: str, label: LabelPrint) -> None:
        key = next(
            key
            for key, count in self.labels.items()
            if count and key[:2] == (house, name) and key[2].code == label.code
        )
        self.labels[key] -= 1

    def follow(self, compared: Comparison, press: Press | None = None) -> None:
        """Does what `build --since` prints and lists, to the letter."""
        self.take_down(compared.reprint, compared.old.show.at_venue)
        new = compared.new
        papers = changed_papers(compared)
        self.put_up(lay_out_papers(papers, new.show, new.findings, press=press, reprint=compared.reprint)[0])

    def differences(self, fresh: "Wall") -> list[str]:
        """What is not as a full build would have it, by code; by what it says too where both were printed alike."""
        found = []
        for key in sorted({*self.pages, *fresh.pages}):
            found += _differ(str(key), self.pages.get(key), fresh.pages.get(key))
        ours, theirs = (_by_code(wall.labels) for wall in (self, fresh))
        for key in sorted({*ours, *theirs}):
            one, two = ours.get(key, []), theirs.get(key, [])
            if len(one) != len(two):
                found.append(f"{key}: {len(one)} hang there, {len(two)} should")
            found += _differ(str(key), *(held[0] if held else None for held in (one, two)))
        return found


def _by_code(labels: Counter[tuple[str, str, Hung]]) -> Mapping[tuple[str, str, str], list[Hung]]:
    found: dict[tuple[str, str, str], list[Hung]] = {}
    for (house, name, hung), count in labels.items():
        if count:
            found.setdefault((house, name, hung.code), []).extend([hung] * count)
    return found


def _differ(name: str, ours: Hung | None, theirs: Hung | None) -> list[str]:
    if ours is None or theirs is None:
        return [f"{name}: {'hangs there and should not' if ours else 'is missing'}"] if ours or theirs else []
    if ours.code != theirs.code:
        return [f"{name}: {ours.code} hangs there, {theirs.code} should"]
    if ours.look == theirs.look and ours.text != theirs.text:
        return [f"{name}: has the code {ours.code} and says\n  {ours.text}\nin place of\n  {theirs.text}"]
    return []


def labels_of(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """The code and the texts of each label and each card to cut out of a sheet."""
    for block in sheet.blocks:
        if isinstance(block, Labels):
            for one in block.labels:
                said = (
                    one.number,
                    one.role,
                    *one.performers,
                    one.frequency,
                    one.pack,
                    one.capsule,
                    one.mark,
                    one.doubt,
                )
                yield label_code(one, sheet.at_venue), f"{said} {one.short_role}"
        elif isinstance(block, Cards) and block.signed:
            yield from ((card_code(card, sheet.at_venue), _say_card(card)) for card in block.cards)


def _say_card(card: Card) -> str:
    items = (*card.band, card.key, *card.items, *card.foot)
    said = [item.text if isinstance(item, Line | Tag) else type(item).__name__ for item in items]
    return f"{said} {card.doubt}"
