"""The named printers of this user: read from a small file in the folder for settings, or from one that is given."""

from dataclasses import replace
from pathlib import Path

import click

from paperwork.document import Printer, parse_printers
from paperwork.names import hint

FILE = "printers.toml"


def choose_printer(name: str, file: str | None, dpi: int | None) -> Printer:
    """The printer of a name, the plain one for "". `dpi` overrides what the file says.

    Raises click.BadParameter for a file that is not there or says nonsense, and for a name that is not in it.
    """
    printer = _read(name, Path(file) if file else Path(click.get_app_dir("paperwork")) / FILE) if name else Printer()
    return replace(printer, dpi=dpi) if dpi else printer


def _read(name: str, path: Path) -> Printer:
    try:
        printers = parse_printers(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError):
        raise click.BadParameter(f"cannot read {path}; write it with a table [{name}], or name another with --printers") from None
    except ValueError as error:
        raise click.BadParameter(f"{path}: {error}") from None
    if name not in printers:
        known = ", ".join(printers) or "none"
        raise click.BadParameter(f"{path} has no printer {name}{hint(name, printers)} (it has {known})")
    return printers[name]
