"""Assigning: what is placed passes the check, what is told stays, what found no place has a reason, bad input too."""

import difflib
import os
import re
import signal
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.checks import check_show
from paperwork.checks.air.repair import list_movers
from paperwork.commands.assign import command
from paperwork.commands.convert import command as convert
from paperwork.coordinate.assign import assign_show, with_frequencies
from paperwork.coordinate.freed import free_channels
from paperwork.finding import Subject
from paperwork.radio.search import DEFAULT_EFFORT
from paperwork.reading import read_show
from tests.few import few_examples, few_of
from tests.shows_text import EXAMPLES, raw_of, show_of

BELT = "radios: {belt: {tunes: 470-494, step: 25 kHz, bandwidth: 200 kHz}}\n"


def shows():
    """Shows of two types, some channels told (in conflict, too), television, ranges kept clear, others, a window."""
    told = st.one_of(st.none(), st.integers(18_804, 19_956))
    channel = st.tuples(st.sampled_from(["belt", "hand", "spare"]), told)
    return st.builds(
        write_show,
        st.lists(channel, max_size=9),
        st.sets(st.integers(21, 25), max_size=2),
        st.lists(st.integers(470, 498), max_size=1),
        st.lists(st.integers(18_000, 20_400), max_size=2),
        st.booleans(),
        st.booleans(),
    )


def write_show(channels, tv, clear, others, window, close):
    lines = [
        "radios:",
        "  belt: {tunes: 470-500, step: 25 kHz, bandwidth: 200 kHz}",
        "  hand: {tunes: 470-500, step: 50 kHz, bandwidth: 400 kHz, apart: 250 kHz, intermodulation: no, kind: handheld}",
    ]
    kept = f", keep clear: {clear[0]}-{clear[0] + 2}" if clear else ""
    lines.append(
        f"spectrum: {{region: Europe, tv: [{', '.join(map(str, tv))}]{kept}, close quarters: {'yes' if close else 'no'}}}"
    )
    lines.append("channels:")
    for number, (kind, told) in enumerate(channels, 1):
        what = "spare: belt" if kind == "spare" else f"by: P{number}, radio: {kind}"
        mhz = f", mhz: {told * 25 / 1000:.3f}" if told else ""
        lines.append(f"  {number}: {{{what}{mhz}}}")
    lines += [] if channels else ["  99: {by: Nobody, radio: belt, mhz: 481.000}"]
    if window and channels:
        lines.append(f"racks: {{R1: {{channels: 1-{len(channels)}, window: 474-498}}}}")
    lines += (
        ["others:", *(f"  E{n}: {{kind: in-ear, mhz: {hz * 25 / 1000:.3f}}}" for n, hz in enumerate(others))]
        if others
        else []
    )
    return "\n".join(lines) + "\n"


def test_the_command_searches_as_long_as_the_library_does_where_nothing_is_said():
    option = next(one for one in command.params if one.name == "effort")
    assert option.default == DEFAULT_EFFORT


@settings(max_examples=few_examples(30), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(shows())
def test_nothing_is_ever_wrong_with_what_was_placed(text):
    show = build_show(raw_of(text)).show
    found = assign_show(show, effort=30)
    whole = with_frequencies(show, found.placed)
    wrong = [f for f in check_show(whole) if any(s.section == "channels" and s.id in found.placed for s in f.subjects)]
    assert wrong == []
    assert all(whole.channels[id].hz == channel.hz for id, channel in show.channels.items() if channel.hz is not None)
    assert {id for id, channel in whole.channels.items() if channel.hz is None} == {
        one.channel for one in found.missing
    }
    assert all(
        re.search(r"of [0-9]+ frequencies none (is left|was found): [0-9]+ \w|bandwidth fits nowhere", one.reason)
        for one in found.missing
    )


def test_the_example_without_frequencies_is_placed_whole_and_clean(tmp_path):
    text = re.sub(
        r"(\n  [0-9][0-9]: \{.*?)mhz: [0-9.]+(, )?", r"\1", (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
    )
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--effort", "60")
    assert done.code == 0 and "32 placed" in done.text
    after = read_show(tmp_path / "new.yaml", "new.yaml")
    assert after.findings == () and all(channel.hz for channel in after.show.channels.values())
    new = (tmp_path / "new.yaml").read_text(encoding="utf-8")
    changed = [line for line in difflib.ndiff(text.splitlines(), new.splitlines()) if line.startswith("+")]
    assert len(changed) == 32 and all("mhz: " in line for line in changed)
    assert re.sub(r"(\n  [0-9][0-9]: \{.*?)mhz: [0-9.]+(, )?", r"\1", new) == text


def run(folder, *arguments, **tools):
    before = os.getcwd()
    os.chdir(folder)
    try:
        return (
            CliRunner()
            .invoke(command, list(arguments), obj=tools, standalone_mode=False, catch_exceptions=False)
            .return_value
        )
    finally:
        os.chdir(before)


def test_the_same_show_gives_the_same_file(tmp_path):
    (tmp_path / "show.yaml").write_text(
        BELT + "channels:\n" + "".join(f"  {n}: {{by: P{n}}}\n" for n in range(8)), encoding="utf-8"
    )
    for name in ("a.yaml", "b.yaml"):
        assert run(tmp_path, "show.yaml", "-o", name, "--effort", "50").code == 0
    assert (tmp_path / "a.yaml").read_bytes() == (tmp_path / "b.yaml").read_bytes()


def test_a_file_that_is_there_is_never_overwritten(tmp_path):
    (tmp_path / "show.yaml").write_text(BELT + "channels: {1: {by: Ann}}\n", encoding="utf-8")
    (tmp_path / "new.yaml").write_text("mine", encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml")
    assert done.code == 2 and "is there already" in done.aside and (tmp_path / "new.yaml").read_text() == "mine"
    assert run(tmp_path, "show.yaml", "-o", "show.yaml").code == 2
    assert sorted(path.name for path in tmp_path.iterdir()) == ["new.yaml", "show.yaml"]


def test_spares_are_added_as_records_and_can_take_over(tmp_path):
    (tmp_path / "show.yaml").write_text(BELT + "channels:\n  01: {by: Ann, mhz: 486.200}  # lead\n", encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--spares", "belt=2", "--effort", "40")
    show = read_show(tmp_path / "new.yaml", "new.yaml")
    assert done.code == 0 and show.findings == ()
    assert [(one.id, one.spare, one.radio) for one in show.show.channels.values()] == [
        ("01", False, "belt"),
        ("02", True, "belt"),
        ("03", True, "belt"),
    ]
    assert "# lead\n  02: {spare: belt, mhz: " in (tmp_path / "new.yaml").read_text(encoding="utf-8")


def test_a_spare_for_which_there_is_no_room_is_said_and_not_added(tmp_path):
    """Nothing of the show has the number that it would have had."""
    text = "radios: {belt: {tunes: 486-486.5, step: 25 kHz}}\nchannels:\n  01: {by: Ann, mhz: 486.200}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--spares", "belt=2", "--effort", "40")
    assert "channels 02, 03: no frequency" in done.text and done.code == 1


def test_a_spare_goes_to_another_tv_channel(tmp_path):
    text = (
        BELT
        + "spectrum: {region: Europe}\nchannels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 488.700}\n  3: {spare: belt}\n"
    )
    hz = assign_show(show_of(text, tmp_path), effort=40).placed["3"]
    assert hz < 486_000_000


def test_a_wide_carrier_is_placed_once_and_told_on_its_first_channel(tmp_path):
    text = "radios: {wide: {tunes: 510-530, bandwidth: 6 MHz}}\nchannels:\n" + "".join(
        f"  {n}: {{by: P{n}, carrier: W}}\n" for n in range(1, 4)
    )
    show = show_of(text, tmp_path)
    found = assign_show(show, effort=20)
    assert list(found.placed) == ["1"] and found.missing == ()
    assert {channel.hz for channel in with_frequencies(show, found.placed).channels.values()} == {found.placed["1"]}


REASONS = {
    "nothing tells": ("channels: {1: {by: Ann}}\n", "nothing says where it may go"),
    "too wide": (
        "radios: {b: {tunes: 470-470.1, bandwidth: 200 kHz}}\nchannels: {1: {by: Ann}}\n",
        "its bandwidth fits nowhere",
    ),
    "window away": (BELT + "racks: {R1: {channels: 1, window: 500-510}}\nchannels: {1: {by: Ann}}\n", "fits nowhere"),
    "television": (
        BELT + 'spectrum: {region: Europe, tv: "21-23"}\nchannels: {1: {by: Ann}}\n',
        "953 in a TV channel in use",
    ),
    "unreadable": (BELT + "channels: {1: {by: Ann, mhz: 486 / 487}}\n", "is written, and cannot be read"),
    "refused": (BELT + "channels: {1: {by: Ann, granted: no}}\n", "granted nothing for it"),
    "granted in television": (
        BELT + "spectrum: {region: Europe, tv: 21}\nchannels: {1: {by: Ann, granted: 474.000}}\n",
        "its only frequency is not clean: 1 in a TV channel in use",
    ),
    "crowd": (
        "radios: {b: {tunes: 470-470.5, bandwidth: 200 kHz}}\nchannels: {1: {by: Ann, mhz: 470.250}, 2: {by: Bo}}\n",
        "too near another carrier",
    ),
}


@pytest.mark.parametrize("case", REASONS)
def test_a_channel_without_a_place_has_its_reason_and_nothing_is_written(tmp_path, case):
    text, reason = REASONS[case]
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--effort", "20")
    assert done.code == 1 and reason in done.text and not (tmp_path / "new.yaml").exists()


def test_what_can_be_placed_is_placed_and_the_rest_is_told(tmp_path):
    text = "radios: {b: {tunes: 470-471, step: 25 kHz, bandwidth: 200 kHz}}\nchannels:\n" + "".join(
        f"  {n}: {{by: P{n}}}\n" for n in range(1, 7)
    )
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--effort", "40")
    placed = done.text.count(" MHz\n")
    assert done.code == 1 and 0 < placed < 6 and f"{6 - placed} left without" in done.text
    assert re.search(
        r"channels? [0-9–, ]+: no frequency; of 33 frequencies none (is left|was found): [0-9]+ ", done.text
    )
    left = read_show(tmp_path / "new.yaml", "new.yaml").findings
    assert [one.code for one in left] == ["channel-unlike-others"]


def test_a_granted_frequency_is_the_one_that_is_placed(tmp_path):
    text = BELT + "channels:\n  1: {by: Ann, granted: 486.200}\n  2: {by: Bo}\n"
    assert assign_show(show_of(text, tmp_path), effort=20).placed["1"] == 486_200_000


def test_told_channels_in_conflict_stay_and_are_still_found(tmp_path):
    text = BELT + "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.300}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml")
    assert "every channel has its frequency already" in done.text and not (tmp_path / "new.yaml").exists()
    (tmp_path / "show.yaml").write_text(text + "  3: {by: Cy}\n", encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--effort", "20")
    assert done.code == 1 and "[neighbour-too-near]" in done.aside and done.aside.count(": error: ") == 1


def test_a_stop_is_told_and_progress_goes_to_whoever_asked(tmp_path):
    text = "radios: {b: {tunes: 470-473, step: 25 kHz, bandwidth: 200 kHz}}\nchannels:\n" + "".join(
        f"  {n}: {{by: P{n}}}\n" for n in range(1, 9)
    )
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    heard = []
    done = run(
        tmp_path, "show.yaml", "-o", "new.yaml", progress=lambda *told: heard.append(told), stop=lambda: len(heard) > 3
    )
    assert "stopped early" in done.text and 3 < len(heard) < 20 and all(placed <= 8 for _, _, placed in heard)


@pytest.mark.parametrize(
    ("spares", "said"),
    (("many", "is not a number of spares"), ("bell=1", "did you mean belt?"), ("99,99", "at most 99 spares")),
)
def test_a_slip_in_the_spares_is_told(tmp_path, spares, said):
    (tmp_path / "show.yaml").write_text(BELT + "channels: {1: {by: Ann}}\n", encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml", "--spares", spares)
    assert done.code == 2 and said in done.aside and not (tmp_path / "new.yaml").exists()


def test_a_show_that_cannot_be_read_is_not_assigned(tmp_path):
    (tmp_path / "show.yaml").write_text("radios: {b: {tunes: 494-470}}\nchannels: {1: {by: Ann}}\n", encoding="utf-8")
    done = run(tmp_path, "show.yaml", "-o", "new.yaml")
    assert done.code == 1 and "runs backwards" in done.aside and not (tmp_path / "new.yaml").exists()


def test_a_workbook_gets_its_cells(tmp_path):
    import openpyxl

    book = openpyxl.load_workbook(EXAMPLES / "show.xlsx")
    sheet = book["channels"]
    column = [cell.value for cell in sheet[1]].index("mhz") + 1
    for row in (2, 14, 30):
        sheet.cell(row, column).value = None
    book.save(tmp_path / "show.xlsx")
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    done = run(tmp_path, "show.xlsx", "-o", "new.xlsx", "--effort", "40")
    after = read_show(tmp_path / "new.xlsx", "new.xlsx")
    assert done.code == 0 and "3 placed" in done.text and after.findings == ()
    assert all(channel.hz for channel in after.show.channels.values())


def test_one_interrupt_stops_the_search_and_a_second_one_the_program():
    from paperwork.cli import _make_stop

    before = signal.getsignal(signal.SIGINT)
    try:
        stop = _make_stop()
        assert signal.getsignal(signal.SIGINT) is before, "a command that never asks is interrupted as ever"
        assert not stop()
        signal.raise_signal(signal.SIGINT)
        assert stop()
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
    finally:
        signal.signal(signal.SIGINT, before)


def test_a_terminal_is_told_each_tenth_once(monkeypatch, capsys):
    from paperwork.cli import _make_progress

    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    tell = _make_progress()
    for spent in range(0, 101, 5):
        tell(spent, 100, spent // 10)
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 10 and lines[0].startswith("1 placed, 10 % of the effort")


def test_a_pipe_is_told_nothing_of_the_way(tmp_path):
    text = "radios: {b: {tunes: 470-472, step: 25 kHz, bandwidth: 200 kHz}}\nchannels:\n" + "".join(
        f"  {n}: {{by: P{n}}}\n" for n in range(1, 9)
    )
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "paperwork", "assign", "show.yaml", "-o", "new.yaml", "--effort", "30"],
        cwd=tmp_path,
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    assert done.returncode == 1 and "left without" in done.stdout
    assert "% of the effort" not in done.stderr and done.stderr.endswith("\n1 warning\n")


def _in_pier(text: str) -> str:
    """The example with rows for a house where two of its TV channels are in use, and one channel that is told there."""
    rows = (
        "  p1: {venue: Pier, section: spectrum, field: tv, value: '22, 28'}\n"
        "  p2: {venue: Pier, section: channels, record: 1, field: mhz, value: 470.200}\n"
    )
    return text.rstrip("\n") + "\n" + rows


@pytest.mark.parametrize("kind", few_of(("xlsx", "yaml")))
def test_another_house_gets_rows_for_the_channels_that_are_not_clean_there_and_no_others(tmp_path, kind):
    source, old, new = tmp_path / "show.yaml", tmp_path / f"old.{kind}", tmp_path / f"tour.{kind}"
    text = (EXAMPLES / "show.yaml").read_text(encoding="utf-8").replace("sweeps: ", "# sweeps: ")
    source.write_text(_in_pier(text), encoding="utf-8")
    if kind == "xlsx":
        runner = CliRunner().invoke(convert, [str(source), str(old)], standalone_mode=False)
        assert runner.return_value.code == 0
    else:
        old.write_bytes(source.read_bytes())
    before = read_show(old, old.name, venue="pier")
    taken = {f.subjects[0].id for f in before.findings if f.code == "tv-in-use"}
    assert len(taken) > 2
    outcome = (
        CliRunner().invoke(command, [str(old), "-o", str(new), "--venue", "pier"], standalone_mode=False).return_value
    )
    assert outcome.code == 0, outcome.aside
    home, there = read_show(new, new.name), read_show(new, new.name, venue="Pier")
    assert not [finding for finding in there.findings if finding.severity == "error"]
    assert {id: c.hz for id, c in home.show.channels.items()} == {
        id: c.hz for id, c in read_show(old, old.name).show.channels.items()
    }
    moved = {id for id, channel in there.show.channels.items() if channel.hz != before.show.channels[id].hz}
    assert taken <= moved < set(there.show.channels) and there.show.channels["01"].hz == 470_200_000
    again = CliRunner().invoke(
        command, [str(new), "-o", str(tmp_path / f"x.{kind}"), "--venue", "Pier"], standalone_mode=False
    )
    assert "every channel has its frequency already" in again.return_value.text


def test_a_venue_that_is_not_there_and_spares_for_one_house_are_refused(tmp_path):
    old = tmp_path / "show.yaml"
    old.write_text(
        _in_pier((EXAMPLES / "show.yaml").read_text(encoding="utf-8").replace("sweeps: ", "# sweeps: ")),
        encoding="utf-8",
    )
    for more, said in (
        (["--venue", "Peer"], "did you mean Pier?"),
        (["--venue", "Pier", "--spares", "2"], "without --venue"),
    ):
        outcome = (
            CliRunner()
            .invoke(command, [str(old), "-o", str(tmp_path / "n.yaml"), *more], standalone_mode=False)
            .return_value
        )
        assert outcome.code and said in outcome.aside and not (tmp_path / "n.yaml").exists()


IN_EAR_IN_TV = (
    "spectrum: {region: Europe}\nradios: {belt: {tunes: 470-510}, ears: {tunes: 606-640}}\n"
    "channels: {1: {role: A, radio: belt, mhz: 487.2}}\n"
    "others: {E1: {kind: in-ear, radio: ears, mhz: 614.700}, N: {kind: neighbour, mhz: 615.300}}\n"
    "venues: {v1: {venue: Elm, section: spectrum, field: tv, value: 39}}\n"
)


@pytest.mark.parametrize("more", ((), ("--anew",), ("--repair",)))
def test_an_in_ear_of_ours_gets_another_frequency_in_another_house_and_a_neighbour_keeps_its_own(tmp_path, more):
    (tmp_path / "show.yaml").write_text(IN_EAR_IN_TV, encoding="utf-8")
    outcome = run(tmp_path, "show.yaml", "-o", "new.yaml", "--venue", "Elm", *more)
    assert "other E1: " in outcome.text and "N:" not in outcome.text
    there = read_show(tmp_path / "new.yaml", "new.yaml", venue="Elm")
    assert [one.subjects[0].id for one in there.findings if one.severity == "error"] in ([], ["N"])
    assert there.show.others["E1"].hz != 614_700_000 and there.show.others["N"].hz == 615_300_000
    assert read_show(tmp_path / "new.yaml", "new.yaml").show.others["E1"].hz == 614_700_000


ANSWERS = ("", "", "granted: no", "granted: {hz}", "granted: 480.0125", "granted: 484.500", "granted: 479.900")


@settings(max_examples=few_examples(30), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(shows(), st.lists(st.sampled_from(ANSWERS), min_size=9, max_size=9), st.sampled_from(("--answered", "--anew")))
def test_nothing_is_wrong_with_what_was_placed_beside_what_stays(text, answers, mode):
    """Who was granted what it cannot have, or was refused and finds nothing, is on the air where it was."""
    lines = []
    for line in text.splitlines():
        told = re.fullmatch(r"(  ([0-9]+): .*mhz: )([0-9.]+)}", line)
        answer = answers[int(told[2]) % 9].format(hz=told[3]) if told else ""
        lines.append(f"{told[1]}{told[3]}, {answer}}}" if told and answer else line)
    with TemporaryDirectory() as folder:
        (Path(folder) / "show.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
        outcome = run(folder, "show.yaml", "-o", "new.yaml", mode, "--effort", "30")
        placed = set(re.findall(r"^channel ([0-9]+): [0-9.]+ MHz$", outcome.text, re.MULTILINE))
        if not (Path(folder) / "new.yaml").exists():
            return
        after = read_show(Path(folder) / "new.yaml", "new.yaml")
    wrong = [f for f in after.findings if f.severity == "error" and any(s.id in placed for s in f.subjects)]
    assert not wrong, (outcome.text, wrong)
    if mode == "--anew":
        without = {id for id, one in after.show.channels.items() if one.hz is None}
        unanswered = {id for id, one in after.show.channels.items() if one.granted_hz is None and not one.refused}
        assert without & unanswered == unanswered - placed


def test_what_moves_is_what_a_finding_would_move_and_never_what_is_kept():
    text = "spectrum: {region: Europe, tv: 23}\nradios: {belt: {tunes: 470-510}}\nchannels: {1: {role: A, mhz: 487.2}, 2: {role: B, mhz: 496.2}, 3: {role: C, mhz: 496.2}, 4: {role: D, mhz: 501.3}}\n"
    show = build_show(raw_of(text)).show
    assert list_movers(show).channels == ("1", "3")
    assert list_movers(show, frozenset((Subject("channels", "1"), Subject("channels", "3")))).channels == ()
    assert [id for id, one in free_channels(show, ("1",)).channels.items() if one.hz is None] == ["1"]


def test_a_refused_channel_that_finds_nothing_names_the_repair_as_the_next_step(tmp_path):
    text = "radios: {{belt: {{tunes: 486-486.2}}}}\nchannels: {{1: {{role: A, mhz: 486.000, granted: {}}}}}\n"
    for answer, is_next in (("no", True), ("486.000", False)):
        (tmp_path / "show.yaml").write_text(text.format(answer), encoding="utf-8")
        outcome = run(tmp_path, "show.yaml", "-o", "new.yaml", "--answered", "--effort", "5")
        assert ("`paperwork assign --repair`" in outcome.text) == is_next
