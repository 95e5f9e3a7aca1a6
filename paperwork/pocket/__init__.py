"""One reader's papers as one file for a telephone: what they say as text, their drawings inside, and a search.

It needs no network and no other file. Children are initials and have no room; wardrobe's file has no frequency, since
none of its lists and cards has one and a telephone goes farther than a wall.
"""

from base64 import b64encode
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from paperwork import limits
from paperwork.document import Plot, SpectrumWindow, Tree
from paperwork.finding import Finding
from paperwork.index_page import describe_show
from paperwork.model import Show
from paperwork.model.facts import fingerprint_show
from paperwork.output.naming import safe_name
from paperwork.pipeline.laid import Laid, lay_out_papers
from paperwork.plan.walls import put_on_walls, walls_of
from paperwork.pocket.texts import list_parts
from paperwork.reading import redact_for_print
from paperwork.render.pdf.svg import paint_svg
from paperwork.sheets import SHEETS
from paperwork.sheets.wardrobe import pack_labels
from paperwork.text.templating import render_policy, render_template

READERS = {"rack": "At the rack", "wardrobe": "For wardrobe", "production": "For production"}
"""Whose file can be made, as folders of papers, and its heading."""

_DRAWN = (Plot, SpectrumWindow, Tree)


def make_pocket(show: Show, findings: Sequence[Finding], reader: str) -> tuple[str, bytes]:
    """The name of the file and its bytes, UTF-8 HTML. `reader` is a folder of papers, one of `READERS`.

    Codes and stamps are those of the printed pages, so that a page or a label is looked up by what it carries.
    Drawings of more than `limits.POCKET_DRAWINGS` bytes are left out, which the file says.
    """
    wanted = [paper for paper in SHEETS if paper.folder == reader or paper.name == pack_labels.NAME]
    laid, missing, _ = lay_out_papers(wanted, show, findings)
    own = [one for one in laid if one.paper.folder == reader]
    drawings, left_off = _draw(own)
    walls, bare = walls_of(show), _bare(show, reader)
    hidden = () if reader == "wardrobe" else walls.hide(tuple(findings))
    described = describe_show(put_on_walls(bare, walls), [one.describe() for one in laid], hidden)
    page = render_template(
        "pocket.html.j2",
        **{**described, "fingerprint": fingerprint_show(show)},
        policy=render_policy(
            styles=("look.css", "pocket.css"),
            scripts=("find.js", "pocket.js"),
            images="data:",
            more="form-action 'none'",
        ),
        reader=READERS[reader],
        papers=list(_describe(own, _make_texts(own, bare, findings), drawings)),
        left_off=left_off,
        missing=[(paper.name, paper.wants(show)) for paper in missing if paper.folder == reader],
    )
    production = show.production
    words = [production.title or "show", production.revision and f"rev {production.revision}", show.edition, reader]
    return f"{safe_name(' '.join(filter(None, words)))}.html", page.encode("utf-8", "backslashreplace")


def _bare(show: Show, reader: str) -> Show:
    """The show without what does not go on a telephone."""
    people = {name: replace(one, room="") if one.child else one for name, one in show.people.items()}
    show = replace(show, people=people)
    if reader != "wardrobe":
        return show
    channels = {id: replace(one, hz=None, backup_hz=None) for id, one in show.channels.items()}
    return replace(show, channels=channels, others={id: replace(one, hz=None) for id, one in show.others.items()})


def _make_texts(own: Sequence[Laid], bare: Show, findings: Sequence[Finding]) -> dict[str, list[dict[str, Any]]]:
    """What each sheet says, by its path."""
    certain = redact_for_print(bare, findings)
    return {
        f"{paper.folder}/{sheet.name}.pdf": list_parts(sheet)
        for paper in dict.fromkeys(one.paper for one in own)
        for sheet in paper.make(certain)
    }


def _draw(own: Sequence[Laid]) -> tuple[dict[str, list[str]], bool]:
    """The pages of papers that are drawn, as addresses that hold them, by path; whether some were left off."""
    drawn: dict[str, list[str]] = {}
    room = limits.POCKET_DRAWINGS
    for one in own:
        if not any(isinstance(block, _DRAWN) for block in one.sheet.blocks):
            continue
        pages = [paint_svg(page, one.sheet.title) for page in one.layout.pages]
        room -= sum(map(len, pages))
        if room < 0:
            return drawn, True
        drawn[one.path] = ["data:image/svg+xml;base64," + b64encode(page).decode("ascii") for page in pages]
    return drawn, False


def _describe(
    own: Sequence[Laid], texts: dict[str, list[dict[str, Any]]], drawings: dict[str, list[str]]
) -> list[dict[str, Any]]:
    rows = []
    for one in own:
        printed, parts = one.describe(), texts.get(one.path, [])
        rows.append(
            {
                "title": one.sheet.title,
                "under": "  ·  ".join(one.sheet.subtitle),
                "pages": printed.pages,
                "coded": printed.coded,
                "held": printed.held,
                "stamps": list(dict.fromkeys(filter(None, printed.stamps))),
                "parts": parts,
                "drawings": drawings.get(one.path, ()),
                "cautions": one.sheet.cautions,
            }
        )
    return rows
