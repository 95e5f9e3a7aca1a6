"""A cell of a frequency column: the frequency that it can only mean, or the question that it raises.

Exact decimals throughout. A reading in another unit is taken only if it is the one reading that a radio could be on.
"""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from paperwork.intake.texts.headings import mean
from paperwork.text.units import GHZ, HIGHEST_HZ, KHZ, LOWEST_HZ, MHZ, Doubt, format_mhz, parse_frequency
from paperwork.text.vocabulary import fold_word, listed_words

_SPACES = "\u00a0\u202f\u2009\u2007"
_SPACED = re.compile(r"[0-9]{1,3}(?:[ '’" + _SPACES + r"][0-9]{3})+(?:[.,][0-9]+)?")
_DRESSED = re.compile(r"^(?:f\s*[=:]|@|freq\.?:?)\s*|\s*(?:m|megs?)\.?$", re.IGNORECASE)
_ABOUT = re.compile("[~\u223c\u02dc\u223d\u2248\u2243\u2245\u2252\u00b1]|\\+/?-")
"""Signs for a number that is not meant exactly; the words are data."""

_SCIENTIFIC = re.compile(r"[0-9](?:[.,][0-9]+)?e\+?[0-9]{1,2}", re.IGNORECASE)
_ONE = re.compile(r"(?<![0-9])(?<![0-9][.,])[0-9]{2,4}(?:[.,][0-9]{1,6})?(?![0-9])(?![.,][0-9])")
_TWO_SIGNS = re.compile(r"([0-9]{1,3})([.,])([0-9]{3})([.,])([0-9]+)")
_THOUSANDS = re.compile(r"([0-9]{3,4}[.,][0-9]{3})\s*(khz|hz)\.?", re.IGNORECASE)
_SAME = re.compile(r"(?i)(?P<word>\D+?)\s*(?P<channel>#?\s*(?:(?:ch|rf|mic|pack|kanal|m)\.?)?\s*[0-9]{1,3}[a-z]?)")
_FRACTION = re.compile(r"0\.[0-9]+|[0-9]\.[0-9]{3,}")
"""Gigahertz as people write them: `2` and `1.1` are the numbers of channels and scenes."""

_TELEVISION = re.compile(r"(?P<word>[a-z. ]+?)[.:#\s]*[0-9]{2}", re.IGNORECASE)
_CODE = re.compile(
    r"(?<![a-z])(?:g|gr|grp|group|gruppe|bank|b|groupe|gp)\.?\s*[0-9]+|[a-z]:[0-9]+|[0-9]{1,2}\s*[-/]\s*[0-9]{1,2}",
    re.IGNORECASE,
)


class FrequencyText(NamedTuple):
    """What a text was taken as. One of `mhz`, `same` and `doubt` is set; all are "" for what is not a frequency.

    `mhz` is text that the show file takes, `because` why it is not the text itself, `kind` the kind of that repair.
    `same` names the channel whose frequency it repeats (`^` is the row above). `choices` belong to a doubt.
    """

    mhz: str = ""
    because: str = ""
    kind: str = ""
    same: str = ""
    doubt: str = ""
    choices: tuple[str, ...] = ()


@lru_cache(20_000)
def read_frequency(text: str) -> FrequencyText:
    """The reading of one text. All fields are "" for what is not a frequency in any way."""
    plain = " ".join(unicodedata.normalize("NFKC", text).split())
    if plain in ('"', "''", "“", "”", "〃", "„") or fold_word(plain) in listed_words("same"):
        return FrequencyText(same="^")
    if (match := _SAME.fullmatch(plain)) and fold_word(match["word"]) in listed_words("same"):
        return FrequencyText(same=match["channel"].strip())
    if _SPACED.fullmatch(text.strip()):
        return _convert(re.sub(r"[^0-9.,]", "", plain).replace(",", "."), "digits in groups")
    bare = _DRESSED.sub("", _DRESSED.sub("", plain)).strip()
    if bare != plain and (reading := read_frequency(bare)).mhz:
        because, kind = reading.because or "a mark beside the number", reading.kind or "marks beside frequencies"
        return reading._replace(because=because, kind=kind)
    if match := _TWO_SIGNS.fullmatch(plain):
        return _two_signs(plain, match)
    if match := _THOUSANDS.fullmatch(plain):
        doubt = f"{plain} is no carrier with that unit: {match[1]} MHz, or thousands of {match[2]}?"
        return FrequencyText(doubt=doubt, choices=_list_carriers((match[1].replace(",", "."),)))
    try:
        hz = parse_frequency(plain)
    except Doubt:
        return _repair(plain)
    return FrequencyText(mhz=plain if re.fullmatch(r"[0-9.,]+", plain) else format_mhz(hz))


def _repair(plain: str) -> FrequencyText:
    if re.fullmatch(r"[0-9]+(?:[.,][0-9]+)?", plain):
        return _convert(plain.replace(",", "."), "another unit")
    if _SCIENTIFIC.fullmatch(plain):
        return _convert(format(Decimal(plain.replace(",", ".")), "f"), "powers of ten")
    numbers = [number.replace(",", ".") for number in _ONE.findall(plain)]
    meant = _list_carriers(
        number for number in numbers if len(number) > 2
    )  # `38` with a remark is a television channel
    if len(meant) > 1:
        doubt = f"{plain} names {len(meant)} frequencies: two packs, or an old one and a new one?"
        return FrequencyText(doubt=doubt, choices=meant)
    if _CODE.search(plain):
        return FrequencyText(doubt=f"{plain} is a group and channel of the radio's own table, not a frequency")
    if (match := _TELEVISION.fullmatch(plain)) and {"tv", "channel"} & set(mean(match["word"]).fields):
        return FrequencyText(doubt=f"{plain} is a television channel, not a frequency")
    looks = "near a frequency, not one" if _is_about(plain) else "more than one frequency, or a frequency and a remark"
    return FrequencyText(doubt=f"{plain} is {looks}", choices=meant) if meant else FrequencyText()


def _is_about(plain: str) -> bool:
    """Whether a sign or a word says that the number beside it is not meant exactly: `~523`, `ca. 523`, `523 environ`."""
    spaced = f" {fold_word(re.sub('[0-9]+', ' ', plain))} "
    return bool(_ABOUT.search(plain)) or any(f" {word} " in spaced for word in listed_words("about"))


def _list_carriers(numbers: Iterable[str]) -> tuple[str, ...]:
    """The frequencies among some numbers, each once."""
    return tuple(dict.fromkeys(mhz for number in numbers if (mhz := _convert(number, "").mhz)))


def _convert(number: str, kind: str) -> FrequencyText:
    """A number taken in the one unit in which it can be a carrier; nothing if it can be none."""
    value = Decimal(number)
    for unit, factor in (("MHz", MHZ), ("kHz", KHZ), ("Hz", 1), ("GHz", GHZ)):
        hz = value * factor
        if unit == "GHz" and not _FRACTION.fullmatch(number):
            continue
        if LOWEST_HZ <= hz <= HIGHEST_HZ and hz == int(hz):
            if unit == "MHz":
                return FrequencyText(mhz=number, kind=kind, because="the digits are in groups" if kind else "")
            because = f"{number} MHz is no carrier, {number} {unit} is {format_mhz(int(hz))} MHz"
            return FrequencyText(mhz=format_mhz(int(hz)), because=because, kind=f"frequencies in {unit}")
    return FrequencyText()


def _two_signs(plain: str, match: re.Match[str]) -> FrequencyText:
    """`1.518,200`: thousands of megahertz, a fraction of a gigahertz, or a figure too many in front."""
    whole = f"{match[1]}{match[3]}.{match[5]}"
    less = f"{match[3]}.{match[5]}"
    doubt = f"{plain} has two separators: {whole} MHz, which is {Decimal(whole) / 1000} GHz, or {less} MHz?"
    return FrequencyText(doubt=doubt, choices=_list_carriers((whole, less)))


def mixes_signs(texts: Sequence[str]) -> bool:
    """Whether some of the frequencies have a decimal comma and some a point."""
    return len({sign for text in texts for sign in re.findall(r"[0-9]([.,])[0-9]{1,6}(?![0-9])", text)}) > 1


def find_middle(all_mhz: Sequence[str]) -> int:
    """The median frequency in hertz, or 0 where there are too few to say what is usual."""
    ordered = sorted(parse_frequency(mhz) for mhz in all_mhz)
    return ordered[len(ordered) // 2] if len(ordered) > 3 else 0


def is_far_off(mhz: str, middle_hz: int) -> str:
    """What a frequency would be with its point moved, if only that brings it among the others; else "".

    `51.82` among frequencies near 518 is most likely a slip of the pen.
    """
    hz = parse_frequency(mhz)
    if not middle_hz or middle_hz <= 2 * hz <= 4 * middle_hz:
        return ""
    for moved in (hz * 10, hz // 10, hz * 100, hz // 100):
        if 4 * middle_hz <= 5 * moved <= 6 * middle_hz:
            return format_mhz(moved)
    return ""
