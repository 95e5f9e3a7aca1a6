"""What stands beside a question: the row that it is about, whichever sheet of the workbook that row is on."""

import pytest

from paperwork.place import Place
from paperwork.serve.excerpts import read_rows
from tests.intake.sheets import workbook

BOOK = workbook({"Mics": (("Mic", "Role"), ("1", "VERA")), "Plot": (("Scene", "Who"), ("2", "TOM"))})


@pytest.mark.parametrize(("sheet", "texts"), (("Mics", ("1", "VERA")), ("Plot", ("2", "TOM"))))
def test_the_row_of_a_question_is_that_of_its_own_sheet(sheet, texts):
    place = Place("list.xlsx", 2, 2, sheet)
    (row,) = read_rows(BOOK, "list.xlsx", [place]).values()
    assert tuple(part.text for part in row) == texts


def test_rows_of_two_sheets_are_found_at_once():
    places = [Place("list.xlsx", 2, 2, "Mics"), Place("list.xlsx", 2, 2, "Plot")]
    found = read_rows(BOOK, "list.xlsx", places)
    assert [found[place][1].text for place in places] == ["VERA", "TOM"]
