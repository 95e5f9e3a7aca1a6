"""A public archive: no name of anybody anywhere in it, roles and frequencies all there."""

import io
import json
import re
import zipfile

import pypdfium2
import pytest

from paperwork.archive import make_public
from paperwork.commands.archive import command
from paperwork.finding import find
from paperwork.model import Person, Show
from paperwork.place import Place
from tests.archive.test_verify import files_of
from tests.changes.test_lines import SHOW as PLAIN
from tests.shows_text import reading_of, show_of

SHOW = PLAIN.replace("title: Glass Ferry", "title: Glass Ferry, contact: 0700 900 461, returns: Iris Vale")


@pytest.fixture(scope="module")
def archived(tmp_path_factory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("public")
    (folder / "show.yaml").write_text(SHOW, encoding="utf-8")
    outcome = command.main(
        [str(folder / "show.yaml"), "--public", "-o", str(folder / "public.zip")], standalone_mode=False
    )
    assert outcome.code in (0, 1), outcome.aside
    return files_of((folder / "public.zip").read_bytes())


def texts_of(files: dict[str, bytes]) -> str:
    pages = []
    for name, data in files.items():
        if name.endswith(".pdf"):
            document = pypdfium2.PdfDocument(data)
            pages += [page.get_textpage().get_text_range() for page in document] + [str(document.get_metadata_dict())]
        else:
            pages.append(data.decode("utf-8"))
    return "\n".join(pages)


def test_no_name_and_no_note_is_in_it_and_every_role_is(archived):
    text = texts_of(archived)
    for name in ("Mara Lind", "Ben Arlo", "Sam Dunn", "Iris Vale"):
        assert name in SHOW and not re.search(rf"\b({name}|{name.split()[0]}|{name.split()[1]})\b", text), name
    for secret in ("talks low", "0700 900 461", "oilskin", "small of back"):
        assert secret in SHOW and secret not in text
    for role in ("VERA", "TOM", "COOK", "SAILOR", "HOST"):
        assert role in text
    assert "486.200" in text and not any(name.startswith("inputs/") for name in archived)


def test_it_says_what_was_left_out(archived):
    about = json.loads(archived["archive.json"])
    assert about["public"] is True and about["show file"] == ""
    assert [line.split(" ", 1)[1] for line in about["removed"]] == [
        "names of people",
        "records of people",
        "covers",
        "looks",
        "notes",
        "contacts",
    ]
    assert "Left out: " in archived["README.txt"].decode()


def test_a_role_called_like_a_person_stays_and_a_name_inside_a_text_goes(tmp_path):
    show = show_of(
        """
        show: {title: Gala, reason: Mara Lind is ill, returns: Mara Lind}
        channels:
          01: {role: Ben, by: Ben, mhz: 486.200}
          02: {role: VERA, by: Mara Lind, mhz: 488.700, notes: Mara Lind is shy}
        covers: {c1: {role: VERA, by: Ada Holm}}
        looks: {l1: {by: Mara Lind, wears: gown}}
        """,
        tmp_path,
    )
    public, secrets = make_public(show)
    assert not public.people and not public.covers and not public.looks
    assert public.production.reason == "(name) is ill" and public.production.returns == ""
    assert list(public.roles) == ["Ben", "VERA"] and not any(role.by for role in public.roles.values())
    assert public.channels["02"].notes == "" and "Mara Lind" in secrets.texts and "Ben" not in secrets.texts


def test_findings_stay_with_names_hidden():
    _, secrets = make_public(Show(people={"Mara Lind": Person("Mara Lind"), "Mara": Person("Mara")}))
    finding = find("archive-missing", Place("show.yaml"), file="the pack of Mara Lind, and Marabou")
    (hidden,) = secrets.hide_findings((finding,))
    assert hidden.text == "the pack of (name), and Marabou is missing from the archive"


def test_a_public_archive_is_a_sound_one(tmp_path):
    from paperwork.archive import verify_archive
    from tests.archive.samples import small_archive

    data = small_archive(public=True, inputs={})
    assert verify_archive(data, "a.zip").findings == () and zipfile.ZipFile(io.BytesIO(data)).testzip() is None


def test_a_person_who_is_a_role_by_being_in_a_group_is_named_nowhere(tmp_path):
    text = """
    show: {title: X, reason: Ana Cole is ill}
    roles: {CHORUS: {group: "Ana Cole, Max Ried"}, Ben: {by: Ben}}
    people: {Ana Cole: {team: red}}
    channels: {01: {role: CHORUS}, 02: {role: Ben}}
    """
    reading = reading_of(text, tmp_path)
    public, secrets = make_public(reading.show)
    kept = repr(public) + repr(secrets.hide_findings(reading.findings))
    assert reading.findings and "Ana" not in kept and "Max" not in kept
    assert set(public.roles) == {"CHORUS", "Ben", "(name) 1", "(name) 2"}
