"""What the page says of commands: nobody types one there."""

import re

from paperwork.codes import CODES
from paperwork.commands.assign import command as assign
from paperwork.serve.readers import say_paper
from paperwork.serve.wording import EFFORTS, WAYS, say_here
from paperwork.sheets import SHEETS
from tests.serve.test_beside import NEW
from tests.serve.test_edit import Page
from tests.shows_text import EXAMPLES

FINDINGS = EXAMPLES.parent / "tests" / "checks" / "findings.txt"
"""Every finding of the broken shows to the letter."""


def test_no_finding_names_a_command_on_the_page():
    said = [row.fix for row in CODES.values()] + FINDINGS.read_text(encoding="utf-8").splitlines()
    named = [text for text in said if "`paperwork " in text]
    assert len(named) > 10
    assert [text for text in named if re.search(r"paperwork| --\w", re.sub(r"/\S*", "", say_here(text)))] == []


def test_where_a_finding_leads_to_a_search_it_is_by_the_name_that_the_page_has(tmp_path):
    page = Page(tmp_path, NEW)
    for body in (page.get("table/channels").body.decode(), page.edit("channels/05/notes=x")):
        assert "Frequencies finds the fewest channels" in str(body) and "`paperwork" not in str(body)


def test_each_way_to_search_on_the_page_is_an_option_of_the_command_and_as_usual_is_the_same_effort():
    options = {flag: option for option in assign.params for flag in option.opts}
    assert EFFORTS[str(options["--effort"].default)] == "as usual" == next(iter(EFFORTS.values()))
    chosen = [way for way in WAYS if way.option]
    assert {f"--{way.option}" for way in chosen} < options.keys() and len(chosen) == 3
    for way in chosen:
        assert say_here(f"`paperwork assign --{way.option}` finds it") == f"“{way.name}” under Frequencies finds it"


def test_papers_are_named_in_words():
    named = {paper.name: say_paper(paper.name) for paper in SHEETS}
    assert named["mic-table-squares"] == "Mic-table squares" and named["who-is-live"] == "Who is live"
    assert {name for name, words in named.items() if "-" in words} == {"mic-table-squares", "change-overs"}
