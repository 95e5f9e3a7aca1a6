"""What was not simply taken as it is written is in the reading itself: the cell, what it said, what it became, and why."""

import json

from click.testing import CliRunner

from paperwork.commands.answer import command
from tests.intake.plots import write_plot
from tests.intake.sheets import read, read_data, read_text
from tests.intake.worlds import write_list

LIST = "Mic;Name;Role;Frequenz\n1;Ana Cole;VERA;518.200\n2;Ben Orr;TOM;518,600\n3;Eve Low;IDA;520.200 / 521.400\n4;Joe Yu;MAY;38??\n"


def test_a_repair_is_noted_with_its_cell_and_its_reason() -> None:
    (repair, *doubts) = read_text(LIST).notes
    assert (repair.place.line, repair.written, repair.taken) == (3, "518,600", "518.600")
    assert repair.doubt == "sure" and "decimal" in repair.because and not repair.about
    assert [(one.place.line, one.written, one.taken, one.doubt) for one in doubts] == [
        (4, "520.200 / 521.400", "", "open"),
        (5, "38??", "", "open"),
    ]


def test_an_answer_takes_the_doubt_away() -> None:
    (*_, doubt) = read_text(LIST).notes
    assert [one.kind for one in read_text(LIST, {(doubt.kind, doubt.about): "?"}).notes].count("frequency") == 1


def test_what_is_said_of_a_person_is_not_noted() -> None:
    got = read([["Mic", "Name", "Freq", "Phone"], ["1", "Ana", "518,2", "07700 900123"], ["2", "Ben", "519.4", "-"]])
    assert got.notes and "900123" not in repr(got.notes)


def test_every_repair_and_every_doubt_of_a_cell_is_noted_once() -> None:
    """Of random lists and plots: each place that a finding of repairs names is noted, and each noted cell is one of the file."""
    for seed in range(40):
        for write in (write_list, write_plot):
            written = write(seed)
            got = read_data(written.data, None, written.name)
            named = {at for one in got.findings if one.code == "value-repaired" for at in (one.place, *one.others)}
            assert named <= {one.place for one in got.notes}, written.manner
            assert len(set(got.notes)) == len(got.notes)
            asked = {(one.kind, one.about) for one in got.questions} - {(one.kind, one.about) for one in got.decisions}
            assert {(one.kind, one.about) for one in got.notes if one.about} <= asked


def test_the_command_and_its_json_say_it(tmp_path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(LIST, encoding="utf-8")
    shown = CliRunner().invoke(command, [str(path)]).output
    assert '  line 3 "518,600": "518.600" (both are read as the decimal sign)' in shown
    assert '? line 5 "38??": not taken yet' in shown
    told = CliRunner().invoke(command, [str(path), "--format", "json"], standalone_mode=False).return_value
    data = json.loads(told.text)
    assert [one["written"] for one in data["cells"]] == ["518,600", "520.200 / 521.400", "38??"]
    assert {one["value"] for one in data["decisions"] if one["kind"] == "column"} >= {"channel", "performer"}
