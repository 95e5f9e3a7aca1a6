"""Fitted texts as boxes, and the record of those that had to give way.

A text is fitted once, by the typesetter that places it; whoever only tries a width asks `fit`, which records nothing.
"""

from collections.abc import Sequence
from typing import Protocol

from paperwork.document.styles import Style
from paperwork.finding import Subject
from paperwork.place import Place
from paperwork.render.boxes import Room, TextBox
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics, reach_um
from paperwork.render.text.shortfalls import Shortfall


class Owner(Protocol):
    """The row, card or label that a text belongs to: where it is written, and which records it shows."""

    @property
    def where(self) -> Place:
        """Its place in the show's file."""

    @property
    def subjects(self) -> tuple[Subject, ...]:
        """The records that it shows."""


class Typesetter:
    """Sets the texts of a sheet, and keeps what each that does not stand whole falls short of (`shortfalls`)."""

    def __init__(
        self, metrics: Metrics, sheet: str, owner: Owner | None = None, shortfalls: list[Shortfall] | None = None
    ) -> None:
        self.metrics = metrics
        self.sheet = sheet
        self.owner = owner
        self.shortfalls: list[Shortfall] = [] if shortfalls is None else shortfalls

    def of(self, owner: Owner) -> "Typesetter":
        """The same for the texts of one row, card or label; one record for all."""
        return Typesetter(self.metrics, self.sheet, owner, self.shortfalls)

    def fit(self, text: str, style: Style, width_um: int) -> Fitted:
        """The text in the width in which it is going to stand."""
        fitted = fit(text, style, width_um, self.metrics)
        self.record(text, fitted)
        return fitted

    def record(self, text: str, fitted: Fitted) -> None:
        """Keeps it if the text was abbreviated, or is a number that has no room at its floor."""
        if fitted.outcome == "too wide":
            self.fall_short("number-does-not-fit", fitted.floor_um, number=text)
        elif fitted.outcome == "abbreviated":
            self.fall_short("text-abbreviated", fitted.floor_um, text=text, shown=" ".join(fitted.lines))

    def fall_short(self, code: str, column: int = 0, **facts: str) -> None:
        """Keeps that something of the owner of the texts has no whole room; the first fact is what has none."""
        where, subjects = (self.owner.where, self.owner.subjects) if self.owner else (Place(""), ())
        self.shortfalls.append(Shortfall(code, where, subjects, column, tuple(facts.items())))

    def set(
        self, text: str, style: Style, room: Room, baseline: int | None = None, align: str = "left", white: bool = False
    ) -> TextBox:
        """The text on one line, as wide as its room at the most. Without a baseline it is in the middle of the room's
        height, or lower where stacked marks would stand over the room."""
        fitted = self.fit(text, style, room.width)
        if baseline is None:
            baseline = room.y + max((room.height + fitted.cap_um) // 2, fitted.rise_um)
        return self.line(fitted, room, baseline, align, white)

    def line(self, fitted: Fitted, room: Room, baseline: int, align: str = "left", white: bool = False) -> TextBox:
        """The first line of a fitted text."""
        return set_line(fitted.lines[0], fitted, room, baseline, self.metrics, align, white)

    def lines(self, fitted: Fitted, room: Room, first: int, align: str = "left") -> Sequence[TextBox]:
        """All lines of a fitted text, the first on its baseline."""
        return [
            set_line(line, fitted, room, first + index * fitted.pitch_um, self.metrics, align)
            for index, line in enumerate(fitted.lines)
        ]


def set_line(
    line: str, fitted: Fitted, room: Room, baseline: int, metrics: Metrics, align: str = "left", white: bool = False
) -> TextBox:
    """One fitted line as a box on its baseline, at the left, the centre or the right of its room."""
    width = metrics.width_um(line, fitted.face, fitted.cap_um)
    slack = room.width - width
    x = room.x + {"left": 0, "centre": slack // 2, "right": slack}[align]
    up, down = reach_um(line, fitted.face, fitted.cap_um)
    ink = Room(x, baseline - up, width, up + down)
    return TextBox(x, baseline, line, fitted.face, fitted.cap_um, fitted.floor_um, ink, room, white)


def set_turned(line: str, fitted: Fitted, x: int, y: int, room: Room, metrics: Metrics) -> TextBox:
    """One line set upwards: its baseline at `x`, its beginning at `y`."""
    length = metrics.width_um(line, fitted.face, fitted.cap_um)
    up, down = reach_um(line, fitted.face, fitted.cap_um)
    ink = Room(x - up, y - length, up + down, length)
    return TextBox(x, y, line, fitted.face, fitted.cap_um, fitted.floor_um, ink, room, turned=True)
