"""Files that are no show: one clear line each, with its place; and names that say something else."""

import os
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from paperwork import limits
from paperwork.files import read_bytes, read_file
from paperwork.finding import Finding

SHOW = b"channels:\n  01: {role: VERA}\n"
COMPOUND = bytes.fromhex("D0CF11E0A1B11AE1") + bytes(512)


def _only(path: Path, name: str = "show.yaml") -> Finding:
    raw, findings = read_file(path, name)
    assert raw is None
    assert len(findings) == 1
    assert findings[0].severity == "error"
    return findings[0]


def _zip(**parts: str) -> bytes:
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, text in parts.items():
            archive.writestr(zipfile.ZipInfo(name.replace("__", "/")), text)  # without the time of day
    return buffer.getvalue()


def _of_version(version: int, data: bytes) -> bytes:
    """The zip with another version said to be needed to read it, which the standard library refuses as not implemented."""
    at = data.index(b"PK\x01\x02") + 6
    return data[:at] + bytes([version]) + data[at + 1 :]


def test_missing_file_suggests_the_nearest_name(tmp_path: Path) -> None:
    (tmp_path / "show.yaml").write_bytes(SHOW)
    (tmp_path / "other.txt").write_bytes(SHOW)
    finding = _only(tmp_path / "shwo.yaml", "shwo.yaml")
    assert str(finding.place) == "shwo.yaml"
    assert finding.text == "there is no file shwo.yaml"
    assert finding.fix == "check the name and the folder; did you mean show.yaml?"


def test_missing_folder_is_named(tmp_path: Path) -> None:
    finding = _only(tmp_path / "tour" / "show.yaml", "tour/show.yaml")
    assert finding.code == "file-missing"
    assert finding.fix.endswith("there is no folder tour")


def test_file_used_as_a_folder_is_missing(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(SHOW)
    assert _only(tmp_path / "a" / "show.yaml").code == "file-missing"


def test_folder_suggests_the_show_inside_it(tmp_path: Path) -> None:
    (tmp_path / "show.yaml").write_bytes(SHOW)
    finding = _only(tmp_path, "tour")
    assert finding.text == "tour is a folder, not a show file"
    assert finding.fix == "name the file inside it, for example show.yaml"


def test_pipe_is_never_opened(tmp_path: Path) -> None:
    pipe = tmp_path / "show.yaml"
    os.mkfifo(pipe)
    assert _only(pipe).code == "file-special"  # opening it would wait for ever


def test_device_is_never_opened() -> None:
    assert _only(Path(os.devnull), os.devnull).code == "file-special"


def test_denied_file_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "show.yaml"
    path.write_bytes(SHOW)

    def deny(*_: object) -> int:
        raise PermissionError(13, "denied")

    monkeypatch.setattr(os, "open", deny)
    assert _only(path).code == "file-denied"


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_impossible_name_is_one_finding(tmp_path: Path, name: str) -> None:
    assert _only(tmp_path / name).code == "file-unreadable"


def test_link_to_itself_is_one_finding(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    assert _only(tmp_path / "loop").code == "file-unreadable"


def test_file_beyond_the_bound_is_refused_undecoded(tmp_path: Path) -> None:
    path = tmp_path / "show.yaml"
    with path.open("wb") as file:
        file.truncate(limits.FILE_BYTES + 1)
    assert _only(path).code == "file-large"


@pytest.mark.parametrize(
    ("data", "name", "code", "words"),
    [
        (b"", "show.yaml", "file-empty", "show.yaml is empty"),
        (b"\xef\xbb\xbf \r\n", "show.yaml", "file-empty", "show.yaml is empty"),
        (b"# nothing yet\n", "show.yaml", "file-empty", "show.yaml is empty: no section in it"),
        (b"", "show.xlsx", "file-empty", "show.xlsx is empty"),
        (COMPOUND, "show.xls", "file-old-workbook", "show.xls is an old binary workbook (.xls)"),
        (
            COMPOUND + "EncryptedPackage".encode("utf-16-le"),
            "show.xlsx",
            "file-password",
            "show.xlsx is locked with a password",
        ),
        (b"<html><table>", "list.xls", "file-kind", "a web page or XML with a workbook's name"),
        (b"\xef\xbb\xbf<!DOCTYPE html>", "show.yaml", "file-kind", "a web page or XML"),
        (b"%PDF-1.7\n", "chart.pdf", "file-kind", "chart.pdf is a PDF"),
        (b"\x89PNG\r\n\x1a\n", "chart.png", "file-kind", "a picture"),
        (b"a: b\0c\n", "show.yaml", "file-kind", "not text"),
        ("a: b\n".encode("utf-16-le"), "show.yaml", "file-kind", "not text"),
        (b"id,role\n01,VERA\n", "show.csv", "file-kind", "comma- or tab-separated"),
        (_zip(a="x"), "show.xlsx", "file-kind", "a packed folder but no workbook"),
        (_zip(**{"content.xml": "x", "mimetype": "x"}), "show.ods", "file-kind", "an OpenDocument file"),
        (_zip(**{"[Content_Types].xml": "", "xl__workbook.bin": ""}), "show.xlsb", "file-kind", "(.xlsb)"),
        (_zip(**{"[Content_Types].xml": "", "word__document.xml": ""}), "show.xlsx", "file-kind", "no workbook"),
        (bytes(100), "~$show.xlsx", "file-kind", "the lock that a spreadsheet program leaves"),
        (_of_version(99, _zip(a="x")), "show.xlsx", "file-damaged", "begins as a workbook but has no end"),
        (b"PK\x03\x04 and then nothing", "show.xlsx", "file-damaged", "begins as a workbook but has no end"),
    ],
)
def test_no_show_is_told_what_it_is(data: bytes, name: str, code: str, words: str) -> None:
    raw, (finding,) = read_bytes(data, name)
    assert raw is None
    assert finding.code == code
    assert words in finding.text
    assert finding.fix
    assert finding.place.file == name


@pytest.mark.parametrize("name", ["show.yaml", "show.yml", "show.json"])
def test_yaml_names_are_read_without_a_word(name: str) -> None:
    assert read_bytes(SHOW, name)[1] == ()


@pytest.mark.parametrize("name", ["show.yaml.txt", "show", "show.xlsx"])
def test_yaml_under_another_name_is_read_with_a_warning(name: str) -> None:
    raw, (finding,) = read_bytes(SHOW, name)
    assert raw is not None
    assert finding.code == "file-misnamed"
    assert finding.text == f"{name} is really YAML text"


@pytest.mark.parametrize(
    ("data", "place", "words"),
    [
        (b"a: x\nrole: Caf\xe9\n", "show.yaml:2:10", "byte E9 (é in Windows-1252)"),
        (b"a: \xf0\x9f\x98\x80 \x81\n", "show.yaml:1:6", "byte 81 here"),
        (b"\xff\xfea\0:\0 \0\x00\xd8\n\0", "show.yaml:1:4", "UTF-8"),
        (b"\xff\xfea", "show.yaml:1:1", "UTF-8"),
        (b"\xff\xfe\0\0a\0\0\0", "show.yaml:1:1", "UTF-8"),
    ],
)
def test_wrong_encoding_points_at_the_byte(data: bytes, place: str, words: str) -> None:
    raw, (finding,) = read_bytes(data, "show.yaml")
    assert raw is None
    assert finding.code == "file-encoding"
    assert str(finding.place) == place
    assert words in finding.text
