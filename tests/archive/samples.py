"""Small archives to try things on."""

from paperwork.archive import Edition, make_archive
from paperwork.document.printed import Printed
from tests.shows_text import raw_of

SHOW = b"""show: {title: Glass, revision: B, revisions: [A], revised: 2027-03-01, reason: new packs}
channels: {01: {role: VERA, by: Mara Lind, mhz: 486.200, notes: talks low}}
"""

INPUTS = {"show.yaml": SHOW, "sweeps/a.csv": b"486.2,-91\r\n"}


def small_record(**changes) -> Edition:
    """A record of the smallest show, with one paper of a few bytes in place of PDFs."""
    from paperwork.build import build_show

    show = build_show(raw_of(SHOW.decode())).show
    whole = {
        "show": show,
        "findings": (),
        "papers": {"rack/channel-chart.pdf": b"%PDF-1.4 chart", "index.html": b"<p>index</p>"},
        "printed": (Printed("rack/channel-chart.pdf", "Channel chart", "rack", (1,), ("7F3A",), ("",)),),
        "missing": (("patch-sheet", "racks with outputs"),),
        "inputs": INPUTS,
    }
    return Edition(**{**whole, **changes})


def small_archive(**changes) -> bytes:
    """Its archive."""
    return make_archive(small_record(**changes))
