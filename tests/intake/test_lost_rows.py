"""Rows that were once taken for headings, and frequencies that were once taken as exact."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from paperwork.intake.texts.frequencies import read_frequency
from paperwork.resources import read_toml
from tests.few import few_examples
from tests.intake.sheets import asked, codes, read, section

NAMES = ("Imke Vos", "Tom Quell", "Rhea Lund", "Mei Ota", "Nele Brix", "Ugo Sala", "Jo", "Count Orlok")
CELLS = {
    "pack": ("1", "2", "P3"),
    "role": ("VERA", "Mr Harrow", "Swing", "Actor", "Singer", "Band", "Reporter 2", "I"),
    "frequency": ("518.2", "519,4", "521.925", "tbc", "frei", "518.200?", "Ch 38", "?"),
    "tv": ("21", "38"),
    "band": ("A", "470-494", "G1"),
    "receiver": ("1.1", "R1.2", "2A", "Rack 1", "3"),
    "capsule": ("Lav", "Headset", "lav", "Mikro", "Kopf", "beige", "Mic"),
    "colour": ("tan", "Farbe"),
    "input": ("1", "12", "FOH"),
    "output": ("FOH", "MON", "Split", "1"),
    "room": ("3", "4", "A"),
    "battery": ("80 %", "AA", "2"),
    "type": ("Hand", "pack", "Typ"),
    "serial": ("1234", "S-88"),
    "gain": ("12", "-6"),
    "notes": ("tape B", "spare cap", "swing", "ok", "Cover"),
    "understudy": ("Bo Dahl", "Swing"),
}
"""Fields of a channel list, and what is below them: words that are headings elsewhere, numbers that could be scenes."""

SPELLINGS = read_toml("headings.toml")["fields"]
PLAIN = {
    field: [s for s in spellings if sum(s in other for other in SPELLINGS.values()) == 1]
    for field, spellings in SPELLINGS.items()
}
"""The spellings of each field that can mean no other."""


@pytest.mark.parametrize("gap", ("tbc", None, "frei", "518.200?", "Ch 38"), ids=str)
@pytest.mark.parametrize("at", (1, 2, 4))
def test_a_row_without_a_frequency_is_no_heading_though_its_capsule_is_called_lav(gap, at):
    rows = [["Ch", "Name", "Freq", "Room", "Mic"]]
    rows += [[n, name, gap if n == at else f"52{n}.{n}00", 3, "Lav"] for n, name in enumerate(NAMES[:4], 1)]
    assert list(section(read(rows))) == ["1", "2", "3", "4"]


def test_a_list_without_frequencies_is_read():
    got = read(
        [["Ch", "Role", "Name", "Pack", "Mic"], [1, "A", "Imke Vos", 1, "Headset"], [2, "B", "Tom Quell", 2, "Lav"]]
    )
    assert [channel["by"] for channel in section(got).values()] == ["Imke Vos", "Tom Quell"]


@st.composite
def lists(draw):
    """A list with any columns in any of the languages, in any order, whose cells may all be missing; and who is in it."""
    columns = [
        "channel",
        "performer",
        *draw(st.lists(st.sampled_from(sorted(CELLS)), min_size=1, max_size=5, unique=True)),
    ]
    columns = draw(st.permutations(columns)) if draw(st.booleans()) else columns
    names = draw(st.lists(st.sampled_from(NAMES), min_size=2, max_size=6, unique=True))
    rows, people = [[draw(st.sampled_from(PLAIN[field])).title() for field in columns]], []
    for number, name in enumerate(names, 1):
        got = {
            "channel": draw(st.sampled_from((str(number),) * 4 + ("",))),
            "performer": draw(st.sampled_from((name,) * 4 + ("",))),
        }
        got |= {field: draw(st.sampled_from((*CELLS[field], "", ""))) for field in columns if field not in got}
        rows.append([got[field] or None for field in columns])
        people.append((got["channel"], got["performer"]))
    return rows, people


DESKS = [
    ["Out", "Nummer", "Gard", "Actor"],
    ["FOH", "1", "3", "Imke Vos"],
    ["FOH", "2", "3", "Tom Quell"],
    ["FOH", "3", "3", "Rhea Lund"],
    ["FOH", "4", "3", "Mei Ota"],
    ["MON", "5", "3", None],
    ["MON", "6", "3", "Ugo Sala"],
]


@given(lists())
@example((DESKS, [(row[1], row[3] or "") for row in DESKS[1:]]))
@settings(max_examples=few_examples(120), deadline=None)
def test_no_row_with_a_channel_or_a_name_is_lost(drawn):
    rows, people = drawn
    got = read(rows)
    assert sum("rows;" in line for line in got.lines) == 1, "one list is one table"
    found = {id.lstrip("0"): str(fields) for id, fields in section(got).items()}
    shown = " ".join([*got.lines, *(finding.text for finding in got.findings)])
    for number, name in people:
        assert not number or number in found or f'"{number}"' in shown, (number, rows)
        assert not name or name in found.get(number, "") or name in shown, (name, rows)


def test_a_name_that_begins_like_a_total_is_somebody():
    rows = [
        ["Name", "Ch", "Freq"],
        ["Count Orlok", 1, "518.2"],
        ["Suma Rao", 2, None],
        ["Sum", 3, None],
        ["Total mics", 2, None],
    ]
    assert [channel["by"] for channel in section(read(rows)).values()] == ["Count Orlok", "Suma Rao"]


def test_a_name_alone_in_its_row_is_said_where_it_may_be_a_title():
    got = read([["Name", "Ch", "Freq"], ["Mei Ota", None, None], ["Tom Quell", 2, "519.1"]])
    assert 'a title between the rows: "Mei Ota"' in got.lines


HEADS = ["Ch", "Actor", "Role", "Pack", "Freq"]
LISTED = [HEADS, [1, "Mara Lind", "VERA", 1, 518.2], [2, "Max Ried", "TOM", 2, 519.4]]


@pytest.mark.parametrize("gap", ([], [[]]), ids=("next", "apart"))
@pytest.mark.parametrize(
    "below",
    (
        ["Role", "Actor", 1, 2, 3],
        ["Role", "Actor", "1.1", "1.2", "2.1"],
        ["Actor", 1, 2, 3, 5],
        ["IEM", "Who", "MHz"],
        ["IEM", "Whoever", "MHz"],
        ["Scene", "Title", "Roles"],
        ["Name", "Room"],
    ),
)
def test_headings_of_another_table_below_a_list_are_headings_and_said(below, gap):
    got = read([*LISTED, *gap, below, ["VERA", *("x" for _ in below[1:])], ["TOM", *("x" for _ in below[1:])]])
    assert any(f'2 rows under "{", ".join(map(str, below))}"' in line for line in got.lines)
    assert list(section(got))[:2] == ["1", "2"]


def test_headings_without_a_row_below_a_list_are_reported():
    got = read([*LISTED, [], ["IEM", "Name", "Freq"]])
    assert [(finding.code, finding.place.cell) for finding in got.findings] == [("table-empty", "A5")]
    assert codes(read([*LISTED, HEADS])) == codes(read(LISTED)) == []


@pytest.mark.parametrize(
    "text",
    (
        "~523",
        "523 ~",
        "\u223c523",
        "≈523",
        "≅ 523",
        "±523",
        "523 +/-",
        "ca. 523",
        "523 ca",
        "c.523",
        "about 523",
        "approx. 523 MHz",
        "523.0 or so",
        "etwa 523.5",
        "ungefähr 523",
        "rund 523",
        "523 (zirka)",
        "env. 523",
        "vers 523",
        "à peu près 523",
        "aprox. 523",
        "unos 523",
        "523 circa",
        "intorno a 523",
        "ongeveer 523",
        "±523 MHz",
        "omkring 523",
        "ungefär 523",
        "523*",
        "(523)",
        "<523",
        "523-",
    ),
)
def test_what_is_only_near_a_frequency_is_asked(text):
    reading = read_frequency(text)
    assert not reading.mhz and reading.doubt and len(reading.choices) == 1
    got = read([["Ch", "Name", "Freq"], [1, "Imke Vos", text], [2, "Tom Quell", "526.1"]])
    assert any(kind == "frequency" for kind, _ in asked(got))


@pytest.mark.parametrize("role", ("Swing", "Actor", "Singer"))
def test_a_row_with_nothing_but_a_role_and_a_capsule_is_a_row(role):
    rows = [
        ["Ch", "Actor", "Room", "Capsule", "Character"],
        [None, None, "3", "Lav", role],
        [2, "Tom Quell", "3", "Lav", "VERA"],
    ]
    assert list(section(read(rows))) == ["2"]


def test_a_role_called_actor_beside_numbers_that_could_be_scenes_is_a_row():
    """Found by chance: 3 and 1.1 were taken for two scenes of a grid that `Actor` heads."""
    rows = [
        ["Band", "Character", "Ch", "Capsule", "Actor", "Battery", "Rx"],
        ["A", "VERA", "1", "Lav", "Imke Vos", "80 %", "1.1"],
        ["A", "VERA", "2", "Lav", "Tom Quell", "80 %", "1.1"],
        ["A", "Actor", "3", "Lav", None, "80 %", "1.1"],
    ]
    assert list(section(read(rows))) == ["1", "2", "3"]
