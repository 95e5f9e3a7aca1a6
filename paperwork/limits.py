"""Every bound on what is read or printed, in one table.

Each is far above a real show (the largest real events have some 600 carriers) and low enough that a hostile
file is refused in seconds, in less than 400 MB. All are choices of this project, no source.
"""

FILE_BYTES = 8_000_000
"""A show file larger than this is refused before it is decoded; so are answers."""

FOLDER_NAMES = 2_000
"""Names of a folder that are listed on the page, or compared with a mistyped one."""

YAML_NODES = 200_000
YAML_DEPTH = 12
"""A show file is three levels deep; the rest is room for mistakes that deserve a better message."""

ZIP_PARTS = 2_000
ZIP_PART_BYTES = 50_000_000
ZIP_TOTAL_BYTES = 150_000_000
ZIP_RATIO = 200
ZIP_FREE_BYTES = 5_000_000
"""A workbook that unpacks to less than this may do so at any ratio: tidy tables pack very well."""

XML_TAGS = 1_000_000
XML_TAGS_ASIDE = 200_000
XML_TAG_BYTES = 20_000
"""Tags of a workbook, those of its parts that are neither sheets nor texts, and the length of one: what is parsed takes
many times its bytes."""

SHEETS = 200
TABLES = 60
SHEET_ROWS = 20_000
SHEET_COLUMNS = 500
SHEET_CELLS = 150_000
"""Sheets of a workbook, tables of a sheet, and its rows, columns and cells."""

SWEEP_FILES = 50
SWEEP_BYTES = 16_000_000
SWEEP_LEVELS = 500_000
"""Sweeps of one show, the size of a file, and the levels that it may hold once its passes are held at their highest."""

TEXT_LENGTH = 4_000
"""Characters in one value; the longest note that a page can carry."""

LIST_LENGTH = 2_000
"""Items that one shorthand (`01-06`, `FOH 1-6`) may stand for, and slots of one rack."""

ITEMS = 50_000
"""Items that all lists and shorthand of a file stand for together, and slots of all racks; and names that its groups stand
for wherever they are named."""

COUNT = 10_000
"""The greatest number of things that one field may list: inputs, slots, pieces owned."""

RECORDS = 5_000
"""Records in one section: channels, scenes, people, carriers of others."""

PERFORMANCES = 40
"""Performances that a check judges one by one; those alike in cast and times count as one."""

FIELDS = 200
"""Fields of one record; the schema knows far fewer."""

GRID_CELLS = 500_000
"""Channels or roles times scenes, roles that alternate times performances, and names that groups stand for in scenes."""

CARRIERS_NEAREST = 1_200
"""Carriers beside which a clean frequency is looked for by `check`; beyond, `assign` is named instead."""

CARRIERS_ODD = 1_000
"""Carriers that may be off a raster of 1 kHz and be judged by their products; the sums of all pairs are held."""

CARRIERS_SCATTERED = 100
"""Carriers that may nearly each be on, off and on again at times of their own, and have their products counted: they are
listed, some ten seconds where all steps are equal."""

CARRIERS_MARGINS = 160
"""Carriers of which papers show the margins: half a second where the plan is bad; `check --margins` has no bound."""

STEP_HZ = 1_000
"""The finest tuning step; a finer one is a slip of the unit, and would be millions of places to try."""

WIDTH_HZ = 400_000_000
"""The widest bandwidth, distance or guard; the widest channel of a wireless network is 320 MHz (IEEE 802.11be, from
memory)."""

SEARCHES = 100
"""Kinds of radio in windows that one survey looks at; each takes about a second."""

LIKE_DEPTH = 20
"""Radio types that stand behind one another by `like`."""

COMPARISONS = 50_000
"""Known words that one run compares with mistyped ones to say which was meant."""

NAME_LENGTH = 100
"""Characters up to which a word is compared with others: whoever mistypes more is not helped by a guess."""

FINDINGS = 1_000
"""Findings that one run reports; the rest are counted."""

PAGES = 3_000
"""Pages of one paper."""

VOLUME_PAGES = 1_000
"""Pages of papers in one volume of the show book; a paper of more is a volume of its own."""

PICTURES = 4
"""Pages of a paper that are pictured in the index: pictures are ten times as large as what they show."""

POCKET_DRAWINGS = 4_000_000
"""Bytes of the drawings in one file for a telephone; what it says as text is as long as the show."""

ABOUT_BYTES = 2_000_000
"""What an archive says of itself."""

PATH_LENGTH = 200
"""Characters in the path of an archived file; some systems allow 260 with the folder before it."""

ARCHIVE_BYTES = 48_000_000
"""An archive or a show book, as a file and unpacked: it is held several times while it is verified."""

ARCHIVES = 500
"""Archives of one folder that are put in line."""

PHOTO_BYTES = 80_000_000
PHOTO_PIXELS = 46_000_000
"""A photograph as a file, and opened; large JPEGs are opened at half their size, so that any telephone's are read."""

SETTINGS_BYTES = 100_000
"""The file of printers."""

RECORD_BYTES = 8_000_000
"""What this program remembers in an output folder."""

FORM_BYTES = 1_000_000
FORM_FIELDS = 10_000
"""A form that the local page sends."""

REQUEST_BYTES = 32_000_000
DROPPED_FILES = 16
"""Files that are dropped on the page at once."""

HEAD_BYTES = 32_768
"""The head of a request."""

READ_SECONDS = 30
PRINT_SECONDS = 900
WORK_BYTES = 2_000_000_000
"""What one show may take of the page's processes: to be read or compared, and to be printed; a process that takes more is
ended. The costliest file that the other bounds let through takes a tenth to be read, the largest show a fifth to be printed."""

COMMAND_SECONDS = 3_600
COMMAND_BYTES = 4_000_000_000
"""The same for one command, of processor time: for those that nobody watches, who could end them."""

OPEN_SHOWS = 8
"""Shows that are open on the page at once; the oldest is closed for a newer one."""

UNDO_STEPS = 500
UNDO_BYTES = 32_000_000
"""Edits of one show on the page that can be undone, and the bytes that they replaced and put."""
