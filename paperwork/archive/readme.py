"""The page that says to somebody without this program what an archive is and how to use it."""

from collections.abc import Sequence
from shlex import quote

from paperwork import __version__
from paperwork.model import Show

_TEXT = """\
{title}
{line}

This is the paperwork of one revision of a show with radio microphones: {revision}.
{what}

What is in it
  papers/        every printed paper as PDF; open papers/index.html first
{inputs}  tables/        the facts as plain tables, for any spreadsheet program
                 (frequencies in whole hertz, times in whole seconds)
  facts.json     the same facts in one canonical form
  findings.json  what was wrong with the show when this was made
  archive.json   the revision, its reason, the code of each page, and the
                 versions of everything that it was made with
  libraries.txt  these versions, for pip install -r
  SHA256SUMS     the digest of every file

Is it as it was made?
  unpack it, and in that folder:   sha256sum -c SHA256SUMS
  or, with the program:            paperwork verify FILE
  An archive cannot prove itself: whoever can alter a file can alter the list
  beside it. If the digest of the whole file was kept somewhere else, compare it:
                                   paperwork verify FILE --expect DIGEST

{again}"""

_RESTORE = """\
To make the papers again
  pip install -r libraries.txt
  paperwork restore FILE -o FOLDER
  paperwork build FOLDER/SHOW{venue}
  With these versions the papers have the same bytes, which
  paperwork verify FILE --rebuild shows; with later ones they say the same.
"""

_PUBLIC = """\
This is a public archive. Names of people and private notes were left out,
roles stay, and the files that it was made from are not in it: nothing can be
restored from it. Left out: {removed}.
"""

_INPUTS = "  inputs/        the files that it was made from, byte for byte\n"


def write_readme(show: Show, files: Sequence[str], *, public: bool, removed: Sequence[str]) -> bytes:
    """The page as plain text, its lines short enough for any window."""
    production = show.production
    title = production.title or production.company or "A show"
    revision = f"revision {production.revision or 'without a name'}"
    revision += f" of {production.revised}" if production.revised else ""
    venue = f" --venue {quote(show.at_venue)}" if show.at_venue else ""
    again = _RESTORE.format(venue=venue)
    if public:
        again = _PUBLIC.format(removed=", ".join(removed) or "nothing")
    what = f"Why: {production.reason}\n" * bool(production.reason)
    what += f"{len(files) + 1} files, made by paperwork {__version__}."
    line, inputs = "=" * min(len(title), 70), "" if public else _INPUTS
    text = _TEXT.format(title=title, line=line, revision=revision, inputs=inputs, again=again, what=what)
    return text.encode("utf-8", "backslashreplace")
