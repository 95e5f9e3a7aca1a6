"""Names that records share: what is a slip and what counts, and that every offer clears its finding in the file itself."""

import pytest

from paperwork.checks.scope import describe_scope
from paperwork.files.edit import edit_fields
from paperwork.finding import Edit
from paperwork.reading import read_show
from paperwork.sheets.stamps import stamp_sheet
from paperwork.text.spellings import find_meant, is_slip
from tests.shows_text import reading_of


@pytest.mark.parametrize(
    "one, other",
    [
        ("mian", "main"),
        ("glas wolves", "glass wolves"),
        ("Fields 1", "Field 1"),
        ("matinee", "matinée"),
        ("maim", "main"),
    ],
)
def test_one_slip_makes_two_spellings_of_one_name(one, other):
    assert is_slip(one, other) and is_slip(other, one)


@pytest.mark.parametrize(
    "one, other",
    [
        ("Field 1", "Field 2"),
        ("Stage A", "Stage B"),
        ("Act I", "Act II"),
        ("A", "B"),
        ("day1", "day2"),
        ("red", "rad"),
        ("hall", "ball"),
        ("east", "west"),
        ("Stage", "Stage B"),
    ],
)
def test_names_that_count_or_are_short_are_two(one, other):
    assert not is_slip(one, other) and not is_slip(other, one)


def test_the_name_that_was_meant_counts_the_same():
    assert find_meant("Feild 3", ("Field 1", "Field 3")) == "Field 3" and find_meant("Field 9", ("Field 1",)) == ""


SHOW = """\
channels:
  01: {role: VERA, zone: main, bill: "early, glas wolves", mhz: 486.200}
  02: {role: TOM, zone: main, bill: early, mhz: 488.200}
  03: {role: HOST, zone: mian, bill: early, mhz: 491.700}
  04: {role: ANNE, zone: quarry, bill: glass wolves, mhz: 496.700}
  05: {role: NED, zone: main, bill: glass wolves, mhz: 503.300}
"""


def test_every_offer_made_in_the_file_clears_its_finding_and_adds_none(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(SHOW, encoding="utf-8")
    found = read_show(path, "show.yaml").findings
    assert [str(edit) for finding in found for edit in finding.edits] == [
        "channels/01/bill=early, glass wolves",
        "channels/03/zone=main",
        "groups/quarry/kind=zone",
    ]
    for finding in found:
        edits = [Edit(one.section, one.record, one.field, one.value) for one in finding.edits]
        path.write_bytes(edit_fields(path.read_bytes(), "yaml", edits))
    assert read_show(path, "show.yaml").findings == ()


def test_a_slip_that_frees_a_channel_stamps_its_chart(tmp_path):
    from paperwork.sheets import SHEETS

    reading = reading_of(SHOW, tmp_path)
    chart = next(paper for paper in SHEETS if paper.name == "channel-chart")
    (sheet, *_) = chart.make(reading.show)
    assert "group-unknown" in str(stamp_sheet(chart, sheet, reading.show, reading.findings).doubts)


def test_groups_of_groups_are_expanded_once_and_to_a_bound(tmp_path):
    """Each group names the next one twice: expanded anew each time, 40 of them would never end."""
    rows = "".join(f"  G{n}: {{group: 'G{n + 1}, G{n + 1}, VERA'}}\n" for n in range(40))
    text = f"channels:\n  01: {{role: VERA, mhz: 486.200}}\nroles:\n{rows}  G40: {{group: VERA}}\n"
    assert [finding.code for finding in reading_of(text, tmp_path).findings] == ["role-group-deep"]


def test_what_was_looked_at_and_what_was_not_is_said_in_one_line(tmp_path):
    told = describe_scope(reading_of(SHOW, tmp_path).show)
    assert told.startswith(
        "Checked: 5 channels, frequencies, packs. Not checked: TV (none given), sweep (none given), "
    )
    assert told.endswith("scenes (none given), batteries (no hours), clocks (none given).")
