"""Between the show and the radio arithmetic: what the show puts on the air, where it may go, and what is in the way.

`radio` has carriers by name only. Here channel `05` becomes the carrier `channel 05`, and the words that come back are
turned into records again. Assigning, surveying and looking for what is clean are modules of their own: a check does
not pay for them before it needs one.
"""

from paperwork.coordinate.air import Air, gather_air
from paperwork.coordinate.carriers import (
    BACKUPS,
    OnAir,
    carrier_name,
    count_hits,
    find_culprits,
    find_movable,
    gather_on_air,
    list_clashes,
)
from paperwork.coordinate.regions import Region, find_region, list_region_names, region_of
from paperwork.plan.windows import ranges_of, window_of

__all__ = [
    "BACKUPS",
    "Air",
    "OnAir",
    "Region",
    "carrier_name",
    "count_hits",
    "find_culprits",
    "find_movable",
    "find_region",
    "gather_air",
    "gather_on_air",
    "list_clashes",
    "list_region_names",
    "ranges_of",
    "region_of",
    "window_of",
]
