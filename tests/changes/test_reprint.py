"""Codes of two sets of papers: which pages and labels to print, to destroy and to keep."""

from paperwork.changes import LabelPrint, PaperPrint, compare_papers

CHART = PaperPrint("rack", "chart", "Chart", ("AAAA", "AAAC"))
PATCH = PaperPrint("rack", "patch", "Patch", ("CCCC",))
LABELS = PaperPrint(
    "wardrobe", "labels", "Labels", ("LLLL",), (LabelPrint("01", "VERA", "0001"), LabelPrint("02", "TOM", "0002"))
)


def fates(old, new) -> dict[str, tuple[list[tuple[int, str]], ...]]:
    found = compare_papers(old, new)
    return {one.paper.name: ([*one.printed], [*one.destroyed], [*one.valid]) for one in found.papers}


def test_equal_codes_keep_everything():
    same = compare_papers((CHART, LABELS), (CHART, LABELS))
    assert fates((CHART, LABELS), (CHART, LABELS)) == {"chart": ([], [], [(1, "AAAA"), (2, "AAAC")])}
    assert (same.labels, same.bin_labels, same.valid_labels, same.pages) == ({}, {}, {"labels": 2}, {})


def test_another_code_prints_one_page_and_destroys_the_other():
    new = PaperPrint("rack", "chart", "Chart", ("AAAA", "BBBB"))
    assert fates((CHART, PATCH), (new, PATCH)) == {
        "chart": ([(2, "BBBB")], [(2, "AAAC")], [(1, "AAAA")]),
        "patch": ([], [], [(1, "CCCC")]),
    }
    assert compare_papers((CHART,), (new,)).pages == {"chart": frozenset({2})}


def test_a_page_that_moved_to_another_number_is_another_page():
    """It says `3 of 3`: what hangs in its place says otherwise."""
    new = PaperPrint("rack", "chart", "Chart", ("BBBB", "AAAA", "AAAC"))
    printed = [(1, "BBBB"), (2, "AAAA"), (3, "AAAC")]
    assert fates((CHART,), (new,)) == {"chart": (printed, [(1, "AAAA"), (2, "AAAC")], [])}


def test_pages_at_the_end_come_and_go_alone():
    longer = PaperPrint("rack", "chart", "Chart", (*CHART.pages, "DDDD"))
    assert fates((CHART,), (longer,))["chart"][:2] == ([(3, "DDDD")], [])
    assert fates((longer,), (CHART,))["chart"][:2] == ([], [(3, "DDDD")])


def test_labels_are_papers_of_their_own():
    labels = (LabelPrint("01", "VERA", "0009"), LABELS.labels[1], LabelPrint("03", "COOK", "0003"))
    found = compare_papers((LABELS,), (PaperPrint("wardrobe", "labels", "Labels", ("MMMM",), labels),))
    assert [label.number for label in found.labels["labels"]] == ["01", "03"]
    assert [label.code for label in found.bin_labels["labels"]] == ["0001"]
    assert found.valid_labels == {"labels": 1} and found.papers == ()


def test_of_two_equal_labels_one_more_is_printed_and_one_less_is_taken_off():
    twice = PaperPrint("wardrobe", "labels", "Labels", ("MMMM",), (*LABELS.labels, LABELS.labels[0]))
    assert compare_papers((LABELS,), (twice,)).labels == {"labels": (LABELS.labels[0],)}
    assert compare_papers((twice,), (LABELS,)).bin_labels == {"labels": (LABELS.labels[0],)}


def test_a_sheet_that_came_or_went():
    assert fates((CHART,), (PATCH,)) == {
        "chart": ([], [(1, "AAAA"), (2, "AAAC")], []),
        "patch": ([(1, "CCCC")], [], []),
    }
