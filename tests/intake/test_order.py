"""The order of the room: each step imports only from steps before it, and every numbered test has its case."""

import re
from pathlib import Path

import paperwork.intake
from tests.modules import imports_of, name_of

ROOM = Path(paperwork.intake.__file__).parent
ORDER = (
    "texts",
    "cells",
    "questions",
    "reading",
    "ledger",
    "encoding",
    "tables",
    "references",
    "records",
    "gear",
    "finish",
    "proof",
    "understand",
    "answers",
    "session",
    "listing",
    "reply",
    "source",
    "private",
    "reply",
    "",
)
"""The steps from one text to the show; the last is the room's own face."""

MODULES = sorted(ROOM.rglob("*.py"))
TESTS = Path(__file__).parent


def step_of(module: str) -> int:
    return ORDER.index(module.removeprefix("paperwork.intake").lstrip(".").split(".")[0])


def test_a_step_imports_only_from_steps_before_it():
    for path in MODULES:
        for imported in imports_of(path):
            if imported.startswith("paperwork.intake."):
                assert step_of(imported) <= step_of(name_of(path)), f"{path} imports {imported}, which comes later"


def test_no_two_files_import_each_other():
    known = {name_of(path): {name.rpartition(".")[0] for name in imports_of(path)} for path in MODULES}
    left = {name: {other for other in named if other in known} for name, named in known.items()}
    while done := {name for name, named in left.items() if not named}:
        left = {name: named - done for name, named in left.items() if name not in done}
    assert not left, f"a circle of {', '.join(left)}"


def test_no_floor_holds_more_than_fifteen_files():
    for floor in {path.parent for path in MODULES}:
        assert len(list(floor.glob("*.py"))) <= 15, floor


def test_every_numbered_test_tries_a_case_that_is_written_down_and_every_case_is_tried():
    cases = re.findall(r"^- (\d\d): ", (TESTS / "CASES.md").read_text(encoding="utf-8"), re.MULTILINE)
    tests = "\n".join(path.read_text(encoding="utf-8") for path in TESTS.glob("test_*_cases.py"))
    tried = {number for name in re.findall(r"def test_((?:\d\d_)+)", tests) for number in name.rstrip("_").split("_")}
    assert cases == sorted(set(cases)) and set(cases) == tried
