"""Questions put in their order, one screen for each kind: the engine of every way to answer them."""

import re
from collections.abc import Callable, Iterable

from paperwork.files.grid import read_column
from paperwork.frozen import frozen
from paperwork.intake.questions import KINDS, Question, accept
from paperwork.intake.understand import Understanding
from paperwork.text.headings import fields, fold_heading
from paperwork.text.vocabulary import fold_word

_RANGE = re.compile(r"(?P<sheet>[^!]+!)?(?P<first>[A-Z]{1,3})-(?P<last>[A-Z]{1,3})")


@frozen
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


def name_answer(text: str, understanding: Understanding) -> dict[tuple[str, str], str]:
    """The answer that a text gives, `column Presenter=performer` or `rows=scenes`, under the key that it is kept by.

    Raises ValueError, which says what may be answered, for one that fits nothing of the list.
    """
    subject, sign, value = (part.strip() for part in text.rpartition("="))
    kind, _, name = subject.partition(" ")
    if kind == "column" and (ends := _RANGE.fullmatch(name)):
        return _name_range(ends, value, understanding)
    if not sign or kind not in KINDS:
        raise ValueError(f'{text}: write it as "KIND NAME=ANSWER"; the kinds are {", ".join(KINDS)}')
    choices = {one.about: tuple(one.choices) for one in understanding.decisions if one.kind == kind}
    choices = {about: values or (*fields(), "scene", "ignore") for about, values in choices.items()}
    questions = {one.about: one for one in understanding.questions if one.kind == kind}
    abouts = list(dict.fromkeys((*questions, *choices)))
    found = _find_about(kind, name, abouts, understanding)
    if not found:
        raise ValueError(f"{text}: there is no such {kind}; the list has {', '.join(abouts) or 'none'}")
    about = found[0]
    sheet, mark, _ = name.rpartition("!")
    key = f"{sheet}!{about}" if mark and not about.startswith(f"{sheet}!") else about
    if value in choices.get(about, ()):
        return {(kind, key): value}
    taken = accept(questions[about], value) if about in questions else None
    if taken is None:
        offered = choices.get(about) or tuple(choice.value for choice in questions[about].choices)
        raise ValueError(f"{text}: {value or 'nothing'} is not one of {', '.join(offered)}")
    return {(kind, about): taken}


def _name_range(ends: re.Match[str], value: str, understanding: Understanding) -> dict[tuple[str, str], str]:
    """One answer for columns that are beside each other: `column C-J=scene`. Raises ValueError where there is none of them."""
    first, last = read_column(ends["first"]), read_column(ends["last"])
    sheet = ends["sheet"] or ""
    letters = [one.letter for one in understanding.decisions if one.kind == "column" and one.letter]
    found: dict[tuple[str, str], str] = {}
    for letter in dict.fromkeys(letters):
        if first <= read_column(letter) <= last:
            found |= name_answer(f"column {sheet}{letter}={value}", understanding)
    if not found:
        raise ValueError(f"{ends.group()}: there is no such column; the list has {', '.join(dict.fromkeys(letters))}")
    return found


def _find_about(kind: str, name: str, abouts: list[str], understanding: Understanding) -> list[str]:
    """What a name may mean: the key itself, a heading however it is spelled, the letter of a column, or the only one."""
    sheet, mark, bare = name.rpartition("!") if kind == "column" else ("", "", name)
    if not name and len(abouts) == 1:
        return abouts
    if kind != "column":
        return [about for about in abouts if about == name] or [a for a in abouts if fold_word(a) == fold_word(name)]
    key = fold_heading(bare)
    found = [about for about in abouts if about in (bare, f"{key} (second)")] or [
        about for about in abouts if about == key
    ]
    letters = [
        one.about
        for one in understanding.decisions
        if one.kind == kind and one.letter == bare and (not mark or one.place.sheet == sheet)
    ]
    return found or letters


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
