"""The strict account: what counts as used is found again in the show, and a table that is mostly not read is asked about."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files.sniff import sniff
from paperwork.intake import ledger
from paperwork.intake.session import name_answer
from paperwork.intake.source import read_book
from paperwork.intake.understand import understand
from tests.few import few_examples
from tests.fuzz.seeds import LISTS as SEEDS
from tests.intake.sheets import plain, read
from tests.intake.test_lists import LISTS, NAMES

HEAD = ["Ch", "Actor", "Role", "Freq", "Notes"]
LIST = [HEAD, [1, "Mara Lind", "VERA", 518.2, "tape B"], [2, "Max Ried", "TOM", 519.4, "left side"]]
WORDS = ("wig clip", "sees Imke first", "blue pouch", "thigh left", "two spare tapes", "hat in act two")


def leaves(node):
    """Every key and value of a show in plain Python, as text."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield key
            yield from leaves(value)
    elif isinstance(node, list):
        for value in node:
            yield from leaves(value)
    else:
        yield str(node)


def bare(text):
    return re.sub(r"[\W_]+", "", text).casefold()


def uses_of(monkeypatch):
    """The account cell by cell, as it is once the reading is done."""
    made = []
    start = ledger.Ledger.__init__
    monkeypatch.setattr(ledger.Ledger, "__init__", lambda self, *a, **k: (start(self, *a, **k), made.append(self))[0])
    return made


def is_shown(text, shown):
    """Whether each word and each number of a cell is somewhere in the show, by another reader than the reader's own."""
    text = text.strip()
    number = re.fullmatch(r"[^\W\d_]*[\s#.-]*0*([0-9]+)(?:[.,]([0-9]+?)0*)?", text)
    if number:
        whole = number[1] + (f".{number[2]}" if number[2] else "")
        return any(re.search(rf"(?<![0-9]){re.escape(whole)}0*(?![0-9])", one.replace(",", ".")) for one in shown)
    joined = bare(" ".join(shown))
    return all(bare(word) in joined for word in re.findall(r"[^\W_]+", text))


@pytest.mark.parametrize("name", NAMES)
def test_every_word_that_counts_as_used_in_a_whole_list_is_in_the_show(name, monkeypatch):
    made = uses_of(monkeypatch)
    data = (LISTS / name).read_bytes()
    book = read_book(data, name, sniff(data, name)[0])
    shown = list(leaves(plain(understand(book).raw)))
    used = [cell for grid in book.grids for cell in grid.cells.values() if made[-1].uses[cell.place] == "used"]
    words = {
        c.text
        for c in used
        if re.search(r"[^\W\d_]{3}", c.text) and not re.search(r"(?i)spare|ersatz|true|false", c.text)
    }
    assert len(words) > 20 and not [text for text in words if not is_shown(text, shown)]


@pytest.mark.parametrize("text", SEEDS[:3])
def test_every_word_that_counts_as_used_in_a_short_list_is_in_the_show(text, monkeypatch):
    made = uses_of(monkeypatch)
    book = read_book(text.encode(), "list.csv", "csv")
    shown = list(leaves(plain(understand(book).raw)))
    used = [cell for cell in book.grids[0].cells.values() if made[-1].uses[cell.place] == "used"]
    words = {c.text for c in used if re.search(r"[^\W\d_]{3}", c.text) and not re.search("(?i)spare|ditto", c.text)}
    assert words and not [word for word in words if not is_shown(word, shown)]


@settings(max_examples=few_examples(60), deadline=None)
@given(
    st.lists(st.sampled_from((*WORDS, "tbc", "?", "-", "n/a", "")), min_size=4, max_size=4),
    st.sampled_from(["Wig box", "Where on the body"]),
)
def test_a_column_of_unknown_heading_is_in_the_notes_under_it_or_says_nothing(texts, heading):
    rows = [[*HEAD[:4], heading]]
    rows += [
        [n, f"Person {chr(64 + n)}", f"ROLE {chr(64 + n)}", 500 + n, text or None] for n, text in enumerate(texts, 1)
    ]
    got = read(rows)
    notes = {id: channel.get("notes", "") for id, channel in plain(got.raw)["channels"].items()}
    for number, text in enumerate(texts, 1):
        if text in WORDS and got.account["used"] > 16:
            assert f"{heading}: {text}" in notes[str(number)]
    named = sum(text in WORDS for text in texts)
    assert got.account["used"] <= 16 + named


@pytest.mark.parametrize("text", ("-", "n/a", "off"))
def test_a_cell_that_says_that_there_is_nothing_does_not_count_as_used(text):
    got = read(
        [[*HEAD[:4], "1.1", "1.2"], [1, "Mara Lind", "VERA", 518.2, text, "x"], [2, "Max Ried", "TOM", 519.4, "x", "x"]]
    )
    assert got.account["blank"] == 1 and got.findings == ()


@pytest.mark.parametrize("text", ("tbc", "TBA", "?"))
@pytest.mark.parametrize("column", (1, 2, 3))
def test_what_is_not_assigned_yet_stays_to_be_seen(text, column):
    rows = [list(row) for row in LIST]
    rows[2][column] = text
    assert f"{HEAD[column]}: {text}" in plain(read(rows).raw)["channels"]["2"]["notes"]


OTHER = [["Out", "Zone", "Delay", "Trim"], ["A1", "stalls", "12", "-3"], ["A2", "circle", "18", "-6"]]


def test_a_table_that_is_mostly_not_read_is_asked_about_and_the_answer_leaves_out_that_table_alone():
    got = read([*LIST, [], *OTHER])
    (question,) = got.questions
    assert (
        question.kind == "rows" and question.default == "nothing" and "8 of its 8 cells are not read" in question.text
    )
    assert [decision.doubt for decision in got.decisions if decision.about == question.about] == ["likely"]
    after = read([*LIST, [], *OTHER], answers=name_answer(f"rows {question.about}=nothing", got))
    assert (
        after.questions == () and plain(after.raw) == plain(got.raw) and set(plain(after.raw)["channels"]) == {"1", "2"}
    )


def test_a_plot_of_which_most_is_not_read_stops_and_asks_and_an_answer_lets_it_through():
    plot = [
        ["Name", "1.1", "1.2", "Form", "Bus", "House", "Lunch"],
        ["Ivo", "x", None, "9H", "blue coach", "north", "early"],
        ["Kit", "x", "x", "9T", "red coach", "south", "late"],
    ]
    got = read(plot)
    asked = {q.kind: q for q in got.questions}
    assert not asked["rows"].default and "8 of its 13 cells are not read" in asked["rows"].text
    assert [d.value for d in got.decisions if d.kind == "rows"] == [""]
    after = read(plot, answers=name_answer("rows=roles", got))
    assert "rows" not in {q.kind for q in after.questions} and "1.1" in plain(after.raw)["scenes"]
    assert "cells-unknown" in [f.code for f in after.findings]
