"""Cards, one fact big on each, and strips for the front of a rack."""

from dataclasses import field

from paperwork.document.items import NOWHERE, Item, Line
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place


@frozen
class Card:
    """One card: a black band of lines at its left, the key, items beside it, and items under a rule.

    The key is set as big as all cards of the block with a key of its style allow. `tick` puts a square to tick at the
    right, in the foot if there is one. `hatch` is the sign of a spare. A card that is not `loud` has its band white,
    for the eye to pass over. `doubt` says ASK on a card that is cut out, where an error is against it.
    """

    key: Line
    items: tuple[Item, ...] = ()
    band: tuple[Line, ...] = ()
    foot: tuple[Item, ...] = ()
    tick: str = ""
    hatch: bool = False
    loud: bool = True
    doubt: str = ""
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class Cards:
    """Cards on running pages, as many across as given, fewer where a key needs more room at its floor.

    `height_um` is their least height; where their `width_um` is fixed too (cards cut to a size) it is their height.
    `stacked`: the key stands above the items, both in the middle. `signed` cards are cut out: each carries its
    revision and code.
    """

    cards: tuple[Card, ...]
    across: int = 1
    height_um: int = 0
    width_um: int = 0
    stacked: bool = False
    signed: bool = False


@frozen
class CardSlot:
    """One receiver slot on a strip: the number, the lines beside it, big over small; whether an error is against it."""

    key: Line
    lines: tuple[Line, ...] = ()
    small: tuple[Line, ...] = ()
    hatch: bool = False
    doubt: bool = False
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class UnitStrip:
    """The strip of one rack unit, its slots of equal width. `title` stands outside the cut; strips of one `group` stay
    together. `facts` are what the title says without a language."""

    title: str
    slots: tuple[CardSlot, ...]
    group: str = ""
    facts: tuple[str, ...] = ()


@frozen
class Strips:
    """Strips with cut marks, one right under the other, so that one cut parts two.

    One wider than the page is cut between two slots into pieces whose titles say their order. `scaled`: the sizes of
    its texts follow from its height, not from their styles. `named`: the name of a group is said over its strips.
    """

    strips: tuple[UnitStrip, ...]
    width_um: int
    height_um: int
    scaled: bool = False
    named: bool = True
