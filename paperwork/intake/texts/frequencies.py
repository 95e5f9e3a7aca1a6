"""A cell of a frequency column: the frequency that it can only mean, or the question that it raises.

Exact decimals throughout. A reading in another unit is taken only if it is the one reading that a radio could be on.
"""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from paperwork.text.headings import mean
from paperwork.text.units import GHZ, HIGHEST_HZ, KHZ, LOWEST_HZ, MHZ, Doubt, format_mhz, parse_frequency
from paperwork.text.vocabulary import fold_word, listed_words

_SPACES = "\u00a0\u202f\u2009\u2007"
_SPACED = re.compile(r"[0-9]{1,3}(?:[ '’" + _SPACES + r"][0-9]{3})+(?:[.,][0-9]+)?")
_DRESSED = re.compile(r"^(?:f\s*[=:]|@|freq\.?:?)\s*|\s*(?:m|megs?)\.?$", re.IGNORECASE)
_ABOUT = re.compile("[~\u223c\u02dc\u223d\u2248\u2243\u2245\u2252\u00b1]|\\+/?-")
"""Signs for a number that is not meant exactly; the words are data."""

_BESIDE = re.compile(
    r"\s*[(\[](?:k|tv|tv ?ch\.?|ch\.?)\s*[0-9]{2}[)\]]|^(?:k|tv|tv ?ch\.?)\s*[0-9]{2}\s*[/:,-]\s+|\s+[/,-]\s+(?:k|tv|tv ?ch\.?)\s*[0-9]{2}$",
    re.IGNORECASE,
)
"""The television channel beside a frequency: `470,200 (K21)`, `K21 / 470,200`."""

_SCIENTIFIC = re.compile(r"[0-9](?:[.,][0-9]+)?e\+?[0-9]{1,2}", re.IGNORECASE)
_ONE = re.compile(r"(?<![0-9])(?<![0-9][.,])[0-9]{2,4}(?:[.,][0-9]{1,6})?(?![0-9])(?![.,][0-9])")
_TWO_SIGNS = re.compile(r"([0-9]{1,3})([.,])([0-9]{3})([.,])([0-9]+)")
_THOUSANDS = re.compile(r"([0-9]{3,4}[.,][0-9]{3})\s*(khz|hz)\.?", re.IGNORECASE)
_SAME = re.compile(r"(?i)(?P<word>\D+?)\s*(?P<channel>#?\s*(?:(?:ch|rf|mic|pack|kanal|m)\.?)?\s*[0-9]{1,3}[a-z]?)")
_FRACTION = re.compile(r"0\.[0-9]+|[0-9]\.[0-9]{3,}")
"""Gigahertz as people write them: `2` and `1.1` are the numbers of channels and scenes."""

_BANDS = (
    (25, 50),
    (72, 76),
    (137, 260),
    (400, 410),
    (470, 960),
    (1240, 1260),
    (1350, 1530),
    (1785, 1805),
    (1880, 1930),
    (2400, 2484),
)
"""Where radios with a microphone, in-ears and intercom may be, in MHz, all countries together. From memory of ERC/REC 70-03
annex 10 and of 47 CFR 15 and 74; drawn wide, since beyond them is only a question."""

_LOW_BANDS = 80
"""Where the lowest bands end, in MHz: a number below it among much higher ones is as likely one of television or a preset."""

_UNITED = re.compile(r"(?P<number>[0-9]+(?:[.,][0-9]+)?)\s*(?P<unit>[kmg]?hz)\.?", re.IGNORECASE)
_LOOKALIKES = str.maketrans("OoIl|SB", "0011158")
"""Letters that are typed for figures."""

_MAYBE = re.compile(r"[?!\s]+$")
_TELEVISION = re.compile(r"(?P<word>[a-z. ]+?)[.:#\s]*[0-9]{2}", re.IGNORECASE)
_CODE = re.compile(
    r"(?<![a-z])(?:g|gr|grp|group|gruppe|bank|b|groupe|gp)\.?\s*[0-9]+|[a-z]:[0-9]+|[0-9]{1,2}\s*[-/]\s*[0-9]{1,2}",
    re.IGNORECASE,
)


class FrequencyText(NamedTuple):
    """What a text was taken as. One of `mhz`, `same` and `doubt` is set; all are "" for what is not a frequency.

    `mhz` is text that the show file takes, `because` why it is not the text itself, `kind` the kind of that repair.
    `same` names the channel whose frequency it repeats (`^` is the row above). `choices` belong to a doubt; `group` is its
    kind, by which a column full of them is asked about once.
    """

    mhz: str = ""
    because: str = ""
    kind: str = ""
    same: str = ""
    doubt: str = ""
    choices: tuple[str, ...] = ()
    group: str = ""


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
    bare = _DRESSED.sub("", _DRESSED.sub("", _BESIDE.sub("", plain))).strip()
    if bare != plain and (reading := read_frequency(bare)).mhz:
        because, kind = reading.because or "a mark beside the number", reading.kind or "marks beside frequencies"
        return reading._replace(because=because, kind=kind)
    if match := _TWO_SIGNS.fullmatch(plain):
        return _two_signs(plain, match)
    if match := _THOUSANDS.fullmatch(plain):
        doubt = f"{plain} is no carrier with that unit: {match[1]} MHz, or thousands of {match[2]}?"
        return FrequencyText(
            doubt=doubt, choices=_list_carriers((match[1].replace(",", "."),)), group=match[2].casefold()
        )
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
    if match := _UNITED.fullmatch(plain):
        meant = _list_carriers((match["number"].replace(",", "."),))
        doubt = f"{plain} is no carrier with that unit{f': {meant[0]} MHz?' if meant else ''}"
        return FrequencyText(doubt=doubt, choices=meant, group=match["unit"].casefold())
    if (bare := _MAYBE.sub("", plain)) != plain and bare:
        return _doubt_with_mark(plain, bare)
    figures = plain.translate(_LOOKALIKES)
    is_typed = (
        figures != plain and re.fullmatch(r"[0-9]{2,4}[.,]?[0-9]*", figures) and len(re.findall("[0-9]", plain)) > 1
    )
    if is_typed and (meant := _list_carriers([figures.replace(",", ".")])):
        return FrequencyText(doubt=f"{plain} has letters among its figures: {meant[0]} MHz?", choices=meant)
    numbers = [number.replace(",", ".") for number in _ONE.findall(plain)]
    meant = _list_carriers(
        number for number in numbers if len(number) > 2
    )  # `38` with a remark is a television channel
    if len(meant) > 1:
        doubt = f"{plain} names {len(meant)} frequencies: two packs, or an old one and a new one?"
        return FrequencyText(doubt=doubt, choices=meant)
    if _CODE.search(plain):
        doubt = f"{plain} is a group and channel of the radio's own table, not a frequency"
        return FrequencyText(doubt=doubt, group="preset")
    if (match := _TELEVISION.fullmatch(plain)) and {"tv", "channel"} & set(mean(match["word"]).fields):
        return FrequencyText(doubt=f"{plain} is a television channel, not a frequency", group="television")
    looks = "near a frequency, not one" if _is_about(plain) else "more than one frequency, or a frequency and a remark"
    return FrequencyText(doubt=f"{plain} is {looks}", choices=meant) if meant else FrequencyText()


def _doubt_with_mark(plain: str, bare: str) -> FrequencyText:
    """What a text with a question mark behind it may be: `518.2??` a frequency, `38??` a television channel."""
    reading = read_frequency(bare)
    if reading.mhz and not doubt_number(bare, reading.mhz, 0).doubt:
        return FrequencyText(doubt=f"{plain} is a frequency with a question mark", choices=(reading.mhz,))
    if (digits := re.sub(r"[^0-9]", "", bare)) and len(digits) == 2 and 14 <= int(digits) <= 69:
        return FrequencyText(doubt=f"{plain} may be television channel {digits}, not a frequency", group="television")
    return FrequencyText(doubt=f"{plain} is no frequency", choices=reading.choices)


def doubt_number(text: str, mhz: str, middle_hz: int) -> FrequencyText:
    """The doubt about a frequency that reads well and may be none: a bare number of two figures is a television channel as
    soon as a carrier, and one in no band of wireless microphones a preset, or has its point in the wrong place."""
    hz = parse_frequency(mhz)
    is_bare = re.fullmatch(r"[0-9.,]+", text.strip()) is not None
    near = is_far_off(mhz, middle_hz)
    if near:
        doubt = f"{text} is far from all the others; {near} would be among them"
        return FrequencyText(doubt=doubt, choices=(near, mhz), group="far")
    if is_bare and re.fullmatch(r"[0-9]{2}", text.strip()):
        return FrequencyText(
            doubt=f"{text} may be a television channel, or {text} MHz", choices=(mhz,), group="television"
        )
    if is_bare and hz < _LOW_BANDS * MHZ and middle_hz > 2 * _LOW_BANDS * MHZ:
        doubt = f"{text} is far from all the others: {mhz} MHz, or no frequency?"
        return FrequencyText(doubt=doubt, choices=(mhz,), group="far")
    if any(low * MHZ <= hz <= high * MHZ for low, high in _BANDS):
        return FrequencyText()
    moved = [one for one in (hz * 10, hz // 10, hz * 100, hz // 100) if 470 * MHZ <= one <= 865 * MHZ]
    doubt = f"{text} MHz is in no band of wireless microphones"
    return FrequencyText(doubt=doubt, choices=(*map(format_mhz, moved), mhz), group="band")


def doubt_unit(text: str, mhz: str, heading: str) -> FrequencyText:
    """The doubt about a bare number that is no carrier in the unit of its heading: `518.2` under `Freq (kHz)`."""
    units = re.findall(r"\b([kg]hz)\b", heading, re.IGNORECASE)
    if len(units) != 1 or not re.fullmatch(r"[0-9.,]+", text.strip()):
        return FrequencyText()
    try:
        parse_frequency(f"{text.strip()} {units[0]}")
    except Doubt:
        doubt = f"{text} {units[0]}, as the heading says, is no carrier: {mhz} MHz?"
        return FrequencyText(doubt=doubt, choices=(mhz,), group=f"heading {units[0].casefold()}")
    return FrequencyText()


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
