"""What the page says of commands: nobody types one there."""

import re

from paperwork.codes import CODES
from paperwork.serve.readers import say_paper
from paperwork.serve.replies import say_here
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
    assert [text for text in named if "paperwork" in re.sub(r"/\S*", "", say_here(text))] == []


def test_where_a_finding_leads_to_a_search_it_is_by_the_name_that_the_page_has(tmp_path):
    page = Page(tmp_path, NEW)
    for body in (page.get("table/channels").body.decode(), page.edit("channels/05/notes=x")):
        assert "Frequencies finds the fewest channels" in str(body) and "`paperwork" not in str(body)


def test_papers_are_named_in_words():
    named = {paper.name: say_paper(paper.name) for paper in SHEETS}
    assert named["mic-table-squares"] == "Mic-table squares" and named["who-is-live"] == "Who is live"
    assert {name for name, words in named.items() if "-" in words} == {"mic-table-squares", "change-overs"}
