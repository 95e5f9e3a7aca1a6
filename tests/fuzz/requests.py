"""Requests to the page: sensible ones in odd order, and odd ones."""

from collections.abc import Sequence
from random import Random
from urllib.parse import quote, urlencode

from tests.fuzz.seeds import Seeds
from tests.fuzz.texts import pick_word, spoil_bytes
from tests.fuzz.ways import Request

STEPS = (
    "",
    "answers",
    "answers.yaml",
    "venue",
    "print",
    "keep",
    "tonight",
    "compare",
    "since",
    "progress",
    "papers.zip",
    "convert",
    "edit/",
    "edit/table/channels",
    "edit/make",
    "edit/try",
    "edit/move",
    "edit/mend",
    "edit/recast",
    "edit/recast/try",
    "edit/card/1",
    "edit/undo",
    "edit/redo",
    "edit/save",
    "edit/merge",
    "edit/clash",
    "edit/file",
    "for/rack",
    "reader/rack.pdf",
    "papers/index.html",
    "papers/rack/channel-chart.pdf",
    "papers/../../x",
    "tonight/index.html",
    "since/x",
    "labels",
    "edition",
    "part",
    "part/channel-chart.pdf",
    "pocket/rack.html",
    "pocket/wardrobe.html",
    "archive",
    "share",
    "preview/",
    "preview/channel-chart/",
    "preview/channel-chart/1.svg",
    "search/",
    "search/progress",
    "search/end",
    "search/take",
    "search/windows.pdf",
    "search/1.svg",
    "audit/",
    "audit/set",
    "audit/1.jpg",
    "beside/",
    "beside/1/0.svg",
    "x/y",
)
"""Below the page of a show. `search/begin` and `audit/drop` are tried as commands: a search takes long, and a picture is
what `audit_photo` spoils."""

FIELDS = (
    "t1",
    "a1",
    "k1",
    "a2",
    "k2",
    "t2",
    "forget",
    "venue",
    "stock",
    "peeled",
    "shown",
    "dpi",
    "off",
    "dead",
    "name",
    "title",
    "old",
    "new",
    "stays",
    "channels",
    "edit",
    "add",
    "section",
    "record",
    "before",
    "way",
    "kept",
    "revision",
    "on",
    "venue",
    "part",
    "paper",
    "racks",
    "copies",
    "minutes",
    "reader",
    "number",
    "side",
    "x",
)

VALUES = (
    "",
    "1",
    "01",
    "here.yaml",
    "../here.yaml",
    "frequency|1.518,200",
    "frequency",
    "a4-21-63.5x38.1",
    "99999999999",
    "300",
    "Mara Lind",
    "Pier",
    "channels",
    "people",
    "own",
    "new",
    "revision",
    "channels/1/mhz=486.325",
    "channels/01/=7",
    "channels/1/=",
    "channels/01/by=Mara Lind",
    "show/title=\u202e",
    "people/Ann",
    "x/y/z=1",
    "=",
    "\0",
    "²",
    "-1",
)


def make_requests(name: str, data: bytes, dice: Random, seeds: Seeds) -> tuple[Request, ...]:
    """The drop of a file, or the opening of one, and up to three requests about it."""
    first = _drop(name, data, dice, seeds) if dice.random() < 0.85 else _form("open", dice)
    if dice.random() < 0.05:
        first = _form(dice.choice(("new", "example")), dice)
    return (first, *(_step(dice, name, data, seeds) for _ in range(dice.choice((1, 1, 2, 3)))))


def _drop(name: str, data: bytes, dice: Random, seeds: Seeds, path: str = "drop") -> Request:
    files = [(name, data)]
    while dice.random() < 0.2:
        files.append(
            (
                dice.choice(("a.csv", f"{name}.answers.yaml", name, "x.yaml", pick_word(dice))),
                dice.choice((*seeds.sweeps, *seeds.answers, b"")),
            )
        )
    told = [f"{quote(one)} {len(content)}" for one, content in files]
    if dice.random() < 0.15:
        at = dice.randrange(len(told))
        told[at] = dice.choice(
            (
                quote(pick_word(dice)) + " 5",
                f"{quote(name)} 99999999",
                f"{quote(name)} " + "9" * 5_000,
                f"{quote(name)} -1",
                f"{quote(name)} ",
                "",
                "%FF%FE 3",
                f"{quote('../' + name)} 9",
                f"{quote(name)} 0",
                "a b c",
                ",",
            )
        )
    return Request("POST", path, b"".join(content for _, content in files), (("x-files", ",".join(told)),))


def _form(path: str, dice: Random) -> Request:
    fields = [
        (dice.choice(FIELDS), dice.choice((*VALUES, pick_word(dice)))) for _ in range(dice.choice((0, 1, 2, 4, 30)))
    ]
    body = urlencode(fields, errors="replace").encode()
    if dice.random() < 0.15:
        body = spoil_bytes(body, dice)
    return Request("POST", path, body)


def _step(dice: Random, name: str, data: bytes, seeds: Seeds) -> Request:
    step = dice.choice(STEPS)
    if (
        step.startswith("edit/")
        and step not in ("edit/", "edit/file", "edit/clash", "edit/card/1")
        and "table" not in step
    ) or (step in ("answers", "venue", "print", "keep", "tonight", "since", "compare") and dice.random() < 0.9):
        if step == "print" and dice.random() < 0.9:  # a second of work: rarely
            step = "answers"
        if step == "compare" and dice.random() < 0.5:
            return _drop(name, data, dice, seeds, "{here}compare")
        return _form("{here}" + step, dice)
    roll = dice.random()
    if roll < 0.1:
        return Request(dice.choice(("PUT", "HEAD", "DELETE", "OPTIONS", "X")), "{here}" + step)
    if roll < 0.2:
        return Request(
            "GET",
            dice.choice(
                ("", "shows/x/", "//", "..", "shows/", quote(pick_word(dice)[:200]), "shows/%2e%2e/", "alive2")
            ),
        )
    if roll < 0.3:
        header = dice.choice(
            (
                ("host", "x"),
                ("origin", "null"),
                ("content-length", "99999999999"),
                ("content-length", "x"),
                ("x-files", "a 1"),
                ("sec-fetch-site", "cross-site"),
                ("content-type", "\x80"),
            )
        )
        return Request("POST", "{here}" + step, b"a=b", (header,))
    return Request("GET", "{here}" + step)


PARTED = b"\n\x1e\n"
"""Between the requests of one input."""


def write_requests(requests: Sequence[Request]) -> bytes:
    """Requests as one input: method and path, a line a header, an empty line, the body."""
    heads = (
        "\n".join((f"{one.method} {one.path}", *(f"{name}: {value}" for name, value in one.headers)))
        for one in requests
    )
    return PARTED.join(
        head.encode("utf-8", "replace") + b"\n\n" + one.body for head, one in zip(heads, requests, strict=True)
    )


def read_requests(data: bytes, most: int = 4) -> tuple[Request, ...]:
    """What `write_requests` wrote, or whatever has become of it; the rest of too many is left out."""
    requests = []
    for part in data.split(PARTED)[:most]:
        head, _, body = part.partition(b"\n\n")
        first, *lines = head.decode("utf-8", "replace").split("\n")
        method, _, path = first.partition(" ")
        headers = tuple(
            (name.lower(), value.strip()) for name, colon, value in (line.partition(":") for line in lines) if colon
        )
        requests.append(Request(method, path, body, headers))
    return tuple(requests)
