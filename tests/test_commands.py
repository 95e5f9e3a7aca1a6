"""The command line, as a user meets it: exit codes, one clear line each, nothing half-written, no traceback."""

import json
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from paperwork.codes import CODES
from paperwork.commands import COMMANDS
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from tests.shows_text import EXAMPLES
from tests.terminal import run
from tests.test_codes import MANNERED

CLEAN = "channels:\n  1: {by: Ann, mhz: 486.200}\n"
NOTHING_ELSE = (
    "Not checked: TV (none given), sweep (none given), patch (no outputs), capsules (none given), "
    "scenes (none given), batteries (no hours), clocks (none given).\n"
)


def write(folder: Path, name: str, content: str | bytes) -> str:
    (folder / name).write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
    return name


def test_a_clean_show_is_exit_0_and_says_so(tmp_path):
    done = run("check", write(tmp_path, "show.yaml", CLEAN), cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"No problems found. Checked: 1 channel, frequencies, packs. {NOTHING_ELSE}"


def test_an_error_is_exit_1_with_its_line_its_remedy_and_its_code(tmp_path):
    write(tmp_path, "show.yaml", "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n")
    done = run("check", "show.yaml", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout == (
        "show.yaml:3:20: error: channel 1 and channel 2 are both on 486.200 MHz [carrier-doubled]\n"
        "    fix: retune one of them, or put both into one exclusive group if they are never on together; "
        "485.900 MHz is clean for channel 2\n"
        "    see: show.yaml:2:21\n"
        f"1 error. Checked: 2 channels, frequencies, packs. {NOTHING_ELSE}"
    )


BAD = {
    "missing": None,
    "empty.yaml": b"",
    "binary.yaml": bytes(range(256)) * 8,
    "picture.xlsx": b"\x89PNG\r\n\x1a\n" + bytes(64),
    "half.xlsx": (EXAMPLES / "show.xlsx").read_bytes()[:9000],
    "old.xls": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(512),
    "page.xls": b"<html><table><tr><td>1</td></tr></table></html>",
    "list.yaml": b"- 1\n- 2\n",
    "text.yaml": b"just words\n",
    "tab.yaml": b"channels:\n\t1: {by: Ann}\n",
    "bracket.yaml": b"channels: {1: {by: Ann\n",
    "alias.yaml": b"channels: {1: &a {by: Ann}}\n",
    "deep.yaml": b"a: " + b"[" * 5000,
    "latin.yaml": "channels: {1: {by: J\u00f6rg}}\n".encode("latin-1"),
}


@pytest.mark.parametrize("command", ("check", "build"))
@pytest.mark.parametrize("name", BAD)
def test_bad_input_is_one_clear_line_with_its_place_and_nothing_is_written(tmp_path, name, command):
    if BAD[name] is not None:
        write(tmp_path, name, BAD[name])
    before = sorted(tmp_path.iterdir())
    done = run(command, name, cwd=tmp_path)
    told = (done.stdout + done.stderr).splitlines()
    assert done.returncode in (1, 2)
    assert "Traceback" not in done.stdout + done.stderr
    assert told[0].startswith(name) and ": error: " in told[0] and told[1].startswith("    fix: ")
    assert sum(": error: " in line for line in told) == 1
    assert sorted(tmp_path.iterdir()) == before


def test_a_directory_is_no_show(tmp_path):
    done = run("check", ".", cwd=tmp_path)
    assert done.returncode == 2 and "Traceback" not in done.stderr and ": error: " in done.stdout


def test_a_slip_on_line_40_is_told_on_line_40(tmp_path):
    lines = ["channels:", *(f"  {n}: {{by: P{n}, mhz: {500 + n}.000}}" for n in range(1, 39)), "  39: {buy: P39}"]
    done = run("check", write(tmp_path, "show.yaml", "\n".join(lines)), cwd=tmp_path)
    assert done.returncode == 1 and done.stdout.startswith("show.yaml:40:8: error: channel 39 has no field buy")


def test_json_and_sarif_say_the_same_as_the_text(tmp_path):
    write(tmp_path, "show.yaml", "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n")
    (finding,) = json.loads(run("check", "show.yaml", "--format", "json", cwd=tmp_path).stdout)
    assert (finding["code"], finding["place"]) == ("carrier-doubled", {"file": "show.yaml", "line": 3, "column": 20})
    sarif = json.loads(run("check", "show.yaml", "--format", "sarif", cwd=tmp_path).stdout)
    (result,) = sarif["runs"][0]["results"]
    assert (sarif["version"], result["ruleId"], result["level"]) == ("2.1.0", "carrier-doubled", "error")
    assert result["locations"][0]["physicalLocation"]["region"] == {"startLine": 3, "startColumn": 20}


def test_a_workbook_is_told_by_cell(tmp_path):
    from openpyxl import load_workbook

    book = load_workbook(EXAMPLES / "show.xlsx")
    headings = [cell.value for cell in book["channels"][1]]
    book["channels"].cell(5, headings.index("mhz") + 1).value = "518.2 / 520.4"
    book.save(tmp_path / "show.xlsx")
    done = run("check", "show.xlsx", cwd=tmp_path)
    letter = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[headings.index("mhz")]
    assert done.stdout.startswith(f"show.xlsx channels!{letter}5: error: the frequency of channel 04: 518.2 / 520.4")


def test_build_puts_the_papers_beside_the_show_and_names_them(tmp_path):
    done = run("build", write(tmp_path, "gala.yaml", CLEAN), cwd=tmp_path)
    assert done.returncode == 0 and done.stderr == ""
    made = sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.pdf"))
    assert {"gala-papers/rack/channel-chart.pdf", "gala-papers/wardrobe/pack-labels.pdf"} <= set(made)
    for name in made:
        assert name in done.stdout
    assert "not printed, no racks: patch-sheet, input-list, receiver-strips" in done.stdout
    assert (tmp_path / "gala-papers/index.html").exists()


def test_what_is_not_printed_is_told_in_a_line_for_each_thing_that_the_show_lacks(tmp_path):
    """What one paper alone lacks shares a line with the others of its sort: a first show is not told a wall of them."""
    done = run("build", str(EXAMPLES / "first_show.yaml"), "-o", "papers", cwd=tmp_path)
    lacking = [line for line in done.stdout.splitlines() if line.startswith("not printed")]
    assert "not printed, no scenes: swap-sheets, who-is-live, running-sheet, handhelds, mic-plot" in lacking
    assert len(lacking) <= 8 and len({line.partition(":")[0] for line in lacking}) == len(lacking)
    told = " ".join(done.stdout[done.stdout.index("not printed") : done.stdout.index("\nopen ")].split())
    missing = make_papers(read_show(EXAMPLES / "first_show.yaml", "first_show.yaml").show, ()).missing
    assert len(missing) > 21 and "spare-cards (no spare channels)" in told
    for name, needs in missing:
        (together,) = re.findall(rf"no {re.escape(needs)}: ([a-z, -]+)(?= not printed|$)", told) or ("",)
        assert (f"{name} (no {needs})" in told) != (name in together.split(", "))


def test_a_section_that_is_there_is_not_said_to_be_missing(tmp_path):
    write(tmp_path, "show.yaml", "racks: {R1: {channels: 1}}\nchannels: {1: {by: Ann, mhz: 486.200}}\n")
    done = run("build", "show.yaml", cwd=tmp_path)
    assert "no racks with outputs: patch-sheet" in done.stdout and "no racks:" not in done.stdout


def test_quiet_tells_findings_and_nothing_else(tmp_path):
    write(tmp_path, "show.yaml", "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n")
    done = run("build", "show.yaml", "--quiet", cwd=tmp_path)
    assert done.stdout == "" and "carrier-doubled" in done.stderr and done.returncode == 1
    assert (tmp_path / "show-papers/index.html").exists()


def test_strict_prints_nothing_while_there_are_errors(tmp_path):
    write(tmp_path, "show.yaml", "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n")
    done = run("build", "show.yaml", "--strict", cwd=tmp_path)
    assert done.returncode == 1 and "no papers were printed" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["show.yaml"]


def test_only_and_for_narrow_the_papers(tmp_path):
    write(tmp_path, "show.yaml", CLEAN)
    run("build", "show.yaml", "-o", "one", "--only", "pack-labels", cwd=tmp_path)
    run("build", "show.yaml", "-o", "two", "--for", "rack", cwd=tmp_path)
    assert [path.name for path in (tmp_path / "one").rglob("*.pdf")] == ["pack-labels.pdf"]
    assert [path.name for path in (tmp_path / "two").rglob("*.pdf")] == ["channel-chart.pdf"]


def test_a_file_of_somebody_else_in_the_folder_is_never_touched(tmp_path):
    write(tmp_path, "show.yaml", CLEAN)
    (tmp_path / "papers" / "rack").mkdir(parents=True)
    theirs = tmp_path / "papers" / "rack" / "channel-chart.pdf"
    theirs.write_text("mine")
    done = run("build", "show.yaml", "-o", "papers", cwd=tmp_path)
    assert done.returncode == 2 and "channel-chart.pdf" in done.stderr and "Traceback" not in done.stderr
    assert theirs.read_text() == "mine" and not (tmp_path / "papers" / "index.html").exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    ((("chek", "x"), "did you mean check?"), (("build", "x", "--only", "patch"), "there is no paper patch")),
)
def test_a_slip_on_the_command_line_names_the_nearest_word(tmp_path, arguments, said):
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 2 and said in done.stderr


@pytest.mark.parametrize("code", CODES)
def test_every_code_can_be_explained(code):
    from click.testing import CliRunner

    from paperwork.commands.explain import command

    outcome = CliRunner().invoke(command, [code], standalone_mode=False).return_value
    effect = {"sense": "are stamped", "shape": "No papers", "reference": "No papers", "read": ""}[CODES[code].stage]
    assert effect in outcome.text if CODES[code].severity == "error" else "papers until" not in outcome.text
    assert outcome.code == 0 and CODES[code].explains in outcome.text and "{" not in outcome.text.replace("{ROLE", "")


def test_an_unknown_code_names_the_nearest(tmp_path):
    done = run("explain", "slot-dubled", cwd=tmp_path)
    assert done.returncode == 2 and "did you mean slot-doubled?" in done.stderr


@pytest.mark.parametrize(
    ("word", "said"),
    (
        (
            "channels.capsule",
            ("capsule: beige", "refers to:     capsules", "let wardrobe and the wearer know", "capsule-misfit"),
        ),
        ("racks.window", ("window: 486-508", "one range in MHz", "may differ in a venue")),
        ("show.paper", ("default:       A4", "A4, A3, Letter, Tabloid")),
        (
            "racks",
            (
                "Receiver racks by id, in the order of the papers.",
                "The front-end passband in MHz",
                "paperwork explain racks.channels",
            ),
        ),
        ("covers", ("The role. Required.", "another order:")),
    ),
)
def test_a_section_and_a_field_are_explained_like_a_page_of_a_manual(tmp_path, word, said):
    done = run("explain", word, cwd=tmp_path)
    assert done.returncode == 0 and all(part in done.stdout for part in said), done.stdout


def test_explain_without_a_word_says_that_sections_and_fields_are_explained_too(tmp_path):
    said = run("explain", cwd=tmp_path).stdout
    assert "Sections and fields are explained too" in said
    assert "slot … holds channel … and channel …" in said and "{" not in said.replace("{ROLE", "")


@pytest.mark.parametrize(
    ("word", "said"),
    (
        ("racks.windw", "did you mean racks.window?"),
        ("capsule", "capsule is the field channels.capsule or looks.capsule or covers.capsule"),
    ),
)
def test_an_unknown_word_names_the_nearest_field(tmp_path, word, said):
    done = run("explain", word, cwd=tmp_path)
    assert done.returncode == 2 and said in done.stderr


def test_every_command_is_in_the_readme_and_explains_itself(tmp_path):
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    for name in COMMANDS:
        assert f"`paperwork {name}" in readme
        done = run(name, "--help", cwd=tmp_path)
        assert done.returncode == 0 and "Example" in done.stdout and not MANNERED.search(done.stdout)
    for text in (readme, (EXAMPLES.parent / "schemas" / "REFERENCE.md").read_text(encoding="utf-8")):
        assert [line for line in text.splitlines() if MANNERED.search(line)] == []


HEAVY = {
    "reportlab",
    "openpyxl",
    "jinja2",
    "qrcode",
    "numpy",
    "PIL",
    "fontTools",
    "paperwork.render",
    "paperwork.sheets",
    "paperwork.document",
}


@pytest.mark.parametrize(
    "arguments", (("check", str(EXAMPLES / "show.yaml")), ("--help",), ("explain", "slot-doubled"))
)
def test_a_check_of_text_loads_no_library_for_printing_or_workbooks(tmp_path, arguments):
    code = (
        "import sys, contextlib, io\nfrom paperwork.cli import main\n"
        f"sys.argv[1:] = {list(arguments)!r}\n"
        "with contextlib.suppress(SystemExit), contextlib.redirect_stdout(io.StringIO()):\n    main()\n"
        "print('\\n'.join(sys.modules))"
    )
    loaded = set(
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    )
    assert loaded & HEAVY == set()


def test_the_schema_that_ships_is_the_draft_that_it_says(tmp_path):
    from tests.tools.make_schema import make_schema

    assert jsonschema.validators.validator_for(make_schema()) is jsonschema.Draft202012Validator


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is always full")
@pytest.mark.parametrize("arguments", (("check", "show.yaml"), ("survey", "--help"), ("explain", "carrier-doubled")))
@pytest.mark.parametrize(("stream", "code"), ((">/dev/full", 2), (">/dev/full 2>/dev/full", 2), (">&-", 0)))
def test_a_full_or_closed_output_is_one_plain_line_and_no_fault_of_ours(tmp_path, arguments, stream, code):
    write(tmp_path, "show.yaml", "show: {title: X}\nchannels: {1: {by: Ana, mhz: 486.200}}\n")
    line = f"{shlex.quote(sys.executable)} -m paperwork {shlex.join(arguments)} {stream}"
    held = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    for there in (held, held | {"PYTHONUNBUFFERED": "1"}):  # what is held back is written once more at the exit
        done = subprocess.run(
            line, shell=True, cwd=tmp_path, capture_output=True, encoding="utf-8", timeout=60, env=there
        )
        assert done.returncode == code
        assert done.stderr in ("", "this could not be printed: No space left on device\n")
