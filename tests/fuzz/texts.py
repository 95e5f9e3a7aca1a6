"""Text spoiled: by lines, by words, by signs and by bytes, as editors, spreadsheets and enemies do it."""

import re
from random import Random

SIGNS = (
    "\t",
    "\0",
    "\x07",
    "\x1b[2J",
    "\x9b31m",
    "\x7f",
    "\r",
    "\x85",
    "\u2028",
    "\u202e",
    "\u2066",
    "\ufeff",
    "\u00a0",
    "\u202f",
    "\ud800",
    "\uffff",
    "é",
    "ß",
    "ffi",
    "İ",
    "①",
    "１２",
    "٣",
    "०",
    "漢",
    "א",
    "😀",
    "👩‍👩‍👧",
    "a\u0301",
    "🏳️‍🌈",
    "'",
    '"',
    "`",
    "\\",
    "#",
    " #",
    ": ",
    ":",
    "- ",
    "?",
    "!",
    "&a ",
    "*a",
    "%",
    "@",
    "|",
    ">",
    "[",
    "]",
    "{",
    "}",
    ",",
    ";",
    "<<: ",
    "---\n",
    "...\n",
    "~",
    "=",
    "<b>",
    "&amp;",
    "$",
    "{0}",
    "{x}",
    "%s",
    "%n",
    "{{ 7*7 }}",
    "${x}",
    "\\N{DASH}",
    "../",
    "/",
    "\n",
    "\n\n",
    "\r\n",
    "\x0b",
    "\u200d",
    "\U000e0001",
)

WORDS = (
    "",
    "0",
    "-0",
    "00",
    "1",
    "-1",
    "01",
    "1e3",
    "1E999",
    "1e-999",
    "9" * 25,
    "9" * 400,
    "0." + "0" * 60 + "1",
    "518.2",
    "518,200",
    "1.518,200",
    "518.2 / 520.4",
    "486-508",
    "508-486",
    "0-9999999",
    "01-06",
    "1-2000",
    "1-99999999",
    "1-2000,1-2000,1-2000",
    "2000-1",
    "S1-S9",
    "25:00",
    "0:00",
    "99:99",
    "999999 h",
    "0.5 s",
    "24:00",
    "23:59:59",
    "200 kHz",
    "0 kHz",
    "1 Hz",
    "9999999 MHz",
    "3 GHz",
    "25 MHz",
    "inf",
    "nan",
    "null",
    "true",
    "NO",
    "yes",
    "~",
    "-",
    "--",
    "x",
    "(x)",
    "ditto",
    "all",
    "none",
    "VERA",
    "TOM",
    "SPARE",
    "FOH",
    "FOH 1-6",
    "TRUCK 1-6",
    "R1",
    "R1.1",
    "R1.9999",
    "R99",
    "belt",
    "hand",
    "like",
    "2027-02-30",
    "0001-01-01",
    "9999-12-31",
    "3/4/27",
    "US",
    "UK",
    "AU",
    "a" * 300,
    "a " * 2000,
    "b" * 4000,
    "c" * 4001,
    "../../etc/passwd",
    "file:///etc/passwd",
    "/etc/passwd",
    "CON",
    "NUL.txt",
    "show.yaml",
    "http://192.0.2.1/x",
    "<img src='file:///etc/passwd'/>",
    "</script><script>",
    "!!python/object/apply:os.system [id]",
    "=HYPERLINK(1)",
    "+1",
    "@x",
    "#REF!",
    "G2 Ch 04",
    "38-4",
    "Ensemble",
    "Ann (u/s Bea)",
    "1.1",
    "1.10",
    "1-2",
    "2027-03-02T00:00",
    "100%",
    "0x1F",
    "0o17",
    "1_000",
    "1:2:3",
    "A: 1",
    "A: 1, B: 2",
    "{A: 1}",
    "[1, 2]",
    "\u0661\u0662",
    "²",
    "１．５",
    "½",
    "Ⅷ",
    "\u05d3\u05e0\u05d4 \u05dc\u05d5\u05d9",
    "\u0645\u0631\u064a\u0645 1 (A)",
    "\u0928\u0947\u0939\u093e",
    "\u0e2a\u0e21\u0e0a\u0e32\u0e22",
    "\u5c71\u7530 A\u200f\u05d0",
    "\ud55c\uae38",
)

CODECS = ("utf-8", "utf-8-sig", "utf-16", "utf-16-be", "latin-1", "cp1252", "utf-32")

_WORD = re.compile(r"[\w./:-]+")


def pick_word(dice: Random) -> str:
    """A word from the list, or a number near an edge."""
    roll = dice.random()
    if roll < 0.1:
        return str(dice.choice((0, 1, 2, 10, 255, 2**31, 2**63, 10**15)) + dice.randint(-2, 2))
    if roll < 0.2:
        return f"{dice.randint(400, 700)}.{dice.randint(0, 999_999):0{dice.randint(1, 6)}d}"
    return dice.choice(WORDS)


def spoil_text(text: str, dice: Random, other: str = "") -> str:
    """The text with one to four changes; `other` lends lines."""
    for _ in range(dice.choice((1, 1, 1, 2, 2, 3, 4))):
        text = dice.choice(CHANGES)(text, dice, other)[:400_000]
    return text


def spoil_bytes(data: bytes, dice: Random) -> bytes:
    """Some bytes changed, a stretch cut out, doubled, or put elsewhere; sometimes cut off."""
    mangled = bytearray(data or b"x")
    for _ in range(dice.choice((1, 1, 2, 3, 6))):
        start, length = dice.randrange(len(mangled)), dice.choice((1, 2, 4, 16, 60, 400))
        match dice.randint(0, 6):
            case 0:
                mangled[start] = dice.randrange(256)
            case 1:
                mangled[start] ^= 1 << dice.randrange(8)
            case 2:
                del mangled[start : start + length]
            case 3:
                mangled[start:start] = mangled[start : start + length]
            case 4:
                mangled[start : start + length] = dice.randbytes(min(length, 60))
            case 5:
                mangled[start : start + 4] = dice.choice((0, 1, 0x7FFFFFFF, 0xFFFFFFFF, 0x80000000)).to_bytes(
                    4, dice.choice(("little", "big"))
                )
            case _:
                del mangled[start : None if dice.random() < 0.4 else start + 1]
        mangled = mangled or bytearray(b"x")
    return bytes(mangled)


def encode(text: str, dice: Random) -> bytes:
    """The text as bytes: nearly always UTF-8, with the line ends of any system."""
    if dice.random() < 0.1:
        text = text.replace("\n", dice.choice(("\r\n", "\r")))
    codec = dice.choice(CODECS) if dice.random() < 0.06 else "utf-8"
    return text.encode(codec, "surrogatepass" if codec.startswith("utf") else "replace")


def _lines(text: str) -> list[str]:
    return text.split("\n")


def _replace_word(text: str, dice: Random, other: str) -> str:
    found = list(_WORD.finditer(text[:60_000]))
    if not found:
        return pick_word(dice)
    match = dice.choice(found)
    return text[: match.start()] + pick_word(dice) + text[match.end() :]


def _swap_words(text: str, dice: Random, other: str) -> str:
    found = list(_WORD.finditer(text[:60_000]))
    if len(found) < 2:
        return text + text
    one, two = sorted(dice.sample(found, 2), key=lambda match: match.start())
    return text[: one.start()] + two[0] + text[one.end() : two.start()] + one[0] + text[two.end() :]


def _insert_sign(text: str, dice: Random, other: str) -> str:
    at = dice.randint(0, len(text))
    return text[:at] + dice.choice(SIGNS) * dice.choice((1, 1, 1, 2, 50)) + text[at:]


def _drop_line(text: str, dice: Random, other: str) -> str:
    lines = _lines(text)
    del lines[dice.randrange(len(lines))]
    return "\n".join(lines)


def _double_line(text: str, dice: Random, other: str) -> str:
    lines = _lines(text)
    at = dice.randrange(len(lines))
    lines[at:at] = [lines[at]] * dice.choice((1, 1, 2, 30, 400))
    return "\n".join(lines)


def _move_line(text: str, dice: Random, other: str) -> str:
    lines = _lines(text)
    line = lines.pop(dice.randrange(len(lines)))
    lines.insert(dice.randint(0, len(lines)), line)
    return "\n".join(lines)


def _lend_lines(text: str, dice: Random, other: str) -> str:
    lines, lent = _lines(text), _lines(other)
    start = dice.randrange(len(lent))
    at = dice.randint(0, len(lines))
    lines[at:at] = lent[start : start + dice.randint(1, 12)]
    return "\n".join(lines)


def _indent_line(text: str, dice: Random, other: str) -> str:
    lines = _lines(text)
    at = dice.randrange(len(lines))
    lines[at] = dice.choice((" ", "  ", "\t", "    ")) + lines[at] if dice.random() < 0.5 else lines[at].lstrip()
    return "\n".join(lines)


def _cut_off(text: str, dice: Random, other: str) -> str:
    return text[: dice.randint(0, len(text))]


def _drop_stretch(text: str, dice: Random, other: str) -> str:
    at = dice.randint(0, len(text))
    return text[:at] + text[at + dice.choice((1, 2, 5, 40, 200)) :]


def _repeat_stretch(text: str, dice: Random, other: str) -> str:
    at, length = dice.randint(0, len(text)), dice.choice((1, 3, 20, 100))
    return text[:at] + text[at : at + length] * dice.choice((2, 3, 20, 300)) + text[at:]


CHANGES = (
    _replace_word,
    _replace_word,
    _replace_word,
    _replace_word,
    _swap_words,
    _insert_sign,
    _insert_sign,
    _drop_line,
    _double_line,
    _move_line,
    _lend_lines,
    _lend_lines,
    _indent_line,
    _cut_off,
    _drop_stretch,
    _repeat_stretch,
)
