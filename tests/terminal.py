"""A command line without a process of its own: what a command says and its code, as a terminal gets them.

A process takes longer to start than most commands to run. What only a process shows (streams that close, signals, what
is loaded) is tried in one: `test_manners`, `test_start_up`, `test_same_bytes`.
"""

import io
import os
import sys
from contextlib import chdir
from pathlib import Path
from subprocess import CompletedProcess
from unittest.mock import patch

from paperwork.cli import main


def run_bytes(*arguments: str | Path, cwd: Path, typed: str = "", **environment: str) -> CompletedProcess[bytes]:
    """What a command says, in bytes of UTF-8."""
    given, out, err = (io.TextIOWrapper(io.BytesIO(said.encode()), encoding="utf-8") for said in (typed, "", ""))
    code = 0
    with chdir(cwd), patch.dict(os.environ, environment), patch.multiple(sys, stdin=given, stdout=out, stderr=err):
        try:
            main([str(one) for one in arguments])
        except SystemExit as end:
            code = int(end.code or 0)
    for stream in (out, err):
        stream.flush()
    return CompletedProcess(arguments, code, out.buffer.getvalue(), err.buffer.getvalue())


def run(*arguments: str | Path, cwd: Path, typed: str = "", **environment: str) -> CompletedProcess[str]:
    """What a command says, in text with line ends as they are."""
    done = run_bytes(*arguments, cwd=cwd, typed=typed, **environment)
    return CompletedProcess(done.args, done.returncode, done.stdout.decode(), done.stderr.decode())
