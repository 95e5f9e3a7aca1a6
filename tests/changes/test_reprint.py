"""Codes of two sets of papers: what to print, to destroy and to keep."""

from paperwork.changes import LabelPrint, PaperPrint, compare_papers

CHART = PaperPrint("rack", "chart", "Chart", "AAAA")
PATCH = PaperPrint("rack", "patch", "Patch", "CCCC")
LABELS = PaperPrint(
    "wardrobe", "labels", "Labels", "LLLL", (LabelPrint("01", "VERA", "0001"), LabelPrint("02", "TOM", "0002"))
)


def test_equal_codes_keep_everything():
    same = compare_papers((CHART, LABELS), (CHART, LABELS))
    assert (same.sheets, same.bin, same.labels, same.bin_labels) == ((), (), {}, {})
    assert same.valid == (CHART,) and same.valid_labels == {"labels": 2}


def test_another_code_prints_one_sheet_and_destroys_the_other():
    new = PaperPrint("rack", "chart", "Chart", "BBBB")
    found = compare_papers((CHART, PATCH), (new, PATCH))
    assert found.sheets == ((new, CHART),) and found.bin == (CHART,) and found.valid == (PATCH,)


def test_labels_are_papers_of_their_own():
    new = PaperPrint(
        "wardrobe",
        "labels",
        "Labels",
        "MMMM",
        (LabelPrint("01", "VERA", "0009"), LABELS.labels[1], LabelPrint("03", "COOK", "0003")),
    )
    found = compare_papers((LABELS,), (new,))
    assert [label.number for label in found.labels["labels"]] == ["01", "03"]
    assert [label.code for label in found.bin_labels["labels"]] == ["0001"]
    assert found.valid_labels == {"labels": 1} and found.sheets == () and found.bin == ()


def test_a_sheet_that_came_or_went():
    found = compare_papers((CHART,), (PATCH,))
    assert found.sheets == ((PATCH, None),) and found.bin == (CHART,) and found.valid == ()
