"""Sheets as they are printed: made of what is certain, stamped, cut down to what must be printed, laid out."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from operator import itemgetter

from paperwork import limits
from paperwork.changes import PaperPrint, Reprint
from paperwork.document import Block, Cards, Labels, Printer, Sheet, Strips
from paperwork.document.facts import tags_of
from paperwork.document.printed import Picture, Printed
from paperwork.finding import Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.pipeline.parts import list_pages, narrow_sheet
from paperwork.plan.walls import walls_of
from paperwork.reading import redact_for_print
from paperwork.render.boxes import Layout
from paperwork.render.layout import have_same_codes, list_codes
from paperwork.render.pdf.press import Press
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS, Paper
from paperwork.sheets.change_sheet import keep_labels, list_labels
from paperwork.sheets.stamps import stamp_sheet


@frozen
class LabelChoice:
    """How labels are printed this time, and what of whatever is cut apart. None keeps the paper's own choice."""

    stock: str | None = None
    start: int = 1
    blocked: tuple[int, ...] = ()
    printer: Printer = Printer()
    proof: bool = False
    part: frozenset[Subject] = frozenset()
    """Only what shows one of these records, where any are given."""

    copies: int = 0
    """Of each label, and of each card that is cut out; 0 for as many as the paper has."""

    strip_mm: int = 0
    """The height of receiver strips; 0 for the paper's own."""

    card_mm: tuple[int, int] = (0, 0)
    """Width and height of pouch cards; zeros for the paper's own."""


USUAL_LABELS = LabelChoice()


@frozen
class Laid:
    """One sheet of a paper, laid out."""

    paper: "Paper"
    sheet: Sheet
    layout: Layout
    numbers: tuple[int, ...] = ()
    """The numbers of the pages that are printed, where not all are."""

    @property
    def path(self) -> str:
        """Where it goes in the output folder."""
        return _path_of(self.paper, self.sheet)

    @property
    def pages(self) -> tuple[int, ...]:
        """The numbers of its pages."""
        return self.numbers or tuple(range(1, len(self.layout.pages) + 1))

    @property
    def codes(self) -> tuple[str, ...]:
        """The codes of its pages."""
        return tuple(page.code for page in self.layout.pages)

    @property
    def head(self) -> "Laid":
        """What the book needs of it: its pages, and of the sheet all but what is on them."""
        return replace(self, sheet=replace(self.sheet, blocks=()))

    def describe(self, pictures: tuple[Picture, ...] = ()) -> Printed:
        """What an index says of it."""
        pages = self.layout.pages
        return Printed(
            self.path,
            self.sheet.title,
            self.paper.folder,
            self.pages,
            self.codes,
            tuple(page.stamp for page in pages),
            pictures,
            frozenset(subject for page in pages for subject in page.subjects),
            self.layout.findings,
            tags_of(self.sheet),
            list_labels(self.sheet),
            tuple(page.cut for page in pages),
        )


def _path_of(paper: Paper, sheet: Sheet) -> str:
    return f"{paper.folder}/{sheet.name}.pdf"


def _keep_pages(one: Laid, wanted: frozenset[int] | None) -> Laid:
    """The sheet with only some of its pages."""
    if wanted is None:
        return one
    kept = [(number, page) for number, page in zip(one.pages, one.layout.pages, strict=True) if number in wanted]
    numbers, pages = zip(*kept, strict=True)
    return replace(one, layout=replace(one.layout, pages=pages, numbers=numbers), numbers=numbers)


def list_prints(
    *states: tuple[Show, Sequence[Finding]], press: Press | None = None
) -> tuple[tuple[PaperPrint, ...], ...]:
    """For each state of a show what a build of it prints, with its stamps, blanks and withheld labels: the pages and labels
    of every paper.

    A sheet that falls on the same pages in several states is put on pages once. Nothing is set, and nothing kept: paper
    after paper is made of all states. A `press` that prints the first state later finds it laid out.
    """
    metrics = press.metrics if press else Metrics()
    found: list[list[PaperPrint]] = [[] for _ in states]
    sheets = [groupby(_stamp_each(SHEETS, *state, USUAL_LABELS), key=itemgetter(0)) for state in states]
    for papers in zip(*sheets, strict=True):
        known: dict[str, tuple[Sheet, tuple[str, ...]]] = {}
        for number, (paper, own) in enumerate(papers):
            for sheet in filter(None, (sheet for _, sheet in own)):
                if press and not number:
                    codes = Laid(paper, sheet, press.lay_out(_path_of(paper, sheet), sheet)).codes
                else:
                    codes = _find_codes(sheet, known.get(sheet.name), metrics)
                known[sheet.name] = sheet, codes
                if _is_printable(len(codes)):
                    found[number].append(PaperPrint(paper.folder, sheet.name, sheet.title, codes, list_labels(sheet)))
    return tuple(map(tuple, found))


def _find_codes(sheet: Sheet, known: tuple[Sheet, tuple[str, ...]] | None, metrics: Metrics) -> tuple[str, ...]:
    """The codes of the sheet's pages; those of a known sheet where it is on the same ones."""
    return known[1] if known and have_same_codes(known[0], sheet, metrics) else list_codes(sheet, metrics)


def lay_out_papers(
    papers: Sequence[Paper],
    show: Show,
    findings: Sequence[Finding],
    labels: LabelChoice = USUAL_LABELS,
    press: Press | None = None,
    reprint: Reprint | None = None,
) -> tuple[list[Laid], list[Paper], list[Finding]]:
    """Every sheet of the papers, stamped and laid out; the papers that lack their facts; why others cannot be printed.

    Of the sheets in `reprint` only the pages and labels that it names are kept, each as in the whole.
    """
    laid: list[Laid] = []
    missing: list[Paper] = []
    refused: list[Finding] = []
    for paper, one in lay_out_each(papers, show, findings, labels, press or Press(), reprint):
        match one:
            case Laid():
                laid.append(one)
            case None:
                missing.append(paper)
            case _:
                refused += one
    return laid, missing, refused


def lay_out_each(
    papers: Sequence[Paper],
    show: Show,
    findings: Sequence[Finding],
    labels: LabelChoice,
    press: Press,
    reprint: Reprint | None = None,
) -> Iterator[tuple[Paper, "Laid | Sequence[Finding] | None"]]:
    """The same one sheet after the other, so that none need be held: a sheet, why one cannot be printed, or None once for a
    paper that lacks its facts."""
    pages = reprint.pages if reprint else {}
    for paper, sheet in _stamp_each(papers, show, findings, labels, reprint):
        if sheet is None:
            yield paper, None
            continue
        layout = press.lay_out(_path_of(paper, sheet), sheet)
        count = len(layout.pages)
        if _is_printable(count):
            wanted = pages.get(sheet.name) if reprint else list_pages(sheet, layout, labels.part)
            if wanted is None or wanted:
                yield paper, _keep_pages(Laid(paper, sheet, layout), wanted)
        else:
            yield paper, [find_long(show, sheet.name, count)] if count else layout.findings


def _stamp_each(
    papers: Sequence[Paper],
    show: Show,
    findings: Sequence[Finding],
    labels: LabelChoice,
    reprint: Reprint | None = None,
) -> Iterator[tuple[Paper, Sheet | None]]:
    """Each sheet of each paper as it is printed, one after the other; None once for a paper that lacks its facts."""
    certain, hidden = redact_for_print(show, findings), walls_of(show).hide(tuple(findings))
    for paper in papers:
        sheets = paper.make(certain)
        if not sheets:
            yield paper, None
        for sheet in sheets:
            sheet = _with_labels(stamp_sheet(paper, sheet, certain, hidden), labels)
            yield paper, keep_labels(sheet, reprint) if reprint else sheet


def _is_printable(pages: int) -> bool:
    """Whether there are pages, and not too many."""
    return 0 < pages <= limits.PAGES


def find_long(show: Show, paper: str, pages: int) -> Finding:
    """The finding that a paper has more pages than are printed."""
    return find("paper-long", show.production.where.record, paper=paper, pages=f"{pages:,}", most=f"{limits.PAGES:,}")


def _with_labels(sheet: Sheet, choice: LabelChoice) -> Sheet:
    blocks = tuple(_choose_size(block, choice) for block in sheet.blocks)
    return narrow_sheet(replace(sheet, blocks=blocks), choice.part, choice.copies)


def _choose_size(block: Block, choice: LabelChoice) -> Block:
    match block:
        case Labels():
            return replace(
                block,
                stock=choice.stock or block.stock,
                start=choice.start,
                blocked=choice.blocked,
                printer=choice.printer,
                proof=choice.proof,
            )
        case Strips(scaled=True) if choice.strip_mm:
            return replace(block, height_um=choice.strip_mm * 1_000)
        case Cards(stacked=False, signed=True) if block.width_um and choice.card_mm[0]:
            width, height = choice.card_mm
            return replace(block, width_um=width * 1_000, height_um=height * 1_000)
    return block
