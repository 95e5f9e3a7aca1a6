"""A show held against an earlier revision, and what must be printed again of it."""

from paperwork.files.refusal import Refused
from paperwork.revisions import Side, compare_revisions, make_since
from paperwork.serve.bundles import unpack
from paperwork.serve.shows import Opened


def compare(opened: Opened, name: str, data: bytes) -> str:
    """Compares with an earlier revision, from a show file, an archive or a show book; says why it cannot, or ""."""
    show = opened.reading.show
    if show is not None and show.is_of_days:
        return f"{show.at_performance} is several performances; choose one of them, or the whole run, and compare again"
    try:
        inside = unpack(name, {**opened.dropped, name: data})
    except Refused as refused:
        return refused.finding.text
    # An archive or a book counts as it was printed, for its own venue, and for the whole run.
    shown, is_own = inside.show, inside.show == name
    folder, venue = (opened.folder, opened.venue) if is_own else (None, inside.venue)
    earlier = Opened("", shown, dict(inside.files), folder, venue, opened.on)
    earlier.read()
    if is_own and opened.venue and not earlier.venue:
        return (
            f"{name} does not know the venue {opened.venue}; look at the show as it is in its file, and compare again"
        )
    if opened.on and not earlier.on:
        return f"{name} does not know the performance {opened.on}; look at the whole run, and compare again"
    if earlier.reading.show is None or show is None:
        first = next((finding for finding in earlier.reading.findings if finding.severity == "error"), None)
        return f"{name} cannot be used: {first.text if first else 'there is no show in it'}"
    prints = () if opened.on else inside.prints
    old = Side(earlier.reading.show, earlier.reading.findings, earlier.name, prints)
    opened.compared = compare_revisions(old, Side(show, opened.reading.findings, opened.name))
    return ""


def print_since(opened: Opened) -> None:
    """Makes the change list and what must be printed again."""
    if opened.compared:
        opened.laid["since"] = opened.labels
        opened.since = make_since(opened.compared, labels=opened.choice)
