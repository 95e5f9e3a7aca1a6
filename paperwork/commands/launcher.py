"""`paperwork launcher`: a file to double-click that opens the page, for whoever does not type commands."""

import importlib.util
import os
import re
import shlex
import sys
from pathlib import Path
from typing import Literal, TypeAlias

import click

from paperwork.output import OutputError, write_new
from paperwork.resources import read_text
from paperwork.terminal import Outcome, name_extra

System: TypeAlias = Literal["linux", "macos", "windows"]

NAMES: dict[System, str] = {"linux": "paperwork.desktop", "macos": "paperwork.command", "windows": "paperwork.bat"}
ICON = "paperwork-icon.svg"

_RESERVED = re.compile(r'(["`$\\])')
"""Signs that are written with a backslash within quotes: Desktop Entry Specification 1.5, "The Exec key"."""


@click.command(
    epilog="Examples:  paperwork launcher  |  paperwork launcher shows -o ~/Desktop  |  paperwork launcher --for windows"
)
@click.argument("folder", type=click.Path(exists=True, file_okay=False), default=".")
@click.option(
    "-o", "--output", type=click.Path(exists=True, file_okay=False), help="Where to put it.  [default: FOLDER]"
)
@click.option("--for", "system", type=click.Choice([*NAMES]), help="The system it is for.  [default: this one]")
def command(folder: str, output: str | None, system: System | None) -> Outcome:
    """Write a file to double-click: it opens the page for the shows of FOLDER.

    It starts the program where it is installed now. If you move that, write a new one. A file that is there is never
    replaced.
    """
    if importlib.util.find_spec("uvicorn") is None:
        return Outcome(aside=name_extra(ModuleNotFoundError(name="uvicorn"), "page", "the local page"), code=2)
    system, shows = system or find_system(), str(Path(folder).resolve())
    if any(ord(sign) < 32 for sign in shows + sys.executable):
        return Outcome(
            aside=f"{shows!r} has a sign in its name that no launcher can carry: rename the folder\n", code=2
        )
    place = Path(output or folder)
    target, icon = place / NAMES[system], (place / ICON).resolve()
    try:
        write_new(target, write_launcher(system, sys.executable, shows, str(icon)).encode("utf-8"))
        if system == "linux" and not icon.exists():
            write_new(icon, read_text("templates", "icon.svg").encode("utf-8"))
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    if system != "windows":
        os.chmod(target, 0o755)
    allow = "  (on some desktops, right-click it once and allow it to start)\n"
    return Outcome(f"{target}: double-click it to open the page for {shows}\n{allow if system == 'linux' else ''}")


def find_system() -> System:
    """The system that this runs on."""
    return {"win32": "windows", "darwin": "macos"}.get(sys.platform, "linux")  # type: ignore[return-value]


def write_launcher(system: System, python: str, shows: str, icon: str) -> str:
    """The text of the file. Paths are whole, and hold no control signs."""
    if system == "macos":
        return f"#!/bin/sh\nexec {shlex.join((python, '-m', 'paperwork', 'serve', shows))}\n"
    if system == "windows":
        start = " ".join(f'"{_in_batch(one)}"' for one in (python, "-m", "paperwork", "serve", shows))
        return f'@echo off\r\nchcp 65001 >nul\r\nstart "paperwork" /min {start}\r\n'
    words = " ".join((_in_entry(python), "-m", "paperwork", "serve", _in_entry(shows)))
    lines = ("[Desktop Entry]", "Type=Application", "Name=paperwork", "Comment=Papers of a show with radio microphones")
    return "\n".join((*lines, f"Exec={words}", f"Icon={_in_string(icon)}", "Terminal=false", ""))


def _in_batch(text: str) -> str:
    """A path in quotes: no name on that system holds a quote; a percent sign would name a variable."""
    return text.replace("%", "%%")


def _in_entry(text: str) -> str:
    """An argument of the Exec key: quoted by its rule, then by that of every string."""
    quoted = _RESERVED.sub(r"\\\1", text.replace("%", "%%"))
    return _in_string(f'"{quoted}"')


def _in_string(text: str) -> str:
    return text.replace("\\", "\\\\")
