"""What to do next with a show, in one line: the first thing that keeps its papers from being right and made."""

from typing import NamedTuple

from paperwork.serve.shows import Opened


class NextStep(NamedTuple):
    """What is the case, where to go, and what the way there is called; `does` where it is done at once."""

    text: str
    href: str
    label: str
    does: bool = False


def find_next(opened: Opened) -> NextStep:
    """One step, the most pressing first. `href` is below the address of the show."""
    reading, questions = opened.reading, len(opened.questions)
    errors = [one for one in reading.findings if one.severity == "error"]
    is_list = opened.source.understanding is not None
    if not reading.readable:
        return NextStep("No show can be read in this file.", "#findings", "See why")
    if questions:
        return NextStep(
            f"{_count(questions, 'question')} about this list {'is' if questions == 1 else 'are'} open.",
            "#questions",
            "Answer",
        )
    if opened.is_edited and opened.was_saved():
        return NextStep("It was changed here, and saved elsewhere too.", "edit/#clash", "Put both together")
    if errors and not is_list:
        return NextStep(
            f"{_count(len(errors), 'error')}, the first: {errors[0].text}.", "edit/#findings", "Put it right"
        )
    if errors:
        return NextStep(f"{_count(len(errors), 'error')}, the first: {errors[0].text}.", "#findings", "See where")
    if opened.is_edited:
        return NextStep("Changes here are not saved.", "edit/", "Go on and save")
    if opened.papers is None:
        warnings = len(reading.findings)
        more = f" {_count(warnings, 'warning')} to read first." if warnings else ""
        what = "The papers are out of date." if opened.outdated else "The papers are not made yet."
        return NextStep(what + more, "print", "Make them now", does=True)
    if opened.compared and (labels := sum(len(found) for found in opened.compared.reprint.labels.values())):
        return NextStep(
            f"{_count(labels, 'label')} {'needs' if labels == 1 else 'need'} replacing.", "#changes", "See which"
        )
    if opened.papers.withheld:
        return NextStep("Some labels are withheld: their facts are not certain.", "#papers", "See which")
    return NextStep("Every paper is made and up to date.", "#papers", "Look at them")


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
