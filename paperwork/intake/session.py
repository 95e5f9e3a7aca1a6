"""Questions put in their order, one screen for each kind: the engine of every way to answer them."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from paperwork.intake.questions import KINDS, Question, accept
from paperwork.intake.understand import Understanding


@dataclass(frozen=True, slots=True)
class Screen:
    """All open questions of one kind."""

    kind: str
    title: str
    questions: tuple[Question, ...]

    @property
    def is_uniform(self) -> bool:
        """Whether all of its questions offer the same choices, so that one answer can serve for all."""
        return len(self.questions) > 1 and len({question.choices for question in self.questions}) == 1


def list_screens(questions: Iterable[Question]) -> tuple[Screen, ...]:
    """The screens for questions, in the order of their kinds."""
    listed = tuple(questions)
    kinds = [kind for kind in KINDS if any(question.kind == kind for question in listed)]
    return tuple(Screen(kind, KINDS[kind], tuple(q for q in listed if q.kind == kind)) for kind in kinds)


def take_answer(question: Question, typed: str) -> str | None:
    """What is remembered for what was typed: a number counts the choices, text is a choice or what may be typed.

    Nothing typed takes the default, and leaves a question without one open: "". None is no answer to this question.
    """
    typed = typed.strip()
    if not typed:
        return question.default
    if typed.isascii() and typed.isdigit() and 1 <= int(typed) <= len(question.choices):
        return question.choices[int(typed) - 1].value
    return accept(question, typed)


def settle(
    again: Callable[[dict[tuple[str, str], str]], Understanding],
    answers: dict[tuple[str, str], str],
    put: Callable[[Screen], Iterable[tuple[Question, str]]],
) -> dict[tuple[str, str], str]:
    """All answers once nothing new is asked: each round reads the sheet again, since answers can raise questions.

    `put` shows one screen and gives back what was answered; it may raise EOFError to end.
    """
    settled = dict(answers)
    seen: set[tuple[str, str]] = set()
    while True:
        screens = list_screens(q for q in again(settled).questions if (q.kind, q.about) not in seen)
        if not screens:
            return settled
        seen |= {(question.kind, question.about) for question in screens[0].questions}
        try:
            for question, answer in put(screens[0]):
                settled |= {(question.kind, question.about): answer} if answer else {}
        except EOFError:
            return settled
