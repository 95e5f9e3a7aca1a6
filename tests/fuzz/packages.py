"""Packed files spoiled: workbooks by part, element and cell; archives by file and name; books by attachment; pictures by size."""

import io
import json
import re
import struct
import zipfile
import zlib
from functools import cache
from random import Random

from tests.fuzz.texts import pick_word, spoil_bytes, spoil_text

PATHS = (
    "../../out.txt",
    "/etc/passwd",
    "inputs/../../x",
    "inputs/a/../../../x",
    "inputs/CON",
    "inputs/nul.txt",
    "inputs/a.",
    "inputs/a ",
    "inputs/A/b",
    "inputs/show.YAML",
    "inputs/SHOW.yaml",
    "inputs/show.yaml/x",
    "inputs/" + "a" * 300,
    "inputs/\u202egnp.yaml",
    "inputs/a\0b",
    "inputs/a\nb",
    "inputs/",
    "inputs//x",
    "inputs/c:x",
    "c:\\x",
    "inputs/\x1b[2J",
    "inputs/😀.yaml",
    "inputs/.paperwork-manifest.json",
    "archive.json",
    "SHA256SUMS",
    "",
    "facts.json",
    "inputs/show.yaml",
)

_ELEMENT = re.compile(rb"<(c|row|v|t|f|is|r|mergeCell|col|sheet|xf|numFmt|Relationship|Override)\b[^>]*/?>")
_VALUE = re.compile(rb"(<(?:v|t|f)>)([^<]*)(</)")
_ATTRIBUTE = re.compile(rb'( [\w:]+=")([^"]*)(")')
_VALUES = (
    b"",
    b"0",
    b"-1",
    b"99999999999999999999",
    b"1E400",
    b"nan",
    b"A1",
    b"XFD1048576",
    b"A0",
    b"ZZZZ1",
    b"A1:XFD9",
    b"s",
    b"e",
    b"b",
    b"d",
    b"n",
    b"str",
    b"inlineStr",
    b"1.5",
    b"x",
    b"../x",
    b"http://192.0.2.1/a",
    b"file:///etc/passwd",
    b"visible",
    b"hidden",
    b"veryHidden",
    b"true",
    b"2027-02-30",
    b"45000.5",
    b"&#27;[2J",
    b"_x000B_",
    b"&amp;",
    b"=1+1",
)


@cache
def unpack(data: bytes) -> dict[str, bytes]:
    """The files of a zip, read by the standard library."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def pack(files: list[tuple[str, bytes]], dice: Random, links: bool = False) -> bytes:
    """A zip of files whose names may repeat; some entries may be links."""
    buffer = io.BytesIO()
    method = dice.choice((zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED))
    with zipfile.ZipFile(buffer, "w", method, compresslevel=1) as archive:
        for name, data in files:
            info = zipfile.ZipInfo("x", (1980, 1, 1, 0, 0, 0))
            info.compress_type = method
            info.filename = name
            info.create_system = 3
            info.external_attr = (0o120777 if links and dice.random() < 0.3 else 0o100644) << 16
            _write(archive, info, data)
    return buffer.getvalue()


def _write(archive: zipfile.ZipFile, info: zipfile.ZipInfo, data: bytes) -> None:
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        archive.writestr(info, data)


def spoil_workbook(data: bytes, dice: Random) -> bytes:
    """A workbook spoiled at one level: the zip's bytes, its parts, an element, or a cell."""
    level = dice.random()
    if level < 0.12:
        return spoil_bytes(data, dice)
    files = dict(unpack(data))
    for _ in range(dice.choice((1, 1, 2, 4))):
        sheets = [name for name in files if name.startswith("xl/worksheets/sheet")]
        name = dice.choice(sheets) if sheets and dice.random() < 0.6 else dice.choice(list(files))
        _spoil_part(files, name, level, dice)
    listed = list(files.items())
    if dice.random() < 0.05:
        listed.append(dice.choice(listed))
    return pack(listed, dice)


def _spoil_part(files: dict[str, bytes], name: str, level: float, dice: Random) -> None:
    part = files[name]
    if level < 0.2:
        match dice.randint(0, 4):
            case 0:
                del files[name]
            case 1:
                files[name + dice.choice(("x", "/", " "))] = files.pop(name)
            case 2:
                files[name] = dice.choice(
                    (
                        b"",
                        b"<a/>",
                        b"<?xml version='1.0'?><!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>",
                        b"\xff\xfe<\0a\0/\0>\0",
                        b"<a" * 2000,
                    )
                )
            case 3:
                files[name] = files[dice.choice(list(files))]
            case _:
                files[name] = spoil_bytes(part, dice)
    elif level < 0.45:
        files[name] = _spoil_element(part, dice)
    elif level < 0.7:
        files[name] = _replace(part, _ATTRIBUTE, dice.choice(_VALUES), dice)
    else:
        word = dice.choice(_VALUES) if dice.random() < 0.5 else _escape(pick_word(dice))
        files[name] = _replace(part, _VALUE, word, dice)


def _escape(word: str) -> bytes:
    return word.replace("&", "&amp;").replace("<", "&lt;").encode("utf-8", "replace")


def _replace(part: bytes, pattern: re.Pattern[bytes], word: bytes, dice: Random) -> bytes:
    found = list(pattern.finditer(part[:200_000]))
    if not found:
        return part
    match = dice.choice(found)
    return part[: match.start(2)] + word + part[match.end(2) :]


def _spoil_element(part: bytes, dice: Random) -> bytes:
    found = list(_ELEMENT.finditer(part[:200_000]))
    if not found:
        return spoil_bytes(part, dice)
    match = dice.choice(found)
    new = dice.choice(
        (
            b"",
            match[0] * 2,
            match[0] * 500,
            dice.choice(found)[0],
            b"<x/>",
            b'<mergeCells><mergeCell ref="A1:B9"/></mergeCells>',
            b'<c r="C3" t="s"><v>9999</v></c>',
        )
    )
    return part[: match.start()] + new + part[match.end() :]


def spoil_archive(data: bytes, dice: Random) -> bytes:
    """An archive spoiled: its bytes, its names, what it says of itself, with a list of digests that fits or does not."""
    from paperwork.archive.sums import NAME, write_sums

    if dice.random() < 0.25:
        return spoil_bytes(data, dice)
    files = list(unpack(data).items())
    for _ in range(dice.choice((1, 1, 2, 3))):
        at = dice.randrange(len(files))
        name, content = files[at]
        match dice.randint(0, 7):
            case 0:
                del files[at]
            case 1:
                files[at] = (dice.choice(PATHS), content)
            case 2:
                files.append((dice.choice(PATHS), dice.choice((content, b"x", b""))))
            case 3:
                files[at] = (name, spoil_bytes(content, dice))
            case 4:
                files.insert(dice.randint(0, len(files)), files.pop(at))
            case 5:
                files.append(files[at])
            case _:
                files = [(one, _spoil_about(old, dice) if one == "archive.json" else old) for one, old in files]
        files = files or [("x", b"")]
    if dice.random() < 0.7:
        plain = {name: content for name, content in files if name != NAME}
        files = [(name, content) for name, content in files if name != NAME] + [(NAME, write_sums(plain))]
    return pack(files, dice, links=dice.random() < 0.2)


def _spoil_about(content: bytes, dice: Random) -> bytes:
    try:
        about = json.loads(content)
        key = dice.choice(list(about))
        about[key] = dice.choice(
            (
                3,
                None,
                True,
                [],
                {},
                "x",
                [3],
                [[]],
                {"a": 1},
                "../x",
                [None],
                -1,
                1e9,
                pick_word(dice),
                [{"revision": 3}],
                [[1, 2]],
            )
        )
        return json.dumps(about).encode()
    except (ValueError, TypeError, IndexError, AttributeError):
        return spoil_bytes(content, dice)


_SPEC = re.compile(rb"/UF \(((?:[^()\\]|\\.)*)\)")


def spoil_book(data: bytes, dice: Random) -> bytes:
    """A book spoiled: its bytes, its names of attachments, its filters and lengths."""
    roll = dice.random()
    if roll < 0.4:
        return spoil_bytes(data, dice)
    if roll < 0.6:
        name = dice.choice(PATHS).encode("utf-16-be", "replace").hex().encode()
        return _SPEC.sub(b"/UF <FEFF" + name + b">", data, count=dice.choice((1, 2)))
    if roll < 0.8:
        old, new = dice.choice(
            (
                (b"/FlateDecode", b"/LZWDecode"),
                (b"/FlateDecode", b"[/FlateDecode /FlateDecode]"),
                (b"/Source", b"/Data"),
                (b"/CheckSum", b"/Checksum"),
                (b"/AF", b"/AG"),
                (b"/EF", b"/EG"),
                (b"/Root", b"/Roof"),
                (b"/Params", b"/Parens"),
                (b"endobj", b"endob"),
                (b"xref", b"xreg"),
                (b"/Kids", b"/Kid"),
                (b" 0 R", b" 9 R"),
                (b"/Length", b"/Len"),
                (b"%%EOF", b""),
                (b"obj", b"obj <<"),
                (b"stream", b"steam"),
                (b"/Type", b"/Tape"),
                (b"/Prev", b"/Prew"),
                (b"/Size", b"/Prev 9 /Size"),
            )
        )
        at = dice.randint(0, len(data))
        return data.replace(old, new) if dice.random() < 0.5 else data[:at] + data[at:].replace(old, new, 1)
    text = spoil_text(
        data.decode("latin-1"), dice, "trailer << /Root 1 0 R /Prev 0 >>\n1 0 obj << /AF [1 0 R 2 0 R] >> endobj\n"
    )
    return text.encode("latin-1", "replace")


def spoil_photo(data: bytes, dice: Random) -> bytes:
    """A picture spoiled: its bytes, or the size that it claims."""
    if data.startswith(b"\x89PNG") and dice.random() < 0.5:
        size = struct.pack(">II", *(dice.choice((0, 1, 7, 3000, 20_000, 2**31 - 1)) for _ in "wh"))
        head = b"IHDR" + size + data[24:29]
        return data[:12] + head + struct.pack(">I", zlib.crc32(head)) + data[33:]
    if data.startswith(b"\xff\xd8") and dice.random() < 0.4:
        at = data.find(b"\xff\xc0")
        return data[: at + 5] + struct.pack(">HH", *(dice.choice((0, 1, 3000, 65_535)) for _ in "hw")) + data[at + 9 :]
    return spoil_bytes(data, dice)
