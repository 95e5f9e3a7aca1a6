"""How each bound of `limits` is met by the way that a file takes: the size to try, and the finding that one more has."""

import io
import zipfile
from collections.abc import Callable, Iterable
from pathlib import Path

from paperwork import limits
from paperwork.archive.inputs import find_unfit, read_about
from paperwork.files.read import read_bytes
from paperwork.files.refusal import Refused
from paperwork.files.sweep import parse_sweep
from paperwork.files.zip_check import check_zip
from paperwork.finding import Finding
from paperwork.intake.source import read_source
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.text.measuring import Metrics
from paperwork.sheets.rack.channel_chart import make_sheets
from tests.archive.samples import small_archive
from tests.archive.test_inputs import repack
from tests.archive.test_verify import files_of

Codes = set[str]


def codes(findings: Iterable[Finding]) -> Codes:
    return {finding.code for finding in findings}


def refused(act: Callable[[], object]) -> Codes:
    """The code of the refusal, none if it went through."""
    try:
        act()
    except Refused as refusal:
        return {refusal.finding.code}
    return set()


def of_show(text: str, tmp_path: Path) -> Codes:
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    return codes(read_show(tmp_path / "show.yaml", "show.yaml").findings)


def of_text(text: str) -> Codes:
    return codes(read_bytes(text.encode(), "show.yaml")[1])


def packed(parts: dict[str, bytes], method: int = zipfile.ZIP_STORED) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", method) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return buffer.getvalue()


def of_zip(parts: dict[str, bytes], method: int = zipfile.ZIP_STORED) -> Codes:
    return refused(lambda: check_zip(packed(parts, method), "show.xlsx"))


def of_list(text: str, tmp_path: Path) -> Codes:
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    return codes(read_source(tmp_path / "list.csv", "list.csv").findings)


def numbered(count: int, line: str) -> str:
    return "".join(line.format(n=number) for number in range(1, count + 1))


def of_file(count: int, most: str, tmp_path: Path) -> Codes:
    from paperwork.files.sniff import load_file

    (tmp_path / "x").write_bytes(b"#" * count)
    return refused(lambda: load_file(tmp_path / "x", "x", most=getattr(limits, most) if most != "FILE_BYTES" else None))


def of_paper(pages: int, tmp_path: Path) -> Codes:
    """A chart of just so many pages: printed as a whole, or not at all."""
    for count in range(10, 400, 10):
        (tmp_path / "show.yaml").write_text("channels:\n" + numbered(count, "  {n}: {{by: P{n}}}\n"), encoding="utf-8")
        reading = read_show(tmp_path / "show.yaml", "show.yaml")
        if len(lay_out(make_sheets(reading.show)[0], Metrics()).pages) == pages:
            break
    papers = make_papers(reading.show, reading.findings, only=frozenset({"channel-chart"}))
    assert ("paper-long" in codes(papers.findings)) == (not papers.printed)
    return codes(papers.findings)


def of_searches(count: int, tmp_path: Path) -> Codes:
    from click.testing import CliRunner

    from paperwork.commands.survey import command

    (tmp_path / "show.yaml").write_text("channels: {1: {}}\n", encoding="utf-8")
    windows = [part for number in range(count) for part in ("--window", f"{470 + number}-{471 + number}")]
    outcome = CliRunner().invoke(command, [str(tmp_path / "show.yaml"), *windows], standalone_mode=False).return_value
    return {"searches-many"} if "[searches-many]" in outcome.aside else set()


def of_odd_carriers(count: int, tmp_path: Path) -> Codes:
    """A row of steps of 100 kHz and 1 Hz, which hits itself more often than is listed one by one."""
    return _with_few_listed(
        "channels:\n" + "".join(f"  {n}: {{mhz: {470 + n * 0.4 + n % 3 * 1e-6:.6f}}}\n" for n in range(1, count + 1)),
        tmp_path,
    )


def of_scattered_carriers(count: int, tmp_path: Path) -> Codes:
    """Sessions that begin one after the other and overlap, and carriers in a row of equal steps, each in a session, off, and
    in another."""
    return _with_few_listed(
        "scenes:\n"
        + "".join(f'  s{n}: {{name: Session {n}, at: "0:{n:02}", until: "0:{n + 9:02}"}}\n' for n in range(count))
        + "channels:\n"
        + "".join(f"  {n + 1}: {{mhz: {470 + n * 0.4:.1f}, bill: [s{n}, s{7 * n % count}]}}\n" for n in range(count)),
        tmp_path,
    )


def _with_few_listed(text: str, tmp_path: Path) -> Codes:
    from paperwork.coordinate import carriers

    before, carriers.HITS_LISTED = carriers.HITS_LISTED, 50
    try:
        return of_show(text, tmp_path)
    finally:
        carriers.HITS_LISTED = before


def of_photo(pixels: int) -> Codes:
    from PIL import Image

    from paperwork.audit import read_photo

    buffer = io.BytesIO()
    Image.new("RGB", (pixels, 1)).save(buffer, "PNG")
    return refused(lambda: read_photo(buffer.getvalue(), "p.png"))


def of_archives(count: int, tmp_path: Path) -> Codes:
    from click.testing import CliRunner

    from paperwork.commands.changes import command

    folder = tmp_path / str(count)
    folder.mkdir()
    for number in range(count):
        (folder / f"{number}.zip").write_bytes(small_archive())
    outcome = CliRunner().invoke(command, [str(folder)], standalone_mode=False).return_value
    return {"archives-many"} if "[archives-many]" in outcome.aside else set()


def of_settings(size: int, tmp_path: Path) -> Codes:
    import click

    from paperwork.terminal.printers import choose_printer

    (tmp_path / "p.toml").write_text("[a]\n" + "#" * (size - 4), encoding="utf-8")
    try:
        choose_printer("a", str(tmp_path / "p.toml"), None)
    except click.BadParameter as error:
        return {"large"} if "larger than" in error.message else set()
    return set()


def of_record(size: int, tmp_path: Path) -> Codes:
    from paperwork.output import OutputError, publish

    text = b'{"made_by": "paperwork", "files": {}, "folders": []}'
    (tmp_path / ".paperwork-manifest.json").write_bytes(text + b" " * (size - len(text)))
    try:
        publish(tmp_path, {"index.html": b""})
    except OutputError as error:
        return {"damaged"} if "damaged" in error.text else set()
    return set()


CASES: dict[str, tuple[int, str, Callable[[int, Path], Codes]]] = {
    "FILE_BYTES": (60, "file-large", lambda n, path: of_file(n, "FILE_BYTES", path)),
    "YAML_NODES": (40, "yaml-large", lambda n, _: of_text(f"a: [{'x,' * (n - 3)}]")),
    "YAML_DEPTH": (7, "yaml-deep", lambda n, _: of_text("a: " + "[" * n + "]" * n)),
    "ZIP_PARTS": (9, "file-unsafe", lambda n, _: of_zip({f"{i}": b"" for i in range(n)})),
    "ZIP_PART_BYTES": (900, "file-unsafe", lambda n, _: of_zip({"a": bytes(n), "b": b""})),
    "ZIP_TOTAL_BYTES": (900, "file-unsafe", lambda n, _: of_zip({"a": bytes(n // 2), "b": bytes(n - n // 2)})),
    "XML_TAGS": (50, "file-unsafe", lambda n, _: of_zip({"xl/worksheets/sheet1.xml": b"<a>" * n})),
    "XML_TAGS_ASIDE": (50, "file-unsafe", lambda n, _: of_zip({"xl/styles.xml": b"<a>" * n})),
    "XML_TAG_BYTES": (
        limits.XML_TAG_BYTES,
        "file-unsafe",
        lambda n, _: of_zip({"xl/styles.xml": b"<" + b"a" * n + b">"}),
    ),
    "SHEET_ROWS": (30, "sheet-large", lambda n, path: of_list("Ch;Actor\n" * n, path)),
    "SHEET_COLUMNS": (30, "sheet-large", lambda n, path: of_list("x;" * (n - 1) + "x\n", path)),
    "SHEET_CELLS": (30, "sheet-large", lambda n, _: of_zip({"xl/worksheets/sheet1.xml": b"<c/>" * n})),
    "SHEETS": (
        3,
        "file-unsafe",
        lambda n, _: of_zip({"xl/workbook.xml": b"".join(b'<sheet r:id="%d"/>' % i for i in range(n))}),
    ),
    "TABLES": (
        3,
        "sheet-large",
        lambda n, path: of_list("".join(f"Ch;Actor;Freq;x{i}\n1;A{i};518.2;\n2;B{i};519.2;\n" for i in range(n)), path),
    ),
    "SWEEP_FILES": (
        3,
        "sweeps-many",
        lambda n, path: of_show(f"spectrum: {{sweeps: [{numbered(n, 's{n}.csv,')}]}}\nchannels: {{1: {{}}}}\n", path),
    ),
    "PERFORMANCES": (
        3,
        "performances-many",
        lambda n, path: of_show(
            "channels: {1: {}}\nperformances:\n" + numbered(n, "  p{n}: {{bows: 2:{n:02d}}}\n"), path
        ),
    ),
    "SWEEP_BYTES": (60, "file-large", lambda n, path: of_file(n, "SWEEP_BYTES", path)),
    "SWEEP_LEVELS": (
        30,
        "sweep-large",
        lambda n, _: codes(parse_sweep(numbered(n, "486.{n:03d},-90.{n:03d}\n"), "a.csv")[1]),
    ),
    "TEXT_LENGTH": (50, "text-long", lambda n, _: of_text("a: {b: " + "x" * n + "}")),
    "LIST_LENGTH": (
        30,
        "value-unreadable",
        lambda n, path: of_show(
            f"racks: {{R1: {{channels: 1-10;11-{n}}}}}\nchannels:\n" + numbered(n, "  {n}: {{}}\n"), path
        ),
    ),
    "ITEMS": (
        30,
        "items-many",
        lambda n, path: of_show(
            f"racks: {{R1: {{channels: 1-10}}, R2: {{channels: 11-{n}}}}}\nchannels:\n" + numbered(n, "  {n}: {{}}\n"),
            path,
        ),
    ),
    "COUNT": (
        40,
        "value-unreadable",
        lambda n, path: of_show(f"consoles: {{FOH: {{inputs: {n}}}}}\nchannels: {{1: {{}}}}\n", path),
    ),
    "RECORDS": (
        limits.RECORDS,
        "records-too-many",
        lambda n, path: of_show("channels:\n" + numbered(n, "  {n}: {{}}\n"), path),
    ),
    "FIELDS": (
        20,
        "records-too-many",
        lambda n, path: of_show("channels: {1: {" + numbered(n, "x{n}: 1, ") + "}}\n", path),
    ),
    "GRID_CELLS": (
        30,
        "grid-large",
        lambda n, path: of_show("channels:\n" + numbered(n, "  {n}: {{}}\n") + "scenes: {s1: {}}\n", path),
    ),
    "LIKE_DEPTH": (
        5,
        "like-deep",
        lambda n, path: of_show(
            "radios:\n"
            + "".join(f"  r{i}: {{like: r{i + 1}}}\n" for i in range(n))
            + f"  r{n}: {{}}\nchannels: {{1: {{}}}}\n",
            path,
        ),
    ),
    "FINDINGS": (
        12,
        "findings-many",
        lambda n, path: of_show("channels:\n" + numbered(n, "  {n}: {{mhz: x}}\n"), path),
    ),
    "PAGES": (2, "paper-long", of_paper),
    "SEARCHES": (3, "searches-many", of_searches),
    "ABOUT_BYTES": (
        400,
        "archive-kind",
        lambda n, _: refused(
            lambda: read_about(repack({**files_of(small_archive()), "archive.json": b"{}".ljust(n)}), "a")
        ),
    ),
    "CARRIERS_ODD": (30, "intermodulation-uncounted", of_odd_carriers),
    "CARRIERS_SCATTERED": (20, "intermodulation-uncounted", of_scattered_carriers),
    "PATH_LENGTH": (60, "archive-unsafe", lambda n, _: {"archive-unsafe"} if find_unfit("a" * n, ()) else set()),
    "ARCHIVES": (3, "archives-many", of_archives),
    "PHOTO_BYTES": (60, "file-large", lambda n, path: of_file(n, "PHOTO_BYTES", path)),
    "PHOTO_PIXELS": (3_000, "photo-large", lambda n, _: of_photo(n)),
    "SETTINGS_BYTES": (60, "large", of_settings),
    "RECORD_BYTES": (400, "damaged", of_record),
}
"""Each bound: the size at which it is tried, the finding, and what is found in a file that is just so large."""

ELSEWHERE: dict[str, str] = {
    "STEP_HZ": "test_a_step_finer_than_any_radio_tunes_is_refused_at_its_line",
    "WIDTH_HZ": "test_a_guard_wider_than_any_carrier_is_refused_at_its_line",
    "ZIP_RATIO": "test_a_workbook_may_pack_well_but_not_without_end",
    "ZIP_FREE_BYTES": "test_a_small_workbook_may_pack_as_well_as_it_likes",
    "COMPARISONS": "test_a_file_that_is_wrong_all_over_gets_hints_for_what_stands_first",
    "CARRIERS_NEAREST": "test_a_check_of_a_great_many_carriers_names_assign",
    "CARRIERS_MARGINS": "test_papers_show_the_margins_of_as_many_carriers_as_can_be_looked_at_in_time",
    "FORM_BYTES": "test_a_form_is_read_up_to_its_bounds",
    "FORM_FIELDS": "test_a_form_is_read_up_to_its_bounds",
    "REQUEST_BYTES": "test_what_is_dropped_is_read_up_to_its_bounds",
    "DROPPED_FILES": "test_what_is_dropped_is_read_up_to_its_bounds",
    "POCKET_DRAWINGS": "test_drawings_for_a_telephone_are_left_out_where_they_are_too_large",
    "VOLUME_PAGES": "test_a_book_is_parted_and_pages_are_pictured_up_to_their_bounds",
    "PICTURES": "test_a_book_is_parted_and_pages_are_pictured_up_to_their_bounds",
    **dict.fromkeys(
        ("READ_SECONDS", "PRINT_SECONDS", "WORK_BYTES", "COMMAND_SECONDS", "COMMAND_BYTES"),
        "test_budgets_are_tried_where_work_is_ended",
    ),
    "OPEN_SHOWS": "test_the_oldest_show_makes_room",
    "UNDO_STEPS": "test_the_oldest_edits_make_room",
    "UNDO_BYTES": "test_the_oldest_edits_make_room",
    "HEAD_BYTES": "test_both_servers_are_given_the_length_that_a_head_may_have",
    "NAME_LENGTH": "test_words_of_a_books_length_get_no_hint",
    "FOLDER_NAMES": "test_a_folder_is_not_searched_without_end",
    "ARCHIVE_BYTES": "test_an_archive_is_made_and_opened_up_to_one_size",
}
"""Bounds that are no finding of their own, or that hold in two places: the test that holds them."""
