"""Type styles by purpose: how tall a capital is wanted, and how small it may become.

Heights are capital heights in micrometres, because reading distance decides them and point sizes differ between faces.
Wanted heights are steps of one scale, and a text shrinks along it, so that a page has few sizes and a reader sees at
once what belongs together. A step is what 16 minutes of arc are at a distance, the floor for text that is read fast
(ISO 9241-3 as quoted by ergonomics pages):

     2.10 mm  0.45 m  small print, heads of columns      5.00 mm  1.05 m  a word or a frequency at a rack
     2.35 mm  0.50 m  a plot in the wings                6.00 mm  1.30 m  the same, 20 minutes at a metre
     2.80 mm  0.60 m  whatever is read in the hand       7.00 mm  1.50 m  a number at a rack, 24 minutes at a metre
     3.20 mm  0.70 m  a card in near dark               10.00 mm  2.10 m  a number that is searched for
     3.50 mm  0.75 m  a corridor; strong in the hand    14.00 mm  3.00 m  a card, a strip
     4.20 mm  0.90 m  a number in the hand              18.00 mm  3.90 m  a pouch on a rail
                                                        40.00 mm  8.60 m  a square found across the room

A floor may lie between two steps: a text that needs it has it. Labels are off the scale: their sizes come from their
stock, and the number is as tall as it allows.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

Weight: TypeAlias = Literal["regular", "semibold", "bold"]

SCALE_UM = (2_100, 2_350, 2_800, 3_200, 3_500, 4_200, 5_000, 6_000, 7_000, 10_000, 14_000, 18_000, 40_000)
"""Every height that is wanted of a capital, but for labels."""


def step_under(um: int) -> int:
    """The tallest step of the scale that is no taller than this; its lowest for what is lower still."""
    return max((step for step in SCALE_UM if step <= um), default=SCALE_UM[0])


@dataclass(frozen=True, slots=True)
class Style:
    """A purpose of text. `figures` asks for figures of one width; `breaks` allows a line break and an ellipsis.

    A style that does not break is for numbers: at its floor it either fits or is an error.
    """

    purpose: str
    wanted_um: int
    floor_um: int
    weight: Weight = "regular"
    figures: bool = False
    breaks: bool = True
    lines: int = 2
    """At most so many lines before the text is abbreviated."""
    paragraph: bool = False
    """Running text: broken at its wanted height before it is shrunk."""
    sentence: bool = False
    """Words of the paper around names of the show: from the left in every case, even where a name from the right comes first."""


# At the rack, read from 1 m.
RACK_NUMBER = Style("rack number", 10_000, 7_000, "bold", figures=True, breaks=False)
RACK_ROLE = Style("rack role", 6_000, 5_000, "bold", lines=3)
RACK_FREQUENCY = Style("rack frequency", 6_000, 4_700, "semibold", figures=True, breaks=False)
RACK_SLOT = Style("rack slot", 5_000, 3_800, "semibold", figures=True, breaks=False)
RACK_STRONG = Style("rack strong", 3_500, 2_600, "bold")
RACK_PLUG = Style("rack plug", 4_200, 2_600, "bold")
RACK_SMALL = Style("rack small", 2_800, 2_600)
RACK_NOTE = Style("rack note", 2_800, 2_600, "semibold", lines=4)
CONTACT = Style("contact", 6_000, 3_400, "bold", lines=4)
LIVE_SCENE = Style("scene at the rack", 6_000, 4_700, "bold", lines=3)
LIVE_BODY = Style("live body", 3_200, 2_600, "bold", lines=3)
BOARD_NUMBER = Style("board number", 7_000, 7_000, "bold", figures=True, breaks=False)
BOARD_GONE = Style("board number that has gone", 3_500, 2_600, figures=True, breaks=False)
BOARD_NOTES = Style("board notes", 3_200, 2_600, "bold", lines=40, paragraph=True)

# In the hand, read from 0.4 m in dim light.
HAND_NUMBER = Style("hand number", 6_000, 4_000, "bold", figures=True, breaks=False)
TONIGHT_NUMBER = Style("tonight number", 4_200, 4_000, "bold", figures=True, breaks=False)
TONIGHT_NOTE = Style("tonight note", 2_800, 2_600, "bold", lines=60, paragraph=True)
HAND_FREQUENCY = Style("hand frequency", 3_500, 2_600, "semibold", figures=True, breaks=False)
HAND_STRONG = Style("hand strong", 3_200, 2_600, "bold")
HAND = Style("hand", 2_800, 2_600)
TICK = Style("tick", 4_200, 2_600)
"""A square to tick is half as tall again: 6 mm, so that a pen in a hurry stays in it (common practice, no source)."""
STEP = Style("step", 2_800, 2_600, lines=4, paragraph=True)
NOTE = Style("note", 2_800, 2_600, lines=60, paragraph=True)

# On a wardrobe rail or a door, read from 0.6 m in running light: 16 minutes of arc are 2.8 mm, 20 to 22 are 3.5 to 3.8 mm.
DRESS_NUMBER = Style("dress number", 7_000, 5_000, "bold", figures=True, breaks=False)
DRESS_TIME = Style("dress time", 7_000, 4_600, "bold", figures=True, breaks=False)
DRESS_STRONG = Style("dress strong", 3_500, 2_800, "bold", lines=3)
DRESS = Style("dress", 3_500, 2_800, lines=3)
LIST_NUMBER = Style("list number", 4_200, 3_600, "bold", figures=True, breaks=False)
LIST_STRONG = Style("list strong", 3_500, 2_800, "bold", lines=3)
LIST = Style("list", 2_800, 2_800, lines=4)
WAS = Style("was", 2_800, 2_600, lines=30, paragraph=True)
NOW = Style("is now", 2_800, 2_600, "bold", lines=30, paragraph=True)
"""On a change list a whole record that came or went takes as many lines as it needs."""

# A plot, read from 0.5 m in the wings: 16 minutes of arc are 2.33 mm, 22 are 3.2 mm.
PLOT_TITLE = Style("plot title", 3_200, 2_600, "bold", lines=3)
PLOT_UNDER = Style("plot small", 2_350, 2_330, lines=3)
PLOT_KEY = Style("plot key", 5_000, 4_000, "bold", figures=True, breaks=False)
PLOT_SCENE = Style("scene number", 3_500, 2_330, "bold", figures=True, breaks=False)
PLOT_NAME = Style("scene name", 2_350, 2_330, lines=2)
PLOT_BAR = Style("bar", 3_500, 2_800, "bold", figures=True, breaks=False)
PLOT_NOTE = Style("bar note", 2_350, 2_330, "semibold", lines=1)
LEGEND = Style("legend", 2_350, 2_330, lines=1)

# A list for the cast in a corridor, read from 0.75 m: 16 minutes of arc are 3.5 mm; numbers are found from 1.5 m.
CAST_NUMBER = Style("cast number", 7_000, 7_000, "bold", figures=True, breaks=False)
CAST_NAME = Style("cast name", 5_000, 3_500, "bold", lines=3)
CAST_TIME = Style("cast time", 4_200, 3_500, "semibold", lines=3)
CAST_SMALL = Style("cast small", 2_800, 2_600, lines=3)

# A spectrum, read from 0.6 m: 16 minutes of arc are 2.8 mm.
SPECTRUM_NUMBER = Style("spectrum number", 3_500, 2_800, "bold", figures=True, breaks=False)
SPECTRUM_BAND = Style("spectrum band", 2_800, 2_600, "semibold", lines=1)
SPECTRUM_AXIS = Style("spectrum axis", 2_800, 2_600, figures=True, breaks=False)

# A card, read from 0.4 m in near dark: the height that is almost always read right, 7 mrad, is 2.8 mm.
CARD_KEY = Style("card key", 14_000, 9_000, "bold", figures=True, breaks=False)
POUCH_KEY = Style("pouch key", 18_000, 9_000, "bold", figures=True, breaks=False)
CARD_ID = Style("card id", 10_000, 5_000, "bold", figures=True, breaks=False)
"""A key that may be a word: it is longer than a number and may be lower."""

CARD_STRONG = Style("card strong", 5_000, 3_400, "bold")
CARD_TEXT = Style("card text", 3_200, 2_800)
CARD_ORDINAL = Style("card ordinal", 10_000, 5_000, "bold", figures=True, breaks=False)
CARD_TIME = Style("card time", 6_000, 4_200, "bold", figures=True)
CARD_CODE = Style("card code", 2_800, 2_600, "semibold", figures=True, breaks=False)
CARD_BAND = Style("card band", 3_500, 2_800, "semibold")

# A strip on a rack, read from 1 m.
STRIP_NUMBER = Style("strip number", 14_000, 7_000, "bold", figures=True, breaks=False)
STRIP_ROLE = Style("strip role", 7_000, 5_000, "bold")

# A square on a table, found from across the room: 40 to 60 mm figures (common practice, no source); six to a page.
SQUARE_KEY = Style("square key", 40_000, 40_000, "bold", figures=True, breaks=False)
SQUARE_ID = Style("square id", 18_000, 11_600, "bold", figures=True, breaks=False)
SQUARE_NAME = Style("square name", 7_000, 4_600, "bold")

COVER = Style("cover", 14_000, 6_400, "bold", lines=3, paragraph=True)
"""The name of a production on a cover, found on a shelf and across a table (a choice of this project)."""

# The furniture of a page.
TITLE = Style("title", 6_000, 3_800, "bold", lines=1)
SUBTITLE = Style("subtitle", 2_800, 2_400, lines=6, sentence=True)
REVISION = Style("revision", 7_000, 4_000, "bold", breaks=False)
CODE = Style("code", 4_200, 4_000, "semibold", figures=True, breaks=False)
PAGE = Style("page", 2_800, 2_600, "semibold", figures=True, breaks=False)
DATED = Style("date", 2_350, 1_900, lines=1)
STAMP = Style("stamp", 4_200, 2_600, "bold", lines=3, paragraph=True, sentence=True)
GROUP = Style("group", 3_200, 2_600, "bold", lines=1)
GROUP_NOTE = Style("group note", 2_800, 1_900, "semibold", lines=1, sentence=True)
HEADING = Style("heading", 2_100, 1_900, "semibold", lines=2, paragraph=True)
PANEL_TITLE = Style("panel title", 3_500, 2_600, "bold", lines=1)
TAG = Style("tag", 2_350, 1_900, "semibold", lines=1)
MARK = Style("mark", 2_350, 1_900, "bold", lines=1)
DOUBT_MARK = Style("mark of a doubt", 4_200, 2_600, "bold", lines=1)
SMALL_PRINT = Style("small print", 2_100, 1_900, lines=6, paragraph=True, sentence=True)
SMALL_STRONG = Style("small strong", 2_350, 1_900, "bold", lines=2)
RETURNS = Style("returns", 2_350, 1_900, "bold", lines=4)

# On a label, read from 0.3 to 0.4 m by torch. The wanted number is "as tall as the label allows".
LABEL_NUMBER = Style("label number", 45_000, 7_000, "bold", figures=True, breaks=False)
LABEL_ROLE = Style("label role", 6_000, 2_900, "bold")
LABEL_FREQUENCY = Style("label frequency", 4_000, 2_600, "semibold", figures=True, breaks=False)
LABEL_NAME = Style("label name", 3_200, 2_600)
LABEL_FACT = Style("label fact", 2_800, 2_600, "semibold", lines=1)
LABEL_CODE = Style("label code", 2_800, 2_600, "semibold", figures=True, breaks=False)
