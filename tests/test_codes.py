"""What a code means is stated once, in its row; it is read whole by a person before it is printed; its edits hold."""

import ast
import re
from pathlib import Path
from string import Formatter

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from paperwork.codes import _TABLES, CODES
from paperwork.codes.row import Code
from paperwork.commands.explain import command
from paperwork.files import read_bytes
from paperwork.files.sweep import read_sweep
from paperwork.finding import Edit, Finding, Subject, _fill_edits, find, parse_edit
from paperwork.intake import Source
from paperwork.place import Place
from paperwork.raw import Map
from paperwork.reading import judge_source, read_show
from tests.modules import MODULES, PACKAGE, nodes_of
from tests.tools.make_findings import FINDINGS, TABLE, describe_codes, describe_findings, list_findings

SOURCES = [path for path in MODULES if path.parts[len(PACKAGE.parts)] != "codes"]
RENEW = "python -m tests.tools.make_findings renews it; read what changed"


def test_no_code_has_two_rows():
    names = [code.name for table in _TABLES for code in table.TABLE]
    assert len(names) == len(set(names)) == len(CODES)


def test_the_severity_the_topics_and_the_marks_of_every_code_are_as_they_were_decided():
    assert describe_codes() == TABLE.read_text(encoding="utf-8"), RENEW


def test_a_real_finding_of_every_code_reads_as_somebody_approved():
    assert set(list_findings()) == set(CODES)
    assert describe_findings() == FINDINGS.read_text(encoding="utf-8"), RENEW


@pytest.mark.parametrize("name", CODES)
def test_an_explanation_is_text_without_anything_to_fill_in(name):
    text = CliRunner().invoke(command, [name], standalone_mode=False).return_value.text
    assert not re.search(r"[<>{}]", text.replace("(<<)", "")), text
    assert not re.search(r"\(\s*\)|\s[;,.](\s|$)|  |: ?\n", text), text
    assert text.rstrip().rsplit("\n", 1)[1].startswith("fix: ") and len(CODES[name].plain_fix) > 8


MANNERED = re.compile(r"\b(tells?|told|stands?|is no (?!more|longer)[a-z]|minds?|wanted)\b", re.IGNORECASE)


@pytest.mark.parametrize("name", CODES)
def test_the_words_of_a_code_are_plain(name):
    code = CODES[name]
    said = re.sub(r"\{\w+\}", "", " ".join((code.says, code.fix, code.advice, code.explains)))
    assert MANNERED.findall(said.replace("tell the people at the desk", "").replace("tell , or", "")) == []


def _takers() -> dict[str, int]:
    """The functions and methods of the package that make a finding, with the place of their parameter `code`."""
    found = {"find": 0, "Draft": 1}
    for path in SOURCES:
        for node in nodes_of(path):
            if isinstance(node, ast.FunctionDef):
                named = [argument.arg for argument in node.args.args if argument.arg != "self"]
                found |= {node.name: named.index("code")} if "code" in named else {}
    return found


TAKERS = _takers()


def _literals(path: Path) -> list[str]:
    """Names of codes in a file that do not say which finding is made: not given for a parameter `code`."""
    makes: set[int] = set()
    for node in nodes_of(path):
        if isinstance(node, ast.Assign) and [getattr(target, "id", "") for target in node.targets] == ["code"]:
            makes |= {id(part) for part in ast.walk(node.value)}
        if isinstance(node, ast.Call):
            called = getattr(node.func, "id", "") or getattr(node.func, "attr", "")
            at = TAKERS.get(called)
            if at is not None and len(node.args) > at:
                makes |= {id(part) for part in ast.walk(node.args[at])}
    return [
        node.value
        for node in nodes_of(path)
        if isinstance(node, ast.Constant) and node.value in CODES and id(node) not in makes
    ]


OTHERWISE = {
    ("model/house_fields.py", "intermodulation"): "the field of a radio type has the same name",
    ("checks/air/frequencies.py", "frequency-out-of-window"): "follows from a radio that its rack shuts out",
    ("commands/watch.py", "venue-unknown"): "no save can mend a venue of the command line",
    ("commands/watch.py", "performance-unknown"): "nor a performance",
    ("files/edit.py", "yaml-repeat"): "what is written once for many is not edited in one place",
    ("files/edit.py", "workbook-blank"): "a workbook may lose its last value",
    ("archive/inputs.py", "archive-kind"): "what has no list of digests is refused whatever else is whole",
}


def test_no_second_table_of_codes_is_kept():
    """A name of a code outside of the table says which finding is made, and nothing else about it."""
    kept = {(path.relative_to(PACKAGE).as_posix(), code) for path in SOURCES for code in _literals(path)}
    assert kept - set(OTHERWISE) == set()


ANY = st.text(min_size=1, max_size=12)


@given(section=ANY, record=st.text(max_size=12), field=st.text(max_size=12), value=st.text(max_size=20))
def test_an_edit_is_read_back_from_its_text_whatever_its_ids_hold(section, record, field, value):
    edit = Edit(section, record, field, value)
    assert parse_edit(str(edit)) == edit


@pytest.mark.parametrize(
    "edit, text",
    (
        (Edit("channels", "08", "mhz", "516.750"), "channels/08/mhz=516.750"),
        (Edit("channels", "08", "mhz", ""), "channels/08/mhz="),
        (Edit("spectrum", "", "own transmitters", "off"), "spectrum/own transmitters=off"),
        (Edit("roles", "VERA/TOM=1", "by", "A/B=C 100%"), "roles/VERA%2FTOM%3D1/by=A/B=C 100%"),
        (Edit("channels", "1", "", "01"), "channels/1/=01"),
        (Edit("channels", "Total", "", ""), "channels/Total/="),
        (Edit("chanels", "", "", "channels"), "chanels//=channels"),
        (Edit("channels", "08", "mzh", "mhz", renames=True), "channels/08/mzh/=mhz"),
        (Edit("channels", "", "mzh", "mhz", renames=True), "channels//mzh/=mhz"),
        (Edit("show", "", "titel", "title", renames=True), "show//titel/=title"),
    ),
)
def test_an_edit_reads_as_somebody_would_type_it(edit, text):
    assert str(edit) == text and parse_edit(text) == edit


@pytest.mark.parametrize("text", ("", "channels", "channels=1", "/=1", "a/b/c/d=1", "channels/=", "/01/mhz=1"))
def test_what_is_not_an_edit_is_refused(text):
    with pytest.raises(ValueError, match="is not an edit"):
        parse_edit(text)


def test_a_template_without_one_of_its_facts_gives_no_edit():
    template = "{at}/mhz={clean}; {at}/asked="
    at = Subject("channels", "a/b")
    assert _fill_edits(template, {"at": at, "clean": "486.2"}) == (
        Edit("channels", "a/b", "mhz", "486.2"),
        Edit("channels", "a/b", "asked", ""),
    )
    assert _fill_edits(template, {"at": at, "clean": ""}) == _fill_edits(template, {"clean": "1"}) == ()
    assert _fill_edits(template, {"at": None, "clean": "1"}) == _fill_edits("", {}) == ()


def test_the_words_of_a_fix_that_quotes_its_edit_cannot_differ_from_it():
    quoting = [code for code in CODES.values() if "{edit}" in code.fix]
    assert quoting and all(code.edit and code.advice for code in quoting)
    made = find("bows-by-clock", Place("show.yaml"), given="22:10", end="2:40", longest="22:10")
    assert [str(edit) for edit in made.edits] == ["day/bows=2:40"] and "`bows: 2:40`" in made.fix


@pytest.mark.parametrize("code", [code for code in CODES.values() if code.edit], ids=lambda code: code.name)
def test_a_template_is_an_edit(code: Code):
    facts = {name: Subject("a", "b") if name == "at" else "x" for _, name, _, _ in Formatter().parse(code.edit) if name}
    assert all(edit.section and (edit.record or edit.field or edit.value) for edit in _fill_edits(code.edit, facts))


def findings_of(path: Path, raw: Map) -> tuple[Finding, ...]:
    return judge_source(Source(raw, ()), lambda sweep, stated: read_sweep(path.parent / sweep, sweep, stated)).findings


def test_nobody_is_moved_off_a_frequency_that_was_granted(tmp_path):
    rows = "channels:\n  01: {role: VERA, mhz: 486.200}\n  02: {role: TOM, mhz: 486.200%s}\n"
    edits = {}
    for granted in ("", ", granted: 486.200"):
        raw, _ = read_bytes((rows % granted).encode(), "show.yaml")
        (doubled,) = [one for one in findings_of(tmp_path / "show.yaml", raw) if one.code == "carrier-doubled"]
        edits[granted] = [edit.record for edit in doubled.edits]
    assert edits == {"": ["02"], ", granted: 486.200": ["01"]}


VENUE = "venues: {v1: {venue: Town Hall, section: channels, record: 02, field: mhz, value: 491.700}}\n"


def test_a_show_in_another_house_and_a_list_have_no_edits(tmp_path):
    """The frequency of another house is in a row of `venues`, and a list is not a show file."""
    shows = {
        ("show.yaml", ""): "channels:\n  01: {role: VERA, mhz: 491.700}\n  02: {role: TOM, mhz: 491.700}\n" + VENUE,
        ("show.yaml", "Town Hall"): "channels:\n  01: {role: VERA, mhz: 491.700}\n  02: {role: TOM, mhz: 496.200}\n"
        + VENUE,
        ("list.csv", ""): "Ch,Role,Freq\n1,VERA,491.700\n2,TOM,491.700\n3,COOK,494.300\n",
    }
    counts = {}
    for (name, venue), text in shows.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
        found = read_show(tmp_path / name, name, venue=venue).findings
        assert "carrier-doubled" in {one.code for one in found}
        counts[name, venue] = sum(len(one.edits) for one in found)
    assert counts == {("show.yaml", ""): 1, ("show.yaml", "Town Hall"): 0, ("list.csv", ""): 0}


def test_only_what_is_wrong_doubts_a_fact_or_stamps_a_paper():
    assert all(code.severity == "error" for code in CODES.values() if code.topics or code.doubts)
