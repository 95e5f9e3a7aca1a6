"""The engine of answering: one screen a kind, nothing put twice, answers that raise questions are followed up."""

import pytest

from paperwork.intake.questions import Choice, Question
from paperwork.intake.reading import describe_reading
from paperwork.intake.session import list_screens, name_answer, settle, take_answer
from paperwork.intake.source import read_book
from paperwork.intake.understand import understand
from paperwork.place import Place
from tests.intake.sheets import plain, workbook

ROWS = [["Ch", "Actor", "Freq"], [1, "Mara Lind", "518.2 / 520.4"], [2, "Ensemble", "530.1 / 532.2"]]
BOOK = read_book(workbook({"Mics": ROWS}), "list.xlsx", "xlsx")


def question(**more):
    got = {
        "kind": "frequency",
        "about": "1: x",
        "text": "?",
        "choices": (Choice("518.2", "518.2 MHz"), Choice("?", "blank")),
        "place": Place("x"),
    }
    return Question(**(got | more))


def test_questions_left_open_are_put_once():
    shown = []

    def leave_open(screen):
        shown.append(screen.kind)
        assert len(shown) < 5, "a screen came back"
        return [(q, "") for q in screen.questions]

    assert settle(lambda got: understand(BOOK, got), {}, leave_open) == {}
    assert shown == ["frequency", "group"]


def test_one_screen_holds_all_questions_of_a_kind():
    (first, second) = list_screens(understand(BOOK).questions)
    assert (first.kind, len(first.questions)) == ("frequency", 2) and not first.is_uniform
    assert (second.kind, len(second.questions)) == ("group", 1)


def test_the_end_of_input_keeps_what_was_answered():
    def stop_after_one(screen):
        yield screen.questions[0], "520.4"
        raise EOFError

    assert settle(lambda got: understand(BOOK, got), {}, stop_after_one) == {("frequency", "1: 518.2 / 520.4"): "520.4"}


@pytest.mark.parametrize(
    ("typed", "more", "answer"),
    [
        ("1", {}, "518.2"),
        ("2", {}, "?"),
        ("3", {}, None),
        ("518.2", {}, "518.2"),
        ("", {}, ""),
        ("", {"default": "518.2"}, "518.2"),
        ("520,5", {"typed": "frequency"}, "520,5"),
        ("banana", {"typed": "frequency"}, None),
        ("1.518,200", {"typed": "frequency"}, None),
        ("Ann, Bea", {"typed": "names"}, "Ann, Bea"),
        ("words", {}, None),
    ],
)
def test_what_is_typed_is_a_choice_or_what_may_be_typed(typed, more, answer):
    assert take_answer(question(**more), typed) == answer


PRESENTERS = [["Mic", "Zeremonie", "Freq"], [1, "Ada Abbot", 470.2], [2, "Ben Byrne", 471.05]]


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("column Zeremonie=performer", {("column", "zeremonie"): "performer"}),
        ("column B=role", {("column", "zeremonie"): "role"}),
        ("column Mics!B=role", {("column", "Mics!zeremonie"): "role"}),
        ("column FREQ=notes", {("column", "freq"): "notes"}),
        ("rows=nothing", {("rows", "Mics"): "nothing"}),
        ("sheet mics=leave", {("sheet", "Mics"): "leave"}),
    ],
)
def test_an_answer_by_name_finds_its_key_and_changes_the_reading(text, answer):
    book = read_book(workbook({"Mics": PRESENTERS}), "list.xlsx", "xlsx")
    before = understand(book)
    assert name_answer(text, before) == answer
    after = understand(book, answer)
    assert after.raw != before.raw or [one.value for one in after.decisions] != [one.value for one in before.decisions]


@pytest.mark.parametrize("text", ["column Nobody=role", "column Freq=banana", "column", "colour x=y", "mark x=live"])
def test_an_answer_by_name_that_fits_nothing_says_what_would(text):
    book = read_book(workbook({"Mics": PRESENTERS}), "list.xlsx", "xlsx")
    with pytest.raises(ValueError, match=r"is no|not one of|write it as|there is no"):
        name_answer(text, understand(book))


def test_the_reading_names_the_most_doubtful_first_with_samples_and_how_to_change_it():
    lines = describe_reading(understand(read_book(workbook({"Mics": PRESENTERS}), "list.xlsx", "xlsx")).decisions)
    assert lines[0].startswith('?     column B "Zeremonie": performer or role? "Ada Abbot", "Ben Byrne"')
    assert '--answer "column zeremonie=performer|role' in lines[0] and len(lines) == 6


def test_a_letter_with_its_sheet_is_that_sheets_column():
    book = read_book(
        workbook(
            {
                "Mics": [["Ch", "Name", "Freq"], [1, "Ann", 518.2]],
                "Band": [["Ch", "Presenter", "Freq"], [9, "Bo", 519.4]],
            }
        ),
        "list.xlsx",
        "xlsx",
    )
    (((kind, about), value),) = name_answer("column Band!B=role", understand(book)).items()
    assert (kind, value) == ("column", "role") and "presenter" in about


def test_a_list_of_channels_that_is_answered_to_be_nothing_gives_no_channel():
    book = read_book(workbook({"Mics": PRESENTERS}), "list.xlsx", "xlsx")
    got = understand(book, name_answer("rows=nothing", understand(book)))
    assert got.raw is None or got.raw.get("channels") is None


def test_an_answer_for_columns_beside_each_other_makes_scenes_of_all():
    rows = [
        ["Mic", "Name", "Freq", "Wig", "Hat", "Coat"],
        [1, "Ann", 518.2, "Bo", "Cy", None],
        [2, "Bo", 519.4, None, "Di", "Ed"],
    ]
    book = read_book(workbook({"Mics": rows}), "list.xlsx", "xlsx")
    given = name_answer("column D-F=scene", understand(book))
    assert given == {("column", name): "scene" for name in ("wig", "hat", "coat")}
    assert list(plain(understand(book, given).raw)["scenes"]) == ["Wig", "Hat", "Coat"]
    with pytest.raises(ValueError, match="no such column"):
        name_answer("column X-Z=scene", understand(book))


def test_the_reading_says_the_scenes_of_a_plot_in_one_line():
    rows = [["Actor", "1.1", "1.2", "1.3"], ["Ann", "x", None, "x"], ["Bo", None, "x", "x"]]
    lines = describe_reading(understand(read_book(workbook({"Plot": rows}), "list.xlsx", "xlsx")).decisions)
    assert [line.strip() for line in lines if "scenes (" in line] == [
        'column B "1.1" to column D "1.3": 3 scenes (headed like scenes, or like a plot)'
    ]
