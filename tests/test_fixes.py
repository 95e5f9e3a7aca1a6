"""A fix that is printed works: made in the file as it says, its finding is gone and none is new."""

import json
import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.editing.conversion import write_show
from paperwork.editing.edited import EditedShow, list_new, open_show
from paperwork.editing.mending import Mending
from paperwork.files.edit import edit_fields
from paperwork.finding import Edit, Finding
from paperwork.intake.source import read_source_bytes
from paperwork.reading import Reading, read_show
from paperwork.terminal.report import format_findings
from tests.broken_plans import broken_show, crowded_show
from tests.few import few_examples
from tests.fuzz.seeds import LISTS
from tests.test_broken_shows import SHOWS

COMES_TO_LIGHT = {
    "group-unknown": "a channel that a slip kept apart meets the others once its zone is the one that was meant",
    "tv-unlisted": "what is in a TV channel is in it once the show lists it",
    "clock-loop": "while the clocks follow each other in a circle nobody leads, so that no two leaders can meet",
    "sweep-own-untold": "a level is somebody else's only once our own transmitters are known to have been off",
}
"""Fixes behind which another finding comes to light, and why it could not be seen before."""


OF_A_TWIN = {"neighbour-too-near", "intermodulation"}
"""Of two carriers on one frequency the clashes are reported at the one that stays. Where that one is retuned for another
reason and alone, the same clashes are the other's: they are new in words only."""


def keys(findings) -> set[tuple[str, str]]:
    return {(one.code, one.text) for one in findings}


def offered(reading: Reading) -> list[Finding]:
    return [one for one in reading.findings if one.edits]


def check_each_alone(show: EditedShow) -> None:
    for finding in offered(show.reading):
        made = show.make(finding.edits)
        assert (finding.code, finding.text) not in keys(made.reading.findings), finding
        fresh = list_new(show.reading, made.reading, [finding])
        if any(one.code == "carrier-doubled" for one in show.reading.findings):
            fresh = [one for one in fresh if one.code not in OF_A_TWIN]
        assert not fresh or finding.code in COMES_TO_LIGHT, (finding, fresh)


def check_all_together(show: EditedShow) -> None:
    found = offered(show.reading)
    if found:
        made = show.make(tuple(dict.fromkeys(edit for one in found for edit in one.edits)))
        assert not keys(found) & keys(made.reading.findings)
        light = {one.code for one in found} & COMES_TO_LIGHT.keys()
        assert light or not [one for one in list_new(show.reading, made.reading, found) if one.severity == "error"]


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_every_fix_of_a_broken_show_works_alone_and_all_work_together(path):
    show = open_show(path, path.name)
    check_each_alone(show)
    check_all_together(show)


WORKBOOKS = sorted(path for path in (Path(__file__).parent / "intake/lists").glob("w*") if path.suffix != ".yaml")


@pytest.mark.parametrize(
    "name, data",
    [*((f"seed{number}.csv", text.encode()) for number, text in enumerate(LISTS[:4]))]  # the fifth holds no show
    + [(path.name, path.read_bytes()) for path in WORKBOOKS],
    ids=[*map(str, range(4)), *(path.stem for path in WORKBOOKS)],
)
def test_every_fix_of_a_list_that_became_a_show_works(name, data, tmp_path):
    source = read_source_bytes(data, name, lambda: ({}, ()))
    path = tmp_path / "show.yaml"
    path.write_bytes(write_show(source.raw, ".yaml")[0])
    show = open_show(path, "show.yaml")
    check_each_alone(show)
    check_all_together(show)


def check_seed(text: str, tmp_path_factory) -> None:
    path = tmp_path_factory.mktemp("show") / "show.yaml"
    path.write_text(text, encoding="utf-8")
    show = open_show(path, "show.yaml")
    check_each_alone(show)
    check_all_together(show)


@settings(max_examples=few_examples(25), deadline=None)
@given(seed=st.integers(0, 1 << 20))
def test_every_fix_of_a_random_slip_works(seed, tmp_path_factory):
    check_seed(broken_show(seed), tmp_path_factory)


@settings(max_examples=few_examples(15), deadline=None)
@given(seed=st.integers(0, 1 << 20))
def test_all_frequencies_that_one_report_offers_can_be_taken_together(seed, tmp_path_factory):
    check_seed(crowded_show(seed), tmp_path_factory)


@pytest.mark.sweep
@settings(max_examples=few_examples(300), deadline=None)
@given(seed=st.integers(0, 1 << 30))
def test_every_fix_of_many_random_slips_works(seed, tmp_path_factory):
    check_seed(broken_show(seed) if seed % 2 else crowded_show(seed), tmp_path_factory)


@settings(max_examples=few_examples(12), deadline=None)
@given(seed=st.integers(0, 1 << 20))
def test_fixing_ends_never_makes_errors_and_leaves_nothing_that_it_could_make(seed, tmp_path_factory):
    path = tmp_path_factory.mktemp("show") / "show.yaml"
    path.write_text(broken_show(seed), encoding="utf-8")
    mending = Mending(open_show(path, "show.yaml"))
    before = mending.show.reading
    mending.run()
    assert not [one for one in list_new(before, mending.show.reading) if one.severity == "error"]
    left = [one for one in offered(mending.show.reading) if not one.row.decides]
    assert all(one.edits in mending.refused for one in left)


QUOTED = (
    ("racks:\n  R1: {units: 4, 4}\nchannels:\n  01: {role: VERA}\n", "units: 4, 4"),
    ("channels:\n  01: {role: VERA, mhz: 491,800}\n", "mhz: 491,800"),
    ("channels:\n  01: {role: VERA, by:Mara}\n", "by:Mara"),
    ("channels:\n  01: {role: VERA, mhz: 491.800, capsule cocoa}\n", "capsule cocoa"),
    ("channels:\n  01: {role: VERA, notes: tape, glue, by: Mara}\n", "notes: tape, glue"),
)


@pytest.mark.parametrize("text, guilty", QUOTED)
def test_a_line_that_a_fix_quotes_put_in_place_of_the_guilty_one_removes_the_finding(text, guilty, tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(text, encoding="utf-8")
    (finding,) = [one for one in read_show(path, "show.yaml").findings if one.code == "yaml-key"]
    quoted = next(part for part in re.findall(r"`([^`]+)`", finding.fix) if part != "name: value")
    path.write_text(text.replace(guilty, quoted), encoding="utf-8")
    assert [one.text for one in read_show(path, "show.yaml").findings if one.severity == "error"] == []


@pytest.mark.parametrize(
    "text, place, words",
    (
        ("channels:\n  01: {role: VERA}, by: Mara}\n", (2, 18), "the entry ends at this }"),
        ("channels:\n  01: {role: VERA, {by: Mara}}\n", (2, 20), "a { is where a name belongs"),
        ("channels:\n  01: {role: VERA\n  02: {role: TOM}\n", (2, 7), "the { opened here is not closed"),
        ("channels:\n  01: {role: VERA, mhz: 1 }, }\n", (2, 27), "the entry ends at this }"),
    ),
)
def test_a_stray_brace_is_named_where_it_is(text, place, words, tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(text, encoding="utf-8")
    found = {(one.place.line, one.place.column): one.text for one in read_show(path, "show.yaml").findings}
    assert words in found[place] and not any("  " in text for text in found.values())


def test_a_frequency_that_was_refused_is_never_offered(tmp_path):
    row = "  {}: {{role: R{}, mhz: {}, asked: {}, granted: {}}}\n"
    text = "channels:\n" + row.format("01", 1, "486.200", "486.200", "486.200")
    text += row.format("02", 2, "486.200", "486.600", '"no"') + "  03: {role: R3, mhz: 486.200}\n"
    path = tmp_path / "show.yaml"
    first = ""
    for _ in range(2):
        path.write_text(text, encoding="utf-8")
        found = read_show(path, "show.yaml").findings
        edits = {edit.record: edit.value for one in found for edit in one.edits if one.code == "carrier-doubled"}
        assert set(edits) == {"03"} and edits["03"] not in (first, "486.200", "486.600")
        first = edits["03"]
        text += f'  9{len(text) % 10}: {{role: X, asked: {first}, granted: "no"}}\n'


@pytest.mark.parametrize("granted, is_offered", (("486.600", True), ("486.610", False), ("600.000", False)))
def test_a_grant_is_offered_only_where_the_radio_can_be_set_to_it(granted, is_offered, tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(
        "radios: {belt: {tunes: 470-530, step: 25 kHz}}\n"
        f"channels:\n  01: {{role: VERA, radio: belt, mhz: 486.200, granted: {granted}}}\n",
        encoding="utf-8",
    )
    (finding,) = read_show(path, "show.yaml").findings
    assert finding.edits == ((Edit("channels", "01", "mhz", granted),) if is_offered else ())
    assert ("ask for another" in finding.fix or "ask whether you may use that" in finding.fix) != is_offered


def apply_sarif(text: str, fix: dict) -> str:
    """The text with the replacements of a fix, by lines and columns as the standard counts them."""
    (change,) = fix["artifactChanges"]
    starts = [0, *(match.end() for match in re.finditer(r"\r\n|\r|\n", text))]
    for one in sorted(change["replacements"], key=lambda one: -one["deletedRegion"]["startLine"]):
        region = one["deletedRegion"]
        low = starts[region["startLine"] - 1] + region["startColumn"] - 1
        high = starts[region["endLine"] - 1] + region["endColumn"] - 1
        text = text[:low] + one["insertedContent"]["text"] + text[high:]
    return text


SARIF_NEEDS = {
    "log": {"version", "runs"},
    "run": {"tool"},
    "result": {"message"},
    "fix": {"artifactChanges"},
    "change": {"artifactLocation", "replacements"},
    "replacement": {"deletedRegion"},
}
"""What the schema of SARIF 2.1.0 requires of each object (OASIS, 27 March 2020, 3.13.2, 3.14.6, 3.27.10, 3.55 to 3.57)."""


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_the_replacements_of_sarif_are_the_edits_of_the_finding(path):
    data, found = path.read_bytes(), read_show(path, path.name).findings
    log = json.loads(format_findings(found, "sarif", data))
    (run,) = log["runs"]
    assert SARIF_NEEDS["log"] <= log.keys() and SARIF_NEEDS["run"] <= run.keys() and log["version"] == "2.1.0"
    assert len(run["results"]) == len(found) and {"name"} <= run["tool"]["driver"].keys()
    for finding, result in zip(found, run["results"], strict=True):
        assert SARIF_NEEDS["result"] <= result.keys() and ("fixes" in result) == bool(finding.edits)
        for fix in result.get("fixes", ()):
            assert SARIF_NEEDS["fix"] <= fix.keys() and len(fix["artifactChanges"]) == 1
            for change in fix["artifactChanges"]:
                assert SARIF_NEEDS["change"] <= change.keys() and change["replacements"]
                assert all(SARIF_NEEDS["replacement"] <= one.keys() for one in change["replacements"])
            assert apply_sarif(data.decode(), fix) == edit_fields(data, "yaml", finding.edits, path.name).decode()


def test_edits_are_in_json_and_a_workbook_has_them_in_words_alone(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text("channels:\n  01: {role: VERA, mzh: 486.200}\n", encoding="utf-8")
    found = read_show(path, "show.yaml").findings
    assert [one["edits"] for one in json.loads(format_findings(found, "json"))] == [["channels/01/mzh/=mhz"]]
    assert "fixes" not in json.loads(format_findings(found, "sarif"))["runs"][0]["results"][0]


def test_most_broken_shows_offer_edits():
    counts = Counter(bool(offered(open_show(path, path.name).reading)) for path in SHOWS)
    assert counts[True] >= 25
