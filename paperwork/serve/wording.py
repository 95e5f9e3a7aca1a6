"""What the page has in place of commands and their options: one table, by which it says what commands and findings say."""

import re
from typing import NamedTuple

from paperwork.files.refusal import Refused
from paperwork.radio.search import DEFAULT_EFFORT


class SearchWay(NamedTuple):
    """For whom a frequency is looked for: a choice under Frequencies, and an option of `assign`, "" for none of them."""

    option: str
    name: str
    explained: str


WAYS = (
    SearchWay("", "Missing", "channels without one; the others stay"),
    SearchWay("answered", "Answered", "set what was granted, find another for what was refused"),
    SearchWay("repair", "Fewest moves", "make all clean by moving as few as can be"),
    SearchWay("anew", "All anew", "plan all again, except granted ones"),
)

EFFORTS = {
    str(DEFAULT_EFFORT * times): words
    for times, words in ((1, "as usual"), (4, "four times as long"), (16, "sixteen times as long"))
}
"""How long to look: what `--effort` is given, and what is chosen instead."""

_PLACES = {
    "answer": "its question here",
    "archive": "Archive on the page of a show",
    "assign": "Frequencies",
    "convert": "its page",
    "new": "a new show",
    "reply": "“Answered” under Frequencies",
    "request": "the frequency request among the papers",
    "restore": "Archives",
    **{f"assign --{way.option}": f"“{way.name}” under Frequencies" for way in WAYS if way.option},
}
"""By command, or command and option, where the page does the same."""

_COMMAND = re.compile(r"`paperwork (\w+)( --\w+)?[^`]*`")
_LONGER = re.compile(r"--effort \d+ searches four times as long")


def say_here(text: str) -> str:
    """A text with what the page has in place of the commands that it names: nobody types one here."""
    text = _LONGER.sub("look longer", text)
    return _COMMAND.sub(lambda one: _PLACES.get(f"{one[1]}{one[2] or ''}") or _PLACES.get(one[1], one[0]), text)


def say_refusal(refused: Refused) -> str:
    """What was refused, and what would mend it."""
    return say_here(f"{refused.finding.text}; {refused.finding.fix}")
