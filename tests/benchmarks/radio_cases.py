"""Thirty mixed plans from real television tables: microphones of two types, in-ears of others.

Some carriers are locked.
"""

import csv
from dataclasses import dataclass, replace
from pathlib import Path

from paperwork.radio.bands import BlockedRange, RasterRun, block_tv, list_tv_channels
from paperwork.radio.board.lattice import Want
from paperwork.radio.carrier import FIFTH2, THIRD2, THIRD3, Carrier, Rules
from tests.clean_places import find_clean_hz

TABLE = Path(__file__).parents[1] / "data" / "uhf_occupancy_by_city.csv"
MHZ = 1_000_000
# 47 CFR 73.603: 6 MHz channels from 470 MHz.
CHANNELS = list_tv_channels((RasterRun(14, 36, 470 * MHZ, 6 * MHZ),))

# Guards and distances of a cautious house; common practice, no source.
RULES = Rules(
    kinds=(THIRD2, THIRD3, FIFTH2),
    guards={
        ("", THIRD2): 100_000,
        ("", THIRD3): 100_000,
        ("", FIFTH2): 50_000,
        ("digital", THIRD2): 75_000,
        ("digital", THIRD3): 75_000,
        ("digital", FIFTH2): 25_000,
        ("in-ear", THIRD2): 125_000,
        ("in-ear", THIRD3): 125_000,
        ("in-ear", FIFTH2): 50_000,
    },
    apart={("in-ear", "analogue"): 250_000, ("in-ear", "digital"): 250_000},
    apart_hz=150_000,
)

ANALOGUE = Carrier("analogue", 0, 200_000, "analogue")
DIGITAL = Carrier("digital", 0, 300_000, "digital", makes=False)
IN_EAR = Carrier("in-ear", 0, 200_000, "in-ear")


@dataclass(frozen=True)
class Case:
    """A plan to be made."""

    name: str
    wants: tuple[Want, ...]
    fixed: tuple[Carrier, ...]
    blocks: tuple[BlockedRange, ...]


def read_cases() -> list[Case]:
    """All cases, in the order of the table."""
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return [_build(number, row) for number, row in enumerate(csv.DictReader(stream))]


def _build(number: int, row: dict[str, str]) -> Case:
    used = set((row["uhf_rf_channels_within_60km"] + " " + row["land_mobile_channels_within_130km"]).split())
    blocks = tuple(block_tv(channel) for channel in CHANNELS if channel.name in used)
    low, high = _window(number, used)
    window = ((low, high),)
    upper = ((low + 6 * MHZ, min(high + 12 * MHZ, CHANNELS[-1].high_hz)),)
    fixed: list[Carrier] = []
    for sample, share in (
        (IN_EAR, 3),
        (IN_EAR, 5),
        (IN_EAR, 6),
        (IN_EAR, 10),
        (ANALOGUE, 2),
        (ANALOGUE, 9),
        (DIGITAL, 7),
    ):
        openings = find_clean_hz(Want(sample, window), fixed, blocks, RULES)
        if openings:
            fixed.append(replace(sample, id=f"fixed {len(fixed)}", hz=openings[len(openings) * share // 12]))
    wants = [Want(replace(ANALOGUE, id=f"analogue {i}"), window) for i in range(10 + number % 5 * 4)]
    wants += [Want(replace(DIGITAL, id=f"digital {i}"), upper) for i in range(6 + number % 3 * 3)]
    return Case(row["city"], tuple(wants), tuple(fixed), blocks)


def _window(number: int, used: set[str]) -> tuple[int, int]:
    """A run of television channels with three to six of them free."""
    need = 3 + number % 4
    first = number * 5 % 8
    last = first
    while sum(channel.name not in used for channel in CHANNELS[first:last]) < need:
        if last < len(CHANNELS):
            last += 1
        elif first:
            first -= 1
        else:
            break
    return CHANNELS[first].low_hz, CHANNELS[last - 1].high_hz
