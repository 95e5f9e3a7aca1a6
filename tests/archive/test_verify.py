"""Every byte of an archive, every file of it, and the zip around them: whatever is altered is named, and nothing else."""

import hashlib
import io
import subprocess
import zipfile

import pytest

from paperwork.archive import verify_archive
from paperwork.archive.container import pack_files
from paperwork.archive.sums import NAME, read_sums, write_sums
from tests.archive.samples import small_archive


@pytest.fixture(scope="module")
def data() -> bytes:
    return small_archive()


def files_of(data: bytes) -> dict[str, bytes]:
    """Read by the standard library alone."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def spans_of(data: bytes) -> dict[str, range]:
    """Where each file's bytes stand, found by looking for them."""
    spans, at = {}, 0
    for name, content in files_of(data).items():
        at = data.index(name.encode() + content, at) + len(name.encode())
        spans[name] = range(at, at + len(content))
        at += len(content)
    return spans


def told(data: bytes) -> list[tuple[str, str]]:
    return [
        (finding.code, finding.place.file.removeprefix("a.zip/")) for finding in verify_archive(data, "a.zip").findings
    ]


def test_an_archive_as_it_was_made_is_sound(data):
    verdict = verify_archive(data, "a.zip", expect=hashlib.sha256(data).hexdigest())
    assert (verdict.findings, verdict.sound, verdict.digest) == (
        (),
        len(files_of(data)),
        hashlib.sha256(data).hexdigest(),
    )


def test_any_flipped_byte_names_its_file_or_the_container(data):
    spans = spans_of(data)
    owner = {at: name for name, span in spans.items() for at in span}
    for at in range(len(data)):
        damaged = bytearray(data)
        damaged[at] ^= at % 255 + 1
        if at in owner:
            assert told(bytes(damaged)) == [("archive-altered", owner[at])], at
        else:
            assert told(bytes(damaged)) == [("archive-container", "a.zip")], at


def test_a_shortened_archive_is_told_wherever_it_ends(data):
    for end in range(0, len(data), 7):
        assert told(data[:end])


@pytest.mark.parametrize(
    "name", ["README.txt", "archive.json", "facts.json", "inputs/show.yaml", "papers/rack/channel-chart.pdf"]
)
def test_a_file_altered_missing_or_added_is_named_whoever_packed_it_again(data, name):
    files = files_of(data)
    assert told(pack_files({**files, name: files[name] + b" "})) == [("archive-altered", name)]
    assert told(pack_files({key: value for key, value in files.items() if key != name})) == [("archive-missing", name)]
    assert told(pack_files({**files, "papers/other.pdf": b"x"})) == [("archive-added", "papers/other.pdf")]


def test_files_in_another_order_are_named(data):
    files = files_of(data)
    names = list(files)
    names[1], names[2] = names[2], names[1]
    assert told(pack_files({name: files[name] for name in names})) == [
        ("archive-reordered", names[1]),
        ("archive-reordered", names[2]),
    ]


def test_a_file_that_is_in_it_twice_is_told(data):
    buffer = io.BytesIO(data)
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(buffer, "a") as archive:
        archive.writestr("facts.json", "{}")
    assert ("archive-added", "facts.json") in told(buffer.getvalue())


def test_packed_again_by_another_program_is_told_of_the_container_alone(data):
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files_of(data).items():
            archive.writestr(name, content)
    assert told(buffer.getvalue()) == [("archive-container", "a.zip")]


def test_a_line_of_the_list_that_cannot_be_read_is_the_list_and_no_file(data):
    files = files_of(data)
    lines = files[NAME].decode().splitlines()
    assert told(pack_files({**files, NAME: "\n".join([lines[0][:-3], *lines[1:]]).encode()}))[0][0] in (
        "archive-altered",
        "archive-added",
    )
    torn = pack_files({**files, NAME: b"what is this\n" + files[NAME]})
    assert told(torn) == [("archive-altered", NAME)]


def test_who_alters_the_list_too_is_caught_by_the_digest_alone(data):
    files = files_of(data)
    forged = {**files, "facts.json": b"{}\n"}
    forged[NAME] = write_sums({name: content for name, content in forged.items() if name != NAME})
    archive = pack_files(forged)
    assert told(archive) == []
    (finding,) = verify_archive(archive, "a.zip", expect=hashlib.sha256(data).hexdigest()).findings
    assert finding.code == "archive-digest"


@pytest.mark.parametrize(
    ("content", "code"),
    (
        (b"", "archive-unreadable"),
        (b"PK\x03\x04" + bytes(99), "archive-unreadable"),
        (b"%PDF-1.7", "archive-unreadable"),
    ),
)
def test_what_is_no_zip_is_said_to_be_none(content, code):
    assert [found for found, _ in told(content)] == [code]


@pytest.mark.parametrize("share", (0.5, 0.7))
def test_a_copy_that_was_broken_off_is_said_to_be_cut(data, share):
    assert [code for code, _ in told(data[: int(len(data) * share)])] == ["archive-cut"]


def test_a_zip_of_something_else_is_no_archive():
    assert [code for code, _ in told(pack_files({"a.txt": b"a"}))] == ["archive-kind"]


def test_a_bomb_is_refused_before_it_unpacks():
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("bomb", bytes(200_000_000))
    assert [code for code, _ in told(buffer.getvalue())] == ["archive-unsafe"]


def test_the_list_is_what_the_common_tool_checks(tmp_path, data):
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        archive.extractall(tmp_path)
    done = subprocess.run(
        ["sha256sum", "--strict", "-c", NAME], check=False, cwd=tmp_path, capture_output=True, text=True
    )
    assert done.returncode == 0 and done.stdout.count(": OK") == len(files_of(data)) - 1
    (tmp_path / "facts.json").write_bytes(b"{}")
    done = subprocess.run(["sha256sum", "-c", NAME], check=False, cwd=tmp_path, capture_output=True, text=True)
    assert "facts.json: FAILED" in done.stdout


def test_the_list_reads_back():
    files = {"a.txt": b"a", "b/ü.csv": b""}
    assert read_sums(write_sums(files)) == (
        {name: hashlib.sha256(content).hexdigest() for name, content in files.items()},
        (),
    )
