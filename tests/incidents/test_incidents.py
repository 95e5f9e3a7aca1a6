"""Twenty-one things that really happen, each to a whole show: the example, with one slip made in it.

Each slip must be found where it was made and nowhere else: one fault, one finding. The first ten are the failures
that people of the trade name most often (common practice, no source).
"""

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from paperwork.checks import check_since
from paperwork.document.facts import code
from paperwork.document.styles import LABEL_NUMBER, RACK_FREQUENCY, RACK_NUMBER, RACK_ROLE
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.pipeline import make_papers
from paperwork.plan.covers import plan_tonight
from paperwork.reading import Reading, blank_doubted, read_show
from paperwork.sheets.evening.page import make_labels, make_sheets
from paperwork.sheets.rack import channel_chart, patch_sheet
from paperwork.sheets.wardrobe import pack_labels
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

TEXT = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")


@cache
def sound() -> Show:
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    assert show is not None
    return show


def happen(tmp_path: Path, *slips: tuple[str, str]) -> Reading:
    """The example after some slips: each is a text that stands in it once, and what was written instead."""
    text = TEXT
    for old, new in slips:
        assert text.count(old) == 1, f"{old} stands {text.count(old)} times in the example"
        text = text.replace(old, new)
    path = tmp_path / "show.yaml"
    path.write_text(text, encoding="utf-8")
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    return read_show(path, "show.yaml")


def line_of(text: str) -> int:
    """The line of the example in which a text first stands."""
    return TEXT[: TEXT.index(text)].count("\n") + 1


def only(findings: tuple[Finding, ...]) -> Finding:
    """The one finding."""
    assert [finding.code for finding in findings] == [findings[0].code] if findings else False, findings
    return findings[0]


def mhz_of(channel: str) -> str:
    hz = sound().channels[channel].hz
    return f"{hz // 1_000_000}.{hz % 1_000_000 // 1_000:03d}"


def retuned(channel: str, mhz: str) -> tuple[str, str]:
    """The slip that puts a channel on another frequency; what was asked and granted is not told."""
    line = next(line for line in TEXT.splitlines() if line.startswith(f"  {channel}: {{") and "mhz:" in line)
    return line, re.sub(r"mhz: [0-9.]+(, (asked|granted): [0-9.]+)*", f"mhz: {mhz}", line)


def texts(show: Show, *modules) -> set[str]:
    return {text for module in modules for sheet in module.make_sheets(show) for text in texts_of(sheet)}


# The ten most frequent.


def test_01_the_sheet_on_the_rack_is_of_the_wrong_town(tmp_path):
    """In the next town the licence does not hold, and a chart of other frequencies carries another code."""
    reading = happen(tmp_path, ("venue: Corn Exchange, Brindle Quay", "venue: Guildhall, Farley"))
    assert only(reading.findings).code == "licence-place"
    other = happen(tmp_path, retuned("27", "583.400"))
    charts = [channel_chart.make_sheets(show)[0] for show in (sound(), other.show)]
    assert code(charts[0]) != code(charts[1]) and charts[0].replaces == "B"


def test_02_a_frequency_is_changed_in_one_place(tmp_path):
    """There is one place: chart and label follow, and the old number is on no paper."""
    old = mhz_of("27")
    show = happen(tmp_path, retuned("27", "583.400")).show
    papers = texts(show, channel_chart, pack_labels)
    assert "583.400" in papers and old not in papers


def test_03_the_twin_handheld_is_left_on(tmp_path):
    """Two transmitters on one frequency: found at the second, printed as a blank on both, labels withheld."""
    reading = happen(tmp_path, retuned("30", mhz_of("29")))
    finding = only(reading.findings)
    assert finding.code == "carrier-doubled" and finding.place.line == line_of("  30: {role: BALLAD")
    certain = blank_doubted(reading.show, reading.findings)
    assert {"29", "30"}.isdisjoint(label.number for label in pack_labels.make_sheets(certain)[0].blocks[0].labels)


def test_04_a_swap_has_no_time(tmp_path):
    """A cut moves an entrance forward: the swap that had four minutes has forty seconds."""
    reading = happen(tmp_path, ('enter: SL, from: "2:12:10"', 'enter: SL, from: "2:08:20"'))
    finding = only(reading.findings)
    assert (finding.code, finding.place.line) == ("swap-too-fast", line_of("m06:"))
    assert "40 s from PILOT (Ștefan Ionescu) to MAGISTRATE (Maja Đukić), before 2.7 The lantern" in finding.text


def test_05_the_cover_is_on_and_every_paper_shows_the_principal():
    """Page and labels name who is on; the track is split, because the cover leaves a role of her own."""
    tonight = plan_tonight(sound(), ("Noor Haddad",))
    assert [(one.role, one.by) for one in tonight.changes] == [
        ("ELSPETH", "Aoife Ní Bhriain"),
        ("WIDOW", "Siân Gwilym"),
    ]
    labels = make_labels(sound(), tonight, ())[0].blocks[0].labels
    assert not any("Noor Haddad" in label.performers for label in labels) and len(labels) == 3


def test_06_two_shows_on_one_set_of_cells(tmp_path):
    """A matinée is added, and nobody thinks of the cells: 7 h packs and 6 h handhelds are on from 13:15 to 21:54."""
    reading = happen(
        tmp_path,
        ('power-up: "17:15"', 'power-up: "13:15"'),
        ('curtain: "19:30"', "curtain: [15:00, 19:30]"),
        ('half: "18:55"', "half: [14:25, 18:55]"),
        ('curtain: "14:30", ', ""),
    )
    assert [(one.code, one.place.line) for one in reading.findings] == [
        ("battery-short", line_of("  low:  {kind")),
        ("battery-short", line_of("  hand: {like")),
    ]
    assert "8:39 h are needed, from 13:15 to 21:54" in reading.findings[0].text


def test_07_the_text_is_too_small_to_be_read(tmp_path):
    """A long name is never made smaller than its distance allows, and never cut in silence."""
    assert RACK_NUMBER.floor_um >= 7_000 and RACK_ROLE.floor_um >= 5_000 and RACK_FREQUENCY.floor_um >= 4_700
    assert LABEL_NUMBER.floor_um >= 7_000
    name = "THE HONOURABLE LADY PETRONELLA FEATHERSTONEHAUGH-CHOLMONDELEY OF BRINDLE"
    reading = happen(
        tmp_path,
        ("  20: {role: FERRYMAN,", f"  20: {{role: [{name}],"),
        *(_in_scene(number, name) for number in (1, 7, 9, 13, 14)),
    )
    assert reading.findings == ()
    findings = make_papers(reading.show, (), only=frozenset({"channel-chart", "pack-labels"})).findings
    assert {finding.code for finding in findings} == {"text-abbreviated"}
    assert all(name in finding.text for finding in findings)


def _in_scene(number: int, name: str) -> tuple[str, str]:
    """A scene's line with FERRYMAN under a longer name: names with spaces want commas between them."""
    line = next(line for line in TEXT.splitlines() if line.startswith(f"  s{number:02d}: {{act"))
    head, _, live = line.rpartition("live: ")
    roles = live.rstrip("}").replace("FERRYMAN", name.replace(" ", "_")).split()
    return line, head + "live: [" + ", ".join(role.replace("_", " ") for role in roles) + "]}"


def test_08_five_files_disagree_within_a_week(tmp_path):
    """A performer is recast: chart, patch, label and tonight sheet say the new name, none the old."""
    slips = (("  Leif Holm: {", "  Nils Berg: {"), ("role: DRUMMER, by: Leif Holm", "role: DRUMMER, by: Nils Berg"))
    reading = happen(tmp_path, *slips)
    assert reading.findings == ()
    papers = texts(reading.show, channel_chart, patch_sheet, pack_labels)
    assert "Nils Berg" in papers and not any("Leif" in text for text in papers)
    half = only(happen(tmp_path, slips[1]).findings)
    assert half.code == "recast-unfinished" and "Nils Berg is not in people, and Leif Holm is in people" in half.text
    slip = happen(tmp_path, (slips[1][0], "role: DRUMMER, by: Leif Hollm"))
    assert (only(slip.findings).code, slip.show) == ("id-unknown", None)


def test_09_a_slot_change_turns_left_into_right(tmp_path):
    """Two channels change places in a pair. The show is sound; against the last revision it shouts."""
    reading = happen(tmp_path, ("channels: 01-06", 'channels: "02, 01, 03-06"'))
    assert reading.findings == ()
    flips = check_since(sound(), reading.show)
    assert Counter(finding.code for finding in flips) == {"pair-flipped": 2}
    assert flips[0].text.startswith("CHANNEL 02 CHANGED SIDES: digital 1 to TRUCK 1 was right, now left")


def test_10_a_capsule_is_changed_in_a_hurry(tmp_path):
    """A lavalier capsule lands on a handheld: it does not fit."""
    slip = ("pack: H1, capsule: vocal}", "pack: H1, capsule: tone 5}")
    finding = only(happen(tmp_path, slip).findings)
    assert (finding.code, finding.place.line) == ("capsule-misfit", line_of("  29: {role"))


# Eleven more.

SLIPS = {
    "11 a rack's list slips by one, so that one channel sits twice": (
        ("channels: 29-32", "channels: 28-31"),
        "channel-in-two-slots",
        "  R6: {channels",
    ),
    "12 a cut puts two bodies on one pack": (
        (
            "live: KEEPER CALLUM FERRYMAN DOCTOR CONSTABLE COOPER PILOT}",
            "live: KEEPER CALLUM MAGISTRATE CONSTABLE COOPER PILOT}",
        ),
        "pack-on-two-bodies",
        "  s13: {act",
    ),
    "13 the hire company brings one capsule too few": (
        ("fit: ring, owned: 5}", "fit: ring, owned: 2}"),
        "capsule-short",
        "  vocal:  {type",
    ),
    "14 a replaced rack has the address of another": (
        ("address: 192.0.2.15", "address: 192.0.2.14"),
        "address-doubled",
        "  R5: {channels",
    ),
    "15 another truck comes, without converters": (
        ("rate: 96 kHz, converts: yes}", "rate: 96 kHz}"),
        "rates-meet",
        "  TRUCK: {name",
    ),
    "16 two racks are plugged into one place of the antenna chain": (
        (
            "channels: 07-12, units: [2, 2, 2], window: 470-494, antenna: low pair, place: 2",
            "channels: 07-12, units: [2, 2, 2], window: 470-494, antenna: low pair, place: 1",
        ),
        "antenna-place-doubled",
        "  R2: {channels",
    ),
    "17 the run is extended and the licence is not": (
        ("dates: 2027-03-04 to 2027-03-20", "dates: 2027-03-04 to 2027-03-27"),
        "licence-dates",
        "  licensed: 2027",
    ),
    "18 a spare is left off the patch": (
        (
            "analogue 1: FOH 29-32, analogue 2: MON 29-32, digital 1: TRUCK 29-32, network 1: REC 29-32",
            "analogue 1: 'FOH 29-31, -', analogue 2: 'MON 29-31, -'",
        ),
        "spare-goes-nowhere",
        "  R6: {channels",
    ),
    "19 alkaline cells end up in a marked set": (
        ("serial: LT-2149, cells: 2 AA rechargeable, set: A", "serial: LT-2149, cells: 2 AA alkaline, set: A"),
        "cells-mixed",
        "  07: {radio",
    ),
    "20 a new role has no microphone": (
        ("live: ELSPETH STRANGER WIDOW}", "live: ELSPETH STRANGER WIDOW BEGGAR}"),
        "role-silent",
        "  s11: {act",
    ),
}
MORE = {
    "17 the run is extended and the licence is not": (
        ('S1-S3", dates: 2027-02-26 to 2027-03-22', 'S1-S3", dates: 2027-02-26 to 2027-03-29'),
        ("H1-H4, dates: 2027-02-26 to 2027-03-22", "H1-H4, dates: 2027-02-26 to 2027-03-29"),
    ),
    "20 a new role has no microphone": (("  GRANDMOTHER: {short", "  BEGGAR: {by: Leif Holm}\n  GRANDMOTHER: {short"),),
}
"""What was written rightly beside a slip."""


@pytest.mark.parametrize("name", SLIPS, ids=lambda name: name.replace(" ", "-"))
def test_one_slip_is_one_finding_where_it_was_made(tmp_path, name):
    (old, new), wanted, line = SLIPS[name]
    more = MORE.get(name, ())
    added = sum(text.count("\n") for _, text in more)
    finding = only(happen(tmp_path, (old, new), *more).findings)
    assert (finding.code, finding.place.line - added) == (wanted, line_of(line))
    assert finding.fix


def test_a_run_that_is_extended_alone_needs_a_call_for_the_licence_and_one_to_the_hire_company(tmp_path):
    """Two people act, each once: the hire company lends packs and handhelds, which is still one call."""
    findings = happen(tmp_path, SLIPS["17 the run is extended and the licence is not"][0]).findings
    assert [finding.code for finding in findings] == ["licence-dates", "hire-short"]
    assert "belt packs and handhelds from Northquay Hire ends on 2027-03-22" in findings[1].text


def test_21_a_rack_is_struck_and_forty_channels_name_it(tmp_path):
    """One rack is missing: one finding that lists the channels, not forty."""
    rows = "".join(f"  {number:02d}: {{role: ROLE{number}, slot: R9.{number}}}\n" for number in range(1, 41))
    path = tmp_path / "show.yaml"
    path.write_text(f"racks: {{R1: {{slots: 6}}}}\nchannels:\n{rows}", encoding="utf-8")
    finding = only(read_show(path, "show.yaml").findings)
    assert (finding.code, len(finding.others), len(finding.subjects)) == ("id-unknown", 39, 40)


def test_the_childrens_team_changes_and_only_their_names_do(tmp_path):
    """The other team is on: the role's performer follows, and nothing else moves."""
    reading = happen(tmp_path, ("team: Kittiwakes\n\n", "team: Puffins\n\n"))
    assert reading.findings == () and reading.show.roles["GULL"].by == "Sami Orr"
    assert reading.show.channels == sound().channels
    assert make_sheets(reading.show, plan_tonight(reading.show, ("Sami Orr",)), ())
