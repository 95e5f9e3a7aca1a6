"""The zip around an archive: written so that one content has one form, read so that damage spoils as little as it can.

Files are stored as they are, without packing: the bytes then depend on no packing library, any tool opens them, and a
damaged byte spoils one file. Every fact about a file stands twice in a zip, before its bytes and in the table of
contents at the end, so it is read twice, and each reading stands for itself.
"""

import io
import struct
import zipfile
import zlib
from collections.abc import Mapping

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.files.zip_check import has_too_many_parts
from paperwork.finding import find
from paperwork.frozen import frozen
from paperwork.place import Place

_TIME = (1980, 1, 1, 0, 0, 0)
"""The earliest time that a zip can hold (APPNOTE 6.3.10, 4.4.6), on every file: its text says when it was made."""

_LOCAL = struct.Struct("<4sHHHHHIIIHH")
"""The header before each file's bytes (APPNOTE 6.3.10, 4.3.7)."""

_STORED, _DEFLATED = 0, 8
_LINK = 0o120000
_STREAMED = 0x08


@frozen
class PackedFile:
    """One file in a zip. `data` is None where its bytes cannot be had; `crc` is what this reading says they sum to."""

    name: str
    data: bytes | None
    crc: int
    is_link: bool = False

    @property
    def is_sound(self) -> bool:
        """Whether the bytes sum to what the zip says."""
        return self.data is not None and zlib.crc32(self.data) == self.crc


def pack_files(files: Mapping[str, bytes]) -> bytes:
    """A zip of the files in their order. Equal files give equal bytes, wherever and whenever it is made."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, data in files.items():
            info = zipfile.ZipInfo(name, _TIME)
            info.create_system = 3  # as if on Unix, on every system
            info.external_attr = 0o100644 << 16
            archive.writestr(info, data, zipfile.ZIP_STORED)
    return buffer.getvalue()


def read_parts(data: bytes, name: str) -> tuple[tuple[bool, tuple[PackedFile, ...]], ...]:
    """The files of a zip, in one or two readings: by the table of contents (True), and by the headers before the files.

    Raises Refused for what is not a zip, or would unpack to more than a show can be.
    """
    table, is_huge = _read_table(data)
    readings = tuple(reading for reading in ((True, table), (False, _read_headers(data))) if reading[1])
    if not readings and is_huge:
        raise Refused(find("archive-unsafe", Place(name), name=name, reason="it unpacks to more than any show"))
    if not readings:
        raise Refused(find("archive-unreadable", Place(name), name=name))
    return readings


def _read_table(data: bytes) -> tuple[tuple[PackedFile, ...], bool]:
    """By the table of contents at the end; nothing where it cannot be read or promises too much: then True."""
    if has_too_many_parts(data):
        return (), True
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            listed = archive.infolist()
    except (zipfile.BadZipFile, zipfile.LargeZipFile, NotImplementedError, ValueError, OSError, struct.error):
        return (), False
    if sum(max(one.file_size, one.compress_size) for one in listed) > limits.ARCHIVE_BYTES:
        return (), True
    parts = (
        PackedFile(one.filename, _take(data, one), one.CRC, (one.external_attr >> 16) & 0o170000 == _LINK)
        for one in listed
        if not one.filename.endswith("/")
    )
    return tuple(parts), False


def _take(data: bytes, info: zipfile.ZipInfo) -> bytes | None:
    """The bytes of one listed file. A damaged header before them may lie about its own length, so both are tried."""
    head = info.header_offset
    if not 0 <= head <= len(data) - _LOCAL.size:
        return None
    *_, name_length, extra_length = _LOCAL.unpack_from(data, head)
    starts = (head + _LOCAL.size + name_length + extra_length, head + _LOCAL.size + len(info.filename.encode("utf-8")))
    taken = [_unpack(data[start : start + info.compress_size], info) for start in starts]
    sound = (one for one in taken if one is not None and zlib.crc32(one) == info.CRC)
    return next(sound, taken[0])


def _unpack(packed: bytes, info: zipfile.ZipInfo) -> bytes | None:
    if info.compress_type == _STORED:
        return packed
    if info.compress_type != _DEFLATED:
        return None
    try:
        return zlib.decompressobj(-zlib.MAX_WBITS).decompress(packed, info.file_size + 1)
    except zlib.error:
        return None


def _read_headers(data: bytes) -> tuple[PackedFile, ...]:
    """By the headers, one file behind the other, as far as they are stored and give their lengths."""
    parts: list[PackedFile] = []
    at = 0
    while at + _LOCAL.size <= len(data) and len(parts) <= limits.ZIP_PARTS:
        sign, _, flags, method, _, _, crc, packed, size, name_length, extra_length = _LOCAL.unpack_from(data, at)
        start = at + _LOCAL.size + name_length + extra_length
        is_plain = sign == b"PK\x03\x04" and method == _STORED and not flags & _STREAMED and packed == size
        if not is_plain or not name_length or start + size > len(data):
            break
        name = data[at + _LOCAL.size : at + _LOCAL.size + name_length].decode("utf-8", "replace")
        parts.append(PackedFile(name, data[start : start + size], crc))
        at = start + size
    return tuple(parts)
