"""Every way in: files made from one throw of the dice, and the command or the requests that are given them."""

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

from paperwork.sheets import SHEETS
from tests.fuzz.packages import spoil_archive, spoil_book, spoil_photo, spoil_workbook
from tests.fuzz.seeds import Seeds
from tests.fuzz.texts import encode, pick_word, spoil_bytes, spoil_text
from tests.fuzz.trees import spoil_tree

PAPERS = (*(paper.name for paper in SHEETS), "show-bok")
"""Every paper but the book, and one that is not there."""


@dataclass(frozen=True, slots=True)
class Try:
    """One input: files below `in/`, files that lie in `out/` already, what is typed, and the command; or requests to the page."""

    files: dict[str, bytes]
    argv: tuple[str, ...] = ()
    typed: str = ""
    lying: dict[str, bytes] = field(default_factory=dict)
    requests: "tuple[Request, ...]" = ()
    visits: "tuple[Request, ...]" = ()
    """What a telephone asks that papers are lent to."""


@dataclass(frozen=True, slots=True)
class Request:
    """One request to the page; `{here}` in the path is the address of the show that was dropped last."""

    method: str
    path: str
    body: bytes = b""
    headers: tuple[tuple[str, str], ...] = ()


def _show(seeds: Seeds, dice: Random, *, whole: float = 0.06) -> bytes:
    """A spoiled show in YAML; now and then the example, which costs more."""
    base = seeds.yaml[0] if dice.random() < whole else dice.choice(seeds.small)
    other = seeds.yaml[0] if dice.random() < 0.5 else dice.choice(seeds.small)
    roll = dice.random()
    if roll < 0.55:
        return spoil_tree(base, dice, other).encode("utf-8", "surrogatepass")
    if roll < 0.92:
        return encode(spoil_text(base.decode(), dice, other.decode()), dice)
    return spoil_bytes(base, dice)


def _list(seeds: Seeds, dice: Random) -> bytes:
    text = dice.choice(seeds.lists).decode()
    return (
        encode(spoil_text(text, dice, dice.choice(seeds.lists).decode()), dice)
        if dice.random() < 0.9
        else spoil_bytes(text.encode(), dice)
    )


def _flags(dice: Random) -> tuple[str, ...]:
    return dice.choice(((), (), (), ("--venue", "Pier"), ("--strict",), ("--format", "json"), ("--format", "sarif")))


def check_yaml(seeds: Seeds, dice: Random) -> Try:
    """`check` of a show file."""
    name = dice.choice(("show.yaml",) * 9 + ("show.xlsx", "show.csv", "show", "show.txt"))
    return Try({name: _show(seeds, dice)}, ("check", f"in/{name}", *_flags(dice)))


def fix_show(seeds: Seeds, dice: Random) -> Try:
    """`check --fix` of a show file."""
    return Try({"show.yaml": _show(seeds, dice, whole=0.0)}, ("check", "in/show.yaml", "--fix", "-o", "out/new.yaml"))


def set_values(seeds: Seeds, dice: Random) -> Try:
    """`set` with edits that may be anything, in text or in a workbook."""
    edits = []
    for _ in range(dice.choice((1, 1, 2))):
        section, record = (
            dice.choice(("channels", "roles", "show", pick_word(dice))),
            dice.choice(("01", "VERA", pick_word(dice))),
        )
        field = dice.choice(("mhz", "by", "", "role", "mzh/", pick_word(dice)))
        edit = f"{section}/{record}/{field}={pick_word(dice)}"
        edits.append(spoil_text(edit, dice, edit) if dice.random() < 0.3 else edit)
    edits = [edit.replace("\0", "").encode("utf-8", "replace").decode() for edit in edits]
    venue = dice.choice(((), (), ("--venue", "Pier")))
    if dice.random() < 0.2:
        files, name = {"show.xlsx": spoil_workbook(dice.choice(seeds.workbooks[1:]), dice)}, "xlsx"
    else:
        files, name = {"show.yaml": _show(seeds, dice, whole=0.0)}, "yaml"
    return Try(files, ("set", f"in/show.{name}", "-o", f"out/new.{name}", *venue, "--", *edits))


def check_workbook(seeds: Seeds, dice: Random) -> Try:
    """`check` of a workbook, ours or somebody's; sometimes with a marked copy."""
    book = seeds.workbooks[0] if dice.random() < 0.04 else dice.choice(seeds.workbooks[1:])
    mark = ("--mark", "out/marked.xlsx") if dice.random() < 0.15 else ()
    return Try({"show.xlsx": spoil_workbook(book, dice)}, ("check", "in/show.xlsx", *mark))


def check_list(seeds: Seeds, dice: Random) -> Try:
    """`check` of separated values, with answers beside them."""
    files = {"list.csv": _list(seeds, dice)}
    if dice.random() < 0.4:
        files["list.csv.answers.yaml"] = encode(
            spoil_text(dice.choice(seeds.answers).decode(), dice, seeds.answers[0].decode()), dice
        )
    return Try(files, ("check", "in/list.csv"))


def answer_list(seeds: Seeds, dice: Random) -> Try:
    """`answer` with whatever is typed."""
    lines = [
        dice.choice(("1", "2", "3", "all 1", "", "9", "x", "518.2", "-1", "0", pick_word(dice)))
        for _ in range(dice.randint(0, 12))
    ]
    files = (
        {"list.csv": _list(seeds, dice)}
        if dice.random() < 0.7
        else {"list.xlsx": spoil_workbook(seeds.workbooks[2], dice)}
    )
    name = next(iter(files))
    if dice.random() < 0.3:
        files[f"{name}.answers.yaml"] = encode(spoil_text(dice.choice(seeds.answers).decode(), dice, ""), dice)
    return Try(files, ("answer", f"in/{name}"), "\n".join(lines) + "\n")


def sweep_show(seeds: Seeds, dice: Random) -> Try:
    """`check` of a show with spoiled sweeps beside it."""
    name = dice.choice(("a.csv", "a.csv", "a.csv", "../a.csv", "/etc/passwd", "a\tb", "", "in", "x" * 300, "/dev/zero"))
    show = f"spectrum: {{sweeps: [{name!r}], region: {dice.choice(('US', 'UK', 'x'))}, sweep unit: {dice.choice(('dBm', 'dBuV', 'dBmV'))}, sweep limit: {dice.choice(('-85', '10 dB', '-120'))}, own transmitters: {dice.choice(('on', 'off'))}}}\nchannels: {{1: {{mhz: 486.200}}, 2: {{mhz: 486.900}}}}\n"
    sweep = encode(spoil_text(dice.choice(seeds.sweeps).decode(), dice, dice.choice(seeds.sweeps).decode()), dice)
    return Try({"show.yaml": show.encode(), "a.csv": sweep}, ("check", "in/show.yaml"))


def build_papers(seeds: Seeds, dice: Random) -> Try:
    """`build` of one paper, or of all for a small show; sometimes into a folder whose records are spoiled."""
    only = () if dice.random() < 0.03 else ("--only", dice.choice(PAPERS))
    more = dice.choice(
        (
            (),
            (),
            (),
            ("--venue", "Pier"),
            ("--start", str(dice.randint(1, 99))),
            ("--stock", pick_word(dice)),
            ("--blocked", pick_word(dice)),
            ("--proof",),
            ("--strict",),
        )
    )
    lying = {}
    if dice.random() < 0.1:
        manifest = b'{"made_by": "paperwork", "files": {"rack/channel-chart.pdf": "%s"}, "folders": ["rack"]}' % (
            b"0" * 64
        )
        lying[dice.choice((".paperwork-manifest.json", ".paperwork-journal.json"))] = encode(
            spoil_text(manifest.decode(), dice, '"../in/show.yaml": "x"'), dice
        )
    return Try(
        {"show.yaml": _show(seeds, dice, whole=0.02)}, ("build", "in/show.yaml", "-o", "out", *only, *more), lying=lying
    )


PERFORMED = """\
show: {title: Gala, revision: B, language: de}
performances: {p1: {date: 2027-03-04, team: A}, p2: {date: 2027-03-04, name: evening, team: B, children off: LEA}, p3: {date: 2027-03-05}}
people: {ANN: {team: A}, BO: {team: B}, LEA: {child: yes, team: A}}
racks: {R1: {channels: 1-3, analogue 1: FOH 1-3}}
channels: {1: {role: VERA, mhz: 486.200}, 2: {role: TOM, mhz: 487.075}, 3: {spare: yes, mhz: 489.000}}
roles: {VERA: {by: ANN, alternates: [BO]}, TOM: {by: LEA}}
scenes: {s1: {name: Quay, live: VERA TOM}, s2: {live: TOM}}
covers: {c1: {role: VERA, by: BO}}
"""


def read_performance(seeds: Seeds, dice: Random) -> Try:
    """`check`, `tonight`, `changes` and papers of a performance that may be any, of a spoiled run."""
    show = spoil_tree(PERFORMED.encode(), dice, dice.choice(seeds.small)).encode("utf-8", "surrogatepass")
    on = dice.choice(("p1", "evening", "2027-03-05", "2027-03-04..2027-03-05", "p1..p3", "..", pick_word(dice)))
    told = dice.choice(
        (
            ("check", "in/show.yaml"),
            ("check", "in/show.yaml"),
            ("changes", "in/old.yaml", "in/show.yaml"),
            (
                "build",
                "in/show.yaml",
                "-o",
                "out",
                "--only",
                dice.choice(("performances", "channel-chart", "cover-chart")),
            ),
            ("tonight", "in/show.yaml", "-o", "out", "--off", dice.choice(("ANN", pick_word(dice)))),
        )
    )
    return Try({"show.yaml": show, "old.yaml": PERFORMED.encode()}, (*told, "--on", on))


def pocket_papers(seeds: Seeds, dice: Random) -> Try:
    """`build --pocket` of a spoiled show."""
    run = spoil_tree(PERFORMED.encode(), dice, dice.choice(seeds.small)).encode("utf-8", "surrogatepass")
    show = dice.choice((_show(seeds, dice, whole=0.0), run))
    reader = dice.choice(("rack", "wardrobe", "production"))
    return Try({"show.yaml": show}, ("build", "in/show.yaml", "-o", "out", "--pocket", reader))


def request_table(seeds: Seeds, dice: Random) -> Try:
    """`request` of a spoiled show as a table."""
    name = dice.choice(("a.csv", "a.csv", "a.xlsx", "a.txt"))
    return Try({"show.yaml": _show(seeds, dice, whole=0.0)}, ("request", "in/show.yaml", f"out/{name}"))


def build_printer(seeds: Seeds, dice: Random) -> Try:
    """`build` of labels for a spoiled printer."""
    printers = encode(spoil_text(seeds.printers[0].decode(), dice, seeds.printers[0].decode()), dice)
    return Try(
        {"show.yaml": b"channels: {01: {mhz: 486.2}}\n", "p.toml": printers},
        (
            "build",
            "in/show.yaml",
            "-o",
            "out",
            "--only",
            "pack-labels",
            "--printer",
            "stage-left",
            "--printers",
            "in/p.toml",
        ),
    )


def convert_file(seeds: Seeds, dice: Random) -> Try:
    """`convert` of anything to anything."""
    kind = dice.choice((".yaml", ".yaml", ".csv", ".csv", ".xlsx"))
    roll = dice.random()
    if roll < 0.6:
        name, data = "show.yaml", _show(seeds, dice, whole=0.01)
    elif roll < 0.8:
        name, data = "list.csv", _list(seeds, dice)
    else:
        name, data = "show.xlsx", spoil_workbook(dice.choice(seeds.workbooks[1:]), dice)
    return Try({name: data}, ("convert", f"in/{name}", f"out/new{kind}"))


def verify_file(seeds: Seeds, dice: Random) -> Try:
    """`verify` and its neighbours of a spoiled archive."""
    data = spoil_archive(dice.choice(seeds.archives), dice)
    return Try(
        {"a.zip": data},
        dice.choice((("verify", "in/a.zip"), ("verify", "in/a.zip", "--expect", pick_word(dice)), ("changes", "in"))),
    )


def restore_file(seeds: Seeds, dice: Random) -> Try:
    """`restore` of a spoiled archive or show book."""
    if dice.random() < 0.5:
        return Try({"a.zip": spoil_archive(dice.choice(seeds.archives), dice)}, ("restore", "in/a.zip", "-o", "out"))
    return Try({"a.pdf": spoil_book(dice.choice(seeds.books), dice)}, ("restore", "in/a.pdf", "-o", "out"))


def compare_files(seeds: Seeds, dice: Random) -> Try:
    """`changes` between a show and its spoiled self, or what an archive holds."""
    old = dice.choice(seeds.small)
    roll = dice.random()
    if roll < 0.7:
        name, data = "new.yaml", spoil_tree(old, dice, dice.choice(seeds.small)).encode("utf-8", "surrogatepass")
    elif roll < 0.85:
        name, data = "new.zip", spoil_archive(dice.choice(seeds.archives), dice)
    else:
        name, data = "new.pdf", spoil_book(dice.choice(seeds.books), dice)
    form = dice.choice(((), ("--format", "json"), ("-o", "out")) if dice.random() < 0.3 else ((), ("--format", "json")))
    return Try({"old.yaml": old, name: data}, ("changes", "in/old.yaml", f"in/{name}", *form))


def tonight_rows(seeds: Seeds, dice: Random) -> Try:
    """`tonight` with rows, people and packs that may be anything."""
    show = dice.choice(seeds.small)
    rows = []
    for _ in range(dice.choice((1, 1, 2))):
        section, record = (
            dice.choice(("channels", "roles", "show", "x")),
            dice.choice(("01", "VERA", "1", pick_word(dice))),
        )
        row = f"{section}/{record}/{dice.choice(('by', 'pack', 'capsule', 'spare', 'shared', 'mhz'))}={pick_word(dice)}"
        rows += dice.choice(
            (
                ("--set", spoil_text(row, dice, row) if dice.random() < 0.3 else row),
                ("--off", pick_word(dice)),
                ("--dead", dice.choice(("01", "1", pick_word(dice)))),
            )
        )
    rows = [row.replace("\0", "").encode("utf-8", "replace").decode() for row in rows]
    return Try({"show.yaml": show}, ("tonight", "in/show.yaml", "-o", "out", *rows))


def audit_photo(seeds: Seeds, dice: Random) -> Try:
    """`audit` of a spoiled picture."""
    return Try(
        {"show.yaml": b"channels: {01: {mhz: 486.2}}\n", "p.jpg": spoil_photo(dice.choice(seeds.photos), dice)},
        ("audit", "in/show.yaml", "in/p.jpg"),
    )


def assign_show(seeds: Seeds, dice: Random) -> Try:
    """`assign` with little effort."""
    show = _show(seeds, dice, whole=0.0).replace(b"mhz", b"note", dice.choice((0, 1, 2)))
    return Try(
        {"show.yaml": show},
        (
            "assign",
            "in/show.yaml",
            "-o",
            "out/new.yaml",
            "--effort",
            "30",
            *dice.choice(((), ("--spares", dice.choice(("1", "belt=2", pick_word(dice)))))),
        ),
    )


def reply_to_show(seeds: Seeds, dice: Random) -> Try:
    """`reply` with a spoiled table of answers."""
    table = b"Row,Asked,Granted\r\n01,486.200,486.200\r\n02,487.075,no\r\n"
    spoiled = spoil_bytes(table, dice)
    show = b"channels: {01: {by: Ann, mhz: 486.2}, 02: {by: Bo, mhz: 487.075}}\n"
    name = dice.choice(("a.csv", "a.xlsx"))
    return Try({"show.yaml": show, name: spoiled}, ("reply", "in/show.yaml", f"in/{name}", "-o", "out/new.yaml"))


def survey_show(seeds: Seeds, dice: Random) -> Try:
    """`survey` of a small show."""
    return Try(
        {"show.yaml": _show(seeds, dice, whole=0.0)},
        ("survey", "in/show.yaml", *dice.choice(((), ("--window", dice.choice(("470-472", pick_word(dice))))))),
    )


def archive_show(seeds: Seeds, dice: Random) -> Try:
    """`archive` after a spoiled one, of a show that is refused early or is very small."""
    show = b"show: {title: Gala}\nchannels: {01: {by: Ann}}\n" if dice.random() < 0.1 else b"show: {title: Gala}\n"
    return Try(
        {"show.yaml": show, "a.zip": spoil_archive(seeds.archives[0], dice)},
        ("archive", "in/show.yaml", "-o", "out/b.zip", "--after", "in/a.zip"),
    )


def ask_page(seeds: Seeds, dice: Random) -> Try:
    """A few requests to the page, the first of which mostly drops a file."""
    from tests.fuzz.requests import make_requests

    name, data = dice.choice(
        (
            ("show.yaml", _show(seeds, dice, whole=0.02)),
            ("show.yaml", _show(seeds, dice, whole=0.0)),
            ("list.csv", _list(seeds, dice)),
            ("show.xlsx", spoil_workbook(dice.choice(seeds.workbooks[1:]), dice)),
            ("a.zip", spoil_archive(dice.choice(seeds.archives), dice)),
            ("a.pdf", spoil_book(dice.choice(seeds.books), dice)),
        )
    )
    return Try({"here.yaml": b"channels: {01: {mhz: 486.2}}\n"}, requests=make_requests(name, data, dice, seeds))


def ask_guest(seeds: Seeds, dice: Random) -> Try:
    """What a telephone asks for that papers are lent to, or somebody who only knows its address."""
    from tests.fuzz.guests import make_visits

    return Try({}, visits=make_visits(dice))


WAYS: tuple[tuple[Callable[[Seeds, Random], Try], int], ...] = (
    (check_yaml, 30),
    (fix_show, 3),
    (set_values, 5),
    (check_workbook, 12),
    (check_list, 14),
    (answer_list, 5),
    (sweep_show, 5),
    (build_papers, 5),
    (build_printer, 1),
    (convert_file, 7),
    (verify_file, 8),
    (restore_file, 8),
    (compare_files, 3),
    (tonight_rows, 3),
    (audit_photo, 3),
    (assign_show, 3),
    (reply_to_show, 3),
    (request_table, 2),
    (read_performance, 5),
    (pocket_papers, 2),
    (survey_show, 1),
    (archive_show, 3),
    (ask_page, 9),
    (ask_guest, 2),
)
"""Each way in and how often it is taken: cheap ones most."""


def throw(seeds: Seeds, seed: int, number: int, only: str = "") -> tuple[str, Try]:
    """The input of a number: the name of its way, and what is tried. Same seed and number, same input."""
    dice = Random(f"{seed}/{number}")
    ways = [(way, weight) for way, weight in WAYS if not only or way.__name__ == only]
    way = dice.choices([way for way, _ in ways], [weight for _, weight in ways])[0]
    return way.__name__, way(seeds, dice)
