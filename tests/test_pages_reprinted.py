"""A revision of the example replaces pages, not papers: just those on which something is said otherwise."""

import json
import re
from pathlib import Path

import pytest

from paperwork.commands.archive import command as archive
from paperwork.commands.build import command as build
from paperwork.commands.changes import command as changes
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from tests.archive.test_inputs import repack
from tests.archive.test_verify import files_of
from tests.pdf_text import read_pages
from tests.shows_text import EXAMPLES

SHOW = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
LABELS = ("pack-labels", "pouch-cards", "mic-table-squares", "spare-cards", "show-book")


def run(command, *arguments):
    return command.main([str(one) for one in arguments], standalone_mode=False)


@pytest.fixture
def old(tmp_path) -> Path:
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    (tmp_path / "old.yaml").write_text(SHOW, encoding="utf-8")
    return tmp_path / "old.yaml"


@pytest.fixture(scope="module")
def kept(tmp_path_factory) -> bytes:
    """The archive of the example, made once."""
    folder = tmp_path_factory.mktemp("kept")
    (folder / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    (folder / "old.yaml").write_text(SHOW, encoding="utf-8")
    run(archive, folder / "old.yaml", "-o", folder / "home.zip")
    return (folder / "home.zip").read_bytes()


@pytest.fixture
def home(old, kept) -> Path:
    old.with_name("home.zip").write_bytes(kept)
    return old.with_name("home.zip")


def revise(old: Path, *edits: tuple[str, str]) -> Path:
    text = SHOW
    for was, now in edits:
        assert was in text, was
        text = text.replace(was, now)
    new = old.with_name("new.yaml")
    new.write_text(text, encoding="utf-8")
    return new


def test_a_recast_replaces_exactly_the_pages_on_which_the_name_stands(old):
    """The pages are found by reading every PDF of a full build; the new name is as long as the old one."""
    new = revise(old, ("Leif Holm", "Lena Hall"))
    reading = read_show(old, "old.yaml")
    papers = make_papers(reading.show, reading.findings, pictured=False)
    named = {
        (Path(path).stem, number)
        for path, data in papers.files.items()
        if path.endswith(".pdf") and Path(path).stem not in LABELS
        for number, text in enumerate(read_pages(data), 1)
        if "Leif Holm" in " ".join(text.split())
    }
    told = json.loads(run(changes, old, new, "--format", "json").text)["papers"]
    for fate in ("print", "destroy"):
        assert {(one["name"], page["page"]) for one in told[fate] for page in one["pages"]} == named
    assert len(named) > 4 and told["valid"]


def test_only_the_pages_that_changed_are_printed_each_with_its_number_in_the_whole(old):
    new = revise(old, ("mhz: 538.075, granted: 538.075", "mhz: 538.075, granted: 538.075, notes: deck hums"))
    out = old.with_name("out")
    text = run(build, new, "--since", old, "-o", out).text
    listed = re.search(r"print again: .*?channel-chart page (\d)", " ".join(text.split()))
    (page,) = read_pages((out / "rack" / "channel-chart.pdf").read_bytes())
    assert listed and f"{listed[1]} of 3" in page and "hums" in page


def test_an_archive_is_compared_by_what_it_says_that_was_printed(old, home):
    """Not by what this program would print of its show today."""
    assert "print again: nothing" in run(changes, home, old).text
    files = files_of(home.read_bytes())
    about = json.loads(files["archive.json"])
    chart = next(one for one in about["papers"] if one["path"] == "papers/rack/channel-chart.pdf")
    chart["codes"][1] = "AAAA"
    home.write_bytes(repack({**files, "archive.json": json.dumps(about).encode()}))
    told = run(changes, home, old).text
    assert "print again: channel-chart page 2" in told and "channel-chart page 2 AAAA" in told


@pytest.mark.sweep
@pytest.mark.parametrize("papers", (3, [3], [{}], [{"path": 1}], [{"path": "a", "codes": 3, "labels": [], "pages": 1}]))
def test_an_archive_that_lists_its_papers_in_another_form_is_compared_by_its_show(old, home, papers):
    files = files_of(home.read_bytes())
    about = json.loads(files["archive.json"]) | {"papers": papers}
    home.write_bytes(repack({**files, "archive.json": json.dumps(about).encode()}))
    assert "print again: nothing" in run(changes, home, old).text


def test_a_move_on_tour_prints_every_paper_and_takes_down_all_that_were_archived_at_home(old, home):
    new = revise(old)
    venue = read_show(old, "old.yaml").show.venues
    house = next(iter(venue.values())).venue
    text = run(build, new, "--venue", house, "--since", home, "-o", old.with_name("out")).text
    assert "still valid, of revision C: nothing" in text and "take down" in text
    assert "channel-chart pages 1–3" in text and "pack-labels" in text.partition("take down")[0]


def test_a_refused_frequency_recalls_every_page_and_the_label_that_it_stamps_and_brings_them_back(old):
    new = revise(old, ("mhz: 471.050, granted: 471.050", "mhz: 471.050, granted: no"))
    told = json.loads(run(changes, old, new, "--format", "json").text)["papers"]
    again = {one["name"] for one in told["print"]}
    assert {"channel-chart", "programming-checklist", "walk-test", "frequency-reply"} <= again
    assert told["print labels"]["pack-labels"] == told["destroy labels"]["pack-labels"] == ["02"]
    back = json.loads(run(changes, new, old, "--format", "json").text)["papers"]
    assert {one["name"] for one in back["destroy"]} == again
