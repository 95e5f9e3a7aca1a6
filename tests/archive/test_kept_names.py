"""Whatever can be archived can be restored: names that some disks refuse, twins, and a save in the middle."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from paperwork.archive import pick_inputs
from paperwork.files.refusal import Refused
from paperwork.files.sniff import ReadOnce
from paperwork.intake.answers import name_answers
from paperwork.model import Show, Spectrum
from paperwork.reading import read_show
from paperwork.revisions import gather_inputs
from tests.archive.samples import small_archive

ODD = ("Show 16:20.yaml", "What now?.yaml", "a|b.yaml", "aux.yaml", "a\\b.yaml", "n" * 240 + ".yaml", "con.")

names = st.text(st.sampled_from('abAB .:?*|<>"\\-_\u00e9e\u0301\u00df\u65e5\u202e\t'), min_size=1, max_size=40).filter(
    lambda name: name.strip(".")
)


def keep(folder: str, name: str, *sweeps: str) -> dict[str, bytes]:
    """The inputs of a show in a folder, each file holding its own name."""
    for one in (name, *sweeps):
        Path(folder, one).write_bytes(one.encode())
    return gather_inputs(Path(folder) / name, name, Show(spectrum=Spectrum(sweeps=sweeps)))


@given(name=names, sweeps=st.lists(names, max_size=3))
@example(name="a:b.yaml", sweeps=["a-b.yaml"])
@example(name="e\u0301.yaml", sweeps=["\u00e9.yaml"])
def test_what_an_archive_takes_it_gives_back_under_names_that_every_disk_takes(name, sweeps):
    with TemporaryDirectory() as folder:
        try:
            inputs = keep(folder, name, *sweeps)
        except Refused as refused:
            assert sweeps and refused.finding.code in ("archive-input-name", "archive-input-outside", "file-missing")
            return
    kept = pick_inputs(small_archive(inputs=inputs), "a.zip")
    assert kept.files == inputs and kept.files[kept.show] == name.encode()
    assert {path for path in inputs if path != kept.show} == set(sweeps) - {kept.show}


@pytest.mark.parametrize("name", ODD)
def test_a_show_file_is_archived_whatever_it_is_called(tmp_path, name):
    (tmp_path / name_answers(name)[-255:]).write_bytes(b"answers")
    inputs = keep(str(tmp_path), name)
    assert next(iter(inputs)) != name and pick_inputs(small_archive(inputs=inputs), "a.zip").files == inputs


@pytest.mark.parametrize("sweeps", (("Sweep.csv", "sweep.csv"), ("\u00e9.csv", "e\u0301.csv"), ("16:20.csv",)))
def test_a_sweep_that_could_not_be_put_back_is_refused_before_there_is_an_archive(tmp_path, sweeps):
    with pytest.raises(Refused) as refused:
        keep(str(tmp_path), "show.yaml", *sweeps)
    assert refused.value.finding.code == "archive-input-name"


def test_a_save_after_the_show_was_read_is_not_in_its_archive(tmp_path):
    show, opened = tmp_path / "show.yaml", ReadOnce()
    show.write_text(
        "show: {title: Glass}\nspectrum: {sweeps: a.csv}\nchannels: {01: {mhz: 486.200}}\n", encoding="utf-8"
    )
    (tmp_path / "a.csv").write_text("486.2,-91\n486.3,-90\n", encoding="utf-8")
    before = {one.name: one.read_bytes() for one in tmp_path.iterdir()}
    reading = read_show(show, show.name, load=opened.load)
    show.write_text("show: {title: Brass}\n", encoding="utf-8")
    (tmp_path / "a.csv").unlink()
    assert gather_inputs(show, show.name, reading.show, opened.load) == before
