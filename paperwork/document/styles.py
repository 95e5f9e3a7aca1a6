"""Type styles by purpose: how tall a capital is wanted, and how small it may become.

Heights are capital heights in micrometres, because reading distance decides them and point sizes differ between faces.
All are steps of one scale, and a text shrinks along it, so that a page has few sizes and a reader sees at once what
belongs together. A step is the fourth root of two, so that two of them lead from A4 to A3, as paper itself does. Beside
each is the distance at which it fills 16 minutes of arc, the floor for text that is read fast (ISO 9241-3 as quoted by
ergonomics pages):

     1.98 mm  0.43 m  small print, heads of columns       5.60 mm  1.20 m  a word or a frequency at a rack
     2.36 mm  0.51 m  a plot in the wings                 6.66 mm  1.43 m  a strip; a title
     2.80 mm  0.60 m  whatever is read in the hand        7.92 mm  1.70 m  a number at a rack, 27 minutes at a metre
     3.33 mm  0.72 m  strong in the hand, a card          9.42 mm  2.02 m  a number that is searched for
     3.96 mm  0.85 m  a number in the hand               13.32 mm  2.86 m  a card, a strip
     4.71 mm  1.01 m  whatever else is read at a rack    18.84 mm  4.05 m  a pouch on a rail
                                                         37.67 mm  8.10 m  a square found across the room

A floor may lie between two steps: 2.60 mm is what the hand reads. What fills a page grows by whole steps
(`render.growth`). The texts of labels are steps too, by their stock (`render.labels.sizes`); the number alone is off
the scale, as tall as its stock allows.
"""

from typing import Literal, TypeAlias

from paperwork.frozen import frozen

Weight: TypeAlias = Literal["regular", "semibold", "bold"]

SCALE_UM = (
    1_980,
    2_355,
    2_800,
    3_330,
    3_960,
    4_709,
    5_600,
    6_660,
    7_920,
    9_419,
    11_200,
    13_320,
    15_840,
    18_837,
    22_400,
    37_672,
)
"""Every height that is wanted of a capital, but for the number of a label."""


def step_under(um: int) -> int:
    """The tallest step of the scale that is no taller than this; its lowest for what is lower still."""
    return max((step for step in SCALE_UM if step <= um), default=SCALE_UM[0])


@frozen
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
    """Words of the paper around names of the show: from the left, even where a name from the right comes first."""


# At the rack, read from 1 m.
RACK_NUMBER = Style("rack number", 9_419, 7_920, "bold", figures=True, breaks=False)
RACK_ROLE = Style("rack role", 5_600, 5_000, "bold", lines=3)
RACK_FREQUENCY = Style("rack frequency", 5_600, 4_709, "semibold", figures=True, breaks=False)
RACK_SLOT = Style("rack slot", 4_709, 3_960, "semibold", figures=True, breaks=False)
RACK_STRONG = Style("rack strong", 3_330, 2_600, "bold")
PATCH_NUMBER = Style("patch number", 6_660, 5_600, "bold", figures=True, breaks=False)
"""Beside the slot that it is found by: 16 minutes of arc and more, and not those of a number that is searched for."""
RACK_PLUG = Style("rack plug", 4_709, 4_709, "bold")
RACK_GEAR = Style("gear at a rack", 4_709, 3_330, "bold")
"""A capsule or a desk input of the chart: as tall as a plug where it has room, and whole where it is long."""
RACK_SMALL = Style("rack small", 2_800, 2_600)
RACK_NOTE = Style("rack note", 2_800, 2_600, "semibold", lines=4)
CONTACT = Style("contact", 5_600, 3_330, "bold", lines=4)
LIVE_SCENE = Style("scene at the rack", 5_600, 4_709, "bold", lines=3)
LIVE_BODY = Style("live body", 3_330, 2_600, "bold", lines=3)
BOARD_NUMBER = Style("board number", 6_660, 6_660, "bold", figures=True, breaks=False)
BOARD_GONE = Style("board number that has gone", 3_330, 2_600, figures=True, breaks=False)
BOARD_NOTES = Style("board notes", 3_330, 2_600, "bold", lines=40, paragraph=True)

# In the hand, read from 0.4 m in dim light.
HAND_NUMBER = Style("hand number", 5_600, 3_960, "bold", figures=True, breaks=False)
TONIGHT_NUMBER = Style("tonight number", 3_960, 3_960, "bold", figures=True, breaks=False)
TONIGHT_NOTE = Style("tonight note", 2_800, 2_600, "bold", lines=60, paragraph=True)
HAND_FREQUENCY = Style("hand frequency", 3_330, 2_600, "semibold", figures=True, breaks=False)
HAND_MHZ = Style("frequency read off a display", 4_709, 3_960, "semibold", figures=True, breaks=False)
HAND_STRONG = Style("hand strong", 3_330, 2_600, "bold", lines=3)
HAND = Style("hand", 2_800, 2_600, lines=3)
TICK = Style("tick", 3_960, 2_600)
"""A square to tick is half as tall again: 6 mm, so that a pen in a hurry stays in it (common practice, no source)."""
STEP = Style("step", 2_800, 2_600, lines=4, paragraph=True)
NOTE = Style("note", 2_800, 2_600, lines=60, paragraph=True)

# On a wardrobe rail or a door, read from 0.6 m in running light: 16 minutes of arc are 2.8 mm, 20 to 22 are 3.5 to 3.8 mm.
DRESS_NUMBER = Style("dress number", 6_660, 4_709, "bold", figures=True, breaks=False)
DRESS_TIME = Style("dress time", 6_660, 4_709, "bold", figures=True, breaks=False)
DRESS_STRONG = Style("dress strong", 3_330, 2_800, "bold", lines=3)
DRESS = Style("dress", 3_330, 2_800, lines=3)
LIST_NUMBER = Style("list number", 3_960, 3_330, "bold", figures=True, breaks=False)
LIST_STRONG = Style("list strong", 3_330, 2_800, "bold", lines=3)
LIST = Style("list", 2_800, 2_800, lines=4)
WAS = Style("was", 2_800, 2_600, lines=30, paragraph=True)
NOW = Style("is now", 2_800, 2_600, "bold", lines=30, paragraph=True)
"""On a change list a whole record that came or went takes as many lines as it needs."""

# A plot, read from 0.5 m in the wings: 16 minutes of arc are 2.33 mm, 22 are 3.2 mm.
PLOT_TITLE = Style("plot title", 3_330, 2_600, "bold", lines=3)
PLOT_UNDER = Style("plot small", 2_355, 2_355, lines=3)
PLOT_KEY = Style("plot key", 4_709, 3_960, "bold", figures=True, breaks=False)
PLOT_SCENE = Style("scene number", 3_330, 2_355, "bold", figures=True, breaks=False)
PLOT_NAME = Style("scene name", 2_355, 2_355, lines=2)
PLOT_BAR = Style("bar", 3_330, 2_800, "bold", figures=True, breaks=False)
PLOT_NOTE = Style("bar note", 2_355, 2_355, "semibold", lines=1)
LEGEND = Style("legend", 2_355, 2_355, lines=1)

# A list for the cast in a corridor, read from 0.75 m: 16 minutes of arc are 3.5 mm; numbers are found from 1.5 m.
CAST_NUMBER = Style("cast number", 7_920, 7_920, "bold", figures=True, breaks=False)
CAST_NAME = Style("cast name", 4_709, 3_960, "bold", lines=3)
CAST_TIME = Style("cast time", 3_960, 3_960, "semibold", lines=3)
CAST_SMALL = Style("cast small", 2_800, 2_600, lines=3)

# A spectrum, read from 0.6 m: 16 minutes of arc are 2.8 mm.
SPECTRUM_NUMBER = Style("spectrum number", 3_330, 2_800, "bold", figures=True, breaks=False)
SPECTRUM_BAND = Style("spectrum band", 2_800, 2_600, "semibold", lines=1)
SPECTRUM_AXIS = Style("spectrum axis", 2_800, 2_600, figures=True, breaks=False)

# A card, read from 0.4 m in near dark: the height that is almost always read right, 7 mrad, is 2.8 mm.
CARD_KEY = Style("card key", 13_320, 9_419, "bold", figures=True, breaks=False)
POUCH_KEY = Style("pouch key", 18_837, 9_419, "bold", figures=True, breaks=False)
CARD_ID = Style("card id", 9_419, 4_709, "bold", figures=True, breaks=False)
"""A key that may be a word: it is longer than a number and may be lower."""

CARD_STRONG = Style("card strong", 4_709, 3_330, "bold")
SWAP_NAME = Style("swap name", 4_709, 4_709, "bold", lines=3)
"""Who takes a pack off or puts it on: read at a metre, both hands on the pack; it breaks before it shrinks."""

CARD_TEXT = Style("card text", 3_330, 2_800)
CARD_ORDINAL = Style("card ordinal", 9_419, 4_709, "bold", figures=True, breaks=False)
CARD_TIME = Style("card time", 5_600, 3_960, "bold", figures=True)
CARD_CODE = Style("card code", 2_800, 2_600, "semibold", figures=True, breaks=False)
CARD_BAND = Style("card band", 3_330, 2_800, "semibold")

# A strip on a rack, read from 1 m.
STRIP_NUMBER = Style("strip number", 13_320, 7_920, "bold", figures=True, breaks=False)
STRIP_INPUT = Style("strip input", 3_330, 2_800, "bold", figures=True, breaks=False)
STRIP_DESK = Style("strip desk", 5_600, 2_355, "bold", lines=1)
STRIP_OWN = Style("strip own number", 2_355, 1_980)
STRIP_ROLE = Style("strip role", 6_660, 5_600, "bold")

# A square on a table, found from across the room: some 40 mm (common practice, no source), and 28 where a number has
# three; six to a page.
SQUARE_KEY = Style("square key", 37_672, 28_000, "bold", figures=True, breaks=False)
SQUARE_ID = Style("square id", 18_837, 7_920, "bold", figures=True, breaks=False)
SQUARE_NAME = Style("square name", 6_660, 3_960, "bold")
SQUARE_TEXT = Style("square text", 4_709, 2_800, "bold")

COVER = Style("cover", 13_320, 6_660, "bold", lines=3, paragraph=True)
"""The name of a production on a cover, found on a shelf and across a table (a choice of this project)."""

# The furniture of a page.
TITLE = Style("title", 5_600, 3_960, "bold", lines=1)
CUT_TITLE = Style("title over what is cut out", 3_960, 3_330, "bold", lines=1)
SUBTITLE = Style("subtitle", 2_800, 2_355, lines=6, sentence=True)
REVISION = Style("revision", 6_660, 5_600, "bold", breaks=False)
CUT_REVISION = Style("revision over what is cut out", 5_600, 3_330, "bold", breaks=False)
CODE = Style("code", 4_709, 4_000, "semibold", figures=True, breaks=False)
PAGE = Style("page", 2_800, 2_600, "semibold", figures=True, breaks=False)
DATED = Style("date", 2_355, 1_980, lines=1)
STAMP = Style("stamp", 3_960, 2_600, "bold", lines=3, paragraph=True, sentence=True)
GROUP = Style("group", 3_330, 2_600, "bold", lines=1)
GROUP_NOTE = Style("group note", 2_800, 1_980, "semibold", lines=1, sentence=True)
BAR_TITLE = Style("title in a bar", 3_330, 2_600, "bold", sentence=True)
BAR_HEAD = Style("head in a bar", 2_800, 1_980, "bold", lines=1, sentence=True)
BAR_SMALL = Style("note in a bar", 2_800, 1_980, lines=2, sentence=True)
HEADING = Style("heading", 1_980, 1_900, "semibold", lines=3, paragraph=True)
PANEL_TITLE = Style("panel title", 3_330, 2_600, "bold", lines=3, paragraph=True)
TAG = Style("tag", 2_355, 1_980, "semibold", lines=1)
MARK = Style("mark", 2_355, 1_980, "bold", lines=1)
DOUBT_MARK = Style("mark of a doubt", 3_960, 2_600, "bold", lines=1)
SMALL_PRINT = Style("small print", 1_980, 1_980, lines=6, paragraph=True, sentence=True)
SMALL_STRONG = Style("small strong", 2_355, 1_980, "bold", lines=2)
RETURNS = Style("returns", 2_355, 1_980, "bold", lines=4)

# On a label, read from 0.3 to 0.4 m by torch. The wanted number is "as tall as the label allows".
LABEL_NUMBER = Style("label number", 45_000, 7_000, "bold", figures=True, breaks=False)
LABEL_ROLE = Style("label role", 6_000, 2_600, "bold")
LABEL_FREQUENCY = Style("label frequency", 4_000, 2_600, "semibold", figures=True, breaks=False)
LABEL_NAME = Style("label name", 3_200, 2_600)
LABEL_FACT = Style("label fact", 2_800, 2_600, "semibold", lines=1)
LABEL_CODE = Style("label code", 2_800, 2_600, "semibold", figures=True, breaks=False)
