"""`paperwork assign --repair`: what it mends is clean, what need not move stays, and what is left is said."""

from dataclasses import replace

from click.testing import CliRunner
from hypothesis import HealthCheck, Phase, given, settings

from paperwork.build import build_show
from paperwork.checks.air.frequencies import draft_frequencies
from paperwork.checks.air.repair import repair_show
from paperwork.codes import CODES
from paperwork.commands.assign import command
from paperwork.coordinate import gather_on_air
from paperwork.reading import read_show
from tests.few import few_examples
from tests.shows_text import raw_of
from tests.test_assign import shows

BELT = "radios: {belt: {tunes: 470-510, step: 25 kHz, bandwidth: 200 kHz}}\n"
BROKEN = (
    BELT + "spectrum: {region: Europe, tv: 22}\nchannels:\n  1: {radio: belt, by: Ann, mhz: 470.200}\n"
    "  2: {radio: belt, by: Bo, mhz: 471.000}\n  3: {radio: belt, by: Cy, mhz: 480.000, asked: 480.000, granted: 480.000}\n"
    "  4: {radio: belt, by: Di, mhz: 471.800}\n  5: {radio: belt, by: Ed, mhz: 490.000, granted: no}\n"
)


def run(tmp_path, text, *more):
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    arguments = [str(tmp_path / "show.yaml"), "-o", str(tmp_path / "new.yaml"), "--repair", "--effort", "300", *more]
    return CliRunner().invoke(command, arguments, obj={}, standalone_mode=False, catch_exceptions=False).return_value


def test_those_that_move_are_named_with_where_from_where_to_and_why(tmp_path):
    done = run(tmp_path, BROKEN)
    lines = done.text.splitlines()
    assert done.code == 0 and [line.split(":")[0] for line in lines[:3]] == ["channel 3", "channel 4", "channel 5"]
    assert "480.000 -> " in lines[0] and "TV channel 22" in lines[0] and lines[0].endswith("; ask for it again")
    assert "the product 2a-b of channel 2 and channel 1" in lines[1] and "refused 490.000 MHz" in lines[2]
    assert lines[3].startswith("3 moved; fewer cannot do it")
    after = read_show(tmp_path / "new.yaml", "new.yaml")
    assert after.findings == () and after.show.channels["1"].hz == 470_200_000
    assert after.show.spectrum.refused_hz == (490_000_000,) and after.show.channels["3"].granted_hz is None


def test_what_was_granted_stays_where_another_can_move(tmp_path):
    granted = "channels:\n  1: {radio: belt, by: Ann, mhz: 470.200}\n  2: {radio: belt, by: Bo, mhz: 470.300, granted: 470.300}\n"
    assert run(tmp_path, BELT + granted).text.startswith("channel 1: 470.200 -> ")


def test_a_guest_moves_ours_and_never_the_guest(tmp_path):
    guest = "channels: {1: {radio: belt, by: Ann, mhz: 480.000}}\nothers: {GUEST: {kind: in-ear, mhz: 480.100}}\n"
    assert run(tmp_path, BELT + guest).text.startswith("channel 1: 480.000 -> ")


def test_who_moves_to_what_was_granted_keeps_the_grant_and_is_not_to_ask_again(tmp_path):
    granted = "channels:\n  1: {radio: belt, by: Ann, mhz: 480.000, asked: 480.000, granted: 484.000}\n"
    done = run(tmp_path, BELT + granted)
    assert "480.000 -> 484.000" in done.text and "ask for it again" not in done.text
    now = read_show(tmp_path / "new.yaml", "new.yaml").show.channels["1"]
    assert (now.hz, now.asked_hz, now.granted_hz) == (484_000_000, 480_000_000, 484_000_000)


def test_what_finds_no_place_is_said_and_nothing_is_written(tmp_path):
    text = (
        BELT.replace("470-510", "480-480.4")
        + "spectrum: {region: Europe, tv: 22}\nchannels: {1: {radio: belt, by: Ann, mhz: 480.200}}\n"
    )
    done = run(tmp_path, text)
    assert done.code == 1 and "channel 1 stays as it is, and wrong: " in done.text
    assert not (tmp_path / "new.yaml").exists()


def test_a_clean_show_is_left_as_it_is(tmp_path):
    done = run(tmp_path, BELT + "channels: {1: {radio: belt, by: Ann, mhz: 480.000}}\n")
    assert done.code == 0 and "nothing to move" in done.text and not (tmp_path / "new.yaml").exists()


def test_it_goes_with_nothing_that_places_anew(tmp_path):
    assert run(tmp_path, BROKEN, "--anew").code == 2


@settings(
    max_examples=few_examples(10), phases=[Phase.generate], deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
@given(shows())
def test_after_a_repair_nothing_is_wrong_but_what_it_names(text):
    show = build_show(raw_of(text)).show
    found = repair_show(show, effort=60)
    moved = {id: move.hz for move in found.moves for id in move.channels}
    assert all(show.channels[id].hz not in (None, hz) for id, hz in moved.items())
    channels = {id: replace(one, hz=moved.get(id, one.hz)) for id, one in show.channels.items()}
    on_air = gather_on_air(replace(show, channels=channels))
    left = {name for name, _ in found.left}
    others = set(show.others)
    for draft in draft_frequencies(on_air):
        names = {name for name, subjects in on_air.subjects.items() if set(subjects) & set(draft.about)}
        assert CODES[draft.code].severity != "error" or names <= left | others, draft
