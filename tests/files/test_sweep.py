"""Sweep files: plain points and rows, in every dress; what cannot be read is told by line, and the rest is used."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork import limits
from paperwork.files.sweep import StatedUnit, parse_sweep, read_sweep
from tests.few import few_examples

POINTS = ((470_000_000, 470_000_000, -9730), (470_100_000, 470_100_000, -10100))


DRESSES = (
    "470.0,-97.3\n470.1,-101\n",
    "frequency,level\n470.0,-97.3\n470.1,-101.0\n",
    "\ufeffFrequency (MHz);Level (dBm)\r\n470,0;-97,3\r\n470,1;-101,0\r\n",
    "# a comment, with a comma\n\n470000\t-97.3\n470100\t-101\n",
    "Hz dBm\n470000000 -97.3\n470100000 -101\n",
    "470,0,-97,3\n470,1,-101,0\n",
    "470,0 -97,3\n470,1 -101,0\n",
    "470.100 , -101\n470.0 , -97.3\n",
    "4.70e8,-97.3\n4.701e8,-1.01e2\n",
    '"470.0","-97.3"\n"470.1","-101"\n',
    '"470,0";"-97,3"\n"470,1";"-101,0"\n',
    '"470,0","-97,3"\n"470,1","-101,0"\n',
    "# Frequency [Hz]\tPower [dBm]\n470000000\t-97.3\n470100000\t-101\n",
    "0.4700,-97.3\n0.4701,-101\n",
    "470.0 MHz, -97.3 dBm\n470.1 MHz, -101 dBm\n",
    "470.0 MHz -97.3 dBm\n0.4701 GHz -101 dBm\n",
    "#,Frequency (GHz),Max Hold (dBm),Average (dBm)\n1,0.4700,-97.3,-101\n2,0.4701,-101,-104\n",
    "Frequency MHz,Average,Level,Min\n470.0,-99,-97.3,-120\n470.1,-102,-101,-120\n",
    "Punkt;Frequenz [MHz];Pegel [dBm]\n1;470,0;-97,3\n2;470,1;-101,0\n",
    "level,frequency\n-97.3,470.0\n-101,470.1\n",
    "Date,Time,Frequency (kHz),Peak (dBm),Note\n2027-03-01,19:00,470000,-97.3,x\n2027-03-01,19:01,470100,-101,y\n",
    "RBW 10 kHz\nStart 469 MHz\nStop 471 MHz\nFrequency;Trace A\n470.0;-97.3\n470.1;-101\n",
    "Frequency,Level\nMHz,dBm\n470.0,-97.3\n470.1,\u2212101\n",
    "Start,470 MHz\nStop,470.1 MHz\nPoints,2\n-97.3\n-101\n",
    "# start: 470 MHz\n! stop: 470.1 MHz\n// points: 2\n-97.3,-101\n",
    "Start (MHz),Stop (MHz),Points\n470,470.1,2\n-97.3,-101\n",
    "Start (Hz),Stop (Hz),Points,Levels\n470000000,470100000,2,-97.3,-101\n470000000,470100000,2,-98,-102\n",
    "start=470,stop=470.1,count=2\n-97.3;-101\n-99;-103\n",
    "Level in dBuV\nMHz,level\n470.0,9.69\n470.1,5.99\n",
    "Frequency (MHz);Level (dB\u00b5V)\n470.0;9.69\n470.1;5.99\n",
    "MHz,dBW\n470.0,-127.3\n470.1,-131\n",
    "470.0,-50.31 dBmV\n470.1,-54.01 dBmV\n",
    "Frequency (MHz),470.0,470.1\nLevel (dBm),-97.3,-101\n",
    "470.0;MHz;-97.3;dBm\n470.1;MHz;-101;dBm\n",
    "Centre 470.05 MHz\nSpan 100 kHz\nPoints 2\n-97.3\n-101\n",
    "Start 470 MHz\nStep 100 kHz\n-97.3\n-101\n",
    "470.0|-97.3\n470.1|-101\n",
    "470,000,000;-97.3\n470,100,000;-101\n",
    "+4.70000000E+008,-9.73000E+001\n+4.70100000E+008,-1.01000E+002\n",
)


@pytest.mark.parametrize("text", DRESSES)
def test_points_read_the_same_in_every_dress(text):
    assert parse_sweep(text, "s.csv") == (POINTS, ())


@pytest.mark.parametrize("encoding", ("utf-8", "utf-8-sig", "utf-16"))
@pytest.mark.parametrize("text", ("Frequency (MHz);Level (dB\u00b5V)\n470.0;9.69\n470.1;5.99\n", DRESSES[0]))
def test_a_file_may_be_of_any_encoding_that_names_itself(tmp_path, text, encoding):
    (tmp_path / "s.csv").write_text(text.replace("\ufeff", ""), encoding=encoding)
    assert read_sweep(tmp_path / "s.csv", "s.csv") == (POINTS, ())


@pytest.mark.parametrize(
    "text",
    (
        "470.0,470.1,-97.3\n470.1,470.2,-101\n",
        "Start MHz,Stop MHz,Level\n470.0,470.1,-97.3\n470.1,470.2,-101\n",
        "From (Hz);To (Hz);Power (dBm);n\n470000000;470100000;-97,3;9\n".replace("To (Hz)", "Stop (Hz)")
        + "470100000;470200000;-101;9\n",
    ),
)
def test_two_edges_and_a_level_are_a_bin(text):
    assert parse_sweep(text, "s.csv") == (((470_000_000, 470_100_000, -9730), (470_100_000, 470_200_000, -10100)), ())


@pytest.mark.parametrize(
    ("text", "why"),
    (
        ("Frequency (MHz),Level (%)\n470,20\n470.1,30\n", "its levels are in %"),
        ("MHz,dBFS\n470,-97\n470.1,-98\n", "its levels are in dBFS"),
        ("MHz,dB\n470,-97\n470.1,-98\n", "its levels are in dB"),
        ("MHz,dBm/Hz\n470,-150\n471,-151\n", "its levels are in dBm/Hz"),
        ("470,47\n470.1,45\n", "half of its levels are at 47.0 or above, which is not dBm"),
        ("MHz,dBm\n470,47\n470.1,45\n", "which is not dBm"),
        ("MHz,dBm\n470,-231\n470.1,-250\n", "half of its levels are at -231.0"),
        ("".join(f"{470 + n}.0,-97\n" for n in range(10)), "all of its 10 levels are -97.0"),
    ),
)
def test_a_unit_that_is_not_sure_is_asked_for_and_the_sweep_is_not_used(text, why):
    levels, (finding,) = parse_sweep(text, "s.csv")
    assert levels == () and (finding.code, finding.severity, finding.place.line) == ("sweep-unit", "error", 1)
    assert why in finding.text and "`sweep unit: dBuV`" in finding.fix


def test_a_file_that_names_two_units_is_to_name_one():
    for stated in ("", "dBm"):
        levels, (finding,) = parse_sweep("470,-97 dBm\n470.1,9 dBuV\n", "s.csv", StatedUnit(stated))
        assert levels == () and "it names dBm and dBuV" in finding.text and finding.fix.startswith("leave one unit")


@pytest.mark.parametrize(
    ("stated", "text", "why", "fix"),
    (
        (
            "dBm",
            "470,-20\n470.1,-25\n",
            "-20.0 or above, which is not dBm",
            "in dBm, sweep again with more attenuation",
        ),
        (
            "dBm",
            "MHz,dBm\n470,-20\n470.1,-25\n",
            "or above, which is not dBm",
            "if the levels are in dBW, dBuV or dBmV;",
        ),
        ("dBuV", "470,-97\n470.1,-98\n", "-97.0 or below, which is not dBuV", "if the levels are in dBm, dBW or dBmV;"),
    ),
)
def test_levels_that_cannot_be_in_the_stated_unit_are_not_answered_with_stating_it(stated, text, why, fix):
    levels, (finding,) = parse_sweep(text, "s.csv", StatedUnit(stated))
    assert levels == () and why in finding.text and fix in finding.fix
    assert "add `sweep unit" not in finding.fix and finding.fix.startswith("correct `sweep unit`")


def test_the_unit_that_the_show_states_settles_what_the_file_leaves_open():
    microvolts = StatedUnit("dBuV")
    assert parse_sweep("470,9.69\n470.1,5.99\n", "s.csv", microvolts)[0] == POINTS
    assert parse_sweep("470,11.45\n470.1,7.75\n", "s.csv", StatedUnit("dBuV", "75 ohm"))[0] == POINTS
    assert parse_sweep("MHz,%\n470,9.69\n470.1,5.99\n", "s.csv", microvolts)[0] == POINTS
    assert parse_sweep("MHz,dBm\n470,9.69\n470.1,5.99\n", "s.csv", microvolts)[0] == POINTS, "it cannot be dBm"
    assert parse_sweep("MHz,dBm\n470,-97.3\n470.1,-101\n", "s.csv", microvolts)[0] == POINTS, "the file's own counts"
    equal = "".join(f"{470 + n}.0,-97\n" for n in range(10))
    assert len(parse_sweep(equal, "s.csv", StatedUnit("dBm"))[0]) == 10


@pytest.mark.parametrize(
    "text",
    (
        "1,470.0,-97\n2,470.1,-98\n",
        "470.0,-97,-98\n470.1,-98,-99\n",
        "Frequency,Trace A,Trace B\n470,-97,-98\n470.1,-97,-98\n",
        "Frequency,Min hold,Note\n470,-97,-98\n470.1,-97,-98\n",
    ),
)
def test_a_table_that_does_not_say_which_column_is_the_level_is_asked_about(text):
    levels, (finding,) = parse_sweep(text, "s.csv")
    assert levels == () and (finding.code, finding.severity) == ("sweep-columns", "error")
    assert "3 columns" in finding.text and finding.place.line == 1 + text.startswith("F")


@pytest.mark.parametrize("text", ("470," + "1" * 100_000, "470,-97\n" + "9" * 100_000 + ",-97\n"))
def test_a_number_of_any_length_is_answered(text):
    assert parse_sweep(text, "s.csv")[1]


def test_a_pass_of_another_length_than_the_head_says_is_told():
    levels, (finding,) = parse_sweep("start 470 MHz, stop 472 MHz, points 3\n-97,-98,-99\n-97,-98\n", "s.csv")
    assert [level[0] for level in levels] == [470_000_000, 471_000_000, 472_000_000]
    assert finding.code == "sweep-line" and finding.place.line == 3


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


@settings(max_examples=few_examples(60), deadline=None)
@given(st.text(max_size=200))
def test_no_text_is_too_strange_to_be_answered(text):
    levels, findings = parse_sweep(text, "s.csv")
    assert levels or findings
    assert all(low <= high and -20_000 <= level <= 10_000 for low, high, level in levels)


@settings(max_examples=few_examples(40), deadline=None)
@given(st.dictionaries(st.integers(470_000, 480_000), st.integers(-1200, -301), min_size=1, max_size=40))
def test_what_is_written_is_read(levels):
    text = "".join(f"{khz / 1000:.3f},{tenth / 10:.1f}\n" for khz, tenth in levels.items())
    read, findings = parse_sweep(text, "s.csv", StatedUnit("dBm"))
    assert findings == ()
    assert {low // 1000: level // 10 for low, _, level in read} == levels


DIGITS = st.text("0123456789", min_size=0, max_size=11)
NUMBERS = st.builds(
    "".join, st.tuples(st.sampled_from(["", "", "-", "+"]), DIGITS, st.sampled_from(["", ".", ","]), DIGITS)
)


@given(st.lists(st.tuples(NUMBERS | st.just("470.1"), st.sampled_from(",;\t"), NUMBERS | st.just("-97.3")), max_size=4))
def test_a_plain_line_is_read_as_one_with_its_cells_quoted(rows):
    """Plain lines have a short way of their own; quoted cells never take it."""
    start = [("470.000", ";", "-90"), ("470.050", ";", "-91")]
    plain = [f"{frequency}{sign}{level}" for frequency, sign, level in [*start, *rows] if "," not in frequency + level]
    quoted = [";".join(f'"{cell}"' for cell in re.split("[,;\t]", line)) for line in plain]
    assert parse_sweep("\n".join(plain), "s") == parse_sweep("\n".join(quoted), "s")


@pytest.mark.parametrize("step", ("25", "900 MHz", "0 kHz"))
def test_a_start_with_a_step_that_leads_to_no_stop_is_no_sweep(step):
    """Of another unit than its start, or of none; wider than it; nothing."""
    levels, (finding,) = parse_sweep(f"start: 486 MHz\nstep: {step}\n-90\n-91\n-92\n", "s.csv")
    assert levels == () and finding.code == "sweep-empty"
