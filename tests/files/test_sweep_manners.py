"""One sweep is read to the same levels in whatever plain manner it is written, or is a question: never to something else."""

import pytest
from hypothesis import given, settings

from paperwork.files.sweep import StatedUnit, read_sweep
from tests.few import few_examples
from tests.files.sweep_manners import HERTZ, Manner, manners, stated, sweeps, truth, write

STEP_HZ = 25_000
POINTS = [
    (518_000_000 + at * STEP_HZ, level) for at, level in enumerate((-10_120, -9_733, -6_418, -8_850, -11_004, -10_391))
]

FORMS = {
    "two columns": Manner(),
    "no heading": Manner(headed=False, hertz_in="", unit_in=""),
    "quoted": Manner(quoted=True),
    "quoted with decimal commas": Manner(quoted=True, comma=True),
    "semicolons and decimal commas": Manner(separator=";", comma=True, language="de"),
    "commas between columns and in numbers": Manner(comma=True, headed=False, hertz_in="", unit_in=""),
    "tabs": Manner(separator="\t", language="fr"),
    "bars": Manner(separator="|"),
    "blanks": Manner(separator=" ", headed=False, hertz_in="", unit_in=""),
    "blanks and decimal commas": Manner(separator=" ", comma=True, headed=False, hertz_in="", unit_in=""),
    "extra columns": Manner(extra=("index", "time", "average", "lowest", "note")),
    "level first": Manner(swapped=True, language="es"),
    "title lines": Manner(titles=("Sweep of the hall", "RBW;10 kHz", "", "Date: 2027-03-01 16:20", "Detector,Peak")),
    "units in cells": Manner(hertz_in="cell", unit_in="cell"),
    "units in cells of their own": Manner(separator=";", hertz_in="own cell", unit_in="own cell"),
    "two edges": Manner(layout="edges"),
    "two edges without a heading": Manner(layout="edges", headed=False, hertz_in="", unit_in=""),
    "levels below start, stop and points": Manner(layout="column"),
    "the same with decimal commas": Manner(layout="column", separator=";", comma=True),
    "the same with units in cells": Manner(layout="column", comma=True, separator=";", unit="dBW", unit_in="cell"),
    "levels in a row after start, stop and points": Manner(layout="row"),
    "a row of frequencies and a row of levels": Manner(layout="two rows", titles=("Sweep of the hall",)),
    "from the highest down": Manner(order="down"),
    "two edges from the highest down": Manner(layout="edges", order="down", headed=False, hertz_in="", unit_in=""),
    "three passes": Manner(doubled=True),
    "a byte-order mark": Manner(encoding="utf-8-sig"),
    "sixteen bits a sign": Manner(encoding="utf-16", separator="\t"),
    "line ends of two signs": Manner(end="\r\n"),
    **{hertz: Manner(hertz=hertz) for hertz in HERTZ},
    **{f"{hertz}, unsaid": Manner(hertz=hertz, hertz_in="") for hertz in HERTZ},
    **{
        f"{unit} at {ohm} ohm": Manner(unit=unit, ohm=ohm)
        for unit in ("dBm", "dBuV", "dBmV", "dBW")
        for ohm in (50, 75)
    },
    "dBuV in cells": Manner(unit="dBuV", unit_in="cell"),
    "dBuV that the show states": Manner(unit="dBuV", unit_in=""),
}


def read(tmp_path, text, manner):
    (tmp_path / "sweep.csv").write_bytes(text.encode(manner.encoding))
    return read_sweep(tmp_path / "sweep.csv", "sweep.csv", StatedUnit(*stated(manner)))


@pytest.mark.parametrize("name", FORMS)
def test_every_plain_form_is_read_to_the_same_levels_in_the_same_bins(tmp_path, name):
    manner = FORMS[name]
    assert read(tmp_path, write(POINTS, STEP_HZ, manner), manner) == (truth(POINTS, STEP_HZ, manner), ())


@settings(max_examples=few_examples(300), deadline=None)
@given(sweeps(), manners())
def test_a_sweep_in_any_mixture_of_manners_is_read_right_or_asked_about(tmp_path_factory, sweep, manner):
    points, step_hz = sweep
    levels, findings = read(tmp_path_factory.getbasetemp(), write(points, step_hz, manner), manner)
    if levels:
        assert (levels, findings) == (truth(points, step_hz, manner), ())
    else:
        assert [one.severity for one in findings] == ["error"]
