"""The engine of answering: one screen a kind, nothing put twice, answers that raise questions are followed up."""

import pytest

from paperwork.intake.questions import Choice, Question
from paperwork.intake.session import list_screens, settle, take_answer
from paperwork.intake.source import read_book
from paperwork.intake.understand import understand
from paperwork.place import Place
from tests.intake.sheets import workbook

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
