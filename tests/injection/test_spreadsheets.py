"""Nothing that we write into a table is run by the program that opens it, and our own reader gets back what was put in."""

import csv
import io
import re
import zipfile

import openpyxl
import pytest
from click.testing import CliRunner

from paperwork.archive.tables import write_tables
from paperwork.commands.check import command as check
from paperwork.editing.conversion import write_show
from paperwork.files.csv.write import write_csv
from paperwork.files.read import read_bytes
from paperwork.files.xlsx.mark import mark_workbook
from paperwork.finding import find
from paperwork.model.facts import canonical_facts
from paperwork.place import Place
from paperwork.raw import Map, Text
from tests.injection.hostile import FORMULAS, MARKUP, read_hostile
from tests.intake.sheets import workbook

RUNS = re.compile(r"[=+@\r]|-(?!\Z)|\t(?![=+\-@\t\r])")
"""What starts a formula in one spreadsheet program or another (OWASP, "CSV Injection"); a tab in front keeps it a text."""

NOWHERE = Place("")


def records_of(*texts: str) -> Map:
    return Map(
        tuple(
            (Text(f"{number}", NOWHERE), Map(((Text("role", NOWHERE), Text(text, NOWHERE)),), NOWHERE))
            for number, text in enumerate(texts)
        ),
        NOWHERE,
    )


@pytest.mark.parametrize(
    "text", (*FORMULAS, "\r=1+1", "\n=1+1", "=1,+2", '"=1"', "-", "- x", "--", 'DDE("cmd";"/C calc";"1")')
)
def test_no_cell_of_a_list_starts_a_formula(text):
    data = write_csv(records_of(text, "a", f"x{text}"), ("role",))
    for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")):
        for cell in row:
            assert not RUNS.match(cell), cell
    for line in data.decode("utf-8-sig").split("\r\n"):  # a program that takes quotes for signs sees the same
        assert not re.match(r"[=+@]", line)


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_of_an_archives_tables_starts_a_formula(text, tmp_path):
    import json

    show = read_hostile(text, tmp_path).show
    for data in write_tables(json.loads(canonical_facts(show))).values():
        for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")):
            assert not any(RUNS.match(cell) for cell in row), row


def cells_of(data: bytes) -> list[tuple[str, str]]:
    """Type and text of every cell of every sheet, from the XML itself."""
    found = []
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/"):
                text = archive.read(name).decode()
                assert "<f>" not in text and "<f " not in text
                found += re.findall(r'<c [^>]*?(?:t="(\w+)")?[^>]*?(/?)>', text)
            assert not re.search(r"externalLink|vbaProject|oleObject|ddeLink|activeX", name)
            if name.endswith((".xml", ".rels")):
                assert b'TargetMode="External"' not in archive.read(name)
    return found


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_of_a_workbook_is_a_formula_and_it_reads_back(text):
    whole = Map(((Text("channels", NOWHERE), records_of(text.strip())),), NOWHERE)
    data, _ = write_show(whole, ".xlsx")
    cells_of(data)
    back, findings = read_bytes(data, "show.xlsx")
    assert not findings and back == whole


@pytest.mark.parametrize("text", (*FORMULAS[:6], *MARKUP[:3]))
def test_a_marked_copy_keeps_text_as_text_and_its_notes_are_only_notes(text):
    def as_text(book) -> None:
        for row in book["Mics"].iter_rows():
            for cell in row:
                cell.data_type = "s"

    data = workbook({"Mics": [["Ch", "Actor"], ["1", text], ["2", "b"]]}, as_text)
    finding = find("id-missing", Place("show.xlsx", 2, 2, "Mics"))
    marked, _ = mark_workbook(
        data, "show.xlsx", (finding, find("cell-error", Place("show.xlsx", 3, 2, "Mics"), value=text))
    )
    cells_of(marked)
    sheet = openpyxl.load_workbook(io.BytesIO(marked))["Mics"]
    assert sheet["B2"].value == text.strip("\t") or sheet["B2"].value == text
    assert sheet["B2"].data_type != "f" and text.strip() in sheet["B3"].comment.text


def test_a_workbook_that_names_another_place_is_only_read(tmp_path):
    """Links to other books, pictures and data from elsewhere are never followed; a declared document type is refused."""
    data = workbook(
        {"Mics": [["Ch", "Actor"], ["1", "Ann"]]},
        lambda book: setattr(book["Mics"]["B2"], "hyperlink", "file:///etc/passwd"),
    )
    (tmp_path / "list.xlsx").write_bytes(data)
    outcome = CliRunner().invoke(check, [str(tmp_path / "list.xlsx")], standalone_mode=False).return_value
    assert outcome.code in (0, 1)
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(buffer, "w") as new:
        for name in old.namelist():
            part = old.read(name)
            if name.endswith("sheet1.xml"):
                part = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]>' + part.partition(
                    b"?>"
                )[2].replace(b"Ann", b"&x;")
            new.writestr(name, part)
    (tmp_path / "list.xlsx").write_bytes(buffer.getvalue())
    outcome = CliRunner().invoke(check, [str(tmp_path / "list.xlsx")], standalone_mode=False).return_value
    assert outcome.code == 2 and "[file-unsafe]" in outcome.text + outcome.aside and "root:" not in outcome.text
