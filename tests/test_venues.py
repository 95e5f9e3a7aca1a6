"""A venue is part of what a paper is: its own folder, its own history, its own archive, and nothing of another house."""

import os
import re
from itertools import combinations
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as some

from paperwork.cli import root
from paperwork.output import folder_beside, safe_name
from paperwork.reading import read_show
from paperwork.terminal import Outcome
from paperwork.text.names import fold, is_file_name
from tests.shows_text import reading_of

SHOW = """
show: {title: Glass Ferry, venue: Town Hall, revision: C, revisions: [A, B], language: en}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.700}
venues:
  v1: {venue: Harbour Hall, section: channels, record: 01, field: mhz, value: 560.200}
  v2: {venue: Harbour Hall, section: channels, record: 02, field: mhz, value: 563.700}
  v3: {venue: Pier, section: channels, record: 01, field: mhz, value: 600.200}
"""
CHART = ("--only", "channel-chart")


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text(SHOW, encoding="utf-8")
    return tmp_path


def run(*arguments: str) -> Outcome:
    return root.main(list(map(str, arguments)), standalone_mode=False, obj={"made": ""})


def text_of(path: str) -> str:
    document = pypdfium2.PdfDocument(path)
    return " ".join(page.get_textpage().get_text_bounded() for page in document).replace("\r\n", " ")


def test_each_house_has_papers_and_archives_of_its_own(folder):
    for arguments in (("build",), ("build", "--only", "channel-chart"), ("archive",), ("tonight", "--off", "Mara")):
        for venue in ("", "harbour hall"):
            assert run(arguments[0], "show.yaml", *arguments[1:], "--venue", venue).code in (0, 1)
    assert {path.name for path in folder.iterdir()} == {
        "show.yaml",
        *("show-papers", "show-selection", "show-C.zip", "show-tonight"),
        *("show-Harbour-Hall-papers", "show-Harbour-Hall-selection", "show-Harbour-Hall-C.zip"),
        "show-Harbour-Hall-tonight",
    }
    assert "486.200" in text_of("show-papers/rack/channel-chart.pdf")
    away = text_of("show-Harbour-Hall-papers/rack/channel-chart.pdf")
    assert "560.200" in away and "486.200" not in away and "Harbour Hall" in away and "Town Hall" not in away


def test_what_is_to_be_typed_next_carries_the_venue():
    assert "show-Harbour-Hall-papers" in run("build", "show.yaml", "--venue", "Harbour Hall").text.splitlines()[-2]
    opened = run("build", "show.yaml", "--venue", "Harbour Hall", "-o", "out").text.splitlines()[-2]
    assert opened.startswith(f"open {Path('out', 'index.html')}") and "Harbour Hall" in opened
    run("archive", "show.yaml", "--venue", "Harbour Hall")
    restored = run("restore", "show-Harbour-Hall-C.zip", "-o", "back").text
    assert "paperwork build back/show.yaml --venue 'Harbour Hall'" in restored.replace(os.sep, "/")
    again = run("restore", "out/production/show-book.pdf", "-o", "book").text
    assert again.rstrip().endswith("--venue 'Harbour Hall'")
    home = run("archive", "show.yaml", "-o", "home.zip")
    assert home.code == 0 and "--venue" not in run("restore", "home.zip", "-o", "home").text


@pytest.mark.parametrize("first, second", [("", "Pier"), ("Pier", ""), ("Harbour Hall", "Pier")])
def test_the_papers_of_one_house_are_never_put_in_place_of_those_of_another(first, second):
    run("build", "show.yaml", "--venue", first, "-o", "out", *CHART)
    before = {path: path.read_bytes() for path in Path("out").rglob("*") if path.is_file()}
    refused = run("build", "show.yaml", "--venue", second, "-o", "out", *CHART)
    assert refused.code == 2 and refused.text == ""
    held, wanted = first or "the home venue", second or "the home venue"
    assert f"out holds the papers of Glass Ferry for {held}, and these are for {wanted}" in refused.aside
    assert {path: path.read_bytes() for path in Path("out").rglob("*") if path.is_file()} == before
    (typed,) = re.findall(r"-o (\S+)", refused.aside)
    assert run("build", "show.yaml", "--venue", second, "-o", typed, *CHART).code == 0


def test_a_folder_without_a_note_of_its_venue_is_the_home_house():
    run("build", "show.yaml", "-o", "out", *CHART)
    manifest = Path("out/.paperwork-manifest.json")
    old = re.sub(r'\n "(title|venue|more_follows)": [^\n]*', "", manifest.read_text(encoding="utf-8"))
    manifest.write_text(re.sub(r",\s*}", "\n}", old), encoding="utf-8")
    assert run("build", "show.yaml", "--venue", "Pier", "-o", "out", *CHART).code == 2
    assert run("build", "show.yaml", "-o", "out", *CHART).code == 0


@pytest.mark.parametrize(
    "language, home, away",
    [
        ("en", "Replaces revision B. Destroy it.", "Replaces revision B for Harbour Hall. Destroy it."),
        ("de", "Ersetzt Stand B (vernichten).", "Ersetzt Stand B für Harbour Hall (vernichten)."),
        ("fr", "Remplace la révision B, à détruire.", "Remplace la révision B pour Harbour Hall, à détruire."),
        ("es", "Sustituye a la revisión B (destruirla).", "Sustituye a la revisión B para Harbour Hall (destruirla)."),
    ],
)
def test_a_paper_replaces_a_paper_of_its_own_house(language, home, away):
    Path("show.yaml").write_text(SHOW.replace("language: en", f"language: {language}"), encoding="utf-8")
    for venue, said in (("", home), ("Harbour Hall", away)):
        run("build", "show.yaml", "--venue", venue, *CHART, "-o", f"out-{venue}")
        assert said in text_of(f"out-{venue}/rack/channel-chart.pdf").replace("\n", " ")


def test_a_move_to_another_house_prints_all_that_differs_there():
    """What was archived counts as it was printed, for the home venue, and nothing of it is to be destroyed."""
    run("archive", "show.yaml", "-o", "home.zip")
    run("build", "show.yaml", "-o", "home")
    for old in ("home.zip", "home/production/show-book.pdf", "show.yaml"):
        outcome = run("build", "show.yaml", "--venue", "Harbour Hall", "--since", old, "-o", f"since-{old[0:5]}")
        again = next(line for line in outcome.text.splitlines() if line.startswith("print again"))
        assert "channel-chart" in again and "pack-labels 01, 02" in again, old
        assert "take down, of revision C: channel-chart" in outcome.text and "destroy" not in outcome.text
        chart = f"since-{old[0:5]}/rack/channel-chart.pdf"
        assert "560.200" in text_of(chart)
    listed = text_of("since-home./production/change-list.pdf")
    assert "Revision C to C for Harbour Hall" in listed and "Take down" in listed


def test_an_archive_of_another_house_stays_valid_there_and_its_venue_is_not_the_one_that_is_asked_for():
    run("archive", "show.yaml", "--venue", "Harbour Hall", "-o", "away.zip")
    same = run("build", "show.yaml", "--venue", "Harbour Hall", "--since", "away.zip").text
    assert "print again: nothing" in same
    home = run("build", "show.yaml", "--since", "away.zip").text
    assert "channel-chart" in next(line for line in home.splitlines() if line.startswith("print again"))
    text = run("changes", "away.zip", "show.yaml", "--venue", "Pier").text
    assert text.startswith("revision C for Harbour Hall to C for Pier") and "560.200 MHz -> 600.200 MHz" in text


def test_for_which_house_an_earlier_file_was_printed_is_said_and_can_be_given():
    taken = "show.yaml is taken as printed for the home venue; if it was for Pier, add --since-venue Pier"
    assert taken in run("build", "show.yaml", "--venue", "Pier", "--since", "show.yaml").text
    given = run("build", "show.yaml", "--venue", "Pier", "--since", "show.yaml", "--since-venue", "Pier").text
    assert "taken as" not in given and "print again: nothing" in given
    home = run("build", "show.yaml", "--since", "show.yaml", "-o", "home").text
    assert "taken as" not in home and "print again: nothing" in home
    unknown = run("build", "show.yaml", "--since", "show.yaml", "--since-venue", "Moon")
    assert unknown.code == 1 and "venue-unknown" in unknown.aside
    run("archive", "show.yaml", "-o", "home.zip")
    sealed = run("build", "show.yaml", "--venue", "Pier", "--since", "home.zip", "--since-venue", "Pier").text
    assert "home.zip was printed for the home venue: --since-venue is only for show files" in sealed


def test_changes_takes_both_files_at_one_venue_or_the_old_one_at_its_own():
    assert "no fact of the show has changed" in run("changes", "show.yaml", "show.yaml", "--venue", "Pier").text
    moved = run("changes", "show.yaml", "show.yaml", "--venue", "Pier", "--old-venue", "Harbour Hall").text
    assert "560.200 MHz -> 600.200 MHz" in moved
    assert (
        "486.200 MHz -> 600.200 MHz"
        in run("changes", "show.yaml", "show.yaml", "--venue", "Pier", "--old-venue", "").text
    )


def test_a_venue_that_a_disk_cannot_hold_has_a_folder_all_the_same():
    for name in ("A/B: the <Barn>", "..", "CON", "Bühne Süd", "大劇場", "-", "a" * 300, "nul.", "x\u202ey"):
        folder = folder_beside(Path("show.yaml"), "papers", name)
        assert is_file_name(folder.name) and folder.parent == Path() and folder.name.endswith("-papers"), name
    assert safe_name("Harbour Hall") == "Harbour-Hall" and safe_name("大劇場") == "大劇場"


NEAR = (
    "Harbour Hall",
    "Harbour-Hall",
    "Harbour_Hall",
    "Harbour  hall!",
    "Harbour/Hall",
    "Harbour:Hall",
    "harbour.hall",
)


def test_near_names_are_never_one_folder():
    for one, other in combinations(NEAR, 2):
        assert safe_name(one).casefold() != safe_name(other).casefold(), (one, other)


@given(some.text(min_size=1, max_size=120), some.text(min_size=1, max_size=120))
def test_two_venues_are_never_one_folder(one, other):
    if fold(one) != fold(other):
        assert safe_name(one).casefold() != safe_name(other).casefold()


def test_a_house_may_have_a_rack_of_its_own_and_a_misspelled_rack_is_none(tmp_path):
    text = (
        "racks: {R1: {channels: 01-02, analogue 1: FOH 1-2}}\nconsoles: {FOH: {inputs: 8}}\n"
        "channels: {01: {by: Ann, mhz: 486.200}, 02: {by: Bo, mhz: 489.700}, 03: {by: Cy, mhz: 494.300}}\n"
        "venues:\n  v1: {venue: Pier, section: racks, record: H1, field: FIELD, value: VALUE}\n"
        "  v2: {venue: Pier, section: racks, record: H1, field: analogue 1, value: FOH 5}\n"
    )
    own = text.replace("FIELD", "channels").replace("VALUE", "'03'")
    home = reading_of(own, tmp_path)
    (tmp_path / "own.yaml").write_text(own, encoding="utf-8")
    pier = read_show(tmp_path / "own.yaml", "own.yaml", venue="Pier")
    assert [*home.show.racks] == ["R1"] and [*pier.show.racks] == ["R1", "H1"]
    assert [str(slot) for slot in pier.show.channels["03"].slots] == ["H1.1"]
    wrong = reading_of(text.replace("FIELD", "window").replace("VALUE", "480-504"), tmp_path)
    assert [one.code for one in wrong.findings] == ["overlay-record-unknown"] * 2
