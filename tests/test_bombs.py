"""Small files that would grow without end, each read by the real command in a process that may hold 400 MB and no more.

Every one is built to be as costly as the bounds let it be; what stops it is the bound, not the system.
"""

import io
import random
import resource
import struct
import subprocess
import sys
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.fuzz.guard import MEMORY_BYTES
from tests.fuzz.packages import unpack
from tests.intake.sheets import workbook

SHEET, STRINGS, RELS, TYPES = (
    "xl/worksheets/sheet1.xml",
    "xl/sharedStrings.xml",
    "xl/_rels/workbook.xml.rels",
    "[Content_Types].xml",
)
SST = b'<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
PARTS = unpack(workbook({"Mics": [["Ch", "Actor", "Freq"], [1, "Mara", 518.2], [2, "Max", 518.6]]}))
NOISE = random.Random(1).randbytes(700_000)
"""Bytes that do not pack: with them a part may pack as well as it likes, and the whole still passes."""


def book(**parts: bytes | Callable[[bytes], bytes]) -> bytes:
    """A workbook with other parts, or with a part changed."""
    changed = {name: part(PARTS[name]) if callable(part) else part for name, part in parts.items()}
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as archive:
        for name, data in {**PARTS, **changed, "xl/media/noise.bin": NOISE}.items():
            archive.writestr(name, data)
    return buffer.getvalue()


def in_sheet(xml: bytes) -> dict[str, Callable[[bytes], bytes]]:
    return {SHEET: lambda text: text.replace(b"</sheetData>", xml + b"</sheetData>")}


def with_strings(xml: bytes) -> dict:
    relation = b'<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/>'
    kind = b'<Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/>'
    return {
        STRINGS: SST + xml + b"</sst>",
        RELS: lambda text: text.replace(b"</Relationships>", relation + b"</Relationships>"),
        TYPES: lambda text: text.replace(b"</Types>", kind + b"</Types>"),
    }


def rows_of(cell: bytes, count: int) -> bytes:
    return b"".join(b'<row r="%d">' % (number + 4) + cell * 100 + b"</row>" for number in range(count // 100))


def archive_of(**files: bytes) -> bytes:
    from paperwork.archive.container import pack_files

    return pack_files({name.replace("_", "."): data for name, data in files.items()})


def entries() -> bytes:
    """A zip that lists a name 900,000 times."""
    one = struct.pack("<4sHHHHHHIIIHHHHHII", b"PK\x01\x02", 20, 20, 0, 0, 0, 33, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0) + b"a"
    head = b"PK\x03\x04archive.json SHA256SUMS"
    return (
        head
        + one * 900_000
        + struct.pack("<4sHHHHIIH", b"PK\x05\x06", 0, 0, 65_535, 65_535, len(one) * 900_000, len(head), 0)
    )


def cross_references() -> bytes:
    """A PDF whose table of objects unpacks to 400 MB."""
    table = zlib.compress(bytes(400_000_000), 1)
    head = (
        b"%PDF-1.5\n1 0 obj\n<</Type/XRef/W[1 4 2]/Size 50000000/Root 2 0 R/Filter/FlateDecode/Length "
        + str(len(table)).encode()
    )
    return head + b">>\nstream\n" + table + b"\nendstream\nendobj\nstartxref\n9\n%%EOF"


def photo(mode: str, width: int, height: int) -> bytes:
    from PIL import Image

    buffer = io.BytesIO()
    Image.new(mode, (width, height)).save(buffer, "PNG", compress_level=1)
    return buffer.getvalue()


BOMBS: dict[str, tuple[str, Callable[[], bytes]]] = {
    "cells to the bound": (
        "check list.xlsx",
        lambda: book(**in_sheet(rows_of(b'<c t="inlineStr"><is><t>a</t></is></c>', 140_000))),
    ),
    "cells with a control sign each": (
        "check list.xlsx",
        lambda: book(**in_sheet(rows_of(b'<c t="str"><v>a_x0007_</v></c>', 60_000))),
    ),
    "cells beyond the bound": ("check list.xlsx", lambda: book(**in_sheet(rows_of(b"<c><v>1</v></c>", 390_000)))),
    "shared texts": ("check list.xlsx", lambda: book(**with_strings(b"<si><t>abc</t></si>" * 240_000))),
    "one text of 49 MB": (
        "check list.xlsx",
        lambda: book(
            **{
                **with_strings(b"<si><t>Ch</t></si><si><t>" + b"a" * 49_000_000 + b"</t></si>"),
                **in_sheet(b'<row r="9"><c r="A9" t="s"><v>1</v></c></row>'),
            }
        ),
    ),
    "attributes": (
        "check list.xlsx",
        lambda: book(**in_sheet((b"<row " + b" ".join(b'a%d="1"' % n for n in range(1_800)) + b"/>") * 2_000)),
    ),
    "styles": (
        "check list.xlsx",
        lambda: book(
            **{
                "xl/styles.xml": lambda text: text.replace(
                    b"</cellXfs>", b'<xf numFmtId="0"/>' * 190_000 + b"</cellXfs>"
                )
            }
        ),
    ),
    "one sheet 20,000 times": (
        "check list.xlsx",
        lambda: book(
            **{
                "xl/workbook.xml": lambda text: text.replace(
                    b"</sheets>",
                    b'<sheet name="a" r:id="rId1" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"/>'
                    * 20_000
                    + b"</sheets>",
                )
            }
        ),
    ),
    "hidden columns": (
        "check list.xlsx",
        lambda: book(
            **{
                SHEET: lambda text: text.replace(
                    b"<sheetData>", b"<cols>" + b'<col min="1" max="500" hidden="1"/>' * 60_000 + b"</cols><sheetData>"
                )
            }
        ),
    ),
    "a wide table": ("check list.csv", lambda: (b"x," * 499 + b"x\n") * 280),
    "control signs in a list": ("check list.csv", lambda: b"Ch,Name,Freq\n" + b"1\x07,a\x07,518.2\x07\n" * 19_000),
    "lines": ("check show.yaml", lambda: b"\n" * 7_900_000 + b"a: b"),
    "nodes": ("check show.yaml", lambda: b"channels: {1: {by: [" + b"a," * 190_000 + b"]}}"),
    "comments that cut": ("check show.yaml", lambda: b"a: b #1\n" * 900_000),
    "lists of lists": (
        "check show.yaml",
        lambda: (
            b"channels: {1: {}}\nracks:\n"
            + b"".join(b'  r%d: {channels: "%s"}\n' % (n, b",".join([b"1-2000"] * 500)) for n in range(900))
        ),
    ),
    "channels off any raster": (
        "check show.yaml",
        lambda: (
            b"channels:\n"
            + b"".join(b"  %d: {mhz: %.6f}\n" % (n, 470 + random.Random(n).random() * 200) for n in range(5_000))
        ),
    ),
    "names that miss": (
        "check show.yaml",
        lambda: (
            b"capsules:\n"
            + b"".join(b"  capsule number %d: {}\n" % n for n in range(5_000))
            + b"channels:\n"
            + b"".join(b"  %d: {capsule: capsule numbr %d x}\n" % (n, n) for n in range(5_000))
        ),
    ),
    "a zip of names": ("verify a.zip", entries),
    "a list of digests": (
        "verify a.zip",
        lambda: archive_of(archive_json=b"{}", SHA256SUMS=b"".join(b"%064x  f%d\n" % (n, n) for n in range(500_000))),
    ),
    "a page about itself": (
        "restore a.zip -o out",
        lambda: archive_of(archive_json=b'{"history":[' + b",".join([b"{}"] * 10_000_000) + b"]}", SHA256SUMS=b""),
    ),
    "a table of objects": ("restore a.pdf -o out", cross_references),
    "a picture of 196 million pixels": ("audit show.yaml a.png", lambda: photo("L", 14_000, 14_000)),
    "a picture to the bound, in four colours": ("audit show.yaml a.png", lambda: photo("RGBA", 6_700, 6_700)),
}


def bound() -> None:
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_BYTES, MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (60, 60))


@pytest.mark.sweep
@pytest.mark.parametrize("what", BOMBS)
def test_it_is_read_or_refused_within_the_bounds(what, tmp_path):
    line, make = BOMBS[what]
    (tmp_path / "show.yaml").write_text("channels: {1: {by: Ann}}\n", encoding="utf-8")
    command, *arguments = line.split()
    (tmp_path / arguments[1 if command == "audit" else 0]).write_bytes(make())
    told = subprocess.run(
        [sys.executable, "-m", "paperwork", command, *arguments],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        preexec_fn=bound,
        check=False,
        env={"PYTHONPATH": str(Path(__file__).resolve().parent.parent), "PATH": "/usr/bin:/bin"},
    )
    assert told.returncode in (0, 1, 2), told.stderr[-500:]
    assert "MemoryError" not in told.stderr and "fault of paperwork" not in told.stderr
    assert not (tmp_path / "out").exists()
