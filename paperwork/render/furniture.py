"""What every page carries: the masthead with its revision box, the footer."""

from collections.abc import Iterator

from paperwork.document import Sheet
from paperwork.document.styles import (
    CODE,
    CUT_REVISION,
    CUT_TITLE,
    DATED,
    PAGE,
    RETURNS,
    REVISION,
    SMALL_PRINT,
    SMALL_STRONG,
    SUBTITLE,
    TITLE,
    Style,
)  # fmt: skip
from paperwork.finding import Finding
from paperwork.render.boxes import HAIR_UM, HEAVY_UM, LINE_UM, Box, Fill, Frame, Layout, Open, Page, Room, Rule, wrap
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter
from paperwork.text.words import words_of

LEFT_UM, RIGHT_UM, TOP_UM, BOTTOM_UM = 13_000, 12_000, 11_000, 10_000
"""Margins. Lasers lose 4 to 6 mm at an edge (from memory); the left one also holds the marks of changed rows."""

CUT_SIDE_UM, CUT_TOP_UM, CUT_BOTTOM_UM = 7_500, 7_000, 9_000
"""What a page that is cut up keeps free: no mark is beside it, a ruler under it; a millimetre may be a card more."""

CUT_TITLE_FOOT_UM, CUT_UNDER_UM, CUT_AIR_UM = 3_800, 7_600, 600
"""The head of a page that is cut up, which nobody looks for on a wall: the base lines of its title and under it, and
what is free below."""

REVISION_KEY = "revision"
"""The part of a page that is its revision, code and number."""

BOX_WIDTH_UM, BOX_HEIGHT_UM = 60_000, 15_000
CUT_WIDE_UM, CUT_BOX_UM = 70_000, 8_600
SQUARE_UM = 15_000
HEAD_GAP_UM = 5_000
HEAD_RIGHT_UM = BOX_WIDTH_UM + HEAD_GAP_UM
MASTHEAD_UM = 17_600
"""From the top margin to the masthead's rule, with two lines under the title; more lines make it taller."""

UNDER_UM = 11_200
"""The baseline under the title: its accents and apostrophes clear the title's descenders."""

TITLE_FOOT_UM = 6_200
"""The title's baseline; the line under it keeps clear of its descenders."""

ACCENT_UM = 5_000
"""What accents on the title's capitals may take of the top margin."""

RULER_UM = 100_000
RULER_FOOT_UM = 6_200
"""From the foot of the paper to a ruler under the footer: what a laser leaves."""

RETURNS_UM, RETURNS_HIGH_UM = 68_000, 10_200
FOOT_GAP_UM = 1_600


def make_layout(sheet: Sheet, pages: tuple[Page, ...], findings: tuple[Finding, ...], *, scaling: bool) -> Layout:
    """The pages as the layout of the sheet, which says of which show and revision it is."""
    words = words_of(sheet.language)
    about = words["file about"].format(show=sheet.show, revision=sheet.revision) if sheet.revision else sheet.show
    return Layout(sheet.title, sheet.show, pages, findings, scaling, sheet.language, about.removeprefix(", ").strip())


def masthead_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """From the top margin to under the masthead's rule."""
    under = fit(_under_title(sheet), SUBTITLE, width - HEAD_RIGHT_UM, metrics)
    return MASTHEAD_UM + max(0, len(under.lines) - 2) * under.pitch_um


def set_masthead(sheet: Sheet, code: str, page: str, width: int, setter: Typesetter) -> list[Box]:
    """The masthead from the left end of its first line, `width` wide."""
    height = masthead_height(sheet, width, setter.metrics)
    room = Room(0, -ACCENT_UM, width - HEAD_RIGHT_UM, height + ACCENT_UM)
    title = setter.fit(sheet.title, TITLE, room.width)
    boxes = wrap(Open("H1", "title", once=True), [setter.line(title, room, TITLE_FOOT_UM)])
    parts = _under_title(sheet)
    if parts:
        under = setter.fit(parts, SUBTITLE, room.width)
        first = max(UNDER_UM, TITLE_FOOT_UM + title.drop_um + under.rise_um + 100)
        boxes += wrap(Open("P", "under", once=True), setter.lines(under, room, first))
    signs = _set_revision(sheet, code, page, width - BOX_WIDTH_UM, setter)
    boxes += wrap(Open("P", REVISION_KEY, once=True), signs)
    boxes.append(Rule(0, height - 500, width, height - 500, HEAVY_UM))
    return boxes


def cut_head_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """The same of a page that is cut up, whose head has no rule."""
    under, first = _cut_under(sheet, width, metrics)
    foot = first + (len(under.lines) - 1) * under.pitch_um + under.drop_um + CUT_AIR_UM
    return max(CUT_BOX_UM + CUT_AIR_UM, foot)


def _cut_under(sheet: Sheet, width: int, metrics: Metrics) -> tuple[Fitted, int]:
    """What is under the title of a page that is cut up, and its base line, clear of the title's descenders."""
    room = width - CUT_WIDE_UM - HEAD_GAP_UM
    title, under = fit(sheet.title, CUT_TITLE, room, metrics), fit(_under_title(sheet), SUBTITLE, room, metrics)
    return under, max(CUT_UNDER_UM, CUT_TITLE_FOOT_UM + title.drop_um + under.rise_um + 100)


def set_cut_head(sheet: Sheet, code: str, page: str, width: int, setter: Typesetter) -> list[Box]:
    """The head of a page that is cut up: the same texts, lower, on two lines."""
    height = cut_head_height(sheet, width, setter.metrics)
    room = Room(0, -ACCENT_UM, width - CUT_WIDE_UM - HEAD_GAP_UM, height + ACCENT_UM)
    title = setter.line(setter.fit(sheet.title, CUT_TITLE, room.width), room, CUT_TITLE_FOOT_UM)
    boxes = wrap(Open("H1", "title", once=True), [title])
    if _under_title(sheet):
        under, first = _cut_under(sheet, width, setter.metrics)
        setter.record(_under_title(sheet), under)
        boxes += wrap(Open("P", "under", once=True), setter.lines(under, room, first))
    return boxes + wrap(Open("P", REVISION_KEY, once=True), _set_cut_revision(sheet, code, page, width, setter))


def _set_cut_revision(sheet: Sheet, code: str, page: str, width: int, setter: Typesetter) -> Iterator[Box]:
    """Revision and code in one line, the page over the date at its right."""
    left = width - CUT_WIDE_UM
    yield Frame(left, 0, CUT_WIDE_UM, CUT_BOX_UM, LINE_UM)
    start = left + 2_000
    if sheet.revision:
        yield Fill(left, 0, CUT_BOX_UM, CUT_BOX_UM)
        square = Room(left + 600, 0, CUT_BOX_UM - 1_200, CUT_BOX_UM)
        yield setter.set(sheet.revision, CUT_REVISION, square, align="centre", white=True)
        start = left + CUT_BOX_UM + 2_000
    inner = Room(start, 0, width - 1_600 - start, CUT_BOX_UM)
    signs = setter.fit(code, CODE, inner.width // 2)
    yield setter.line(signs, inner, (CUT_BOX_UM + signs.cap_um) // 2)
    taken = signs.width_um(setter.metrics) + 2_000
    inner = inner._replace(x=inner.x + taken, width=inner.width - taken)
    yield setter.line(setter.fit(page, PAGE, inner.width), inner, 3_900, "right")
    if sheet.dated:
        yield setter.set(sheet.dated, DATED, inner, 7_400, "right")


def _under_title(sheet: Sheet) -> str:
    return "  ·  ".join(part for part in (sheet.show, sheet.venue, *sheet.subtitle) if part)


def _set_revision(sheet: Sheet, code: str, page: str, left: int, setter: Typesetter) -> Iterator[Box]:
    """The revision white on black, found from across the room; beside it code, page and date."""
    yield Frame(left, 0, BOX_WIDTH_UM, BOX_HEIGHT_UM, LINE_UM)
    start = left
    if sheet.revision:
        yield Fill(left, 0, SQUARE_UM, BOX_HEIGHT_UM)
        square = Room(left + 1_000, 0, SQUARE_UM - 2_000, BOX_HEIGHT_UM)
        yield setter.set(sheet.revision, REVISION, square, align="centre", white=True)
        start = left + SQUARE_UM
    inner = Room(start + 3_000, 0, left + BOX_WIDTH_UM - start - 6_000, BOX_HEIGHT_UM)
    yield setter.line(setter.fit(code, CODE, inner.width // 2), inner, 7_400)
    yield setter.line(setter.fit(page, PAGE, inner.width // 2), inner, 7_400, "right")
    if sheet.dated:
        yield setter.set(sheet.dated, DATED, inner, 12_200)


def footer_height(sheet: Sheet, width: int, metrics: Metrics) -> int:
    """How much the footer takes above the bottom margin, 0 when it has nothing to say."""
    if not (sheet.replaces or sheet.cautions or sheet.returns):
        return 0
    texts = [fit(text, style, _foot_width(sheet, width), metrics) for text, style in _foot_texts(sheet)]
    height = FOOT_GAP_UM + sum(_lead_um(text) + len(text.lines) * text.pitch_um for text in texts)
    if sheet.returns:
        returns = fit(_returns_text(sheet), RETURNS, RETURNS_UM - 4_000, metrics)
        height = max(height, FOOT_GAP_UM + _returns_height(returns))
    return height + 600


def _lead_um(text: Fitted) -> int:
    """What accents on the first line take beyond its pitch, clear of the descenders above."""
    return max(0, text.rise_um - text.pitch_um * 8 // 10)


def _foot_width(sheet: Sheet, width: int) -> int:
    return width - (RETURNS_UM + 5_000 if sheet.returns else 0)


def _foot_texts(sheet: Sheet) -> Iterator[tuple[str, Style]]:
    if sheet.replaces:
        yield words_of(sheet.language)["replaces"].format(revision=sheet.replaces), SMALL_STRONG
    yield from ((caution, SMALL_PRINT) for caution in sheet.cautions)


def set_footer(sheet: Sheet, width: int, setter: Typesetter) -> list[Box]:
    """The footer from the left end of its rule: what to destroy, cautions, and where pen changes go."""
    boxes: list[Box] = [Rule(0, 0, width, 0, LINE_UM)]
    room = Room(0, 0, _foot_width(sheet, width), footer_height(sheet, width, setter.metrics))
    y = FOOT_GAP_UM
    for said, style in _foot_texts(sheet):
        text = setter.fit(said, style, room.width)
        y += _lead_um(text)
        boxes += wrap(Open("P"), setter.lines(text, room, y + text.pitch_um * 8 // 10))
        y += len(text.lines) * text.pitch_um
    if sheet.returns:
        boxes += wrap(Open("P"), _set_returns(sheet, width - RETURNS_UM, setter))
    return wrap(Open("Div", "foot", once=True), boxes)


def list_ticks(left: int, y: int, long: int) -> Iterator[Box]:
    """A ruler's line with its eleven ticks."""
    yield Rule(left, y, left + long, y, HAIR_UM)
    for tick in range(11):
        x = left + long * tick // 10
        yield Rule(x, y, x, y + (2_200 if tick % 5 == 0 else 1_200), HAIR_UM)


def set_ruler(sheet: Sheet, width: int, setter: Typesetter) -> list[Box]:
    """A line that is 100 mm on paper, from its ticks' upper ends, and what it is for: on whatever is cut to size."""
    room = Room(RULER_UM + 3_000, -1_000, width - RULER_UM - 3_000, 4_200)
    text = setter.fit(words_of(sheet.language)["ruler"], SMALL_PRINT, room.width)
    return wrap(Open("Artifact"), [*list_ticks(0, 0, RULER_UM), setter.line(text, room, text.cap_um)])


def _returns_text(sheet: Sheet) -> str:
    return words_of(sheet.language)["returns"].format(returns=sheet.returns)


def _returns_height(text: Fitted) -> int:
    """The box for pen changes, taller where it takes more than a line to say whither they go."""
    return RETURNS_HIGH_UM + (len(text.lines) - 1) * text.pitch_um


def _set_returns(sheet: Sheet, left: int, setter: Typesetter) -> list[Box]:
    text = setter.fit(_returns_text(sheet), RETURNS, RETURNS_UM - 4_000)
    top, height = FOOT_GAP_UM, _returns_height(text)
    room = Room(left + 2_000, top, RETURNS_UM - 4_000, height)
    signed = setter.fit(words_of(sheet.language)["signed"], SMALL_PRINT, room.width // 3)
    name = setter.line(signed, room, top + height - 2_200)
    boxes: list[Box] = [Frame(left, top, RETURNS_UM, height, LINE_UM, 1_000)]
    boxes += [*setter.lines(text, room, top + 3_800), name]
    boxes.append(Rule(name.ink.right + 1_200, top + height - 2_200, room.right, top + height - 2_200, LINE_UM))
    return boxes
