"""Codes of archives and show books: what is wrong with one, and why it is not made or not opened."""

from paperwork.codes.row import Code


def _code(name: str, says: str, fix: str, explains: str) -> Code:
    return Code(name=name, severity="error", stage="read", says=says, fix=fix, explains=explains)


_ELSEWHERE = "take another copy of the archive"

TABLE: tuple[Code, ...] = (
    _code(
        "archive-altered",
        "{file} was altered since the archive was made",
        _ELSEWHERE,
        "The bytes of the file do not have the digest that the archive lists for it. Where it is the list itself, the list "
        "has been altered, and says nothing more about the others.",
    ),
    _code(
        "archive-missing",
        "{file} is missing from the archive",
        _ELSEWHERE,
        "The archive lists a file that is not in it, or was made without the file that it needs.",
    ),
    _code(
        "archive-added",
        "{file} was added to the archive since it was made",
        _ELSEWHERE,
        "The archive holds a file that its list does not know, or holds one twice.",
    ),
    _code(
        "archive-reordered",
        "{file} does not stand where it stood in the archive",
        _ELSEWHERE,
        "The files of an archive stand in the order of its list. Another order means that it was packed anew.",
    ),
    _code(
        "archive-container",
        "the container {name} is {reason}",
        "use the files, and take another copy of the archive to keep",
        "Every file has its digest, but the zip around them is not byte for byte as this program writes it. A damaged header "
        "does that, and so does another program that packs the same files again. A zip tells of each file twice; where only "
        "one of the two leads to the right bytes, other programs may follow the other.",
    ),
    _code(
        "archive-digest",
        "{name} has the digest {digest}, and {expected} was expected",
        "take the copy that the digest was noted from, or find out who made this one",
        "An archive cannot prove itself: who alters a file can alter the list beside it. The digest of the whole file, kept "
        "elsewhere, tells.",
    ),
    _code(
        "archive-cut",
        "{name} was cut off: what stands at the end of an archive is missing",
        _ELSEWHERE,
        "The list of digests and the table of contents stand at the end. A copy that was broken off, or a full disk, loses them. "
        "`paperwork restore` gives back your files if they came before the cut; nothing proves the rest.",
    ),
    _code(
        "archive-kind",
        "{name} is no archive of a show: {reason}",
        "name a file that `paperwork archive` made",
        "An archive is a zip with a list of digests and a page about itself. This file lacks one of them.",
    ),
    _code(
        "archive-unreadable",
        "{name} cannot be opened as a zip, neither by its table of contents nor file by file",
        _ELSEWHERE,
        "Both the table of contents at the end and the headers before the files are damaged, or the file is something else.",
    ),
    _code(
        "archive-unsafe",
        "{name} is refused: {reason}",
        "use only archives from people you know",
        "A file inside would leave the folder, is a link, or unpacks to a size that no show has. Nothing was written.",
    ),
    _code(
        "archive-public",
        "{name} is a public archive: what it was made from is not in it",
        "use the full archive of that revision",
        "A public archive leaves out names, notes and the show file itself, so that it can be handed on. Nothing can be "
        "restored from it.",
    ),
    _code(
        "archive-input-outside",
        "{file} lies outside of the show's folder, so it cannot be archived beside it",
        "move it beside the show file, and name it by its path from there",
        "An archive gives its files back below one folder. What a show names above or elsewhere could not be put back.",
    ),
    _code(
        "archive-large",
        "the archive would have more than {most} bytes, so it could not be opened again",
        "archive fewer or shorter sweeps, or keep the files beside it yourself",
        "An archive is held in memory while it is verified, so its size is bounded. One that is larger is not made.",
    ),
    _code(
        "archives-many",
        "{name} holds more than {most} archives; the rest is not put in line",
        "move the archives of each show to a folder of their own",
        "Each archive of a folder is opened to read its revision, so their number is bounded.",
    ),
    _code(
        "book-unreadable",
        "{name} cannot be read as a show book ({reason})",
        "take another copy of the PDF",
        "The PDF is damaged, or was saved anew by a program that keeps its attachments in another way.",
    ),
    _code(
        "book-without-inputs",
        "{name} carries no show file",
        "name the show book, or the archive of that revision",
        "Only the show book carries the files that it was made from, because private notes must not travel with other papers.",
    ),
)
