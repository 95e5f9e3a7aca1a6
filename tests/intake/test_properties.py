"""What must hold of every foreign sheet, whatever is in it."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from paperwork.files import read_bytes
from paperwork.files.grid import Book, Grid, GridCell
from paperwork.files.xlsx.write import write_workbook
from paperwork.files.yaml.write import write_yaml
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.understand import understand
from paperwork.place import Place
from paperwork.text.units import format_mhz, parse_frequency
from tests.few import few_examples
from tests.intake.sheets import plain

NAMES = ("Mara Lind", "Max Ried", "Ana Cole", "Tomas Quell", "Rhea Lund", "Imke Vos", "Piet Arends", "Bo Dahl")
ROLES = ("VERA", "TOM", "SAILOR", "WIDOW", "HOST", "Mr Harrow", "Quill", "DECK")
LOOSE = [
    "x",
    "(x)",
    "o",
    "-",
    "518.2 / 520.4",
    "ditto",
    "SPARE",
    "Ensemble",
    "24 mics",
    "Total",
    "1.1",
    "A1S2",
    "Ann (u/s Bea)",
    "?",
    "#REF!",
    "Notes",
    "Ch",
    "Freq",
    "Name",
    "é",
    "\n",
    "3/4/25",
]


def grid(table: dict[tuple[int, int], str], title: str = "Mics", hidden: bool = False, fills=None) -> Grid:
    cells = {
        (row, column): GridCell(row, column, text, Place("list.xlsx", row, column, title), kept=text)
        for (row, column), text in sorted(table.items())
        if text
    }
    return Grid(title, cells, is_hidden=hidden, fills=fills or {})


def book(*grids: Grid) -> Book:
    return Book("list.xlsx", grids)


def table_of(rows) -> dict[tuple[int, int], str]:
    return {(r, c): text for r, row in enumerate(rows, 1) for c, text in enumerate(row, 1) if text}


@st.composite
def lists(draw) -> list[list[str]]:
    """A sound channel list in columns of any order."""
    count = draw(st.integers(2, 8))
    khz = draw(st.lists(st.integers(470_000, 690_000), min_size=count, max_size=count, unique=True))
    rows = [["Ch", "Actor", "Role", "Freq", "Notes"]]
    for number in range(count):
        rows.append(
            [
                str(number + 1),
                NAMES[number],
                ROLES[number],
                format_mhz(khz[number] * 1000),
                draw(st.sampled_from(["", "tape B", "left side"])),
            ]
        )
    return rows


def facts(got) -> dict:
    sections = plain(got.raw)
    return {name: dict(sorted(records.items())) for name, records in sections.items()}


def outcome(got) -> list[tuple[str, str]]:
    """Codes and questions without their places."""
    return sorted([(f.code, "") for f in got.findings] + [(q.kind, q.about) for q in got.questions])


@settings(max_examples=few_examples(120), deadline=None)
@example({(1, 1): "\n", (2, 1): "x", (2, 2): "Notes"}, [], [])  # a title block of one blank line
@given(
    st.dictionaries(
        st.tuples(st.integers(1, 14), st.integers(1, 9)),
        st.sampled_from([*LOOSE, *NAMES, *ROLES, "518.2", "519,4", "520400", "1", "02", "7"]),
        max_size=70,
    ),
    st.lists(st.tuples(st.integers(1, 12), st.integers(1, 8), st.integers(0, 3), st.integers(0, 5)), max_size=4),
    st.lists(
        st.tuples(st.sampled_from(["whole", "part", "date", "failed"]), st.integers(1, 14), st.integers(1, 9)),
        max_size=6,
    ),
)
def test_the_account_adds_up_and_nothing_crashes_on_any_mess(table, merges, marks):
    made = grid(table, fills={(r, c + 1): "#FFFF00" for r, c, _, _ in merges})
    cells = dict(made.cells)
    for mark, row, column in marks:
        if (row, column) in cells:
            change = {"struck": mark} if mark in ("whole", "part") else {"kind": mark}
            change |= (
                {"text": "2027-02-01", "serial": "518.2"}
                if mark == "date"
                else {"text": "", "formula": "=A1"}
                if mark == "failed"
                else {}
            )
            cells[row, column] = replace(cells[row, column], **change)
    got = understand(
        book(replace(made, cells=cells, merges=tuple((r, c, r + h, c + w) for r, c, h, w in merges if h or w)))
    )
    assert sum(got.account.values()) == got.cells == len([t for t in table.values() if t])
    assert "lost" not in got.account


@settings(max_examples=few_examples(40), deadline=None)
@given(lists(), st.randoms(use_true_random=False))
def test_the_order_of_rows_and_columns_changes_nothing_but_the_order(rows, random):
    head, body = rows[0], rows[1:]
    columns = list(range(len(head)))
    random.shuffle(columns)
    random.shuffle(body)
    shuffled = [[row[c] for c in columns] for row in (head, *body)]
    one, other = (understand(book(grid(table_of(got)))) for got in (rows, shuffled))
    assert facts(one) == facts(other) and outcome(one) == outcome(other)


@settings(max_examples=few_examples(40), deadline=None)
@given(lists(), st.sampled_from(["518.2 / 520.4", "1.518,200", "G2 Ch 04", "same as 99"]), st.integers(0, 4))
def test_taking_a_column_away_never_settles_a_doubt(rows, doubt, column):
    assume(column != 3)
    rows[1][3] = doubt
    less = [row[:column] + row[column + 1 :] for row in rows]
    got = understand(book(grid(table_of(less))))
    open_questions = [q for q in got.questions if not q.default]
    assert open_questions or any(f.severity == "error" for f in got.findings)
    assert doubt not in str(facts(got).get("channels", {}).get("1", {}).get("mhz", ""))


@settings(max_examples=few_examples(40), deadline=None)
@given(lists(), st.booleans(), st.booleans(), st.booleans())
def test_hidden_sheets_fills_and_a_table_to_the_right_change_nothing_in_the_main_table(rows, hides, fills, beside):
    table = table_of(rows)
    main = facts(understand(book(grid(table))))
    more = dict(table)
    if beside:
        more |= {
            (r, c + 7): text
            for (r, c), text in table_of([["IEM", "Name", "Freq"], ["IEM 1", "Nora Falk", "810.100"]]).items()
        }
    grids = [grid(more, fills={(99, c): "#FFFF00" for c in range(1, 400)} if fills else None)]
    if hides:
        grids.append(grid(table_of([["Ch", "Actor", "Freq"], ["1", "Somebody Else", "600.000"]]), "old", hidden=True))
    got = facts(understand(book(*grids)))
    got.pop("others", None)
    assert got == main


RENDERINGS = (
    lambda khz: format_mhz(khz * 1000),
    lambda khz: f"{Decimal(khz) / 1000:f}",
    lambda khz: f"{Decimal(khz) / 1000:.4f}",
    lambda khz: format_mhz(khz * 1000).replace(".", ","),
    lambda khz: str(khz),
    lambda khz: str(khz * 1000),
    lambda khz: f"{Decimal(khz) / 1_000_000:f}",
    lambda khz: f"{khz // 1000} {khz % 1000:03d}",
    lambda khz: f"{khz // 1000}\u00a0{khz % 1000:03d}",
    lambda khz: f"{khz // 1000}\u202f{khz % 1000:03d}",
    lambda khz: f"{khz // 1000}'{khz % 1000:03d}",
    lambda khz: f"{format_mhz(khz * 1000)} MHz",
    lambda khz: f"{format_mhz(khz * 1000)}Mhz.",
    lambda khz: f"{format_mhz(khz * 1000)} kHz",
    lambda khz: f"{khz} kHz",
    lambda khz: f"f={format_mhz(khz * 1000)}",
    lambda khz: f"@ {format_mhz(khz * 1000)} M",
    lambda khz: f"1.{khz // 1000},{khz % 1000:03d}",
    lambda khz: f"{format_mhz(khz * 1000)} / 700.000",
    lambda khz: "".join(chr(ord(c) - 48 + 0xFF10) if c.isdigit() else c for c in format_mhz(khz * 1000)),
)


@settings(max_examples=few_examples(200), deadline=None)
@given(st.integers(470_000, 693_999), st.sampled_from(RENDERINGS))
def test_every_way_of_writing_a_frequency_is_that_frequency_or_a_question(khz, render):
    reading = read_frequency(render(khz))
    if reading.mhz:
        assert parse_frequency(reading.mhz) == khz * 1000
    else:
        assert reading.doubt


@settings(max_examples=few_examples(30), deadline=None)
@given(lists())
def test_what_was_imported_reads_back_the_same_from_both_kinds_of_file(rows):
    raw = understand(book(grid(table_of(rows)))).raw
    assert read_bytes(write_yaml(raw).encode(), "show.yaml")[0] == raw
    again = read_bytes(write_workbook(raw), "show.xlsx")[0]
    assert read_bytes(write_workbook(again), "show.xlsx")[0] == again


@pytest.mark.parametrize(
    "language",
    [
        ["Nr.", "Darsteller(in)", "Rolle", "Frequenz", "Bemerkung"],
        ["Voie", "Comédien(ne)", "Personnage", "Fréq.", "Remarques"],
        ["Canal", "Actor/Actriz", "Personaje", "Frecuencia", "Observaciones"],
        ["Canale", "Attore", "Ruolo", "Frequenza", "Note"],
        ["Kanaal", "Acteur", "Rol", "Frequentie", "Opmerkingen"],
        ["Mygga", "Skådespelare", "Roll", "Frekvens", "Anmärkningar"],
    ],
)
@settings(max_examples=8, deadline=None)
@given(lists())
def test_headings_of_every_language_give_the_same_show(language, rows):
    english = facts(understand(book(grid(table_of(rows)))))
    got = understand(book(grid(table_of([language, *rows[1:]]))))
    told = facts(got)
    told.pop("show", None)  # the language of the papers
    assert told == english and not got.questions
