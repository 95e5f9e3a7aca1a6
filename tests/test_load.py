"""The largest real events, and more, go through the real commands in a process of bounded memory, and nothing is lost or made up."""

import json
import subprocess
import sys
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from resource import RLIMIT_AS, setrlimit
from zipfile import ZipFile

import pypdfium2
import pytest

from tests.big_events import big_event
from tests.fuzz.guard import MEMORY_BYTES

PRINTING_BYTES = 1_200_000_000
"""Address space of a process that prints ten thousand labels and a thousand rows on thirty papers."""


def _holding(memory_bytes: int) -> Callable[[], None]:
    return lambda: setrlimit(RLIMIT_AS, (memory_bytes, memory_bytes))


def _run(*arguments: str | Path, memory_bytes: int = MEMORY_BYTES) -> str:
    """What a command says, in a process that may hold so much and no more."""
    ran = subprocess.run(
        [sys.executable, "-m", "paperwork", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=_holding(memory_bytes),
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout + ran.stderr


def _write(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def _text(data: bytes) -> str:
    return "\n".join(page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(BytesIO(data)))


def test_six_hundred_carriers_on_twelve_stages_are_clean(tmp_path):
    assert "No problems found" in _run("check", _write(tmp_path / "show.yaml", big_event(600)))


def test_a_clash_among_six_hundred_carriers_is_the_only_finding(tmp_path):
    """Channel 010 and the wide 011 are neighbours of stage 1: one is put onto the other's frequency."""
    text = big_event(600)
    assert text.count("mhz: 612.400, zone: Stage 1}") == 1
    line = next(number for number, line in enumerate(text.splitlines(), 1) if "mhz: 612.400, zone: Stage 1}" in line)
    show = _write(tmp_path / "show.yaml", text.replace("mhz: 612.400, zone: Stage 1}", "mhz: 611.200, zone: Stage 1}"))
    ran = subprocess.run(
        [sys.executable, "-m", "paperwork", "check", str(show), "--format", "json"],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=_holding(MEMORY_BYTES),
    )
    assert [(finding["code"], finding["place"]["line"]) for finding in json.loads(ran.stdout)] == [
        ("carrier-doubled", line)
    ]


@pytest.mark.sweep
def test_five_thousand_channels_are_read_and_checked(tmp_path):
    assert "No problems found" in _run("check", _write(tmp_path / "show.yaml", big_event(5_000, 100)))


@pytest.mark.sweep
def test_one_name_among_a_thousand_channels_changes_one_label(tmp_path):
    old = _write(tmp_path / "old.yaml", big_event(1_000))
    new = _write(
        tmp_path / "new.yaml",
        big_event(1_000).replace("Singer 0007", "Somebody Else").replace("revision: B", "revision: C"),
    )
    told = _run("changes", old, new)
    assert "role V0007, performer: Singer 0007 -> Somebody Else" in told
    assert "999 of pack-labels" in " ".join(told.split())


@pytest.mark.sweep
def test_a_thousand_channels_and_two_hundred_sets_are_all_on_paper_and_in_the_archive(tmp_path):
    show = _write(tmp_path / "show.yaml", big_event(1_000))
    archive = tmp_path / "kept.zip"
    assert "error" not in _run("archive", show, "-o", archive, memory_bytes=PRINTING_BYTES)
    _run("verify", archive)
    with ZipFile(archive) as kept:
        papers = {
            name: kept.read(name)
            for name in kept.namelist()
            if name.endswith(("channel-chart.pdf", "pack-labels.pdf", "who-is-live.pdf"))
        }
        assert kept.read(next(name for name in kept.namelist() if name.endswith("show.yaml"))) == show.read_bytes()
    read = {name.rpartition("/")[2]: _text(data) for name, data in papers.items()}
    for number in range(1, 1_001):
        assert f"Singer {number:04d}" in read["channel-chart.pdf"]
        assert f"V{number:04d}" in read["pack-labels.pdf"]
    for number in range(200):
        assert f"Band {number}" in read["who-is-live.pdf"]
