"""A file's bytes, and what kind of file they are: by the first bytes, then by the name's ending."""

import codecs
import io
import os
import stat
from pathlib import Path
from typing import Literal, Protocol, TypeAlias

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.place import Place

Kind: TypeAlias = Literal["yaml", "xlsx", "csv"]

TABLES: tuple[Kind, ...] = ("xlsx", "csv")
"""The kinds that may be somebody else's list; a file of another kind is a show of ours."""

_ZIP = b"PK\x03\x04"
_EMPTY_ZIP = b"PK\x05\x06"
_COMPOUND = bytes.fromhex("D0CF11E0A1B11AE1")
"""First bytes of a compound file ([MS-CFB] 2.2): old workbooks, and new ones under a password."""

_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
"""The stream that holds a workbook under a password ([MS-OFFCRYPTO] 2.3.4.4)."""

_SIGNATURES: tuple[tuple[bytes, str], ...] = (
    (b"%PDF-", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"\x1f\x8b", "a compressed file"),
    (b"7z\xbc\xaf\x27\x1c", "a compressed file"),
    (b"{\\rtf", "a word processor's file"),
)
"""First bytes of what is handed over by mistake; each is given by its own format's specification."""

_MARKUP = (b"<!doctype html", b"<html", b"<table", b"<?xml", b"<body", b"<head", b"<meta")
_TEXT_SUFFIXES = {".yaml", ".yml", ".json"}
_BOOK_SUFFIXES = {".xlsx", ".xlsm", ".xltx", ".xltm"}
_TABLE_SUFFIXES = {".csv", ".tsv", ".tab"}

_SAVE_AS = "open it in the program that made it and save the table as .xlsx"
_NAME_SHOW = "name the show's .yaml or .xlsx file"


def load_file(path: Path, name: str, *, most: int | None = None) -> bytes:
    """The whole file, at most so many bytes, by default those of a show file. Devices and pipes are never opened.

    Raises Refused, worded for the person who typed the name, for whatever keeps it from being read.
    """
    place = Place(name)
    most = limits.FILE_BYTES if most is None else most
    try:
        _refuse_special(path.stat().st_mode, path, name)
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with open(handle, "rb") as file:
            _refuse_special(os.fstat(file.fileno()).st_mode, path, name)
            data = file.read(most + 1)
    except (FileNotFoundError, NotADirectoryError):
        raise Refused(find("file-missing", place, name=name, nearest=_name_nearest(path))) from None
    except PermissionError:
        raise Refused(find("file-denied", place, name=name)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name is not allowed"
        raise Refused(find("file-unreadable", place, name=name, reason=reason)) from None
    if len(data) > most:
        raise Refused(find("file-large", place, name=name, most=f"{most:,}"))
    return data


class Load(Protocol):
    """Gives the bytes of a file, as `load_file` does."""

    def __call__(self, path: Path, name: str, *, most: int | None = None) -> bytes: ...


class ReadOnce:
    """Files that are read once: what is checked, printed and kept is one state of them, whoever saves meanwhile."""

    def __init__(self) -> None:
        self._held: dict[Path, bytes] = {}

    def load(self, path: Path, name: str, *, most: int | None = None) -> bytes:
        """As `load_file`; a file that was read before is given as it was then."""
        if path not in self._held:
            self._held[path] = load_file(path, name, most=most)
        return self._held[path]


def sniff(data: bytes, name: str) -> tuple[Kind, tuple[Finding, ...]]:
    """`yaml`, `xlsx` or `csv`, with a warning if the name says otherwise. Raises Refused for everything else."""
    suffix = Path(name).suffix.lower()
    if not data.removeprefix(codecs.BOM_UTF8).strip():
        raise Refused(find("file-empty", Place(name), name=name, detail=""))
    if Path(name).name.startswith("~$"):
        remedy = "name the workbook itself, without the ~$"
        raise _refuse(name, "the lock that a spreadsheet program leaves beside an open workbook", remedy)
    if data.startswith((_ZIP, _EMPTY_ZIP)):
        _refuse_other_zip(data, name)
        return "xlsx", () if suffix in _BOOK_SUFFIXES else (_misnamed(name, "a workbook", ".xlsx"),)
    if data.startswith(_COMPOUND):
        if _ENCRYPTED in data:
            raise Refused(find("file-password", Place(name), name=name))
        raise Refused(find("file-old-workbook", Place(name), name=name))
    _refuse_other(data, name)
    if suffix in _TABLE_SUFFIXES:
        return "csv", ()
    if suffix not in _TEXT_SUFFIXES and _looks_parted(data):
        return "csv", () if suffix == ".txt" else (_misnamed(name, "a table of separated values", ".csv"),)
    return "yaml", () if suffix in _TEXT_SUFFIXES else (_misnamed(name, "YAML text", ".yaml"),)


def _looks_parted(data: bytes) -> bool:
    """Whether text is a table: the first lines all parted by one separator, as no YAML would be."""
    lines = [line for line in data[:8192].splitlines()[:10] if line.strip()]
    if any(line.rstrip().endswith(b":") or line.lstrip().startswith(b"#") for line in lines):
        return False
    return len(lines) > 1 and any(all(mark in line for line in lines) for mark in (b"\t", b";", b","))


def _refuse_special(mode: int, path: Path, name: str) -> None:
    if stat.S_ISDIR(mode):
        shows = sorted(entry for entry in _list_folder(path) if Path(entry).suffix.lower() in {".yaml", ".xlsx"})
        nearest = f", for example {shows[0]}" if shows else ""
        raise Refused(find("file-folder", Place(name), name=name, nearest=nearest))
    if not stat.S_ISREG(mode):
        raise Refused(find("file-special", Place(name), name=name))


def _refuse_other(data: bytes, name: str) -> None:
    """Raises Refused if the bytes are no text, or text of another kind."""
    for signature, what in _SIGNATURES:
        if data.startswith(signature):
            raise _refuse(name, what, _NAME_SHOW)
    head = data[:4096].removeprefix(codecs.BOM_UTF8).lstrip().lower()
    if head.startswith(_MARKUP):
        raise _refuse(name, "a web page or XML" + (" with a workbook's name" if ".xl" in name else ""), _SAVE_AS)
    if b"\0" in data and not data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise _refuse(name, "not text: it holds zero bytes", f"{_NAME_SHOW}; save text as UTF-8")


def _refuse_other_zip(data: bytes, name: str) -> None:
    import zipfile

    from paperwork.files.zip_check import refuse_many_parts

    refuse_many_parts(data, name)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = set(archive.namelist())
    except (zipfile.BadZipFile, NotImplementedError, ValueError, OSError):
        reason = "it begins as a workbook but has no end"
        raise Refused(find("file-damaged", Place(name), name=name, reason=reason)) from None
    if "xl/workbook.bin" in parts:
        raise _refuse(name, "a workbook of the binary kind (.xlsb)", _SAVE_AS)
    if "content.xml" in parts:
        raise _refuse(name, "an OpenDocument file", _SAVE_AS)
    if "[Content_Types].xml" not in parts or not any(part.startswith("xl/") for part in parts):
        raise _refuse(name, "a packed folder but no workbook", _NAME_SHOW)


def _refuse(name: str, what: str, remedy: str) -> Refused:
    return Refused(find("file-kind", Place(name), name=name, what=what, remedy=remedy))


def _misnamed(name: str, what: str, suffix: str) -> Finding:
    return find("file-misnamed", Place(name), name=name, what=what, suffix=suffix)


def _name_nearest(path: Path) -> str:
    """`; did you mean show.yaml?` for the name in that folder that is most like the missing one, else ""."""
    if not os.path.isdir(path.parent):
        return f"; there is no folder {path.parent.name or path.parent}"
    from difflib import get_close_matches

    near = get_close_matches(path.name, _list_folder(path.parent), n=1)
    return f"; did you mean {near[0]}?" if near else ""


def _list_folder(folder: Path) -> list[str]:
    try:
        return sorted(os.listdir(folder))[: limits.FOLDER_NAMES]
    except OSError:
        return []
