"""One sweep written in any of the plain manners in which a sweep is exported: the manners are drawn, the sweep is known."""

from dataclasses import dataclass
from decimal import Decimal

from hypothesis import strategies as st

HERTZ = {"GHz": 10**9, "MHz": 10**6, "kHz": 10**3, "Hz": 1}
OFFSETS = {("dBm", 50): 0, ("dBm", 75): 0, ("dBW", 50): -3_000, ("dBuV", 50): 10_699, ("dBuV", 75): 10_875}
OFFSETS |= {("dBW", 75): -3_000, ("dBmV", 50): 4_699, ("dBmV", 75): 4_875}
"""What is added to hundredths of a dBm: 1 mW in R ohm is (R x 10^-3)^0.5 V."""

WORDS = {
    "en": ("Frequency", "Level"),
    "de": ("Frequenz", "Pegel"),
    "fr": ("Fréquence", "Niveau"),
    "es": ("Frecuencia", "Nivel"),
}
TITLES = (
    "Sweep of the hall",
    "Place;Corn Exchange, Brindle Quay",
    "RBW;10 kHz",
    "Date: 2027-03-01 16:20",
    "# swept before the company came",
    "Detector,Peak",
    "",
)
EXTRA = ("index", "average", "lowest", "time", "note")


@dataclass(frozen=True)
class Manner:
    """How it is written. `hertz_in`, `unit_in`: where the units are said: `head`, `cell`, `own cell`, or "" for nowhere."""

    layout: str = "table"
    separator: str = ","
    comma: bool = False
    quoted: bool = False
    hertz: str = "MHz"
    hertz_in: str = "head"
    unit: str = "dBm"
    ohm: int = 50
    unit_in: str = "head"
    language: str = "en"
    titles: tuple[str, ...] = ()
    extra: tuple[str, ...] = ()
    order: str = "up"
    doubled: bool = False
    headed: bool = True
    swapped: bool = False
    encoding: str = "utf-8"
    end: str = "\n"


def write(points, step_hz, manner):
    """The text of a sweep: `points` are pairs of hertz and hundredths of a dBm, evenly apart, from the lowest up."""
    rows = [(hz, level) for hz, level in points]
    if manner.doubled:
        rows = [pair for hz, level in rows for pair in ((hz, level - 700), (hz, level), (hz, level - 300))]
    if manner.order == "down":
        rows.reverse()
    elif manner.order == "odd first":
        rows = rows[::2] + rows[1::2]
    lines = list(manner.titles) + _LAYOUTS[manner.layout](rows, points, step_hz, manner)
    return manner.end.join(lines) + manner.end


def _number(value, manner, digits):
    text = f"{value.quantize(Decimal(1).scaleb(-digits)) if digits else value:f}"
    return text.replace(".", ",") if manner.comma else text


def _hz(hz, manner, where="cell"):
    value = Decimal(hz) / HERTZ[manner.hertz]
    text = _number(value, manner, {"GHz": 8, "MHz": 5, "kHz": 2, "Hz": 0}[manner.hertz])
    return f"{text} {manner.hertz}" if manner.hertz_in == where else text


def _level(cdbm, manner):
    value = Decimal(cdbm + OFFSETS[manner.unit, manner.ohm]) / 100
    text = _number(value, manner, 2)
    return f"{text} {manner.unit}" if manner.unit_in == "cell" else text


def _join(cells, manner):
    if manner.quoted:
        cells = [f'"{cell}"' for cell in cells]
    return manner.separator.join(cells)


def _heads(manner):
    frequency, level = WORDS[manner.language]
    frequency += f" ({manner.hertz})" if manner.hertz_in == "head" else ""
    level += f" [{manner.unit}]" if manner.unit_in == "head" else ""
    return frequency, level


def _cells(number, frequencies, level, manner):
    """The cells of a row, and what stands beside them."""
    own = [[one, manner.hertz] if manner.hertz_in == "own cell" else [one] for one in frequencies]
    value = [_level(level, manner), manner.unit] if manner.unit_in == "own cell" else [_level(level, manner)]
    parts = [*own, value][::-1] if manner.swapped else [*own, value]
    beside = {
        "index": str(number),
        "average": _number(Decimal(level - 650) / 100, manner, 2),
        "lowest": _number(Decimal(level - 2_150) / 100, manner, 2),
        "time": "16:20:07",
        "note": "stage left",
    }
    before = [beside[one] for one in manner.extra if one in ("index", "time")]
    return [
        *before,
        *(cell for part in parts for cell in part),
        *(beside[one] for one in manner.extra if one not in ("index", "time")),
    ]


def _head_line(names, manner):
    level = names[-1]
    if any(one in manner.extra for one in ("average", "lowest")):
        level = f"Max hold{level.removeprefix(WORDS[manner.language][1])}"
    parts = [*names[:-1], level][::-1] if manner.swapped else [*names[:-1], level]
    known = {"index": "#", "average": "Average", "lowest": "Min hold", "time": "Time", "note": "Note"}
    before = [known[one] for one in manner.extra if one in ("index", "time")]
    return _join([*before, *parts, *(known[one] for one in manner.extra if one not in ("index", "time"))], manner)


def _table(rows, points, step_hz, manner):
    lines = [_head_line(_heads(manner), manner)] if manner.headed else []
    return lines + [
        _join(_cells(at, [_hz(hz, manner)], level, manner), manner) for at, (hz, level) in enumerate(rows, 1)
    ]


def _edges(rows, points, step_hz, manner):
    frequency, level = _heads(manner)
    unit = frequency.partition(" ")[2]
    lines = [_head_line((f"Start {unit}".strip(), f"Stop {unit}".strip(), level), manner)] if manner.headed else []
    half = step_hz // 2
    return lines + [
        _join(_cells(at, [_hz(hz - half, manner), _hz(hz + half, manner)], level, manner), manner)
        for at, (hz, level) in enumerate(rows, 1)
    ]


def _keys(points, manner):
    separator = manner.separator if manner.separator != "," or not manner.comma else ";"
    lines = [
        f"Start{separator}{_hz(points[0][0], manner, 'head')}",
        f"Stop{separator}{_hz(points[-1][0], manner, 'head')}",
    ]
    lines += [f"Points{separator}{len(points)}"]
    return lines + ([f"Unit{separator}{manner.unit}"] if manner.unit_in == "head" else [])


def _column(rows, points, step_hz, manner):
    return _keys(points, manner) + [_join([_level(level, manner)], manner) for _, level in points]


def _row(rows, points, step_hz, manner):
    return _keys(points, manner) + [_join([_level(level, manner) for _, level in points], manner)]


def _two_rows(rows, points, step_hz, manner):
    frequency, level = _heads(manner)
    return [
        _join([frequency, *(_hz(hz, manner) for hz, _ in rows)], manner),
        _join([level, *(_level(one, manner) for _, one in rows)], manner),
    ]


_LAYOUTS = {"table": _table, "edges": _edges, "column": _column, "row": _row, "two rows": _two_rows}


def truth(points, step_hz, manner):
    """The levels as they are to be read."""
    half = step_hz // 2 if manner.layout == "edges" else 0
    return tuple((hz - half, hz + half, level) for hz, level in points)


def stated(manner):
    """What the show has to say of the levels: a unit where the file names none, and the impedance."""
    return ("" if manner.unit_in else manner.unit), f"{manner.ohm} ohm"


@st.composite
def sweeps(draw):
    """Points evenly apart, none of which could be anything but dBm in its unit."""
    step_hz = draw(st.sampled_from((10_000, 12_500, 25_000, 100_000, 1_000_000)))
    start_hz = draw(st.integers(470, 690)) * 10**6 + draw(st.integers(0, 3)) * 12_500
    levels = draw(st.lists(st.integers(-11_500, -6_000), min_size=3, max_size=14, unique=True))
    return [(start_hz + at * step_hz, level) for at, level in enumerate(levels)], step_hz


@st.composite
def manners(draw):
    """Any combination that a person could read."""
    comma = draw(st.booleans())
    separator = draw(st.sampled_from((",", ";", "\t", "|", " ")))
    quoted = draw(st.booleans()) if separator != " " else False
    if comma and separator == "," and not quoted:
        separator = ";"
    layout = draw(st.sampled_from(("table", "table", "table", *_LAYOUTS)))
    wheres = ("head", "cell", "") if separator == " " or layout == "two rows" else ("head", "cell", "own cell", "")
    headed = draw(st.sampled_from((True, True, False))) or layout not in ("table", "edges")
    hertz_in, unit_in = draw(st.sampled_from(wheres)), draw(st.sampled_from(wheres))
    if separator == " " or not headed:
        hertz_in, unit_in = (
            one if one in ("cell", "own cell") and separator != " " else "" for one in (hertz_in, unit_in)
        )
    if layout in ("column", "row"):
        hertz_in, unit_in = draw(st.sampled_from(("head", ""))), "head" if unit_in == "own cell" else unit_in
    extra = (
        tuple(draw(st.lists(st.sampled_from(EXTRA), unique=True, max_size=3))) if layout in ("table", "edges") else ()
    )
    if not headed or separator == " ":
        extra = ()
    return Manner(
        layout,
        separator,
        comma,
        quoted,
        draw(st.sampled_from(tuple(HERTZ))),
        hertz_in,
        draw(st.sampled_from(("dBm", "dBm", "dBuV", "dBmV", "dBW"))),
        draw(st.sampled_from((50, 75))),
        unit_in,
        draw(st.sampled_from(tuple(WORDS))),
        tuple(draw(st.lists(st.sampled_from(TITLES), max_size=3))),
        extra,
        draw(st.sampled_from(("up", "up", "down", "odd first"))),
        draw(st.booleans()) if layout in ("table", "edges") else False,
        headed,
        draw(st.booleans()) if layout == "table" and headed else False,
        draw(st.sampled_from(("utf-8", "utf-8-sig", "utf-16"))),
        draw(st.sampled_from(("\n", "\r\n", "\r"))),
    )
