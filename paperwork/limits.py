"""Every bound on what is read or printed, in one table.

Each is far above a real show (the largest real events have some 600 carriers) and low enough that a hostile
file is refused in about a second. All are choices of this project, no source.
"""

FILE_BYTES = 8_000_000
"""A show file larger than this is refused before it is decoded."""

FOLDER_NAMES = 2_000
"""Names of a folder that are compared with a mistyped one."""

YAML_NODES = 200_000
YAML_DEPTH = 12
"""A show file is three levels deep; the rest is room for mistakes that deserve a better message."""

ZIP_PARTS = 2_000
ZIP_PART_BYTES = 50_000_000
ZIP_TOTAL_BYTES = 150_000_000
ZIP_RATIO = 200
ZIP_FREE_BYTES = 5_000_000
"""A workbook that unpacks to less than this may do so at any ratio: tidy tables pack very well."""

SHEET_ROWS = 20_000
SHEET_COLUMNS = 500
SHEET_CELLS = 400_000

SWEEP_FILES = 50
SWEEP_BYTES = 16_000_000
SWEEP_LEVELS = 500_000
"""Sweeps of one show, the size of a file, and the levels that it may hold once its passes are held at their highest."""

TEXT_LENGTH = 4_000
"""Characters in one value; the longest note that a page can carry."""

LIST_LENGTH = 2_000
"""Items that one shorthand (`01-06`, `FOH 1-6`) may stand for."""

RECORDS = 5_000
"""Records in one section."""

FINDINGS = 1_000
"""Findings that one run reports; the rest are counted."""

PATH_LENGTH = 200
"""Characters in the path of an archived file; some systems allow 260 with the folder before it."""
