"""Same input, same bytes: in another process, with another hash seed, zone, locale, umask and folder."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.shows_text import EXAMPLES

SETTINGS = (
    {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4711", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8"},
)


SMALL = """
show: {title: Glass, revision: B, revised: 2027-03-01}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.200}
"""


def build(folder: Path, environment: dict[str, str], umask: int) -> dict[str, str]:
    """The digests of everything that a build of the example leaves, by path."""
    folder.mkdir()
    shutil.copytree(EXAMPLES, folder / "show", ignore=shutil.ignore_patterns("*-papers", "pictures"))
    subprocess.run(
        [sys.executable, "-m", "paperwork", "build", "show/show.yaml", "-o", "papers"],
        cwd=folder,
        check=True,
        capture_output=True,
        env={**os.environ, **environment},
        preexec_fn=lambda: os.umask(umask),
    )
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted((folder / "papers").rglob("*"))
        if path.is_file() and path.suffix in (".pdf", ".html")
    }


def test_two_processes_with_other_settings_print_the_same_bytes(tmp_path):
    first = build(tmp_path / "one", SETTINGS[0], 0o022)
    second = build(tmp_path / "another folder", SETTINGS[1], 0o077)
    assert len(first) >= 4 and first == second


def test_the_order_of_papers_in_one_process_does_not_leak_into_their_bytes():
    from paperwork.pipeline import make_papers
    from paperwork.reading import read_show

    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    alone = make_papers(reading.show, reading.findings, only=frozenset({"pack-labels"}))
    among = make_papers(reading.show, reading.findings)
    assert alone.files["wardrobe/pack-labels.pdf"] == among.files["wardrobe/pack-labels.pdf"]


def make_archive_elsewhere(folder: Path, text: str, environment: dict[str, str], umask: int) -> bytes:
    folder.mkdir()
    (folder / "show.yaml").write_text(text, encoding="utf-8")
    shutil.copy(EXAMPLES / "sweep.csv", folder / "sweep.csv")
    subprocess.run(
        [sys.executable, "-m", "paperwork", "archive", folder / "show.yaml", "-o", "a.zip"],
        cwd=folder,
        check=True,
        capture_output=True,
        env={**os.environ, **environment},
        preexec_fn=lambda: os.umask(umask),
    )
    return (folder / "a.zip").read_bytes()


def test_an_archive_is_the_same_bytes_everywhere(tmp_path):
    text = SMALL + "spectrum: {sweeps: sweep.csv}\n"
    first = make_archive_elsewhere(tmp_path / "one", text, SETTINGS[0], 0o022)
    second = make_archive_elsewhere(tmp_path / "another folder", text, SETTINGS[1], 0o077)
    assert first == second and str(tmp_path).encode() not in first


@pytest.mark.sweep
def test_the_archive_of_the_example_is_the_same_bytes_everywhere_and_every_flip_in_it_is_told(tmp_path):
    from paperwork.archive import verify_archive
    from tests.archive.test_verify import spans_of

    text = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
    data = make_archive_elsewhere(tmp_path / "one", text, SETTINGS[0], 0o022)
    assert data == make_archive_elsewhere(tmp_path / "another folder", text, SETTINGS[1], 0o077)
    owner = sorted((span.start, span.stop, name) for name, span in spans_of(data).items())
    for at in range(0, len(data), len(data) // 60):
        damaged = bytearray(data)
        damaged[at] ^= 0x10
        (finding,) = verify_archive(bytes(damaged), "a.zip").findings
        name = next((name for start, stop, name in owner if start <= at < stop), "")
        assert finding.place.file == (f"a.zip/{name}" if name else "a.zip")
