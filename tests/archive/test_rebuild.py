"""An archive made again from the show file in it: what is the same, and which file is not what that show gives."""

import json

import pytest

from paperwork.archive.container import pack_files
from paperwork.archive.sums import ABOUT, NAME, write_sums
from paperwork.commands.archive import command as archive
from paperwork.commands.verify import command as verify
from tests.archive.test_verify import files_of

SHOW = """
show: {title: Glass, revision: A, revised: 2027-03-01}
spectrum: {sweeps: a.csv, own transmitters: off}
channels: {01: {by: Mara Lind, mhz: 486.200}, 02: {by: Ben Arlo, mhz: 488.700}}
venues: {v: {venue: Barn, section: channels, record: 01, field: mhz, value: "490.900"}}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("rebuild")
    (folder / "Show 16:20.yaml").write_text(SHOW, encoding="utf-8")
    (folder / "a.csv").write_text("486.2,-101\n488.7,-102\n490.9,-99\n", encoding="utf-8")
    arguments = [str(folder / "Show 16:20.yaml"), "--venue", "Barn", "-o", str(folder / "a.zip")]
    assert archive.main(arguments, standalone_mode=False, obj={"made": "2027-05-01 10:00"}).code == 0
    return files_of((folder / "a.zip").read_bytes())


def check(folder, files: dict[str, bytes], **changes: bytes):
    """What the command says of an archive whose list fits its files, as a forger would make it."""
    files = {**files, **changes}
    files[NAME] = write_sums({name: data for name, data in files.items() if name != NAME})
    (folder / "a.zip").write_bytes(pack_files(files))
    return verify.main([str(folder / "a.zip"), "--rebuild"], standalone_mode=False)


def test_what_was_made_by_the_same_libraries_is_the_same_on_another_day(tmp_path, made):
    outcome = check(tmp_path, made)
    assert outcome.code == 0 and "facts and papers made again are the same" in outcome.text


@pytest.mark.parametrize("path", ("papers/rack/channel-chart.pdf", "facts.json", "tables/channels.csv"))
def test_a_forged_file_is_named_though_its_digest_is_listed(tmp_path, made, path):
    outcome = check(tmp_path, made, **{path: made[path].replace(b"4", b"5", 1)})
    assert outcome.code == 1 and outcome.text.count("[archive-rebuilt]") == 1 and path in outcome.text


def test_a_paper_more_or_less_is_named_too(tmp_path, made):
    outcome = check(tmp_path, made, **{"papers/rack/other.pdf": b"%PDF-1.4"})
    assert outcome.code == 1 and "papers/rack/other.pdf" in outcome.text


def test_other_versions_are_named_and_accuse_nobody(tmp_path, made):
    about = json.loads(made[ABOUT])
    about["versions"]["reportlab"] = "1.0"
    chart = {"papers/rack/channel-chart.pdf": b"%PDF-1.4 chart", ABOUT: json.dumps(about).encode()}
    outcome = check(tmp_path, made, **chart)
    assert outcome.code == 1 and "[archive-rebuilt-elsewhere]" in outcome.text and "reportlab 1.0, here" in outcome.text


def test_an_archive_without_its_show_cannot_be_made_again(tmp_path, made):
    about = json.loads(made[ABOUT]) | {"public": True}
    outcome = check(tmp_path, made, **{ABOUT: json.dumps(about).encode()})
    assert outcome.code == 2 and "[archive-public]" in outcome.aside
