"""`paperwork request` and `reply`: the coordinator's table out and back, held against the show in between."""

import csv
import io

import openpyxl
import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from paperwork.commands import assign, reply, request
from paperwork.coordinate.reply import compare_reply, list_edits
from paperwork.files.csv.read import read_csv
from paperwork.files.csv.write import write_rows
from paperwork.intake.reply import read_reply
from paperwork.reading import read_show
from paperwork.sheets.production.request_table import list_rows

SHOW = """# the gala
show: {title: Gala, language: LANGUAGE}
spectrum: {region: Europe}
radios: {belt: {kind: pack, bandwidth: 200 kHz, tunes: 470-534, step: 25 kHz}}
channels:
  01: {by: Ann, radio: belt, mhz: 486.200}   # the lead
  02: {by: Bo, radio: belt, mhz: 487.075}
  03: {by: Cy, radio: belt, mhz: 489.000}
  04: {by: Di, radio: belt, mhz: 491.500, granted: 491.500}
  05: {by: Ed, radio: belt, mhz: 494.000, granted: no}
others:
  EARS: {kind: in-ear, mhz: 611.000}
  TALK: {kind: intercom, mhz: 618.500, granted: 618.500}
"""


@pytest.fixture(params=("en", "de", "fr", "es"))
def show(request, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "show.yaml").write_text(SHOW.replace("LANGUAGE", request.param), encoding="utf-8")
    return tmp_path


def run(command, *arguments):
    return CliRunner().invoke(command, arguments, standalone_mode=False).return_value


def answer(folder, rows, *more):
    (folder / "a.csv").write_bytes(write_rows(rows))
    return run(reply.command, "show.yaml", "a.csv", "-o", "new.yaml", *more)


@pytest.mark.parametrize("suffix", (".csv", ".xlsx"))
def test_a_request_that_comes_back_as_it_went_changes_nothing(show, suffix):
    assert run(request.command, "show.yaml", f"r{suffix}").code == 0
    outcome = run(reply.command, "show.yaml", f"r{suffix}", "-o", "new.yaml")
    assert outcome.code == 0 and not (show / "new.yaml").exists()
    assert outcome.text.endswith("new.yaml was not written: the show has all of this already\n")


def write_book(rows):
    book, data = openpyxl.Workbook(), io.BytesIO()
    for row in rows:
        book.active.append(row)
    book.save(data)
    return data.getvalue()


ANSWERS = st.one_of(st.none(), st.just("no"), st.integers(470_200 // 25, 533_800 // 25).map(lambda step: step * 25))


@given(answers=st.lists(ANSWERS, min_size=7, max_size=7), language=st.sampled_from(("en", "de", "fr", "es")))
def test_a_round_trip_with_random_changes_gives_exactly_those_differences(tmp_path_factory, answers, language):
    path = tmp_path_factory.mktemp("trip") / "show.yaml"
    path.write_text(SHOW.replace("LANGUAGE", language), encoding="utf-8")
    held = read_show(path, "show.yaml").show
    # the table is filled in by another program than ours
    rows = list(csv.reader(io.StringIO(write_rows(list_rows(held)).decode("utf-8-sig"), newline="")))
    stated = {"04": "491.500", "05": "no", "TALK": "618.500"}
    wanted = {}
    for row, given_khz in zip(rows[1:], answers, strict=True):
        if given_khz is not None:
            row[-1] = given_khz if given_khz == "no" else f"{given_khz // 1000}.{given_khz % 1000:03}"
            if stated.get(row[0]) != row[-1]:
                wanted[row[0]] = row[-1]
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    read = read_reply(read_csv(out.getvalue().encode("utf-8"), "a.csv"), [*held.channels, *held.others])
    found = compare_reply(held, read.rows)
    assert not read.faults and not found.faults
    assert {one.record: one.value for one in list_edits(found.answers) if one.field == "granted"} == wanted


def test_answers_are_written_as_granted_and_everything_else_stays(show):
    outcome = answer(show, [["Row", "Granted, MHz"], ["1", "486.200"], ["02", "488,100"], ["03", "no"]])
    text = (show / "new.yaml").read_text("utf-8")
    assert "01: {by: Ann, radio: belt, mhz: 486.200, granted: 486.200}   # the lead" in text
    assert "02: {by: Bo, radio: belt, mhz: 487.075, asked: 487.075, granted: 488.100}" in text
    again = read_show(show / "new.yaml", "new.yaml").show
    assert again.channels["03"].refused and again.channels["03"].asked_hz == 489_000_000
    assert (
        "02: 487.075 MHz asked, 488.100 granted\n" in outcome.text
        and "03: 489.000 MHz asked, refused\n" in outcome.text
    )


@pytest.mark.parametrize(
    "head",
    (
        ("Device", "Wanted", "Allocated"),
        ("Gerät", "Wunschfrequenz", "Zugeteilt (MHz)"),
        ("Repère", "Fréquence demandée", "Accordée"),
        ("Etiqueta", "Solicitada", "Concedida"),
    ),
)
def test_a_table_under_the_coordinators_own_headings_below_a_letter_is_read(show, head):
    rows = [
        ["Office of the air", ""],
        ["Answer of 4 March"],
        [*head],
        ["01", "486.200", "486.900"],
        ["02", "487.075", "487.075"],
    ]
    (show / "a.xlsx").write_bytes(write_book(rows))
    run(reply.command, "show.yaml", "a.xlsx", "-o", "new.yaml")
    again = read_show(show / "new.yaml", "new.yaml").show
    assert (again.channels["01"].granted_hz, again.channels["02"].granted_hz) == (486_900_000, 487_075_000)


def test_a_decision_beside_the_frequency_counts(show):
    answer(show, [["Ref", "Frequency", "Status"], ["01", "486.200", "approved"], ["02", "487.075", "refused"]])
    again = read_show(show / "new.yaml", "new.yaml").show
    assert again.channels["01"].granted_hz == 486_200_000 and again.channels["02"].refused


def test_rows_are_named_by_the_column_that_names_most_of_what_was_asked(show):
    rows = [["No", "Name", "Granted"], ["11", "01", "486.900"], ["12", "02", "487.900"], ["3", "03", "no"]]
    answer(show, rows)
    assert read_show(show / "new.yaml", "new.yaml").show.channels["01"].granted_hz == 486_900_000


@pytest.mark.parametrize(
    ("rows", "said"),
    (
        ([["Row", "Granted"], ["01", "486.2 or so"]], "a.csv:2:"),
        ([["Row", "Granted"], ["01", "486.200"], ["1", "no"]], "01 has another answer at a.csv:2:1"),
        ([["No", "Name", "Granted"], ["1", "02", "486.2"], ["2", "01", "no"]], "No and Name both could name the rows"),
        ([["Somebody", "Something"], ["1", "2"]], "there is no table with a column that names the rows"),
    ),
)
def test_what_cannot_be_read_for_certain_writes_nothing_and_says_where(show, rows, said):
    outcome = answer(show, rows)
    assert outcome.code == 1 and not (show / "new.yaml").exists()
    assert (
        said in outcome.aside or said.replace("01 has", "1 has") in outcome.aside
    ) and "nothing was written" in outcome.aside


def test_a_row_of_no_channel_and_an_answer_to_an_older_request_are_said(show):
    outcome = answer(show, [["Row", "Asked", "Granted"], ["01", "486.300", "486.300"], ["17", "", "490.000"]])
    assert "is this the reply to an older request?" in outcome.text
    assert (
        "17 is neither a channel nor another carrier of the show" in outcome.text
        and "no answer yet: 02-05, EARS, TALK" in outcome.text.replace("–", "-")
    )


def test_a_grant_between_two_steps_is_a_decision(show):
    rows = [["Row", "Granted"], ["01", "486.210"]]
    outcome = answer(show, rows)
    assert (
        "01 cannot be set to 486.210 MHz, which was granted: the nearest it tunes to is 486.200, 10 kHz away"
        in outcome.text
    )
    assert read_show(show / "new.yaml", "new.yaml").show.channels["01"].granted_hz == 486_210_000
    (show / "new.yaml").unlink()
    answer(show, rows, "--nearest")
    assert read_show(show / "new.yaml", "new.yaml").show.channels["01"].granted_hz == 486_200_000


def test_what_was_refused_is_not_assigned_again_and_waits_for_a_new_request(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    narrow = SHOW.replace("LANGUAGE", "en").replace("470-534", "485.8-486.5").split("  02:")[0]
    (tmp_path / "show.yaml").write_text(
        narrow.replace("mhz: 486.200", 'asked: 486.200, granted: "no"'), encoding="utf-8"
    )
    outcome = run(assign.command, "show.yaml", "-o", "new.yaml")
    channel = read_show(tmp_path / "new.yaml", "new.yaml").show.channels["01"]
    assert outcome.code == 0 and abs(channel.hz - 486_200_000) >= 200_000
    assert not channel.refused and channel.asked_hz is None
    remembered = read_show(tmp_path / "new.yaml", "new.yaml").show
    assert remembered.spectrum.refused_hz == (486_200_000,)


SPECTRA = st.sampled_from(("470-534", "486-488"))


@given(data=st.data(), tunes=SPECTRA)
def test_whatever_is_answered_assign_sets_what_was_granted_and_never_what_was_refused(tmp_path_factory, data, tunes):
    """Brute force: each refused frequency is compared with each that is set afterwards."""
    folder = tmp_path_factory.mktemp("answered")
    grants = st.one_of(st.none(), st.just("no"), st.sampled_from(("486.500", "486.510", "487.500", "489.900")))
    answers = data.draw(st.lists(grants, min_size=5, max_size=5))
    text = SHOW.replace("LANGUAGE", "en").replace("470-534", tunes).replace(", granted: 491.500", "")
    text = text.replace(", granted: no", "").split("others:")[0]
    for number, answered in enumerate(answers, 1):
        text = text.replace("}   #", "} #").replace(
            f"  0{number}: {{", f"  0{number}: {{{f'granted: {answered}, ' if answered else ''}"
        )
    (folder / "show.yaml").write_text(text, encoding="utf-8")
    asked = {id: one.hz for id, one in read_show(folder / "show.yaml", "show.yaml").show.channels.items()}
    run(assign.command, str(folder / "show.yaml"), "-o", str(folder / "new.yaml"), "--answered", "--effort", "20")
    if not (folder / "new.yaml").exists():
        return
    made = read_show(folder / "new.yaml", "new.yaml").show
    for number, answered in enumerate(answers, 1):
        channel = made.channels[f"0{number}"]
        if answered is None:
            assert channel.hz == asked[channel.id]
        elif answered == "no" and channel.hz != asked[channel.id]:
            assert not channel.refused and asked[channel.id] in made.spectrum.refused_hz
            granted = [one.granted_hz for one in made.channels.values() if one.granted_hz is not None]
            for refused in made.spectrum.refused_hz:
                near = [hz for hz in granted if abs(hz - refused) < 200_000]
                assert abs(channel.hz - refused) >= 200_000 or near
        elif answered != "no":
            assert channel.hz in (asked[channel.id], channel.granted_hz) and channel.hz % 25_000 == 0


def test_an_answer_for_another_house_is_rows_of_it_and_the_home_house_stays(show):
    text = (show / "show.yaml").read_text("utf-8")
    rows = "venues:\n  v1: {venue: Pier, section: channels, record: 02, field: mhz, value: 500.000}\n"
    (show / "show.yaml").write_text(text + rows, encoding="utf-8")
    outcome = answer(
        show, [["Row", "Granted"], ["02", "no"], ["03", "501.000"], ["EARS", "612.000"]], "--venue", "Pier"
    )
    assert outcome.text, outcome.aside
    home = read_show(show / "new.yaml", "new.yaml").show
    pier = read_show(show / "new.yaml", "new.yaml", venue="Pier").show
    assert not home.channels["02"].refused and home.channels["03"].granted_hz is None
    assert pier.channels["02"].refused and pier.channels["03"].granted_hz == 501_000_000
    assert pier.others["EARS"].granted_hz == 612_000_000 and home.others["EARS"].granted_hz is None
    again = run(assign.command, "new.yaml", "-o", "plan.yaml", "--venue", "Pier", "--answered", "--effort", "20")
    assert "placed" in again.text, again.aside
    made = read_show(show / "plan.yaml", "plan.yaml", venue="Pier").show
    assert made.channels["03"].hz == made.channels["03"].granted_hz == 501_000_000 and not made.channels["02"].refused
    assert made.spectrum.refused_hz == (500_000_000,) and abs(made.channels["02"].hz - 500_000_000) >= 200_000
    assert read_show(show / "plan.yaml", "plan.yaml").show.spectrum.refused_hz == ()


def test_another_house_can_be_planned_anew_and_what_was_granted_there_stays(show):
    """The windows of the pier hold five channels, but not beside those that happen to be clean there already."""
    text = (show / "show.yaml").read_text("utf-8").split("others:")[0]
    rows = (
        'venues:\n  v1: {venue: Pier, section: spectrum, field: keep clear, value: "470-485.9, 488.9-534"}\n'
        "  v2: {venue: Pier, section: channels, record: 03, field: granted, value: 488.000}\n"
    )
    (show / "show.yaml").write_text(
        text.replace("step: 25 kHz", "step: 25 kHz, apart: 300 kHz") + rows, encoding="utf-8"
    )
    home = read_show(show / "show.yaml", "show.yaml").show
    outcome = run(assign.command, "show.yaml", "-o", "plan.yaml", "--venue", "Pier", "--anew", "--effort", "2000")
    assert "5 placed" in outcome.text and outcome.code == 0, outcome.text + outcome.aside
    pier = read_show(show / "plan.yaml", "plan.yaml", venue="Pier")
    assert not [one for one in pier.findings if one.severity == "error"]
    assert pier.show.channels["03"].hz == 488_000_000
    assert {id: one.hz for id, one in read_show(show / "plan.yaml", "plan.yaml").show.channels.items()} == {
        id: one.hz for id, one in home.channels.items()
    }
