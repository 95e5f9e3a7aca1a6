"""One fault, one finding: a slip at the root is told there, not once for everything behind it."""

import pytest

from paperwork.build import build_show
from paperwork.checks import CHECKS
from paperwork.checks.air import frequencies
from paperwork.checks.air.repair import repair_show
from tests.shows_text import raw_of

SIX = "".join(f"  {number:02d}: {{role: ROLE{number}, radio: hand, capsule: vocal}}\n" for number in range(1, 7))


def findings(text: str):
    show = build_show(raw_of(text)).show
    return [finding for check in CHECKS if check not in frequencies.CHECKS for finding in check(show)]


@pytest.mark.parametrize("odd", (1, 4))
def test_one_pack_of_another_cell_is_told_wherever_it_stands(odd):
    rows = "".join(
        f"  P{number}: {{cells: 2 AA {'alkaline' if number == odd else 'rechargeable'}, set: A}}\n"
        for number in range(1, 7)
    )
    (finding,) = findings(f"transmitters:\n{rows}channels: {{}}\n")
    assert (finding.code, finding.subjects[0].id) == ("cells-mixed", f"P{odd}")


def test_a_connector_told_wrongly_at_the_radio_is_one_misfit():
    (finding,) = findings(
        f"radios: {{hand: {{kind: handheld, fit: screw}}}}\ncapsules: {{vocal: {{fit: ring}}}}\nchannels:\n{SIX}"
    )
    assert (finding.code, len(finding.subjects)) == ("capsule-misfit", 6) and "01–06" in finding.text


def test_handhelds_without_heads_are_one_finding():
    (finding,) = findings(
        f"radios: {{hand: {{kind: handheld, fit: ring}}}}\nchannels:\n{SIX.replace(', capsule: vocal', '')}"
    )
    assert (finding.code, len(finding.subjects)) == ("capsule-missing", 6)


RACKS = """
racks:
  R1: {channels: 01-06, %s, digital 1: FOH 1-6, digital 2: REC 1-6, digital 3: MON 1-6}
consoles: {FOH: {%s}, REC: {%s}, MON: {%s}}
channels:
""" + SIX.replace(", radio: hand, capsule: vocal", "")


def test_a_rack_at_the_wrong_rate_is_one_fault_at_the_rack():
    rates = ("rate: 96 kHz", *["rate: 48 kHz"] * 3)
    (finding,) = findings(RACKS % rates)
    assert (finding.code, finding.place.line) == ("rates-meet", 3) and "FOH, MON and REC" in finding.text


def test_a_rack_with_a_clock_of_its_own_is_one_fault():
    (finding,) = findings(RACKS % ("clock: own", "clock: own", "clock: FOH", "clock: FOH"))
    assert finding.code == "clock-leaders"


def test_a_plus_sign_on_a_digital_copy_is_one_fault_for_all_its_connectors():
    (finding,) = findings("racks: {R1: {channels: 01-06, digital 1: FOH 1-6 + REC 1-6}}\nchannels:\n" + SIX)
    assert finding.code == "pair-to-many" and "D1, D2 and D3" in finding.text


def test_cells_of_one_radio_type_are_one_fault_however_many_packs():
    day = "day: {power-up: '17:00', curtain: '19:30', bows: '2:30', cells: power-up}\nradios: {hand: {hours: 4}}\nchannels:\n"
    (finding,) = findings(day + SIX)
    assert (finding.code, len(finding.subjects)) == ("battery-short", 6) and "packs 01–06" in finding.text


@pytest.mark.parametrize(
    "curtain, end", (("'19:30'", "2:20"), ("['14:30', '19:30']", "2:20"), ("['19:30', '23:00']", "2:20"))
)
def test_bows_by_the_clock_are_told_from_the_curtain_that_they_follow(curtain, end):
    (finding,) = findings(
        f"day: {{curtain: {curtain}, bows: '21:50'}}\nchannels: {{}}\nscenes: {{1.1: {{at: '0:00', until: '2:15'}}}}\n"
    )
    assert finding.code == "bows-by-clock" and end in finding.text + finding.fix


def test_a_channel_without_a_capsule_is_told_once_for_all_its_covers():
    text = "radios: {belt: {fit: ring}}\nchannels:\n  01: {role: VERA, by: Ida}\ncovers: {c1: {role: VERA, by: Ana}, c2: {role: VERA, by: Ben}}\n"
    assert [finding.code for finding in findings(text)] == ["cover-without-capsule"]


def test_bows_by_the_clock_say_nothing_of_a_second_show():
    """Without the end of a scene nothing is known of the end, and nothing else is concluded from the bows."""
    (finding,) = findings(
        "day: {power-up: '18:00', curtain: '19:30', bows: '22:00'}\nchannels: {}\nscenes: {1.1: {at: '0:00'}, 1.2: {at: '0:40'}}\n"
    )
    assert finding.code == "bows-by-clock"


@pytest.mark.parametrize(
    "left",
    (
        "role: EXAMPLE, by: Ann Fox",
        "role: VERA, by: EXAMPLE PERSON",
        "role: VERA, by: Ann Fox, notes: 'EXAMPLE: type over it'",
    ),
)
def test_what_is_left_of_the_example_of_a_new_file_is_told_wherever_it_stands(left):
    """A note of the example would be printed beside a performer who never wrote it."""
    (finding,) = findings(f"show: {{title: Gala}}\nchannels: {{1: {{{left}}}}}\n")
    assert (finding.code, finding.subjects[0].id) == ("example-left", "1")


def test_texts_that_need_an_extra_which_is_not_there_are_one_fault_at_the_first_of_them(monkeypatch):
    monkeypatch.setattr("paperwork.text.glyphs.has_extra", lambda extra: False)
    text = "roles: {VERA: {by: \u05d9\u05e2\u05dc}, TOM: {by: \u05e0\u05d5\u05e2\u05d4}, COOK: {by: \u05e8\u05d5\u05ea}}\nchannels: {}\n"
    (finding,) = findings(text)
    assert finding.code == "script-not-installed" and finding.place.column == min(
        place.column for place in (finding.place, *finding.others)
    )
    assert (
        "\u05d9\u05e2\u05dc" in finding.text
        and "2 other texts" in finding.text + finding.fix
        and len(finding.others) == 2
    )


def test_a_plan_with_more_hits_than_anybody_reads_is_one_finding_with_its_counts(monkeypatch):
    monkeypatch.setattr("paperwork.coordinate.carriers.HITS_LISTED", 3)
    rows = "".join(f"  {number}: {{by: P{number}, mhz: {500 + number * 0.6:.3f}}}\n" for number in range(6))
    show = build_show(raw_of(f"channels:\n{rows}")).show
    (many,) = [one for check in frequencies.CHECKS for one in check(show)]
    assert many.code == "intermodulation-many" and len(many.subjects) == 6
    monkeypatch.setattr("paperwork.limits.CARRIERS_ODD", 5)
    (many,) = [one for check in frequencies.CHECKS for one in check(show)]
    assert many.code == "intermodulation-many"
    odd = build_show(raw_of(f"channels:\n{rows}  7: {{by: Odd, mhz: 505.000100}}\n")).show
    (uncounted,) = [
        one for check in frequencies.CHECKS for one in check(odd) if one.code == "intermodulation-uncounted"
    ]
    assert "on no common raster" in uncounted.text and uncounted.fix.startswith("put the frequencies on the steps")
    assert len(uncounted.subjects) == 7


def test_hits_of_carriers_that_are_on_and_off_at_times_of_their_own_are_not_counted_beyond_a_bound(monkeypatch):
    monkeypatch.setattr("paperwork.coordinate.carriers.HITS_LISTED", 3)
    monkeypatch.setattr("paperwork.limits.CARRIERS_SCATTERED", 8)
    scenes = "".join(f'  s{n}: {{at: "0:{n:02}", until: "0:{n + 5:02}"}}\n' for n in range(12))
    rows = "".join(f"  {n}: {{by: P{n}, mhz: {500 + n * 0.6:.3f}, bill: [s{n}, s{7 * n % 12}]}}\n" for n in range(12))
    show = build_show(raw_of(f"scenes:\n{scenes}channels:\n{rows}")).show
    (uncounted,) = [one for check in frequencies.CHECKS for one in check(show)]
    assert "on at times of its own" in uncounted.text
    assert uncounted.fix == "delete the frequencies and let `paperwork assign` place them"


def test_a_plan_with_more_pairs_too_near_than_anybody_reads_is_one_finding_about_all_of_them(monkeypatch):
    rows = "".join(f"  {number}: {{by: P{number}, mhz: {500 + number * 0.1:.3f}}}\n" for number in range(5))
    show = build_show(raw_of(f"channels:\n{rows}  9: {{by: Far, mhz: 520.000}}\n")).show
    pairs = [one for check in frequencies.CHECKS for one in check(show) if one.code == "neighbour-too-near"]
    monkeypatch.setattr("paperwork.coordinate.carriers.PAIRS_LISTED", len(pairs))
    assert len([one for check in frequencies.CHECKS for one in check(show) if one.code == "neighbour-too-near"]) > 5
    monkeypatch.setattr("paperwork.coordinate.carriers.PAIRS_LISTED", len(pairs) - 1)
    found = [one for check in frequencies.CHECKS for one in check(show)]
    (crowded,) = [one for one in found if one.code == "carriers-crowded"]
    assert [subject.id for subject in crowded.subjects] == ["0", "1", "2", "3", "4"]
    assert "5 of 6 carriers" in crowded.text and not [one for one in found if one.code == "neighbour-too-near"]
    assert repair_show(show, effort=10).hopeless
