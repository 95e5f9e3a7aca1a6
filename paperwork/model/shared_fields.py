"""The fields that channels and other carriers have in common."""

from paperwork.model import kinds as k
from paperwork.model.row import Field

# fmt: off
ZONE = Field("zone", k.TEXT,
             "The hall, stage or field where it is on, if zones do not reach each other.",
             "Field 1", "coordinator", "everywhere", "shared")
ASKED = Field("asked", k.FREQUENCY,
              "The frequency asked for, if it is not the one set now.", acts="coordinator",
              marks="venue")
GRANTED = Field("granted", k.GRANT, "The frequency the coordinator granted, or no.", acts="pack",
                default="no answer yet", marks="venue", attr="granted_hz refused")
MUST = Field("must", k.YES, "Yes if it must get a frequency, whoever goes without.", acts="know",
             default="no", label="Must have a frequency")
BILL = Field("bill", k.LINES, "The parts of the bill it is on in, as in early, late.", "early, late",
             "coordinator", "always", "shared", label="Bill times")
# fmt: on
