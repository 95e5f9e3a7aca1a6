"""Answers to what somebody's own list leaves open, as they are typed on the page."""

from collections.abc import Sequence

from paperwork.intake.session import name_answer, take_answer
from paperwork.serve.shows import Key, Opened


def take_answers(opened: Opened, typed: Sequence[tuple[Key, str]]) -> list[str]:
    """Takes answers by kind and content; says which do not fit. An empty one is not an answer."""
    asked = {(question.kind, question.about): question for question in opened.questions}
    wrong, answers = [], dict(opened.answers or {})
    for key, text in typed:
        if key not in asked or not text.strip():
            continue
        taken = take_answer(asked[key], text)
        if taken is None:
            wrong.append(f"{text} does not answer: {asked[key].text}")
        elif taken:
            answers[key] = taken
    opened.keep_answers(answers)
    return wrong


def change_answer(opened: Opened, text: str) -> list[str]:
    """Takes one answer by name, `column Presenter=performer`, to what was not asked too; says if it fits nothing."""
    if not text or opened.source.understanding is None:
        return []
    try:
        named = name_answer(text, opened.source.understanding)
    except ValueError as error:
        return [str(error)]
    opened.keep_answers({**(opened.answers or {}), **named})
    return []


def forget_answers(opened: Opened, keys: Sequence[Key]) -> None:
    """Takes answers back, so that their questions are asked again."""
    opened.keep_answers({key: text for key, text in (opened.answers or {}).items() if key not in keys})
