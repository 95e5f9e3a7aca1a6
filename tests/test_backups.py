"""Backups: planned with everything else, given by `assign`, and on no paper as the channel's own frequency."""

from dataclasses import replace
from itertools import product

from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.checks.air.frequencies import check_frequencies
from paperwork.checks.air.repair import list_movers
from paperwork.checks.air.spectrum import check_spectrum
from paperwork.commands.reply import command as reply_command
from paperwork.commands.tonight import command
from paperwork.coordinate import gather_on_air, list_clashes
from paperwork.coordinate.assign import assign_show, with_frequencies
from paperwork.coordinate.freed import free_channels
from paperwork.coordinate.nearest import find_nearest
from paperwork.finding import Subject
from paperwork.model.facts import canonical_facts
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import list_close_pairs
from paperwork.reading import blank_doubted
from paperwork.sheets import SHEETS
from paperwork.sheets.production.request_table import list_rows
from tests.few import few_examples
from tests.pdf_text import read_pages
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of, reading_of

RADIO = "radios: {a: {tunes: 470-480, step: 25 kHz, bandwidth: 200 kHz, apart: 150 kHz}}\n"


def show_of(text):
    built = build_show(raw_of(text))
    assert not built.findings, [one.text for one in built.findings]
    return built.show


def rows(*channels):
    return (
        RADIO
        + "channels:\n"
        + "".join(f"  {number}: {{by: P{number}, {row}}}\n" for number, row in enumerate(channels, 1))
    )


def found_in(text):
    return [(one.code, one.subjects) for one in check_frequencies(show_of(text))]


def backups(*ids):
    return tuple(Subject("backups", id) for id in ids)


frequencies = st.integers(0, 60).map(lambda step: 472_000_000 + 25_000 * step)


@settings(max_examples=few_examples(60))
@given(st.lists(st.tuples(frequencies, st.none() | st.just(473_000_000) | frequencies), min_size=2, max_size=4))
def test_what_is_found_is_what_is_found_in_one_of_the_plans_in_which_each_channel_is_on_one_of_its_two(pairs):
    """Each channel on its own frequency or its backup, in every way: the clashes and close pairs of all those plans. A
    backup that two share has one of them at a time."""
    own, others = [hz for hz, _ in pairs], {back for _, back in pairs if back is not None}
    if len(set(own)) < len(own) or not others.isdisjoint(own):
        return
    given_rows = [f"mhz: {hz / 1e6:.3f}" + (f", backup: {back / 1e6:.3f}" if back else "") for hz, back in pairs]
    on_air = gather_on_air(show_of(rows(*given_rows)))
    by_hz = {one.hz: replace(one, exclusive="") for one in on_air.carriers}
    close, hits = set(), set()
    for chosen in product(*([hz for hz in pair if hz is not None] for pair in pairs)):
        if len(set(chosen)) < len(chosen):
            continue
        carriers = [by_hz[hz] for hz in chosen]
        close |= {(pair.lower, pair.upper) for pair in list_close_pairs(carriers, on_air.rules)}
        hits |= {(hit.text, hit.makers, hit.victim) for hit in list_hits(carriers, on_air.rules)}
    assert {(one.lower, one.upper) for one in list_close_pairs(on_air.carriers, on_air.rules)} == close

    def key(text, makers, victim):
        alike = tuple(sorted(makers[:2])) + makers[2:] if text == "a+b-c" else makers
        return text, alike, victim

    found = {key(hit.text, hit.makers, hit.victim) for clash in list_clashes(on_air) for hit in clash.hits}
    assert found == {key(*hit) for hit in hits}


def test_a_channel_and_its_own_backup_may_be_such_that_their_products_would_hit():
    """2a-b of 472.000 and 473.000 is 474.000."""
    assert found_in(rows("mhz: 472.000, backup: 473.000", "mhz: 474.000")) == []
    assert found_in(rows("mhz: 472.000", "mhz: 474.000", "mhz: 477.300, backup: 473.000")) == [
        ("intermodulation", backups("3"))
    ]


def test_a_backup_that_clashes_doubts_no_frequency_and_says_where_it_may_go():
    show = show_of(rows("mhz: 472.000", "mhz: 474.300, backup: 472.000"))
    (finding,) = check_frequencies(show)
    assert finding.code == "carrier-doubled" and finding.subjects == backups("2")
    assert [str(edit)[:18] for edit in finding.edits] == ["channels/2/backup="]
    blanked = blank_doubted(show, [finding])
    assert [one.hz for one in blanked.channels.values()] == [472_000_000, 474_300_000]
    assert blanked.channels["2"].backup_hz is None and blanked.channels["2"].wants_backup


def test_a_backup_keeps_away_from_the_frequency_that_it_stands_behind():
    assert found_in(rows("mhz: 472.000, backup: 472.325")) == [("backup-too-near", backups("1"))]
    assert found_in(rows("mhz: 472.000, backup: 472.350")) == []


def test_a_backup_can_be_tuned_and_is_in_the_window_and_off_television():
    assert found_in(rows("mhz: 472.000, backup: 480.000")) == [("frequency-out-of-tune", backups("1"))]
    assert found_in(rows("mhz: 472.000, backup: 475.010")) == [("frequency-off-step", backups("1"))]
    racked = "spectrum: {region: Europe, tv: 22}\nracks: {R: {channels: 1, window: 470-474}}\n"
    assert found_in(racked + rows("mhz: 472.000, backup: 475.000")) == [("frequency-out-of-window", backups("1"))]
    television = "spectrum: {region: Europe, tv: 22}\n"
    assert found_in(television + rows("mhz: 472.000, backup: 479.000")) == [("tv-in-use", backups("1"))]


def test_where_the_air_is_not_known_no_backup_is_certain_either():
    text = "spectrum: {region: Nowhere}\n" + rows("mhz: 472.000, backup: 475.700")
    (finding,) = check_spectrum(show_of(text))
    assert finding.subjects == (Subject("channels", "1"), *backups("1"))


def test_several_channels_may_have_one_backup_which_is_beside_them_all():
    shared = gather_on_air(show_of(rows("mhz: 472.000, backup: 475.700", "mhz: 473.350, backup: 475.700")))
    assert [one.id for one in shared.carriers] == ["channel 1", "channel 2", "backup of channels 1, 2"]
    assert found_in(rows("mhz: 472.000, backup: 475.700", "mhz: 473.350, backup: 475.700")) == []
    near = found_in(rows("mhz: 472.000, backup: 472.200", "mhz: 473.350, backup: 472.200"))
    assert ("neighbour-too-near", backups("1", "2")) in near
    zones = rows(
        "mhz: 472.000, backup: 475.700, zone: east",
        "mhz: 473.350, backup: 475.700, zone: east",
        "mhz: 472.000, backup: 475.700, zone: west",
        "mhz: 473.000, zone: west",
    )
    assert found_in(zones) == []


def test_a_wide_carrier_has_one_backup_given_on_one_of_its_channels():
    text = rows("mhz: 472.000, carrier: W, backup: 475.000", "carrier: W", "mhz: 478.000")
    on_air = gather_on_air(show_of(text))
    assert [one.id for one in on_air.carriers] == ["carrier W", "channel 3", "backup of carrier W"]
    assert on_air.subjects["backup of carrier W"] == backups("1", "2")


@settings(max_examples=5, deadline=None)
@given(st.integers(0, 4), st.integers(2, 4))
def test_assign_gives_backups_that_are_clean_and_takes_no_frequency_for_them(placed, count):
    given_rows = [f"mhz: {472 + 0.4 * n + 0.025 * n * n:.3f}" for n in range(placed)] + [""] * count
    text = rows(*(f"{row}{', ' * bool(row)}backup: yes" for row in given_rows))
    show = show_of(text)
    before = frozenset(finding.code for finding in check_frequencies(show))
    found = assign_show(show, effort=100)
    without = assign_show(show_of(text.replace("backup: yes", "")), effort=100)
    assert found.placed == without.placed
    done = with_frequencies(show, found.placed)
    channels = {
        id: replace(one, backup_hz=found.backups.get(id), wants_backup=id not in found.backups)
        for id, one in done.channels.items()
    }
    named = {one.channel for one in found.missing if one.is_backup}
    assert named | set(found.backups) == set(channels)
    assert not found.backups or not named or placed  # alike as they are, one for any is one for all
    after = frozenset(finding.code for finding in check_frequencies(replace(done, channels=channels)))
    assert after <= before


def test_where_there_is_room_for_few_backups_channels_of_one_kind_share_them():
    show = show_of(rows(*["backup: yes"] * 4).replace("470-480", "470-474"))
    found = assign_show(show, effort=100)
    assert set(found.placed) == set(found.backups) == {"1", "2", "3", "4"} and found.missing == ()
    assert len(set(found.backups.values())) < 4
    done = with_frequencies(show, found.placed)
    channels = {id: replace(one, backup_hz=found.backups[id], wants_backup=False) for id, one in done.channels.items()}
    assert not list(check_frequencies(replace(done, channels=channels)))


def test_a_backup_is_shared_only_by_what_can_be_set_to_it():
    text = (
        "radios: {a: {tunes: 470-470.600, step: 25 kHz}, b: {tunes: 490-500, step: 25 kHz}}\n"
        "channels: {1: {by: A, radio: a, mhz: 470.100, backup: yes}, 2: {by: B, radio: b, mhz: 491.000, backup: yes}}\n"
    )
    found = assign_show(show_of(text))
    assert found.backups.get("2", 0) > 490_000_000 and found.backups.get("1", 470_500_000) == 470_500_000


def test_assign_puts_a_backup_into_another_television_channel_where_there_is_room():
    text = (
        "spectrum: {region: Europe, tv: 23}\n"
        + RADIO.replace("470-480", "470-486")
        + "channels: {1: {by: A, mhz: 472.000, backup: yes}}\n"
    )
    found = assign_show(show_of(text))
    assert found.placed == {} and found.backups["1"] >= 478_100_000


def test_a_backup_waits_for_a_frequency_of_its_channel():
    text = "radios: {a: {tunes: 470-470.200, step: 25 kHz}}\nchannels: {1: {by: A, mhz: 470.100}, 2: {by: B, backup: yes}}\n"
    found = assign_show(show_of(text))
    assert [(one.channel, one.is_backup) for one in found.missing] == [("2", False), ("2", True)]
    assert found.missing[1].reason == "it has no frequency of its own yet"


def test_what_is_offered_for_a_backup_is_clean_beside_its_own_carrier_too():
    on_air = gather_on_air(show_of(rows("mhz: 472.000, backup: 473.000", "mhz: 474.300, backup: 472.000")))
    hz, words = find_nearest(on_air, ["backup of channel 2"])["backup of channel 2"]
    assert words == f"; {hz / 1e6:.3f} MHz is clean for backup of channel 2"
    assert abs(hz - 472_000_000) >= 350_000 and abs(hz - 474_300_000) >= 350_000


def test_in_another_house_a_backup_that_is_not_clean_is_found_anew_and_its_channel_stays():
    show = show_of("spectrum: {region: Europe, tv: 22}\n" + rows("mhz: 472.000, backup: 479.000", "mhz: 474.300"))
    assert list_movers(show) == ((), ("1",), ())
    freed = free_channels(show, *list_movers(show))
    assert freed.channels["1"].hz == 472_000_000 and freed.channels["1"].wants_backup
    assert set(assign_show(freed).backups) == {"1"}


def test_a_show_without_backups_says_what_it_said():
    assert b"backup" not in canonical_facts(show_of(rows("mhz: 472.000")))
    assert b'"backup_hz":475000000' in canonical_facts(show_of(rows("mhz: 472.000, backup: 475.000")))


def test_a_backup_that_is_no_frequency_is_refused(tmp_path):
    reading = reading_of(rows("mhz: 472.000, backup: perhaps"), tmp_path)
    (finding,) = [one for one in reading.findings if one.severity == "error"]
    assert finding.code == "value-unreadable" and "or yes" in finding.fix


RACKED = """
show: {title: Glass, contact: Ann}
radios: {a: {tunes: 470-480, step: 25 kHz, bandwidth: 200 kHz, apart: 150 kHz}}
racks: {R1: {channels: 1-4, radio: a, analogue 1: FOH 1-4}}
channels:
  1: {role: VERA, by: Ida Wren, mhz: 472.000, backup: 475.700}
  2: {role: TOM, by: Jo Park, mhz: 473.350}
  3: {role: MUM, by: Kim Sand, mhz: 474.475, backup: yes}
  4: {spare: a, backs: 1-3, mhz: 479.200, pack: S1}
"""


def tonight(tmp_path, *arguments):
    path = tmp_path / "show.yaml"
    path.write_text(RACKED, encoding="utf-8")
    folder = tmp_path / "out"
    outcome = (
        CliRunner()
        .invoke(command, [str(path), *arguments, "-o", str(folder)], standalone_mode=False, obj={})
        .return_value
    )
    return outcome, {one.stem: " ".join(read_pages(one.read_bytes())) for one in folder.rglob("*.pdf")}


def test_a_bad_frequency_goes_to_its_backup_and_the_label_says_so(tmp_path):
    outcome, papers = tonight(tmp_path, "--bad", "1")
    assert "Set receiver R1.1 to 475.700 MHz, then pack 1" in outcome.text
    assert outcome.code == 0 and "new tonight" not in outcome.text, outcome.text
    assert "Bad frequency 472.000 MHz: channel 1, VERA" in papers["tonight"]
    assert "475.700" in papers["tonight-labels"] and "472.000" not in papers["tonight-labels"]


def test_a_bad_frequency_without_a_backup_goes_to_the_spare_channel(tmp_path):
    outcome, _ = tonight(tmp_path, "--bad", "2")
    assert "Give the performer pack S1: channel 4, slot R1.4." in outcome.text
    assert "route FOH 4 to the role’s channel strip" in outcome.text
    taken, _ = tonight(tmp_path, "--bad", "2", "--dead", "S1")
    assert "No spare reaches channel 2" in taken.text and "Why: S1 is in use or dead itself." in taken.text


def test_a_channel_that_is_not_there_is_said(tmp_path):
    outcome, _ = tonight(tmp_path, "--bad", "9")
    assert outcome.code == 2 and "there is no channel 9" in outcome.aside


def test_backups_are_on_the_checklist_the_card_the_request_and_the_list(tmp_path):
    show = reading_of(RACKED, tmp_path).show
    said = {paper.name: " / ".join(one for sheet in paper.make(show) for one in texts_of(sheet)) for paper in SHEETS}
    for name in ("programming-checklist", "spare-cards", "frequency-request", "frequency-list"):
        assert "475.700" in said[name], name
    assert "backup ____.____" in said["programming-checklist"]
    assert "1 backup" in said["frequency-request"] and "3 backup" in said["frequency-request"]
    assert "475.700" not in said["channel-chart"] + said["pack-labels"]
    table = list_rows(show)
    assert next(row for row in table if row[0] == "1 backup")[-2:] == ["475.700", ""]
    assert next(row for row in table if row[0] == "3 backup")[-2:] == ["", ""]


def answer(tmp_path, answers):
    """The show after a reply to its own request with these answers."""
    show = tmp_path / "show.yaml"
    show.write_text(RACKED, encoding="utf-8")
    (head, *asked) = list_rows(reading_of(RACKED, tmp_path).show)
    table = [head, *([*one[:-1], answers.get(one[0], "")] for one in asked)]
    reply = tmp_path / "reply.csv"
    reply.write_text("\n".join(",".join(f'"{cell}"' for cell in one) for one in table), encoding="utf-8")
    new = tmp_path / "new.yaml"
    outcome = (
        CliRunner()
        .invoke(reply_command, [str(show), str(reply), "-o", str(new)], standalone_mode=False, obj={})
        .return_value
    )
    return outcome, reading_of(new.read_text(encoding="utf-8"), tmp_path).show if new.exists() else None


def test_a_backup_is_answered_by_its_own_row(tmp_path):
    outcome, show = answer(tmp_path, {"1": "yes", "1 backup": "476.200"})
    assert show.channels["1"].backup_hz == 476_200_000 and show.channels["1"].granted_hz == 472_000_000
    assert "1 backup: 475.700 MHz asked, 476.200 granted" in outcome.text


def test_a_backup_that_is_refused_is_to_be_found_anew_and_never_there(tmp_path):
    outcome, show = answer(tmp_path, {"1 backup": "no"})
    assert show.channels["1"].wants_backup and show.channels["1"].hz == 472_000_000
    assert show.spectrum.refused_hz == (475_700_000,)
    assert "refused: 1 backup: none now" in outcome.text and "off the air" not in outcome.text
    assert abs(assign_show(show).backups["1"] - 475_700_000) >= 200_000


def test_a_backup_that_is_granted_as_asked_changes_nothing(tmp_path):
    outcome, show = answer(tmp_path, {"1 backup": "yes"})
    assert show is None and "has all of this already" in outcome.text
