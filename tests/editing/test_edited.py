"""A show file with edits, read again: what is known of it already is not read twice."""

from paperwork.editing.edited import read_edited
from paperwork.files.yaml import read as reader
from paperwork.finding import Edit
from tests.shows_text import EXAMPLES


def test_an_edit_reads_the_edited_file_once_and_nothing_else(monkeypatch):
    show = read_edited((EXAMPLES / "show.yaml").read_bytes(), "show.yaml", lambda *_: ((), ()))
    channel = next(iter(show.reading.show.channels))
    read, seen = reader.read_yaml, []
    monkeypatch.setattr(reader, "read_yaml", lambda text, name, **how: seen.append(text) or read(text, name, **how))
    after = show.make([Edit("channels", channel, "notes", "a new lead")])
    assert [text.encode() for text in seen] == [after.data]
    fresh = read_edited(after.data, "show.yaml", lambda *_: ((), ()))
    assert (after.raw, after.reading) == (fresh.raw, fresh.reading)
