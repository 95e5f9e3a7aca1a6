"""Same input, same bytes: in another process, with another hash seed, zone, locale, umask and folder."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.shows_text import EXAMPLES

SETTINGS = (
    {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4711", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8"},
)


def build(folder: Path, environment: dict[str, str], umask: int) -> dict[str, str]:
    """The digests of everything that a build of the example leaves, by path."""
    folder.mkdir()
    shutil.copytree(EXAMPLES, folder / "show", ignore=shutil.ignore_patterns("*-papers", "pictures"))
    subprocess.run(
        [sys.executable, "-m", "paperwork", "build", "show/show.yaml", "-o", "papers"], cwd=folder, check=True,
        capture_output=True, env={**os.environ, **environment}, preexec_fn=lambda: os.umask(umask),
    )
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted((folder / "papers").rglob("*")) if path.is_file() and path.suffix in (".pdf", ".html")
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
