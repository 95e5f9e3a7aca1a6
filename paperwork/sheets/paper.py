"""What a kind of paper is."""

from collections.abc import Callable

from paperwork.codes import Topic
from paperwork.document import Sheet
from paperwork.frozen import frozen
from paperwork.model import Show


@frozen
class Paper:
    """One kind of paper: its folder, its name, how to make its sheets, and what the show must hold for it.

    `section` is the one without which it is never printed, as `scenes`; "" where no one section is to blame.
    `by_hand`: it is filled in with a pen, so that it exists as a blank too (`blanks`). `shows` are the kinds of fact
    that are on it, so that only errors about them put a stamp on it; None: any of what its records can be wrong in.
    """

    folder: str
    name: str
    make: Callable[[Show], tuple[Sheet, ...]]
    needs: str
    section: str = ""
    by_hand: bool = False
    shows: tuple[Topic, ...] | None = None

    def wants(self, show: Show) -> str:
        """What a show that has no such paper lacks: the whole section if it has none of it, else what of it."""
        return self.section if self.section and not getattr(show, self.section) else self.needs
