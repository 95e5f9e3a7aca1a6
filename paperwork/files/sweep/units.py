"""What levels are in: the unit that a file names, that the show states, or that the levels themselves allow."""

import re
from collections.abc import Collection
from typing import NamedTuple

from paperwork.text.units import HIGHEST_CDBM, LOWEST_CDBM, format_level

ABOVE_CDBM = -3_000
"""Half of a sweep is not above this: a receiver that gets so much everywhere shows only its own overload. Common
practice, no source."""

ALIKE = 10
"""So many levels that are all equal were not measured."""

_OFFSETS_CDB = {"dBm": (0, 0), "dBW": (3_000, 3_000), "dBuV": (-10_699, -10_875), "dBmV": (-4_699, -4_875)}
"""What makes each unit dBm, at 50 and at 75 ohm. 1 uV is 10^-12 V^2, which is 2 x 10^-11 mW in 50 ohm: -106.99 dBm."""

_SPELLED = re.compile(r"(%)|(?<![a-z])db\s?(?:\(?(mv|[uµμ]v|m|w|[a-z]+)\)?)?(/[a-z]+)?(?![a-z])", re.IGNORECASE)


class StatedUnit(NamedTuple):
    """What the show states of its sweeps: a unit, "" for none, and 50 or 75 ohm."""

    unit: str = ""
    impedance: str = ""


NOTHING_STATED = StatedUnit()


STATE_IT = "add `sweep unit: dBuV` to spectrum, or dBm, dBmV, dBW, whichever the levels are in"


class UnclearUnit(ValueError):
    """Levels whose unit has to be asked for: why, and what would make it clear."""

    def __init__(self, why: str, remedy: str = STATE_IT) -> None:
        super().__init__(why)
        self.remedy = remedy


def list_units(text: str) -> set[str]:
    """The units of level that a text names. One that is not read is among them as it is written, as `%` or `dBm/Hz`."""
    if "%" not in text and "db" not in text.lower():
        return set()
    found = set()
    for match in _SPELLED.finditer(text):
        percent, rest, per = match.groups()
        names = {"m": "dBm", "w": "dBW", "mv": "dBmV", "uv": "dBuV", "µv": "dBuV", "μv": "dBuV"}
        unit = "%" if percent else names.get((rest or "").lower(), f"dB{rest or ''}")
        found.add(f"{unit}{per or ''}")
    return found


def choose_offset(levels: Collection[int], named: set[str], stated: StatedUnit) -> int:
    """What has to be added to the levels to make them hundredths of a dBm. Raises UnclearUnit.

    The file's own unit counts before the show's, unless the levels cannot be in it.
    """
    if len(named) > 1:
        raise UnclearUnit(
            f"it names {' and '.join(sorted(named))} for its levels",
            "leave one unit in its headings, that of the levels",
        )
    own = next(iter(named), "")
    tried = [unit for unit in (own, stated.unit) if unit in _OFFSETS_CDB] or ([] if own else ["dBm"])
    if not tried:
        raise UnclearUnit(f"its levels are in {own}")
    middle = sorted(levels)[len(levels) // 2]
    for unit in tried:
        offset = _OFFSETS_CDB[unit][stated.impedance.startswith("75")]
        if LOWEST_CDBM <= middle + offset <= ABOVE_CDBM:
            break
    else:
        is_over = middle + _OFFSETS_CDB[tried[0]][stated.impedance.startswith("75")] > ABOVE_CDBM
        why = f"half of its levels are at {format_level(middle)} or {'above' if is_over else 'below'}, which is not {tried[0]}"
        raise UnclearUnit(why, _word_remedy(stated.unit, is_over))
    if not stated.unit and len(levels) >= ALIKE and min(levels) == max(levels):
        raise UnclearUnit(f"all of its {len(levels):,} levels are {format_level(middle)}")
    return offset


def _word_remedy(stated: str, is_over: bool) -> str:
    """What to do about levels that cannot be in the unit that they are said to be in."""
    again = "sweep again with more attenuation: the receiver was overloaded" if is_over else "sweep again"
    *others, last = (unit for unit in _OFFSETS_CDB if unit != stated)
    other = f"{', '.join(others)} or {last}"
    return (
        f"correct `sweep unit` if the levels are in {other}; if they are in {stated}, {again}" if stated else STATE_IT
    )


def to_dbm(level: int, offset: int) -> int:
    """A level in hundredths of a dBm, kept between the lowest and the highest that is read."""
    return min(max(level + offset, LOWEST_CDBM), HIGHEST_CDBM)
