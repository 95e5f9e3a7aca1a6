"""Codes of archives and show books: what is wrong with one, and why it is not made or not opened."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")
_ELSEWHERE = "take another copy of the archive"

TABLE: tuple[Code, ...] = (
    _read(
        "archive-altered",
        "error",
        "{file} was altered after the archive was made",
        _ELSEWHERE,
        "The contents of the file do not match the digest that the archive lists for it. If it is the list itself "
        "that was altered, the list says nothing more about the other files.",
    ),
    _read(
        "archive-missing",
        "error",
        "{file} is missing from the archive",
        _ELSEWHERE,
        "The archive lists a file that is not in it, or was made without a file that it needs.",
    ),
    _read(
        "archive-added",
        "error",
        "{file} was added after the archive was made",
        _ELSEWHERE,
        "The archive holds a file that is not on its list, or holds one twice.",
    ),
    _read(
        "archive-reordered",
        "error",
        "{file} is not where it was in the archive",
        _ELSEWHERE,
        "The files of an archive are in the order of its list. Another order means that it was packed again.",
    ),
    _read(
        "archive-container",
        "error",
        "the container {name} is {reason}",
        "the files are whole and can be used; take another copy of the archive to keep",
        "Every file matches its digest, but the zip around them is not byte for byte as this program writes it. A "
        "damaged header does that, and so does another program that packs the same files again. A zip describes each "
        "file twice; where only one of the two leads to the right bytes, other programs may follow the other.",
    ),
    _read(
        "archive-digest",
        "error",
        "{name} has the digest {digest}, not {expected}",
        "take the copy that the digest was noted from, or find out who made this one",
        "An archive cannot prove itself: whoever alters a file can alter the list beside it. Only the digest of the "
        "whole file, kept elsewhere, proves it.",
    ),
    _read(
        "archive-cut",
        "error",
        "{name} was cut off: the end of the archive is missing",
        _ELSEWHERE,
        "The list of digests and the table of contents are at the end. A copy that was interrupted, or a full disk, "
        "loses them. `paperwork restore` gives back your files if they came before the cut; nothing proves that they "
        "are unaltered.",
        stops=True,
    ),
    _read(
        "archive-kind",
        "error",
        "{name} is not an archive of a show: {reason}",
        "name a file that `paperwork archive` made",
        "An archive is a zip with a list of digests and a page about itself. This file lacks one of them.",
        stops=True,
    ),
    _read(
        "archive-unreadable",
        "error",
        "{name} cannot be opened as a zip",
        _ELSEWHERE,
        "Both the table of contents at the end and the headers before the files are damaged, or the file is something "
        "else.",
        stops=True,
    ),
    _read(
        "archive-unsafe",
        "error",
        "{name} is refused: {reason}",
        "use only archives from people you know",
        "A file inside would be written outside the folder, is a link, or unpacks to a size that no show has. Nothing "
        "was written.",
        stops=True,
    ),
    _read(
        "archive-public",
        "error",
        "{name} is a public archive: the files that it was made from are not in it",
        "use the full archive of that revision",
        "A public archive leaves out names, notes and the show file itself, so that it can be handed on. Nothing can "
        "be restored from it.",
    ),
    _read(
        "archive-input-outside",
        "error",
        "{file} is outside the show's folder, so it cannot go into the archive",
        "move it beside the show file, and name it by its path from there",
        "An archive gives its files back below one folder. A file from above or elsewhere could not be put back.",
    ),
    _read(
        "archive-input-name",
        "error",
        "{file} cannot go into the archive: when put back, it {reason}",
        "rename it, and write its new name in sweeps",
        "Whoever restores the archive may have another system, and some names are not allowed there. The show file "
        "itself is kept under a name that all take.",
    ),
    _read(
        "archive-rebuilt",
        "error",
        "{file} is not what the show file in the archive gives",
        _ELSEWHERE,
        "Facts and papers were made again from the archived show file, with the same versions of everything, and this "
        "file came out differently: it was altered, or made from another show, before the archive was closed.",
    ),
    _read(
        "archive-rebuilt-elsewhere",
        "warning",
        "{count} of {of} facts and papers have other bytes when made here: made with {versions}",
        "install the versions of libraries.txt in the archive into an environment of their own, and rebuild there",
        "Other versions draw the same papers with other bytes, so nothing is proved either way.",
    ),
    _read(
        "archive-public-name",
        "error",
        "{file} would still hold the name {held}",
        "take the name out of the ids, titles and words of the show, or give the full archive",
        "A public archive holds no name of anybody. Before it is handed out, every file in it is searched for each name, and "
        "one that is found keeps it from being made.",
    ),
    _read(
        "archive-large",
        "error",
        "the archive would be larger than {most} bytes, so it could not be opened again",
        "archive fewer or shorter sweeps, or keep the files beside it yourself",
        "An archive is held in memory while it is verified, so its size is limited. A larger one is not made.",
    ),
    _read(
        "archives-many",
        "error",
        "{name} holds more than {most} archives; the rest is left out",
        "move the archives of each show to a folder of their own",
        "Each archive of a folder is opened to read its revision, so their number is limited.",
    ),
    _read(
        "book-unreadable",
        "error",
        "{name} cannot be read as a show book ({reason})",
        "take another copy of the PDF",
        "The PDF is damaged, or was saved again by a program that stores its attachments in another way.",
    ),
    _read(
        "book-without-inputs",
        "error",
        "{name} does not contain the show file",
        "use the show book, or the archive of that revision",
        "Only the show book contains the files that it was made from, because private notes must not travel with "
        "other papers.",
    ),
)
