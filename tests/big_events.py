"""The text of a big event: stages out of each other's reach, a bill of sets, every channel with a role and somebody.

As the largest real events are: hundreds of carriers, of which fifty hear each other; a set has a stage's voices, not
the whole event's. Nothing is wrong with it, so that whatever is found is the checks' own doing.
"""

STAGE = 50
"""Channels of one stage, which is a zone of its own."""

SLOTS = 10
"""Slots of one rack, in units of two; five racks a stage."""

APART = (2, 8, 28, 60, 98, 200, 212, 332, 378)
"""In 100 kHz: found by trying, so that no product of third or fifth order comes near another; too few for a stage."""


def big_event(channels: int, sets: int = 200) -> str:
    """A show file of so many channels and sets."""
    width = len(str(channels))
    ids = [f"{number:0{width}d}" for number in range(1, channels + 1)]
    stages = [ids[first : first + STAGE] for first in range(0, channels, STAGE)]
    lines = [
        "show: {title: Long Meadow, venue: The Meadow, revision: B, revised: 2027-06-01}",
        "day: {power-up: '09:00', curtain: '10:00', bows: '13:30'}",
        "radios:",
        "  belt: {kind: pack, tunes: 470-530, step: 25 kHz, bandwidth: 200 kHz, hours: 20}",
        "  wide: {kind: handheld, tunes: 590-700, step: 25 kHz, bandwidth: 200 kHz, hours: 20, intermodulation: no}",
        "racks:",
    ]
    for stage, own in enumerate(stages, 1):
        for rack, first in enumerate(range(0, len(own), SLOTS), 1):
            held = own[first : first + SLOTS]
            lines.append(
                f"  S{stage}R{rack}: {{channels: [{', '.join(held)}], units: [{', '.join('2' * (-(-len(held) // 2)))}], "
                f"analogue 1: DESK{stage} {first + 1}-{first + len(held)}}}"
            )
    lines.append("channels:")
    for stage, own in enumerate(stages, 1):
        for place, id in enumerate(own):
            kind, khz = (
                ("belt", 470_000 + APART[place] * 100) if place < len(APART) else ("wide", 600_400 + place * 1_200)
            )
            lines.append(
                f"  {id}: {{role: V{id}, by: Singer {id}, radio: {kind}, mhz: {khz // 1000}.{khz % 1000:03d}, zone: Stage {stage}}}"
            )
    lines.append("scenes:")
    pitch = 780 // -(-sets // len(stages))
    for number in range(sets):
        own = stages[number % len(stages)]
        start = number // len(stages) * pitch
        live = " ".join(f"V{id}" for id in own[number % 7 :: 2])
        lines.append(
            f"  s{number:03d}: {{kind: set, name: Band {number}, at: '{start // 60}:{start % 60:02d}', "
            f"until: '{(start + pitch - 1) // 60}:{(start + pitch - 1) % 60:02d}', live: {live}}}"
        )
    return "\n".join(lines) + "\n"
