"""The table of bounds, walked: each lets through what is just within it, and has its finding for what is one beyond.

Most bounds are set to something small first; what is tried is the way that a user's file takes.
"""

import io
import zipfile
from pathlib import Path

import pytest

from paperwork import limits
from paperwork.archive import pick_inputs
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from tests.archive.samples import small_archive
from tests.archive.test_inputs import repack
from tests.archive.test_verify import files_of
from tests.limit_cases import CASES, ELSEWHERE, of_zip, packed, refused
from tests.shows_text import reading_of
from tests.tools.make_schema import make_schema

BOUNDS = {name: value for name, value in vars(limits).items() if name.isupper()}


def test_every_bound_is_tried():
    assert set(CASES).isdisjoint(ELSEWHERE) and {*CASES, *ELSEWHERE} == set(BOUNDS)
    assert all(callable(globals().get(test)) for test in ELSEWHERE.values())


def test_every_bound_says_what_it_bounds():
    """A docstring stands behind each, or behind the group that it stands in."""
    text = Path(limits.__file__).read_text(encoding="utf-8")
    for group in text.split('"""\n\n')[1:]:
        assert not group.strip() or '"""' in group, group
    assert text.rstrip().endswith('"""')


@pytest.mark.parametrize("name", CASES)
def test_what_is_just_within_goes_through_and_one_more_has_its_finding(name, monkeypatch, tmp_path):
    size, code, find_codes = CASES[name]
    monkeypatch.setattr(limits, name, size)
    assert code not in find_codes(size, tmp_path)
    assert code in find_codes(size + 1, tmp_path)


@pytest.mark.parametrize(
    "name", [name for name in CASES if name not in ("XML_TAG_BYTES", "RECORDS", "RECORD_BYTES", "SETTINGS_BYTES")]
)
def test_the_finding_says_the_bound_or_what_to_do(name, monkeypatch):
    from paperwork.codes import CODES

    _, code, _ = CASES[name]
    assert len(CODES[code].fix) > 10 and len(CODES[code].explains) > 20


def test_the_schema_bounds_sections_as_the_table_does():
    tables = [section for section in make_schema()["properties"].values() if "additionalProperties" in section]
    assert tables and {section["maxProperties"] for section in tables} == {limits.RECORDS}


def test_a_workbook_may_pack_well_but_not_without_end(monkeypatch):
    monkeypatch.setattr(limits, "ZIP_FREE_BYTES", 0)
    parts = {"a": bytes(100_000)}
    with zipfile.ZipFile(io.BytesIO(packed(parts, zipfile.ZIP_DEFLATED))) as archive:
        ratio = 100_000 // archive.infolist()[0].compress_size
    monkeypatch.setattr(limits, "ZIP_RATIO", ratio + 1)
    assert of_zip(parts, zipfile.ZIP_DEFLATED) == set()
    monkeypatch.setattr(limits, "ZIP_RATIO", ratio - 1)
    assert of_zip(parts, zipfile.ZIP_DEFLATED) == {"file-unsafe"}


def test_a_small_workbook_may_pack_as_well_as_it_likes(monkeypatch):
    monkeypatch.setattr(limits, "ZIP_RATIO", 1)
    monkeypatch.setattr(limits, "ZIP_FREE_BYTES", 10_000)
    assert of_zip({"a": bytes(10_000)}, zipfile.ZIP_DEFLATED) == set()
    assert of_zip({"a": bytes(10_001)}, zipfile.ZIP_DEFLATED) == {"file-unsafe"}


def test_a_file_that_is_wrong_all_over_gets_hints_for_what_stands_first(monkeypatch, tmp_path):
    text = "capsules: {beige: {}, brown: {}}\nchannels: {1: {capsule: beigr}, 2: {capsule: brwn}}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    for most, hinted in ((4, 2), (3, 1)):
        monkeypatch.setattr(limits, "COMPARISONS", most)
        fixes = [
            finding.fix
            for finding in read_show(tmp_path / "show.yaml", "show.yaml").findings
            if finding.code == "id-unknown"
        ]
        assert [("did you mean" in fix) for fix in fixes] == [True, True][:hinted] + [False] * (2 - hinted)


def test_words_of_a_books_length_get_no_hint(monkeypatch):
    from paperwork.text.names import nearest

    monkeypatch.setattr(limits, "NAME_LENGTH", 20)
    assert (
        nearest("b" * 20, ["b" * 19 + "c"])
        and nearest("x" + "b" * 19, ["b" * 20])
        and not nearest("b" * 21, ["b" * 20])
    )
    assert not nearest("b" * 20, ["b" * 21]) and nearest("B" * 21, ["b" * 21])


def test_a_folder_is_not_searched_without_end(monkeypatch, tmp_path):
    (tmp_path / "a.yaml").touch()
    (tmp_path / "show.yaml").touch()
    for most, hinted in ((2, True), (1, False)):
        monkeypatch.setattr(limits, "FOLDER_NAMES", most)
        fix = next(iter(read_show(tmp_path / "shw.yaml", "shw.yaml").findings)).fix
        assert ("did you mean show.yaml" in fix) == hinted


def test_an_archive_is_made_and_opened_up_to_one_size(monkeypatch, tmp_path):
    from click.testing import CliRunner

    from paperwork.commands.archive import command

    def make(name: str):
        arguments = [str(tmp_path / "show.yaml"), "-o", str(tmp_path / name)]
        return CliRunner().invoke(command, arguments, standalone_mode=False).return_value

    (tmp_path / "show.yaml").write_text("channels: {1: {by: Ann}}\n", encoding="utf-8")
    assert make("whole.zip").code == 0
    size = (tmp_path / "whole.zip").stat().st_size
    monkeypatch.setattr(limits, "ARCHIVE_BYTES", size - 1)
    outcome = make("large.zip")
    assert outcome.code == 2 and "[archive-large]" in outcome.aside and not (tmp_path / "large.zip").exists()
    data = repack({**files_of(small_archive()), "inputs/more": b"x" * 5_000})
    deflated = packed(files_of(data), zipfile.ZIP_DEFLATED)
    with zipfile.ZipFile(io.BytesIO(deflated)) as archive:
        total = sum(max(one.file_size, one.compress_size) for one in archive.infolist())
    monkeypatch.setattr(limits, "ARCHIVE_BYTES", total)
    assert refused(lambda: pick_inputs(deflated, "a.zip")) == set()
    monkeypatch.setattr(limits, "ARCHIVE_BYTES", total - 1)
    assert refused(lambda: pick_inputs(deflated, "a.zip")) == {"archive-unsafe"}


def test_a_check_of_a_great_many_carriers_names_assign(monkeypatch, tmp_path):
    (tmp_path / "show.yaml").write_text("channels: {1: {mhz: 486.200}, 2: {mhz: 486.200}}\n", encoding="utf-8")
    for most, words in ((2, "MHz is clean for"), (1, "paperwork assign")):
        monkeypatch.setattr(limits, "CARRIERS_NEAREST", most)
        (finding,) = read_show(tmp_path / "show.yaml", "show.yaml").findings
        assert words in finding.fix


@pytest.mark.parametrize(
    "rels", (b'<a Target="sheet1.xml"/><b Target="Sheet1.xml"/>', b'<sheet r:id="1"/><sheet r:id="1"/>')
)
def test_a_sheet_that_is_listed_twice_is_not_read_twice(rels):
    assert of_zip({"xl/_rels/workbook.xml.rels": rels}) == {"file-unsafe"}


def page(folder: Path):
    """The page without its guard, and what asks it."""
    import itertools

    import anyio

    from paperwork.serve.app import make_app
    from paperwork.serve.shelf import Shelf
    from paperwork.serve.tabs import Tabs
    from tests.serve.asgi import ask

    numbers = itertools.count(1)

    async def make():
        return make_app(Shelf(folder, lambda: f"show{next(numbers)}"), "secret", Tabs())

    app = anyio.run(make)
    return lambda path, **how: ask(app, f"/secret/{path}", **how)


SHOW = b"channels: {1: {by: Ann}}\n"


def test_a_form_is_read_up_to_its_bounds(monkeypatch, tmp_path):
    ask = page(tmp_path)
    for name, inside, outside, status in (
        ("FORM_BYTES", b"a=" + b"b" * 28, b"a=" + b"b" * 29, 413),
        ("FORM_FIELDS", b"a=1&" * 29 + b"a=1", b"a=1&" * 30 + b"a=1", 400),
    ):
        monkeypatch.setattr(limits, name, 30)
        told = [ask("open", method="POST", body=body) for body in (inside, outside)]
        assert b"there is no file" in told[0].body and told[1].status == status
        monkeypatch.undo()


def test_what_is_dropped_is_read_up_to_its_bounds(monkeypatch, tmp_path):
    ask = page(tmp_path)

    def drop(*files: bytes) -> int:
        told = ",".join(f"show{number}.yaml {len(data)}" for number, data in enumerate(files))
        return ask("drop", method="POST", body=b"".join(files), headers={"x-files": told}).status

    monkeypatch.setattr(limits, "DROPPED_FILES", 2)
    monkeypatch.setattr(limits, "REQUEST_BYTES", 3 * len(SHOW))
    assert drop(SHOW, SHOW) == 200 and drop(SHOW, SHOW, SHOW) == 400
    monkeypatch.setattr(limits, "DROPPED_FILES", 9)
    assert drop(SHOW, SHOW, SHOW) == 200 and drop(SHOW, SHOW, SHOW, b"#") == 413
    assert ask("drop", method="POST", body=SHOW, headers={"x-files": "show.yaml " + "9" * 5_000}).status == 413


def test_the_oldest_show_makes_room(monkeypatch, tmp_path):
    from paperwork.serve.shelf import Shelf

    monkeypatch.setattr(limits, "OPEN_SHOWS", 2)
    ids = iter("abc")
    shelf = Shelf(tmp_path, lambda: next(ids))
    for _ in "ab":
        shelf.drop({"show.yaml": SHOW})
    assert shelf.get("a") and shelf.get("b")
    shelf.drop({"show.yaml": SHOW})
    assert shelf.get("a") is None and shelf.get("b") and shelf.get("c")


def test_papers_show_the_margins_of_as_many_carriers_as_can_be_looked_at_in_time(monkeypatch):
    from paperwork.sheets import SHEETS
    from tests.sheets.reading import example

    (paper,) = (paper for paper in SHEETS if paper.name == "spectrum")
    monkeypatch.setattr(limits, "CARRIERS_MARGINS", 36)
    (whole,) = paper.make(example())
    monkeypatch.setattr(limits, "CARRIERS_MARGINS", 35)
    (short,) = paper.make(example())
    assert whole.blocks[:-1] == short.blocks and len(whole.blocks[-1].groups[0].rows) == 36


def test_the_oldest_edits_make_room(monkeypatch):
    from paperwork.serve.edit.history import EditHistory

    for name, most, count in (("UNDO_STEPS", 3, 3), ("UNDO_BYTES", 8, 4)):
        monkeypatch.setattr(limits, name, most)
        draft, data = EditHistory(b"0"), b"0"
        for number in range(1, 6):
            draft.add(data, b"%d" % number, f"{number}")
            data = b"%d" % number
        undone = 0
        while draft.undoes:
            data, undone = draft.undo(data), undone + 1
        assert (undone, data) == (count, b"%d" % (5 - count))
        monkeypatch.undo()


def test_both_servers_are_given_the_length_that_a_head_may_have():
    from paperwork.serve.share.listening import make_config

    async def answer(scope, receive, send):
        raise AssertionError("never asked")

    assert make_config(answer).h11_max_incomplete_event_size == limits.HEAD_BYTES


@pytest.mark.parametrize(
    ("step", "is_read"), (("1 kHz", True), ("0.999 kHz", False), ("25 Hz", False), ("1 Hz", False))
)
def test_a_step_finer_than_any_radio_tunes_is_refused_at_its_line(tmp_path, step, is_read):
    text = f"radios: {{b: {{kind: pack, tunes: 470-900, step: {step}}}}}\nchannels: {{1: {{mhz: 500.000}}}}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    found = [(one.code, one.place.line) for one in read_show(tmp_path / "show.yaml", "show.yaml").findings]
    assert found == ([] if is_read else [("value-unreadable", 1)])


@pytest.mark.parametrize(("guard", "is_read"), [("400 MHz", True), ("400.000001 MHz", False), ("3 GHz", False)])
def test_a_guard_wider_than_any_carrier_is_refused_at_its_line(tmp_path, guard, is_read):
    text = (
        f"radios: {{b: {{kind: pack, tunes: 470-900, guard two-signal: {guard}}}}}\nchannels: {{1: {{mhz: 500.000}}}}\n"
    )
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    found = [(one.code, one.place.line) for one in read_show(tmp_path / "show.yaml", "show.yaml").findings]
    assert found == ([] if is_read else [("value-unreadable", 1)])


def test_drawings_for_a_telephone_are_left_out_where_they_are_too_large(monkeypatch, tmp_path):
    from paperwork.pocket import make_pocket

    text = "channels: {1: {role: VERA, by: Ann}}\nscenes: {1: {live: VERA}}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    show = read_show(tmp_path / "show.yaml", "show.yaml").show
    whole = make_pocket(show, (), "wardrobe")[1]
    monkeypatch.setattr(limits, "POCKET_DRAWINGS", 1_000)
    bare = make_pocket(show, (), "wardrobe")[1]
    assert b"data:image" not in bare and b"too large for a phone" in bare
    assert b"data:image" in whole and b"too large for a phone" not in whole


def test_a_book_is_parted_and_pages_are_pictured_up_to_their_bounds(monkeypatch, tmp_path):
    text = "channels:\n" + "".join(f"  {n}: {{role: R{n}, by: P{n}, mhz: {470 + n}.0}}\n" for n in range(1, 41))
    reading = reading_of(text, tmp_path)
    papers = make_papers(reading.show, ())
    pages = sum(len(one.pages) for one in papers.printed if one.path != "production/show-book.pdf")
    for most, volumes in ((pages, 1), (pages - 1, 2)):
        monkeypatch.setattr(limits, "VOLUME_PAGES", most)
        made = make_papers(reading.show, (), only=frozenset({"show-book"}), pictured=False).printed
        assert len(made) == volumes
    long = max(papers.printed, key=lambda one: len(one.pages) * (one.folder != "production"))
    for most in (len(long.pages), len(long.pages) - 1):
        monkeypatch.setattr(limits, "PICTURES", most)
        again = make_papers(reading.show, (), only=frozenset({long.path.split("/")[1].removesuffix(".pdf")}))
        assert [len(one.pictures) for one in again.printed] == [most]


def test_budgets_are_tried_where_work_is_ended():
    """By real processes, which take their time: `tests/serve/test_aside.py`. Here they are only held to be budgets, behind
    the bounds: what the largest show takes is far within."""
    text = (Path(__file__).parent / "serve" / "test_aside.py").read_text(encoding="utf-8")
    assert all(name in text for name in ("READ_SECONDS", "COMMAND_SECONDS", "COMMAND_BYTES", "900 s or 2000 MB"))
    assert limits.READ_SECONDS < limits.PRINT_SECONDS < limits.COMMAND_SECONDS
    assert 2 * limits.FILE_BYTES < limits.WORK_BYTES < limits.COMMAND_BYTES
