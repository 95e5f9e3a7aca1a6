"""`paperwork build` where something was mischosen, or only a part was asked for."""

import re

import pytest

from tests.shows_text import EXAMPLES
from tests.terminal import run

FIRST = EXAMPLES / "first_show.yaml"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "show.yaml").write_bytes(FIRST.read_bytes())
    assert run("build", "show.yaml", cwd=tmp_path).returncode == 0
    return tmp_path


def files(folder):
    return {path: path.read_bytes() for path in (folder / "show-papers").rglob("*") if path.is_file()}


@pytest.mark.parametrize("slip", (("--stock", "foo"), ("--start", "99"), ("--blocked", "1-21")), ids=" ".join)
def test_a_slip_in_the_choice_of_labels_prints_nothing_over_what_is_there(folder, slip):
    before = files(folder)
    done = run("build", "show.yaml", "-o", "show-papers", *slip, cwd=folder)
    assert done.returncode == 2 and "no papers were printed" in done.stderr
    assert files(folder) == before


@pytest.mark.parametrize("slip", (("--stock", "foo"), ("--start", "99")), ids=" ".join)
def test_nor_does_a_slip_in_the_choice_of_labels_print_a_change(folder, slip):
    (folder / "new.yaml").write_text(
        (folder / "show.yaml").read_text(encoding="utf-8").replace("Imke", "Elke"), "utf-8"
    )
    done = run("build", "new.yaml", "--since", "show.yaml", *slip, cwd=folder)
    assert done.returncode == 2 and done.stderr.endswith("no papers were printed\n")
    assert not (folder / "new-changes").exists()


@pytest.mark.parametrize(
    "arguments, code",
    (
        (("show.yaml",), 0),
        (("wrong.yaml",), 1),
        (("wrong.yaml", "--strict"), 1),
        (("lost.yaml",), 2),
        (("show.yaml", "--only", "chart"), 2),
    ),
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else str(value),
)
def test_the_exit_code_says_whether_papers_are_there_and_clean(folder, arguments, code):
    """0 clean, 1 errors in the show, 2 what was asked for cannot be done."""
    (folder / "wrong.yaml").write_text("channels: {1: {role: VERA, mhz: 486.2 / 488.1}}\n", encoding="utf-8")
    assert run("build", *arguments, cwd=folder).returncode == code


def test_a_part_of_the_papers_goes_into_a_folder_of_its_own(folder):
    before = files(folder)
    assert run("build", "show.yaml", "--only", "pack-labels", cwd=folder).returncode == 0
    assert (folder / "show-selection/wardrobe/pack-labels.pdf").is_file()
    assert files(folder) == before


def test_papers_that_go_from_a_folder_are_counted(folder):
    printed = sum(path.suffix == ".pdf" for path in files(folder))
    done = run("build", "show.yaml", "--only", "pack-labels", "-o", "show-papers", cwd=folder)
    assert f"{printed - 1} papers of an earlier run removed from show-papers" in done.stdout


def test_a_name_that_is_no_paper_is_told_with_all_that_are(folder):
    told = run("build", "show.yaml", "--only", "zzzz", cwd=folder).stderr
    assert told.startswith("there is no paper zzzz. The papers are channel-chart, ")


def test_assign_does_not_put_text_under_the_name_of_a_workbook(folder):
    done = run("assign", "show.yaml", "-o", "new.xlsx", cwd=folder)
    assert done.returncode == 2 and "let new.xlsx end in .yaml" in done.stderr and not (folder / "new.xlsx").exists()


def test_a_finding_without_a_place_begins_with_its_severity(folder):
    assert run("build", "show.yaml", "--stock", "foo", cwd=folder).stderr.startswith(
        ("show.yaml", "error: there is no label stock")
    )


def test_a_name_without_room_on_many_papers_is_told_a_few_times_and_then_counted(tmp_path):
    name = "THE KEEPER OF THE LIGHT OF THE HARBOUR OF THE TOWN BY THE RIVER"
    channels = "".join(f"  {n}: {{role: [{name} NO. {n}], by: {name} MAN {n}, mhz: {486 + n}.0}}\n" for n in (1, 4))
    racks = "racks: {R1: {channels: [1, 4], analogue 1: STAGE 1-2}}"
    (tmp_path / "show.yaml").write_text(f"{racks}\nchannels:\n{channels}", encoding="utf-8")
    told = run("build", "show.yaml", cwd=tmp_path).stderr
    assert told.count("[text-abbreviated]\n") == 5
    assert re.search(r"^[1-9]\d* more like it \[text-abbreviated\]: index.html lists them$", told, re.MULTILINE)
