"""What every page carries: the masthead with its revision box, the stamp, the footer."""

from paperwork.document import Sheet
from paperwork.render.boxes import Box, Fill, Frame, Hatch, Room, Rule
from paperwork.render.fit import Fitted, drop_um, fit, rise_um, set_line
from paperwork.render.fonts import Metrics
from paperwork.styles import (
    CODE,
    DATED,
    PAGE,
    RETURNS,
    REVISION,
    SMALL_PRINT,
    SMALL_STRONG,
    STAMP,
    SUBTITLE,
    TITLE,
    Style,
)  # fmt: skip

LEFT_UM, RIGHT_UM, TOP_UM, BOTTOM_UM = 13_000, 12_000, 11_000, 10_000
"""Margins. Lasers lose 4 to 6 mm at an edge (from memory); the left one also holds the marks of changed rows."""

BOX_WIDTH_UM, BOX_HEIGHT_UM = 60_000, 15_600
SQUARE_UM = 15_600
HEAD_RIGHT_UM = BOX_WIDTH_UM + 5_000
MASTHEAD_UM = 20_000
"""From the top margin to the rule under the masthead, with at most two lines under the title; more lines make it taller."""

UNDER_UM = 13_400
"""The baseline under the title: its accents and apostrophes clear the title's descenders."""

TITLE_FOOT_UM = 6_900
"""The title's baseline; the line under it keeps clear of its descenders."""

ACCENT_UM = 5_000
"""What accents on the title's capitals may take of the top margin."""

STAMP_PAD_UM = 2_000
STAMP_GAP_UM = 2_400
"""Above and under the frame of the stamp."""

STAMP_HATCH_UM = 12_000
RETURNS_UM, RETURNS_HIGH_UM = 68_000, 11_500
FOOT_GAP_UM = 2_000


def masthead_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """From the top margin to under the masthead's rule."""
    under = fit(_under_title(sheet), SUBTITLE, width - HEAD_RIGHT_UM, metrics)
    return MASTHEAD_UM + max(0, len(under.lines) - 2) * under.pitch_um


def set_masthead(sheet: Sheet, code: str, page: str, width: int, metrics: Metrics) -> list[Box]:
    """The masthead from the left end of its first line, `width` wide."""
    height = masthead_height(sheet, width, metrics)
    room = Room(0, -ACCENT_UM, width - HEAD_RIGHT_UM, height + ACCENT_UM)
    title = fit(sheet.title, TITLE, room.width, metrics)
    parts = _under_title(sheet)
    boxes: list[Box] = [set_line(title.lines[0], title, room, TITLE_FOOT_UM, metrics)]
    if parts:
        under = fit(parts, SUBTITLE, room.width, metrics)
        deep = drop_um(title.lines[0], title.face, title.cap_um)
        high = rise_um(under.lines[0], under.face, under.cap_um)
        first = max(UNDER_UM, TITLE_FOOT_UM + deep + high + 100)
        for index, line in enumerate(under.lines):
            boxes.append(set_line(line, under, room, first + index * under.pitch_um, metrics))
    boxes.extend(_revision_box(sheet, code, page, width - BOX_WIDTH_UM, metrics))
    boxes.append(Rule(0, height - 500, width, height - 500, 900))
    return boxes


def _under_title(sheet: Sheet) -> str:
    return "  ·  ".join(part for part in (sheet.show, sheet.venue, *sheet.subtitle) if part)


def said_around(sheet: Sheet, code: str, width: int) -> list[tuple[str, Style, int]]:
    """The texts of masthead, stamp and footer with their styles and widths: what has to be looked at for cuts."""
    inner = BOX_WIDTH_UM - (SQUARE_UM if sheet.revision else 0) - 6_000
    foot = width - (RETURNS_UM + 5_000 if sheet.returns else 0)
    said = [
        (sheet.title, TITLE, width - HEAD_RIGHT_UM),
        (_under_title(sheet), SUBTITLE, width - HEAD_RIGHT_UM),
        (sheet.revision, REVISION, SQUARE_UM - 2_000),
        (code, CODE, inner // 2),
        (sheet.dated, DATED, inner),
        (sheet.stamp, STAMP, width - 2 * STAMP_HATCH_UM - 8_000),
        (sheet.words.replaces.format(revision=sheet.replaces), SMALL_STRONG, foot),
        (sheet.words.returns.format(returns=sheet.returns), RETURNS, RETURNS_UM - 4_000),
    ]
    return said + [(caution, SMALL_PRINT, foot) for caution in sheet.cautions]


def _revision_box(sheet: Sheet, code: str, page: str, left: int, metrics: Metrics) -> list[Box]:
    """The revision white on black, found from across the room; beside it code, page and date."""
    boxes: list[Box] = [Frame(left, 0, BOX_WIDTH_UM, BOX_HEIGHT_UM, 500)]
    start = left
    if sheet.revision:
        boxes.append(Fill(left, 0, SQUARE_UM, BOX_HEIGHT_UM))
        square = Room(left + 1_000, 0, SQUARE_UM - 2_000, BOX_HEIGHT_UM)
        letter = fit(sheet.revision, REVISION, square.width, metrics)
        baseline = (BOX_HEIGHT_UM + letter.cap_um) // 2
        boxes.append(set_line(letter.lines[0], letter, square, baseline, metrics, "centre", white=True))
        start = left + SQUARE_UM
    inner = Room(start + 3_000, 0, left + BOX_WIDTH_UM - start - 6_000, BOX_HEIGHT_UM)
    number = fit(page, PAGE, inner.width // 2, metrics)
    signs = fit(code, CODE, inner.width // 2, metrics)
    boxes.append(set_line(signs.lines[0], signs, inner, 7_400, metrics))
    boxes.append(set_line(number.lines[0], number, inner, 7_400, metrics, "right"))
    if sheet.dated:
        dated = fit(sheet.dated, DATED, inner.width, metrics)
        boxes.append(set_line(dated.lines[0], dated, inner, 12_600, metrics))
    return boxes


def stamp_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """How much the stamp takes under the masthead, 0 without one."""
    if not sheet.stamp:
        return 0
    text = _stamp_text(sheet, width, metrics)
    return len(text.lines) * text.pitch_um + 2 * STAMP_PAD_UM + STAMP_GAP_UM


def _stamp_text(sheet: Sheet, width: int, metrics: Metrics) -> Fitted:
    return fit(sheet.stamp, STAMP, width - 2 * STAMP_HATCH_UM - 8_000, metrics)


def set_stamp(sheet: Sheet, width: int, metrics: Metrics) -> list[Box]:
    """A heavy frame with hatched ends: seen as a warning in black and white and after a photocopy."""
    text = _stamp_text(sheet, width, metrics)
    top, height = 1_500, stamp_height(sheet, width, metrics) - STAMP_GAP_UM
    boxes: list[Box] = [Frame(600, top, width - 1_200, height, 1_200)]
    for left in (2_200, width - 2_200 - STAMP_HATCH_UM):
        boxes.append(Hatch(left, top + 1_600, STAMP_HATCH_UM, height - 3_200, 2_400, 1_000))
    room = Room(STAMP_HATCH_UM + 4_000, top, width - 2 * STAMP_HATCH_UM - 8_000, height)
    first = top + (height - (len(text.lines) - 1) * text.pitch_um + text.cap_um) // 2
    for index, line in enumerate(text.lines):
        boxes.append(set_line(line, text, room, first + index * text.pitch_um, metrics, "centre"))
    return boxes


def footer_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """How much the footer takes above the bottom margin, 0 when it has nothing to say."""
    if not (sheet.replaces or sheet.cautions or sheet.returns):
        return 0
    height = FOOT_GAP_UM + sum(len(text.lines) * text.pitch_um for text in _foot_texts(sheet, width, metrics))
    return max(height, FOOT_GAP_UM + _returns_height(sheet, metrics) if sheet.returns else 0) + 600


def _foot_texts(sheet: Sheet, width: int, metrics: Metrics) -> list[Fitted]:
    room = width - (RETURNS_UM + 5_000 if sheet.returns else 0)
    texts = []
    if sheet.replaces:
        line = sheet.words.replaces.format(revision=sheet.replaces)
        texts.append(fit(line, SMALL_STRONG, room, metrics))
    texts.extend(fit(caution, SMALL_PRINT, room, metrics) for caution in sheet.cautions)
    return texts


def set_footer(sheet: Sheet, width: int, metrics: Metrics) -> list[Box]:
    """The footer from the left end of its rule: what to destroy, cautions, and where pen changes go."""
    boxes: list[Box] = [Rule(0, 0, width, 0, 250)]
    height = footer_height(sheet, width, metrics)
    room = Room(0, 0, width - (RETURNS_UM + 5_000 if sheet.returns else 0), height)
    y = FOOT_GAP_UM
    for text in _foot_texts(sheet, width, metrics):
        for line in text.lines:
            boxes.append(set_line(line, text, room, y + text.pitch_um * 8 // 10, metrics))
            y += text.pitch_um
    if sheet.returns:
        boxes.extend(_returns_box(sheet, width - RETURNS_UM, metrics))
    return boxes


def _returns_text(sheet: Sheet, metrics: Metrics) -> Fitted:
    return fit(sheet.words.returns.format(returns=sheet.returns), RETURNS, RETURNS_UM - 4_000, metrics)


def _returns_height(sheet: Sheet, metrics: Metrics) -> int:
    """The box for pen changes, taller where it takes more than a line to say whither they go."""
    text = _returns_text(sheet, metrics)
    return RETURNS_HIGH_UM + (len(text.lines) - 1) * text.pitch_um


def _returns_box(sheet: Sheet, left: int, metrics: Metrics) -> list[Box]:
    top, height = FOOT_GAP_UM, _returns_height(sheet, metrics)
    room = Room(left + 2_000, top, RETURNS_UM - 4_000, height)
    back = _returns_text(sheet, metrics)
    signed = fit(sheet.words.signed, SMALL_PRINT, room.width // 3, metrics)
    name = set_line(signed.lines[0], signed, room, top + height - 2_200, metrics)
    boxes: list[Box] = [Frame(left, top, RETURNS_UM, height, 300, 1_000), name]
    for index, line in enumerate(back.lines):
        boxes.append(set_line(line, back, room, top + 4_200 + index * back.pitch_um, metrics))
    boxes.append(Rule(name.ink.right + 1_200, top + height - 2_200, room.right, top + height - 2_200, 180))
    return boxes
