"""Four characters by which two sets of facts differ, short enough to read out over a headset."""

import hashlib

ALPHABET = "234679ACFHJKLMNRTUVWXY"
"""Twenty-two signs: digits and capitals less those that are taken for one another when written by hand or read out
(0 D O Q, 1 I, 5 S, 8 B, 2 and Z, and E G P). A choice of this project, no source."""

LENGTH = 4


def fingerprint(data: bytes) -> str:
    """Four characters of `ALPHABET` made from the SHA-256 of the bytes: 234,256 values, alike on every machine."""
    number = int.from_bytes(hashlib.sha256(data).digest(), "big")
    signs = ""
    for _ in range(LENGTH):
        number, sign = divmod(number, len(ALPHABET))
        signs = ALPHABET[sign] + signs
    return signs
