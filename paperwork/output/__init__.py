"""A set of files put into a folder as one step: all of it, or nothing."""

from paperwork.output.add import add_files
from paperwork.output.disk import OutputError
from paperwork.output.naming import folder_beside, safe_name
from paperwork.output.publish import Report, publish
from paperwork.output.single import write_new, write_over
from paperwork.output.spool import Spool

__all__ = [
    "OutputError",
    "Report",
    "Spool",
    "add_files",
    "folder_beside",
    "publish",
    "safe_name",
    "write_new",
    "write_over",
]
