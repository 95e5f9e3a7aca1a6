"""A set of files put into a folder as one step: all of it, or nothing."""

from paperwork.output.add import add_files
from paperwork.output.disk import OutputError
from paperwork.output.publish import Report, publish
from paperwork.output.single import write_new, write_over

__all__ = ["OutputError", "Report", "add_files", "publish", "write_new", "write_over"]
