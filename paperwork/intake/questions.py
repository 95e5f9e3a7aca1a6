"""What a sheet leaves open: questions with their choices, and what counts as an answer."""

from collections.abc import Mapping
from typing import Any, Literal, TypeAlias

from paperwork.finding import Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.place import Place
from paperwork.text.units import Doubt, parse_frequency

Typed: TypeAlias = Literal["", "frequency", "text", "names"]

Answers: TypeAlias = Mapping[tuple[str, str], str]
"""Answers by kind and content of the question."""

KINDS = {
    "encoding": "These signs look wrong. What were they?",
    "sheet": "Several sheets hold the same list. Which one counts?",
    "table": "What is this table?",
    "column": "What does this column hold?",
    "second": "Two of a kind are beside each other. What is the second?",
    "venue": "Frequencies are under names of towns. What are these columns?",
    "rows": "What is a row of this table?",
    "key": "No column numbers the channels. What should they be called?",
    "channel-twice": "A channel is in several rows. What does that mean?",
    "channel-style": "Channel numbers are written in several ways. How should they be printed?",
    "receiver": "How are the places in the receivers written?",
    "date": "A spreadsheet program made a date of this. What was typed?",
    "unit": "A number and its unit do not fit. What is it?",
    "frequency": "Each of these could be more than one frequency, or none. Which is it?",
    "struck": "This is struck through. What does that mean?",
    "cut": "The list says that this channel is cut. Is it left out?",
    "person": "Are these the same person?",
    "name": "One short name is on several channels. Is it one person?",
    "cover": "Who wears it: both in turn, or one and the other covers?",
    "group": "Who is in this group?",
    "child": "Are these children? Papers name a child by initials.",
    "mark": "What does this mark in the grid mean?",
    "fill": "What does this colour in the grid mean?",
    "turns": "Two mics are in one cell of a plot. Are they worn in turn, or both at once?",
    "scene": "Two scenes have one number. What is the second?",
    "day": "Which day is meant?",
    "language": "Which language should the papers be in?",
}
"""Every kind of question and what its screen says, in the order in which they are put."""

LEAVE_BLANK = "?"
"""The answer that leaves a frequency open on purpose: the papers keep the blank."""


@frozen
class Choice:
    """One possible answer: what is remembered, and what it says to a person."""

    value: str
    words: str


@frozen
class Question:
    """One doubt. `about` is its content (never a row number), so that tomorrow's copy finds the same answer.

    `default` is taken until there is an answer; without one the doubt is an error. `typed` says what may be typed
    in place of a choice. `channel` is the channel in doubt. `stops` is on where papers wait for the answer.
    """

    kind: str
    about: str
    text: str
    choices: tuple[Choice, ...]
    place: Place
    others: tuple[Place, ...] = ()
    default: str = ""
    typed: Typed = ""
    channel: str = ""
    stops: bool = True


def accept(question: Question, answer: str) -> str | None:
    """The answer as it is remembered, or None if it fits neither a choice nor what may be typed."""
    answer = answer.strip()
    if any(choice.value == answer for choice in question.choices):
        return answer
    if question.typed == "frequency" and not is_frequency(answer):
        return None
    return (answer or None) if question.typed else None


def is_frequency(text: str) -> bool:
    """Whether a text is a frequency as the show file takes it."""
    try:
        return bool(parse_frequency(text))
    except Doubt:
        return False


def describe_choices(question: Question) -> str:
    """The choices in one line: `518.200 MHz, or 520.400 MHz, or leave it blank`."""
    words = [choice.words for choice in question.choices]
    if question.typed:
        words.append("another frequency in MHz" if question.typed == "frequency" else "in your own words")
    return ", or ".join(words)


def word_question(question: Question, name: str) -> Finding:
    """The finding that asks a question of the list `name`."""
    about = (Subject("channels", question.channel),) if question.channel else ()
    facts: dict[str, Any] = {"question": question.text, "choices": describe_choices(question), "name": name}
    where, others = question.place, question.others
    if question.default:
        taken = next((c.words for c in question.choices if c.value == question.default), question.default)
        return find("value-taken", where, others=others, taken=taken, **facts)
    if question.stops:
        return find("sheet-question", where, about=about, others=others, **facts)
    if question.kind in ("frequency", "struck") and question.channel:
        return find("frequency-asked", where, about=about, others=others, channel=question.channel, **facts)
    return find("value-asked", where, about=about, others=others, **facts)
