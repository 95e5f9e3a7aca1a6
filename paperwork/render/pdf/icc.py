"""A colour profile of sRGB, made from its published figures: small, and without a date in it."""

import struct

_PRIMARIES = (
    (b"rXYZ", (0.4361, 0.2225, 0.0139)),
    (b"gXYZ", (0.3851, 0.7169, 0.0971)),
    (b"bXYZ", (0.1431, 0.0606, 0.7141)),
)
"""The colorants of sRGB (IEC 61966-2-1:1999, table 1), adapted to D50 as ICC.1:2001-04 asks; rounded, from memory."""

_WHITE = (0.9505, 1.0, 1.0891)
"""D65, the media white point of sRGB (IEC 61966-2-1:1999)."""

_ILLUMINANT = (0.9642, 1.0, 0.8249)
"""D50, the illuminant of the profile connection space (ICC.1:2001-04, 6.1.9)."""

_STEPS = 256


def make_srgb() -> bytes:
    """An ICC profile of version 2.1 for a display: three colorants and one curve for all (ICC.1:2001-04). Same bytes always."""
    tags = [
        (b"desc", _describe(b"sRGB")),
        (b"cprt", b"text\0\0\0\0Public domain\0"),
        (b"wtpt", _xyz(_WHITE)),
        *((name, _xyz(value)) for name, value in _PRIMARIES),
        (b"rTRC", _curve()),
    ]
    start = 132 + 12 * (len(tags) + 2)
    table, body = b"", b""
    for name, data in tags:
        entry = struct.pack(">II", start + len(body), len(data))
        names = (b"rTRC", b"gTRC", b"bTRC") if name == b"rTRC" else (name,)
        table += b"".join(each + entry for each in names)
        body += data + b"\0" * (-len(data) % 4)
    return _header(start + len(body)) + struct.pack(">I", len(tags) + 2) + table + body


def _header(size: int) -> bytes:
    """The first 128 bytes (ICC.1:2001-04, 6.1). The date is the year 2000 on every day."""
    head = struct.pack(">I4xI4s4s4s6H4s", size, 0x02100000, b"mntr", b"RGB ", b"XYZ ", 2000, 1, 1, 0, 0, 0, b"acsp")
    return head.ljust(68, b"\0") + b"".join(map(_fixed, _ILLUMINANT)) + bytes(48)


def _fixed(value: float) -> bytes:
    """A number of 16 whole and 16 fractional bits."""
    return struct.pack(">i", round(value * 65_536))


def _xyz(value: tuple[float, float, float]) -> bytes:
    return b"XYZ \0\0\0\0" + b"".join(map(_fixed, value))


def _curve() -> bytes:
    """The transfer curve of sRGB (IEC 61966-2-1:1999, 5.2) in 256 steps."""
    levels = [step / (_STEPS - 1) for step in range(_STEPS)]
    linear = [level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4 for level in levels]
    return b"curv\0\0\0\0" + struct.pack(f">I{_STEPS}H", _STEPS, *(round(65_535 * level) for level in linear))


def _describe(name: bytes) -> bytes:
    """A description in ASCII; its Unicode and script parts are empty (ICC.1:2001-04, 6.5.17)."""
    return b"desc\0\0\0\0" + struct.pack(">I", len(name) + 1) + name + b"\0" + bytes(4 + 4 + 2 + 1 + 67)
