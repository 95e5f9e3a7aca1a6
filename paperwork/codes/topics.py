"""What kind of fact an error makes doubtful: only a paper that shows such a fact has to warn of it."""

from collections.abc import Mapping
from typing import Literal, TypeAlias

Topic: TypeAlias = Literal["frequency", "air", "slot", "output", "pack", "capsule", "body", "cells", "clock"]

_AIR = frozenset(
    {
        "region-unknown",
        "region-untold",
        "tv-unknown",
        "sweep-empty",
        "sweep-large",
        "sweep-outside",
        "sweeps-many",
        "file-missing",
        "file-denied",
        "file-empty",
        "file-folder",
        "file-large",
        "file-special",
        "file-unreadable",
    }
)
"""What keeps us from knowing what is on the air: no frequency is certain then. A show that is there lacks no file but a sweep."""

TOPICS: Mapping[Topic, frozenset[str]] = {
    "frequency": frozenset(
        {
            "frequency-asked",
            "frequency-against-tv",
            "frequency-not-granted",
            "frequency-refused",
            "frequency-unreadable",
            "carrier-doubled",
            "frequency-out-of-tune",
            "frequency-off-step",
            "neighbour-too-near",
            "intermodulation",
            "intermodulation-many",
            "carrier-uneven",
            "spare-untunable",
            "frequency-out-of-window",
            "tv-in-use",
            "keep-clear-touched",
            *_AIR,
        }
    ),
    "air": _AIR,
    "slot": frozenset({"slot-doubled", "slot-beyond-rack", "channel-in-two-slots"}),
    "output": frozenset({"input-doubled", "input-beyond-console", "pair-split", "pair-from-two-units"}),
    "pack": frozenset({"pack-doubled", "pack-of-other-radio", "pack-on-two-bodies"}),
    "capsule": frozenset({"capsule-short", "capsule-missing", "capsule-misfit"}),
    "body": frozenset({"mic-twice-in-scene", "body-in-two-places", "pack-on-two-bodies"}),
    "cells": frozenset({"battery-short"}),
    "clock": frozenset({"address-doubled", "rates-meet", "clock-leaders", "clock-leaderless", "clock-loop"}),
}
"""The codes of errors by what they are about. One that stands nowhere here may concern anything that its subject is on."""


def topics_of(code: str) -> frozenset[Topic]:
    """The kinds of fact that a code is about; none where it may be any."""
    return frozenset(topic for topic, codes in TOPICS.items() if code in codes)
