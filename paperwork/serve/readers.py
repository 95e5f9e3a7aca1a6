"""The papers of one reader: their view, and all of them as one PDF."""

from collections.abc import Mapping

from paperwork.archive.joined import join_papers
from paperwork.document.printed import Printed
from paperwork.pipeline import Papers
from paperwork.serve.shows import Opened
from paperwork.sheets.book import NAME as BOOK

READERS: Mapping[str, str] = {"rack": "Rack", "wardrobe": "Wardrobe", "production": "Production"}
"""The folders of papers, by the words for who reads them."""

_COMPOUNDS = {"mic table": "mic-table", "change overs": "change-overs"}
"""Words of names of papers that belong together, as the papers themselves spell them."""


def say_paper(name: str) -> str:
    """A kind of paper as people say it: `mic-table-squares` are Mic-table squares."""
    words = name.replace("-", " ")
    for apart, together in _COMPOUNDS.items():
        words = words.replace(apart, together)
    return words[:1].upper() + words[1:]


def list_joined(papers: Papers, reader: str) -> list[Printed]:
    """A reader's papers that go on plain paper: labels have their own sheets, and the book holds all again."""
    return [one for one in papers.printed if one.folder == reader and not one.tags and BOOK not in one.path]


def name_show(opened: Opened) -> str:
    """What of a show sets a file apart that somebody keeps: its title, its revision, the venue and the performance."""
    production = opened.reading.show.production if opened.reading.show else None
    title = production.title if production else ""
    revision = f"rev {production.revision}" if production and production.revision else ""
    return " ".join(filter(None, (title or opened.name, revision, opened.edition)))


def name_paper(opened: Opened, path: str) -> str:
    """The name under which a paper is kept, outside its folder: with the show and its revision before its own."""
    from paperwork.output import safe_name

    return f"{safe_name(name_show(opened))}-{path.rpartition('/')[2]}"


def join_for(opened: Opened, reader: str) -> tuple[str, bytes] | None:
    """The papers of a reader as one PDF, and its name with the show and its revision; None where there is none."""
    from paperwork.output import safe_name

    show, papers = opened.reading.show, opened.papers
    joined = list_joined(papers, reader) if papers else []
    if show is None or papers is None or not joined:
        return None
    title = f"{name_show(opened)} {reader}"
    return f"{safe_name(title)}.pdf", join_papers(title, [(one.title, papers.files[one.path]) for one in joined])
