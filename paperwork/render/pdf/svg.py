"""The same boxes as SVG, one file a page, for eyes: letters as outlines, so that a page looks the same everywhere.

Nothing of the show's text is markup here: a text is drawn from the outlines of its letters, and the only words in a
file are its escaped title. There is no script, no link and no font, so that a browser may show it as a picture.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from html import escape

from paperwork.render.boxes import Close, Fill, Frame, Hatch, Open, Page, QrBox, Rule, Shape, TextBox
from paperwork.render.pdf.outlines import outline_of
from paperwork.render.text.faces import FACES, open_face
from paperwork.text.glyphs import is_scripted

_DASHES = "1411 706"
_DOTS = "212 564"
"""The same dashes as in the PDF, there in points: 4 and 2, 0.6 and 1.6."""

_SHORT = dict(zip(FACES, "abcdefghijklmnopqrstuvwxyz", strict=False))


def paint_svg(page: Page, title: str) -> bytes:
    """The page as one SVG file in UTF-8, a micrometre the unit, with the title for screen readers."""
    boxes = tuple(page.boxes)
    shapes = [drawn for box in boxes if not isinstance(box, TextBox | Open | Close) for drawn in _paint_shape(box)]
    texts = [box for box in boxes if isinstance(box, TextBox) and box.text]
    said = dict.fromkeys((box.face, box.text) for box in texts if not is_scripted(box.text))
    letters = dict.fromkeys((face, sign) for face, text in said for sign in text)
    defined = dict(_define_scripted([box for box in texts if is_scripted(box.text)]))
    defined.update((_name(*letter), outline_of(*letter)) for letter in letters)
    drawn = (f'<path id="{name}" d="{path}"/>' for name, path in defined.items() if path)
    width, height = page.width, page.height
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width / 1000:g}mm" height="{height / 1000:g}mm" '
        f'viewBox="0 0 {width} {height}" role="img">'
        f"<title>{escape(_clean(title))}</title>"
    )
    paper = f'<path fill="#fff" d="M0 0h{width}v{height}h-{width}z"/>'
    parts = (head, f"<defs>{''.join(drawn)}</defs>", paper, *shapes, *map(_paint_text, texts), "</svg>\n")
    return "\n".join(parts).encode("utf-8", "xmlcharrefreplace")


def _paint_text(box: TextBox) -> str:
    scale = box.cap_um / FACES[box.face].cap
    white = ' fill="#fff"' if box.white else ""
    turned = "rotate(-90) " if box.turned else ""
    letters = (_spell_scripted if is_scripted(box.text) else _spell)(box.face, box.text)
    return f'<g{white} transform="translate({box.x} {box.y}) {turned}scale({scale:.4f} -{scale:.4f})">{letters}</g>'


@lru_cache(maxsize=4096)
def _spell(face: str, text: str) -> str:
    """The letters of a text on their places, in thousandths of the em."""
    opened = open_face(face)
    uses, x = [], 0
    for sign in text:
        if outline_of(face, sign):
            uses.append(f'<use href="#{_name(face, sign)}" x="{x}"/>' if x else f'<use href="#{_name(face, sign)}"/>')
        x += round(opened.charWidths.get(ord(sign), opened.defaultWidth))
    return "".join(uses)


def _define_scripted(texts: Iterable[TextBox]) -> Iterator[tuple[str, str]]:
    """Name and path of every letter of texts in other scripts."""
    for box in texts:
        from paperwork.render.text.runs import shape_text
        from paperwork.render.text.scripts import shape_of

        for piece in shape_text(box.text, box.face).pieces:
            yield from (
                (_glyph_name(piece.face, glyph.id), shape_of(piece.face, glyph.id).path) for glyph in piece.glyphs
            )
            if not piece.glyphs:
                yield from ((_name(piece.face, sign), outline_of(piece.face, sign)) for sign in piece.text)


@lru_cache(maxsize=1024)
def _spell_scripted(face: str, text: str) -> str:
    """The pieces of a text in several scripts on their places, each script's in a group of its own scale."""
    from paperwork.render.text.runs import shape_text
    from paperwork.render.text.scripts import shape_of

    parts = []
    for piece in shape_text(text, face).pieces:
        drawn = (glyph for glyph in piece.glyphs if shape_of(piece.face, glyph.id).path)
        uses = "".join(f'<use href="#{_glyph_name(piece.face, one.id)}" x="{one.x}" y="{one.y}"/>' for one in drawn)
        scale = f" scale({piece.size / 1000:g})" if piece.size != 1_000 else ""
        parts.append(f'<g transform="translate({piece.x}){scale}">{uses or _spell(piece.face, piece.text)}</g>')
    return "".join(parts)


def _glyph_name(face: str, glyph: int) -> str:
    """The name of a letter of a script's face."""
    return f"{face.replace(' ', '-')}-{glyph}"


def _name(face: str, sign: str) -> str:
    """The name of a letter: the same on every page, so that a text is spelt once."""
    return f"{_SHORT[face]}{ord(sign):x}"


def _paint_shape(box: Shape) -> list[str]:
    match box:
        case Fill(x=x, y=y, width=w, height=h):
            return [f'<path d="M{x} {y}h{w}v{h}h-{w}z"/>']
        case Frame(x=x, y=y, width=w, height=h, stroke=stroke, radius=radius, dashed=dashed):
            look = f' rx="{radius}"' if radius else ""
            look += f' stroke-dasharray="{_DASHES}"' if dashed else ""
            return [
                f'<rect x="{x}" y="{y}" width="{w}" height="{h}" fill="none" stroke="#000" stroke-width="{stroke}"{look}/>'
            ]
        case Rule(stroke=stroke, dotted=dotted):
            look = f' stroke-dasharray="{_DOTS}"' if dotted else ""
            return [f'<path d="M{box.x1} {box.y1}L{box.x2} {box.y2}" stroke="#000" stroke-width="{stroke}"{look}/>']
        case Hatch():
            return [_paint_hatch(box)]
        case QrBox(x=x, y=y, dots=dots, dpi=dpi, runs=runs):
            module = dots * 25_400 / dpi
            path = "".join(f"M{column} {row}h{width}v{high}h-{width}z" for row, column, width, high in runs)
            return [
                f'<path transform="translate({x} {y}) scale({module:.4f})" shape-rendering="crispEdges" d="{path}"/>'
            ]


def _paint_hatch(box: Hatch) -> str:
    """Slanted lines, each cut to the rectangle here, so that no clip is needed."""
    path = []
    for offset in range(-box.height, box.width + box.height, box.pitch * 1414 // 1000):
        low, high = max(0, -offset), min(box.height, box.width - offset)
        if low < high:
            x, bottom = box.x + offset, box.y + box.height
            path.append(f"M{x + low} {bottom - low}L{x + high} {bottom - high}")
    return f'<path stroke="#000" stroke-width="{box.stroke}" d="{"".join(path)}"/>'


def _clean(text: str) -> str:
    """The text without the control signs that XML 1.0 does not allow (2.2)."""
    return "".join(
        sign for sign in text if sign >= " " and not 0xD800 <= ord(sign) <= 0xDFFF and sign not in "\ufffe\uffff"
    )
