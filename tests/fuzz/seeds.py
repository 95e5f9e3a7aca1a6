"""What is mutated: the example, every broken show, foreign sheets, sweeps, archives, books, photographs."""

import io
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.shows_text import EXAMPLES

SHOWS = Path(__file__).resolve().parent.parent / "shows"
DATA = SHOWS.parent / "data"

LISTS = (
    "Ch;Role;Actor;Freq;Capsule;Notes\n1;VERA;Mara Lind;520,2;beige;tape B\n2;TOM;Ben Arlo;1.518,200;tan;\n3;SPARE;;524.100;;\n",
    """Mic,Character,Performer,MHz,Rx,Sc 1,Sc 2,1.10
M1,VERA,Mara Lind,518.2,R1.1,x,,(x)
M2,TOM,"Ried, Max",518.6,R1.2,,x,x
M3,SAILOR/HOST,Ana Cole,G2 Ch 04,2A,o,x,1→2
HH1,,,606.5,,,,
Total,24 mics,,,,,,
""",
    "sep=;\nkanal;darsteller;rolle;frequenz\n01;Mara Lind;VERA;518 200\n02;Max Ried;TOM;ditto\n03;Ensemble;;518.2 / 520.4\n",
    "id,role,by,mhz\n01,VERA,Mara Lind,486.200\n02,TOM,Max Ried,486.600\n",
    'name\tfreq\n"Mara\nLind"\t518.2\nMax\t5.186E+02\n',
)

SWEEPS = (
    "# a sweep\nfrequency,level\n486.000,-97.5\n486.025,-98\n486.050,-60.1\n",
    "2027-03-01, 19:30:00, 470000000, 474000000, 1000000.00, 20, -90.1, -91.2, -70.3, -92\n" * 3,
    "470,1;-97,3\n470,2;-96,1\n",
    "486000000 -90\n486100000 nan\n486200000 -inf\n",
    '"Index","Frequency (MHz)","Max hold (dBuV)","Average"\n"1","486,000","9,5","7"\n"2","486,100","10,5","8"\n',
    "Start: 486 MHz\nStop: 487 MHz\nPoints: 4\n-97,-98,-60,-97\n-98,-99,-70,-98\n",
    "Start (MHz),Stop (MHz),Points\n486,487,3\n-97\n-98 dBm\n-99\n",
    "486.0,486.1,-97\n486.1,486.2,-98\n486.2,486.3,-60\n",
)

ANSWERS = (
    'frequency:\n  "1.518,200": "518.200"\npeople:\n  Ensemble: [Mara Lind, Max Ried]\nheading:\n  Freq: mhz\n',
    "scene: {1.1: 1.10}\nmark: {x: live, (x): off, o: live}\n",
)

PRINTERS = "[stage-left]\ndpi = 300\nright = 0.4\ndown = -0.2\nacross = 99.4\nalong = 99.8\n"


@dataclass(frozen=True, slots=True)
class Seeds:
    """Bytes by kind. `yaml` are show files, `books` workbooks of ours and of others."""

    yaml: tuple[bytes, ...]
    small: tuple[bytes, ...]
    workbooks: tuple[bytes, ...]
    lists: tuple[bytes, ...]
    sweeps: tuple[bytes, ...]
    answers: tuple[bytes, ...]
    archives: tuple[bytes, ...]
    books: tuple[bytes, ...]
    photos: tuple[bytes, ...]
    printers: tuple[bytes, ...]


@cache
def load_seeds() -> Seeds:
    """All seeds, the same on every machine."""
    from tests.archive.samples import small_archive
    from tests.archive.test_inputs import SHOW, SWEEP, book

    shows = tuple(path.read_bytes() for path in sorted(SHOWS.glob("*.yaml")))
    example = (EXAMPLES / "show.yaml").read_bytes()
    return Seeds(
        yaml=(example, *shows),
        small=shows,
        workbooks=tuple(_make_workbooks()),
        lists=_encode(LISTS),
        sweeps=_encode(SWEEPS),
        answers=_encode(ANSWERS),
        archives=(small_archive(), small_archive(public=True, inputs={}), small_archive(venue="Pier")),
        books=(book(SHOW, SWEEP), book(SHOW), book()),
        photos=tuple(_make_photos()),
        printers=(PRINTERS.encode(),),
    )


def _encode(texts: tuple[str, ...]) -> tuple[bytes, ...]:
    return tuple(text.encode() for text in texts)


def _make_workbooks():
    """A small show of ours, the template, and lists as people keep them: merged, struck, coloured, hidden, calculated."""
    from openpyxl.styles import Font, PatternFill

    from paperwork.files.xlsx.write import write_workbook
    from tests.intake.sheets import workbook
    from tests.shows_text import raw_of

    yield (EXAMPLES / "show.xlsx").read_bytes()
    yield write_workbook(
        raw_of(
            "show: {title: Glass, revision: B}\nracks: {R1: {channels: 01-02, window: 486-508, analogue 1: FOH 1-2}}\n"
            "channels:\n  01: {role: VERA, by: Mara Lind, mhz: 486.200}\n  02: {role: TOM, by: Max Ried, mhz: 486.700}\n"
            "scenes: {s1: {name: 1.1 Quay, live: VERA TOM}}\n"
        )
    )

    def spoil(book) -> None:
        sheet = book["Mics"]
        sheet["B2"].font = Font(strike=True)
        sheet["C3"].fill = PatternFill("solid", fgColor="FFFF00")
        sheet["D3"] = "=D2+0.4"
        sheet["D2"].number_format = "0.000 MHz"
        sheet.merge_cells("E2:F3")
        sheet.column_dimensions["G"].hidden = True
        book["OLD"].sheet_state = "hidden"

    rows = [
        ["Ch", "Actor", "Role", "Freq", "1.1", "1.2", "Notes"],
        [1, "Mara Lind", "VERA", 518.2, "x", None, "tape"],
        [2, "Max Ried", "TOM", None, None, "(x)", ""],
        ["S1", "SPARE", None, 520.125, None, None, None],
    ]
    yield workbook({"Mics": rows, "OLD": rows[:2]}, spoil)


def _make_photos():
    """One label's code, as each kind of picture that is read."""
    import qrcode
    from PIL import Image

    code = qrcode.QRCode(border=4)
    code.add_data("01:VERA:B:7F3A")
    code.make()
    matrix = code.get_matrix()
    picture = Image.new("L", (len(matrix), len(matrix)), 255)
    for y, row in enumerate(matrix):
        for x, is_dark in enumerate(row):
            if is_dark:
                picture.putpixel((x, y), 0)
    picture = picture.resize((len(matrix) * 4,) * 2)
    for kind in ("PNG", "JPEG", "GIF", "BMP", "TIFF", "WEBP"):
        buffer = io.BytesIO()
        picture.save(buffer, kind)
        yield buffer.getvalue()
    yield (DATA / "mic_table.heic").read_bytes()
