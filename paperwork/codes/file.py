"""Codes of files and of text: what stops one from being read, or a part of it."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")

_FILES: tuple[Code, ...] = (
    _read(
        "file-missing",
        "error",
        "there is no file {name}",
        "check the name and the folder{nearest}",
        "The file named on the command line, or named inside the show file, does not exist.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-folder",
        "error",
        "{name} is a folder, not a show file",
        "name the file inside it{nearest}",
        "A folder was given where one show file is needed.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-denied",
        "error",
        "{name} cannot be read: the system does not allow it",
        "give yourself the right to read the file, or copy it to a folder of your own",
        "The file exists, but its permissions or those of its folder keep it from being read.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-special",
        "error",
        "{name} is a device or a pipe, not a file on disk",
        "save the show as a file and name that",
        "Only files on disk are read. A device or a pipe may never end, so it is not even opened.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-unreadable",
        "error",
        "{name} could not be read: {reason}",
        "check the disk, or copy the file elsewhere and try again",
        "The system reported a fault while the file was opened or read.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-empty",
        "error",
        "{name} is empty{detail}",
        "start again with `paperwork new`, or bring back the last good copy",
        "The file is empty, or holds only blank lines and comments. A full disk or a broken copy often leaves one.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-heavy",
        "error",
        "{name} takes more than {most} to be read, which no show does",
        "look for a number, a range or a list in it that is far too large",
        "The file was read in a process of its own, which was ended so that other shows could go on. No show that is "
        "meant takes so long; a slip in a range or a number can.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-large",
        "error",
        "{name} is larger than {most} bytes",
        "check that it is the show file; pictures and other lists belong in other files",
        "A show file is a few hundred kilobytes at most, so a much larger one is refused before it is read.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-kind",
        "error",
        "{name} is {what}, not a show file",
        "{remedy}",
        "A show file is YAML text (.yaml) or a workbook (.xlsx). Other files are recognised by their first bytes.",
        advice="save the show as YAML text (.yaml) or as a workbook (.xlsx), and name that file",
    ),
    _read(
        "file-old-workbook",
        "error",
        "{name} is an old binary workbook (.xls)",
        "open it in a spreadsheet program and save it as .xlsx",
        "Old binary workbooks are not read. Any spreadsheet program saves them in the newer format.",
    ),
    _read(
        "file-password",
        "error",
        "{name} is locked with a password",
        "open it with its password, remove the password, and save it again",
        "A locked workbook is encrypted as a whole. Nothing in it can be read without its password.",
    ),
    _read(
        "file-damaged",
        "error",
        "{name} is damaged: {reason}",
        "copy or download it again, or open it in a spreadsheet program and save it again",
        "The workbook stops half-way, or parts that its own table of contents lists are missing.",
    ),
    _read(
        "file-unsafe",
        "error",
        "{name} is refused: {reason}",
        "copy its cells into a new workbook and use that",
        "A workbook is a packed folder. One that unpacks to an unreasonable size, or that declares entities of its "
        "own, could stop the computer, so it is refused before it is unpacked.",
    ),
    _read(
        "photo-unreadable",
        "error",
        "{name} cannot be read: {reason}",
        "save it as JPEG or PNG, or take the photograph again",
        "Photographs are read as JPEG, HEIC, PNG, WebP, TIFF, GIF or BMP.",
    ),
    _read(
        "photo-large",
        "error",
        "{name} has more than {most} pixels",
        "save it smaller, or take two photographs of half the table each",
        "A picture is held in memory as a whole, so the number of its pixels is limited. Large JPEGs are opened at "
        "half their size.",
    ),
    _read(
        "file-misnamed",
        "warning",
        "{name} is {what}, whatever its name says",
        "rename it to end in {suffix}",
        "The file was read by its contents. With this name other programs open it wrongly.",
        advice="rename it to end in .yaml, .xlsx or .csv, as its contents are",
    ),
    _read(
        "file-encoding",
        "error",
        "{name} is not UTF-8 text: {byte} here",
        "save it again as UTF-8; editors offer the encoding in the Save As window",
        "Text is read as UTF-8 (or as UTF-16 if it says so). Guessing another encoding would print wrong names.",
    ),
)

_TEXT: tuple[Code, ...] = (
    _read(
        "yaml-syntax",
        "error",
        "{problem}",
        "{remedy}",
        "The YAML cannot be read at this place. Nothing after it was read, so there may be more.",
        advice="check the brackets, quotes, colons and indentation at this place",
    ),
    _read(
        "yaml-control",
        "error",
        "there is an invisible control character here ({character})",
        "delete it; it usually comes with text pasted from a PDF",
        "Control characters cannot be printed and are not allowed in YAML.",
    ),
    _read(
        "yaml-repeat",
        "error",
        "{what} here; the file must give everything in full",
        "write the values out where they belong",
        "Anchors (&), aliases (*) and merge keys (<<) let one place of a file repeat another. They are not read: a "
        "printed line could no longer be traced to one place, and a short file could unfold without end.",
    ),
    _read(
        "yaml-tag",
        "error",
        "tags ({tag}) are not read",
        'delete the tag; for text that begins with !, put it in quotes: "{tag}"',
        "Tags (!name) ask for special kinds of values. A show file needs none: every value is text.",
        advice="delete the tag; put text that begins with ! in quotes",
    ),
    _read(
        "yaml-key",
        "error",
        "{problem}",
        "{remedy}",
        "Every entry is a plain name, a colon and a value. A list or a group cannot be the name, and an entry within "
        "braces needs its colon.",
        advice="write a plain name, a colon and a value",
    ),
    _read(
        "yaml-documents",
        "error",
        "a second document begins here",
        "delete the line `---`, or move what follows to a file of its own",
        "A line of three hyphens starts a second document in the same file. One file is one show.",
    ),
    _read(
        "yaml-top",
        "error",
        "the file is {what}, not a set of sections",
        "begin with a section, for example `channels:` on a line of its own",
        "The outermost entries of a show file are its sections: show, channels, racks and so on.",
    ),
    _read(
        "yaml-deep",
        "error",
        "groups are nested more than {most} deep here",
        "check the brackets and the indentation; a show file is three levels deep",
        "Section, record, field: a show file has three levels and a short list or group within a field.",
    ),
    _read(
        "yaml-large",
        "error",
        "the file holds more than {most} values",
        "check that it is the show file",
        "The number of values in one file is limited, far above any real show.",
    ),
    _read(
        "key-doubled",
        "error",
        "{key} appears twice; the first is at {first}",
        "keep one of the two, or rename one of them",
        "One group has the same key twice. Other programs keep the last and silently drop the first, which loses one "
        "of two edits. So the file is not used until one of them is gone.",
        advice="keep one of the two, or rename one of them",
    ),
    _read(
        "comment-in-value",
        "warning",
        "everything after the # is lost as a comment: {lost}",
        "put the whole value in quotes, or write a space after the # if it is a comment",
        "In YAML a space and a # begin a comment: `note: see #4 pack` reads as `see`, and half a note is lost. Only a "
        "# with a figure right behind it, or one that leaves a value empty, is reported.",
    ),
    _read(
        "text-long",
        "error",
        "this value is longer than {most} characters",
        "shorten it; keep long notes in a file of their own",
        "No paper has room for a value of this length.",
    ),
    _read(
        "text-control",
        "warning",
        "invisible control characters were left out of this value: {characters}",
        "type the value again; they usually come with text pasted from a PDF",
        "Control characters cannot be printed. The value is used without them.",
    ),
)

TABLE: tuple[Code, ...] = (*_FILES, *_TEXT)
