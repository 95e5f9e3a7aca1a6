"""What differs between two shows: the changes, who must act on each, and which papers and labels they make wrong.

diff_shows(old, new)      two shows -> changes, renames and moves as such
list_changes(...)         changes -> lines of a list, each with who must act
compare_papers(...)       the codes of two sets of papers -> the pages and labels to print again, to destroy and to keep
"""

from paperwork.changes.diff import Change, diff_shows
from paperwork.changes.lines import ACTS, Entry, Shuffle, acts_of, list_changes, list_label_changes, list_shuffles
from paperwork.changes.reprint import LabelPrint, PagePrint, PaperFate, PaperPrint, Reprint, compare_papers

__all__ = [
    "ACTS",
    "Change",
    "Entry",
    "LabelPrint",
    "PagePrint",
    "PaperFate",
    "PaperPrint",
    "Reprint",
    "Shuffle",
    "acts_of",
    "compare_papers",
    "diff_shows",
    "list_changes",
    "list_label_changes",
    "list_shuffles",
]
