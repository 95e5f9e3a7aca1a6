"""How a text comes into its width: shrunk along the scale to its floor, then broken, then visibly abbreviated.

Numbers do not break: one that does not fit at its floor is a fault that is reported, never a smaller number.
"""

import re
import unicodedata
from functools import lru_cache
from typing import Literal, TypeAlias

from paperwork.document.styles import Style, step_under
from paperwork.frozen import frozen
from paperwork.render.text.faces import FACES, em_um, face_for
from paperwork.render.text.measuring import Metrics, drop_um, ink_in, rise_um
from paperwork.text.glyphs import drawable_text, is_scripted, script_of

Outcome: TypeAlias = Literal["whole", "abbreviated", "too wide"]

ELLIPSIS = "…"
_LAST_FIGURE = re.compile(r"\.[0-9]{1,4}$")


@frozen
class Fitted:
    """Lines of one face and height that fit, and whether anything had to be cut for it."""

    lines: tuple[str, ...]
    face: str
    cap_um: int
    floor_um: int
    outcome: Outcome = "whole"

    @property
    def pitch_um(self) -> int:
        """From baseline to baseline: an eighth more than the em, more only where stacked accents need it."""
        em = em_um(self.face, self.cap_um)
        up, down = (max(reach) for reach in zip(*(ink_in(line, self.face) for line in self.lines), strict=True))
        return int(em * max(1_120, up + down + 20) // 1_000)

    @property
    def rise_um(self) -> int:
        """How far the ink of the first line can reach above its baseline."""
        return rise_um(self.lines[0], self.face, self.cap_um)

    @property
    def drop_um(self) -> int:
        """How far the ink of the last line can reach below its baseline."""
        return drop_um(self.lines[-1], self.face, self.cap_um)

    def width_um(self, metrics: Metrics) -> int:
        """The width of the first line."""
        return metrics.width_um(self.lines[0], self.face, self.cap_um)


def fit(text: str, style: Style, width_um: int, metrics: Metrics) -> Fitted:
    """The text in the style, at most `width_um` wide."""
    if not text.isascii():  # what can be drawn follows from the extras that are installed
        text = drawable_text(text)
        if style.sentence and is_scripted(text):
            from paperwork.render.text.runs import start_left

            text = start_left(text)
    return _fit(text, style, width_um, metrics)


@lru_cache(maxsize=8192)
def _fit(text: str, style: Style, width_um: int, metrics: Metrics) -> Fitted:
    text = drawable_text(text) if text.isascii() else text
    face = face_for(style, text)
    tallest = width_um * FACES[face].cap // max(1, metrics.units(text, face))
    if tallest >= style.wanted_um:
        return Fitted((text,), face, style.wanted_um, style.floor_um)
    if style.paragraph:
        broken = break_lines(text, face, style.wanted_um, width_um, metrics)
        if len(broken) <= style.lines and _widest(broken, face, style.wanted_um, metrics) <= width_um:
            return Fitted(broken, face, style.wanted_um, style.floor_um)
    if tallest >= style.floor_um and not style.paragraph:
        return Fitted((text,), face, max(style.floor_um, step_under(tallest)), style.floor_um)
    if not style.breaks:
        return Fitted((text,), face, style.floor_um, style.floor_um, "too wide")
    return _fit_at_floor(text, style, face, width_um, metrics)


def _fit_at_floor(text: str, style: Style, face: str, width_um: int, metrics: Metrics) -> Fitted:
    cap = style.floor_um
    broken = break_lines(text, face, cap, width_um, metrics)
    kept = list(broken[: style.lines])
    cut = len(broken) > style.lines
    for index, line in enumerate(kept):
        goes_on = index == len(kept) - 1 and len(broken) > style.lines
        if goes_on or metrics.width_um(line, face, cap) > width_um:
            kept[index] = _abbreviate(line, face, cap, width_um, metrics, goes_on=goes_on)
            cut = True
    return Fitted(tuple(kept), face, cap, style.floor_um, "abbreviated" if cut else "whole")


def break_lines(text: str, face: str, cap_um: int, width_um: int, metrics: Metrics) -> tuple[str, ...]:
    """The text broken after spaces, hyphens and slashes so that lines fit where they can; a long word stands alone.

    A long word of a script that sets no spaces is broken within, and a line keeps the direction of the whole text.
    """
    lines = _fill_lines(split_words(text), face, cap_um, width_um, metrics)
    if not is_scripted(text):
        return tuple(lines)
    from paperwork.render.text.runs import keep_direction

    return tuple(keep_direction(line, text) for line in lines)


def _fill_lines(words: list[str], face: str, cap_um: int, width_um: int, metrics: Metrics) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in words:
        longer = line + word
        if not line or metrics.width_um(longer.rstrip(), face, cap_um) <= width_um:
            line = longer
        else:
            lines.append(line.rstrip())
            line = word
        if is_scripted(line) and metrics.width_um(line.rstrip(), face, cap_um) > width_um:
            parts, spaces = split_within(line.rstrip()), line[len(line.rstrip()) :]
            *filled, last = _fill_lines(parts, face, cap_um, width_um, metrics) if len(parts) > 1 else parts
            lines += filled
            line = last + spaces
    lines.append(line.rstrip())
    return lines


def _abbreviate(line: str, face: str, cap_um: int, width_um: int, metrics: Metrics, *, goes_on: bool) -> str:
    """The longest beginning of the line that fits with an ellipsis behind it. A figure at its end is kept where it
    fits with a beginning: of `TUNNEL.2` it is what counts. Of a line that goes on the end is elsewhere."""
    scripted = is_scripted(line)
    units = split_clusters(line) if scripted else line
    found = None if scripted or goes_on else _LAST_FIGURE.search(line)
    for end in (found.group(), "") if found and found.start() else ("",):
        low, high = 0, len(units) - len(end)
        while low < high:
            middle = (low + high + 1) // 2
            short = "".join(units[:middle]).rstrip() + ELLIPSIS + end
            if metrics.width_um(short, face, cap_um) <= width_um:
                low = middle
            else:
                high = middle - 1
        if low or not end:
            break
    return "".join(units[:low]).rstrip() + ELLIPSIS + end


def _widest(lines: tuple[str, ...], face: str, cap_um: int, metrics: Metrics) -> int:
    return max(metrics.width_um(line, face, cap_um) for line in lines)


_TOKEN = re.compile(r"(?:[^\w /-]*[^\W\d_]{1,2}-(?=\w))?(?:[^ /-]*[/-]+ *|[^ /-]+ *)")
"""A break may follow a space, a hyphen or a slash, but not a hyphen after two letters: `In-Ears` and `(BQ-0417)` are
whole. No-break spaces are left by `clean_text` where they hold on purpose."""

_UNIT = re.compile(r"(?<=[0-9]) (?=(?:[kMG]?Hz|[mµ]?W|dB(?:m|W|[mµu]V)?|V|ohm|Ω|min|[sh]|[cmk]?m|%)(?![^\W_]))")
"""The space between a figure and its unit, in every language: the signs of units are the same in all."""

_HELD = "\u00a0"
"""What stands for that space while a text is split. `clean_text` has left none in it, and the space is printed as it
was, so that a text copied from the page is found by it."""

_OPENING = "「『（〔［｛〈《【〖〘〚"
_CLOSING = "」』）〕］｝〉》】〗〙〛、。，．：；？！・ー々〻ゝゞヽヾぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮヵヶ゛゜"
"""What may not end a line, and what may not begin one (JIS X 4051, the signs met in names and notes; from memory)."""

_LEADING_VOWELS = "เแโใไ"
_FOLLOWING_THAI = "ะาำๅๆฯ์"
_VIRAMA = "\u094d"
_JOINERS = "\u200c\u200d"


def split_words(text: str) -> list[str]:
    """The parts between which the text may always be broken, each with its spaces. A figure and its unit are one."""
    held = _UNIT.sub(_HELD, text)
    return _TOKEN.findall(text) if held == text else [part.replace(_HELD, " ") for part in _TOKEN.findall(held)]


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
