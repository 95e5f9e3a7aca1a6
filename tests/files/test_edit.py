"""Values put into a show file: the file says them, and every other byte is the one that was there."""

import difflib
import io
import re
import zipfile

import openpyxl
import pytest
import python_calamine
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files import read_bytes
from paperwork.files.edit import edit_fields
from paperwork.files.refusal import Refused
from paperwork.finding import Edit
from paperwork.model.fields import SINGLES
from tests.few import few_examples
from tests.files.workbooks import parts_of
from tests.shows_text import EXAMPLES


def rename(section: str, record: str, field: str, name: str) -> Edit:
    return Edit(section, record, field, name, renames=bool(field))


def put(record, value="486.200"):
    return Edit("channels", record, "mhz", value)


def add(record, *fields):
    """A new record at the end of the channels."""
    return [Edit("channels", record, field, value) for field, value in fields]


def edited(text: str, *edits: Edit) -> str:
    return edit_fields(text.encode("utf-8"), "yaml", edits, "show.yaml").decode("utf-8")


@pytest.mark.parametrize(
    ("before", "after"),
    (
        ("channels:\n  1: {by: Ann, capsule: beige}\n", "channels:\n  1: {by: Ann, mhz: 486.200, capsule: beige}\n"),
        ("channels:\n  1: {by: Ann}  # the lead\n", "channels:\n  1: {by: Ann, mhz: 486.200}  # the lead\n"),
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
    new = add("3", ("spare", "belt, wide"), ("mhz", "490.000"))
    assert edited(text, put("1"), put("2", "488.200"), *new) == (
        "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 488.200}  # second\n"
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
    raw, findings = read_bytes(edited(text, *add("2", ("spare", "yes"), ("mhz", "490.000"))).encode(), "s.yaml")
    assert not findings and [key.text for key, _ in raw.get("channels").items] == ["1", "2"]
    assert raw.get("channels").get("2").get("mhz").text == "490.000"


@pytest.mark.parametrize(
    "before, edit, after",
    (
        ("channels: {1: {by: Ann}}\n", put("9"), "channels: {1: {by: Ann}, 9: {mhz: 486.200}}\n"),
        ("channels:\nshow: {title: X}\n", put("9"), "channels:\n  9: {mhz: 486.200}\nshow: {title: X}\n"),
        ("channels: {}  # none\n", put("9"), "channels: {9: {mhz: 486.200}}  # none\n"),
        ("show: {title: X}  # a\n# b\n", put("9"), "show: {title: X}  # a\n\nchannels:\n  9: {mhz: 486.200}\n# b\n"),
        ("show:\n  title: X", Edit("show", "", "venue", "Pier 1"), "show:\n  title: X\n  venue: Pier 1"),
        ("channels: {1: {}}\n", Edit("show", "", "title", "X: Y"), 'channels: {1: {}}\n\nshow:\n  title: "X: Y"\n'),
        ('{"show": {"title": "X"}}', Edit("show", "", "title", "Y"), '{"show": {"title": "Y"}}'),
        ('{"show": {"title": "X"}}', put("1"), '{"show": {"title": "X"}, "channels": {"1": {"mhz": 486.200}}}'),
        ('{"show": {"title": "X"}}', Edit("show", "", "venue", "Pier"), '{"show": {"title": "X", "venue": "Pier"}}'),
        ("channels:\n  1: {by: 'Ann'}\n", Edit("channels", "1", "by", "O'Hara"), "channels:\n  1: {by: 'O''Hara'}\n"),
        ("channels:\n  1: {by: Ann}\n", Edit("channels", "1", "by", "a, b"), 'channels:\n  1: {by: "a, b"}\n'),
        ("day: {half: 19:00}\n", Edit("day", "", "half", "19:05"), "day: {half: 19:05}\n"),
        (
            "channels:\n  1:\n    notes: |  # long\n        one\n        two\n\n  2: {}\n",
            Edit("channels", "1", "notes", "three\nfour"),
            "channels:\n  1:\n    notes: |  # long\n        three\n        four\n\n  2: {}\n",
        ),
        (
            "channels:\n  1:\n    role:\n    - A\n    - B\n    by: Ann\n",
            Edit("channels", "1", "role", "C"),
            "channels:\n  1:\n    role: C\n    by: Ann\n",
        ),
        (
            "channels:\n  1: {by: [A, B], mhz: 5}\n",
            Edit("channels", "1", "by", "C"),
            "channels:\n  1: {by: C, mhz: 5}\n",
        ),
    ),
)
def test_what_is_missing_around_a_value_is_added_and_its_style_is_kept(before, edit, after):
    assert edited(before, edit) == after


@pytest.mark.parametrize(
    "before, field, after",
    (
        ("channels:\n  1: {by: Ann, mhz: 5, pack: 3}\n", "mhz", "channels:\n  1: {by: Ann, pack: 3}\n"),
        ("channels:\n  1: {by: Ann, mhz: 5}\n", "mhz", "channels:\n  1: {by: Ann}\n"),
        ("channels:\n  1: {mhz: 5,}\n", "mhz", "channels:\n  1: {}\n"),
        ("channels: {1: {by: Ann, # who\n  mhz: 5}}\n", "mhz", "channels: {1: {by: Ann, # who\n  }}\n"),
        ("channels: {1: {mhz: 5, # MHz\n  by: Ann}}\n", "mhz", "channels: {1: { # MHz\n  by: Ann}}\n"),
        (
            "channels:\n  1:\n    by: Ann  # who\n    mhz: 5  # MHz\n  2: {}\n",
            "mhz",
            "channels:\n  1:\n    by: Ann  # who\n  2: {}\n",
        ),
        ("channels:\n  1:  # lead\n    # his\n    mhz: 5\n", "mhz", "channels:\n  1: {}  # lead\n    # his\n"),
        ("channels:\n  1:\n    mhz: |\n      5\n\n    by: Ann", "mhz", "channels:\n  1:\n\n    by: Ann"),
    ),
)
def test_a_field_goes_with_its_line_or_its_comma_and_with_no_comment_of_others(before, field, after):
    assert edited(before, Edit("channels", "1", field, "")) == after


@pytest.mark.parametrize(
    "before, edit, after",
    (
        ("chanels: {1: {}}  # all\n", rename("chanels", "", "", "channels"), "channels: {1: {}}  # all\n"),
        ("channels:\n  1: {by: A}\n", rename("channels", "1", "", "01"), "channels:\n  01: {by: A}\n"),
        (
            "channels:\n  1: {bye: A}\n  2: {bye: B}\n",
            rename("channels", "2", "bye", "by"),
            "channels:\n  1: {bye: A}\n  2: {by: B}\n",
        ),
        (
            "channels:\n  1: {bye: A}\n  2: {'bye': B}\n",
            rename("channels", "", "bye", "by"),
            "channels:\n  1: {by: A}\n  2: {'by': B}\n",
        ),
        ("show: {titel: A}\n", rename("show", "", "titel", "title"), "show: {title: A}\n"),
        ("shwo: {title: A, venue: }\n", rename("shwo", "", "", "show"), "show: {title: A, venue: }\n"),
        ('{"people": {"Ann": {}}}', rename("people", "Ann", "", "Ann: B"), '{"people": {"Ann: B": {}}}'),
    ),
)
def test_a_name_is_changed_where_it_is_written(before, edit, after):
    assert edited(before, edit) == after


@pytest.mark.parametrize(
    "text, edit, words, line",
    (
        (
            "channels:\n  1: {by: Ann}\n",
            Edit("channels", "1", "mhz", ""),
            "channels 1 mhz has no value that could be removed",
            2,
        ),
        ("channels:\n  1: {by: Ann}\n", rename("channels", "2", "", "3"), "there is no channels 2", 1),
        ("channels:\n  1: {}\n  2: {}\n", rename("channels", "2", "", "1"), "1 is there already, beside 2", 3),
        ("channels:\n  1: {by: A}\n", rename("channels", "1", "by", ""), "channels 1 by needs a name", 2),
        ("channels:\n  1: Ann\n", put("1"), "channels 1 is not a record with fields", 2),
        ("channels: [a]\n", put("1"), "channels is not a record with fields", 1),
        (
            "show: {title: X}\n",
            Edit("show", "1", "title", "Y"),
            "the section show describes one thing, without records",
            1,
        ),
        (
            "channels: {1: {}}\n",
            Edit("channels", "", "mhz", "5"),
            "the section channels holds records, and none is named",
            1,
        ),
        ("channels:\n  1: &a {by: Ann}\n  2: *a\n", put("1"), "what is written once for many cannot be changed", 2),
        (
            "channels:\n  1: {by: Ann}\n",
            Edit("channels", "1", "by", "A\x07"),
            "signs that cannot be printed (U+0007)",
            0,
        ),
        ("channels:\n  1: {by: Ann}\n", Edit("channels", "1", "by", "x" * 4_001), "longer than 4,000 characters", 0),
        ("channels:\n\t1: {}\n", put("1"), "it cannot be read", 2),
        ("a: {1: {}}\n---\nb: {}\n", Edit("a", "1", "x", "y"), "it is not one plain document of YAML", 0),
        (
            "channels:\n  1:\n    role: # who\n    - A\n",
            Edit("channels", "1", "role", "B, C"),
            "a comment is between",
            4,
        ),
        ("channels:\n  1: {by: Ann, by: Bo}\n", Edit("channels", "1", "by", ""), "cannot be changed safely", 2),
    ),
)
def test_what_cannot_be_edited_is_refused_in_plain_words_at_its_line(text, edit, words, line):
    with pytest.raises(Refused) as refused:
        edited(text, edit)
    finding = refused.value.finding
    assert finding.code == "edit-refused" and words in finding.text and finding.place.line == line


@pytest.mark.parametrize(
    "before, edit, after",
    (
        (
            "channels:\n  1: {by: A}\n  2:  # gone\n    by: B\nshow: {title: X}\n",
            Edit("channels", "2", "", ""),
            "channels:\n  1: {by: A}\nshow: {title: X}\n",
        ),
        ("channels:\n  1: {by: A}  # one\n", Edit("channels", "1", "", ""), "channels: {}\n"),
        ("channels: {1: {by: A}, 2: {by: B}}\n", Edit("channels", "2", "", ""), "channels: {1: {by: A}}\n"),
        ("looks: {a: {}}\n# kept\nshow: {title: X}\n", Edit("looks", "", "", ""), "# kept\nshow: {title: X}\n"),
    ),
)
def test_a_record_or_a_section_goes_with_all_that_it_holds(before, edit, after):
    assert edited(before, edit) == after


@pytest.mark.parametrize(
    ("before", "value", "after"),
    (
        ("live:\n      - A   # first\n      - B\n", "A, C", "live:\n      - A   # first\n      - C\n"),
        ("live: [A, 'B']\n", "C, D", "live: [C, 'D']\n"),
        ("live: {A: Ann, # one\n      B: Bo}\n", "A: Ann, C: Cy", "live: {A: Ann, # one\n      C: Cy}\n"),
        ("live: [A, B]\n", "A, B", "live: [A, B]\n"),
        ("live: [A, B]\n", "A", "live: A\n"),
        ("live: [A, [B]]\n", "A, C", "live: A, C\n"),
        ('live: ["A, B", C]\n', "A, B, D", "live: A, B, D\n"),
        ("live: {A: Ann, B: Bo}\n", "A, C", "live: A, C\n"),
    ),
)
def test_a_list_that_gets_as_many_names_stays_one_with_its_comments(before, value, after):
    lead = "scenes:\n  s1:\n    "
    assert edited(lead + before, Edit("scenes", "s1", "live", value)) == lead + after


def test_the_only_section_of_a_file_does_not_go():
    with pytest.raises(Refused, match="the only section"):
        edited("channels: {1: {}}\n", Edit("channels", "", "", ""))


def test_one_edit_that_cannot_be_made_leaves_none_made():
    with pytest.raises(Refused):
        edited("channels:\n  1: {by: Ann}\n", put("1"), rename("channels", "9", "", "8"))


def test_edits_are_made_in_their_order():
    text = "channels:\n  1: {by: Ann}\n"
    edits = (
        put("2"),
        rename("channels", "2", "", "3"),
        Edit("channels", "3", "by", "Bo"),
        Edit("channels", "3", "mhz", ""),
    )
    assert edited(text, *edits) == "channels:\n  1: {by: Ann}\n  3: {by: Bo}\n"


def test_utf_16_stays_utf_16():
    text = "\ufeffchannels:\n  1: {by: Ann, pack: 3}\n"
    for codec in ("utf-16-le", "utf-16-be"):
        assert edit_fields(text.encode(codec), "yaml", (put("1"),), "s.yaml").decode(codec) == text.replace(
            "pack", "mhz: 486.200, pack"
        )


@settings(max_examples=few_examples(20), deadline=None)
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


def test_a_workbook_gets_its_cells_and_every_other_part_keeps_its_bytes():
    data = workbook(rows)
    done = edit_fields(data, "xlsx", (put("01", "486.200"), put("03", "488.2125")))
    book = openpyxl.load_workbook(io.BytesIO(done))
    assert [cell.value for cell in book["channels"]["C"]] == ["mhz", 486.2, 490.5, 488.2125]
    assert book["channels"]["C2"].number_format == "0.000" and book["channels"]["D2"].value == "n"
    old, new = parts_of(data), parts_of(done)
    assert list(old) == list(new)
    assert [name for name in old if old[name] != new[name]] == ["xl/worksheets/sheet1.xml"]


def test_a_workbook_without_the_column_gets_it_and_a_new_row():
    data = workbook(lambda sheet: [sheet.append(row) for row in (["id", "by"], ["01", "Ann"], ["02", "Bo"])])
    done = edit_fields(data, "xlsx", (put("02"), *add("S<1>", ("spare", "belt & co"), ("mhz", "490.000"))))
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
    done = edit_fields(target.getvalue(), "xlsx", (put("02", "600.100"), put("06", "601.100")))
    before, after = (openpyxl.load_workbook(io.BytesIO(data)) for data in (target.getvalue(), done))
    for sheet in before:
        for row in sheet:
            for cell in row:
                new = after[sheet.title][cell.coordinate].value
                if (sheet.title, cell.coordinate[1:], cell.column) in (
                    ("channels", "3", column),
                    ("channels", "7", column),
                ):
                    assert new in ("600.100", "601.100")
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
    done = edit_fields(target.getvalue(), "xlsx", (put("01"),))
    assert openpyxl.load_workbook(io.BytesIO(done), data_only=True)["people"]["B2"].value == 2


def test_a_formula_in_the_cell_is_left_alone():
    def fill(sheet):
        rows(sheet)
        sheet["C2"] = '=""'

    with pytest.raises(Refused) as refused:
        edit_fields(workbook(fill), "xlsx", (put("01"),))
    assert "C2 holds a formula" in refused.value.finding.text


def test_a_new_cell_stands_in_order_between_its_neighbours():
    """Cells of a row stand in the order of their columns (ECMA-376 part 1, 18.3.1.73); strict readers insist."""
    data = workbook(
        lambda sheet: [sheet.append(row) for row in (["id", "by", "mhz", "notes"], ["01", "Ann", None, "n"], ["02"])]
    )
    done = edit_fields(data, "xlsx", (put("01"), put("02", "488.200")))
    cells = re.findall(rb'<c r="([A-Z]+)([0-9]+)"', parts_of(done)["xl/worksheets/sheet1.xml"])
    assert [b"".join(cell) for cell in cells if cell[1] != b"1"] == [b"A2", b"B2", b"C2", b"D2", b"A3", b"C3"]


def test_an_edit_that_would_change_anything_else_is_refused(monkeypatch):
    from paperwork.files.yaml import edit as yaml_edit

    monkeypatch.setattr(
        yaml_edit, "edit_yaml", lambda text, *rest: text.replace("Ann", "Anna").replace("pack", "mhz: 486.200, pack")
    )
    with pytest.raises(Refused) as refused:
        edited("channels: {1: {by: Ann, pack: 3}}", put("1"))
    assert "cannot be changed safely" in refused.value.finding.text


def text_rows(sheet):
    """Rows of text cells, as our own workbooks have them."""
    for row in (["id", "by", "mhz"], ["01", "Ann", "518.200"], ["02", "Bo", None]):
        sheet.append(row)


def cells_of(data: bytes, title: str = "channels") -> list[list[object]]:
    """The rows of a sheet, as an independent reader has them."""
    return python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data)).get_sheet_by_name(title).to_python()


def test_a_value_among_texts_is_a_text():
    done = edit_fields(workbook(text_rows), "xlsx", (put("02", "486.200"), put("01", "08")))
    assert [row[2] for row in cells_of(done)] == ["mhz", "08", "486.200"]


def test_a_date_format_does_not_turn_a_frequency_into_a_date():
    def fill(sheet):
        rows(sheet)
        sheet["C2"].number_format = "dd.mm.yyyy"

    assert cells_of(edit_fields(workbook(fill), "xlsx", (put("01"),)))[1][2] == "486.200"


def test_a_section_that_is_not_there_becomes_a_sheet():
    data = workbook(text_rows)
    done = edit_fields(data, "xlsx", (Edit("show", "", "title", "A & B"), Edit("roles", "VERA", "by", "Ann")), "s.xlsx")
    assert cells_of(done, "show") == [["field", "value"], ["title", "A & B"]]
    assert cells_of(done, "roles") == [["id", "by"], ["VERA", "Ann"]]
    assert openpyxl.load_workbook(io.BytesIO(done)).sheetnames == ["channels", "people", "show", "roles"]
    old, new = parts_of(data), parts_of(done)
    differ = {name for name in old if old[name] != new[name]}
    assert differ == {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"}


def test_a_blank_sheet_gets_the_headings_that_it_needs():
    def fill(sheet):
        text_rows(sheet)
        sheet.parent.create_sheet("roles")

    done = edit_fields(workbook(fill), "xlsx", (Edit("roles", "VERA", "by", "Ann"),))
    assert cells_of(done, "roles") == [["id", "by"], ["VERA", "Ann"]]


def test_a_value_goes_and_its_cell_keeps_its_format():
    done = edit_fields(workbook(rows), "xlsx", (Edit("channels", "02", "mhz", ""), Edit("channels", "01", "notes", "")))
    sheet = openpyxl.load_workbook(io.BytesIO(done))["channels"]
    assert [cell.value for cell in sheet["C"]] == ["mhz", None, None, None] and sheet["D2"].value is None
    assert sheet["C2"].number_format == "0.000"


def test_a_heading_an_id_and_a_sheet_get_another_name():
    def fill(sheet):
        text_rows(sheet)
        sheet["B1"] = "bye"

    edits = (
        rename("channels", "", "bye", "by"),
        rename("channels", "02", "", "S2"),
        rename("channels", "", "", "chanels"),
        Edit("chanels", "S2", "by", "Cy"),
    )
    done = edit_fields(workbook(fill), "xlsx", edits)
    assert cells_of(done, "chanels") == [["id", "by", "mhz"], ["01", "Ann", "518.200"], ["S2", "Cy", ""]]


def test_a_record_of_a_workbook_goes_and_its_row_stays_blank():
    done = edit_fields(workbook(rows), "xlsx", (Edit("channels", "02", "", ""),))
    assert [row[0] for row in cells_of(done)] == ["id", "01", "", "03"]
    assert openpyxl.load_workbook(io.BytesIO(done))["channels"]["C2"].number_format == "0.000"


def lead_elsewhere(sheet):
    text_rows(sheet)
    sheet.parent.create_sheet("looks").append(["id", "=channels!A2"])


def hide_row(sheet):
    text_rows(sheet)
    sheet.row_dimensions[3].hidden = True


def hide_column(sheet):
    text_rows(sheet)
    sheet.column_dimensions["C"].hidden = True


def hide_sheet(sheet):
    text_rows(sheet)
    sheet.parent.create_sheet("looks").sheet_state = "hidden"


def no_heading(sheet):
    sheet.append(["no.", "by"])
    sheet.append(["01", "Ann"])


@pytest.mark.parametrize(
    "fill, edit, words, cell",
    (
        (
            lead_elsewhere,
            rename("channels", "", "", "mics"),
            "other cells lead to the sheet channels by its name",
            "A1",
        ),
        (hide_row, put("02"), "02 is there already, but hidden, at A3", "A3"),
        (hide_column, put("01"), "mhz is there already, but hidden, at C1", "C1"),
        (hide_sheet, Edit("looks", "a", "by", "Ann"), "the sheet looks is hidden", ""),
        (text_rows, Edit("lists", "a", "by", "Ann"), "no sheet can be called lists", ""),
        (text_rows, Edit("a/b", "a", "by", "Ann"), "no sheet can be called a/b", ""),
        (text_rows, Edit("channels", "01", "MHz", "5"), "no column can have the heading MHz", "A1"),
        (text_rows, rename("channels", "01", "by", "role"), "the heading by is that of other records too", "B1"),
        (no_heading, put("01"), "no row of the sheet channels holds its headings", "A1"),
    ),
)
def test_what_cannot_be_edited_in_a_workbook_is_refused_at_its_cell(fill, edit, words, cell):
    with pytest.raises(Refused) as refused:
        edit_fields(workbook(fill), "xlsx", (edit,), "show.xlsx")
    finding = refused.value.finding
    assert finding.code == "edit-refused" and words in finding.text and finding.place.cell == cell


def test_a_list_of_somebody_else_is_not_edited():
    def fill(sheet):
        sheet.append(["Mic", "Actor"])
        sheet.append(["1", "Ann"])

    book = openpyxl.Workbook()
    fill(book.active)
    target = io.BytesIO()
    book.save(target)
    with pytest.raises(Refused, match="not a show file of ours"):
        edit_fields(target.getvalue(), "xlsx", (put("1"),))
    with pytest.raises(Refused, match="not a show file of ours"):
        edit_fields(b"id,mhz\n1,518.2\n", "csv", (put("1"),))


@pytest.mark.parametrize("name", SINGLES)
@pytest.mark.parametrize("value", ["500-502}", "[a, b]", "{}", "{a: 1}", "|\n  lines"])
def test_a_section_is_renamed_whatever_is_in_it(name, value):
    """A name with a slip may be over a text or a list, which is another finding."""
    old = f"{name}:x: {value}\nchannels: {{1: {{mhz: 486.2}}}}\n"
    renamed = Edit(f"{name}:x", "", "", name, renames=True)
    assert edited(old, renamed) == old.replace(f"{name}:x:", f"{name}:", 1)
