"""Kinds of fields: what the schema lets through, how the builder reads it, how a number is printed, what to write."""

from collections.abc import Callable
from typing import NamedTuple

from paperwork.text.units import format_clock, format_decibels, format_khz, format_limit, format_mhz


class Kind(NamedTuple):
    """What a field holds.

    `reads` names the reader in `build.readers`, "" where its section has a way of its own; `shape` a form of the
    schema. `unit` ends the name of the attribute, `format` prints a number. `advice` goes before an example in what
    would fix a slip. `choices` are the words that it may be, `spelled` all their spellings.
    """

    reads: str
    shape: str
    advice: str
    example: str = ""
    unit: str = ""
    format: Callable[[int], str] = str
    choices: tuple[str, ...] = ()
    spelled: tuple[str, ...] = ()

    @property
    def takes_list(self) -> bool:
        """Whether a list is taken beside a single text."""
        return self.shape in ("list", "ranges", "output")


def _mhz(hz: int) -> str:
    return f"{format_mhz(hz)} MHz"


def _factor(hundredths: int) -> str:
    return f"{hundredths // 100}.{hundredths % 100:02d}"


def _khz(hz: int) -> str:
    return f"{format_khz(hz)} kHz"


def _seconds(seconds: int) -> str:
    return f"{seconds} s"


def one_of(*words: str) -> Kind:
    """One of a few words, in small letters, capitals, or with one capital: `a4` and `Letter` are A4 and letter."""
    spelled = dict.fromkeys(form for word in words for form in (word, word.lower(), word.upper(), word.capitalize()))
    return Kind("choice", "words", f"write one of {', '.join(words)}", words[0], choices=words, spelled=(*spelled,))


_YES = ("yes", "no", "Yes", "No", "YES", "NO", "true", "false", "TRUE", "FALSE")
_ITEMS = "write one item, or several with commas"

TEXT = Kind("text", "text", "write one text")
NAME = Kind("name", "text", "write one name", "Mara Lind")
NAMES = Kind("names", "list", "write one name, or several with commas", "Ana Cole, Max Ried")
LINES = Kind("lines", "list", _ITEMS)
ITEMS = Kind("items", "list", _ITEMS)
IDS = Kind("ids", "list", "write one item, several with commas, or a range", "01-06")
RANGED = IDS._replace(reads="ranged", example="1-4")
LIVE = Kind("joined", "list", "write the roles with commas", "VERA, TOM")
PAIRS = Kind("", "pairs", "write each role with its performer", "SAILOR: Max Ried, WIDOW: Ana Cole")
CAST = PAIRS._replace(reads="pairs", advice="write each role with who plays it", example="VERA: Ana Cole")
COUNT = Kind("count", "text", "write a whole number", "12")
YES = Kind("yes", "yes", "write yes or no", "yes", "", str, ("yes", "no"), _YES)
ON_OFF = Kind("yes", "words", "write on or off", "on", "", str, ("on", "off"), ("on", "off", "On", "Off"))
FREQUENCY = Kind("frequency", "frequency", "write it in MHz with a point", "486.200", "_hz", _mhz)
GRANT = Kind("grant", "frequency", "write it in MHz with a point, or no", "486.200", "", _mhz)
BACKUP = Kind("backup", "frequency", "write it in MHz with a point, or yes", "488.200", "", _mhz)
CARRIER = FREQUENCY._replace(reads="carrier")
RASTERS = Kind(
    "rasters", "list", "write the first and the last channel and the edges of all in MHz", "21-48 at 470-694"
)
FREQUENCIES = Kind(
    "frequencies", "list", "write one frequency in MHz, or several with commas", "486.200, 491.500", "_hz", _mhz
)
WIDTH = Kind("width", "width", "write it with its unit", "25 kHz", "_hz", _khz)
STEP = WIDTH._replace(reads="step")
RANGES = Kind("ranges", "ranges", "write one range in MHz, or several with commas", "486-508")
WINDOW = Kind("window", "ranges", "write one range in MHz", "486-508")
LEVEL = Kind("level", "text", "write it in dBm, or in dB above the noise floor", "-85 dBm", "_cdb", format_limit)
DECIBELS = Kind("decibels", "text", "write it in dB", "40 dB", "_cdb", format_decibels)
FACTOR = Kind("factor", "text", "write a number from 1 to 10", "1.25", "_hundredths", _factor)
TIMES = Kind("times of day", "list", "write a time of day for each show", "14:30, 19:30", "_s", format_clock)
CLOCKS = Kind("clocks", "list", "write each as h:mm", "1:02", "_s", format_clock)
CLOCK = Kind("clock", "text", "write it as h:mm or h:mm:ss, with - before curtain up", "0:05", "_s", format_clock)
SECONDS = Kind("seconds", "text", "write it with its unit", "90 s", "_s", _seconds)
HOURS = Kind("hours", "text", "write a number of hours", "6:30", "_s", format_clock)
DATE = Kind("date", "text", "write one date", "2027-03-06")
DATES = Kind("dates", "text", "write one day, or two with `to` between", "2027-03-02 to 2027-03-20")
MOMENT = Kind("moment", "text", "write a date, with or without a time of day", "2027-03-02 17:40")
ADDRESS = Kind("address", "text", "write a network address", "192.0.2.11")
NETWORK = Kind("network", "text", "write a network with its length", "192.0.2.0/24")
SLOT = Kind("slot", "text", "write a rack, a point and the slot", "R1.3")
SPARE = Kind("spare", "text", "write the radio type of the spare, or yes with the type in radio", "belt")
CELLS = Kind("cells", "list", "write power-up, half, interval or between, several with commas", "half")
UNITS = Kind("", "list", "write the slots of each unit with commas", "2, 2, 2")
OUTPUT = Kind(
    "", "output", "write a destination with its inputs in slot order, - for no input, + between two", "FOH 1-6"
)
