"""Codes of the papers: what a page or a label could not show as it was written."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="glyph-missing",
        severity="error",
        stage="sense",
        says="the text {text} has a sign that no printing font here can draw: {signs}",
        fix="write the name in other letters, or leave that sign out",
        explains=(
            "Fonts draw nothing, or an empty box, for a sign that they do not have, so a name would be printed with a "
            "hole in it. Latin with all its accents, Vietnamese, Greek and Cyrillic always print; Arabic, Hebrew, "
            "Devanagari, Thai, Chinese, Japanese and Korean print with an extra. Every text is looked at before anything "
            "is printed, and a word that cannot be drawn is a line to write on."
        ),
    ),
    Code(
        name="script-not-installed",
        severity="error",
        stage="sense",
        says="{text} is written in {script}, whose fonts are not installed{more}",
        fix="run: pip install 'show-paperwork[{extra}]'",
        explains=(
            "Fonts for Arabic, Hebrew, Devanagari and Thai, and what joins their letters and sets them in the right order, "
            "come with the extra `scripts`; those for Chinese, Japanese and Korean with the extra `cjk`. Without them "
            "every other word is printed, and in place of such a word stands a line to write it on: never a box, a hole or "
            "a name turned round."
        ),
    ),
    Code(
        name="text-abbreviated",
        severity="warning",
        stage="sense",
        says="{who}: {sheet} has no room for {text}; it is printed as {shown}",
        fix="give it a shorter name, or print this paper on a larger size",
        explains=(
            "Every kind of text has a smallest size, set by the distance from which it is read. A text that does not fit "
            "is first shrunk to that size, then broken at a space, a hyphen or a slash, and only then cut, with an "
            "ellipsis to show it. It is never made smaller, and never cut in silence."
        ),
    ),
    Code(
        name="number-does-not-fit",
        severity="error",
        stage="sense",
        says="{who}: {sheet} has no room for the number {number} at a size that can be read; a blank is printed",
        fix="shorten the number, or print this paper on a larger size",
        explains=(
            "A number or a frequency is never broken, cut or made smaller than the distance asks for, because half a "
            "number is read as another number. Where one does not fit, the paper shows a ruled blank in its place."
        ),
    ),
    Code(
        name="row-too-tall",
        severity="error",
        stage="sense",
        says="{who}: one row of {sheet} is taller than a page, so its last lines are left out",
        fix="shorten the list in that row, or print this paper on a larger size",
        explains="A row is never split over two pages, so one that is taller than a page cannot be shown whole.",
    ),
    Code(
        name="paper-long",
        severity="error",
        stage="sense",
        says="{paper} would have {pages} pages, and is not printed",
        fix="split the show; a paper has at most {most} pages",
        explains="A paper of thousands of pages is no paper of one show. It is left out as a whole, never in part.",
    ),
    Code(
        name="stock-unknown",
        severity="error",
        stage="sense",
        says="there is no label stock called {stock}",
        fix="use one of: {known}",
        explains=(
            "A label stock is named by paper, count and size, as a4-21-63.5x38.1. Labels are only printed on a stock "
            "whose sizes are known, because a wrong guess prints across the cuts."
        ),
    ),
    Code(
        name="label-text-left-out",
        severity="warning",
        stage="sense",
        says="labels of {stock} have no room for the {kind}; left off: {labels}",
        fix="use a larger label",
        explains=(
            "A label keeps 2 mm clear of its edge and no text falls below the size that is read by torch. On a small "
            "label the number comes first, then the role, the frequency, the performer, the pack and the capsule; "
            "what has no room at a readable size is left off, and said."
        ),
    ),
    Code(
        name="label-code-left-out",
        severity="warning",
        stage="sense",
        says="labels of {stock} have no room for a QR code that a phone can read; left off: {labels}",
        fix="use a larger label, or a printer with finer dots",
        explains=(
            "A QR module smaller than 0.33 mm is not read by phones in poor light. A label without room for modules "
            "of that size and the white border around them carries no code rather than one that fails."
        ),
    ),
    Code(
        name="label-near-edge",
        severity="warning",
        stage="sense",
        says="labels of {stock} print as near as {mm} mm to the edge of the paper, where many printers print nothing",
        fix="print a proof on plain paper first, or use a stock with wider margins",
        explains=(
            "Most laser printers leave 4 to 6 mm of each edge blank. Labels that reach into that border may lose a line "
            "of text without a word. `--proof` prints the sheet on plain paper with the outline of every label."
        ),
    ),
    Code(
        name="labels-misplaced",
        severity="error",
        stage="sense",
        says="the label sheet {stock} has {cells} labels; {asked} cannot be used",
        fix="start with a number from 1 to {cells}, and leave at least one label of the first sheet free",
        explains=(
            "A part-used sheet is told by the first free label and by those already peeled off, counted across and "
            "then down from 1. A number that the sheet does not have would lose labels."
        ),
    ),
)
