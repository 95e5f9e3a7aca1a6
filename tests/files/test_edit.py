"""Values put into a show file: the file says them, and every other byte is the one that was there."""

import difflib
import io
import re
import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files import read_bytes
from paperwork.files.edit import Add, Put, edit_file
from paperwork.files.refusal import Refused
from tests.shows_text import EXAMPLES

AFTER = ("pack", "capsule", "notes")


def put(record, value="486.200"):
    return Put("channels", record, "mhz", value, AFTER)


def edited(text: str, *puts: Put, adds=()) -> str:
    return edit_file(text.encode("utf-8"), "show.yaml", puts, adds).decode("utf-8")


@pytest.mark.parametrize(
    ("before", "after"),
    (
        ("channels:\n  1: {by: Ann, capsule: beige}\n", "channels:\n  1: {by: Ann, mhz: 486.200, capsule: beige}\n"),
        ("channels:\n  1: {by: Ann}  # the lead\n", "channels:\n  1: {mhz: 486.200, by: Ann}  # the lead\n"),
        (
            "channels:\n  1:\n    by: Ann\n    notes: |\n      two\n      lines\n",
            "channels:\n  1:\n    by: Ann\n    mhz: 486.200\n    notes: |\n      two\n      lines\n",
        ),
        (
            "channels:\r\n  1:\r\n    by: Ann\r\n    pack: 3\r\n",
            "channels:\r\n  1:\r\n    by: Ann\r\n    mhz: 486.200\r\n    pack: 3\r\n",
        ),
        ("channels: {1: {by: Ann,\n    pack: 3}}", "channels: {1: {by: Ann,\n    mhz: 486.200, pack: 3}}"),
        (
            "channels:\n  1: {by: Ann, mhz: , capsule: beige}\n",
            "channels:\n  1: {by: Ann, mhz: 486.200, capsule: beige}\n",
        ),
        ("channels:\n  1:\n    mhz:\n    by: Ann\n", "channels:\n  1:\n    mhz: 486.200\n    by: Ann\n"),
        ("channels:\n  1: {by: Ann, mhz: ~}\n", "channels:\n  1: {by: Ann, mhz: 486.200}\n"),
        ("channels:\n  1: {}\n", "channels:\n  1: {mhz: 486.200}\n"),
        ("channels:\n  1:\n  2: {by: Bo}\n", "channels:\n  1: {mhz: 486.200}\n  2: {by: Bo}\n"),
        (
            '{"channels": {"1": {"by": "Ann", "pack": "3"}}}',
            '{"channels": {"1": {"by": "Ann", "mhz": 486.200, "pack": "3"}}}',
        ),
        (
            "\ufeffchannels:\n  1: {by: Jörg ☂, pack: 3}\n",
            "\ufeffchannels:\n  1: {by: Jörg ☂, mhz: 486.200, pack: 3}\n",
        ),
    ),
)
def test_a_frequency_goes_where_it_belongs_and_nothing_else_moves(before, after):
    assert edited(before, put("1")) == after


def test_several_go_in_at_once_and_a_record_is_added_behind_the_last():
    text = "channels:\n  1: {by: Ann}\n  2: {by: Bo}  # second\n\n# people\npeople:\n  Ann: {}\n"
    add = Add("channels", "3", (("spare", "belt, wide"), ("mhz", "490.000")))
    assert edited(text, put("1"), put("2", "488.200"), adds=(add,)) == (
        "channels:\n  1: {mhz: 486.200, by: Ann}\n  2: {mhz: 488.200, by: Bo}  # second\n"
        '  3: {spare: "belt, wide", mhz: 490.000}\n\n# people\npeople:\n  Ann: {}\n'
    )


@pytest.mark.parametrize(
    "text",
    (
        "channels:\n  1:\n    by: Ann\n    notes: |\n      two\n      lines\nshow: {title: X}\n",
        "channels: {1: {by: Ann}}\n",
        "channels:\n  1: {by: Ann}",
        "channels:\n  1:\n    role: [A, B]\n",
    ),
)
def test_a_record_is_added_to_any_style_of_section(text):
    raw, findings = read_bytes(
        edited(text, adds=(Add("channels", "2", (("spare", "yes"), ("mhz", "490.000"))),)).encode(), "s.yaml"
    )
    assert not findings and [key.text for key, _ in raw.get("channels").items] == ["1", "2"]
    assert raw.get("channels").get("2").get("mhz").text == "490.000"


def test_what_cannot_be_added_to_is_refused():
    for text, wrong in (("channels: {1: {by: Ann}}", put("9")), ("others: {E: {kind: in-ear}}", put("1"))):
        with pytest.raises(Refused) as refused:
            edited(text, wrong)
        assert refused.value.finding.code == "edit-refused"


def test_utf_16_stays_utf_16():
    text = "\ufeffchannels:\n  1: {by: Ann, pack: 3}\n"
    for codec in ("utf-16-le", "utf-16-be"):
        assert edit_file(text.encode(codec), "s.yaml", (put("1"),)).decode(codec) == text.replace(
            "pack", "mhz: 486.200, pack"
        )


@settings(max_examples=20, deadline=None)
@given(st.sets(st.integers(1, 32), min_size=1), st.integers(470_000, 690_000))
def test_the_example_without_frequencies_gets_them_back_and_nothing_else_changes(numbers, khz):
    whole = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
    lines = whole.splitlines(keepends=True)
    for number in numbers:
        at = next(i for i, line in enumerate(lines) if line.startswith(f"  {number:02}: {{") and "mhz: " in line)
        head, _, tail = lines[at].partition("mhz: ")
        lines[at] = head + tail.split(", ", 1)[1]
    value = f"{khz / 1000:.3f}"
    found = edited("".join(lines), *(put(f"{number:02}", value) for number in numbers))
    changed = [line for line in difflib.ndiff(lines, found.splitlines(keepends=True)) if line.startswith("+")]
    assert len(changed) == len(numbers) and all(f"mhz: {value}, " in line for line in changed)


def workbook(fill) -> bytes:
    book = openpyxl.Workbook()
    fill(book.active)
    book.active.title = "channels"
    other = book.create_sheet("people")
    other.append(["id", "room"])
    other.append(["Ann", "=1+1"])
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


def rows(sheet):
    for row in (["id", "by", "mhz", "notes"], ["01", "Ann", None, "n"], ["02", "Bo", 490.5, None], ["03", "Cy"]):
        sheet.append(row)
    sheet["C2"].number_format = "0.000"


def parts_of(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_a_workbook_gets_its_cells_and_every_other_part_keeps_its_bytes():
    data = workbook(rows)
    done = edit_file(data, "show.xlsx", (put("01", "486.200"), put("03", "488.2125")))
    book = openpyxl.load_workbook(io.BytesIO(done))
    assert [cell.value for cell in book["channels"]["C"]] == ["mhz", 486.2, 490.5, 488.2125]
    assert book["channels"]["C2"].number_format == "0.000" and book["channels"]["D2"].value == "n"
    old, new = parts_of(data), parts_of(done)
    assert list(old) == list(new)
    assert [name for name in old if old[name] != new[name]] == ["xl/worksheets/sheet1.xml"]


def test_a_workbook_without_the_column_gets_it_and_a_new_row():
    data = workbook(lambda sheet: [sheet.append(row) for row in (["id", "by"], ["01", "Ann"], ["02", "Bo"])])
    done = edit_file(
        data, "show.xlsx", (put("02"),), (Add("channels", "S<1>", (("spare", "belt & co"), ("mhz", "490.000"))),)
    )
    book = openpyxl.load_workbook(io.BytesIO(done))
    assert [[cell.value for cell in row] for row in book["channels"]] == [
        ["id", "by", "mhz", "spare"],
        ["01", "Ann", None, None],
        ["02", "Bo", 486.2, None],
        ["S<1>", None, 490, "belt & co"],
    ]


def test_the_example_workbook_keeps_all_other_cells():
    book = openpyxl.load_workbook(EXAMPLES / "show.xlsx")
    headings = [cell.value for cell in book["channels"][1]]
    column = headings.index("mhz") + 1
    for number in (3, 7):
        book["channels"].cell(number, column).value = None
    target = io.BytesIO()
    book.save(target)
    done = edit_file(target.getvalue(), "show.xlsx", (put("02", "600.100"), put("06", "601.100")))
    before, after = (openpyxl.load_workbook(io.BytesIO(data)) for data in (target.getvalue(), done))
    for sheet in before:
        for row in sheet:
            for cell in row:
                new = after[sheet.title][cell.coordinate].value
                if (sheet.title, cell.coordinate[1:], cell.column) in (
                    ("channels", "3", column),
                    ("channels", "7", column),
                ):
                    assert new in (600.1, 601.1)
                elif cell.column != column or sheet.title != "channels":
                    assert new == cell.value


def test_stored_results_of_formulas_survive():
    data = workbook(rows)
    parts = parts_of(data)
    parts["xl/worksheets/sheet2.xml"] = (
        parts["xl/worksheets/sheet2.xml"]
        .replace(b"<v></v>", b"<v>2</v>")
        .replace(b"<v />", b"<v>2</v>")
        .replace(b"<v/>", b"<v>2</v>")
    )
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    done = edit_file(target.getvalue(), "show.xlsx", (put("01"),))
    assert openpyxl.load_workbook(io.BytesIO(done), data_only=True)["people"]["B2"].value == 2


def test_a_formula_in_the_cell_is_left_alone():
    def fill(sheet):
        rows(sheet)
        sheet["C2"] = '=""'

    with pytest.raises(Refused) as refused:
        edit_file(workbook(fill), "show.xlsx", (put("01"),))
    assert "C2 holds a formula" in refused.value.finding.text


def test_a_new_cell_stands_in_order_between_its_neighbours():
    """Cells of a row stand in the order of their columns (ECMA-376 part 1, 18.3.1.73); strict readers insist."""
    data = workbook(
        lambda sheet: [sheet.append(row) for row in (["id", "by", "mhz", "notes"], ["01", "Ann", None, "n"], ["02"])]
    )
    done = edit_file(data, "show.xlsx", (put("01"), put("02", "488.200")))
    cells = re.findall(rb'<c r="([A-Z]+)([0-9]+)"', parts_of(done)["xl/worksheets/sheet1.xml"])
    assert [b"".join(cell) for cell in cells if cell[1] != b"1"] == [b"A2", b"B2", b"C2", b"D2", b"A3", b"C3"]


def test_an_edit_that_would_change_anything_else_is_refused(monkeypatch):
    from paperwork.files.yaml import edit as yaml_edit

    monkeypatch.setattr(
        yaml_edit, "edit_yaml", lambda text, *rest: text.replace("Ann", "Anna").replace("pack", "mhz: 486.200, pack")
    )
    with pytest.raises(Refused) as refused:
        edited("channels: {1: {by: Ann, pack: 3}}", put("1"))
    assert "cannot be added to safely" in refused.value.finding.text
