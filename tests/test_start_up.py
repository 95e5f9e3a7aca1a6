"""What each command may load: a library too many is paid for by every run, and nobody notices it for a year."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "example_show" / "show"

RUN = """
import json, sys
before = set(sys.modules)
from paperwork.cli import main
try:
    main(sys.argv[1:])
except SystemExit:
    pass
print(json.dumps(sorted(set(sys.modules) - before)), file=sys.stderr)
"""

SHAPE = {"click", "yaml", "_yaml"}
BOOK = {"click"}
FACES = {"fontpkg_fira_sans_condensed", "fontpkg_ibm_plex_sans_condensed"}
PRINT = SHAPE | FACES | {"reportlab", "PIL", "defusedxml", "uharfbuzz", "jinja2", "markupsafe", "packaging", "qrcode"}
"""Reportlab imports PIL (which may import defusedxml) and uharfbuzz by itself where they are installed."""

SLOW = {"asyncio", "ctypes", "http", "multiprocessing", "sqlite3", "ssl", "unittest", "xml.sax", "pydoc"}
"""Parts of the standard library that take long to load and that no show needs."""


def load(folder: Path, *command: str) -> set[str]:
    """The modules that a command loads, in a process of its own."""
    ran = subprocess.run([sys.executable, "-c", RUN, *command], cwd=folder, capture_output=True, text=True, check=True)
    return set(json.loads(ran.stderr.splitlines()[-1]))


def outside(modules: set[str]) -> set[str]:
    """The libraries among them, by their first name."""
    names = {name.partition(".")[0] for name in modules} - sys.stdlib_module_names - {"paperwork"}
    return {name for name in names if "cython" not in name}  # what compiled libraries register for themselves


@pytest.mark.parametrize(
    "command, may",
    [
        (("--help",), {"click"}),
        (("check", "--help"), {"click"}),
        (("explain", "carrier-doubled"), {"click"}),
        (("check", f"{EXAMPLE}.yaml"), SHAPE),
        (("check", f"{EXAMPLE}.xlsx"), BOOK),
        (("build", f"{EXAMPLE}.yaml", "-o", "papers"), PRINT),
    ],
    ids=lambda given: " ".join(Path(part).name for part in given) if isinstance(given, tuple) else "",
)
def test_a_command_loads_no_library_but_its_own(command, may, tmp_path):
    loaded = load(tmp_path, *command)
    assert outside(loaded) <= may
    assert not SLOW & loaded or "reportlab" in may  # which loads some of it by itself


def test_help_loads_nothing_of_shows(tmp_path):
    own = {name for name in load(tmp_path, "--help") if name.startswith("paperwork.")}
    assert own <= {
        f"paperwork.{name}"
        for name in (
            "cli",
            "frozen",
            "commands",
            "terminal",
            "terminal.screen",
            "limits",
            "budget",
            "text",
            "text.names",
            "text.units",
        )
    }


def test_check_loads_nothing_of_printing(tmp_path):
    loaded = load(tmp_path, "check", f"{EXAMPLE}.yaml")
    rooms = {name.split(".")[1] for name in loaded if name.startswith("paperwork.")}
    assert not rooms & {
        "document",
        "sheets",
        "render",
        "pipeline",
        "index_page",
        "archive",
        "output",
        "changes",
        "watch",
        "serve",
        "audit",
    }


LATE = (
    "paperwork.codes",
    "paperwork.radio.search",
    "paperwork.radio.products.counts",
    "paperwork.radio.products.sums",
    "paperwork.files.yaml.errors",
    "paperwork.intake.questions",
)
"""What only a show with a finding needs, or somebody else's list: its words, and the search for a clean frequency."""


def test_a_clean_check_loads_nothing_that_only_findings_need(tmp_path):
    for show in (EXAMPLE, EXAMPLE.with_name("first_show")):
        loaded = load(tmp_path, "check", f"{show}.yaml")
        assert not [name for name in loaded if name.startswith(LATE)]
        assert len([name for name in loaded if name.startswith("paperwork")]) <= 132


def test_a_show_without_a_sweep_loads_no_reader_of_sweeps(tmp_path):
    loaded = load(tmp_path, "check", str(EXAMPLE.with_name("first_show.yaml")))
    assert not [name for name in loaded if name.startswith("paperwork.files.sweep")]


COUNT = """
import json, sys
import re, tomllib
counts = {"regexes": 0, "tables": 0}

def count(module, name, what):
    done = getattr(module, name)

    def counted(*given, **named):
        counts[what] += 1
        return done(*given, **named)

    setattr(module, name, counted)

count(re._compiler, "compile", "regexes")
count(tomllib, "loads", "tables")
from paperwork.cli import main
try:
    main(sys.argv[1:])
except SystemExit:
    pass
print(json.dumps(counts), file=sys.stderr)
"""


def test_a_check_prepares_little(tmp_path):
    """A tenth of a millisecond a regex, and up to ten a table with what parses it."""
    command = [sys.executable, "-c", COUNT, "check", f"{EXAMPLE}.yaml"]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True)
    counts = json.loads(ran.stderr.splitlines()[-1])
    assert counts["regexes"] <= 70 and counts["tables"] == 0, counts


GARBAGE = """
import gc, sys
found = []
gc.callbacks.append(lambda phase, _: found.append(phase))
from paperwork.__main__ import run
try:
    run()
except SystemExit:
    pass
print(found.count("start"), gc.isenabled(), gc.get_freeze_count() > 10_000, file=sys.stderr)
"""


def test_garbage_is_searched_for_once_all_is_loaded_and_seldom(tmp_path):
    """Each search looks at all that was loaded, unless it was set aside; a tenth of a check went that way."""
    command = [sys.executable, "-c", GARBAGE, "check", f"{EXAMPLE}.yaml"]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True)
    searches, is_on, is_set_aside = ran.stderr.split()
    assert int(searches) <= 10 and (is_on, is_set_aside) == ("True", "True")


def test_one_paper_packs_nothing_for_a_book_that_is_not_printed(tmp_path):
    loaded = load(tmp_path, "build", f"{EXAMPLE}.yaml", "--only", "channel-chart", "-o", "papers")
    assert not [name for name in loaded if name.startswith("paperwork.archive")]
