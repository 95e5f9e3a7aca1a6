"""Time of counting, its growth, and the factor over a vectorised twin in numpy.

The twin makes every product, row by row, and looks up the carriers within the guard by bisection; its counts
must be the same. Numpy is needed here alone.
"""

import time
from collections.abc import Iterator

import numpy as np

from paperwork.radio.carrier import FIFTH2, THIRD2, THIRD3, Carrier, Rules, guard_hz
from paperwork.radio.products.counts import count_hits
from paperwork.radio.search.dice import Dice
from tests.benchmarks.table import Row, median_s, milliseconds

BAND_HZ = 224_000_000


def scatter(count: int, raster_hz: int) -> list[Carrier]:
    """Carriers of one type on different points of the band's raster, the same every time."""
    dice = Dice(count)
    points: set[int] = set()
    while len(points) < count:
        points.add(dice.below(BAND_HZ // raster_hz))
    return [Carrier(str(point), 470_000_000 + point * raster_hz, 200_000) for point in sorted(points)]


def count_with_numpy(carriers: list[Carrier], rules: Rules) -> np.ndarray:
    """Hits on each carrier by third and two-signal fifth order; makers are no victims."""
    hz = np.array([carrier.hz for carrier in carriers])
    count = len(hz)
    totals = np.zeros(count, dtype=np.int64)
    like = carriers[0]
    guards = {
        kind: guard_hz(rules, kind, like, [like] * len(weights), weights)
        for kind, weights in ((THIRD2, (2, -1)), (THIRD3, (1, 1, -1)), (FIFTH2, (3, -2)))
    }
    index = np.arange(count)

    def add(products, guard, makers):
        low = np.searchsorted(hz, products - guard, side="right")
        high = np.searchsorted(hz, products + guard, side="left")
        for extra in range(int((high - low).max(initial=0))):
            at = low + extra
            good = at < high
            for maker in makers:
                good &= at != maker
            totals[:] += np.bincount(at[good], minlength=count)

    for a in range(count):
        others = index[index != a]
        add(2 * hz[a] - hz[others], guards[THIRD2], (a, others))
        add(3 * hz[a] - 2 * hz[others], guards[FIFTH2], (a, others))
        later, third = np.meshgrid(index[a + 1 :], others, indexing="ij")
        different = later != third
        later, third = later[different], third[different]
        add(hz[a] + hz[later] - hz[third], guards[THIRD3], (a, later, third))
    return totals


def measure() -> Iterator[Row]:
    """Counting as carriers become more, and beside the twin in numpy."""
    before = None
    for count in (500, 1_000, 2_000, 4_000):
        carriers = scatter(count, 25_000)
        spent = median_s(lambda carriers=carriers: count_hits(carriers, Rules()), 3)
        yield Row(
            f"products on {count:,} carriers on 25 kHz, counted",
            milliseconds(spent),
            spent / before if before else None,
            "half as many" if before else "",
        )
        before = spent
    carriers = scatter(500, 25_000)
    ours = median_s(lambda: count_hits(carriers, Rules()), 3)
    began = time.process_time()
    twin = count_with_numpy(carriers, Rules())
    spent = time.process_time() - began
    if list(count_hits(carriers, Rules()).values()) != twin.tolist():
        raise SystemExit("the twins differ")
    yield Row(
        "every product made and looked up in numpy, 500 carriers",
        milliseconds(spent),
        spent / ours,
        "counted here, same counts",
    )
