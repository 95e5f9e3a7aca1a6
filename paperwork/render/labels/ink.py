"""The ink of labels: what every shape of label sets, from the top left corner of its clear area."""

from collections.abc import Mapping
from dataclasses import replace

from paperwork.document import Label
from paperwork.document.styles import LABEL_NUMBER, Style
from paperwork.frozen import frozen
from paperwork.render.boxes import LINE_UM, Box, Fill, Open, QrBox, Room, Rule, TextBox, wrap
from paperwork.render.labels.grid import BLANK_FREQUENCY, LabelGrid, frequency_text, pack_text
from paperwork.render.labels.qr import QUIET_MODULES, qr_runs
from paperwork.render.text.faces import FACES
from paperwork.render.text.fitting import fit
from paperwork.render.text.setting import Typesetter, set_line

DOUBT_SIGN = "?"

DASHES = 7
"""The bar of a doubted label: four dashes and three gaps of one length, at least a millimetre under any number."""


@frozen
class LabelSigns:
    """What a label shows beside its own values."""

    revision: str
    code: str
    payload: str
    words: Mapping[str, str]
    doubted: bool = False

    @property
    def text(self) -> str:
        """Revision and code as printed on the label, after a question mark where an error stands against it."""
        return f"{f'{DOUBT_SIGN}  ' if self.doubted else ''}{self.revision}  {self.code}".strip()


class LabelInk:
    """Boxes of one label, who sets its texts, and the (kind, text) of what it had to leave off."""

    def __init__(self, setter: Typesetter) -> None:
        self.setter = setter
        self.metrics = setter.metrics
        self.boxes: list[Box] = []
        self.left_off: list[tuple[str, str]] = []

    @property
    def texts(self) -> list[TextBox]:
        """What is written on it so far."""
        return [box for box in self.boxes if isinstance(box, TextBox)]

    def width(self, text: str, style: Style) -> int:
        """The width that the text takes at the style's wanted height."""
        return fit(text, style, 10_000_000, self.metrics).width_um(self.metrics)

    def fits(self, text: str, style: Style, width: int) -> bool:
        """Whether the text stands whole on one line of the width."""
        return width > 0 and fit(text, replace(style, lines=1), width, self.metrics).outcome == "whole"

    def stands(self, text: str, style: Style, room: Room, base: int, top: int) -> bool:
        """Whether it stands whole on the base line, and its ink under `top` and inside of the room's foot."""
        if not self.fits(text, style, room.width):
            return False
        fitted = fit(text, replace(style, lines=1), room.width, self.metrics)
        return base - fitted.rise_um >= top and base + fitted.drop_um <= room.bottom

    def put(self, text: str, style: Style, room: Room, baseline: int, align: str = "left") -> None:
        """Sets the text on one line on the base line. A number without room becomes a ruled blank."""
        if not text:
            return
        fitted = self.setter.fit(text, replace(style, lines=1), room.width)
        if fitted.outcome == "too wide":
            self.boxes.append(Rule(room.x, baseline, room.right, baseline, LINE_UM))
            return
        self.boxes.append(self.setter.line(fitted, room, baseline, align))


def column(grid: LabelGrid, left: int, right: int) -> Room:
    """The room between two edges, as tall as accents and descenders may go."""
    over = grid.space.over_um
    return Room(left, -over, right - left, grid.height + 2 * over)


def set_number(label: Label, grid: LabelGrid, ink: LabelInk) -> None:
    """The number over its bar, which is broken where an error stands against the label. One that is too wide is lower,
    on the same base line."""
    style = replace(LABEL_NUMBER, wanted_um=grid.number_um, floor_um=grid.space.number_floor_um(label.number))
    units = max(1, ink.metrics.units(label.number, "figures-bold"))
    tallest = grid.number_width * FACES["figures-bold"].cap // units
    style = replace(style, wanted_um=max(style.floor_um, min(style.wanted_um, tallest)))
    ink.put(label.number, style, column(grid, 0, grid.number_width), grid.number_um)
    gap, thick = grid.mark_um
    bar = min(ink.width(label.number, style), grid.number_width)
    if not label.doubt:
        ink.boxes.append(Fill(0, grid.number_um + gap, bar, thick))
        return
    dash = max(1, bar // DASHES)
    for index in range(0, DASHES, 2):
        ink.boxes.append(Fill(index * dash, grid.number_um + gap, dash, thick))


def set_code(payload: str, grid: LabelGrid, ink: LabelInk) -> None:
    """The QR code in the upper right corner, its quiet zone partly on the label's clear edge."""
    module, quiet = grid.module, QUIET_MODULES * grid.module
    side, runs = qr_runs(payload, grid.space.sides)
    x, y = grid.width - side * module - grid.space.inset_um(module), grid.space.inset_um(module)
    white = Room(x - quiet, y - quiet, side * module + 2 * quiet, side * module + 2 * quiet)
    code = QrBox(x, y, grid.dots, grid.space.dpi, side, runs, payload, white)
    ink.boxes += wrap(Open("Figure", alt=f"QR: {payload}"), [code])


def set_pack(
    label: Label,
    words: Mapping[str, str],
    grid: LabelGrid,
    ink: LabelInk,
    room: Room,
    base: int | None = None,
    top: int | None = None,
) -> None:
    """The pack with its word, or bare where it is not the number above; the number's own pack may be left off."""
    base, top = grid.height if base is None else base, grid.foot_top if top is None else top
    pack, other = pack_text(label, words), label.pack != label.number
    texts = filter(None, (pack, label.pack if other else ""))
    shown = next((text for text in texts if ink.stands(text, grid.sizes.small, room, base, top)), "")
    if shown:
        ink.put(shown, grid.sizes.small, room, base)
    elif pack and other:
        ink.left_off.append(("packs", pack))


def set_frequency(label: Label, grid: LabelGrid, ink: LabelInk, room: Room, baseline: int) -> int:
    """The frequency, or a ruled blank in its form where it is not known; returns the width it takes."""
    text = frequency_text(label)
    if not text:
        return 0
    fitted = fit(text, grid.sizes.frequency, room.width, ink.metrics)
    if label.frequency or fitted.outcome != "whole":
        ink.put(text, grid.sizes.frequency, room, baseline)
    else:
        for index, sign in enumerate(BLANK_FREQUENCY):
            left = room.x + ink.metrics.width_um(text[:index], fitted.face, fitted.cap_um)
            right = room.x + ink.metrics.width_um(text[: index + 1], fitted.face, fitted.cap_um)
            if sign == "0":
                ink.boxes.append(Rule(left + 150, baseline, right - 150, baseline, LINE_UM))
            else:
                place = room._replace(x=left, width=right - left)
                ink.boxes.append(set_line(sign, fitted, place, baseline, ink.metrics))
    return min(room.width, ink.metrics.width_um(text, fitted.face, fitted.cap_um))
