"""How long all checks but those of radio take: `python -m tests.benchmarks.checks_speed`.

Wanted: 60 channels x 40 scenes in at most 0.1 s, 1,000 channels x 200 items in at most 2 s, on one core.
"""

import time

from paperwork.build import build_show
from paperwork.checks import CHECKS, frequencies
from paperwork.files import read_bytes
from paperwork.model import Show

SIZES = ((60, 40, 0.1), (1_000, 200, 2.0))
RUNS = 5


def make_text(channels: int, scenes: int) -> str:
    """A clean show: every fourth channel shared by two bodies, racks of six, two consoles, times, moves and covers."""
    lines = ["day: {power-up: '17:30', curtain: '19:30', bows: '2:30', cells: power-up}", "radios: {belt: {hours: 7, fit: screw}}"]
    lines += ["racks:"] + [
        f"  R{number}: {{channels: {first:04d}-{min(first + 5, channels):04d}, units: [2, 2, 2], "
        f"analogue 1: FOH {first}-{first + 5}, digital 1: TRUCK {first}-{first + 5}, rate: 48 kHz, clock: FOH, "
        f"address: 192.0.{number // 200}.{number % 200 + 1}}}".replace("units: [2, 2, 2], ", "slots: 6, units: [2, 2, 2], ")
        for number, first in enumerate(range(1, channels + 1, 6))
    ]
    lines += ["consoles: {FOH: {inputs: 2000, clock: own, rate: 48 kHz}, TRUCK: {inputs: 2000, rate: 48 kHz, clock: FOH}}"]
    lines += [f"capsules: {{tone 2: {{fit: screw, owned: {channels}}}}}", "channels:"]
    roles: list[tuple[str, str]] = []
    for number in range(1, channels + 1):
        first, second = f"{number:04d} A", f"{number:04d} B"
        shared = f"shared: {{{first}: Person {first}, {second}: Person {second}}}" if number % 4 == 0 else f"role: [{first}], by: Person {first}"
        lines.append(f"  {number:04d}: {{{shared}, capsule: tone 2}}")
        roles.append((first, second if number % 4 == 0 else first))
    lines.append("scenes:")
    for scene in range(scenes):
        live = ", ".join(pair[scene // 2 % 2] for number, pair in enumerate(roles) if (number + scene) % 3)
        lines.append(f"  s{scene}: {{at: '{scene // 20}:{scene % 20 * 3:02d}', live: [{live}]}}")
    lines.append("covers:")
    lines += [f"  c{number}: {{role: {pair[0]}, by: Swing {number}}}" for number, pair in enumerate(roles[::5])]
    return "\n".join(lines) + "\n"


def make_show(channels: int, scenes: int) -> Show:
    """The show of `make_text`, built."""
    raw, _ = read_bytes(make_text(channels, scenes).encode(), "bench.yaml")
    assert raw is not None
    built = build_show(raw)
    assert not built.findings, built.findings[:3]
    return built.show


def check_all_but_radio(show: Show) -> int:
    """How many findings there are."""
    return sum(1 for check in CHECKS if check not in frequencies.CHECKS for _ in check(show))


def main() -> None:
    """Print the best of a few runs for each size."""
    for channels, scenes, wanted_s in SIZES:
        show = make_show(channels, scenes)
        times = []
        for _ in range(RUNS):
            start = time.perf_counter()
            found = check_all_but_radio(show)
            times.append(time.perf_counter() - start)
        print(f"{channels:5d} channels x {scenes:3d} scenes: {min(times):.3f} s (wanted {wanted_s} s), {found} findings")


if __name__ == "__main__":
    main()
