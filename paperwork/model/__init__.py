"""The show as facts: frozen records with typed values, every reference resolved to an id that exists.

Frequencies are whole hertz, times whole seconds, dates ISO text. Each record knows where it was written (`where`),
which is no part of its value: a show read from YAML equals its twin read from a workbook.
"""

from paperwork.model.company import (
    Audience,
    ChangePoint,
    Channel,
    Cover,
    Day,
    Follows,
    Look,
    Measured,
    Move,
    PaperSize,
    Person,
    Production,
    Role,
    Scene,
    SceneKind,
    Spectrum,
    VenueRow,
)
from paperwork.model.gear import (
    Capsule,
    Console,
    Other,
    Output,
    OutputKind,
    Rack,
    RadioKind,
    RadioType,
    Slot,
    Transmitter,
)
from paperwork.model.show import Show
from paperwork.model.where import NO_PLACE, Where

__all__ = [
    "NO_PLACE",
    "Audience",
    "Capsule",
    "ChangePoint",
    "Channel",
    "Console",
    "Cover",
    "Day",
    "Follows",
    "Look",
    "Measured",
    "Move",
    "Other",
    "Output",
    "OutputKind",
    "PaperSize",
    "Person",
    "Production",
    "Rack",
    "RadioKind",
    "RadioType",
    "Role",
    "Scene",
    "SceneKind",
    "Show",
    "Slot",
    "Spectrum",
    "Transmitter",
    "VenueRow",
    "Where",
]
