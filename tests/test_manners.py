"""Terminal manners: quiet, colour and progress only where they are wanted, completion, help that teaches."""

import os
import pty
import re
import subprocess
import sys

import pytest

CLASH = "channels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n"
CLEAN = "channels:\n  1: {by: Ann, mhz: 486.200}\n"


def run_in_terminal(*arguments: str, cwd, **environment: str) -> str:
    """What a command writes to a terminal, both streams together."""
    master, slave = pty.openpty()
    plain = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "TERM")}
    with subprocess.Popen(
        [sys.executable, "-m", "paperwork", *arguments],
        cwd=cwd,
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env={**plain, "TERM": "xterm", **environment},
    ) as process:
        os.close(slave)
        told = b""
        while True:
            try:
                part = os.read(master, 65_536)
            except OSError:
                break
            if not part:
                break
            told += part
        process.wait(60)
    os.close(master)
    return told.decode("utf-8", "replace")


@pytest.mark.parametrize(
    ("environment", "is_coloured"), (({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False))
)
def test_severities_are_coloured_on_a_terminal_that_wants_it(tmp_path, environment, is_coloured):
    (tmp_path / "show.yaml").write_text(CLASH, encoding="utf-8")
    told = run_in_terminal("check", "show.yaml", cwd=tmp_path, **environment)
    assert ("\x1b[31m" in told) == is_coloured and "error" in told


def test_nothing_but_text_goes_into_a_pipe(tmp_path):
    (tmp_path / "show.yaml").write_text(CLASH, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "paperwork", "build", "show.yaml"],
        cwd=tmp_path,
        check=False,
        capture_output=True,
        env={**os.environ, "TERM": "xterm"},
    )
    assert (
        b"\x1b" not in done.stdout + done.stderr
        and b"\r" not in done.stdout + done.stderr
        and b"printing" not in done.stderr
    )


def test_quiet_says_nothing_while_all_is_well_and_all_when_it_is_not(tmp_path):
    (tmp_path / "show.yaml").write_text(CLEAN, encoding="utf-8")
    quiet = [sys.executable, "-m", "paperwork", "--quiet", "check", "show.yaml"]
    done = subprocess.run(quiet, cwd=tmp_path, check=False, capture_output=True, encoding="utf-8")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    (tmp_path / "show.yaml").write_text(CLASH, encoding="utf-8")
    done = subprocess.run(quiet, cwd=tmp_path, check=False, capture_output=True, encoding="utf-8")
    assert done.returncode == 1 and "both on 486.200 MHz" in done.stdout


def test_progress_is_told_after_a_second_and_taken_away(capsys):
    from paperwork.cli import _make_printing

    moments = iter((0.0, 0.5, 1.5, 2.0))
    tell = _make_printing(lambda: next(moments))
    for path, left in (("rack/a.pdf", 2), ("rack/b.pdf", 1), ("rack/c.pdf", 0)):
        tell(path, left)
    assert capsys.readouterr().err.replace("\x1b[K", "") == "\rprinting rack/b.pdf, 1 left\r"


@pytest.mark.parametrize(
    ("shell", "sign"), (("bash", "complete -o"), ("zsh", "compdef"), ("fish", "complete --no-files"))
)
def test_commands_complete_in_the_common_shells(shell, sign, tmp_path):
    code = "from paperwork.cli import main; main([])"
    environment = {**os.environ, "_PAPERWORK_COMPLETE": f"{shell}_source"}
    done = subprocess.run(
        [sys.executable, "-c", code], check=False, capture_output=True, encoding="utf-8", env=environment, cwd=tmp_path
    )
    if shell == "bash" and "Bash version" in done.stderr:
        pytest.fail(done.stderr)
    assert sign in done.stdout
    words = {**os.environ, "_PAPERWORK_COMPLETE": "zsh_complete", "COMP_WORDS": "paperwork au", "COMP_CWORD": "1"}
    done = subprocess.run(
        [sys.executable, "-c", code], check=False, capture_output=True, encoding="utf-8", env=words, cwd=tmp_path
    )
    assert re.findall(r"^plain\n(\w+)$", done.stdout, re.MULTILINE) == ["audit"]
