"""The line of revisions of the archives in a folder."""

from paperwork.archive import Revision, line_up, read_revision
from tests.archive.samples import small_archive


def made(
    revision: str, earlier: str = "", title: str = "Glass", fingerprint: str = "", public: bool = False
) -> Revision:
    replaces = earlier[-1:]
    return Revision(
        title, revision, "", "", fingerprint or revision, replaces, tuple(earlier), public, "", f"{revision}.zip"
    )


def test_revisions_stand_in_the_order_that_they_tell_themselves():
    lined = line_up((made("C", "AB"), made("A"), made("B", "A")))
    assert [(one.revision, odd) for one, odd in lined] == [("A", ""), ("B", ""), ("C", "")]


def test_a_revision_that_is_not_here_is_told():
    (_, first), (_, second) = line_up((made("B", "A"), made("D", "ABC")))
    assert first == "revision A, which it replaces, is not here"
    assert second == "revision C, which it replaces, is not here"


def test_two_archives_of_one_revision_with_other_facts_are_told():
    _, (_, odd) = line_up((made("A"), made("A", fingerprint="X")))
    assert odd.startswith("a second archive of this revision")
    assert [odd for _, odd in line_up((made("A"), made("A", fingerprint="X", public=True), made("B", "A")))] == [
        "",
        "",
        "",
    ]


def test_another_show_has_a_line_of_its_own():
    assert [odd for _, odd in line_up((made("A"), made("A", title="Other")))] == ["", ""]


def test_an_archive_tells_its_revision():
    one = read_revision(small_archive(), "a.zip")
    assert (one.title, one.revision, one.replaces, one.earlier, one.reason) == ("Glass", "B", "A", ("A",), "new packs")
