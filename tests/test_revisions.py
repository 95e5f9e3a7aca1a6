"""Revisions as a show has them: only what changed is printed, and an archive gives back what it was made from."""

import json
import shutil
from pathlib import Path

import pypdfium2
import pytest

from paperwork.commands.archive import command as archive
from paperwork.commands.build import command as build
from paperwork.commands.changes import command as changes
from paperwork.commands.restore import command as restore
from paperwork.commands.verify import command as verify
from paperwork.document.facts import code
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.text.measuring import Metrics
from paperwork.revisions import Side, compare_revisions, gather_inputs, make_since, read_any
from paperwork.sheets.change_sheet import Revisions, make_sheets, mark_changed
from paperwork.terminal import Outcome
from tests.archive.samples import small_archive
from tests.archive.test_inputs import repack
from tests.archive.test_verify import files_of
from tests.render.proofs import check_layout, shown_everywhere
from tests.shows_text import EXAMPLES, reading_of

SHOW = """
show: {title: Glass Ferry, revision: B, revisions: [A], revised: 2027-03-01, reason: packs after the preview}
racks: {R1: {channels: 01-03, analogue 1: FOH 1-3}}
transmitters: {01: {serial: X-1}, 02: {serial: X-2}, 03: {serial: X-3}, S1: {serial: X-9}}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.700}
  03: {role: COOK, by: Sam Dunn, mhz: 492.900}
scenes:
  s1: {name: 1.1 Quay, live: VERA TOM}
  s2: {name: 1.2 Deck, live: COOK}
  s3: {name: 1.3 Galley, live: VERA COOK}
covers: {c1: {role: VERA, by: Iris Vale}}
"""

SMALL = """
show: {title: Glass Ferry, revision: B, revisions: [A], revised: 2027-03-01, reason: packs after the preview}
channels:
  01: {by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.700}
"""
"""Few papers, where it does not matter which."""

NEXT = ("revision: B, revisions: [A]", "revision: C, revisions: [A, B]")


def run(command, *arguments) -> Outcome:
    return command.main([str(one) for one in arguments], standalone_mode=False)


def side(text: str, folder: Path, name: str) -> Side:
    reading = reading_of(text, folder, f"{name}.yaml")
    assert reading.show is not None, reading.findings
    return Side(reading.show, reading.findings, name)


def compared(folder: Path, *edits: tuple[str, str]):
    text = SHOW
    for old, new in (NEXT, *edits):
        assert old in text
        text = text.replace(old, new)
    return compare_revisions(side(SHOW, folder, "old"), side(text, folder, "new"))


WORKED = {
    "a pack swapped": (
        (("mhz: 488.700}", "mhz: 488.700, pack: S1}"),),
        {"channel-chart", "programming-checklist", "fitting-call", "inventory"},
        {"02"},
    ),
    "a cover": ((("by: Iris Vale", "by: Sam Dunn"),), set(), set()),
    "a cut scene": (
        (("  s2: {name: 1.2 Deck, live: COOK}\n", ""),),
        {"who-is-live", "mic-plot", "fitting-call"},
        set(),
    ),
}
"""Three revisions, and by hand: papers that must be among those to print again, and exactly the labels."""

NEVER = {
    "a pack swapped": {"patch-sheet", "receiver-strips", "who-is-live", "incident-log", "mic-plot", "pouch-cards"},
    "a cover": {"channel-chart", "patch-sheet", "receiver-strips", "pack-labels", "who-is-live"},
    "a cut scene": {"patch-sheet", "receiver-strips", "pack-labels", "programming-checklist"},
}
"""And papers that such a revision leaves alone."""


@pytest.mark.parametrize("name", WORKED)
def test_a_revision_prints_just_the_labels_and_pages_that_it_makes_wrong(tmp_path, name):
    edits, wanted, labels = WORKED[name]
    found = compared(tmp_path, *edits)
    again = set(found.reprint.pages)
    assert wanted <= again and not NEVER[name] & again
    assert {label.number for label in found.reprint.labels.get("pack-labels", ())} == labels
    papers = make_since(found)
    printed = {Path(path).stem for path in papers.files if path.endswith(".pdf")}
    assert printed == {"change-list"} | again | set(found.reprint.labels)
    assert papers.missing == ()


def test_what_is_printed_again_and_what_stays_is_all_there_is(tmp_path):
    found = compared(tmp_path, ("486.200", "487.325"))
    whole = make_papers(found.new.show, found.new.findings)
    codes = {code for one in whole.printed if not one.labels and "book" not in one.path for code in one.codes}
    assert codes == {page.code for one in found.reprint.papers for page in (*one.printed, *one.valid)}


def test_another_revision_of_the_same_facts_keeps_every_sheet(tmp_path):
    found = compared(tmp_path)
    assert found.entries == () and found.reprint.pages == {} and found.reprint.labels == {}
    old = make_papers(found.old.show, ())
    stay = {page.code for one in found.reprint.papers for page in one.valid}
    assert stay <= {code for printed in old.printed for code in printed.codes}
    assert [path for path in make_since(found).files if path.endswith(".pdf")] == ["production/change-list.pdf"]


def test_labels_go_to_the_free_places_of_a_part_used_sheet(tmp_path):
    from paperwork.pipeline import LabelChoice

    found = compared(tmp_path, ("488.700", "489.325"))
    pdf = make_since(found, labels=LabelChoice(start=5, blocked=(7,))).files["wardrobe/pack-labels.pdf"]
    page = pypdfium2.PdfDocument(pdf)[0]
    text = page.get_textpage()
    hits = text.search("489.325")
    places = []
    while hit := hits.get_next():
        left, _, _, top = text.get_charbox(hit[0])
        across_mm, down_mm = left / 72 * 25.4, (page.get_height() - top) / 72 * 25.4
        places.append((int((across_mm - 7.2) / 66), int((down_mm - 15.15) / 38.1)))
    assert sorted(places) == [(1, 1), (2, 1)], "two copies, on the fifth and sixth of three by seven labels of 38.1 mm"


def test_only_the_cards_that_a_change_makes_wrong_are_printed(tmp_path):
    found = compared(tmp_path, ("role: COOK, by: Sam Dunn", "role: COOK, by: Ada Holm"))
    cards = found.reprint.labels["pouch-cards"]
    assert [(card.number, card.role) for card in cards] == [("03", "Ada Holm")]
    assert [(card.number, card.role) for card in found.reprint.bin_labels["pouch-cards"]] == [("03", "Sam Dunn")]
    page = pypdfium2.PdfDocument(make_since(found).files["wardrobe/pouch-cards.pdf"])[0].get_textpage().get_text_range()
    assert "Ada Holm" in page and "Mara Lind" not in page


def test_a_changed_row_has_a_bar_and_its_neighbours_have_none(tmp_path):
    from paperwork.sheets.rack import channel_chart

    found = compared(tmp_path, ("488.700", "489.325"))
    (old,), (new,) = (channel_chart.make_sheets(one.show) for one in (found.old, found.new))
    marked = mark_changed(new, old, "en")
    assert [row.mark for group in marked.blocks[0].groups for row in group.rows] == ["", "chg", ""]
    assert code(marked) == code(new)


@pytest.mark.parametrize("size", ("A4", "A3", "Letter", "Tabloid"))
def test_the_change_list_keeps_to_its_boxes(tmp_path, size):
    from dataclasses import replace

    found = compared(tmp_path, ("488.700", "489.325"), ("COOK", "BAKER"), ("by: Iris Vale", "by: Sam Dunn"))
    show = replace(found.new.show, production=replace(found.new.show.production, paper=size))
    (sheet,) = make_sheets(show, Revisions("B", found.entries, found.reprint))
    layout = lay_out(sheet, Metrics())
    check_layout(layout)
    shown_everywhere(sheet, layout)
    assert layout.findings == ()


def test_the_change_list_has_each_line_under_everybody_who_must_act(tmp_path):
    found = compared(tmp_path, ("488.700", "489.325"))
    (sheet,) = make_sheets(found.new.show, Revisions("B", found.entries, found.reprint))
    titles = {group.title: [row.cells[0][0].items[0].text for row in group.rows] for group in sheet.blocks[0].groups}
    assert titles == {
        "Set these packs": ["channel 02  TOM"],
        "New labels and cards: old ones off, new ones on": ["02  TOM"],
        "Let the frequency coordinator know": ["channel 02  TOM"],
    }


def test_each_paper_carries_the_long_form_of_its_code_in_its_metadata(tmp_path):
    papers = make_papers(side(SMALL, tmp_path, "small").show, ())
    for printed in papers.printed:
        told = pypdfium2.PdfDocument(papers.files[printed.path]).get_metadata_value("Keywords").split()
        assert told[:-1] == [code for code in printed.codes if code] and len(told[-1]) == 64


def test_the_book_has_another_code_once_any_fact_changes(tmp_path):
    books = [
        next(
            one.codes[0]
            for one in make_papers(side(text, tmp_path, "book").show, ()).printed
            if one.path.endswith("show-book.pdf")
        )
        for text in (SMALL, SMALL.replace("488.700", "489.325"))
    ]
    assert books[0] != books[1]


@pytest.fixture
def folder(tmp_path) -> Path:
    (tmp_path / "b.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "c.yaml").write_text(SMALL.replace(*NEXT).replace("488.700", "489.325"), encoding="utf-8")
    return tmp_path


def test_files_archives_and_workbooks_are_compared_in_any_mix(folder):
    from paperwork.commands.convert import command as convert

    assert run(archive, folder / "b.yaml", "-o", folder / "b.zip").code == 0
    run(convert, folder / "c.yaml", folder / "c.xlsx")
    texts = {
        run(changes, folder / old, folder / new).text for old in ("b.yaml", "b.zip") for new in ("c.yaml", "c.xlsx")
    }
    assert len(texts) == 1 and "channel 02  TOM, frequency: 488.700 MHz -> 489.325 MHz" in texts.pop()


def test_changes_as_json_say_who_acts_and_what_to_print(folder):
    told = json.loads(run(changes, folder / "b.yaml", folder / "c.yaml", "--format", "json").text)
    assert [(one["section"], one["id"], one["fact"], one["acts"]) for one in told["changes"]] == [
        ("channels", "02", "hz", ["pack", "coordinator"]),
        ("labels", "02", "", ["label"]),
    ]
    assert told["papers"]["print labels"] == {"pack-labels": ["02"]} and told["old"]["revision"] == "B"


def test_changes_on_paper_are_one_sheet(folder):
    outcome = run(changes, folder / "b.yaml", folder / "c.yaml", "-o", folder / "out")
    assert outcome.code == 0 and [path.name for path in (folder / "out").rglob("*.pdf")] == ["change-list.pdf"]


def test_the_list_on_paper_is_in_the_language_of_the_show(folder):
    for name in ("b.yaml", "c.yaml"):
        text = (folder / name).read_text(encoding="utf-8").replace("{title", "{language: de, title")
        (folder / name).write_text(text, encoding="utf-8")
    outcome = run(changes, folder / "b.yaml", folder / "c.yaml", "-o", folder / "out")
    page = pypdfium2.PdfDocument(folder / "out" / "production" / "change-list.pdf")[0].get_textpage().get_text_range()
    assert "frequency: 488.700" in outcome.text and "Frequenz" in page and "frequency" not in page


def test_a_frequency_that_is_not_certain_is_not_told_as_one(folder):
    text = (folder / "c.yaml").read_text(encoding="utf-8").replace("489.325", "488.7 / 489.3")
    (folder / "c.yaml").write_text(text, encoding="utf-8")
    outcome = run(changes, folder / "b.yaml", folder / "c.yaml")
    assert "frequency: 488.700 MHz -> –" in outcome.text and "c.yaml has 1 error" in outcome.aside


def test_build_since_prints_beside_the_papers_and_says_what_stays(folder):
    outcome = run(build, folder / "c.yaml", "--since", folder / "b.yaml", "--only", "pack-labels")
    made = sorted(path.name for path in (folder / "c-changes").rglob("*.pdf"))
    assert outcome.code == 0 and made == ["change-list.pdf", "pack-labels.pdf"]
    assert "still valid, of revision B: " in outcome.text and "1 of pack-labels" in outcome.text


def test_an_earlier_revision_that_cannot_be_read_prints_nothing(folder):
    outcome = run(build, folder / "c.yaml", "--since", folder / "none.yaml")
    assert outcome.code == 2 and "there is no file" in outcome.aside and not (folder / "c-changes").exists()


def test_an_archive_is_verified_restored_and_printed_again_with_the_same_bytes(folder):
    shutil.copy(EXAMPLES / "sweep.csv", folder / "sweep.csv")
    show = folder / "b.yaml"
    show.write_text(SMALL + "spectrum: {sweeps: sweep.csv}\n# a remark\n", encoding="utf-8")
    made = run(archive, show, "-o", folder / "b.zip")
    digest = made.text.split("sha256 ")[1].split()[0]
    assert run(verify, folder / "b.zip", "--expect", digest).code == 0
    assert run(restore, folder / "b.zip", "-o", folder / "back").code == 0
    for name in ("b.yaml", "sweep.csv"):
        assert (folder / "back" / name).read_bytes() == (folder / name).read_bytes()
    assert run(archive, folder / "back" / "b.yaml", "-o", folder / "again.zip").code == made.code
    assert (folder / "again.zip").read_bytes() == (folder / "b.zip").read_bytes()


def test_an_archive_is_never_replaced_by_another_and_may_be_made_again(folder):
    assert run(archive, folder / "b.yaml", "-o", folder / "x.zip").code == 0
    assert run(archive, folder / "b.yaml", "-o", folder / "x.zip").code == 0
    refused = run(archive, folder / "c.yaml", "-o", folder / "x.zip")
    assert refused.code == 2 and "never overwritten" in refused.aside


def test_the_default_name_carries_the_revision(folder):
    run(archive, folder / "b.yaml")
    run(archive, folder / "b.yaml", "--public")
    assert {path.name for path in folder.glob("*.zip")} == {"b-B.zip", "b-B-public.zip"}


def test_a_folder_of_archives_is_a_line_of_revisions(folder):
    run(archive, folder / "b.yaml")
    run(archive, folder / "c.yaml", "--after", folder / "b-B.zip")
    (folder / "other.zip").write_bytes(b"PK\x03\x04nothing of ours")
    lines = run(changes, folder).text.splitlines()
    assert lines[0] == "Glass Ferry" and [line.split()[0] for line in lines[1:]] == ["B", "revision", "C"]
    inside = json.loads((_files(folder / "c-C.zip"))["archive.json"])
    assert [one["revision"] for one in inside["history"]] == ["B"]


def _files(path: Path) -> dict[str, bytes]:
    import zipfile

    with zipfile.ZipFile(path) as held:
        return {name: held.read(name) for name in held.namelist()}


@pytest.mark.parametrize("arguments", (("b.yaml",), (".", "b.yaml")))
def test_a_slip_in_what_to_compare_is_one_plain_line(folder, arguments):
    outcome = run(changes, *(folder / one for one in arguments))
    assert outcome.code == 2 and outcome.aside.count("\n") == 1 and not outcome.text


def test_a_show_that_cannot_be_read_is_not_archived(folder):
    (folder / "bad.yaml").write_text("channels: {1: {buy: x}}\n", encoding="utf-8")
    outcome = run(archive, folder / "bad.yaml", "-o", folder / "bad.zip")
    assert outcome.code == 1 and "nothing was archived" in outcome.aside and not (folder / "bad.zip").exists()


def test_a_sweep_outside_of_the_folder_is_refused(folder):
    inside = folder / "show"
    inside.mkdir()
    shutil.copy(EXAMPLES / "sweep.csv", folder / "sweep.csv")
    (inside / "b.yaml").write_text(SMALL + "spectrum: {sweeps: ../sweep.csv}\n", encoding="utf-8")
    outcome = run(archive, inside / "b.yaml")
    assert outcome.code == 2 and "[archive-input-outside]" in outcome.aside


def test_the_answers_to_a_foreign_sheet_go_with_it(folder):
    (folder / "list.csv").write_text("Ch,Name,Freq\n1,Vera,486.200\n2,Tom,488.700\n", encoding="utf-8")
    (folder / "list.csv.answers.yaml").write_text("frequency: {}\n", encoding="utf-8")
    show = read_show(folder / "list.csv", "list.csv").show
    assert list(gather_inputs(folder / "list.csv", "list.csv", show)) == ["list.csv", "list.csv.answers.yaml"]


def test_an_archive_reads_as_the_show_that_it_was_made_from(folder):
    run(archive, folder / "b.yaml", "-o", folder / "b.zip")
    assert read_any(folder / "b.zip", "b.zip").show == read_show(folder / "b.yaml", "b.yaml").show


def test_a_book_is_compared_like_any_other(folder):
    from paperwork.render.boxes import Layout, Page
    from paperwork.render.pdf.painting import paint_pdf
    from paperwork.render.pdf.pdfa import Attachment

    held = Attachment("b.yaml", (folder / "b.yaml").read_bytes(), "application/yaml", "the show file")
    pdf = paint_pdf(
        Layout("Show book", "Glass Ferry", (Page(90_000, 90_000, ()),), ()), "2027-03-01", attachments=(held,)
    )
    (folder / "book.pdf").write_bytes(pdf)
    assert (
        run(changes, folder / "book.pdf", folder / "c.yaml").text
        == run(changes, folder / "b.yaml", folder / "c.yaml").text
    )
    assert run(restore, folder / "book.pdf", "-o", folder / "back").code == 0
    assert (folder / "back" / "b.yaml").read_bytes() == (folder / "b.yaml").read_bytes()


def test_an_archive_whose_files_bear_our_own_names_is_refused_by_whoever_opens_it(folder):
    """The names are good for a disk, and still no name for a file in an output folder."""
    data = repack({**files_of(small_archive()), "inputs/.paperwork-manifest.json": b"{}"})
    (folder / "a.zip").write_bytes(data)
    outcome = run(changes, folder / "b.yaml", folder / "a.zip")
    assert outcome.code == 2 and "[archive-unsafe]" in outcome.aside


@pytest.mark.parametrize("history", ("3", "[3]", "[[1, 2]]", '"x"', "null", '{"a": 1}'))
def test_a_history_that_is_none_is_left(folder, history):
    about = json.loads(files_of(small_archive())["archive.json"]) | {"history": json.loads(history)}
    (folder / "a.zip").write_bytes(repack({**files_of(small_archive()), "archive.json": json.dumps(about).encode()}))
    outcome = run(archive, folder / "b.yaml", "-o", folder / "n.zip", "--after", folder / "a.zip")
    assert outcome.code == 0, outcome


def test_a_comparison_finds_the_same_errors_and_searches_no_clean_frequency(tmp_path, monkeypatch):
    channels = "".join(f"  {n}: {{role: R{n}, mhz: {486 + n % 3 * 0.4:.3f}}}\n" for n in range(1, 9))
    path = tmp_path / "show.yaml"
    path.write_text(f"channels:\n{channels}", encoding="utf-8")
    whole = read_show(path, "show.yaml")
    assert any("nearest" in one.fix or "clean" in one.fix for one in whole.findings)

    def search(*_):
        raise AssertionError("nobody asked for a clean frequency")

    monkeypatch.setattr("paperwork.coordinate.nearest.find_nearest", search)
    compared = read_any(path, "show.yaml")
    assert [(one.code, one.place, one.subjects) for one in compared.findings] == [
        (one.code, one.place, one.subjects) for one in whole.findings
    ]
