"""Shapes as operators of a PDF page (ISO 32000-1, 8.4 and 8.5), in whole micrometres from the lower left corner."""

from paperwork.render.boxes import Fill, Frame, Hatch, QrBox, Rule, Shape

POINTS_PER_UM = 72 / 25_400

SCALE = f"{POINTS_PER_UM:.12f} 0 0 {POINTS_PER_UM:.12f} 0 0 cm"
"""Makes a micrometre the unit of all that follows on the page."""

_DASHES = "[1411 706] 0 d"
_DOTS = "[212 564] 0 d"
"""In points 4 and 2, 0.6 and 1.6."""

_ROUND = 0.5523
"""How far along a tangent a Bezier curve's control point lies to come nearest to a quarter of a circle (4/3 * (sqrt(2) - 1))."""


def draw_shape(box: Shape, height: int) -> str:
    """The operators of one shape on a page of a height. They leave the state as it was but for the width of lines."""
    match box:
        case Fill(x, y, w, h):
            return f"{x} {height - y - h} {w} {h} re f"
        case Frame(x, y, w, h, stroke, radius, dashed):
            path = _round_path(x, height - y - h, w, h, radius) if radius else f"{x} {height - y - h} {w} {h} re"
            return f"{stroke} w {_DASHES} {path} S [] 0 d" if dashed else f"{stroke} w {path} S"
        case Rule(x1, y1, x2, y2, stroke, dotted):
            path = f"{x1} {height - y1} m {x2} {height - y2} l S"
            return f"{stroke} w {_DOTS} {path} [] 0 d" if dotted else f"{stroke} w {path}"
        case Hatch():
            return _draw_hatch(box, height)
        case QrBox():
            return _draw_code(box, height)


def _round_path(x: int, y: int, width: int, height: int, radius: int) -> str:
    """A rectangle with round corners, from the end of its first corner on."""
    right, top, near = x + width, y + height, round(radius * (1 - _ROUND))
    return (
        f"{x + radius} {y} m {right - radius} {y} l {right - near} {y} {right} {y + near} {right} {y + radius} c "
        f"{right} {top - radius} l {right} {top - near} {right - near} {top} {right - radius} {top} c "
        f"{x + radius} {top} l {x + near} {top} {x} {top - near} {x} {top - radius} c "
        f"{x} {y + radius} l {x} {y + near} {x + near} {y} {x + radius} {y} c h"
    )


def _draw_hatch(box: Hatch, height: int) -> str:
    """Slanted lines, cut off by the rectangle."""
    low, high = height - box.y - box.height, height - box.y
    lines = " ".join(
        f"{box.x + offset} {low} m {box.x + offset + box.height} {high} l"
        for offset in range(-box.height, box.width + box.height, box.pitch * 1414 // 1000)
    )
    return f"q {box.x} {low} {box.width} {box.height} re W n {box.stroke} w {lines} S Q"


def _draw_code(box: QrBox, height: int) -> str:
    """One path of whole modules under one scale: no seams between modules, no resampling, a tiny stream."""
    module = box.dots * 25_400 / box.dpi
    path = " ".join(f"{column} {row} {width} {high} re" for row, column, width, high in box.runs)
    return f"q {module:.6f} 0 0 {-module:.6f} {box.x} {height - box.y} cm {path} f Q"
