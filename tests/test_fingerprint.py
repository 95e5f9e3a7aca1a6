"""Fingerprints."""

import hashlib

from paperwork.text.fingerprint import ALPHABET, fingerprint


def test_fingerprint_is_the_hash_counted_in_the_alphabet():
    number = int(hashlib.sha256(b"facts").hexdigest(), 16)
    signs = [ALPHABET[number // len(ALPHABET) ** power % len(ALPHABET)] for power in (3, 2, 1, 0)]
    assert fingerprint(b"facts") == "".join(signs)


def test_alphabet_has_no_sign_twice_and_none_that_is_taken_for_another():
    assert len(set(ALPHABET)) == len(ALPHABET) == 22
    assert not set("01O5SI8BZEGPQD") & set(ALPHABET)


def test_one_altered_byte_alters_the_fingerprint():
    assert len({fingerprint(bytes([value])) for value in range(256)}) > 250
