"""Edits of random shows in random styles: what is read changes in the one thing, and what is written in its place alone."""

import copy
import io
import string
from random import Random

import openpyxl
import pytest
import python_calamine
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from openpyxl.styles import PatternFill

from paperwork.files import read_bytes
from paperwork.files.edit import edit_fields
from paperwork.files.read import read_kind
from paperwork.files.refusal import Refused
from paperwork.finding import Edit
from paperwork.raw import Map, Text
from tests.few import few_examples
from tests.files.workbooks import make_book, parts_of, plain
from tests.fuzz.packages import spoil_workbook
from tests.fuzz.texts import spoil_text

SINGLES, TABLES = ("show", "day"), ("channels", "people", "racks")
FIELDS = ("by", "mhz", "notes", "pack", "role")
NAMES = st.sampled_from(("1", "08", "10", "Ann", "Zoë Ō", "R1.3", "a b"))
VALUES = st.one_of(
    st.sampled_from(
        ("518.200", "08", "NO", "19:30", "a, b", "x: y", "# 3", "O'Hara", '5"', "-", "{", "☂ é", "~x", "null")
    ),
    st.text(string.ascii_letters + string.digits + " .,:#'\"-&*!%@{}[]|>?\\é☂\n", min_size=1, max_size=12),
).map(str.strip)
TEXTS = VALUES.filter(lambda text: text not in ("", "~"))
RECORDS = st.dictionaries(st.sampled_from(FIELDS), TEXTS, max_size=4)


def rename(section: str, record: str, field: str, name: str) -> Edit:
    return Edit(section, record, field, name, renames=bool(field))


@st.composite
def shows(draw) -> dict:
    found: dict = {}
    for section in draw(st.permutations((*SINGLES, *TABLES)))[: draw(st.integers(1, 4))]:
        filled = RECORDS.filter(bool) if section in SINGLES else st.dictionaries(NAMES, RECORDS, min_size=1, max_size=3)
        found[section] = draw(filled)
    return found


class Writer:
    """A show as somebody writes it by hand: each thing in a style of its own."""

    def __init__(self, draw) -> None:
        self.pick = lambda *given: draw(st.sampled_from(given))
        self.break_ = self.pick("\n", "\n", "\r\n")
        self.notes = 0

    def scalar(self, text: str, *, flow: bool, indent: int = 0) -> str:
        style = self.pick("plain", "plain", "single", "double", "literal")
        if style == "literal" and not flow and indent and not text.startswith(" "):
            return "|" + "".join(
                f"{self.break_}{' ' * indent}{line}" if line else self.break_ for line in text.split("\n")
            )
        if style == "plain" and text.replace(" ", "").replace(".", "").isalnum() and text != "null":
            return text
        if style == "single" and "\n" not in text:
            return "'" + text.replace("'", "''") + "'"
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'

    def note(self) -> str:
        self.notes += 1
        return self.pick("", "", f"  # note {self.notes}")

    def braces(self, fields: dict, inner) -> str:
        apart = self.pick(", ", ",  ", f",{self.break_}       ", f", # note{self.break_}       ")
        last = self.pick("", "", " ", ",") if fields else ""
        return "{" + apart.join(f"{self.scalar(k, flow=True)}: {inner(v)}" for k, v in fields.items()) + last + "}"

    def fields(self, fields: dict, indent: int) -> str:
        lines = []
        for key, value in fields.items():
            lines += self.pick((), (), (f"{' ' * indent}# a remark",), ("",))
            text = self.scalar(value, flow=False, indent=indent + 2)
            note = "" if text.startswith("|") else self.note()
            lines.append(f"{' ' * indent}{self.scalar(key, flow=True)}: {text}{note}")
        return self.break_.join(lines)

    def group(self, fields: dict, indent: int) -> str:
        """What comes behind a key and its colon."""
        if not fields:
            return self.pick(" {}", "", " ~")
        if self.pick(True, False):
            return f" {self.braces(fields, lambda text: self.scalar(text, flow=True))}{self.note()}"
        return f"{self.note()}{self.break_}{self.fields(fields, indent)}"

    def show(self, show: dict) -> str:
        if self.pick(True, False, False, False):
            write = lambda held: (  # noqa: E731
                self.scalar(held, flow=True) if isinstance(held, str) else self.braces(held, write)
            )
            return self.braces(show, write) + self.pick("", self.break_)
        lines = []
        for section, records in show.items():
            lines += self.pick((), ("# about",), ("",))
            if section in SINGLES or self.pick(True, False, False, False):
                if section in SINGLES:
                    lines.append(f"{section}:{self.group(records, 2)}")
                else:
                    inner = lambda held: self.braces(held, lambda text: self.scalar(text, flow=True))  # noqa: E731
                    lines.append(f"{section}: {self.braces(records, inner)}")
                continue
            lines.append(f"{section}:{self.note()}")
            lines += (f"  {self.scalar(id, flow=True)}:{self.group(held, 4)}" for id, held in records.items())
        return self.pick("", "\ufeff") + self.break_.join(lines) + self.pick("", self.break_)


@st.composite
def written(draw) -> tuple[dict, bytes]:
    show = draw(shows())
    text = Writer(draw).show(show)
    raw, findings = read_bytes(text.encode(), "show.yaml")
    assert raw is not None and said(raw) == show, (text, findings)
    return show, text.encode()


def said(raw: Map | None) -> dict:
    assert raw is not None
    return plain(raw)  # type: ignore[return-value]


def group_of(show: dict, section: str, record: str) -> dict:
    return show.get(section, {}).get(record, {}) if record else show.get(section, {})


@st.composite
def edits(draw, show: dict, values=TEXTS, names=NAMES) -> Edit:
    section = draw(st.sampled_from((*show, *SINGLES, *TABLES)))
    record = "" if section in SINGLES else draw(st.one_of(st.sampled_from((*show.get(section, {"1": {}}),)), names))
    held = group_of(show, section, record)
    kinds = ["set", "set", "remove"] if held else ["set"]
    free = [name for name in ("capsules", "looks") if name not in show]
    kinds += ["rename section"] if section in show and section in TABLES and free else []
    kinds += ["rename record"] if record in show.get(section, {}) else []
    unused = [name for name in ("room", "radio") if name not in held]
    kinds += ["rename field"] if held and unused else []
    kind = draw(st.sampled_from(kinds))
    if kind == "set":
        field = draw(st.sampled_from(FIELDS))
        return Edit(section, record, field, draw(values))
    if kind == "remove":
        return Edit(section, record, draw(st.sampled_from((*held,))), "")
    if kind == "rename section":
        return rename(section, "", "", draw(st.sampled_from(free)))
    if kind == "rename record":
        return rename(section, record, "", draw(names.filter(lambda name: name not in show[section])))
    field = draw(st.sampled_from((*held,)))
    return rename(section, record, field, draw(st.sampled_from(unused)))


def expect(show: dict, edit: Edit) -> dict:
    """The show with the edit, by the plainest of means."""
    wanted = copy.deepcopy(show)
    if edit.is_rename:
        old = edit.field or edit.record or edit.section
        parent = (
            group_of(wanted, edit.section, edit.record if edit.field else "") if edit.record or edit.field else wanted
        )
        items = [(edit.value if key == old else key, value) for key, value in parent.items()]
        parent.clear()
        parent.update(items)
    elif edit.value:
        section = wanted.setdefault(edit.section, {})
        (section.setdefault(edit.record, {}) if edit.record else section)[edit.field] = edit.value
    else:
        del group_of(wanted, edit.section, edit.record)[edit.field]
    return {section: held for section, held in wanted.items() if held}


def order(show: dict) -> list:
    """Every name in the order in which it is written."""
    return [(key, order(value) if isinstance(value, dict) else None) for key, value in show.items()]


def shared_ends(old: str, new: str) -> tuple[int, int]:
    """How many signs are the same from the start, and behind them from the end."""
    start = next((at for at, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new)))
    most = min(len(old), len(new)) - start
    return start, next((at for at in range(most) if old[-1 - at] != new[-1 - at]), most)


@settings(max_examples=few_examples(60), deadline=None)
@given(st.data())
def test_an_edit_of_yaml_changes_the_one_thing_and_no_sign_elsewhere(data):
    show, source = data.draw(written())
    edit = data.draw(edits(show))
    done = edit_fields(source, "yaml", (edit,), "show.yaml")
    raw, findings = read_bytes(done, "show.yaml")
    assert {k: v for k, v in said(raw).items() if v} == expect(show, edit) and not findings
    old, new = source.decode(), done.decode()
    start, end = shared_ends(old, new)
    before = group_of(show, edit.section, edit.record) if not edit.is_rename else {}
    if not edit.is_rename and edit.field not in before:
        braces = 2 if "~" in old else 0  # a `~` gives way to what is put in its place
        assert start + end >= len(old) - braces, "an addition takes nothing away"
    elif not edit.is_rename and edit.value:
        node, _ = read_bytes(source, "show.yaml")
        for key in filter(None, (edit.section, edit.record, edit.field)):
            node = node.get(key)
        assert isinstance(node, Text) and node.span
        assert (start >= node.span.start and len(old) - end <= node.span.end) or old == new
    elif edit.is_rename:
        assert order(said(raw)) == order(expect(show, edit))
        assert len(old) - start - end <= len(edit.field or edit.record or edit.section) + 2
    else:
        kept = [line for line in old.splitlines() if line.strip().startswith("#")]
        assert [line for line in new.splitlines() if line.strip().startswith("#")][
            : len(kept)
        ] == kept or "# note" in new
        assert len(new) - start - end <= len(" {}"), "a removal adds nothing"


@settings(max_examples=few_examples(100), deadline=None)
@given(st.data())
def test_the_old_value_set_back_gives_the_first_bytes(data):
    """Values that can be written in the quotes of the old one; a text that must be quoted takes quotes with it."""
    show, source = data.draw(written())
    places = [(s, r, f) for s in show for r in (("",) if s in SINGLES else show[s]) for f in group_of(show, s, r)]
    assume(places)
    section, record, field = data.draw(st.sampled_from(places))
    value = data.draw(st.sampled_from(("518.200", "VERA", "12", "Zoë")))
    there = edit_fields(source, "yaml", (Edit(section, record, field, value),), "show.yaml")
    old = group_of(show, section, record)[field]
    back = edit_fields(there, "yaml", (Edit(section, record, field, old),), "show.yaml")
    text = source.decode()
    needless = f'"{old}"' in text or f'": {old}' in text or "|" in text
    assert back == source or (needless and said(read_bytes(back, "show.yaml")[0]) == show)


@settings(max_examples=few_examples(60), deadline=None)
@given(st.data())
def test_many_edits_at_once_are_as_one_after_the_other(data):
    show, source = data.draw(written())
    given_edits, wanted = [], show
    for _ in range(data.draw(st.integers(2, 5))):
        edit = data.draw(edits(wanted))
        given_edits.append(edit)
        wanted = expect(wanted, edit)
        assume(wanted)
    at_once = edit_fields(source, "yaml", given_edits, "show.yaml")
    assert {k: v for k, v in said(read_bytes(at_once, "show.yaml")[0]).items() if v} == wanted
    single = source
    for edit in given_edits:
        single = edit_fields(single, "yaml", (edit,), "show.yaml")
    assert said(read_bytes(single, "show.yaml")[0]) == said(read_bytes(at_once, "show.yaml")[0])


CELLS = st.one_of(
    st.sampled_from(
        ("518.2", "08", "VERA", "a & <b>", "_x0041_", "=1+1", "-", "two\nlines", "Zoë", "12", "0.5", "100")
    ),
    st.text(string.ascii_letters + string.digits + " .,:&<>'\"é", min_size=1, max_size=8).map(str.strip).filter(bool),
)
CELL_RECORDS = st.dictionaries(st.sampled_from(FIELDS), CELLS, min_size=1, max_size=4)


@st.composite
def books(draw) -> tuple[dict, bytes]:
    """A show as a workbook with numbers, text cells, fills and blank formatted cells."""
    show: dict = {}
    book = openpyxl.Workbook()
    book.remove(book.active)
    for section in draw(st.permutations((*SINGLES, *TABLES)))[: draw(st.integers(1, 3))]:
        if section in SINGLES:
            show[section] = draw(CELL_RECORDS)
            rows = [["field", "value"]] * draw(st.integers(0, 1)) + [[k, v] for k, v in show[section].items()]
        else:
            show[section] = draw(st.dictionaries(NAMES, CELL_RECORDS, min_size=1, max_size=3))
            fields = list(dict.fromkeys(f for record in show[section].values() for f in record))
            rows = [["id", *fields], *([id, *(r.get(f, "") for f in fields)] for id, r in show[section].items())]
        sheet = book.create_sheet(section)
        for number, row in enumerate(rows, 1):
            for column, text in enumerate(row, 1):
                cell = sheet.cell(number, column)
                is_number = column > 1 and number > 1 and text in ("518.2", "12", "0.5", "100") and draw(st.booleans())
                if text:
                    cell.value = float(text) if is_number else text.replace("_x", "_x005F_x")
                    cell.data_type = "n" if is_number else "s"
                if draw(st.booleans()):
                    cell.number_format = draw(st.sampled_from(("@", "0.000", "0.000 MHz", "General")))
                if draw(st.integers(0, 4)) == 0:
                    cell.fill = PatternFill("solid", fgColor="FFFF00")
    target = io.BytesIO()
    book.save(target)
    raw, findings = read_bytes(target.getvalue(), "show.xlsx")
    assert said(raw) == show and not findings
    return show, target.getvalue()


def table_of(data: bytes) -> dict[tuple[str, int, int], object]:
    """Every cell as an independent reader has it."""
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    return {
        (name, row, column): value
        for name in book.sheet_names
        for row, values in enumerate(book.get_sheet_by_name(name).to_python(skip_empty_area=False))
        for column, value in enumerate(values)
        if value != ""
    }


def as_number(show: dict) -> dict:
    """Decimals without the zeros at their end, as a cell that holds numbers has them."""
    if isinstance(show, dict):
        return {key: as_number(value) for key, value in show.items()}
    if not isinstance(show, str):
        return show
    whole, point, tail = show.partition(".")
    return (whole + point + tail.rstrip("0")).rstrip(".") if whole.isdigit() and tail.isdigit() else show


@settings(max_examples=few_examples(100), deadline=None)
@given(st.data())
def test_an_edit_of_a_workbook_changes_its_cells_and_no_part_elsewhere(data):
    show, source = data.draw(books())
    edit = data.draw(edits(show, CELLS))
    if edit.is_rename and edit.field and edit.record:
        users = [id for id, record in show[edit.section].items() if edit.field in record]
        if len(users) > 1:
            with pytest.raises(Refused, match="that of other records too"):
                edit_fields(source, "xlsx", (edit,), "show.xlsx")
            return
    done = edit_fields(source, "xlsx", (edit,), "show.xlsx")
    raw, findings = read_bytes(done, "show.xlsx")
    wanted = expect(show, edit)
    assert as_number({k: v for k, v in said(raw).items() if v}) == as_number(wanted)
    assert [finding.code for finding in findings] == ([] if wanted else ["workbook-blank"])
    old, new = table_of(source), table_of(done)
    changed = {key for key in {*old, *new} if old.get(key) != new.get(key)}
    if edit.is_rename and not edit.record and not edit.field:
        assert {key[1:]: value for key, value in old.items()} == {key[1:]: value for key, value in new.items()} or len(
            show
        ) > 1
    else:
        assert len(changed) <= 5 and {key[0] for key in changed} <= {edit.section}
        assert len([key for key in changed if key in old]) <= 1
    before, after = parts_of(source), parts_of(done)
    differ = {name for name in after if before.get(name) != after[name]}
    assert len(differ) <= (1 if edit.section in show else 4) and set(before) <= set(after)


@settings(max_examples=few_examples(60), deadline=None)
@given(st.data())
def test_the_old_value_of_a_cell_set_back_gives_the_first_parts(data):
    show, source = data.draw(books())
    places = [(s, r, f) for s in show for r in (("",) if s in SINGLES else show[s]) for f in group_of(show, s, r)]
    section, record, field = data.draw(st.sampled_from(places))
    old = group_of(show, section, record)[field]
    there = edit_fields(source, "xlsx", (Edit(section, record, field, data.draw(CELLS)),), "show.xlsx")
    back = edit_fields(there, "xlsx", (Edit(section, record, field, old),), "show.xlsx")
    assert said(read_bytes(back, "show.xlsx")[0]) == show
    assert table_of(back).keys() == table_of(source).keys()
    same = edit_fields(source, "xlsx", (Edit(section, record, field, old),), "show.xlsx")
    assert parts_of(same) == parts_of(source)


@settings(max_examples=few_examples(150), deadline=None)
@given(st.integers(0, 1 << 32), st.booleans())
def test_a_spoiled_file_is_edited_or_refused_and_never_half(number, is_book):
    dice = Random(number)
    if is_book:
        kind, data = "xlsx", spoil_workbook(make_book(), dice)
    else:
        text = spoil_text("channels:\n  01: {role: VERA, mhz: 518.2}  # a\n  02: {}\n", dice)
        kind, data = "yaml", text.encode("utf-8", "surrogatepass")
    edit = dice.choice(
        (Edit("channels", "01", "mhz", "519.4"), Edit("show", "", "title", "X"), rename("channels", "", "", "looks"))
    )
    try:
        done = edit_fields(data, kind, (edit,), "show")
    except Refused as refused:
        assert refused.finding.code == "edit-refused"
        return
    before, after = (said(read_kind(one, "show", kind)[0]) for one in (data, done))
    assert {k: v for k, v in as_number(after).items() if v} == as_number(expect(before, edit))
