"""Bytes that mean harm or nothing: refused in words, never an exception, never more memory than a show needs."""

import io
import random
import zipfile
from dataclasses import replace

import pytest

from paperwork.archive import pick_inputs, verify_archive
from paperwork.archive.history import read_revision
from paperwork.files.refusal import Refused
from tests.archive.samples import INPUTS, small_archive
from tests.archive.test_inputs import SHOW, SWEEP, book

ROUNDS = 400


def mangle(data: bytes, dice: random.Random) -> bytes:
    """Some bytes changed, a stretch cut out, doubled or put elsewhere."""
    mangled = bytearray(data)
    for _ in range(dice.randint(1, 4)):
        start, length = dice.randrange(len(mangled)), dice.randint(1, 60)
        match dice.randint(0, 3):
            case 0:
                mangled[start] = dice.randrange(256)
            case 1:
                del mangled[start : start + length]
            case 2:
                mangled[start:start] = mangled[start : start + length]
            case _:
                mangled[start : start + length] = dice.randbytes(length)
        mangled = mangled or bytearray(b"x")
    return bytes(mangled)


@pytest.mark.parametrize("data", (small_archive(), book(SHOW, SWEEP)), ids=("archive", "book"))
def test_mangled_bytes_are_refused_or_give_back_what_was_put_in(data):
    dice = random.Random(4711)
    for _ in range(ROUNDS):
        mangled = mangle(data, dice)
        try:
            assert set(pick_inputs(mangled, "a").files.values()) <= set(INPUTS.values())
        except Refused as refused:
            assert refused.finding.text
        verify_archive(mangled, "a")
        try:
            read_revision(mangled, "a")
        except Refused as refused:
            assert refused.finding.fix


def test_an_archive_whose_page_about_itself_is_something_else_is_refused():
    from tests.archive.test_inputs import repack
    from tests.archive.test_verify import files_of

    for page in (b"[]", b"{}", b"\xff\xfe", b'{"show file": 7}', b'{"history": 3}', b"[" * 5000):
        data = repack({**files_of(small_archive()), "archive.json": page})
        with pytest.raises(Refused):
            pick_inputs(data, "a.zip")


def test_a_book_that_unpacks_to_a_huge_size_is_refused():
    forged = book(replace(SHOW, data=bytes(120_000_000)))
    assert len(forged) < 1_000_000
    with pytest.raises(Refused) as refused:
        pick_inputs(forged, "book.pdf")
    assert refused.value.finding.code == "archive-unsafe"


def test_many_names_for_one_stretch_of_bytes_do_not_multiply_it():
    """Entries that overlap: each claims the same large file."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a", bytes(40_000_000))
        first = archive.infolist()[0]
        for number in range(50):
            again = zipfile.ZipInfo(f"copy {number}")
            for field in ("compress_type", "CRC", "compress_size", "file_size", "header_offset", "external_attr"):
                setattr(again, field, getattr(first, field))
            archive.filelist.append(again)
            archive.NameToInfo[again.filename] = again
    assert [finding.code for finding in verify_archive(buffer.getvalue(), "a.zip").findings] == ["archive-unsafe"]


def test_a_file_without_a_name_is_told_and_no_fault_of_ours():
    from tests.archive.test_inputs import repack
    from tests.archive.test_verify import files_of

    data = repack({**files_of(small_archive()), "": b"x"})
    assert verify_archive(data, "a.zip").findings
    with pytest.raises(Refused):
        pick_inputs(data.replace(b"show file", b"show-file"), "a.zip")


def test_a_list_of_a_million_digests_is_not_believed():
    from paperwork.archive.container import pack_files
    from paperwork.archive.sums import read_sums

    sums = b"".join(b"%064x  f%d\n" % (number, number) for number in range(5_000))
    listed, bad = read_sums(sums)
    assert len(listed) == 2_000 and bad
    assert verify_archive(pack_files({"archive.json": b"{}", "SHA256SUMS": sums}), "a.zip").findings
