"""Children are on papers by their initials alone, whatever the paper."""

from paperwork.finding import Subject
from paperwork.pipeline import make_papers
from paperwork.plan.walls import initials_of, put_on_walls, walls_of
from paperwork.revisions import Side, compare_revisions, make_change_list
from paperwork.sheets import SHEETS
from tests.pdf_text import read_pages
from tests.sheet_texts import texts_of
from tests.shows_text import reading_of

CHILD = """
show: {title: Glass, revision: B, language: en}
day: {power-up: "17:15", curtain: "19:30", bows: "2:30", team: Gulls}
radios: {belt: {kind: pack, step: 25 kHz, hours: 8}}
racks: {R1: {channels: 01-04, analogue 1: FOH 1-4}}
people:
  Pia Lund: {room: 9, child: yes, short: Pia, pouch: 01, belt: S, team: Gulls}
  Per Lund: {room: 9, child: yes, pouch: 02, belt: S}
  Sami Orr: {room: 9, child: yes, team: Puffins}
  Ben Arlo: {room: 9, pouch: 03, belt: M}
transmitters: {01: {radio: belt, cells: 2 AA}, 02: {radio: belt}, 03: {radio: belt}, S1: {radio: belt}}
others: {EARS: {kind: in-ear, mhz: 640.150, listeners: "Pia Lund, Ben Arlo"}}
roles: {GULL: {by: Pia Lund, alternates: Sami Orr}}
channels:
  01: {role: GULL, radio: belt, mhz: 486.200, capsule: beige, notes: 'waits for Pia Lund, not for Pia Lundqvist'}
  02: {shared: {TOM: Ben Arlo, CAT: Per Lund}, radio: belt, mhz: 488.700, capsule: beige}
  03: {by: Per Lund, radio: belt, mhz: 490.900}
  04: {spare: belt, mhz: 492.300, pack: S1}
scenes:
  a: {act: One, name: 1.1 Quay, at: "0:00", live: GULL TOM}
  b: {act: One, name: 1.2 Deck, at: "0:10", live: CAT}
  c: {act: Two, name: 2.1 Pier, at: "1:20", live: GULL TOM}
moves: {m: {role: CAT, scene: b, enter: SL, exit: SR, to: "0:16"}}
looks:
  l1: {by: Per Lund, wears: coat, sits: back}
  l2: {by: Per Lund, scene: b, wears: tail, sits: hip}
covers: {k: {role: GULL, by: Sami Orr, capsule: beige}}
"""


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(read_pages(pdf)).split())


def reading(tmp_path):
    found = reading_of(CHILD, tmp_path)
    assert found.show, found.findings
    return found


def test_initials_stand_where_the_name_stood_and_two_children_are_told_apart(tmp_path):
    show = put_on_walls(reading(tmp_path).show)
    assert set(show.people) == {"P. L.", "P. L. 2", "S. O.", "Ben Arlo"}
    assert len({show.roles["GULL"].by, show.roles["CAT"].by}) == 2
    (chart,) = next(paper for paper in SHEETS if paper.name == "channel-chart").make(show)
    assert {show.roles["GULL"].by, "Ben Arlo"} <= set(texts_of(chart))
    assert show.channels["01"].notes == f"waits for {show.roles['GULL'].by}, not for Pia Lundqvist"


def test_a_show_without_children_is_the_same_show(tmp_path):
    show = reading_of("channels: {1: {by: Imke Vos, mhz: 486.2}}\n", tmp_path).show
    assert put_on_walls(show) is show


def test_the_screen_keeps_the_name(tmp_path):
    found = reading(tmp_path)
    papers = make_papers(found.show, found.findings, only=frozenset({"dressing-list"}))
    (printed,) = papers.printed
    assert Subject("people", "Per Lund") in printed.subjects
    walls = walls_of(found.show)
    assert walls.reveal([Subject("people", walls.initials["Per Lund"]), Subject("racks", "R1")]) == {
        Subject("people", "Per Lund"),
        Subject("racks", "R1"),
    }


def test_initials_are_of_every_part_of_a_name():
    assert [initials_of(name) for name in ("Pia Lund", "Jean-Luc de Wit", "Ánh", "")] == [
        "P. L.",
        "J. L. d. W.",
        "Á.",
        "",
    ]


def test_the_change_list_on_paper_hides_it_and_the_screen_does_not(tmp_path):
    """The role goes from one child to another: the list tells initials, the lines for the screen the names."""
    old, new = (
        reading(tmp_path),
        reading_of(CHILD.replace("{by: Pia Lund, alternates: Sami Orr}", "{by: Sami Orr}"), tmp_path),
    )
    compared = compare_revisions(Side(old.show, old.findings, "old"), Side(new.show, new.findings, "new"))
    papers = make_change_list(compared)
    (path,) = (path for path in papers.files if path.endswith(".pdf"))
    told = text_of(papers.files[path])
    assert "P. L." in told and "S. O." in told and not any(name in told for name in ("Pia", "Sami", "Orr"))
    assert any("Pia Lund" in str(entry) for entry in compared.entries)
