"""`paperwork check --fix` on every broken show, and its edits for programs: what needs no decision is made or listed."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from paperwork.commands.check import command
from paperwork.commands.convert import command as convert
from paperwork.finding import parse_edit
from paperwork.reading import read_show
from paperwork.terminal import Outcome
from tests.shows_text import EXAMPLES
from tests.test_broken_shows import SHOWS

SLIPS = """\
# slips behind one another, and two channels on one frequency
shwo: {title: Gala, venu: Pier}
chanels:
  07: {by: Ann, mzh: 486.200}   # first
  08: {by: Bo, mhz: 486.200}
"""

OFFERING = [path for path in SHOWS if any(one.edits for one in read_show(path, path.name).findings)]


def check(*arguments: object) -> Outcome:
    made = CliRunner().invoke(command, [*map(str, arguments)], standalone_mode=False)
    assert made.exception is None and isinstance(made.return_value, Outcome), made.exception
    return made.return_value


def results(path: Path) -> list:
    return json.loads(check(path, "--format", "sarif").text)["runs"][0]["results"]


@pytest.fixture
def beside(tmp_path: Path) -> Path:
    """A folder with the files that broken shows name."""
    for path in SHOWS[0].parent.rglob("*.csv"):
        copy = tmp_path / path.relative_to(SHOWS[0].parent)
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(path.read_bytes())
    return tmp_path


def test_a_slip_within_a_slip_is_mended_after_it(tmp_path):
    (tmp_path / "show.yaml").write_text(SLIPS, encoding="utf-8")
    outcome = check(tmp_path / "show.yaml", "--fix", "-o", tmp_path / "new.yaml")
    lines = (tmp_path / "new.yaml").read_text(encoding="utf-8").splitlines()
    assert lines[1:4] == ["show: {title: Gala, venue: Pier}", "channels:", "  07: {by: Ann, mhz: 486.200}   # first"]
    said = [line for line in outcome.aside.splitlines() if "is called" in line]
    assert [line.split(": is called ")[1] for line in said] == ["show", "channels", "venue", "mhz"]
    assert read_show(tmp_path / "new.yaml", "new.yaml").show is not None and outcome.code == 0


@pytest.mark.parametrize("path", OFFERING, ids=lambda path: path.stem)
def test_no_broken_show_gets_worse_and_every_edit_that_was_not_made_is_listed(path, beside):
    before = read_show(path, path.name)
    outcome = check(path, "--fix", "-o", beside / "new.yaml")
    is_written = (beside / "new.yaml").exists()
    after = read_show(beside / "new.yaml", path.name) if is_written else before
    assert is_written == ("was not written" not in outcome.aside)
    assert all(str(edit) in outcome.aside for one in after.findings for edit in one.edits)
    if before.show:  # else errors that a slip hid may come to light
        errors = [sum(one.severity == "error" for one in reading.findings) for reading in (before, after)]
        assert errors[1] <= errors[0] and after.show


def test_a_clean_show_has_nothing_to_mend(tmp_path):
    outcome = check(EXAMPLES / "show.yaml", "--fix", "-o", tmp_path / "new.yaml")
    assert outcome.code == 0 and "was not written" in outcome.aside and not [*tmp_path.iterdir()]


def test_json_gives_the_edits_of_each_finding_as_set_takes_them():
    for path in OFFERING:
        texts = [text for one in json.loads(check(path, "--format", "json").text) for text in one["edits"]]
        assert texts and all(str(parse_edit(text)) == text for text in texts)


def test_a_region_counts_from_behind_the_byte_order_mark_in_code_points(tmp_path):
    line = "  2: {by: \U0001f3a4 Bo, mhz: 486.200}"
    text = f"\ufeffchannels:\r\n  1: {{by: Ann, mhz: 486.200}}\r\n{line}\r\n"
    (tmp_path / "show.yaml").write_bytes(text.encode())
    (result,) = [one for one in results(tmp_path / "show.yaml") if "fixes" in one]
    (one,) = result["fixes"][0]["artifactChanges"][0]["replacements"]
    region = one["deletedRegion"]
    assert (region["startLine"], region["endLine"]) == (3, 3)
    made = line[: region["startColumn"] - 1] + one["insertedContent"]["text"] + line[region["endColumn"] - 1 :]
    assert made == line.replace("486.200", "485.900")


def test_a_workbook_has_its_edits_without_regions(tmp_path):
    book = tmp_path / "show.xlsx"
    source = next(path for path in SHOWS if path.stem == "carrier-doubled")
    CliRunner().invoke(convert, [str(source), str(book)], standalone_mode=False)
    found = results(book)
    assert any(one.get("properties", {}).get("edits") for one in found) and not any("fixes" in one for one in found)
    assert all("Fix: " in one["message"]["text"] for one in found)
