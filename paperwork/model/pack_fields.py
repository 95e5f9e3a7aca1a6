"""The fields of what is worn and held, in the order of the published schema."""

from paperwork.model import kinds as k
from paperwork.model.gear import Capsule, Transmitter
from paperwork.model.row import Field, Section, rows

# fmt: off
TRANSMITTERS = Section(
    "transmitters", Transmitter, "transmitter", "Packs and handhelds by id.",
    "One transmitter: a pack or a handheld.", "pack",
    rows(
        Field("radio", k.TEXT, "Its radio type.", "belt", marks="brief", refers="radios"),
        Field("serial", k.TEXT, "Its serial number.", "S-1041", marks="unique brief"),
        Field("display", k.TEXT, "The name on its display.", "VERA"),
        Field("cells", k.TEXT, "Its batteries, as in 2 AA rechargeable.", "2 AA rechargeable", label="Batteries"),
        Field("set", k.TEXT, "The marked set of its rechargeable batteries, as in A.", "A"),
        Field("hours", k.HOURS, "How long its batteries last, if other than its radio type says."),
        Field("power", k.TEXT, "The transmit power it is set to, as in 10 mW.", "10 mW", "pack coordinator"),
        Field("gain", k.TEXT, "The gain it is set to, as in 30 dB.", "30 dB"),
        Field("lock", k.YES, "Yes if its keys are locked."),
        Field("tape", k.TEXT, "The colour of the tape on it, as a word.", "red", "pack wardrobe", label="Tape colour"),
    ),
)

CAPSULES = Section(
    "capsules", Capsule, "capsule", "Capsules by id.",
    "A kind of capsule, or one capsule with its serial number.", "wardrobe",
    rows(
        Field("type", k.TEXT, "What it is, as in lavalier or head.", "lavalier", marks="brief"),
        Field("pattern", k.TEXT, "Its polar pattern.", "omni"),
        Field("colour", k.TEXT, "Your own colour code for it.", "beige", marks="brief"),
        Field("cap", k.TEXT, "The response cap on it.", "short"),
        Field("fit", k.TEXT, "The connector it needs.", "screw 4"),
        Field("serial", k.TEXT, "Its serial number.", "C-17", "know"),
        Field("owned", k.COUNT, "How many there are.", acts="know"),
    ),
)
PACKS = (TRANSMITTERS, CAPSULES)
# fmt: on
