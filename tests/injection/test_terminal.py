"""What is printed in a terminal is only read there: escape sequences, turned text and forged lines are shown as codes."""

import json
import os
import re
import subprocess

import pytest

from paperwork.terminal import plain
from tests.few import few_of
from tests.terminal import run_bytes

OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f\ufeff]")

NAMES = {
    "a colour": "\x1b[31mred",
    "a cleared screen": "\x1b[2J\x1b[H",
    "a title": "\x1b]0;owned\x07",
    "a link": "\x1b]8;;http://192.0.2.1\x1b\\x\x1b]8;;\x1b\\",
    "a control of eight bits": "\x9b31m",
    "a carriage return": "good.yaml\rbad",
    "a backspace": "abc\b\b\bx",
    "text turned around": "\u202egnp.yaml",
    "an isolate": "\u2066x\u2069",
    "a bell": "\x07",
    "a line end": "x.yaml\nshow.yaml:1:1: error: forged [forged]",
}


def lines_of(told: subprocess.CompletedProcess[bytes]) -> list[str]:
    text = (told.stdout + told.stderr).decode("utf-8")
    assert not OBEYED.search(text), OBEYED.search(text)
    return text.splitlines()


@pytest.mark.parametrize("what", NAMES)
@pytest.mark.parametrize("form", ("text", "json", "sarif"))
def test_a_files_name_is_shown_and_not_obeyed(what, form, tmp_path):
    name = f"{NAMES[what]}.yaml"
    (tmp_path / name.replace("/", "_")).write_text("channels: {1: {mhz: x}}\n", encoding="utf-8")
    told = run_bytes("check", name.replace("/", "_"), "--format", form, cwd=tmp_path)
    lines = lines_of(told)
    assert told.returncode == 1 and b"Traceback" not in told.stderr
    if form == "text":
        assert not any(line.startswith("show.yaml:1:1: error: forged") for line in lines)
    if form == "json":
        (finding,) = json.loads(told.stdout)
        assert finding["place"]["file"] == name.replace("/", "_")


@pytest.mark.parametrize("what", few_of(NAMES, 2))
def test_a_name_that_is_not_there_is_shown_and_not_obeyed(what, tmp_path):
    for command in (
        ("check",),
        ("restore", "-o", "x"),
        ("verify",),
        ("build",),
        ("answer",),
        ("explain",),
        ("audit", "a.jpg"),
    ):
        told = run_bytes(command[0], NAMES[what], *command[1:], cwd=tmp_path)
        lines_of(told)
        assert told.returncode in (1, 2), command
    lines_of(run_bytes(NAMES[what], cwd=tmp_path))
    lines_of(run_bytes("check", f"--{NAMES[what]}", cwd=tmp_path))


@pytest.mark.parametrize("what", [what for what in NAMES if what not in ("text turned around", "an isolate")])
def test_text_of_a_show_is_shown_and_not_obeyed(what, tmp_path):
    text = json.dumps(NAMES[what])
    (tmp_path / "show.yaml").write_text(
        f"channels: {{1: {{capsule: {text}, mhz: {text}}}}}\ncapsules: {{b: {{}}}}\n", encoding="utf-8"
    )
    for form in ("text", "json", "sarif"):
        lines = lines_of(run_bytes("check", "show.yaml", "--format", form, cwd=tmp_path))
        assert (
            form != "text"
            or sum(" error: " in line.split("show.yaml:")[-1] for line in lines if line.startswith("show.yaml:")) <= 3
        )


def test_a_name_that_is_no_text_is_told(tmp_path):
    """A name of bytes that are no UTF-8, as a stick from another system has."""
    (tmp_path / os.fsdecode(b"caf\xe9.yaml")).write_text("channels: {1: {mhz: x}}\n")
    for form in ("text", "json", "sarif"):
        told = run_bytes("check", os.fsdecode(b"caf\xe9.yaml"), "--format", form, cwd=tmp_path)
        assert told.returncode == 1 and b"Traceback" not in told.stderr and b"fault of paperwork" not in told.stderr


def test_questions_are_shown_and_not_obeyed(tmp_path):
    (tmp_path / "list.csv").write_bytes(
        "Ch;Actor;Freq\n1;\x1b[2JMara \u202eLind;1.518,200\n2;Max\x9b31m Ried;1.518,300\n".encode()
    )
    told = run_bytes("answer", "list.csv", typed="\x1b[2J\n9\n", cwd=tmp_path)
    lines_of(told)
    assert told.returncode in (0, 1)


def test_sarif_names_files_as_addresses(tmp_path):
    (tmp_path / "a b#c%?.yaml").write_text("channels: {1: {mhz: x}}\n")
    told = run_bytes("check", "a b#c%?.yaml", "--format", "sarif", cwd=tmp_path)
    (result,) = json.loads(told.stdout)["runs"][0]["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "a%20b%23c%25%3F.yaml"


def test_ordinary_text_is_left_as_it_is():
    for text in ("Mara Lind", "Dvořák\tx\n", "Ελένη", "👩\u200d👩", "a\u00a0b", ""):
        assert plain(text) == text
    assert plain("\x1b\x9b\u202e\udc80") == "\\u001b\\u009b\\u202e\\udc80"
