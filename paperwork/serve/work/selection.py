"""A part of a paper for the page: one label, those of some channels, or what shows a rack, as the command prints it."""

from collections.abc import Mapping
from dataclasses import replace

from paperwork.pipeline import Papers, make_papers
from paperwork.pipeline.parts import find_part
from paperwork.serve.shows import Opened
from paperwork.sheets import SHEETS

MOST_COPIES = 99


def list_parts(papers: Papers | None) -> list[tuple[str, str]]:
    """The papers of which a part can be had, by name and as the page calls them: labels, wanted most, first."""
    lacking = {name for name, _ in papers.missing} if papers else set()
    names = [paper.name for paper in SHEETS if papers and paper.name not in lacking]
    return [(one, one.replace("-", " ").capitalize()) for one in sorted(names, key=lambda one: "labels" not in one)]


def print_part(opened: Opened, paper: str, asked: Mapping[str, str]) -> tuple[str, bytes]:
    """The name and the bytes of a part, on the label sheet and for the printer that are chosen on the page.

    Raises ValueError, in words for whoever asked, where there is no such paper, channel or rack, or nothing of it on
    the paper.
    """
    show = opened.reading.show
    if show is None or paper not in (one.name for one in SHEETS):
        raise ValueError(f"There is no paper {paper}" if show else "There is no show to print yet")
    part = find_part(show, asked.get("channels", ""), asked.get("racks", ""))
    if not part:
        raise ValueError("Give channels or racks, as 05,11-14")
    copies = asked.get("copies", "")
    if copies and not (copies.isascii() and copies.isdigit() and 0 < int(copies[:3]) <= MOST_COPIES):
        raise ValueError(f"{copies} is not a number of copies: from 1 to {MOST_COPIES}")
    choice = replace(opened.choice, part=part, copies=int(copies or 0))
    papers = make_papers(show, opened.reading.findings, only=frozenset({paper}), labels=choice, made="", pictured=False)
    pdfs = [(path, data) for path, data in papers.files.items() if path.endswith(".pdf")]
    if not pdfs:
        lacking = "".join(f"; there are no {name} without a {needs}" for name, needs in papers.missing)
        raise ValueError(f"Nothing of that is on {paper}{lacking}")
    return join_parts(paper, pdfs)


def join_parts(paper: str, pdfs: list[tuple[str, bytes]]) -> tuple[str, bytes]:
    """The one sheet of a part; several sheets, as for the sides of a stage, as one file."""
    if len(pdfs) == 1:
        return pdfs[0][0].rpartition("/")[2], pdfs[0][1]
    from paperwork.archive.joined import join_papers

    return f"{paper}.pdf", join_papers(paper, [(path.rpartition("/")[2][:-4], data) for path, data in pdfs])
