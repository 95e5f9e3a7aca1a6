"""The named printers of this user: read from a small file in the folder for settings, or from one that is given."""

import os
from dataclasses import replace
from pathlib import Path

import click

from paperwork import limits
from paperwork.document import Printer, parse_printers
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.text.names import hint

FILE = "printers.toml"


def choose_printer(name: str, file: str | None, dpi: int | None) -> Printer:
    """The printer of a name, the plain one for "". `dpi` overrides what the file says.

    Raises click.BadParameter for a file that is not there or says nonsense, and for a name that is not in it.
    """
    printer = _read(name, Path(file) if file else _own_file()) if name else Printer()
    return replace(printer, dpi=dpi) if dpi else printer


def list_printers(file: str | None) -> dict[str, Printer]:
    """Every printer of the file, by default of the one in the folder for settings; none where that one is not there.

    Raises click.BadParameter for a file that was named and is not there, and for one that says nonsense.
    """
    path = Path(file) if file else _own_file()
    return _parse(path) if file or os.path.exists(path) else {}


def _own_file() -> Path:
    return Path(click.get_app_dir("paperwork")) / FILE


def _read(name: str, path: Path) -> Printer:
    printers = _parse(path, f"; write it with a table [{name}], or name another with --printers")
    if name not in printers:
        known = ", ".join(printers) or "none"
        raise click.BadParameter(f"{path} has no printer {name}{hint(name, printers)} (it has {known})")
    return printers[name]


def _parse(path: Path, otherwise: str = "") -> dict[str, Printer]:
    try:
        return parse_printers(load_file(path, str(path), most=limits.SETTINGS_BYTES).decode("utf-8"))
    except Refused as refused:
        raise click.BadParameter(f"cannot read {path}: {refused.finding.text}{otherwise}") from None
    except UnicodeDecodeError:
        raise click.BadParameter(f"cannot read {path}: it is not UTF-8 text{otherwise}") from None
    except ValueError as error:
        raise click.BadParameter(f"{path}: {error}") from None
