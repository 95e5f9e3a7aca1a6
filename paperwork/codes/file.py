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
        "The file on the command line, or one named in the show file, is not there.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-folder",
        "error",
        "{name} is a folder, not a show file",
        "name the file inside it{nearest}",
        "A folder was given in place of a show file.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-denied",
        "error",
        "{name} cannot be read: no permission",
        "get permission to read it, or copy it to a folder of your own",
        "The file is there, but its permissions or those of its folder do not let you read it.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-special",
        "error",
        "{name} is a device or a pipe, not a file on disk",
        "save the show as a file and name that",
        "Only files on disk are read. A device or a pipe may never end, so it is not opened.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-unreadable",
        "error",
        "{name} could not be read: {reason}",
        "check the disk, or copy the file elsewhere and try again",
        "The system reported a fault while the file was being read.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-empty",
        "error",
        "{name} is empty{detail}",
        "start again with `paperwork new`, or find the last good copy",
        "The file is empty, or only blank lines and comments. A full disk or a broken copy often leaves one.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-heavy",
        "error",
        "{name} takes more than {most} to read, and no show does",
        "look in it for a number, a range or a list that is far too large",
        "Reading was stopped so that other shows could go on. No real show takes this long; a slip in a range or a "
        "number can.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-large",
        "error",
        "{name} is larger than {most} bytes",
        "check that it is the show file; pictures and other lists go into other files",
        "A show file is a few hundred kilobytes at most, so one this large is refused unread.",
        topics=("frequency", "air"),
    ),
    _read(
        "file-kind",
        "error",
        "{name} is {what}, not a show file",
        "{remedy}",
        "A show file is YAML text (.yaml) or a workbook (.xlsx). Other files are known by their first bytes.",
        advice="save the show as YAML text (.yaml) or as a workbook (.xlsx), and name that file",
    ),
    _read(
        "file-old-workbook",
        "error",
        "{name} is an old binary workbook (.xls)",
        "open it in a spreadsheet program and save it as .xlsx",
        "The old binary format is not read. Any spreadsheet program saves the newer one.",
    ),
    _read(
        "file-password",
        "error",
        "{name} is locked with a password",
        "open it with its password, remove the password, and save it again",
        "A locked workbook is encrypted, and nothing in it can be read without its password.",
    ),
    _read(
        "file-damaged",
        "error",
        "{name} is damaged: {reason}",
        "copy or download it again, or open it in a spreadsheet program and save it again",
        "The workbook breaks off half-way, or parts are missing that its own contents list.",
    ),
    _read(
        "file-unsafe",
        "error",
        "{name} is refused: {reason}",
        "copy its cells into a new workbook and use that",
        "A workbook is a packed folder. One that unpacks to an absurd size, or declares entities of its own, could "
        "stop the computer, so it is refused before it is unpacked.",
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
        "The size of a picture is limited, because the whole of it is held in memory. Large JPEGs are opened at half "
        "size.",
    ),
    _read(
        "file-misnamed",
        "warning",
        "{name} is really {what}",
        "rename it to end in {suffix}",
        "The file was read by its contents. With this name other programs open it wrongly.",
        advice="rename it to end in .yaml, .xlsx or .csv, as its contents are",
    ),
    _read(
        "file-encoding",
        "error",
        "{name} is not UTF-8 text: {byte} here",
        "save it again as UTF-8; editors ask for the encoding in Save As",
        "Text is read as UTF-8 (or as UTF-16 if it says so). A guess would print wrong names.",
    ),
)

_TEXT: tuple[Code, ...] = (
    _read(
        "yaml-syntax",
        "error",
        "{problem}",
        "{remedy}",
        "The YAML cannot be read here. Nothing after this was read, so there may be more.",
        advice="check brackets, quotes, colons and indentation here",
    ),
    _read(
        "yaml-control",
        "error",
        "there is an invisible control character here ({character})",
        "delete it; it usually comes with text pasted from a PDF",
        "Control characters cannot be printed, and YAML does not allow them.",
    ),
    _read(
        "yaml-repeat",
        "error",
        "{what} here; the file must spell everything out",
        "write the values out where they belong",
        "Anchors (&), aliases (*) and merge keys (<<) make one place of a file repeat another. They are not read: a "
        "printed line could not be traced to its place, and a short file could unfold for ever.",
    ),
    _read(
        "yaml-tag",
        "error",
        "tags ({tag}) are not read",
        'delete the tag; for text that begins with !, put it in quotes: "{tag}"',
        "Tags (!name) ask for special values. A show file needs none: every value is text.",
        advice="delete the tag; put text that begins with ! in quotes",
    ),
    _read(
        "yaml-key",
        "error",
        "{problem}",
        "{remedy}",
        "Every entry is a plain name, a colon and a value. A list or group cannot be the name, and within braces an "
        "entry needs its colon too.",
        advice="write a plain name, a colon and a value",
    ),
    _read(
        "yaml-documents",
        "error",
        "a second document begins here",
        "delete the line `---`, or move the rest to a file of its own",
        "Three hyphens start a second document in one file. One file is one show.",
    ),
    _read(
        "yaml-top",
        "error",
        "the file is {what}, not a set of sections",
        "begin with a section, for example `channels:` on a line of its own",
        "A show file begins with its sections: show, channels, racks and so on.",
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
        "The file has more values than any real show.",
    ),
    _read(
        "key-doubled",
        "error",
        "{key} appears twice; the first is at {first}",
        "keep one of the two, or rename one of them",
        "One group has the same key twice. Other programs keep the last and drop the first without a word, and one of "
        "two edits is lost. So the file is not used until one of them is gone.",
        advice="keep one of the two, or rename one of them",
    ),
    _read(
        "comment-in-value",
        "warning",
        "everything after the # is lost as a comment: {lost}",
        "put the whole value in quotes, or write a space after the # if it is a comment",
        "In YAML a space and a # begin a comment: `note: see #4 pack` reads as `see`, and half the note is lost. Only "
        "a # right before a figure, or one that leaves nothing, is reported.",
    ),
    _read(
        "text-long",
        "error",
        "this value is longer than {most} characters",
        "shorten it; keep long notes in another file",
        "No paper has room for a value this long.",
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
