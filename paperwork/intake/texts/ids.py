"""Numbers of channels and packs, places in receivers: as people write them, and as they are printed."""

import re
import unicodedata
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from paperwork.text.vocabulary import fold_word, listed_words

_WAS = re.compile(r"\s*[(\[](?:was|ex|old|fr[uü]her|avant|antes|prima)\.?:?\s*(?P<was>[^)\]]+)[)\]]\s*", re.IGNORECASE)
_REMARK = re.compile(r"\s*[(\[](?P<word>[^)\]]+)[)\]]\s*")
_NUMBERED = re.compile(
    r"(?P<prefix>[^\W\d_.#]*(?:\.[^\W\d_]+)*\.?|#)[\s.\-_#]*(?P<digits>[0-9]{1,4})(?:\.0+)?(?P<suffix>[a-zA-Z]?)"
)
LETTERED = "unit number, then a letter for the slot"
_PLACES = (
    (LETTERED, re.compile(r"(?P<unit>[A-Za-z]*[0-9]+)\s*-?\s*(?P<letter>[A-Ha-h])")),
    ("unit, then slot", re.compile(r"(?P<unit>[A-Za-z ]*[0-9]+)\s*[./:,\-#]\s*#?\s*[A-Za-z]*\s*(?P<slot>[0-9]{1,3})")),
    ("unit, then slot", re.compile(r"(?i)(?P<unit>[A-Z]+ ?[0-9]+)\s+(?:slot|ch|#)?\s*(?P<slot>[0-9]{1,3})")),
)


class Numbered(NamedTuple):
    """An id taken apart: prefix, figures, a letter behind, what it was before, and whether it says spare."""

    prefix: str
    digits: str
    suffix: str
    was: str = ""
    spare: bool = False
    text: str = ""


def read_id(text: str) -> Numbered:
    """The parts of an id; `digits` is "" for one that is no number."""
    plain = " ".join(unicodedata.normalize("NFKC", text).split())
    was, spare = "", False
    if match := _WAS.search(plain):
        was, plain = match["was"].strip(), _WAS.sub(" ", plain).strip()
    if (match := _REMARK.search(plain)) and fold_word(match["word"]) in listed_words("spare"):
        spare, plain = True, _REMARK.sub(" ", plain).strip()
    match = _NUMBERED.fullmatch(plain)
    prefix, digits, suffix = match.group("prefix", "digits", "suffix") if match else ("", "", "")
    return Numbered(prefix, digits, suffix, was, spare, plain)


def is_id(text: str) -> bool:
    """Whether a text looks like the number of a channel or a pack."""
    return bool(read_id(text).digits) and len(text) <= 24


def is_plain_prefix(prefix: str) -> bool:
    """Whether a prefix says only that a number follows: `RF`, `Mic`, `#`."""
    return prefix in ("", "#") or fold_word(prefix.replace(".", " ")) in listed_words("channel_prefix")


class IdStyle(NamedTuple):
    """How numbers are printed: with a common prefix or none, and padded to a width."""

    prefix: str
    width: int
    is_mixed: bool


def find_style(ids: Sequence[Numbered]) -> IdStyle:
    """The printed style of the majority. Where all carry one and the same prefix it is the user's, and is kept."""
    plain = [id for id in ids if id.digits and is_plain_prefix(id.prefix)]
    prefixes = Counter(id.prefix for id in plain)
    padded = sum(id.digits.startswith("0") and len(id.digits) > 1 for id in plain)
    short = [id for id in plain if len(id.digits.lstrip("0")) < 2]
    width = max((len(id.digits) for id in plain), default=1) if padded * 2 > len(short) else 1
    prefix = next(iter(prefixes)) if len(prefixes) == 1 else ""
    texts = {_print(id, prefix, width) == id.text for id in plain}
    return IdStyle(prefix, width, len(prefixes) > 1 or False in texts)


def print_id(id: Numbered, style: IdStyle) -> str:
    """The id in a style; ids that are no plain number keep their own."""
    if not id.digits or not is_plain_prefix(id.prefix):
        return id.text
    return _print(id, style.prefix, style.width) if style.is_mixed else id.text


def _print(id: Numbered, prefix: str, width: int) -> str:
    gap = next((sign for sign in " -_" if prefix and prefix != "#" and f"{prefix}{sign}" in id.text), "")
    return f"{prefix}{gap}{(id.digits.lstrip('0') or '0').zfill(width)}{id.suffix}"


def key_of(id: str) -> str:
    """The key under which two spellings of one id are the same: `RF 06`, `#6` and `06` are `6`."""
    parts = read_id(id)
    if not parts.digits:
        return fold_word(id)
    prefix = "" if is_plain_prefix(parts.prefix) else fold_word(parts.prefix.replace(".", ""))
    return f"{prefix}{parts.digits.lstrip('0') or '0'}{parts.suffix.casefold()}"


def read_place(text: str) -> tuple[str, str]:
    """A place in a receiver as the show file takes it, `2.1`, and the pattern that it was read by; "" for none."""
    plain = " ".join(unicodedata.normalize("NFKC", text).split())
    for pattern, shape in _PLACES:
        if match := shape.fullmatch(plain):
            parts = match.groupdict()
            slot = parts.get("slot") or str(ord(parts["letter"].upper()) - ord("A") + 1)
            return f"{parts['unit'].strip()}.{int(slot)}", pattern
    return "", ""
