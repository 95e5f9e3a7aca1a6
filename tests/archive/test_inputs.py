"""The files that a revision was made from: byte for byte, from an archive or a show book, and nothing unsafe."""

import io
import zipfile

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.archive import Inputs, is_archive, is_book, pick_inputs
from paperwork.archive.container import pack_files
from paperwork.archive.inputs import find_unfit
from paperwork.archive.sums import NAME, write_sums
from paperwork.files.refusal import Refused
from paperwork.output import OutputError, add_files
from paperwork.render.boxes import Layout, Page
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.pdf.pdfa import Attachment
from tests.archive.samples import INPUTS, small_archive
from tests.archive.test_verify import files_of, spans_of


def repack(files: dict[str, bytes]) -> bytes:
    """An archive with other files and a list that fits them, as a forger would make it."""
    files = {name: data for name, data in files.items() if name != NAME}
    return pack_files({**files, NAME: write_sums(files)})


def code_of(data: bytes) -> str:
    with pytest.raises(Refused) as refused:
        pick_inputs(data, "a.zip")
    return refused.value.finding.code


def book(*files: Attachment) -> bytes:
    page = Page(100_000, 100_000, ())
    return paint_pdf(Layout("Show book", "Glass", (page,), ()), "2027-03-01", attachments=files)


SHOW = Attachment("show.yaml", INPUTS["show.yaml"], "application/yaml", "the show file")
SWEEP = Attachment("sweeps/a.csv", INPUTS["sweeps/a.csv"], "text/csv", "a sweep", "Data")


def test_an_archive_gives_its_inputs_back():
    assert pick_inputs(small_archive(venue="Pier"), "a.zip") == Inputs("show.yaml", INPUTS, "Pier")


def test_an_archive_that_another_program_packed_again_gives_them_too():
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files_of(small_archive()).items():
            archive.writestr(name, content)
    assert pick_inputs(buffer.getvalue(), "a.zip").files == INPUTS


def test_a_book_gives_its_inputs_back():
    assert pick_inputs(book(SWEEP, SHOW), "book.pdf") == Inputs(
        "show.yaml", {"sweeps/a.csv": SWEEP.data, "show.yaml": SHOW.data}
    )


def test_archives_and_books_are_known_by_their_bytes():
    assert is_archive(small_archive()) and not is_archive(pack_files({"a": b""})) and not is_archive(b"show: {}")
    assert is_book(book(SHOW)) and not is_book(small_archive())


def test_a_book_without_inputs_and_a_torn_one_are_told_apart():
    assert code_of(book()) == "book-without-inputs"
    assert code_of(book(SHOW)[:700]) == "book-unreadable"
    assert code_of(b"%PDF-1.7\nnonsense") == "book-unreadable"


def test_a_public_archive_has_none():
    assert code_of(small_archive(public=True, inputs={})) == "archive-public"


def test_damage_elsewhere_does_not_keep_inputs_from_being_read_and_damage_to_them_does():
    data = bytearray(small_archive())
    spans = spans_of(bytes(data))
    data[spans["facts.json"].start] ^= 1
    assert pick_inputs(bytes(data), "a.zip").files == INPUTS
    data[spans["inputs/show.yaml"].start] ^= 1
    assert code_of(bytes(data)) == "archive-altered"


def test_inputs_come_back_where_the_table_of_contents_asks_for_a_program_of_the_future():
    data = small_archive()
    at = data.index(b"PK\x01\x02") + 6
    assert pick_inputs(data[:at] + b"\x63" + data[at + 1 :], "a.zip").files == INPUTS


def test_where_the_list_is_damaged_the_sums_of_the_zip_decide():
    data = bytearray(small_archive())
    spans = spans_of(bytes(data))
    data[spans[NAME].start] ^= 1
    assert pick_inputs(bytes(data), "a.zip").files == INPUTS
    data[spans["inputs/show.yaml"].start] ^= 1
    assert code_of(bytes(data)) == "archive-altered"
    without = {name: content for name, content in files_of(small_archive()).items() if name != "inputs/sweeps/a.csv"}
    cut = bytearray(pack_files(without))
    cut[spans_of(bytes(cut))[NAME].start] ^= 1
    assert code_of(bytes(cut)) == "archive-missing"


@pytest.mark.parametrize(
    "path",
    (
        "../evil",
        "/etc/evil",
        "a/../../evil",
        "C:/evil",
        "a\\evil",
        "",
        "a//b",
        ".",
        "a/.",
        "nul\x00byte",
        "line\nbreak",
        "dot.",
        "x" * 300,
    ),
)
def test_a_name_that_leaves_the_folder_is_refused(path):
    assert code_of(repack({**files_of(small_archive()), "inputs/" + path: b"x"})) in (
        "archive-unsafe",
        "archive-altered",
        "archive-added",
    )
    assert find_unfit(path, ())


def test_two_names_that_are_one_on_some_disks_are_refused():
    assert code_of(repack({**files_of(small_archive()), "inputs/SHOW.yaml": b"x"})) == "archive-unsafe"


def test_a_link_is_refused():
    files = files_of(small_archive())
    files = {**{name: data for name, data in files.items() if name != NAME}, "inputs/link": b"/etc/passwd"}
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, content in {**files, NAME: write_sums(files)}.items():
            info = zipfile.ZipInfo(name)
            info.create_system, info.external_attr = 3, (0o120777 if name.endswith("link") else 0o100644) << 16
            archive.writestr(info, content, zipfile.ZIP_DEFLATED)
    assert code_of(buffer.getvalue()) == "archive-unsafe"


def test_a_table_of_contents_that_leads_elsewhere_is_told():
    """A forged copy behind the files, to which the table leads: the headers lead to the true one."""
    from paperwork.archive import verify_archive

    data = small_archive()
    spans = spans_of(data)
    forged = bytearray(data)
    central = data.index(b"PK\x01\x02")
    name = b"archive.json"
    entry = data.index(name, central) - 46
    target = data.index(b"facts.json", central) - 46
    forged[entry + 42 : entry + 46] = data[target + 42 : target + 46]
    assert spans and forged != data
    (finding,) = verify_archive(bytes(forged), "a.zip").findings
    assert finding.code == "archive-container" and "other programs may unpack other bytes" in finding.text


def test_nothing_is_ever_replaced(tmp_path):
    (tmp_path / "show.yaml").write_text("mine")
    with pytest.raises(OutputError, match="is there already"):
        add_files(tmp_path, INPUTS)
    assert [path.name for path in tmp_path.iterdir()] == ["show.yaml"] and (
        tmp_path / "show.yaml"
    ).read_text() == "mine"


def test_a_link_on_the_way_is_not_followed(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "there").mkdir()
    (tmp_path / "out" / "sweeps").symlink_to(tmp_path / "there")
    with pytest.raises(OutputError, match="in the way"):
        add_files(tmp_path / "out", INPUTS)
    assert not list((tmp_path / "there").iterdir()) and not (tmp_path / "out" / "show.yaml").exists()


@pytest.mark.parametrize("broken", (1, 2))
def test_a_disk_that_fills_leaves_nothing_behind(tmp_path, monkeypatch, broken):
    from paperwork.output import add

    calls = []

    def write(path, data):
        calls.append(path)
        if len(calls) == broken:
            raise OSError(28, "No space left on device")
        path.write_bytes(data)

    monkeypatch.setattr(add, "write_file", write)
    with pytest.raises(OutputError, match="is full"):
        add_files(tmp_path, INPUTS)
    assert not list(tmp_path.iterdir())


@given(st.dictionaries(st.sampled_from(["show.yaml", "a/b.csv", "ü.csv"]), st.binary(max_size=400), min_size=1))
def test_whatever_the_bytes_they_come_back(files):
    files = {"show.yaml": b"", **files}
    assert pick_inputs(small_archive(inputs=files), "a.zip").files == files
