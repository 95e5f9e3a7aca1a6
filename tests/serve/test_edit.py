"""Editing on the page without a browser: the file that comes of it, what is never written over, and what is undone."""

import itertools
import json
from dataclasses import replace
from urllib.parse import urlencode

import anyio
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.editing.edited import open_show
from paperwork.files.read import read_kind
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.write import write_workbook
from paperwork.finding import Edit, Finding
from paperwork.model.facts import canonical_facts
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.serve.app import make_app
from paperwork.serve.edit.tables import describe_findings
from paperwork.serve.guard import Guard
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs
from tests.few import few_examples
from tests.serve.asgi import HOST, KEYS, ask
from tests.shows_text import EXAMPLES

SHOW = b"""# Kept by hand.
show: {title: Gala, revision: C, revisions: [A, B]}
roles:
  VERA: {by: Ann}   # lead
  TOM: {by: Bo}
channels:
  01: {role: VERA, mhz: 486.200}
  02: {role: TOM, mhz: 486.200}
scenes:
  1: {name: Quay, live: VERA TOM}
"""

TWIN = SHOW.replace(b"# Kept by hand.\n", b"").replace(b"   # lead", b"")

NOW = "2027-03-01-1620"


class Page:
    """The page of one show in a folder, asked as its script asks."""

    def __init__(self, folder, data: bytes = SHOW, name: str = "show.yaml") -> None:
        self.file = folder / name
        self.file.write_bytes(data)
        numbers = itertools.count(1)
        self.shelf = Shelf(folder, lambda: f"show{next(numbers)}", read_clock=lambda: NOW)

        async def make():
            return make_app(self.shelf, "secret", Tabs())

        self.app = Guard(anyio.run(make), HOST, KEYS)
        self.opened = self.shelf.open(name)

    def post(self, path: str, *fields: tuple[str, str]) -> dict:
        answer = ask(
            self.app, f"/secret/shows/show1/edit/{path}", method="POST", body=urlencode(fields).encode("utf-8")
        )
        assert answer.status == 200, answer
        return json.loads(answer.body)

    def get(self, path: str):
        return ask(self.app, f"/secret/shows/show1/edit/{path}")

    def edit(self, *edits: str, section: str = "channels") -> dict:
        return self.post("make", ("section", section), *(("edit", one) for one in edits))


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path)


NAMES = st.sampled_from(("Ann", "Bo", "Cy Moss", "Łukasz", "O'Dell: x", "yes", "1:05", "#1", ""))
EDITS = st.one_of(
    st.builds(Edit, st.just("channels"), st.sampled_from(("01", "02", "03")), st.sampled_from(("by", "notes")), NAMES),
    st.builds(
        Edit, st.just("channels"), st.sampled_from(("01", "02", "7")), st.just("mhz"), st.sampled_from(("487.1", ""))
    ),
    st.builds(
        Edit, st.just("roles"), st.sampled_from(("VERA", "TOM")), st.just(""), st.sampled_from(("IDA", "TOM", ""))
    ),
    st.builds(Edit, st.just("show"), st.just(""), st.sampled_from(("title", "company")), NAMES),
)


@given(st.lists(EDITS, max_size=6))
@settings(max_examples=few_examples(25), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_edits_on_the_page_and_in_the_file_give_the_same_file_and_undoing_all_gives_the_first(tmp_path, edits):
    page = Page(tmp_path)
    alone = open_show(page.file, "show.yaml")
    states = [SHOW]
    for edit in edits:
        answer = page.edit(str(edit))
        try:
            alone = alone.make([edit])
        except Refused as refused:
            assert refused.finding.text in answer["wrong"]
        else:
            assert "wrong" not in answer
            states += [alone.data] if alone.data != states[-1] else []
        assert page.opened.data == alone.data
        assert page.opened.reading.findings == alone.reading.findings
    for state in reversed(states[:-1]):
        page.post("undo", ("section", "channels"))
        assert page.opened.data == state
    assert not page.opened.history.undoes and not page.opened.is_edited
    for state in states[1:]:
        page.post("redo", ("section", "channels"))
        assert page.opened.data == state


MOVES = st.tuples(
    st.sampled_from(("channels", "roles", "scenes")), st.integers(0, 3), st.one_of(st.none(), st.integers(0, 3))
)


@given(st.lists(st.one_of(EDITS, MOVES), min_size=1, max_size=6))
@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_edits_and_moves_in_a_workbook_and_in_its_twin_give_the_same_show_and_undo_to_the_byte(tmp_path, steps):
    raw, _ = read_kind(TWIN, "show.yaml", "yaml")
    first = {"show.yaml": TWIN, "show.xlsx": write_workbook(raw)}
    pages = [Page(tmp_path, data, name) for name, data in first.items()]
    for step in steps:
        answers = [_take(page, step) for page in pages]
        assert ["wrong" in one for one in answers] in ([False, False], [True, True]), answers
        one, other = [page.opened.reading.show for page in pages]
        assert (one and canonical_facts(one)) == (other and canonical_facts(other))
        assert one is None or list(one.channels) == list(other.channels)
    papers = [_print_plain(page) for page in pages]
    assert papers[0] == papers[1]
    for page, data in zip(pages, first.values(), strict=True):
        while page.opened.history.undoes:
            page.post("undo", ("section", "channels"))
        assert page.opened.data == data and not page.opened.is_edited


def _take(page: Page, step) -> dict:
    if isinstance(step, Edit):
        return page.edit(str(step))
    section, at, before = step
    held = page.opened.open_edited().raw.get(section)
    ids = [key.text for key, _ in held.items] if held else ["none"]
    before = ids[before % len(ids)] if before is not None else ""
    return page.post("move", ("section", section), ("record", ids[at % len(ids)]), ("before", before))


def _print_plain(page: Page) -> dict[str, bytes]:
    show = page.opened.reading.show
    only = frozenset({"channel-chart", "dressing-list"})
    return make_papers(show, (), only=only, pictured=False).files if show else {}


def test_papers_of_what_was_edited_are_those_of_the_saved_file(page):
    page.edit("channels/02/mhz=487.400")
    page.edit("roles/TOM/=TIM", section="roles")
    page.opened.print()
    shown = dict(page.opened.papers.files)
    assert page.post("save", ("way", "own"))["said"] == f"Saved. What was there is kept as show.{NOW}.yaml."
    reading = read_show(page.file, "show.yaml")
    page.opened.papers = None
    page.opened.print()
    assert page.opened.papers.files == shown
    plain = make_papers(reading.show, reading.findings).files
    assert {path for path in plain if plain[path] != shown[path]} == {
        path for path in plain if "show-book" in path or path == "index.html"
    }, "they hold the file itself"


def test_a_workbook_is_edited_and_undone_to_the_byte(tmp_path):
    data = (EXAMPLES / "show.xlsx").read_bytes()
    page = Page(tmp_path, data, "show.xlsx")
    answer = page.edit("channels/05/mhz=477.350", "people/Sami Orr/room=8")
    assert "wrong" not in answer and page.opened.is_edited
    rows = {row["id"]: row["cells"] for row in answer["rows"]}
    assert rows["05"]["mhz"] == "477.350"
    page.post("undo", ("section", "channels"))
    assert page.opened.data == data


def test_a_table_says_its_fields_rows_choices_and_findings_at_their_cells(page):
    table = json.loads(page.get("table/channels").body)
    assert [row["id"] for row in table["rows"]] == ["01", "02"]
    fields = {field["name"]: field for field in table["fields"]}
    assert fields["mhz"]["shown"] and not fields["zone"]["shown"] and fields["notes for"]["choices"]
    assert table["known"]["roles"] == ["VERA", "TOM"] and "Ann" in table["known"]["people"]
    found = [(one["id"], one["field"]) for one in table["findings"] if one["code"] == "carrier-doubled"]
    assert found == [("02", "mhz")] and table["findings"][0]["also"] == [["channels", "01", "mhz"]]
    scenes = json.loads(page.get("table/scenes").body)
    assert scenes["live"] == {"1": ["VERA", "TOM"]}
    assert page.get("table/nowhere").status == 404


def test_a_refusal_changes_nothing_and_says_why(page):
    for fields in (
        [("edit", "channels/09/=01")],
        [("edit", "nonsense")],
        [("add", "channels/")],
        [("add", "show/x")],
        [("fix", "no-such|finding")],
        [],
    ):
        assert page.post("make", ("section", "channels"), *fields)["wrong"]
    assert page.opened.data == SHOW and not page.opened.history.undoes


def test_a_row_without_fields_is_added_and_a_row_is_moved_with_its_comment(page):
    page.post("make", ("section", "roles"), ("add", "roles/IDA"))
    assert b"  TOM: {by: Bo}\n  IDA: {}\n" in page.opened.data
    page.post("move", ("section", "roles"), ("record", "VERA"), ("before", ""))
    assert b"  IDA: {}\n  VERA: {by: Ann}   # lead\nchannels" in page.opened.data
    for _ in range(2):
        page.post("undo", ("section", "roles"))
    assert page.opened.data == SHOW


def test_what_edits_would_do_is_told_without_doing_it(page):
    told = page.post("try", ("edit", "channels/02/mhz=487.400"))
    assert told["lines"] == [["-", "  02: {role: TOM, mhz: 486.200}"], ["+", "  02: {role: TOM, mhz: 487.400}"]]
    assert any("486.2" in text for text in told["gone"]) and page.opened.data == SHOW
    worse = page.post("try", ("edit", "channels/02/mhz=abc"))
    assert [(one["id"], one["field"]) for one in worse["findings"] if one["new"]] == [("02", "mhz")]


def test_every_fix_that_needs_no_decision_is_made_in_one_step(tmp_path):
    page = Page(tmp_path, SHOW.replace(b"02: {role: TOM, mhz: 486.200", b"02: {role: TOM, mzh: 487.400"))
    assert page.post("mend", ("section", "channels"))["said"] == "1 fixed."
    assert page.opened.data == SHOW.replace(b"TOM, mhz: 486.200", b"TOM, mhz: 487.400")
    assert page.post("undo", ("section", "channels"))["state"]["undo"] == ""
    assert b"mzh" in page.opened.data


def test_a_file_that_changed_on_the_disk_is_never_written_over(page):
    page.edit("channels/02/mhz=487.400", "channels/01/by=Ann")
    theirs = SHOW.replace(b"02: {role: TOM, mhz: 486.200}", b"02: {role: TOM, mhz: 489.900, by: Bo}")
    page.file.write_bytes(theirs)
    for way in ("own", "revision"):
        answer = page.post("save", ("way", way), ("revision", "D"))
        assert answer["clash"] and page.file.read_bytes() == theirs and len(list(page.file.parent.iterdir())) == 1
    assert b"487.400" in page.opened.data, "what was typed stays"
    told = json.loads(page.get("clash").body)
    assert told["theirs"] == ["channel 02 by: Bo"] and told["ours"] == ["channel 01 by: Ann"]
    (clash,) = told["clashes"]
    assert (clash["what"], clash["was"], clash["ours"], clash["theirs"]) == (
        "channel 02 mhz", "486.200", "487.400", "489.900"
    )  # fmt: skip
    page.post("merge", ("section", "channels"), ("kept", clash["key"]))
    assert page.opened.data == theirs.replace(b"489.900", b"487.400").replace(b"VERA, mhz", b"VERA, by: Ann, mhz")
    assert "kept as" in page.post("save", ("way", "own"))["said"]
    assert page.file.read_bytes() == page.opened.data
    assert (page.file.parent / f"show.{NOW}.yaml").read_bytes() == theirs


def test_each_save_of_a_minute_keeps_what_was_there_under_a_name_of_its_own(page):
    for title in ("One", "Two", "Three"):
        page.edit(f"show/title={title}")
        page.post("save", ("way", "own"))
    kept = {path.name: path.read_bytes() for path in page.file.parent.iterdir() if path != page.file}
    assert list(map(kept.get, sorted(kept))) == [SHOW.replace(b"Gala", b"One"), SHOW.replace(b"Gala", b"Two"), SHOW], (
        sorted(kept)
    )


def test_a_new_revision_is_named_reasoned_dated_and_lists_the_last_one(page):
    page.edit("channels/02/mhz=487.400")
    page.post("save", ("way", "revision"), ("revision", "D"), ("reason", "new packs"))
    production = read_show(page.file, "show.yaml").show.production
    assert (production.revision, production.reason, production.revisions) == ("D", "new packs", ("A", "B", "C"))
    assert b"revised: 2027-03-01 16:20" in page.file.read_bytes()
    page.edit("channels/02/by=Bo")
    assert "already" in page.post("save", ("way", "revision"), ("revision", "D"))["wrong"]


@pytest.mark.parametrize("name", ("", "../x", "a/b", ".hidden", "show.yaml", "a\\b", "x\ny"))
def test_a_new_file_has_a_plain_name_that_is_not_taken(page, name):
    page.edit("channels/02/mhz=487.400")
    before = {path: path.read_bytes() for path in page.file.parent.rglob("*")}
    assert page.post("save", ("way", "new"), ("name", name))["wrong"]
    assert {path: path.read_bytes() for path in page.file.parent.rglob("*")} == before


def test_a_new_file_is_what_the_page_goes_on_with(page):
    page.edit("channels/02/mhz=487.400")
    assert page.post("save", ("way", "new"), ("name", "show-d"))["said"] == "Saved as show-d.yaml."
    assert page.file.read_bytes() == SHOW and b"487.400" in (page.file.parent / "show-d.yaml").read_bytes()
    assert page.opened.name == "show-d.yaml" and not page.opened.is_edited


def test_a_show_that_was_saved_elsewhere_is_read_again_only_where_nothing_is_lost(page):
    page.file.write_bytes(SHOW.replace(b"Gala", b"Fair"))
    page.opened.refresh()
    assert b"Fair" in page.opened.data
    page.edit("show/title=Ours", section="show")
    page.file.write_bytes(SHOW.replace(b"Gala", b"Theirs"))
    page.opened.refresh()
    assert b"Ours" in page.opened.data and not page.opened.may_refresh() and page.opened.was_saved()


def test_what_cannot_be_edited_leads_back_to_what_is_wrong_with_it(tmp_path):
    for name, data in (("list.csv", b"Mic;Role\n1;VERA\n2;TOM\n"), ("show.yaml", b"a: [\n")):
        page = Page(tmp_path, data, name)
        answer = page.get("")
        assert answer.status == 303 and answer.headers["location"].endswith("/shows/show1/#findings")
        assert page.edit("channels/1/by=x")["wrong"]
        assert page.opened.data == data


def test_a_card_holds_what_belongs_to_a_channel_and_nothing_else(tmp_path):
    page = Page(tmp_path, (EXAMPLES / "show.yaml").read_bytes())
    card = json.loads(page.get("card/02").body)
    records = [(group["section"], group["id"]) for group in card["groups"]]
    assert records[0] == ("channels", "02") and {("people", "Łukasz Żółcik"), ("transmitters", "02")} <= set(records)
    assert ("capsules", "tone 2") in records and ("racks", "R1") in records and card["slot"] == "R1.2"
    assert not {id for section, id in records if section == "people"} - {"Łukasz Żółcik"}
    looks = json.loads(page.get("table/looks").body)["rows"]
    worn = {row["id"] for row in looks if row["cells"]["by"] == "Łukasz Żółcik"}
    assert {id for section, id in records if section == "looks"} == worn
    assert page.get("card/99").status == 404


def test_a_recast_that_makes_no_sense_changes_nothing(page):
    for old, new in (("", "Bo"), ("Ann", ""), ("Nobody", "Bo")):
        assert page.post("recast", ("section", "people"), ("old", old), ("new", new))["wrong"]
        assert page.post("recast/try", ("old", old), ("new", new))["wrong"]
    assert page.opened.data == SHOW
    lines = page.post("recast/try", ("old", "Ann"), ("new", "Cy"), ("stays", "yes"))["lines"]
    assert "roles VERA by: was Ann, is Cy" in lines and "covers c1 by: was not there, is Ann" in lines
    page.post("recast", ("section", "people"), ("old", "Ann"), ("new", "Cy"), ("stays", "yes"))
    page.post("undo", ("section", "people"))
    assert page.opened.data == SHOW


def test_a_finding_at_an_empty_cell_of_a_workbook_is_one_of_its_row(tmp_path):
    page = Page(tmp_path, (EXAMPLES / "show.xlsx").read_bytes(), "show.xlsx")
    show = page.opened.open_edited()
    at = show.raw.get("channels").items[1][0].place
    for line, wanted in ((at.line, ("channels", "02", "")), (900, ("", "", ""))):
        finding = Finding("carrier-doubled", at._replace(line=line, column=60), "text", "fix")
        (told,) = describe_findings(replace(show, reading=replace(show.reading, findings=(finding,))))
        assert (told["section"], told["id"], told["field"]) == wanted
