"""Sheets as they are printed: made of what is certain, stamped, cut down to what must be printed, laid out."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

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
from paperwork.render.layout import lay_out
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
        return f"{self.paper.folder}/{self.sheet.name}.pdf"

    @property
    def pages(self) -> tuple[int, ...]:
        """The numbers of its pages."""
        return self.numbers or tuple(range(1, len(self.layout.pages) + 1))

    @property
    def codes(self) -> tuple[str, ...]:
        """The codes of its pages."""
        return tuple(page.code for page in self.layout.pages)

    @property
    def print(self) -> PaperPrint:
        """What it is known by: its name, the codes of its pages, its labels or cut-out cards."""
        return PaperPrint(self.paper.folder, self.sheet.name, self.sheet.title, self.codes, list_labels(self.sheet))

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


def _keep_pages(one: Laid, wanted: frozenset[int] | None) -> Laid:
    """The sheet with only some of its pages."""
    if wanted is None:
        return one
    kept = [(number, page) for number, page in zip(one.pages, one.layout.pages, strict=True) if number in wanted]
    numbers, pages = zip(*kept, strict=True)
    return replace(one, layout=replace(one.layout, pages=pages, numbers=numbers), numbers=numbers)


def list_prints(show: Show, findings: Sequence[Finding], press: Press | None = None) -> tuple[PaperPrint, ...]:
    """What a build of the show prints, with its stamps, blanks and withheld labels: the pages and labels of every paper.

    Without a press that prints them later no layout is kept: those of a thousand channels are some 120 MB.
    """
    metrics = Metrics()
    lay = press.lay_out if press else lambda _path, sheet: lay_out(sheet, metrics)
    laid = _lay_each(SHEETS, show, findings, USUAL_LABELS, lay)
    return tuple(one.print for _, one in laid if one and _is_printable(one.layout))


def lay_out_papers(
    papers: Sequence[Paper],
    show: Show,
    findings: Sequence[Finding],
    labels: LabelChoice = USUAL_LABELS,
    press: Press | None = None,
    reprint: Reprint | None = None,
) -> tuple[list[Laid], list[Paper], list[Finding]]:
    """Every sheet of the papers, stamped and laid out; the papers that lack their facts; why others cannot be printed.

    Of the sheets in `reprint` only the pages and labels that it names are kept, each as in the whole."""
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
    for paper, one in _lay_each(papers, show, findings, labels, press.lay_out, reprint):
        if one is None:
            yield paper, None
        elif _is_printable(one.layout):
            wanted = pages.get(one.sheet.name) if reprint else list_pages(one.sheet, one.layout, labels.part)
            if wanted is None or wanted:
                yield paper, _keep_pages(one, wanted)
        else:
            count = len(one.layout.pages)
            yield paper, [find_long(show, one.sheet.name, count)] if count else one.layout.findings


def _lay_each(
    papers: Sequence[Paper],
    show: Show,
    findings: Sequence[Finding],
    labels: LabelChoice,
    lay: Callable[[str, Sheet], Layout],
    reprint: Reprint | None = None,
) -> Iterator[tuple[Paper, Laid | None]]:
    """Each sheet of each paper as it is laid out, one after the other; None once for a paper that lacks its facts."""
    certain, hidden = redact_for_print(show, findings), walls_of(show).hide(tuple(findings))
    for paper in papers:
        sheets = paper.make(certain)
        if not sheets:
            yield paper, None
        for sheet in sheets:
            sheet = _with_labels(stamp_sheet(paper, sheet, certain, hidden), labels)
            sheet = keep_labels(sheet, reprint) if reprint else sheet
            yield paper, Laid(paper, sheet, lay(f"{paper.folder}/{sheet.name}.pdf", sheet))


def _is_printable(layout: Layout) -> bool:
    """Whether it has pages, and not too many."""
    return 0 < len(layout.pages) <= limits.PAGES


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
