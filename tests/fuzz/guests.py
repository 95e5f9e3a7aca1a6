"""Telephones that papers are lent to: what they ask, as a browser does and as nothing would, and what must hold of each answer."""

import itertools
from functools import cache
from random import Random
from typing import Any
from urllib.parse import quote

from tests.fuzz.guard import Broken
from tests.fuzz.texts import pick_word, spoil_bytes
from tests.fuzz.ways import Request

SHOW = b"""show: {title: Gala, revision: C, contact: KEPT-FROM-GUESTS}
people: {Quillon Zimtstern: {child: yes}}
channels: {01: {by: Quillon Zimtstern, mhz: 486.200}, 02: {by: Bo, mhz: 488.700}}
"""
HIDDEN = (b"Quillon", b"channels:")
"""What no guest may read: a child's name, and the show file."""

HOST = "192.0.2.7:40001"
METHODS = ("GET",) * 8 + ("HEAD", "HEAD", "POST", "PUT", "DELETE", "OPTIONS", "PROPFIND", "GET ")
PATHS = (
    "{token}/index.html",
    "{token}/",
    "{token}",
    "{token}/rack/channel-chart.pdf",
    "{token}/wardrobe/../rack/channel-chart.pdf",
    "{token}/production/show-book.pdf",
    "{token}/enter/{ticket}",
    "{token}/enter/",
    "{token}/enter/x",
    "{token}//index.html",
    "enter/{ticket}",
    "secret/shows/show1/",
    "{token}/shows/show1/edit/file",
    "{token}/show.yaml",
    "{token}/%2e%2e/show.yaml",
    "..;/show.yaml",
    "",
)
HEADERS = (
    ("host", "evil.test"),
    ("host", "127.0.0.1:40001"),
    ("host", ""),
    ("origin", "http://evil.test"),
    ("origin", "null"),
    ("cookie", ""),
    ("cookie", "paperwork="),
    ("cookie", "paperwork=x; paperwork={cookie}"),
    ("cookie", "a=b;paperwork={cookie} ;"),
    ("cookie", "\xff" * 40),
    ("sec-fetch-site", "cross-site"),
    ("sec-fetch-site", "none"),
    ("range", "bytes=0-99999999999"),
    ("if-none-match", "*"),
    ("content-length", "99999999999"),
    ("accept-encoding", "gzip;q=\x00"),
)


def make_visits(dice: Random) -> tuple[Request, ...]:
    """What a guest asks, one after the other; `{token}`, `{ticket}` and `{cookie}` are those of the lending."""
    return tuple(_visit(dice) for _ in range(dice.choice((2, 4, 8))))


def _visit(dice: Random) -> Request:
    path = dice.choice((*PATHS, *PATHS[:7], f"{{token}}/{quote(pick_word(dice))}", quote(pick_word(dice))))
    if dice.random() < 0.2:
        path = quote(spoil_bytes(path.encode(), dice), safe="/{}%.")
    headers = dict(dice.choice(HEADERS) for _ in range(dice.choice((0, 0, 0, 1, 1, 2))))
    if dice.random() < 0.7:
        headers.setdefault("cookie", "paperwork={cookie}")
    body = spoil_bytes(b"do=on&name=show.yaml", dice) if dice.random() < 0.3 else b""
    return Request(dice.choice(METHODS), path, body, tuple(headers.items()))


@cache
def _print() -> tuple[Any, Any]:
    """A small show with its papers, and those of them that are lent, once a process."""
    from paperwork.serve.share.lent import pick_files
    from paperwork.serve.shows import Opened

    opened = Opened("show1", "show.yaml", {"show.yaml": SHOW})
    opened.read()
    opened.print()
    return opened, pick_files(opened)


def run_visits(visits: tuple[Request, ...]) -> int:
    """2 if any was refused, else 0. Raises Broken where a guest was let in who has no key, could read what is not lent, or
    could change anything."""
    from paperwork.serve.share.lending import Lending
    from paperwork.serve.share.lent import make_lent_app
    from tests.serve.asgi import ask

    opened, files = _print()
    names = (f"key{number}" for number in itertools.count(1))
    lending = Lending("192.0.2.7", 30, lambda: "2027-03-01-1200", lambda: next(names))
    lent = lending.lend(opened, files, HOST)
    app, refused = make_lent_app(lent, lambda: "2027-03-01-1200"), False
    keys = {"token": lent.keys.token, "ticket": next(iter(lent.keys.tickets)), "cookie": lent.keys.cookie}
    for visit in visits:
        told = {"host": HOST, "origin": None, "cookie": None}
        told |= {name: _fill(value, keys).encode("latin-1").decode("latin-1") for name, value in visit.headers}
        path = "/" + _fill(visit.path, keys)
        free = set(lent.keys.tickets)
        answer = ask(app, path, method=visit.method, body=visit.body, headers=told)
        is_keyed = f"paperwork={keys['cookie']}" in (told["cookie"] or "")
        enters = any(path == f"/{keys['token']}/enter/{ticket}" for ticket in free)
        if answer.status >= 500 or (answer.status < 400 and not (is_keyed or enters)):
            raise Broken(f"{visit.method} {path} of a guest was answered {answer.status}")
        if answer.status < 400 and (visit.method not in ("GET", "HEAD") or told["host"] != HOST):
            raise Broken(f"{visit.method} {path} with {told} was answered {answer.status}")
        if any(word in answer.body for word in HIDDEN):
            raise Broken(f"{visit.method} {path} gives what is not lent")
        refused |= answer.status >= 400
    if (lent.papers, lent.files) != (opened.papers, files) or lending.lent is not lent:
        raise Broken("a guest changed what is lent")
    return 2 if refused else 0


def _fill(text: str, keys: dict[str, str]) -> str:
    for name, value in keys.items():
        text = text.replace(f"{{{name}}}", value)
    return text
