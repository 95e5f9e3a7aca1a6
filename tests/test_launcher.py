"""A file to double-click: it starts the page for its folder, whatever signs are in names."""

import configparser
import os
import shutil
import stat
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from paperwork.cli import root
from paperwork.commands.launcher import write_launcher
from paperwork.resources import read_text

ODD = ("shows", "My shows", "a $HOME `x` \"q\" 'r'", "50% off; rm -rf", "back\\slash", "Žółw ōta")


def launch(*arguments: str):
    return root.main(["launcher", *map(str, arguments)], standalone_mode=False, obj={})


def exec_of(text: str) -> list[str]:
    """The arguments of the Exec key as a desktop reads them: escapes of every string, quotes as a shell has them, then %%."""
    parser = configparser.ConfigParser(interpolation=None, strict=True)
    parser.optionxform = str
    parser.read_string(text)
    value = parser["Desktop Entry"]["Exec"].replace("\\\\", "\0").replace("\\s", " ").replace("\0", "\\")
    told = subprocess.run(["sh", "-c", f"printf '%s\\n' {value}"], capture_output=True, encoding="utf-8", check=True)
    return [one.replace("%%", "%") for one in told.stdout.splitlines()]


@pytest.mark.parametrize("name", ODD)
def test_a_desktop_entry_gives_each_path_back(name):
    python, shows = f"/opt/{name}/bin/python", f"/home/a/{name}"
    assert exec_of(write_launcher("linux", python, shows, "/i.svg")) == [python, "-m", "paperwork", "serve", shows]


def write_echo(tmp_path: Path) -> Path:
    """A program that says what it was given, a line each."""
    program = tmp_path / "python"
    program.write_text(f'#!{sys.executable}\nimport sys\nprint("\\n".join(sys.argv[1:]))\n')
    program.chmod(0o755)
    return program


@pytest.mark.skipif(shutil.which("gio") is None, reason="the launcher of GLib is not here")
@pytest.mark.parametrize("name", ODD)
def test_a_desktop_starts_the_program_with_each_path(name, tmp_path):
    (tmp_path / name).mkdir()
    entry = tmp_path / name / "paperwork.desktop"
    entry.write_text(write_launcher("linux", str(write_echo(tmp_path)), f"/home/{name}", "/i.svg"), encoding="utf-8")
    told = subprocess.run(["gio", "launch", entry], capture_output=True, encoding="utf-8", check=True).stdout
    assert told.splitlines() == ["-m", "paperwork", "serve", f"/home/{name}"]


@pytest.mark.skipif(
    shutil.which("desktop-file-validate") is None, reason="the validator of desktop entries is not here"
)
def test_a_desktop_entry_is_a_valid_one(tmp_path):
    launch(tmp_path, "--for", "linux")
    subprocess.run(["desktop-file-validate", tmp_path / "paperwork.desktop"], check=True)


@pytest.mark.parametrize("name", ODD)
def test_a_shell_gives_each_path_back(name, tmp_path):
    python = write_echo(tmp_path)
    script = tmp_path / "a.command"
    script.write_text(write_launcher("macos", str(python), f"/home/{name}", ""), encoding="utf-8")
    told = subprocess.run(["sh", script], capture_output=True, encoding="utf-8", check=True).stdout
    assert told.splitlines() == ["-m", "paperwork", "serve", f"/home/{name}"]


def test_a_batch_file_quotes_its_paths_and_names_no_variable():
    text = write_launcher("windows", "C:\\Program Files\\py\\python.exe", "C:\\100% shows & more", "")
    line = text.splitlines()[-1]
    assert (
        line
        == 'start "paperwork" /min "C:\\Program Files\\py\\python.exe" "-m" "paperwork" "serve" "C:\\100%% shows & more"'
    )
    assert text.count("\r\n") == 3


@pytest.mark.parametrize(
    "system, name", (("linux", "paperwork.desktop"), ("macos", "paperwork.command"), ("windows", "paperwork.bat"))
)
def test_it_is_written_once_and_never_over_another(tmp_path, system, name):
    outcome = launch(tmp_path, "--for", system)
    assert outcome.code == 0 and name in outcome.text
    assert bool(os.stat(tmp_path / name).st_mode & stat.S_IXUSR) == (system != "windows")
    before = (tmp_path / name).read_bytes()
    again = launch(tmp_path, "--for", system)
    assert again.code == 2 and name in again.aside and (tmp_path / name).read_bytes() == before


def test_a_desktop_entry_has_the_icon_beside_it_and_the_icon_is_a_picture(tmp_path):
    (tmp_path / "desk").mkdir()
    launch(tmp_path, "-o", tmp_path / "desk", "--for", "linux")
    icon = next(
        line for line in (tmp_path / "desk/paperwork.desktop").read_text().splitlines() if line.startswith("Icon=")
    )
    drawn = ElementTree.fromstring(Path(icon.removeprefix("Icon=")).read_bytes())
    assert drawn.tag.endswith("svg") and len(drawn) > 1 and read_text("templates", "icon.svg").startswith("<svg")


@pytest.mark.skipif(os.name != "posix", reason="a shell starts it")
def test_a_double_click_opens_the_page_of_its_folder(tmp_path):
    launch(tmp_path, "--for", "macos")
    served = subprocess.Popen(
        [tmp_path / "paperwork.command"],
        stdout=subprocess.PIPE,
        encoding="utf-8",
        env={**os.environ, "BROWSER": "true", "PATH": "/nowhere"},
    )
    try:
        assert "http://127.0.0.1:" in served.stdout.readline()
    finally:
        served.terminate()
        served.wait(20)
