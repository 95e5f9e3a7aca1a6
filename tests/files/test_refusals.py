"""Refusals that carry a code of their own: what is no file, and what no cell of a workbook can hold."""

import pytest

from paperwork.files import read_file
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.write import write_workbook
from tests.shows_text import raw_of


def test_a_folder_is_refused_with_its_own_code(tmp_path):
    raw, (finding,) = read_file(tmp_path, "shows")
    assert raw is None and (finding.code, str(finding.place)) == ("file-folder", "shows")


def test_an_item_with_a_comma_cannot_be_told_in_a_cell():
    raw = raw_of('channels:\n  01:\n    role: ["TOM, OLD", VERA]\n')
    with pytest.raises(Refused) as refused:
        write_workbook(raw)
    assert (refused.value.finding.code, refused.value.finding.place.line) == ("workbook-cannot", 3)
