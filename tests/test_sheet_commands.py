"""`new`, `convert`, `answer` and `check --mark` as a user meets them."""

import re
import shutil
import subprocess
import sys
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest

from paperwork.build import build_show
from paperwork.files import read_bytes
from paperwork.intake import read_source
from tests.intake.sheets import workbook
from tests.shows_text import EXAMPLES
from tests.terminal import run

LIST = [
    ["Ch", "Actor", "Character", "Freq"],
    [1, "Mara Lind", "VERA", 518.2],
    [2, "Max Ried", "Mr Harrow", "519.4 / 522.6"],
    [3, "SPARE", None, 524.1],
]


@pytest.fixture
def sheet(tmp_path) -> Path:
    (tmp_path / "list.xlsx").write_bytes(workbook({"Mics": LIST}))
    return tmp_path


def show_in(path: Path):
    raw = read_source(path, path.name).raw
    return build_show(raw).show


@pytest.mark.parametrize("name", ["show.xlsx", "show.yaml"])
def test_new_writes_a_show_once_in_which_nothing_but_the_example_is_told(tmp_path, name):
    assert run("new", name, cwd=tmp_path).returncode == 0
    before = (tmp_path / name).read_bytes()
    assert re.findall(r"\[([a-z-]+)\]", run("check", name, cwd=tmp_path).stdout) == ["example-left"]
    again = run("new", name, cwd=tmp_path)
    assert again.returncode == 2 and "is there already" in again.stderr and (tmp_path / name).read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_new_wants_a_kind_that_it_knows(tmp_path):
    done = run("new", "show.doc", cwd=tmp_path)
    assert done.returncode == 2 and ".xlsx" in done.stderr and not list(tmp_path.iterdir())
    done = run("new", "nowhere/show.yaml", cwd=tmp_path)
    assert done.returncode == 2 and "make that folder first" in done.stderr


def test_the_example_goes_there_and_back_without_loss(tmp_path):
    shutil.copy(EXAMPLES / "show.yaml", tmp_path)
    assert run("convert", "show.yaml", "show.xlsx", cwd=tmp_path).returncode == 0
    assert run("convert", "show.xlsx", "back.yaml", cwd=tmp_path).returncode == 0
    first, second, third = (show_in(tmp_path / name) for name in ("show.yaml", "show.xlsx", "back.yaml"))
    assert first == second == third
    texts = [(tmp_path / name).read_text(encoding="utf-8") for name in ("show.yaml", "back.yaml")]
    assert all("470.200" in text and " 01:" in text for text in texts)
    orders = [
        [key.text for key, _ in read_source(tmp_path / n, n).raw.get("channels").items]
        for n in ("show.yaml", "show.xlsx", "back.yaml")
    ]
    assert orders[0] == orders[1] == orders[2]


def test_the_channel_list_goes_out_as_separated_values_and_back(tmp_path):
    shutil.copy(EXAMPLES / "show.yaml", tmp_path)
    done = run("convert", "show.yaml", "list.csv", cwd=tmp_path)
    assert done.returncode == 0 and "no room for it: show" in done.stdout
    assert "nothing to ask" in run("answer", "list.csv", cwd=tmp_path).stdout
    assert run("convert", "list.csv", "list.yaml", cwd=tmp_path).returncode == 0
    raw, _ = read_bytes((tmp_path / "show.yaml").read_bytes(), "show.yaml")
    only = type(raw)((next(item for item in raw.items if item[0].text == "channels"),), raw.place)
    assert build_show(only).show == show_in(tmp_path / "list.csv") == show_in(tmp_path / "list.yaml")


def test_convert_overwrites_nothing_and_leaves_nothing_behind(sheet):
    (sheet / "show.yaml").write_text("mine")
    for arguments in (
        ("list.xlsx", "show.yaml"),
        ("list.xlsx", "other.yaml"),
        ("missing.xlsx", "x.yaml"),
        ("list.xlsx", "x.doc"),
    ):
        done = run("convert", *arguments, cwd=sheet)
        assert done.returncode in (1, 2) and "Traceback" not in done.stderr
    assert (
        sorted(path.name for path in sheet.iterdir()) == ["list.xlsx", "show.yaml"]
        and (sheet / "show.yaml").read_text() == "mine"
    )


def answer(folder: Path, typed: str) -> CompletedProcess[str]:
    return run("answer", "list.xlsx", cwd=folder, typed=typed)


def test_answers_are_asked_once_and_hold_for_tomorrows_copy(sheet):
    before = (sheet / "list.xlsx").read_bytes()
    done = answer(sheet, "7\n2\n")
    assert done.returncode == 0 and "is not one of the choices" in done.stdout and "no question is open" in done.stdout
    kept = (sheet / "list.xlsx.answers.yaml").read_text(encoding="utf-8")
    assert '"2: 519.4 / 522.6": "522.6"' in kept or ("2: 519.4 / 522.6" in kept and "522.6" in kept)
    assert (sheet / "list.xlsx").read_bytes() == before
    moved = [["Glass Ferry"], [], LIST[0], LIST[3], LIST[2], LIST[1], [4, "Ana Cole", "TOM", 530.1]]
    (sheet / "list.xlsx").write_bytes(workbook({"Mics": moved}))
    again = answer(sheet, "")
    assert again.returncode == 0 and "no question is open" in again.stdout
    assert show_in(sheet / "list.xlsx").channels["2"].hz == 522_600_000


def test_an_answer_may_be_typed_and_an_end_of_input_keeps_what_was_answered(sheet):
    assert answer(sheet, "").returncode == 1 and not (sheet / "list.xlsx.answers.yaml").exists()
    assert answer(sheet, "520,5\n").returncode == 0
    assert show_in(sheet / "list.xlsx").channels["2"].hz == 520_500_000


def test_an_answer_that_fits_nothing_is_a_finding_and_asks_again(sheet):
    (sheet / "list.xlsx.answers.yaml").write_text('frequency: {"2: 519.4 / 522.6": banana}\n')
    done = run("check", "list.xlsx", cwd=sheet)
    assert "[answer-unfit]" in done.stdout and "[frequency-asked]" in done.stdout


def test_a_foreign_sheet_is_checked_built_and_converted_with_its_doubt_blank(sheet):
    done = run("check", "list.xlsx", cwd=sheet)
    assert done.returncode == 1 and "Mics!D3: error" in done.stdout and "D is frequency" in done.stderr
    built = run("build", "list.xlsx", cwd=sheet)
    assert built.returncode == 1 and (sheet / "list-papers/rack/channel-chart.pdf").exists()
    assert run("convert", "list.xlsx", "show.yaml", cwd=sheet).returncode == 1 and not (sheet / "show.yaml").exists()
    answer(sheet, "1\n")
    for name in ("show.yaml", "show.xlsx"):
        assert run("convert", "list.xlsx", name, cwd=sheet).returncode == 0
        assert show_in(sheet / name) == show_in(sheet / "list.xlsx")
    assert show_in(sheet / "show.xlsx").channels["2"].roles == ("Mr Harrow",)


def test_the_marked_copy_holds_each_finding_and_the_original_is_untouched(sheet):
    before = (sheet / "list.xlsx").read_bytes()
    done = run("check", "list.xlsx", "--mark", "marked.xlsx", cwd=sheet)
    assert done.returncode == 1 and "marked.xlsx is a copy of list.xlsx" in done.stderr
    cell = openpyxl.load_workbook(sheet / "marked.xlsx")["Mics"]["D3"]
    assert "519.4 / 522.6" in cell.comment.text and cell.value == "519.4 / 522.6"
    assert (sheet / "list.xlsx").read_bytes() == before
    again = run("check", "list.xlsx", "--mark", "marked.xlsx", cwd=sheet)
    assert again.returncode == 2 and "is there already" in again.stderr
    assert run("check", "list.xlsx", "--mark", "list.xlsx", cwd=sheet).returncode == 2


def test_text_has_no_cells_to_mark(tmp_path):
    (tmp_path / "show.yaml").write_text("channels: {1: {by: Ann, mhz: 486.2}}\n")
    done = run("check", "show.yaml", "--mark", "marked.xlsx", cwd=tmp_path)
    assert done.returncode == 2 and "not a workbook" in done.stderr and not (tmp_path / "marked.xlsx").exists()


def answer_in_a_process(name, folder, typed):
    command = [sys.executable, "-m", "paperwork", "answer", name]
    return subprocess.run(
        command, cwd=folder, input=typed, capture_output=True, encoding="utf-8", timeout=60, check=False
    )


def test_a_workbook_of_ours_leaves_no_question(tmp_path):
    run("new", "show.xlsx", cwd=tmp_path)
    done = answer_in_a_process("show.xlsx", tmp_path, "")
    assert done.returncode == 0 and "nothing to ask" in done.stdout


def test_answers_may_come_through_a_pipe(sheet):
    done = answer_in_a_process("list.xlsx", sheet, "2\n")
    assert done.returncode == 0 and (sheet / "list.xlsx.answers.yaml").exists()


def test_a_frequency_that_is_none_can_be_settled_and_the_prompt_counts_true(tmp_path):
    (tmp_path / "list.csv").write_text("Ch;Name;Freq\n1;Imke Vos;518.200\n2;Tom Quell;Ch 38\n", encoding="utf-8")
    told = run("answer", "list.csv", cwd=tmp_path, typed="520.3\n")
    assert "(1, or a frequency in MHz, Enter leaves it open)" in told.stdout and "no question is open" in told.stdout
    assert run("check", "list.csv", cwd=tmp_path).stdout.startswith("No problems found")


def test_a_list_goes_out_tidy(tmp_path):
    rows = [
        ["Ch", "Role", "Actor", "Freq"],
        [1, "Lena (2. Sender)", "Groß, Jürgen", 518.2],
        [2, "Wirt", "Ann Cole", "483,450"],
    ]
    ears = [["IEM", "Name", "Freq"], ["IEM 1", "Ann Cole", "612,600"]]
    (tmp_path / "list.xlsx").write_bytes(workbook({"Mics": rows, "Ears": ears}))
    for name in ("list.csv", "show.xlsx", "show.yaml"):
        assert run("convert", "list.xlsx", name, cwd=tmp_path).returncode == 0
    lines = (tmp_path / "list.csv").read_text(encoding="utf-8-sig").splitlines()
    assert lines == ["id,role,by,mhz", '1,Lena (2. Sender),"Groß, Jürgen",518.2', "2,Wirt,Ann Cole,483.450"]
    assert "mhz: 612.600" in (tmp_path / "show.yaml").read_text(encoding="utf-8")
    assert show_in(tmp_path / "show.xlsx") == show_in(tmp_path / "show.yaml") and show_in(
        tmp_path / "list.csv"
    ).channels["1"].roles == ("Lena (2. Sender)",)


def test_one_answer_is_given_by_name_and_the_reading_is_printed(sheet):
    done = run("answer", "list.xlsx", "--answer", "column Actor=role", cwd=sheet)
    assert (
        'role "Mara Lind", "Max Ried", "SPARE" (answered)' in done.stdout
        and "answers are in list.xlsx.answers.yaml" in done.stdout
    )
    assert "actor: role" in (sheet / "list.xlsx.answers.yaml").read_text(encoding="utf-8")
    wrong = run("answer", "list.xlsx", "--answer", "column Nonsense=role", cwd=sheet)
    assert wrong.returncode == 2 and "there is no such column" in wrong.stderr
