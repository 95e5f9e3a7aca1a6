"""Which house and performance the papers are of, and what is printed beside them: as the command does it, byte for byte."""

import re
from pathlib import Path
from urllib.parse import urlencode

import pytest
from click.testing import CliRunner

from paperwork.cli import root
from paperwork.output import folder_beside
from paperwork.pipeline import LabelChoice, make_papers
from paperwork.reading import read_show
from tests.serve.asgi import ask
from tests.serve.test_edit import Page

RUN = b"""show: {title: Glass, venue: Hall, revision: A}
day: {curtain: 19:30, team: red}
racks: {R1: {channels: 1-2}}
people:
  Ann: {team: red}
  Bo: {team: blue}
  Cy: {team: red}
roles:
  VERA: {by: Ann, alternates: Bo}
  TOM: {by: Cy}
channels:
  1: {role: VERA, mhz: 486.200, pack: P1}
  2: {role: TOM, mhz: 487.400, pack: P2}
performances:
  red evening: {date: 2027-03-06, team: red}
  blue afternoon: {date: 2027-03-07, curtain: "14:00", team: blue}
  blue evening: {date: 2027-03-08, team: blue}
venues:
  v1: {venue: Pier, section: show, field: venue, value: Pier Pavilion}
"""
PLAIN = b"show: {title: Gala}\nchannels:\n  1: {by: Ann, mhz: 486.200}\n"


class Shown(Page):
    """The page of a show, asked for whole."""

    def body(self) -> str:
        return ask(self.app, "/secret/shows/show1/").body.decode()

    def send(self, path: str, **fields: str) -> int:
        body = urlencode(fields).encode()
        return ask(self.app, f"/secret/shows/show1/{path}", method="POST", body=body).status


@pytest.fixture
def page(tmp_path) -> Shown:
    return Shown(tmp_path, RUN)


def built(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*.*") if not p.name.startswith(".")}


@pytest.mark.parametrize(
    ("asked", "on", "edition"),
    [
        ({"on": "blue afternoon"}, "blue afternoon", "blue afternoon"),
        (
            {"on": "..", "first": "2027-03-07", "last": "2027-03-06"},
            "2027-03-06..2027-03-07",
            "2027-03-06 to 2027-03-07",
        ),
        ({"on": "blue evening", "venue": "Pier"}, "blue evening", "Pier, blue evening"),
    ],
)
def test_papers_of_a_performance_and_of_some_days_are_the_commands_in_its_folder(page, tmp_path, asked, on, edition):
    words = ["build", str(page.file), "--on", on, "--venue", asked.get("venue", ""), "-o", str(tmp_path / "wanted")]
    assert CliRunner().invoke(root, words, obj={}).exit_code == 0
    assert page.send("edition", **asked) == 303 and page.send("print") == 303 and page.send("keep") == 303
    (made,) = [one for one in tmp_path.iterdir() if one.name.endswith("-papers")]
    assert built(made) == built(tmp_path / "wanted") and made == folder_beside(page.file, "papers", edition)


def test_the_page_offers_each_performance_and_the_days_and_says_which_is_shown(page):
    body = page.body()
    offered = re.search(r'<select class="narrow" id="on".*?</select>', body, re.DOTALL).group()
    assert re.findall(r'value="([^"]*)"', offered) == ["", "..", "red evening", "blue afternoon", "blue evening"]
    assert "blue afternoon, 7 March 2027" in offered and re.findall(r'name="(first|last)"', body) == ["first", "last"]
    page.send("edition", on="blue evening")
    body = page.body()
    assert '<option value="blue evening" selected>' in body and page.opened.edition == "blue evening"
    assert page.opened.reading.show.roles["VERA"].by == "Bo"
    assert re.search(r'name="off" value="Bo"', body) and not re.search(r'name="off" value="Ann"', body)


def test_a_show_without_performances_offers_nothing_of_them(tmp_path):
    body = Shown(tmp_path, PLAIN).body()
    assert not [words for words in ("Performance<", "show1/edition", "the whole run") if words in body]


@pytest.mark.parametrize("on", ["green evening", "..", "2027-03-09..2027-03-10", "<i>x"])
def test_a_performance_that_there_is_not_is_the_whole_run(page, on):
    page.send("edition", on=on)
    assert page.opened.on == "" and page.opened.reading.show.at_performance == "" and "<i>x" not in page.body()


def test_of_several_days_there_are_no_papers_of_one_evening(page):
    page.send("edition", on="..", first="2027-03-06", last="2027-03-08")
    page.send("print")
    assert {Path(one.path).stem for one in page.opened.papers.printed} == {"week-cells", "week-checks", "performances"}
    assert page.send("tonight", off="Cy") == 303 and page.opened.tonight is None and "Who is off?" not in page.body()
    assert ask(page.app, "/secret/shows/show1/pocket/rack.html").status == 409
    assert page.send("compare", name="show.yaml") == 400
    assert '<option value=".." selected>' in page.body()


def test_tonights_papers_are_those_of_the_performance_with_its_date(page, tmp_path):
    words = ["tonight", str(page.file), "--off", "Cy", "--on", "blue evening", "--date", "2027-03-08"]
    CliRunner().invoke(root, [*words, "-o", str(tmp_path / "wanted")], obj={})
    page.send("edition", on="blue evening")
    page.send("tonight", off="Cy")
    assert page.opened.tonight.files == built(tmp_path / "wanted")


def test_an_archive_is_of_the_run_and_an_edit_of_the_file_itself(page, tmp_path):
    page.send("edition", on="blue evening")
    assert page.send("archive") == 303
    CliRunner().invoke(root, ["archive", str(page.file), "-o", str(tmp_path / "wanted.zip")], obj={})
    assert (tmp_path / "show-A.zip").read_bytes() == (tmp_path / "wanted.zip").read_bytes()
    page.edit("roles/VERA/by=Dee", section="roles")
    assert page.opened.on == "blue evening" and b"VERA: {by: Dee" in page.opened.data
    page.edit("performances/blue evening/=night", section="performances")
    assert page.opened.on == "" and page.opened.reading.show is not None


def test_a_performance_is_compared_with_the_same_of_an_earlier_revision(page):
    earlier = page.file.with_name("earlier.yaml")
    earlier.write_bytes(RUN.replace(b"alternates: Bo", b"alternates: Cy"))
    page.send("edition", on="blue evening")
    assert page.send("compare", name="earlier.yaml") == 303
    assert page.opened.compared.old.show.at_performance == "blue evening"
    earlier.write_bytes(RUN.replace(b"blue evening", b"late"))
    page.opened.compared = None
    assert page.send("compare", name="earlier.yaml") == 400 and page.opened.compared is None


def test_strips_cards_and_blank_forms_are_as_chosen_and_kept(page):
    page.send("print", strip="12", card="60x40", blank="on")
    reading = read_show(page.file, "show.yaml")
    wanted = make_papers(
        reading.show, reading.findings, labels=LabelChoice(strip_mm=12, card_mm=(60, 40)), blank=True
    ).files
    pdfs = {path for path in wanted if path.endswith(".pdf") and "book" not in path}
    assert {path: page.opened.papers.files[path] for path in pdfs} == {path: wanted[path] for path in pdfs}
    assert {path.partition("/")[0] for path in pdfs} == {"rack", "wardrobe", "production", "blank"}
    page.send("print")
    body = page.body()
    assert '<option value="12" selected>' in body and '<option value="60x40" selected>' in body
    assert re.search(r'name="blank"[^>]* checked', body)
    part = ask(page.app, "/secret/shows/show1/part/receiver-strips.pdf?racks=R1").body
    assert part == wanted["rack/receiver-strips.pdf"]
    assert ask(page.app, "/secret/shows/show1/reader/blank.pdf").status == 200
    page.send("print", strip="13", card="1x1")
    assert (page.opened.printing.blank, page.opened.printing.strip_mm, page.opened.printing.card_mm) == (
        False,
        0,
        (0, 0),
    )


def test_a_show_without_racks_has_no_size_of_strips(tmp_path):
    body = Shown(tmp_path, PLAIN).body()
    assert 'id="strip"' not in body and 'id="card"' in body
