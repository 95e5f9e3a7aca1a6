"""Hostile texts, and a show that holds one of them wherever a show holds words of its author."""

import json
from pathlib import Path

from paperwork.pipeline import Papers, make_papers
from paperwork.reading import Reading, read_show

FORMULAS = (
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(1)",
    '=HYPERLINK("http://192.0.2.1/")',
    "=cmd|' /C calc'!A0",
    "-2+3+cmd|' /C calc'!A0",
    "\t=1+1",
    "'=1+1",
    "\uff1d1+1",
)

MARKUP = (
    "<b>x</b>",
    "</script><script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    '" onmouseover="alert(1)',
    "a & b &amp; c",
    "<!-- x",
    "]]>",
    "&#0;",
    "<img src='file:///etc/passwd'/>",
    "![x](file:///etc/passwd)",
    "[x](http://192.0.2.1/)",
    "file:///etc/passwd",
    "javascript:alert(1)",
    '<a href="http://192.0.2.1/">x</a>',
    "<para>",
    "<seq id='a'/>",
)

OPERATORS = (
    ") Tj ET /OpenAction (",
    "\\) (",
    "((((",
    "))))",
    "endobj 1 0 obj",
    "endstream",
    ">> /URI (http://192.0.2.1) <<",
    "\\101\\102",
    "/JavaScript (app.alert(1))",
    "%%EOF",
)

PLACES = (
    "{0}",
    "{title}",
    "{x!r}",
    "{}",
    "{{ 7*7 }}",
    "{% for x in y %}",
    "{# x #}",
    "%s",
    "%(x)s",
    "%n%n",
    "$x",
    "${HOME}",
    "$(id)",
    "`id`",
    "{",
    "}",
)

HEADS = (
    "CON",
    "nul.txt",
    "COM1",
    "../../x",
    "..",
    ".",
    "/etc/passwd",
    "a/b",
    "c:\\x",
    "x" * 300,
    "tail. ",
    "\u202egnp.exe",
    "😀",
    "-rf",
    "~",
    "*",
    "?",
)

TEXTS = (*FORMULAS, *MARKUP, *OPERATORS, *PLACES, *HEADS)


def show_text(text: str) -> str:
    """A show with the text in every field that holds words, and as every id that may be one. JSON is YAML too."""
    k, channel = text.strip(), text.replace("-", "_").strip()  # in a list of channels a hyphen is a range
    return json.dumps(
        {
            "show": dict.fromkeys(
                ("title", "company", "venue", "revision", "reason", "licence", "contact", "returns"), text
            ),
            "radios": {k: {"bandwidth": "200 kHz", "tunes": "470-600", "hours": "8", "power": text, "fit": text}},
            "racks": {k: {"slots": "2", "clock": text, "antenna": text, "place": text, "rate": text}},
            "consoles": {k: {"name": text, "inputs": "8", "box": text, "clock": text, "rate": text}},
            "capsules": {k: {"type": text, "pattern": text, "colour": text, "cap": text, "fit": text, "serial": text}},
            "people": {k: {"short": text, "room": text, "belt": text, "pouch": text}, "Mara Lind": {"room": text}},
            "channels": {
                channel: {
                    "role": [k],
                    "by": k,
                    "radio": k,
                    "mhz": "486.200",
                    "capsule": k,
                    "pack": "P1",
                    "slot": f"{k}.1",
                    "notes": text,
                },
                "2": {"role": ["VERA"], "by": "Mara Lind", "mhz": "486.700", "pack": "P2"},
            },
            "scenes": {
                k: {"name": text, "act": text, "page": text, "live": [k]},
                "s2": {"name": "2", "live": ["VERA"]},
            },
            "covers": {k: {"role": k, "by": "Mara Lind"}},
        },
        ensure_ascii=False,
    )


def read_hostile(text: str, folder: Path) -> Reading:
    """The reading of the show with the text."""
    path = folder / "show.yaml"
    path.write_text(show_text(text), encoding="utf-8")
    return read_show(path, "show.yaml")


def print_hostile(text: str, folder: Path, *only: str) -> Papers | None:
    """Its papers; None where the show is refused as a whole."""
    reading = read_hostile(text, folder)
    return make_papers(reading.show, reading.findings, only=frozenset(only)) if reading.show else None
