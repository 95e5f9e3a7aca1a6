"""Codes of the papers: what a page or a label could not show as it was written."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "glyph-missing",
        "error",
        "no font here can draw a sign in {text}: {signs}",
        "write the name in other letters, or leave out that sign",
        "A font draws nothing, or an empty box, for a sign that it does not have, and the name would have a hole in "
        "it. Latin with all its accents, Vietnamese, Greek and Cyrillic always print. Arabic, Hebrew, Devanagari, "
        "Thai, Chinese, Japanese and Korean print with an extra. A word that cannot be drawn becomes a line to write "
        "on.",
    ),
    Code(
        "text-invisible",
        "error",
        "this text shows nothing on paper: it has only {signs}",
        "write it again with the keyboard, or delete it",
        "Text pasted from a page or a chat brings signs along that nobody sees: spaces of no width, joiners, marks of writing "
        "direction. A name of nothing else is a blank on every paper.",
    ),
    Code(
        "script-not-installed",
        "error",
        "{text} is in {script}, and its fonts are not installed{more}",
        "run: pip install 'show-paperwork[{extra}]'",
        "The fonts for Arabic, Hebrew, Devanagari and Thai, and the code that joins their letters, come with the extra "
        "`scripts`; those for Chinese, Japanese and Korean with `cjk`. Without them every other word prints, and such "
        "a word becomes a line to write on: never a box, a hole or a reversed name.",
        advice="install the extra `scripts`, or `cjk` for Chinese, Japanese and Korean",
    ),
    Code(
        "text-abbreviated",
        "warning",
        "{who}: {sheet} has no room for {text}; it prints as {shown}{more}",
        "give it a shorter name, or print this paper on a larger size",
        "Every kind of text has a smallest size, set by its reading distance. Text that does not fit shrinks to that "
        "size, then breaks at a space, hyphen or slash, and only then is cut, with an ellipsis. A cut is always "
        "reported.",
        floods=True,
    ),
    Code(
        "text-across-cut",
        "warning",
        "{who}: {sheet} has no room for {text} within the cut, so it is left off{more}",
        "print a higher strip or a larger card, or give it a shorter name",
        "What is cut to a size keeps its ink off the knife. Text shrinks first, down to the size for its reading "
        "distance; if it would still cross the cut it is left off, since half a name reads as another.",
        floods=True,
    ),
    Code(
        "number-does-not-fit",
        "error",
        "{who}: {sheet} has no room for the number {number}, so a blank is printed{more}",
        "shorten the number, or print this paper on a larger size",
        "A number or a frequency is never broken, cut or made too small to read: half a number is another number. If "
        "it does not fit, the paper has a blank to write in.",
        floods=True,
    ),
    Code(
        "row-too-tall",
        "error",
        "{who}: a row of {sheet} is taller than a page, and its last lines are missing",
        "shorten the list in that row, or print this paper on a larger size",
        "A row is never split over two pages, so one taller than a page cannot be shown whole.",
    ),
    Code(
        "paper-long",
        "error",
        "{paper} would be {pages} pages, so it is not printed",
        "split the show; a paper has at most {most} pages",
        "A paper of thousands of pages is a slip in the show. It is left out as a whole, never in part.",
        advice="split the show",
    ),
    Code(
        "stock-unknown",
        "error",
        "there is no label stock called {stock}",
        "use one of: {known}",
        "A label stock is named by paper, count and size, as a4-21-63.5x38.1. Only stocks of known sizes are printed: "
        "a wrong guess prints across the cuts.",
        advice="use a stock that the message lists",
        stops=True,
    ),
    Code(
        "label-text-left-out",
        "warning",
        "labels of {stock} have no room for the {kind}; left off: {labels}",
        "use a larger label",
        "A label keeps 2 mm clear at its edge, and no text is smaller than a torch needs. The number comes first, then "
        "role, frequency, performer, pack and capsule. What has no room at a readable size is left off.",
    ),
    Code(
        "label-code-left-out",
        "warning",
        "labels of {stock} have no room for a QR code that phones can read; left off: {labels}",
        "use a larger label, or a printer with more dots per inch",
        "In poor light a phone cannot read a QR module below 0.33 mm. Without room for that and the white border, a "
        "label has no code rather than one that fails.",
    ),
    Code(
        "label-near-edge",
        "warning",
        "labels of {stock} print up to {mm} mm from the edge of the paper, where many printers cannot",
        "print a proof on plain paper first, or use a stock with wider margins",
        "Most laser printers leave 4 to 6 mm of each edge blank, so a label there may lose a line unnoticed. `--proof` "
        "prints the sheet on plain paper with the outline of every label.",
    ),
    Code(
        "labels-misplaced",
        "error",
        "the label sheet {stock} has {cells} labels; {asked} cannot be used",
        "start with a number from 1 to {cells}, and leave at least one label of the first sheet free",
        "A part-used sheet is given by its first free label and those already peeled off, counted across, then down, "
        "from 1. A number that the sheet does not have would lose labels.",
        advice="start with a number that the sheet has, and leave at least one label of the first sheet free",
        stops=True,
    ),
)
