"""Changed parts put into the zip of a workbook, all others as they are."""

import io
import zipfile
from collections.abc import Mapping


def replace_parts(data: bytes, changed: Mapping[str, bytes]) -> bytes:
    """The same zip with some parts changed, by their paths as it spells them; new ones behind the others."""
    target, rest = io.BytesIO(), dict(changed)
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(target, "w") as new:
        for info in old.infolist():
            fresh = zipfile.ZipInfo(info.filename, info.date_time)
            fresh.compress_type, fresh.external_attr = info.compress_type, info.external_attr
            fresh.create_system = info.create_system
            held = rest.pop(info.filename, None)
            new.writestr(fresh, old.read(info) if held is None else held)
        for path, text in rest.items():
            new.writestr(zipfile.ZipInfo(path, (1980, 1, 1, 0, 0, 0)), text, zipfile.ZIP_DEFLATED)
    return target.getvalue()


def read_drawn_notes(data: bytes, path: str) -> bytes:
    """How notes are drawn (VML), which has not the name of an XML part; b"" where there is none of that path."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return archive.read(path) if path in archive.namelist() else b""
