"""Time and memory of counting, its growth, and the factor over a vectorised twin in numpy.

    python -m tests.benchmarks.radio_counts

Times are processor time of this process on one core, so that a busy machine does not count.

The twin makes every product, row by row, and looks up the carriers within the guard by bisection; its counts
must be the same. Numpy is needed here alone.
"""

import resource
import time

import numpy as np

from paperwork.radio.carrier import FIFTH2, THIRD2, THIRD3, Carrier, Rules, guard_hz
from paperwork.radio.counts import count_hits
from paperwork.radio.dice import Dice

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
    guards = {kind: guard_hz(rules, kind, like, [like] * len(weights), weights)
              for kind, weights in ((THIRD2, (2, -1)), (THIRD3, (1, 1, -1)), (FIFTH2, (3, -2)))}
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
        later, third = np.meshgrid(index[a + 1:], others, indexing="ij")
        different = later != third
        later, third = later[different], third[different]
        add(hz[a] + hz[later] - hz[third], guards[THIRD3], (a, later, third))
    return totals


def measure(count: int, raster_hz: int) -> float:
    carriers = scatter(count, raster_hz)
    began = time.process_time()
    count_hits(carriers, Rules())
    spent = time.process_time() - began
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"{count:5} carriers on {raster_hz // 1000:2} kHz over {BAND_HZ // 1_000_000} MHz: {spent:7.3f} s, "
          f"peak of the process {peak} MB", flush=True)
    return spent


def main() -> None:
    for count in (125, 250, 500, 1_000, 2_000, 4_000):
        measure(count, 25_000)
    for raster_hz in (12_500, 5_000, 1_000):
        measure(1_000, raster_hz)
    measure(200, 1_000)
    carriers = scatter(500, 25_000)
    ours = min(_time(lambda: count_hits(carriers, Rules())) for _ in range(3))
    began = time.process_time()
    twin = count_with_numpy(carriers, Rules())
    spent = time.process_time() - began
    if [found.total for found in count_hits(carriers, Rules()).values()] != twin.tolist():
        raise SystemExit("the twins differ")
    print(f"500 carriers: {ours:.3f} s here, {spent:.2f} s vectorised in numpy, same counts: "
          f"{spent / ours:.0f} times")


def _time(work) -> float:
    began = time.process_time()
    work()
    return time.process_time() - began


if __name__ == "__main__":
    main()
