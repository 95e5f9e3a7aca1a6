"""What every command shares: what it hands to `cli`, its options, its words on the screen, its folders."""

from paperwork.frozen import frozen


@frozen
class Outcome:
    """What a command has to say: text for the output, text for the error stream, and the exit code."""

    text: str = ""
    aside: str = ""
    code: int = 0


def name_extra(missing: ModuleNotFoundError, extra: str, what: str) -> str:
    """The one line to print where a library of an extra is not installed. Raises the error again if it is our own fault."""
    if (missing.name or "paperwork").startswith("paperwork"):
        raise missing
    return f"{what} needs {missing.name}, which is not installed; run: pip install 'show-paperwork[{extra}]'\n"
