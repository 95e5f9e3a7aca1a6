"""The index of one output folder: the show at a glance, its papers and what is unresolved, as one offline page.

The page is one file without a network: its style and its script stand in it, and its policy allows no others. The
pictures of the pages lie beside it as files of their own, so that it stays small for a show of any size.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from paperwork.document.printed import Printed
from paperwork.finding import Finding
from paperwork.model import Channel, Other, Show
from paperwork.model.facts import fingerprint_show
from paperwork.plan.spares import name_backed
from paperwork.plan.walls import put_on_walls
from paperwork.text.names import fold, shorten_ids
from paperwork.text.templating import render_policy, render_template
from paperwork.text.units import format_mhz
from paperwork.text.words import format_date, join_days

FOLDERS = (
    ("rack", "At the rack"),
    ("wardrobe", "For wardrobe"),
    ("production", "For production"),
    ("blank", "Blank forms"),
)


def render_index(
    show: Show,
    printed: Sequence[Printed],
    missing: Sequence[tuple[str, str]],
    findings: Sequence[Finding],
    *,
    whole: bool,
) -> bytes:
    """The page as UTF-8 HTML, children by their initials since it travels with the papers.

    `whole`: every paper of the show is in the folder, so that a page whose code is not there is of another revision. `findings` and what was `printed` name them so already. Every text of the show is escaped by the template engine.
    """
    described = describe_show(put_on_walls(show), printed, findings)
    page = render_template(
        "index.html.j2",
        policy=render_policy(
            styles=("look.css",), scripts=("find.js",), images="'self' file:", more="form-action 'none'"
        ),
        missing=missing,
        whole=whole,
        **{**described, "fingerprint": fingerprint_show(show)},
    )
    return page.encode("utf-8", "backslashreplace")


def describe_show(show: Show, printed: Sequence[Printed], findings: Sequence[Finding]) -> dict[str, Any]:
    """What every page about a show says: its head, figures, findings by paper, papers by reader, and who is on what."""
    production = show.production
    papers = [_paper_row(number, paper, findings) for number, paper in enumerate(printed, 1)]
    touched: dict[int, list[dict[str, Any]]] = {}
    for paper in papers:
        for number in paper["findings"]:
            touched.setdefault(number, []).append(paper)
    return {
        "title": production.title or production.company or "Papers",
        "under": "  ·  ".join(filter(None, (production.company, production.venue, show.at_performance, _days(show)))),
        "production": production,
        "dated": format_date(production.revised, production.language),
        "fingerprint": fingerprint_show(show),
        "figures": list(_figures(show, printed)),
        "facts": list(_facts(show)),
        "findings": [
            _finding_row(number, finding, touched.get(number, ())) for number, finding in enumerate(findings, 1)
        ],
        "counted": count_findings(findings),
        "groups": [
            {"title": title, "folder": folder, "papers": found}
            for folder, title in FOLDERS
            if (found := [row for row in papers if row["folder"] == folder])
        ],
        "lists": [row for row in _lists(show, printed) if row["cards"]],
    }


def count_findings(findings: Iterable[Finding]) -> str:
    """`2 errors, 1 warning`, or ""."""
    severities = [finding.severity for finding in findings]
    return ", ".join(_count(severities.count(word), word) for word in ("error", "warning") if word in severities)


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _paper_row(number: int, paper: Printed, findings: Sequence[Finding]) -> dict[str, Any]:
    own = set(paper.found)
    touched = [n for n, f in enumerate(findings, 1) if f in own or not paper.subjects.isdisjoint(f.subjects)]
    return {
        "id": f"paper-{number}",
        "path": paper.path,
        "title": paper.title,
        "coded": paper.coded,
        "held": paper.held,
        "pages": paper.pages,
        "stamps": _list_stamps(paper),
        "folder": paper.folder,
        "pictures": paper.pictures,
        "findings": touched,
    }


def _list_stamps(paper: Printed) -> list[tuple[str, list[int]]]:
    """Each stamp of a paper with the pages that carry it."""
    found: dict[str, list[int]] = {}
    for number, stamp in zip(paper.pages, paper.stamps, strict=False):
        if stamp:
            found.setdefault(stamp, []).append(number)
    return [*found.items()]


def _finding_row(number: int, finding: Finding, papers: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    return {
        "number": number,
        "severity": finding.severity,
        "text": finding.text,
        "fix": finding.fix,
        "code": finding.code,
        "place": str(finding.place),
        "papers": papers,
    }


def _days(show: Show) -> str:
    production = show.production
    return join_days(production.first_day, production.last_day, production.language)


def _figures(show: Show, printed: Sequence[Printed]) -> Iterator[tuple[str, str]]:
    """The show in numbers: what there is none of is left out."""
    spares = sum(channel.spare for channel in show.channels.values())
    performers = {name for channel in show.channels.values() for name in show.performers_of(channel)}
    counted = (
        (len(show.channels) - spares, "channel"),
        (spares, "spare"),
        (len(performers), "performer"),
        (len(show.roles), "role"),
        (len(show.racks), "rack"),
        (len(show.scenes), "scene"),
        (len(printed), "paper"),
        (sum(len(paper.pages) for paper in printed), "page"),
    )
    for number, word in counted:
        if number:
            yield str(number), _count(number, word).partition(" ")[2]


def _facts(show: Show) -> Iterator[tuple[str, str]]:
    production = show.production
    licensed = join_days(production.licensed_from, production.licensed_to, production.language)
    licence = filter(None, (production.licence, production.licensed_for, licensed))
    facts = (
        ("Why this revision", production.reason),
        ("Replaces", f"revision {_former(show)}: destroy it" if production.replaces else ""),
        ("Licence", "  ·  ".join(licence)),
        ("Contact", production.contact),
        ("Pen changes go back to", production.returns),
    )
    yield from ((word, value) for word, value in facts if value)


def _former(show: Show) -> str:
    """The revision that this one replaces, which is one of the same venue."""
    return show.production.replaces + (f" for {show.edition}" if show.edition else "")


def _lists(show: Show, printed: Sequence[Printed]) -> Iterator[dict[str, Any]]:
    """Everything that can be found by its number or name, in lists of cards."""
    tags: dict[str, dict[str, None]] = {}
    for paper in printed:
        for number, payload in paper.tags:
            tags.setdefault(fold(number), {})[payload] = None
    yield {"title": "Channels", "cards": [_channel_card(show, one, tags) for one in show.channels.values()]}
    yield {"title": "Also on the air", "cards": [_other_card(one, tags) for one in show.others.values()]}
    yield {"title": "People", "cards": [_person_card(show, name) for name in list_people(show)]}


def _card(
    key: str,
    title: Sequence[str],
    under: Sequence[str],
    facts: Iterable[tuple[str, str]],
    mhz: int | None = None,
    **more: Any,
) -> dict[str, Any]:
    """A card as values. The parts of `title` and `under` are names, each of which may be written from the right."""
    texts = [(word, value) for word, value in facts if value]
    shown = format_mhz(mhz) if mhz is not None else ""
    return {
        "key": key,
        "title": title,
        "under": under,
        "facts": texts,
        "mhz": shown,
        "spare": False,
        "numbers": "",
        "codes": "",
        "also": "",
        **more,
    }


def _coded(numbers: Iterable[str], tags: Mapping[str, Mapping[str, None]]) -> dict[str, str]:
    """The numbers by which a label's code may call a card, and the codes that are good today."""
    named = list(numbers)
    codes = list(dict.fromkeys(code for number in named for code in tags.get(fold(number), ())))
    heads = [code.partition(":")[0] for code in codes] or ["".join(number.upper().split()) for number in named]
    return {"numbers": " ".join(dict.fromkeys(heads)), "codes": " ".join(codes)}


def _channel_card(show: Show, channel: Channel, tags: Mapping[str, Mapping[str, None]]) -> dict[str, Any]:
    title = channel.roles or show.roles_on(channel) or (("SPARE",) if channel.spare else (channel.by,))
    people = [name for name in show.performers_of(channel) if (name,) != tuple(title)]
    facts = (
        ("pack", channel.pack),
        ("slot", " ".join(map(str, channel.slots))),
        ("capsule", channel.capsule),
        ("second pack of", channel.doubles),
        ("for", shorten_ids(name_backed(show, channel)) if channel.spare else ""),
    )
    return _card(
        channel.id,
        title,
        people,
        facts,
        channel.hz,
        spare=channel.spare,
        also=" ".join(name_backed(show, channel)) if channel.spare else "",
        **_coded((channel.id,), tags),
    )


def _other_card(other: Other, tags: Mapping[str, Mapping[str, None]]) -> dict[str, Any]:
    facts = (("packs", ", ".join(other.packs)),)
    under = (other.kind,) if other.listeners else ()
    return _card(
        other.id, other.listeners or (other.kind,), under, facts, other.hz, **_coded((*other.packs, other.id), tags)
    )


def list_people(show: Show) -> tuple[str, ...]:
    """Everybody whom the show names, those of the section people first."""
    named = [*show.people]
    for role in show.roles.values():
        named += (role.by, *role.alternates)
    named += (channel.by for channel in show.channels.values())
    named += (cover.by for cover in show.covers)
    named += (name for other in show.others.values() for name in other.listeners)
    return tuple(dict.fromkeys(filter(None, named)))


def _person_card(show: Show, name: str) -> dict[str, Any]:
    channels = [channel.id for channel in show.channels.values() if name in show.performers_of(channel)]
    roles = [role.id for role in show.roles.values() if role.by == name]
    ears = [other.id for other in show.others.values() if name in other.listeners]
    person = show.people.get(name)
    facts = (
        ("covers", ", ".join(dict.fromkeys(cover.role for cover in show.covers if cover.by == name))),
        ("hears", ", ".join(ears)),
        *(
            (("room", "" if person.child else person.room), ("pouch", person.pouch), ("belt", person.belt))
            if person
            else ()
        ),
    )
    return _card(", ".join(channels) or "–", (name,), roles, facts)
