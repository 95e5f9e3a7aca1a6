"""`paperwork answer SHEET`: put the questions that a foreign sheet leaves open, and remember the answers beside it."""

import os
import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

import click

from paperwork.files.refusal import Refused
from paperwork.output import OutputError, write_new, write_over
from paperwork.terminal import Outcome, plain
from paperwork.terminal.options import FORMAT
from paperwork.terminal.report import format_findings, plain_place

if TYPE_CHECKING:
    from paperwork.files.grid import Book
    from paperwork.intake.questions import Question
    from paperwork.intake.session import Screen
    from paperwork.intake.understand import Understanding


@click.command(
    epilog='Examples:  paperwork answer list.xlsx  |  paperwork answer list.csv --answer "column Presenter=performer"'
)
@click.argument("sheet", type=click.Path())
@click.option(
    "--answer", "given", multiple=True, metavar="TEXT", help='An answer, as "column Presenter=performer"; repeatable.'
)
@FORMAT
def command(sheet: str, given: tuple[str, ...], form: str) -> Outcome:
    """Show how the list SHEET is read, and ask what it leaves open, a screen for each kind of question.

    First comes a line for each sheet, table and column, the most doubtful on top, then one for each cell that was not
    taken as it is written. Answers go into SHEET.answers.yaml, by what a cell says and not where it is, so tomorrow's
    copy of the list asks nothing again. SHEET itself is not changed. With --format json nothing is asked.
    """
    from paperwork.intake.answers import name_answers, read_answers, write_answers
    from paperwork.intake.reading import describe_cells, describe_reading
    from paperwork.intake.session import settle
    from paperwork.intake.understand import understand

    path = Path(sheet)
    book = _open(path, sheet)
    if isinstance(book, Outcome):
        return book
    kept = path.with_name(name_answers(path.name))
    answers, wrong = read_answers(kept, name_answers(sheet))
    if any(finding.severity == "error" for finding in wrong):
        return Outcome(aside=format_findings(wrong, "text"), code=2)
    try:
        settled = _name_all(book, answers, given)
    except ValueError as error:
        return Outcome(aside=f"{error}\n", code=2)
    read = understand(book, settled)
    if form == "text":
        click.echo(plain("\n".join((*describe_reading(read.decisions), *describe_cells(read.notes)))))
    if not given and form == "text":
        settled = settle(partial(understand, book), answers, partial(_put, sys.stdin))
    read = understand(book, settled)
    if settled != answers and (failed := _keep(kept, write_answers(settled, path.name))):
        return failed
    still = len([question for question in read.questions if not question.default])
    said = _close(sheet, name_answers(sheet) if settled != answers else "", still)
    return Outcome(_write_json(read) if form == "json" else said, code=int(bool(still)))


def _keep(path: Path, text: str) -> Outcome | None:
    """Write the answers; what to say where that fails."""
    try:
        (write_over if os.path.exists(path) else write_new)(path, text.encode("utf-8"))
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    return None


def _write_json(read: "Understanding") -> str:
    """The reading: what each sheet, table and column was taken for, the cells that are noted, and what is asked."""
    import json
    from dataclasses import asdict

    parts: dict[str, tuple[Any, ...]] = {"decisions": read.decisions, "cells": read.notes, "questions": read.questions}
    listed = {
        name: [asdict(one) | {"place": plain_place(one.place)} for one in values] for name, values in parts.items()
    }
    for one, question in zip(listed["questions"], read.questions, strict=True):
        one["others"] = [plain_place(place) for place in question.others]
    return json.dumps(listed, ensure_ascii=False, indent=2) + "\n"


def _open(path: Path, name: str) -> "Book | Outcome":
    """The sheets of a list; what to say of a show file of our own, or of what cannot be read."""
    from paperwork.files.sniff import TABLES, load_file, sniff
    from paperwork.intake.source import read_book

    try:
        data = load_file(path, name)
        kind, _ = sniff(data, name)
        book = read_book(data, name, kind) if kind in TABLES else None
    except Refused as refused:
        return Outcome(aside=format_findings((refused.finding,), "text"), code=2)
    return book or Outcome(f"{name} is a show file, so there is nothing to ask\n")


def _name_all(book: "Book", answers: dict[tuple[str, str], str], given: tuple[str, ...]) -> dict[tuple[str, str], str]:
    """The answers with those that were given by name. Raises ValueError for one that fits nothing of the list."""
    from paperwork.intake.session import name_answer
    from paperwork.intake.understand import understand

    settled = dict(answers)
    for text in given:
        settled |= name_answer(text, understand(book, settled))
    return settled


def _close(sheet: str, kept: str, still: int) -> str:
    lines = [f"answers are in {kept}"] if kept else []
    lines.append(f"{still} question{'s' if still != 1 else ''} still open" if still else "no question is open")
    lines.append(f"then: paperwork check {sheet}")
    return "\n".join(lines) + "\n"


def _put(lines: TextIO, screen: "Screen") -> Iterator[tuple["Question", str]]:
    """One screen: its title, and each question with its choices. `all 2` answers the rest of a screen alike."""
    click.echo(plain(f"\n{screen.title}\n" + "-" * len(screen.title)))
    alike = ""
    for number, question in enumerate(screen.questions, 1):
        if alike:
            yield question, alike
            continue
        click.echo(plain(f"\n{number} of {len(screen.questions)}  {question.place}\n{question.text}"))
        for count, choice in enumerate(question.choices, 1):
            mark = " (taken so far)" if choice.value == question.default else ""
            click.echo(plain(f"  {count}  {choice.words}{mark}"))
        answer, for_all = _ask(lines, question, screen.is_uniform and number < len(screen.questions))
        alike = answer if for_all else ""
        yield question, answer


def _ask(lines: TextIO, question: "Question", may_serve_all: bool) -> tuple[str, bool]:
    """What was answered, and whether it is meant for the rest of the screen. Raises EOFError where the input ends."""
    from paperwork.intake.session import take_answer

    kinds = {"frequency": "a frequency in MHz", "text": "your own words", "names": "names with commas", "": ""}
    typed = kinds[question.typed]
    count = len(question.choices)
    numbers = f"1 to {count}" if count > 1 else "1" if count else ""
    hints = [numbers, f"or {typed}" if numbers and typed else typed, "`all 1` for every one" if may_serve_all else ""]
    hints.append("Enter keeps it" if question.default else "Enter leaves it open")
    while True:
        click.echo(plain(f"({', '.join(filter(None, hints))}): "), nl=False)
        line = lines.readline()
        if not line:
            click.echo()
            raise EOFError
        words = line.strip()
        for_all = may_serve_all and words.lower().startswith("all ")
        answer = take_answer(question, words[4:] if for_all else words)
        if answer is not None:
            return answer, for_all and bool(answer)
        click.echo(plain(f"{words} is not one of the choices"))
