"""A child's name is in no file that may travel, and the room in the papers alone, where a dresser looks for it: every byte of
what the commands write is searched."""

import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest

from paperwork.cli import root
from tests.few import few_of
from tests.pdf_text import list_bookmarks, read_pages

SHOW = """
show: {title: Glass, revision: B, revisions: [A], contact: 'desk, or the mother of Quillon Zimtstern', language: %s}
day: {power-up: "17:15", curtain: "19:30", bows: "2:30", team: Gulls}
radios: {belt: {kind: pack, step: 25 kHz, hours: 8}}
racks: {R1: {channels: 01-04, analogue 1: FOH 1-4}}
people:
  Quillon Zimtstern: {room: Zwickelkammer, child: yes, short: Quillon, pouch: 01, belt: S, team: Gulls}
  Brombeer Ypsil: {room: Zwickelkammer, child: yes, pouch: 02, belt: S}
  Ben Arlo: {room: Foyer, pouch: 03, belt: M}
transmitters: {01: {radio: belt, cells: 2 AA}, 02: {radio: belt}, 03: {radio: belt}, S1: {radio: belt}}
others: {EARS: {kind: in-ear, mhz: 640.150, listeners: "Quillon Zimtstern, Ben Arlo"}}
roles: {GULL: {by: Quillon Zimtstern, alternates: Brombeer Ypsil}}
channels:
  01: {role: GULL, radio: belt, mhz: %s, capsule: beige, notes: 'waits for Quillon Zimtstern'}
  02: {shared: {TOM: Ben Arlo, CAT: Brombeer Ypsil}, radio: belt, mhz: 488.700, capsule: beige}
  03: {by: Brombeer Ypsil, radio: belt, mhz: 490.900}
  04: {spare: belt, mhz: 492.300, pack: S1}
scenes:
  a: {act: One, name: 1.1 Quay, at: "0:00", live: GULL TOM}
  b: {act: One, name: 1.2 Deck, at: "0:10", live: CAT}
  c: {act: Two, name: 2.1 Pier, at: "1:20", live: GULL TOM}
moves: {m: {role: CAT, scene: b, enter: SL, exit: SR, to: "0:16"}}
looks:
  l1: {by: Brombeer Ypsil, wears: coat, sits: back}
  l2: {by: Brombeer Ypsil, scene: b, wears: tail, sits: hip}
covers: {k: {role: GULL, by: Brombeer Ypsil, capsule: beige}}
venues:
  v1: {venue: Barn, section: people, record: Quillon Zimtstern, field: room, value: "Xylophonstube"}
"""
NAMES = ("Quillon", "Zimtstern", "Brombeer", "Ypsil")
ROOMS = ("Zwickelkammer", "Xylophonstube")

KEEPS_NAMES = ("inputs/", "facts.json", "findings.json", "tables/", "archive.json", "SHA256SUMS")
"""What a full archive holds for its owner: the show file itself, and the facts in other forms."""


def parts_of(path: str, data: bytes) -> Iterator[tuple[str, str]]:
    """Every text in a file by the path to it: its bytes in three encodings, the text of a PDF, the members of a zip."""
    yield path, path
    for encoding in ("utf-8", "utf-16-be", "utf-16-le"):
        yield f"{path} as {encoding}", data.decode(encoding, "replace")
    if data.startswith(b"%PDF"):
        document = pypdfium2.PdfDocument(data)
        yield f"{path} pages", " ".join(read_pages(data))
        yield f"{path} head", str(document.get_metadata_dict())
        yield f"{path} outline", " ".join(list_bookmarks(data))
    if data.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            for name in archive.namelist():
                yield from parts_of(f"{path}/{name}", archive.read(name))


def leaks(folder: Path, keeps: tuple[str, ...] = ()) -> list[str]:
    """Where a secret is found, but for what may keep it."""
    found = []
    for path in sorted(file for file in folder.rglob("*") if file.is_file()):
        data = path.read_bytes()
        pieces = (
            [(name, zipfile.ZipFile(path).read(name)) for name in zipfile.ZipFile(path).namelist()]
            if keeps
            else [(path.name, data)]
        )
        for name, piece in pieces:
            if not name.startswith(keeps or ("\0",)):
                secret = NAMES if name.endswith(".pdf") else NAMES + ROOMS
                found += [
                    f"{where}: {word}" for where, text in parts_of(name, piece) for word in secret if word in text
                ]
    return found


def run(*arguments: str) -> None:
    outcome = root.main([str(one) for one in arguments], standalone_mode=False, obj={"made": ""})
    assert outcome.code in (0, 1), outcome.aside


@pytest.fixture(params=few_of(("en", "de")))
def show(request, tmp_path) -> Path:
    """The show, and its revision before, in which the child had another frequency and other rooms. One frequency is on
    the air twice, so that findings are printed too."""
    old = SHOW.replace("room: Zwickelkammer", "room: Xylophonstube").replace('"Xylo', '"Zwickelkammer, Xylo')
    (tmp_path / "old.yaml").write_text(old % (request.param, "486.2"), encoding="utf-8")
    path = tmp_path / "show.yaml"
    path.write_text(SHOW % (request.param, "488.700"), encoding="utf-8")
    return path


def test_no_paper_page_picture_or_index_has_a_childs_name_and_the_index_no_room(show, tmp_path):
    run("build", show, "--blank", "-o", tmp_path / "out")
    assert "Ben Arlo" in (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert "Q. Z." in (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert len(list((tmp_path / "out").rglob("*.svg"))) > 15 and leaks(tmp_path / "out") == []
    listed = " ".join(read_pages((tmp_path / "out" / "wardrobe" / "dressing-list.pdf").read_bytes()))
    assert "Zwickelkammer" in listed and "Q. Z." in listed


def test_neither_has_the_set_for_another_venue(show, tmp_path):
    run("build", show, "--venue", "Barn", "-o", tmp_path / "out")
    assert leaks(tmp_path / "out") == []


def test_the_printed_change_list_has_neither(show, tmp_path):
    run("changes", tmp_path / "old.yaml", show, "-o", tmp_path / "out")
    run("build", show, "--since", tmp_path / "old.yaml", "-o", tmp_path / "since")
    assert leaks(tmp_path / "out") == leaks(tmp_path / "since") == []


def test_the_page_for_tonight_has_neither(show, tmp_path):
    run("tonight", show, "--off", "Quillon", "--dead", "02", "-o", tmp_path / "out")
    run("tonight", show, "--set", "roles/GULL/by=Brombeer Ypsil", "-o", tmp_path / "set")
    assert leaks(tmp_path / "out") == leaks(tmp_path / "set") == []


def test_a_public_archive_has_neither(show, tmp_path):
    (tmp_path / "out").mkdir()
    run("archive", show, "--public", "-o", tmp_path / "out" / "public.zip")
    run("archive", show, "--public", "--venue", "Barn", "-o", tmp_path / "out" / "barn.zip")
    assert leaks(tmp_path / "out") == []


def test_a_full_archive_has_them_only_where_its_owner_reads_the_facts(show, tmp_path):
    (tmp_path / "out").mkdir()
    run("archive", show, "-o", tmp_path / "out" / "full.zip")
    assert leaks(tmp_path / "out", KEEPS_NAMES) == []
    assert leaks(tmp_path / "out") != []


def test_the_search_finds_what_is_there(tmp_path):
    (tmp_path / "show.yaml").write_text(SHOW % ("en", "486.2"), encoding="utf-8")
    assert len(leaks(tmp_path)) >= len(NAMES + ROOMS)


@pytest.mark.parametrize("written", ("QUILLON ZIMTSTERN", "quillon  zimtstern", "Quillon\nZimtstern"))
def test_a_child_is_hidden_in_any_case_and_spacing_and_a_role_of_one_word_stays(written):
    from paperwork.plan.walls import Walls

    walls = Walls({"Quillon Zimtstern": "Q. Z.", "Lea": "L."})
    assert walls.hide(f"for {written}: tape, LEA and Lea, Leander") == "for Q. Z.: tape, LEA and L., Leander"
