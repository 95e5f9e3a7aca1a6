"""The house: modules import only from rooms above them, each library has one home, files stay small, words are said."""

import ast
import re
import sys
from pathlib import Path

from tests.modules import MODULES, PACKAGE, imports_of, name_of, nodes_of, tree_of

GUIDE = PACKAGE.parent / "DEVELOPERS.md"


def read_order() -> tuple[str, ...]:
    """The rooms in the order of the table "The house" of DEVELOPERS.md: the guide is the law, and there is no second list."""
    text = GUIDE.read_text(encoding="utf-8").partition("\n## The house\n")[2].partition("\n## ")[0]
    cells = [line.split("|")[1] for line in text.splitlines() if line.startswith("| `")]
    return tuple(name for cell in cells for name in re.findall(r"`(\w+)`", cell))


ORDER = read_order()
"""The way through, top to bottom: a room imports only from rooms above it, or from itself."""

CROWDED = {"commands": 21, "paperwork": 18}
"""Floors with more than 15 files and `__init__`: one file is one command."""

LONG_FUNCTIONS = frozenset({"make_papers"})
"""Functions over 40 lines: `make_papers` is half options with their meaning, and the story of printing in order."""

HOMES = {
    "yaml": {"files"},
    "openpyxl": {"files"},
    "defusedxml": {"files"},
    "jinja2": {"text"},
    "reportlab": {"render"},
    "qrcode": {"render"},
    "packaging": {"archive"},
    "pypdf": {"archive"},
    "click": {"terminal", "commands", "cli"},
    "starlette": {"serve"},
    "uvicorn": {"serve"},
    "anyio": {"serve"},
    "watchfiles": {"watch"},
    "zxingcpp": {"audit"},
    "PIL": {"audit"},
    "pi_heif": {"audit"},
    "fontpkg_fira_sans_condensed": {"render"},
    "fontpkg_ibm_plex_sans_condensed": {"render"},
    "uharfbuzz": {"render"},
    "bidi": {"render"},
}


def room_of(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


def test_the_guide_has_every_room_once_and_no_other():
    rooms = {room_of(name_of(path)) for path in MODULES} - {""}
    assert set(ORDER) == rooms and len(ORDER) == len(rooms)


def test_guides_are_read_without_scrolling_sideways():
    for guide in (GUIDE, *(GUIDE.parent / "tests" / name for name in ("DECISIONS.md", "WORDS.md"))):
        assert [line for line in guide.read_text(encoding="utf-8").splitlines() if len(line) > 120] == []


def test_the_guide_is_read_in_twenty_minutes():
    """At 200 words a minute, tables and code included."""
    assert len(GUIDE.read_text(encoding="utf-8").split()) < 4_000


def test_no_two_files_import_each_other_by_whatever_way_round():
    """Imports inside functions count too: a circle that is only late is a circle."""
    files = {name_of(path): path for path in MODULES}
    imports = {name: {_file_of(one, files) for one in imports_of(path)} - {"", name} for name, path in files.items()}
    while free := [name for name, needed in imports.items() if not needed & set(imports)]:
        for name in free:
            del imports[name]
    assert not imports, f"in a circle, or behind one: {sorted(imports)}"


def _file_of(imported: str, files: dict[str, Path]) -> str:
    """The file that an import names, "" for one that is not ours; the package itself holds nothing but its version."""
    while imported and imported not in files:
        imported = imported.rpartition(".")[0]
    return "" if imported == PACKAGE.name else imported


def test_no_floor_is_crowded():
    for folder in {path.parent for path in MODULES}:
        assert len(list(folder.glob("*.py"))) <= CROWDED.get(folder.name, 16), f"{folder} wants floors"


def test_no_two_public_classes_have_one_name():
    homes: dict[str, str] = {}
    for path in MODULES:
        for node in tree_of(path).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                assert node.name not in homes, f"{node.name} is in {homes[node.name]} and in {name_of(path)}"
                homes[node.name] = name_of(path)


def test_a_module_imports_only_from_rooms_above_it():
    for path in MODULES:
        own = room_of(name_of(path))
        for imported in imports_of(path):
            room = room_of(imported) if imported.startswith("paperwork.") else ""
            if own and room in ORDER and room != own:
                assert ORDER.index(room) < ORDER.index(own), f"{path} imports {imported}, which is below it"


def test_each_library_has_one_home():
    for path in MODULES:
        own = room_of(name_of(path))
        for imported in imports_of(path):
            library = imported.split(".")[0]
            if library == "paperwork" or library in sys.stdlib_module_names:
                continue
            assert library in HOMES, f"{library} has no home in the table"
            assert own in HOMES[library], f"{library} is imported in {path}"


def test_render_and_sheets_keep_apart_what_they_must_not_know():
    for path in MODULES:
        own, imported = room_of(name_of(path)), imports_of(path)
        if own == "render":
            assert not any(name.startswith(("paperwork.model", "paperwork.sheets")) for name in imported), path
        if own == "radio":
            rooms = {room_of(name) for name in imported if name.startswith("paperwork.")}
            assert rooms <= {"frozen", "radio", "limits", "units"}, path


def test_files_and_functions_stay_readable():
    for path in MODULES:
        assert path.read_text(encoding="utf-8").count("\n") <= 300, f"{path} is over 300 lines: it is two rooms"
        for node in nodes_of(path):
            if isinstance(node, ast.FunctionDef) and node.name not in LONG_FUNCTIONS:
                assert node.end_lineno - node.lineno < 40, f"{node.name} in {path} is too long"


def test_every_public_thing_says_what_it_is():
    for path in MODULES:
        assert ast.get_docstring(tree_of(path)), f"{path} says nothing"
        for node in tree_of(path).body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
                assert ast.get_docstring(node), f"{node.name} in {path} says nothing"


def test_records_are_declared_by_the_one_decorator_of_which_a_class_costs_little():
    assert [path for path in MODULES if "@dataclass(frozen=True, slots=True)" in path.read_text(encoding="utf-8")] == []


def test_nothing_below_the_command_line_reads_the_clock_the_locale_or_chance():
    forbidden = re.compile(
        r"\b(datetime\.now|date\.today|time\.time\(|utcnow|import random|import locale|os\.environ)\b"
    )
    for path in MODULES:
        if room_of(name_of(path)) not in ("cli", "output", "watch", "serve"):
            assert not forbidden.search(path.read_text(encoding="utf-8")), path


def test_no_text_is_ever_evaluated():
    """But for what `frozen` writes, as the standard library does: of names of fields in our own code, and of nothing else."""
    for path in MODULES:
        if name_of(path) == "paperwork.frozen":
            continue
        for node in nodes_of(path):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile", "__import__"), path
