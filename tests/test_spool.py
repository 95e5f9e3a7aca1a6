"""Files that wait for the others on the disk: they come back as they were, and a full disk is said."""

import errno

import pytest

from paperwork.output import OutputError, Spool, publish
from paperwork.output import spool as room


@pytest.mark.parametrize("memory", (0, 10, 10**9))
def test_files_come_back_as_they_were_and_are_published(tmp_path, monkeypatch, memory):
    monkeypatch.setattr(room, "MEMORY_BYTES", memory)
    files = {f"a/{number}.pdf": bytes([number]) * number * 7 for number in range(40)}
    spool = Spool()
    spool.update(files)
    spool["a/3.pdf"] = files["a/3.pdf"] = b"again"
    del spool["a/4.pdf"], files["a/4.pdf"]
    assert dict(spool) == files and len(spool) == len(files)
    publish(tmp_path / "out", spool, last="a/1.pdf")
    assert {f"a/{path.name}": path.read_bytes() for path in (tmp_path / "out/a").iterdir()} == files


def test_a_full_disk_of_temporary_files_is_said_in_words(monkeypatch):
    class Full:
        def seek(self, *_):
            return 0

        def write(self, _):
            raise OSError(errno.ENOSPC, "No space left on device")

        def close(self):
            pass

    monkeypatch.setattr(room, "SpooledTemporaryFile", lambda _: Full())
    with pytest.raises(OutputError, match=r"No space left on device.*TMPDIR"):
        Spool()["a.pdf"] = b"x"
