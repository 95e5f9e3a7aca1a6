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
    assert public.channels["02"].notes == "" and "Mara Lind" in secrets.names and "Ben" not in secrets.names


def test_a_cast_gives_its_performers_away_and_not_its_roles(tmp_path):
    show = show_of(
        """
        roles: {OLD TOM: {by: Bo Ahl}}
        channels: {01: {role: OLD TOM, mhz: 486.200}}
        performances: {matinee: {cast: {OLD TOM: Ida Ross}}}
        """,
        tmp_path,
    )
    public, secrets = make_public(show)
    assert "Ida Ross" in secrets.names and "OLD TOM" not in secrets.names and list(public.roles) == ["OLD TOM"]


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


@pytest.mark.parametrize("ana, ned", (("Ana Cole", "Max Ried"), ("Ana", "Max")))
def test_a_person_who_is_a_role_by_being_in_a_group_is_named_nowhere(ana, ned, tmp_path):
    text = f"""
    show: {{title: X, reason: {ana} is ill}}
    roles: {{CHORUS: {{group: "{ana}, {ned}"}}, Ben: {{by: Ben}}}}
    people: {{{ana}: {{team: red}}}}
    channels: {{01: {{role: CHORUS}}, 02: {{role: Ben}}}}
    """
    reading = reading_of(text, tmp_path)
    public, secrets = make_public(reading.show)
    kept = repr(public) + repr(secrets.hide_findings(reading.findings))
    assert reading.findings and "Ana" not in kept and "Max" not in kept
    assert set(public.roles) == {"CHORUS", "Ben", "(name) 1", "(name) 2"}


WORLD = """
show: {title: Anna's Garden, contact: Mara Lind 07700 900112}
radios: {belt: {kind: pack, tunes: 470-526, step: 25 kHz, bandwidth: 200 kHz}}
transmitters: {Lea Pack: {radio: belt, display: LEA}, P2: {radio: belt}}
capsules: {tape for lea voss: {type: lav}}
others: {EARS OF TOM RAY: {kind: in-ear, mhz: 520.200, listeners: Anna Berg}}
people: {Anna Berg: {room: Attic, short: Anna}, Lea Voss: {short: Lea, child: yes}, Tom Ray: {}, René Straß: {}}
channels:
  1: {role: VERA, mhz: 486.200, pack: Lea Pack, notes: "ANNA BERG: loud"}
  2: {role: LEA VOSS, by: Lea Voss, mhz: 488.700, capsule: tape for lea voss}
  3: {role: René Strass, by: René Straß, mhz: 491.500}
roles: {VERA: {by: Anna Berg}, CHOIR: {group: [Lea Voss, Tom Ray]}}
scenes: {Entrance of TOM RAY: {live: [VERA, CHOIR], name: "Anna  Berg's entrance"}}
moves: {m1: {role: Tom Ray, scene: Entrance of TOM RAY, enter: SL}}
performances: {first: {cast: {VERA: Tom Ray}}}
"""


def archive_of(folder, text: str):
    (folder / "show.yaml").write_text(text, encoding="utf-8")
    return command.main([str(folder / "show.yaml"), "--public", "-o", str(folder / "a.zip")], standalone_mode=False)


def test_a_name_is_hidden_in_ids_and_in_any_case_or_spelling_and_every_reference_follows(tmp_path):
    outcome = archive_of(tmp_path, WORLD)
    assert outcome.code in (0, 1), outcome.aside
    text = texts_of(files_of((tmp_path / "a.zip").read_bytes()))
    found = re.findall(r"(?i)anna\s+berg|\blea\b|voss|tom\s+ray|07700|stra(?:ß|ss)|attic", text)
    assert not found and "VERA" in text and "(name) Pack" in text and "EARS OF (name)" in text


def test_a_name_that_is_left_over_keeps_the_archive_from_being_made(tmp_path, monkeypatch):
    monkeypatch.setattr("paperwork.archive.public.Secrets.hide", lambda secrets, text: text)
    outcome = archive_of(tmp_path, WORLD)
    assert outcome.code == 2 and "[archive-public-name]" in outcome.aside and not (tmp_path / "a.zip").exists()


@pytest.mark.parametrize("kind", ("channel-chart.pdf", "pack-labels.pdf", "csv"))
def test_the_last_search_reads_what_a_reader_reads(kind, tmp_path):
    """A page is searched as text: its bytes are packed, and spell a name in numbers of glyphs."""
    from paperwork.archive import refuse_names
    from paperwork.archive.public import Secrets
    from paperwork.files.refusal import Refused
    from paperwork.pipeline import make_papers
    from tests.archive.samples import small_archive

    show = show_of("channels: {1: {by: Lea Voss, mhz: 486.200}}", tmp_path)
    papers = {"a.csv": b"x,LEA VOSS"} if kind == "csv" else dict(make_papers(show, ()).files)
    data = small_archive(papers={path: held for path, held in papers.items() if path.endswith(kind)})
    with pytest.raises(Refused) as refused:
        refuse_names(data, Secrets(("Lea Voss",), (), (), {}), "a.zip")
    assert refused.value.finding.code == "archive-public-name" and kind in refused.value.finding.text
    refuse_names(data, Secrets(("Lea Vosse",), (), (), {}), "a.zip")
