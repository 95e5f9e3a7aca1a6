"""Where a text may be broken into lines, and where it may be cut: by words, and within words only as their script allows.

Spaces, hyphens and slashes come first in every script. A word of Thai, Chinese, Japanese or Korean that is wider than
its line is broken within: these set no spaces between words, and without a dictionary a break between two clusters of
Thai is safe to read, if not always where a reader would break. Rules in the spirit of UAX #14 (classes OP, CL, NS, SA).
"""

import re
import unicodedata

from paperwork.text.glyphs import script_of

_TOKEN = re.compile(r"(?:[^\w /-]*[^\W\d_]{1,2}-(?=\w))?(?:[^ /-]*[/-]+ *|[^ /-]+ *)")
"""A break may follow a space, a hyphen or a slash, but not a hyphen after two letters: `In-Ears` and `(BQ-0417)` are
whole. No-break spaces are left by `clean_text` where they hold on purpose."""

_OPENING = "「『（〔［｛〈《【〖〘〚"
_CLOSING = "」』）〕］｝〉》】〗〙〛、。，．：；？！・ー々〻ゝゞヽヾぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮヵヶ゛゜"
"""What may not end a line, and what may not begin one (JIS X 4051, the signs met in names and notes; from memory)."""

_LEADING_VOWELS = "เแโใไ"
_FOLLOWING_THAI = "ะาำๅๆฯ์"
_VIRAMA = "\u094d"
_JOINERS = "\u200c\u200d"


def split_words(text: str) -> list[str]:
    """The parts between which the text may always be broken, each with the spaces behind it."""
    return _TOKEN.findall(text)


def split_within(word: str) -> list[str]:
    """The parts between which a word that fits no line may be broken; one part for scripts that allow no such break."""
    parts = [""]
    for cluster in split_clusters(word):
        if parts[-1] and _may_break(parts[-1][-1], cluster[0]):
            parts.append("")
        parts[-1] += cluster
    return parts


def split_clusters(text: str) -> list[str]:
    """The parts that a cut may not go through: a letter with its marks, a conjunct, a Thai vowel with its consonant."""
    clusters: list[str] = []
    for sign in text:
        if clusters and (_is_mark(sign) or clusters[-1][-1] in _VIRAMA + _JOINERS + _LEADING_VOWELS):
            clusters[-1] += sign
        else:
            clusters.append(sign)
    return clusters


def _is_mark(sign: str) -> bool:
    return not sign.isascii() and (sign in _JOINERS or sign in _FOLLOWING_THAI or unicodedata.category(sign)[0] == "M")


def _may_break(before: str, after: str) -> bool:
    first, second = script_of(before), script_of(after)
    if after.isspace() or before in _OPENING or after in _CLOSING:
        return False
    return bool((first and first.broken) or (second and second.broken))
