"""Names from a show, an archive or a page that would lead elsewhere: nothing is read or written outside of its folder."""

import io
import os
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner

from paperwork.archive import pick_inputs
from paperwork.archive.inputs import find_unfit
from paperwork.commands.archive import command as archive
from paperwork.commands.build import command as build
from paperwork.commands.restore import command as restore
from paperwork.files.refusal import Refused
from paperwork.files.sweep import lies_below
from paperwork.output import OutputError, add_files, publish
from paperwork.reading import read_show
from paperwork.text.names import is_file_name
from tests.archive.samples import small_archive
from tests.archive.test_inputs import repack
from tests.archive.test_verify import files_of
from tests.injection.hostile import show_text

ELSEWHERE = (
    "../x",
    "a/../../x",
    "/x",
    "//x",
    "c:x",
    "c:\\x",
    "\\\\server\\share\\x",
    "a\\..\\..\\x",
    "..\\x",
    "//192.0.2.1/x",
)

NO_NAMES = (
    "",
    ".",
    "..",
    "...",
    " ",
    "a.",
    "a ",
    "CON",
    "con",
    "nul.txt",
    "Com1",
    "COM\u00b9.yaml",
    "lpt9.a.b",
    "aux .yaml",
    "a:b",
    "a\\b",
    "a|b",
    "a?b",
    "a*b",
    'a"b',
    "<a>",
    "a\0b",
    "a\nb",
    "a\x1b[2J",
    "a\x9bb",
    "\u202egnp.exe",
    "\u2066a",
    "a" * 256,
    "é" * 128,
    "\ud800",
)

NAMES = (
    "a",
    "show.yaml",
    "console.yaml",
    "con-sole",
    "nul-pack.csv",
    "COM10.csv",
    "lpt.csv",
    ".hidden",
    "böse ß.csv",
    "日本.yaml",
    "😀.yaml",
    "a.b.c",
    "a" * 255,
    "-rf",
    "~",
)


@pytest.mark.parametrize("name", NO_NAMES)
def test_what_some_disk_refuses_or_reads_as_another_is_no_name(name):
    if name != "\ud800":
        assert not is_file_name(name)
    with pytest.raises(OutputError):
        publish(Path("nowhere"), {f"rack/{name}" if name else "rack/": b""})
    assert find_unfit(f"a/{name}", ())


@pytest.mark.parametrize("name", NAMES)
def test_what_every_disk_takes_is_a_name(name):
    assert is_file_name(name)


@pytest.mark.parametrize("path", ELSEWHERE)
def test_a_sweep_elsewhere_is_never_opened(path, tmp_path, monkeypatch):
    import json

    from paperwork.files import sweep

    assert not lies_below(path)
    monkeypatch.setattr(sweep, "read_sweep", lambda *_: pytest.fail("it was opened"))
    (tmp_path / "show.yaml").write_text(
        f"spectrum: {{sweeps: [{json.dumps(path)}]}}\nchannels: {{1: {{}}}}\n", encoding="utf-8"
    )
    assert "sweep-outside" in {finding.code for finding in read_show(tmp_path / "show.yaml", "show.yaml").findings}


def test_a_sweep_below_is_opened():
    assert all(map(lies_below, ("a.csv", "air/a.csv", "air\\a.csv", "a..b/c", ".a/b")))


@pytest.mark.parametrize("path", (*ELSEWHERE, *NO_NAMES[1:]))
def test_an_archive_cannot_write_elsewhere(path, tmp_path):
    try:
        data = repack({**files_of(small_archive()), f"inputs/{path}": b"x"})
    except UnicodeEncodeError:  # half a sign has no bytes to be written with
        return
    (tmp_path / "a.zip").write_bytes(data)
    outcome = (
        CliRunner()
        .invoke(restore, [str(tmp_path / "a.zip"), "-o", str(tmp_path / "out")], standalone_mode=False)
        .return_value
    )
    assert outcome.code in (1, 2), outcome
    assert sorted(found.name for found in tmp_path.rglob("*")) == ["a.zip"]


def zip_of(entries: list[tuple[str, bytes, int]]) -> bytes:
    import warnings

    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as packed, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for name, data, mode in entries:
            info = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            info.create_system = 3
            info.external_attr = mode << 16
            packed.writestr(info, data)
    return buffer.getvalue()


@pytest.mark.parametrize(
    ("name", "mode"),
    (
        ("inputs/link", 0o120777),
        ("inputs/show.yaml", 0o100644),
        ("inputs/SHOW.yaml", 0o100644),
        ("inputs/Show.YAML", 0o100644),
    ),
)
def test_links_and_names_that_meet_are_refused(name, mode):
    from paperwork.archive.sums import NAME, write_sums

    files = [(path, data) for path, data in files_of(small_archive()).items() if path != NAME]
    files.append((name, b"/etc/passwd"))
    entries = [(path, data, mode if (path, data) == files[-1] else 0o100644) for path, data in files]
    entries.append((NAME, write_sums(dict(files)), 0o100644))
    with pytest.raises(Refused):
        pick_inputs(zip_of(entries), "a.zip")


@pytest.mark.parametrize(
    "where",
    (
        "out",
        "out/rack",
        "out/rack/channel-chart.pdf",
        "out/index.html",
        "out/.paperwork-manifest.json",
        "out/.paperwork-stage",
    ),
)
def test_a_link_in_the_output_folder_is_never_followed(where, tmp_path):
    (tmp_path / "show.yaml").write_text("channels: {1: {by: Ann}}\n", encoding="utf-8")
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "kept").write_text("kept")
    link = tmp_path / where
    link.parent.mkdir(parents=True, exist_ok=True)
    os.symlink(outside if where in ("out", "out/rack", "out/.paperwork-stage") else outside / "kept", link)
    arguments = [str(tmp_path / "show.yaml"), "-o", str(tmp_path / "out"), "--only", "channel-chart"]
    outcome = CliRunner().invoke(build, arguments, standalone_mode=False).return_value
    assert (outside / "kept").read_text() == "kept"
    if where == "out":  # the user named this folder, and may keep it elsewhere
        assert outcome.code == 0
    else:
        assert [found.name for found in outside.iterdir()] == ["kept"]


def test_files_are_never_added_through_a_link(tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "out").mkdir()
    os.symlink(tmp_path / "elsewhere", tmp_path / "out" / "sweeps")
    with pytest.raises(OutputError):
        add_files(tmp_path / "out", {"sweeps/a.csv": b"x"})
    assert not list((tmp_path / "elsewhere").iterdir())


@pytest.mark.parametrize("revision", ("CON", "../../x", "a/b", "x" * 300, "\u00e9😀", "..", "~", "*"))
def test_an_archive_is_named_beside_its_show_whatever_the_revision(revision, tmp_path):
    import json

    folder = tmp_path / "shows"
    folder.mkdir()
    (folder / "show.yaml").write_text(
        f"show: {{title: Gala, revision: {json.dumps(revision)}}}\nchannels: {{1: {{by: Ann}}}}\n", encoding="utf-8"
    )
    outcome = CliRunner().invoke(archive, [str(folder / "show.yaml")], standalone_mode=False).return_value
    assert outcome.code in (0, 2)
    made = [path for path in tmp_path.rglob("*") if path.is_file() and path.name != "show.yaml"]
    assert all(path.parent == folder and is_file_name(path.name) for path in made) and len(made) == (outcome.code == 0)


def test_a_tag_makes_nothing(tmp_path):
    for tag in (
        "!!python/object/apply:os.system x",
        "!!python/name:os.system",
        "!!python/module:os",
        "!x y",
        "!!binary aGk=",
    ):
        (tmp_path / "show.yaml").write_text(f"channels:\n  1:\n    by: {tag}\n", encoding="utf-8")
        reading = read_show(tmp_path / "show.yaml", "show.yaml")
        assert reading.show is None and "yaml-tag" in {finding.code for finding in reading.findings}
    assert [path.name for path in tmp_path.iterdir()] == ["show.yaml"]


def test_a_whole_build_of_a_hostile_show_touches_nothing_else(tmp_path):
    """The real command under the guard of the fuzzer: notes that name local files and other machines are only text."""
    import subprocess
    import sys

    root = Path(__file__).resolve().parents[2]
    code = """
import sys
from tests.fuzz.runner import Runner
from tests.fuzz.ways import Try
from tests.injection.hostile import MARKUP, show_text
runner = Runner()
try:
    for text in MARKUP[8:14]:
        runner.judge(Try({"show.yaml": show_text(text).encode()}, ("build", "in/show.yaml", "-o", "out")))
finally:
    runner.close()
print("held")
"""
    told = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=False)
    assert told.stdout.endswith("held\n"), told.stderr[-1500:]
    assert show_text("a")


LONG = "x" * 300


def test_names_that_no_disk_takes_are_refused_in_words_by_every_command(tmp_path, monkeypatch):
    """The system refuses to look at a name of 300 characters, or one with a zero: that is no fault of ours, nor a traceback."""
    import json
    from importlib import import_module

    from paperwork.commands import COMMANDS

    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text("channels: {1: {by: Ann}}\n", encoding="utf-8")
    Path(f"{'l' * 246}.csv").write_text("Ch;Actor;Freq\n1;Ann;518.2\n2;Bo;519.2\n", encoding="utf-8")
    spectrum = json.dumps({"spectrum": {"sweeps": [LONG, "a/" + LONG, "a\0b"]}, "channels": {"1": {"by": "Ann"}}})
    Path("sweeps.yaml").write_text(spectrum, encoding="utf-8")
    lines = (
        ("check", LONG),
        ("check", f"{'l' * 246}.csv"),
        ("check", f"a/{LONG}/b"),
        ("check", "sweeps.yaml"),
        ("check", "show.yaml", "--since", LONG),
        ("check", "show.xlsx", "--mark", LONG),
        ("build", LONG),
        ("build", "show.yaml", "-o", LONG),
        ("build", "show.yaml", "-o", f"{LONG}/a"),
        ("build", "show.yaml", "--since", LONG),
        ("build", "sweeps.yaml", "--only", "channel-chart"),
        ("build", "show.yaml", "--printer", "a", "--printers", LONG),
        ("tonight", "show.yaml", "--off", "Ann", "-o", LONG),
        ("changes", LONG, LONG),
        ("changes", LONG),
        ("changes", "show.yaml", "show.yaml", "-o", LONG),
        ("archive", "show.yaml", "-o", LONG),
        ("archive", "show.yaml", "--after", LONG),
        ("archive", "sweeps.yaml"),
        ("verify", LONG),
        ("restore", LONG, "-o", LONG),
        ("new", f"{LONG}.yaml"),
        ("convert", "show.yaml", f"{LONG}.yaml"),
        ("convert", LONG, "b.yaml"),
        ("answer", LONG),
        ("answer", f"{'l' * 246}.csv"),
        ("assign", "show.yaml", "-o", LONG),
        ("request", "show.yaml", f"{LONG}.csv"),
        ("request", LONG, "r.csv"),
        ("reply", "show.yaml", LONG, "-o", "n.yaml"),
        ("reply", LONG, "list.csv", "-o", "n.yaml"),
        ("set", LONG, "show/title=A", "-o", "n.yaml"),
        ("set", "show.yaml", "show/title=A", "-o", LONG),
        ("survey", LONG),
        ("watch", LONG),
        ("audit", "show.yaml", LONG),
        ("launcher", LONG),
        ("launcher", ".", "-o", LONG),
    )
    assert {line[0] for line in lines} >= set(COMMANDS) - {"serve", "explain"}
    for line in lines:
        result = CliRunner().invoke(
            import_module(f"paperwork.commands.{line[0]}").command, list(line[1:]), standalone_mode=False, input=""
        )
        outcome = result.return_value
        assert result.exception is None or type(result.exception).__module__.startswith("click"), (
            line,
            result.exception,
        )
        assert outcome is None or outcome.code in (0, 1, 2)
