"""The fields of who and what comes from outside, in the order of the published schema."""

from typing import get_args

from paperwork.model import kinds as k
from paperwork.model.kinds import one_of
from paperwork.model.outside import AntennaKind, AntennaPart, Contact, Hire
from paperwork.model.row import Field, Section, rows

# fmt: off
CONTACTS = Section(
    "contacts", Contact, "contact", "Who to call, by name, in the order of the paper.",
    "One person or firm. The key is the name as printed.", "know",
    rows(
        Field("department", k.TEXT, "The department, as in stage, wardrobe, hire company.", "stage", marks="brief"),
        Field("job", k.TEXT, "What this person does there.", "stage manager"),
        Field("phone", k.TEXT, "The phone number.", "020 7946 0018", marks="brief"),
        Field("other", k.TEXT, "Another way: an address, an intercom channel, a desk.", "intercom B", label="Also at"),
        marks="personal venue",
    ), order="know",
)

HIRES = Section(
    "hires", Hire, "hire", "Hired gear, a line each.", "What one firm lends, and until when.", "know",
    rows(
        Field("firm", k.TEXT, "Whose it is.", "Northquay Hire", marks="required brief"),
        Field("item", k.TEXT, "What it is.", "belt pack", marks="brief"),
        Field("serial", k.TEXT, "Its serial number, or several.", "S-1041"),
        Field("count", k.COUNT, "How many there are.", "16"),
        Field("packs", k.IDS, "The packs and handhelds in it.", "01-16", refers="transmitters"),
        Field("dates", k.DATES, "When it comes and when it goes back, as in 2027-03-01 to 2027-03-22.",
              "2027-03-01 to 2027-03-22", marks="brief place venue", attr="from_day until_day"),
    ),
)

ANTENNAS = Section(
    "antennas", AntennaPart, "antenna part", "Antennas, and what is between them and the racks, by id.",
    "One antenna, booster, filter or splitter, with its cables to what it feeds.", "patch",
    rows(
        Field("kind", one_of(*get_args(AntennaKind)), "What it is.", marks="brief", default="antenna"),
        Field("side", k.TEXT, "Its side of the stage, as in SL.", "SL", marks="brief"),
        Field("place", k.TEXT, "Where it hangs or lies, and where it points.", "boom 2, 4 m up", marks="place"),
        Field("gain", k.TEXT, "What it adds or takes, as in +10 dB.", "+10 dB"),
        Field("power", k.TEXT, "What feeds it, as in the splitter, over the cable.", "over the cable from D1"),
        Field("feeds", k.IDS, "The parts and racks its cables go to, as in D1 or R1, R2.", "D1", marks="brief",
              refers="antennas racks"),
        Field("cables", k.LINES, "The length of each of those cables, or one for all, as in 25 m.", "25 m"),
        marks="venue",
    ),
)
OUTSIDE = (CONTACTS, HIRES, ANTENNAS)
# fmt: on
