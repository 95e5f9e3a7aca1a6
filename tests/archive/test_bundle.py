"""What is in an archive, and that it is the same for everybody."""

import csv
import io
import json
import tomllib
from dataclasses import replace
from importlib import metadata

from paperwork.archive import bundle
from paperwork.archive.bundle import list_versions
from paperwork.archive.container import pack_files
from paperwork.finding import Subject, find
from paperwork.model.facts import canonical_facts, fingerprint_show
from paperwork.place import Place
from tests.archive.samples import INPUTS, small_archive, small_record
from tests.archive.test_verify import files_of
from tests.shows_text import EXAMPLES


def test_it_holds_inputs_facts_papers_findings_versions_and_digests():
    files = files_of(small_archive())
    assert {name: files[f"inputs/{name}"] for name in INPUTS} == INPUTS
    assert files["facts.json"].rstrip(b"\n") == canonical_facts(small_record().show)
    assert files["papers/rack/channel-chart.pdf"] == b"%PDF-1.4 chart"
    about = json.loads(files["archive.json"])
    assert about["fingerprint"] == fingerprint_show(small_record().show)
    assert (about["revision"], about["reason"], about["replaces"]) == ("B", "new packs", "A")
    assert about["papers"] == [
        {
            "path": "papers/rack/channel-chart.pdf",
            "title": "Channel chart",
            "pages": 1,
            "codes": ["7F3A"],
            "stamped": [],
            "labels": [],
        }
    ]
    assert about["versions"] == list_versions()
    assert next(iter(files)) == "README.txt" and list(files)[-1] == "SHA256SUMS"


def test_its_versions_are_those_of_every_library_that_it_needs_and_pip_reads_them():
    wanted = tomllib.loads((EXAMPLES.parent / "pyproject.toml").read_text())["project"]
    direct = {line.split(">=")[0] for line in wanted["dependencies"]}
    listed = files_of(small_archive())["libraries.txt"].decode().splitlines()
    pinned = dict(line.split("==") for line in listed[1:])
    assert listed[0].startswith("# Python 3.") and pinned.pop("show-paperwork") == list_versions()["paperwork"]
    assert direct <= pinned.keys() and {"pillow", "markupsafe", "et-xmlfile"} <= pinned.keys()
    assert all(metadata.version(name) == number for name, number in pinned.items())
    assert not {"pytest", "uvicorn", "uharfbuzz"} & pinned.keys()


def test_what_a_library_needs_elsewhere_alone_is_not_among_its_versions_even_if_it_is_installed(monkeypatch):
    needs = {
        "show-paperwork": ["Packaging>=24", 'pytest; extra == "test"', 'uharfbuzz; extra == "scripts"'],
        "packaging": [
            "click; python_version < '3.11'",
            'pypdf ; sys_platform == "a system"',
            "qrcode ; python_version > '3'",
        ],
    }
    monkeypatch.setattr(bundle, "requires", needs.get)
    assert list_versions().keys() == {"paperwork", "python", "zlib", "packaging", "qrcode"}
    assert list_versions(["scripts"]).keys() - list_versions().keys() == {"uharfbuzz"}


def test_a_show_in_another_script_names_what_shaped_it():
    scripts = {
        line.split(">=")[0]
        for line in tomllib.loads((EXAMPLES.parent / "pyproject.toml").read_text())["project"]["optional-dependencies"][
            "scripts"
        ]
    }
    record = small_record()
    show = replace(record.show, roles={"VERA": replace(record.show.roles["VERA"], by="דנה")})
    about = json.loads(files_of(small_archive(show=show))["archive.json"])
    assert scripts <= about["versions"].keys() and not scripts <= list_versions().keys()


def test_its_tables_are_for_any_program():
    files = files_of(small_archive())
    (row,) = csv.DictReader(io.StringIO(files["tables/channels.csv"].decode("utf-8-sig")))
    assert (row["id"], row["roles"], row["hz"], row["notes"]) == ("01", "VERA", "486200000", "talks low")
    assert "tables/racks.csv" not in files


def test_a_table_holds_nothing_that_a_spreadsheet_would_run():
    record = small_record()
    channel = replace(record.show.channels["01"], notes="=1+1")
    files = files_of(small_archive(show=replace(record.show, channels={"01": channel})))
    assert b'"\t=1+1"' in files["tables/channels.csv"]


def test_findings_stand_in_it_with_their_places():
    finding = find("archive-missing", Place("show.yaml", 2, 3), about=(Subject("channels", "01"),), file="x")
    (told,) = json.loads(files_of(small_archive(findings=(finding,)))["findings.json"])
    assert (told["place"], told["severity"], told["subjects"]) == ("show.yaml:2:3", "error", ["channels 01"])


def test_the_page_for_the_stranger_is_plain_and_says_how_to_check_it():
    page = files_of(small_archive())["README.txt"].decode()
    assert "sha256sum -c SHA256SUMS" in page and "cannot prove itself" in page and "Why: new packs" in page
    assert all(len(line) <= 110 for line in page.splitlines())
    public = files_of(small_archive(public=True, inputs={}, removed=("2 notes",)))["README.txt"].decode()
    assert "public archive" in public and "Left out: 2 notes." in public and "inputs/" not in public


def test_one_record_has_one_form():
    assert small_archive() == small_archive()
    assert pack_files(files_of(small_archive())) == small_archive()


def test_every_file_has_one_date_and_plain_rights():
    import zipfile

    with zipfile.ZipFile(io.BytesIO(small_archive())) as archive:
        kinds = {
            (one.date_time, one.external_attr >> 16, one.create_system, one.compress_type) for one in archive.infolist()
        }
    assert kinds == {((1980, 1, 1, 0, 0, 0), 0o100644, 3, 0)}
