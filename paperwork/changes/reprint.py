"""The codes of two sets of papers: which sheets and which single labels to print again, to bin, and to keep."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LabelPrint:
    """One label, or one card to cut out: what it is called (its number and role) and the code that it carries."""

    number: str
    role: str
    code: str


@dataclass(frozen=True, slots=True)
class PaperPrint:
    """One sheet: its folder, the name of its file, its title, its code; its labels or cut-out cards, if it has any."""

    folder: str
    name: str
    title: str
    code: str
    labels: tuple[LabelPrint, ...] = ()


@dataclass(frozen=True, slots=True)
class Reprint:
    """What a change of revision does to the papers on the walls.

    `sheets` are to be printed, each with the sheet that it replaces or None; `labels` are the labels to be printed,
    by the name of their sheet. `bin` are former sheets that are wrong now, `bin_labels` former labels. `valid` are the
    sheets whose facts did not change: the copies of the earlier revision stay good, and so do as many
    labels as `valid_labels` says.
    `label_sheets` are all sheets of labels, former ones too.
    """

    sheets: tuple[tuple[PaperPrint, PaperPrint | None], ...]
    labels: Mapping[str, tuple[LabelPrint, ...]]
    bin: tuple[PaperPrint, ...]
    bin_labels: Mapping[str, tuple[LabelPrint, ...]]
    valid: tuple[PaperPrint, ...]
    valid_labels: Mapping[str, int]
    label_sheets: tuple[PaperPrint, ...]


def compare_papers(old: Iterable[PaperPrint], new: Iterable[PaperPrint]) -> Reprint:
    """What to print again, to bin and to keep. Sheets are matched by the name of their file, labels by their codes.

    A sheet of labels is never binned as a whole: each label is a paper of its own.
    """
    before, after = {paper.name: paper for paper in old}, {paper.name: paper for paper in new}
    plain = [paper for paper in after.values() if not paper.labels]
    changed = [paper for paper in plain if paper.name not in before or before[paper.name].code != paper.code]
    former = [paper for paper in before.values() if not paper.labels]
    labels = {name: _missing(paper, before.get(name)) for name, paper in after.items() if paper.labels}
    gone = {name: _missing(paper, after.get(name)) for name, paper in before.items() if paper.labels}
    return Reprint(
        sheets=tuple((paper, before.get(paper.name)) for paper in changed),
        labels={name: printed for name, printed in labels.items() if printed},
        bin=tuple(paper for paper in former if paper.name not in after or after[paper.name].code != paper.code),
        bin_labels={name: former for name, former in gone.items() if former},
        valid=tuple(paper for paper in plain if paper not in changed),
        label_sheets=tuple(paper for paper in {**before, **after}.values() if paper.labels),
        valid_labels={
            name: len(after[name].labels) - len(printed)
            for name, printed in labels.items()
            if len(printed) < len(after[name].labels)
        },
    )


def _missing(paper: PaperPrint, other: PaperPrint | None) -> tuple[LabelPrint, ...]:
    """The labels of a sheet whose codes the other sheet does not have."""
    codes = {label.code for label in other.labels} if other else set()
    return tuple(label for label in paper.labels if label.code not in codes)
