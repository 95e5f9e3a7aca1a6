"""Named printers: what the small file can say, and what it cannot."""

import re

import pytest

from paperwork.document import Printer, parse_printers
from tests.terminal import run
from tests.test_commands import CLEAN, write

WHOLE = """
[stage-left]
dpi = 203
right = 0.4
down = -0.25
across = 99.4
along = 100

[office]
"""


def test_lengths_are_exact_micrometres_and_what_is_not_told_is_plain():
    assert parse_printers(WHOLE) == {"stage-left": Printer(203, 400, -250, 99_400, 100_000), "office": Printer()}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[a]\nright = 40", "a: right must be -20 to 20 mm"),
        ("[a]\nacross = 994", "a: across must be 90 to 110 mm"),
        ("[a]\nright = '1'", "a: right is not a number"),
        ("[a]\nright = true", "a: right is not a number"),
        ("[a]\ndpi = nan", "a: dpi is not a number"),
        ("[a]\nleft = 1", "a: there is no left; it can hold dpi, right, down, across, along"),
        ("right = 1", "right is not a table: write [right] over its lines"),
        ("[a", "not TOML"),
    ],
)
def test_nonsense_is_told_in_words(text, told):
    with pytest.raises(ValueError, match=re.escape(told)):
        parse_printers(text)


def build(tmp_path, *more: str):
    write(tmp_path, "show.yaml", CLEAN)
    return run("build", "show.yaml", "-o", tmp_path / "out", "--only", "pack-labels", *more, cwd=tmp_path)


def test_a_named_printer_changes_the_labels(tmp_path):
    file = tmp_path / "printers.toml"
    file.write_text(WHOLE)
    made = []
    for more in ((), ("--printer", "office"), ("--printer", "stage-left"), ("--printer", "stage-left", "--dpi", "300")):
        result = build(tmp_path, *more, "--printers", str(file))
        assert result.returncode == 0, result.stderr
        made.append((tmp_path / "out/wardrobe/pack-labels.pdf").read_bytes())
    assert made[0] == made[1] and len(set(made)) == 3


def test_a_printer_that_is_not_there_is_named_with_those_that_are(tmp_path):
    file = tmp_path / "printers.toml"
    file.write_text(WHOLE)
    result = build(tmp_path, "--printer", "ofice", "--printers", str(file))
    assert (
        result.returncode == 2 and "no printer ofice; did you mean office? (it has stage-left, office)" in result.stderr
    )
    assert not (tmp_path / "out").exists()


def test_a_file_of_printers_that_cannot_be_read_is_told(tmp_path):
    result = build(tmp_path, "--printer", "office", "--printers", str(tmp_path / "none.toml"))
    assert result.returncode == 2 and "cannot read" in result.stderr


def test_a_proof_is_made_on_request(tmp_path):
    build(tmp_path)
    plain = (tmp_path / "out/wardrobe/pack-labels.pdf").read_bytes()
    assert build(tmp_path, "--proof").returncode == 0
    assert (tmp_path / "out/wardrobe/pack-labels.pdf").read_bytes() != plain
