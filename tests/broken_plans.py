"""Random shows with slips in them, each told by one number: a clean plan, and one to four things that people get wrong."""

import re
from collections.abc import Callable
from random import Random

from tests.shows_text import EXAMPLES

CLEAN = tuple(
    dict.fromkeys(re.findall(r"  [0-9]+: \{.*mhz: ([0-9]+\.[0-9]+)", (EXAMPLES / "show.yaml").read_text("utf-8")))
)
"""Frequencies of the example, among which nothing clashes."""

ROLES = ("VERA", "TOM", "COOK", "NURSE", "BOY", "MAID", "LORD", "LADY", "HOST", "JUDGE", "PILOT", "GHOST")


def broken_show(seed: int) -> str:
    """The show of a seed as YAML, with one to four slips."""
    dice = Random(seed)
    lines = _write(dice)
    for slip in dice.sample(SLIPS, dice.choice((1, 1, 2, 3, 4))):
        slip(lines, dice)
    return "\n".join(lines) + "\n"


def crowded_show(seed: int) -> str:
    """A plan of a seed in which any number of carriers clash, are off step or out of tune, in every section that has some."""
    dice = Random(seed)
    lines = _write(dice)
    for _ in range(dice.randint(2, 8)):
        dice.choice((double, shift, leave_step, leave_range, grant))(lines, dice)
    return "\n".join(lines) + "\n"


def _write(dice: Random) -> list[str]:
    count = dice.randint(3, len(ROLES))
    lines = [
        "show: {title: Glass Ferry}",
        "spectrum: {region: Europe, tv: 40}",
        "radios:",
        "  belt: {kind: pack, tunes: 470-530, step: 25 kHz}",
        "  hand: {kind: handheld, tunes: 470-530, step: 25 kHz}",
        "channels:",
    ]
    for number, mhz in enumerate(dice.sample(CLEAN, count), 1):
        radio = dice.choice(("belt", "belt", "hand"))
        lines.append(f"  {number:02}: {{role: {ROLES[number - 1]}, by: Person {number}, radio: {radio}, mhz: {mhz}}}")
    lines += ["roles:", *(f"  {role}: {{}}" for role in ROLES[:count])]
    lines += ["scenes:", f'  s1: {{name: Quay, live: "{", ".join(ROLES[:3])}"}}', "  s2: {name: Storm, live: VERA}"]
    lines += [f"covers:\n  c1: {{role: {ROLES[1]}, by: Swing}}"]
    return lines


def _channel(lines: list[str], dice: Random) -> int:
    return dice.choice([at for at, line in enumerate(lines) if re.match(r"  [0-9]+: .*mhz: ", line)])


def _retune(lines: list[str], dice: Random, change: Callable[[float], float]) -> None:
    if any(re.match(r"  [0-9]+: .*mhz: ", line) for line in lines):
        at = _channel(lines, dice)
        lines[at] = re.sub(r"mhz: ([0-9.]+)", lambda match: f"mhz: {change(float(match[1])):.3f}", lines[at])


def double(lines: list[str], dice: Random) -> None:
    mhz = re.findall(r"mhz: ([0-9.]+)", "".join(lines))
    _retune(lines, dice, lambda _: float(dice.choice(mhz)))


def shift(lines: list[str], dice: Random) -> None:
    mhz = re.findall(r"mhz: ([0-9.]+)", "".join(lines))
    _retune(lines, dice, lambda _: float(dice.choice(mhz)) + 0.025 * dice.randint(1, 8))


def leave_step(lines: list[str], dice: Random) -> None:
    _retune(lines, dice, lambda mhz: mhz + 0.007)


def leave_range(lines: list[str], dice: Random) -> None:
    _retune(lines, dice, lambda _: 540 + dice.randint(1, 900) / 40)


def grant(lines: list[str], dice: Random) -> None:
    at = _channel(lines, dice)
    if "granted" not in lines[at]:
        asked = f"{470 + dice.randint(4, 2390) / 40:.3f}"
        granted = dice.choice((asked, '"no"', f"{470 + dice.randint(4, 23_900) / 400:.4f}", dice.choice(CLEAN)))
        lines[at] = lines[at][:-1] + f", asked: {asked}, granted: {granted}}}"


def _swap(word: str, slip: str) -> Callable[[list[str], Random], None]:
    def change(lines: list[str], dice: Random) -> None:
        found = [at for at, line in enumerate(lines) if word in line]
        if found:
            at = dice.choice(found)
            lines[at] = lines[at].replace(word, slip, 1)

    return change


SLIPS = (
    double,
    shift,
    leave_step,
    leave_range,
    grant,
    _swap("mhz:", "mzh:"),
    _swap("radio: belt", "radio: blet"),
    _swap("live: VERA}", "live: VREA}"),
    _swap("kind: handheld", "kind: handhled"),
    _swap("region: Europe", "region: Eurpoe"),
    _swap("scenes:", "scnes:"),
    _swap("title:", "titel:"),
    _swap("name: Storm", "nmae: Storm"),
    _swap("c1: {role: TOM", "c1: {role: TMO"),
)
