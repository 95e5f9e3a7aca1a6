"""One file that keeps a revision for years: made, verified, and opened again.

make_archive(record)    a revision -> the bytes of a zip, the same on every machine
verify_archive(data)    bytes -> whatever was altered, is missing, was added or stands elsewhere
pick_inputs(data)       an archive or a show book -> the files it was made from, byte for byte
make_public(show)       a show -> the same without names and private notes
"""

from paperwork.archive.bundle import Edition, make_archive
from paperwork.archive.history import Revision, line_up, read_revision
from paperwork.archive.inputs import Inputs, attach_inputs, find_unfit, is_archive, is_book, pick_inputs
from paperwork.archive.public import Secrets, make_public, refuse_names
from paperwork.archive.verify import Verdict, verify_archive

__all__ = [
    "Edition",
    "Inputs",
    "Revision",
    "Secrets",
    "Verdict",
    "attach_inputs",
    "find_unfit",
    "is_archive",
    "is_book",
    "line_up",
    "make_archive",
    "make_public",
    "pick_inputs",
    "read_revision",
    "refuse_names",
    "verify_archive",
]
