"""Sweep files: plain points and rows, in every dress; what cannot be read is told by line, and the rest is used."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork import limits
from paperwork.files.sweep import parse_sweep, read_sweep

POINTS = ((470_000_000, 470_000_000, -9730), (470_100_000, 470_100_000, -10100))


@pytest.mark.parametrize(
    "text",
    (
        "470.0,-97.3\n470.1,-101\n",
        "frequency,level\n470.0,-97.3\n470.1,-101.0\n",
        "\ufeffFrequency (MHz);Level (dBm)\r\n470,0;-97,3\r\n470,1;-101,0\r\n",
        "# a comment, with a comma\n\n470000\t-97.3\n470100\t-101\n",
        "Hz dBm\n470000000 -97.3\n470100000 -101\n",
        "470,0,-97,3\n470,1,-101,0\n",
        "470.100 , -101\n470.0 , -97.3\n",
        "4.70e8,-97.3\n4.701e8,-1.01e2\n",
    ),
)
def test_points_read_the_same_in_every_dress(text):
    assert parse_sweep(text, "s.csv") == (POINTS, ())


def test_passes_are_held_at_their_highest():
    assert parse_sweep("470.0,-99\n470.1,-101\n470.0,-97.3\n470.0,-98\n", "s.csv") == (POINTS, ())


def test_rows_of_a_sweep_utility_become_bins_at_their_highest():
    text = (
        "2027-03-01, 19:00:00, 470000000, 470050000, 12500.00, 4096, -90.10, -80, -70.5, -60\n"
        "2027-03-01, 19:00:00, 470050000, 470075000, 12500.00, 4096, -50, -51\n"
        "2027-03-01, 19:00:01, 470000000, 470050000, 12500.00, 4096, -91, -79.99, -75, -40\n"
    )
    levels, findings = parse_sweep(text, "s.csv")
    assert findings == ()
    assert levels == (
        (470_000_000, 470_012_500, -9010),
        (470_012_500, 470_025_000, -7999),
        (470_025_000, 470_037_500, -7050),
        (470_037_500, 470_050_000, -4000),
        (470_050_000, 470_062_500, -5000),
        (470_062_500, 470_075_000, -5100),
    )


def test_bins_of_a_width_that_is_no_whole_number_of_hertz_meet_without_gap():
    text = "2027-03-01, 19:00:00, 470000000, 470010000, 3333.33, 1, -90, -91, -92\n"
    levels, _ = parse_sweep(text, "s.csv")
    assert [level[:2] for level in levels] == [
        (470_000_000, 470_003_333),
        (470_003_333, 470_006_667),
        (470_006_667, 470_010_000),
    ]


def test_bad_lines_are_one_finding_with_their_numbers_and_the_rest_is_used():
    levels, (finding,) = parse_sweep(
        "frequency,level\n470.0,-97.3\nlost\n470.1,-101\n470.2\n470.3,nan\n1,2,3\n", "s.csv"
    )
    assert levels == POINTS
    assert (finding.code, finding.place.line, finding.severity) == ("sweep-line", 3, "warning")
    assert "lines 3, 5, 6, 7 are" in finding.text and [place.line for place in finding.others] == [5, 6, 7]


def test_a_row_that_is_cut_or_runs_backwards_is_told():
    good = "2027-03-01, 19:00:00, 470000000, 470025000, 12500, 1, -90, -91\n"
    bad = "2027-03-01, 19:00:00, 470025000, 470000000, 12500, 1, -90\n2027-03-01, 19:00:00, 470000000\n"
    levels, (finding,) = parse_sweep(good + bad, "s.csv")
    assert len(levels) == 2 and finding.code == "sweep-line" and "lines 2, 3 are" in finding.text


def test_many_bad_lines_are_listed_in_part_and_counted():
    _, (finding,) = parse_sweep("470.0,-97\n" + "lost\n" * 50, "s.csv")
    assert "2, 3, 4, 5, 6, 7, 8, 9 and 42 more" in finding.text


@pytest.mark.parametrize(
    "text", ("", "# only a comment\n", "nothing\nmeasured\n", "5,-97\n6,-98\n", "frequency,level\n")
)
def test_a_file_without_a_level_is_no_sweep(text):
    levels, (finding,) = parse_sweep(text, "s.csv")
    assert levels == () and finding.code == "sweep-empty" and finding.severity == "error"


def test_a_sweep_of_more_levels_than_the_bound_is_refused(monkeypatch):
    monkeypatch.setattr(limits, "SWEEP_LEVELS", 3)
    levels, (finding,) = parse_sweep("".join(f"47{n}.0,-97\n" for n in range(5)), "s.csv")
    assert levels == () and finding.code == "sweep-large"


@pytest.mark.parametrize(("content", "code"), ((None, "file-missing"), (b"470.0,-97\xe9\n", "file-encoding")))
def test_a_file_that_cannot_be_read_is_a_finding(tmp_path, content, code):
    path = tmp_path / "s.csv"
    if content is not None:
        path.write_bytes(content)
    levels, (finding,) = read_sweep(path, "s.csv")
    assert levels == () and finding.code == code


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
def test_no_text_is_too_strange_to_be_answered(text):
    levels, findings = parse_sweep(text, "s.csv")
    assert levels or findings
    assert all(low <= high and -20_000 <= level <= 10_000 for low, high, level in levels)


@settings(max_examples=40, deadline=None)
@given(st.dictionaries(st.integers(470_000, 480_000), st.integers(-1200, -200), min_size=1, max_size=40))
def test_what_is_written_is_read(levels):
    text = "".join(f"{khz / 1000:.3f},{tenth / 10:.1f}\n" for khz, tenth in levels.items())
    read, findings = parse_sweep(text, "s.csv")
    assert findings == ()
    assert {low // 1000: level // 10 for low, _, level in read} == levels
