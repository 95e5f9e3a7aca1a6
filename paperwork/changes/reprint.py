"""The codes of two sets of papers: which pages and which single labels to print again, to destroy, and to keep."""

from collections import Counter
from collections.abc import Iterable, Mapping
from itertools import zip_longest
from typing import NamedTuple

from paperwork.frozen import frozen


class LabelPrint(NamedTuple):
    """One label, or one card to cut out: what it is called (its number and role) and the code that it carries."""

    number: str
    role: str
    code: str


@frozen
class PaperPrint:
    """One sheet: its folder, file and title, the code of each page; its labels or cut-out cards, if any."""

    folder: str
    name: str
    title: str
    pages: tuple[str, ...]
    labels: tuple[LabelPrint, ...] = ()


class PagePrint(NamedTuple):
    """One page: its number from 1, and its code."""

    number: int
    code: str


@frozen
class PaperFate:
    """What becomes of the pages of one sheet: those `printed` now, those `destroyed` (with their former codes), those
    that stay. `count` is how many pages the sheet has now, or had if it is gone."""

    paper: PaperPrint
    count: int
    printed: tuple[PagePrint, ...] = ()
    destroyed: tuple[PagePrint, ...] = ()
    valid: tuple[PagePrint, ...] = ()


@frozen
class Reprint:
    """What a change of revision does to the papers on the walls.

    `papers` are all sheets of both sides but those of labels. `labels` are the labels to be printed, by the name of
    their sheet, `bin_labels` former labels that are wrong now; `valid_labels` says how many stay good. `label_sheets`
    are all sheets of labels, former ones too.
    """

    papers: tuple[PaperFate, ...]
    labels: Mapping[str, tuple[LabelPrint, ...]]
    bin_labels: Mapping[str, tuple[LabelPrint, ...]]
    valid_labels: Mapping[str, int]
    label_sheets: tuple[PaperPrint, ...]

    @property
    def pages(self) -> dict[str, frozenset[int]]:
        """The numbers of the pages to be printed, by the name of their sheet."""
        return {
            fate.paper.name: frozenset(page.number for page in fate.printed) for fate in self.papers if fate.printed
        }


def compare_papers(old: Iterable[PaperPrint], new: Iterable[PaperPrint]) -> Reprint:
    """What to print again, to destroy and to keep. Sheets are matched by the name of their file, pages by their number,
    labels by their codes.

    A sheet of labels is never destroyed as a whole: each label is a paper of its own.
    """
    before, after = {paper.name: paper for paper in old}, {paper.name: paper for paper in new}
    plain = [paper for paper in {**before, **after}.values() if not paper.labels]
    labels = {name: _missing(paper, before.get(name)) for name, paper in after.items() if paper.labels}
    gone = {name: _missing(paper, after.get(name)) for name, paper in before.items() if paper.labels}
    return Reprint(
        papers=tuple(_compare_pages(paper, before.get(paper.name), after.get(paper.name)) for paper in plain),
        labels={name: printed for name, printed in labels.items() if printed},
        bin_labels={name: former for name, former in gone.items() if former},
        label_sheets=tuple(paper for paper in {**before, **after}.values() if paper.labels),
        valid_labels={
            name: len(after[name].labels) - len(printed)
            for name, printed in labels.items()
            if len(printed) < len(after[name].labels)
        },
    )


def _compare_pages(paper: PaperPrint, old: PaperPrint | None, new: PaperPrint | None) -> PaperFate:
    """A sheet that came to carry labels, or did so before, has no page in common with itself."""
    were, are = (one.pages if one and not one.labels else () for one in (old, new))
    printed, destroyed, valid = [], [], []
    for number, (was, now) in enumerate(zip_longest(were, are, fillvalue=""), 1):
        if was == now:
            valid.append(PagePrint(number, now))
            continue
        printed += [PagePrint(number, now)] if now else []
        destroyed += [PagePrint(number, was)] if was else []
    return PaperFate(paper, len(are) or len(were), tuple(printed), tuple(destroyed), tuple(valid))


def _missing(paper: PaperPrint, other: PaperPrint | None) -> tuple[LabelPrint, ...]:
    """The labels of a sheet whose codes the other sheet does not have, or has less often."""
    left = Counter(label.code for label in other.labels) if other else Counter[str]()
    missing = []
    for label in paper.labels:
        if left[label.code]:
            left[label.code] -= 1
        else:
            missing.append(label)
    return tuple(missing)
