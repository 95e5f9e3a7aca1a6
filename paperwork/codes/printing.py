"""Codes of the papers: what a page or a label could not show as it was written."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "glyph-missing",
        "error",
        "no printing font can draw a sign in {text}: {signs}",
        "write the name in other letters, or leave that sign out",
        "Fonts draw nothing, or an empty box, for a sign that they do not have, so a name would be printed with a "
        "hole in it. Latin with all its accents, Vietnamese, Greek and Cyrillic always print. Arabic, Hebrew, "
        "Devanagari, Thai, Chinese, Japanese and Korean print with an extra. Every text is checked before anything is "
        "printed, and a word that cannot be drawn becomes a line to write on.",
    ),
    Code(
        "script-not-installed",
        "error",
        "{text} is written in {script}, whose fonts are not installed{more}",
        "run: pip install 'show-paperwork[{extra}]'",
        "The fonts for Arabic, Hebrew, Devanagari and Thai, and the code that joins their letters in the right order, "
        "come with the extra `scripts`; those for Chinese, Japanese and Korean with the extra `cjk`. Without them "
        "every other word is printed, and such a word becomes a line to write on: never a box, a hole or a reversed "
        "name.",
        advice="install the extra `scripts`, or `cjk` for Chinese, Japanese and Korean",
    ),
    Code(
        "text-abbreviated",
        "warning",
        "{who}: {sheet} has no room for {text}; it is printed as {shown}{more}",
        "give it a shorter name, or print this paper on a larger size",
        "Every kind of text has a smallest size, set by the distance from which it is read. A text that does not fit "
        "is first shrunk to that size, then broken at a space, a hyphen or a slash, and only then cut, with an "
        "ellipsis to show it. It is never made smaller, and a cut is always reported.",
        floods=True,
    ),
    Code(
        "text-across-cut",
        "warning",
        "{who}: {sheet} has no room for {text} within the cut, so it is left off{more}",
        "print a higher strip or a larger card, or give it a shorter name",
        "Whatever is cut to a size keeps its ink off the knife. A text is made smaller first, down to the size that its "
        "distance asks for; one that would still reach over the cut is left off and reported, since half a name reads "
        "as another one.",
        floods=True,
    ),
    Code(
        "number-does-not-fit",
        "error",
        "{who}: {sheet} has no room for the number {number}; a blank is printed{more}",
        "shorten the number, or print this paper on a larger size",
        "A number or a frequency is never broken, cut or made too small for its reading distance, because half a "
        "number is read as another number. Where one does not fit, the paper shows a ruled blank.",
        floods=True,
    ),
    Code(
        "row-too-tall",
        "error",
        "{who}: one row of {sheet} is taller than a page, so its last lines are missing",
        "shorten the list in that row, or print this paper on a larger size",
        "A row is never split over two pages, so one that is taller than a page cannot be shown whole.",
    ),
    Code(
        "paper-long",
        "error",
        "{paper} would have {pages} pages, so it is not printed",
        "split the show; a paper has at most {most} pages",
        "A paper of thousands of pages is a mistake in the show. It is left out as a whole, never in part.",
        advice="split the show",
    ),
    Code(
        "stock-unknown",
        "error",
        "there is no label stock called {stock}",
        "use one of: {known}",
        "A label stock is named by paper, count and size, as a4-21-63.5x38.1. Labels are only printed on a stock "
        "whose sizes are known, because a wrong guess prints across the cuts.",
        advice="use one of the stocks that the message lists",
        stops=True,
    ),
    Code(
        "label-text-left-out",
        "warning",
        "labels of {stock} have no room for the {kind}; left off: {labels}",
        "use a larger label",
        "A label keeps 2 mm clear of its edge, and no text is smaller than can be read by torch. On a small label the "
        "number comes first, then the role, the frequency, the performer, the pack and the capsule. What has no room "
        "at a readable size is left off and reported.",
    ),
    Code(
        "label-code-left-out",
        "warning",
        "labels of {stock} have no room for a QR code that a phone can read; left off: {labels}",
        "use a larger label, or a printer with finer dots",
        "Phones cannot read a QR module smaller than 0.33 mm in poor light. A label without room for modules of that "
        "size and the white border around them has no code rather than one that fails.",
    ),
    Code(
        "label-near-edge",
        "warning",
        "labels of {stock} print up to {mm} mm from the edge of the paper, where many printers print nothing",
        "print a proof on plain paper first, or use a stock with wider margins",
        "Most laser printers leave 4 to 6 mm of each edge blank, so labels that reach into that border may lose a "
        "line of text unnoticed. `--proof` prints the sheet on plain paper with the outline of every label.",
    ),
    Code(
        "labels-misplaced",
        "error",
        "the label sheet {stock} has {cells} labels; {asked} cannot be used",
        "start with a number from 1 to {cells}, and leave at least one label of the first sheet free",
        "A part-used sheet is described by its first free label and by those already peeled off, counted across and "
        "then down from 1. A number that the sheet does not have would lose labels.",
        advice="start with a number that the sheet has, and leave at least one label of the first sheet free",
        stops=True,
    ),
)
