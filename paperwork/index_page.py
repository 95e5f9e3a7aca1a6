"""The index of one output folder: the show at a glance, its papers and what is unresolved, as one offline page."""

from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.facts import fingerprint_show
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.templating import render_template
from paperwork.units import format_mhz
from paperwork.words import format_date


@dataclass(frozen=True, slots=True)
class Printed:
    """One paper in the output: where it went, and what the index says of it."""

    path: str
    title: str
    code: str
    pages: int
    stamp: str
    folder: str


FOLDERS = (("rack", "At the rack"), ("wardrobe", "For wardrobe"), ("production", "For production"))


def render_index(
    show: Show, printed: Sequence[Printed], missing: Sequence[tuple[str, str]], findings: Sequence[Finding]
) -> bytes:
    """The page as UTF-8 HTML. Every text of the show is escaped by the template engine."""
    production = show.production
    groups = [
        {"title": title, "papers": [paper for paper in printed if paper.folder == folder]} for folder, title in FOLDERS
    ]
    channels = [
        {
            "id": channel.id,
            "roles": " / ".join(channel.roles) or ("spare" if channel.spare else ""),
            "people": ", ".join(show.performers_of(channel)),
            "mhz": format_mhz(channel.hz) if channel.hz is not None else "",
            "pack": channel.pack,
            "slot": str(channel.slot or ""),
            "capsule": channel.capsule,
        }
        for channel in show.channels.values()
    ]
    page = render_template(
        "index.html.j2",
        production=production,
        dated=format_date(production.revised, production.language),
        fingerprint=fingerprint_show(show),
        groups=[group for group in groups if group["papers"]],
        missing=missing,
        findings=findings,
        channels=channels,
    )
    return page.encode("utf-8", "backslashreplace")
