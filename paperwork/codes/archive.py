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
        "The file does not match its digest in the list of the archive. If the list itself was altered, it says "
        "nothing about the other files.",
    ),
    _read(
        "archive-missing",
        "error",
        "{file} is missing from the archive",
        _ELSEWHERE,
        "The list of the archive has a file that is not there, or the archive was made without a file that it needs.",
    ),
    _read(
        "archive-added",
        "error",
        "{file} was added after the archive was made",
        _ELSEWHERE,
        "The archive has a file that is not on its list, or has one twice.",
    ),
    _read(
        "archive-reordered",
        "error",
        "{file} is not where it was in the archive",
        _ELSEWHERE,
        "The files of an archive are in the order of its list. In another order, it was packed again.",
    ),
    _read(
        "archive-container",
        "error",
        "the container {name} is {reason}",
        "the files are whole and can be used; to keep, take another copy of the archive",
        "Every file matches its digest, but the zip around them is not byte for byte as this program writes it. A "
        "damaged header does that, or another program that packed the files again. A zip describes each file twice; if "
        "the two differ, other programs may unpack the wrong bytes.",
    ),
    _read(
        "archive-digest",
        "error",
        "{name} has the digest {digest}, not {expected}",
        "take the copy that the digest was noted from, or find out who made this one",
        "An archive cannot prove itself: whoever alters a file can alter the list beside it. Only a digest of the "
        "whole file, kept somewhere else, is proof.",
    ),
    _read(
        "archive-cut",
        "error",
        "{name} is cut off: the end of the archive is missing",
        _ELSEWHERE,
        "The list of digests is at the end. An interrupted copy or a full disk loses it. `paperwork restore` gives "
        "back your files if they came before the cut; nothing proves that they are unaltered.",
        stops=True,
    ),
    _read(
        "archive-kind",
        "error",
        "{name} is not an archive of a show: {reason}",
        "name a file that `paperwork archive` made",
        "An archive is a zip with a list of digests and a page about itself. One of them is missing here.",
        stops=True,
    ),
    _read(
        "archive-unreadable",
        "error",
        "{name} cannot be opened as a zip",
        _ELSEWHERE,
        "The zip is damaged at its end and between its files, or it is no zip.",
        stops=True,
    ),
    _read(
        "archive-unsafe",
        "error",
        "{name} is refused: {reason}",
        "use only archives from people you know",
        "A file inside would land outside the folder, is a link, or unpacks to an absurd size. Nothing was written.",
        stops=True,
    ),
    _read(
        "archive-public",
        "error",
        "{name} is a public archive, without the files that it was made from",
        "use the full archive of that revision",
        "A public archive leaves out names, notes and the show file, so that it can be passed on. Nothing can be "
        "restored from it.",
    ),
    _read(
        "archive-input-outside",
        "error",
        "{file} is outside the folder of the show, so it cannot go into the archive",
        "move it beside the show file, and name it by its path from there",
        "An archive puts its files back into one folder. A file from elsewhere has no place in it.",
    ),
    _read(
        "archive-input-name",
        "error",
        "{file} cannot go into the archive: once put back, it {reason}",
        "rename it, and write its new name in sweeps",
        "An archive may be restored on another system, where some names are not allowed. The show file itself is kept "
        "under a name that all allow.",
    ),
    _read(
        "archive-rebuilt",
        "error",
        "{file} is not what the archived show file gives",
        _ELSEWHERE,
        "Facts and papers were made again from the archived show file, with the same versions of everything, and this "
        "file came out different: it was altered, or made from another show, before the archive was closed.",
    ),
    _read(
        "archive-rebuilt-elsewhere",
        "warning",
        "{count} of {of} facts and papers have other bytes when made here: made with {versions}",
        "install the versions in libraries.txt of the archive into an environment of their own, and rebuild there",
        "Other versions give the same papers other bytes, so nothing is proved either way.",
    ),
    _read(
        "archive-public-name",
        "error",
        "{file} would still hold the name {held}",
        "take the name out of ids, titles and words of the show, or hand over the full archive",
        "A public archive holds nobody's name. Every file in it is searched for each name before it is made; this one "
        "is still there.",
    ),
    _read(
        "archive-large",
        "error",
        "the archive would be over {most} bytes, too large to open again",
        "archive fewer or shorter sweeps, or keep those files beside it yourself",
        "An archive is held in memory while it is verified, so its size is limited.",
    ),
    _read(
        "archives-many",
        "error",
        "{name} holds more than {most} archives; the others are left out",
        "move the archives of each show to a folder of their own",
        "Each archive in a folder is opened to read its revision, so their number is limited.",
    ),
    _read(
        "book-unreadable",
        "error",
        "{name} cannot be read as a show book ({reason})",
        "take another copy of the PDF",
        "The PDF is damaged, or was saved by a program that stores attachments in another way.",
    ),
    _read(
        "book-without-inputs",
        "error",
        "{name} does not carry the show file",
        "use the show book, or the archive of that revision",
        "Only the show book carries the files it was made from: private notes must not travel with other papers.",
    ),
)
