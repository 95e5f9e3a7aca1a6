"""A workbook or list of ours stays ours, whatever its user has done to its tables: columns added or moved, headings in their own
language, a title above."""

import csv
import io
import random
from typing import Any

import openpyxl
import pytest

from paperwork.editing.conversion import write_show
from paperwork.files import read_bytes
from paperwork.files.edit import edit_fields
from paperwork.files.xlsx.move import move_row
from paperwork.finding import Edit
from paperwork.intake.source import Source, read_source_bytes
from paperwork.schema import check_shape
from tests.intake.sheets import plain
from tests.shows_text import EXAMPLES

SHOW = read_bytes((EXAMPLES / "show.yaml").read_bytes(), "show.yaml")[0]
WORDS = {
    "id": ("Nr.", "Kanal", "canal"),
    "role": ("Rolle", "Rôle", "Personaje"),
    "by": ("Darsteller", "Interprète", "Intérprete"),
    "mhz": ("Frequenz", "Fréquence (MHz)", "Frecuencia"),
    "notes": ("Bemerkungen", "Remarques", "Notas"),
}
ADDED = ("Shoe size", "Geprüft von", "xyz")

Table = list[list[Any]]


def _spoil(rows: Table, seed: int) -> tuple[Table, set[str], set[str]]:
    """A table as its user leaves it; the fields whose headings they said otherwise, and the columns that they added."""
    chance = random.Random(seed)
    heads, *body = (list(row) for row in rows)
    said = {name for name in WORDS if name in heads and chance.random() < 0.4}
    heads = [chance.choice(WORDS[name]) if name in said else name for name in heads]
    added = {name for name in ADDED if chance.random() < 0.4}
    for name in sorted(added):
        at = chance.randint(1, len(heads))
        heads.insert(at, name)
        for number, row in enumerate(body):
            row.insert(at, f"{name[:1]} {number}")
    if "id" not in said and chance.random() < 0.6:  # a word for `id` is known as one in the first column
        order = chance.sample(range(len(heads)), len(heads))
        heads, body = [heads[at] for at in order], [[row[at] for at in order] for row in body]
    above: Table = [["Our list, week 3"], [], ["made by Ana"]][: chance.randint(0, 3)]
    return [*above, heads, *body], said, {" ".join(name.lower().split()) for name in added}


def _values(source: Source, added: set[str]) -> Any:
    sections = plain(source.raw)
    return {
        name: {
            id: {field: value for field, value in record.items() if field not in added}
            if isinstance(record, dict)
            else record
            for id, record in records.items()
        }
        for name, records in sections.items()
    }


def _read(data: bytes, name: str) -> Source:
    return read_source_bytes(data, name, lambda: ({}, ()))


def _spoil_list(seed: int) -> tuple[bytes, set[str]]:
    rows = list(csv.reader(io.StringIO(write_show(SHOW, ".csv")[0].decode("utf-8-sig"))))
    spoilt, _, added = _spoil(rows, seed)
    text = io.StringIO()
    csv.writer(text).writerows(spoilt)
    return text.getvalue().encode(), added


def _spoil_book(seed: int) -> tuple[bytes, set[str]]:
    book = openpyxl.load_workbook(io.BytesIO(write_show(SHOW, ".xlsx")[0]))
    added: set[str] = set()
    for sheet in book:
        if sheet.title in ("channels", "people", "others"):
            rows = [[cell.value for cell in row] for row in sheet]
            spoilt, _, more = _spoil(rows, seed + len(sheet.title))
            added |= more
            sheet.delete_rows(1, sheet.max_row)
            for row in spoilt:
                sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue(), added


@pytest.mark.parametrize("suffix", [".csv", ".xlsx"])
def test_a_table_of_ours_is_read_as_ours_whatever_was_done_to_its_columns(suffix: str) -> None:
    """Every value is where it was; each added column and each title is named, once, and nothing else is wrong."""
    spoil = _spoil_list if suffix == ".csv" else _spoil_book
    whole = _values(_read(write_show(SHOW, suffix)[0], f"show{suffix}"), set())
    for seed in range(60 if suffix == ".csv" else 12):
        data, added = spoil(seed)
        source = _read(data, f"show{suffix}")
        assert source.understanding is None, seed
        assert _values(source, added) == whole, seed
        assert source.raw is not None
        shape = check_shape(source.raw)
        assert {f.code for f in (*source.findings, *shape)} <= {"column-unread", "title-unread", "field-missing"}, seed
        unread = [finding for finding in shape if finding.code == "column-unread"]
        assert len({finding.place for finding in unread}) == len(unread)
        assert {name for name in added if any(name in finding.text for finding in unread)} == added, seed


def test_an_edit_of_a_workbook_finds_its_columns_again() -> None:
    for seed in range(6):
        data, added = _spoil_book(seed)
        edits = [Edit("channels", "05", "mhz", "512.500"), Edit("channels", "77", "role", "NEW")]
        again = _read(edit_fields(data, "xlsx", edits), "show.xlsx")
        before, after = _values(_read(data, "show.xlsx"), added), _values(again, added)
        before["channels"]["05"]["mhz"] = "512.500"
        before["channels"]["77"] = {"role": "NEW"}
        assert after == before, seed


def test_a_row_is_moved_below_a_title() -> None:
    for seed in range(6):
        data, added = _spoil_book(seed)
        moved = _values(_read(move_row(data, "show.xlsx", "channels", "05", "02"), "show.xlsx"), added)
        ids = list(_values(_read(data, "show.xlsx"), added)["channels"])
        ids.insert(ids.index("02"), ids.pop(ids.index("05")))
        assert list(moved["channels"]) == ids


def test_a_heading_that_is_near_to_a_field_is_said_once_with_its_edit() -> None:
    rows = [
        ["id", "rolle", "by", "mhz", "capsul"],
        ["01", "VERA", "Ana", "518.2", "tone 5"],
        ["02", "TOM", "Ben", "", ""],
    ]
    text = "\r\n".join(",".join(row) for row in rows).encode()
    source = _read(text, "list.csv")
    assert source.raw is not None and source.understanding is None
    (wrong,) = check_shape(source.raw)
    assert wrong.code == "field-unknown" and [str(edit) for edit in wrong.edits] == ["channels//capsul/=capsule"]


def test_a_stranger_who_writes_an_id_stays_a_stranger() -> None:
    for heads in (["ID", "Name", "Freq"], ["Nr", "Rolle", "Sender"], ["id", "singer", "frequency", "notes"]):
        text = "\n".join([",".join(heads), "1,Ana,518.200,x", "2,Ben,519.400,y"]).encode()
        assert _read(text, "list.csv").understanding is not None, heads
