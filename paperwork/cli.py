"""The command line: the only room that prints, exits and reads the clock, the environment and the terminal."""

import errno
import os
import re
import signal
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from importlib import import_module
from io import StringIO
from time import monotonic
from typing import Any

import click

from paperwork import __version__, limits
from paperwork.budget import limit_memory, limit_time, search_garbage_seldom
from paperwork.commands import COMMANDS
from paperwork.terminal import Outcome, plain
from paperwork.text.names import nearest

UNHURRIED = ("assign", "serve", "survey", "watch")
"""Commands that may take as long as they like: whoever runs them says for how long, or ends them."""

EXIT_BUG = 3
EXIT_UNPRINTED = 2
EXIT_INTERRUPTED = 130


class OutOfTime(BaseException):
    """A command took more of a processor's time than it may."""


class Commands(click.Group):
    """The commands by name, each loaded when it is called, so that none pays for another's libraries."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"paperwork.commands.{cmd_name}").command
        return command

    def resolve_command(self, ctx: click.Context, args: list[str]) -> Any:
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            meant = nearest(args[0], COMMANDS)
            ctx.fail(f"there is no command {args[0]}" + (f"; did you mean {meant}?" if meant else ""))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Start here:  paperwork build example_show/show.yaml",
)
@click.version_option(__version__, prog_name="paperwork")
@click.option("-q", "--quiet", is_flag=True, help="Say nothing while all is well.")
@click.pass_context
def root(context: click.Context, quiet: bool) -> None:
    """From one show file, every printed paper that a show with radio microphones needs: checked, and of one revision.

    Commands complete in bash with: eval "$(_PAPERWORK_COMPLETE=bash_source paperwork)", in zsh and fish alike.
    """
    context.obj["quiet"] = quiet
    _hold_to_budget(context.invoked_subcommand or "")
    context.obj.update(made=_made_date(), today=_today(), now=_now, stop=_make_stop())
    if not quiet and (sys.stderr.isatty() or os.environ.get("PAPERWORK_PROGRESS")):
        context.obj.update(progress=_make_progress())
    if not quiet and sys.stderr.isatty():
        context.obj.update(printing=_make_printing(monotonic))


def main(arguments: list[str] | None = None) -> None:
    """Run one command, print what it has to say, and exit with its code."""
    _open_closed()
    given: dict[str, Any] = {"made": "", "progress": None, "stop": None, "printing": None}
    try:
        outcome = root.main(args=arguments, prog_name="paperwork", standalone_mode=False, obj=given)
    except click.ClickException as error:
        _say(plain(_word_error(error)))
        sys.exit(2)
    except (MemoryError, OutOfTime):
        _say(_word_budget())
        sys.exit(EXIT_UNPRINTED)
    except (click.Abort, KeyboardInterrupt):
        _say("stopped; nothing half-written is left behind\n")
        sys.exit(EXIT_INTERRUPTED)
    except Exception as error:
        if isinstance(error, OSError) and error.filename is None:  # a file that we open ourselves has a name
            sys.exit(_leave_stream(error))
        if os.environ.get("PAPERWORK_TRACEBACK"):
            raise
        _say(
            plain(f"this is a fault of paperwork, not of your show: {type(error).__name__}: {error}\n")
            + "    fix: report it with the show file; PAPERWORK_TRACEBACK=1 shows where it happened\n"
        )
        sys.exit(EXIT_BUG)
    sys.exit(_print(outcome, quiet=bool(given.get("quiet"))))


def _hold_to_budget(command: str) -> None:
    """Behind the bounds of fields: a file that still asks too much ends the command, not the machine."""
    search_garbage_seldom()

    def end(*_: object) -> None:
        raise OutOfTime

    limit_memory(limits.COMMAND_BYTES)
    if command not in UNHURRIED:
        limit_time(limits.COMMAND_SECONDS, end)


def _word_budget() -> str:
    most = f"{limits.COMMAND_SECONDS // 60} minutes of a processor or {limits.COMMAND_BYTES // 1_000_000} MB"
    return (
        f"this takes more than {most}, or than this machine has; nothing half-written is left behind\n"
        "    fix: look for a number, a range or a list in the file that is far too large, or ask for fewer papers at once\n"
    )


def _print(outcome: Any, *, quiet: bool) -> int:
    """Prints what a command has to say, where there is anything, and gives the code to exit with."""
    if not isinstance(outcome, Outcome):
        return outcome if isinstance(outcome, int) else 0
    try:
        if outcome.code or not quiet:
            _say(_colour(plain(outcome.aside), sys.stderr.isatty()))
            click.echo(_colour(plain(outcome.text), sys.stdout.isatty()), nl=False)
            sys.stdout.flush()
    except OSError as error:
        return _leave_stream(error)
    return outcome.code


def _open_closed() -> None:
    """Somebody may have closed what we print to; Python then has nothing in its place."""
    sys.stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    sys.stderr = sys.stderr or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115


def _leave_stream(error: OSError) -> int:
    """The code to exit with where what is printed cannot be taken. A reader that went away has seen enough."""
    sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115  what is held is not written again at the exit
    if error.errno == errno.EPIPE:
        return EXIT_INTERRUPTED
    try:
        _say(f"this could not be printed: {error.strerror}\n")
    except OSError:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115  nor this
    return EXIT_UNPRINTED


def _word_error(error: click.ClickException) -> str:
    """What the library has to say of a command line that it cannot use."""
    words = StringIO()
    error.show(file=words)
    return words.getvalue()


def _say(text: str) -> None:
    click.echo(text, nl=False, err=True)


def _colour(text: str, is_terminal: bool) -> str:
    """The text with its severities in colour, on a terminal that wants it (no-color.org); the words say it anyway."""
    if not is_terminal or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return text
    for word, colour in (("error", "red"), ("warning", "yellow")):
        text = re.sub(rf"(^|: ){word}: ", rf"\1{click.style(word, fg=colour, bold=True)}: ", text, flags=re.MULTILINE)
    return text


def _make_printing(clock: Callable[[], float]) -> Callable[[str, int], None]:
    """Shows which paper is printed, on one line that goes away, once printing takes more than a second."""
    began = clock()

    def show_paper(path: str, left: int) -> None:
        if clock() - began > 1:
            _say(f"\r\x1b[Kprinting {path}, {left} left" if left else "\r\x1b[K")

    return show_paper


def _make_progress() -> Callable[[int, int, int], None]:
    """Shows on a terminal how far a search is, once for each tenth of it."""
    shown = [0]

    def show_search(spent: int, effort: int, placed: int) -> None:
        tenth = min(10, 10 * spent // max(1, effort))
        if tenth != shown[0]:
            shown[0] = tenth
            _say(f"{placed} placed, {tenth * 10} % of the effort; Ctrl-C takes what is found\n")

    return show_search


def _make_stop() -> Callable[[], bool]:
    """Asks whether to stop. From the first time it is asked, Ctrl-C is an answer and not the end; a second one is."""
    state = {"asked": False, "stopped": False}

    def answer(number: int, frame: object) -> None:
        state["stopped"] = True
        signal.signal(signal.SIGINT, signal.default_int_handler)

    def stopped() -> bool:
        if not state["asked"]:
            state["asked"] = True
            signal.signal(signal.SIGINT, answer)
        return state["stopped"]

    return stopped


def _made_date() -> str:
    """The date that PDFs carry as their own, from SOURCE_DATE_EPOCH (reproducible-builds.org), else "".

    Without it the show's revision date is used, so that the same show always gives the same bytes.
    """
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if not epoch.isdigit():
        return ""
    return datetime.fromtimestamp(int(epoch), UTC).strftime("%Y-%m-%d %H:%M")


def _now() -> str:
    """The time where this machine is, as a part of a file's name: `2027-03-01-1620`."""
    return datetime.now().astimezone().strftime("%Y-%m-%d-%H%M")


def _today() -> str:
    """Today's date where this machine is, for the page that is of a day; SOURCE_DATE_EPOCH's where it is set."""
    return _made_date().partition(" ")[0] or datetime.now().astimezone().date().isoformat()


if __name__ == "__main__":
    main()
