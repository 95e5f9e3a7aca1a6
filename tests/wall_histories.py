"""Histories of a tiny show: it is edited, falls into doubt, is cured, moves house, changes its language and its paper."""

import json
from collections.abc import Iterable, Mapping
from copy import deepcopy
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple, TypeAlias

import yaml
from hypothesis import Phase, given, seed, settings
from hypothesis import strategies as st

from paperwork.model.fields import SECTIONS
from paperwork.pipeline import lay_out_papers, list_prints
from paperwork.reading import Reading, read_show
from paperwork.render.pdf.press import Press
from paperwork.revisions import Side, compare_revisions
from paperwork.sheets import SHEETS
from tests.metrics import load_metrics
from tests.test_every_fact import RICH, SWEEP
from tests.wall import Wall, print_of

Plain: TypeAlias = dict[str, Any]

BASE: Plain = yaml.load(RICH, Loader=yaml.BaseLoader)
BASE["venues"] = {
    "v1": {"venue": "Pier", "section": "show", "field": "venue", "value": "Pier Hall"},
    "v2": {"venue": "Pier", "section": "channels", "record": "01", "field": "mhz", "value": "499.200"},
    "v3": {"venue": "Barn", "section": "channels", "record": "02", "field": "mhz", "value": "503.300"},
}

OPTIONAL = (
    "day",
    "spectrum",
    "radios",
    "racks",
    "consoles",
    "others",
    "transmitters",
    "people",
    "moves",
    "looks",
    "covers",
)
"""Sections that a show may lack, as far as nothing else of it needs them."""

VALUES: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("show", "title"): ("Iron", "Ada's Night"),
    ("show", "revision"): ("C", "D"),
    ("show", "language"): ("de", "fr", "es", "en"),
    ("show", "paper"): ("A3", "Letter", "Tabloid", "A4"),
    ("roles", "by"): ("Bo", "Zoe", "Cy", "Ann"),
    ("channels", "mhz"): ("486.200", "488.200", "491.7 / 492.1", "512.700", "487.3125", "494.925"),
    ("channels", "granted"): ("no", "486.200", "497.300"),
    ("channels", "asked"): ("489.300",),
    ("channels", "pack"): ("T1", "T2", "99"),
    ("channels", "radio"): ("low", "hand"),
    ("channels", "capsule"): ("vocal", "beige"),
    ("channels", "role"): ("VERA", "HOST", "TOM, HOST", "CROW"),
    ("channels", "by"): ("Zoe", "Bo"),
    ("channels", "notes"): ("hums", "deck: tape it"),
    ("channels", "doubles"): ("01", "02"),
    ("channels", "backs"): ("01", "all"),
    ("channels", "spare"): ("hand", "low"),
    ("channels", "alternate"): ("01",),
    ("channels", "bill"): ("s1",),
    ("others", "bill"): ("s1",),
    ("others", "listeners"): ("Cy", "Bo, Cy", ""),
    ("others", "mhz"): ("486.200", "653.400"),
    ("capsules", "owned"): ("1", "9"),
    ("racks", "channels"): ("01-03", "03 02 01 04", "01 01 02 03"),
    ("racks", "window"): ("480-504", "490-504"),
    ("racks", "analogue 1"): ("FOH 1-4", "FOH 1 1 2 3", "FOH 5-8"),
    ("racks", "digital 1"): ("REC 1-4", "REC 5-8"),
    ("racks", "clock"): ("REC", "FOH", "own"),
    ("consoles", "clock"): ("REC", "own"),
    ("scenes", "live"): ("HOST", "VERA, HOST", "TOM, VERA"),
    ("scenes", "name"): ("7.7 Storm", "Storm"),
    ("scenes", "at"): ("0:00", "0:50", "1:30"),
    ("moves", "role"): ("HOST",),
    ("moves", "scene"): ("s2", "s1"),
    ("moves", "channel"): ("02", "05"),
    ("hires", "firm"): ("Farlight",),
    ("looks", "by"): ("Bo", "Cy"),
    ("looks", "scene"): ("s1", "s2"),
    ("looks", "capsule"): ("ear",),
    ("covers", "role"): ("TOM", "HOST"),
    ("covers", "by"): ("Bo", "Zoe"),
    ("covers", "channel"): ("01", "02"),
    ("covers", "capsule"): ("beige", "vocal"),
    ("covers", "scenes"): ("s1", "s1 s2"),
    ("transmitters", "radio"): ("low", "hand"),
    ("roles", "group"): ("VERA, HOST",),
    ("roles", "alternates"): ("Bo",),
    ("radios", "like"): ("low",),
    ("spectrum", "sweeps"): ("sweep.csv", "gone.csv"),
    ("spectrum", "region"): ("Europe", "Americas"),
    **{
        ("racks", f"{kind} {copy}"): ("FOH 9-12", "REC 9-12")
        for kind in ("analogue", "digital", "network")
        for copy in (2, 3, 4)
    },
    ("racks", "network 1"): ("REC 9-12",),
    ("racks", "radio"): ("low", "hand"),
    ("racks", "slots"): ("4",),
    ("channels", "shared"): ("VERA: Ann, TOM: Bo", "CROW: Di"),
    ("venues", "field"): ("contact", "title"),
    ("venues", "section"): ("spectrum",),
    ("venues", "record"): ("02", "04"),
    ("venues", "value"): ("490.200", "491.100"),
}
"""Values of fields beside the example that their row has: what names other records, what doubles, what is in doubt."""

NEW: Mapping[str, tuple[str, Plain]] = {
    "channels": ("07", {"role": "CROW", "mhz": "501.300", "capsule": "beige"}),
    "scenes": ("s3", {"act": "Act two", "name": "2.2 Storm", "live": ["HOST"], "at": "1:40"}),
    "covers": ("c9", {"role": "TOM", "by": "Zoe"}),
    "others": ("COM", {"kind": "intercom", "mhz": "701.300"}),
    "people": ("Zoe", {"room": "3", "child": "yes"}),
    "transmitters": ("T9", {"serial": "S9"}),
}
"""A record that may come, by its section."""


class Step(NamedTuple):
    """One step: a field of a record gets a text ("" takes it out), a record comes or goes, something is as at first, or the
    show is looked at in a venue. `filed`: the wall is compared with the old show file, else with what was recorded."""

    act: str
    section: str = ""
    record: str = ""
    field: str = ""
    value: str = ""
    filed: bool = False


def list_edits(plain: Plain) -> list[Step]:
    """Every edit of a field of a show, by the table of fields."""
    found = []
    for section in SECTIONS.values():
        records = [""] if section.is_single else list(plain.get(section.name, {}))
        for record in records:
            for field in section.fields.values():
                values = dict.fromkeys((field.example, *VALUES.get((section.name, field.name), ()), ""))
                found += [Step("edit", section.name, record, field.name, value) for value in values]
    return found


EDITS = list_edits(BASE)
HOUSES = ("", "Pier", "Barn")
_BY_FIELD: dict[tuple[str, str], list[Step]] = {}
for _one in EDITS:
    _BY_FIELD.setdefault((_one.section, _one.field), []).append(_one)

DOUBTFUL = (
    ("channels", "mhz"),
    ("channels", "granted"),
    ("channels", "capsule"),
    ("capsules", "owned"),
    ("racks", "channels"),
)
"""Fields by which shows fall into doubt: they are edited more often."""

_fields = st.one_of(st.sampled_from(sorted(_BY_FIELD)), st.sampled_from(DOUBTFUL))
steps = st.one_of(
    _fields.flatmap(lambda key: st.sampled_from(_BY_FIELD[key])),
    _fields.flatmap(lambda key: st.sampled_from(_BY_FIELD[key])),
    st.sampled_from([one._replace(act="undo") for one in EDITS if one.value == ""]),
    st.sampled_from([Step("come", section) for section in NEW]),
    st.sampled_from([Step("go", section, id) for section in NEW for id in BASE[section]]),
    st.sampled_from([Step("house", value=house) for house in HOUSES]),
)
histories = st.tuples(
    st.sets(st.sampled_from(OPTIONAL), min_size=7),
    st.lists(
        st.tuples(steps, st.booleans()).map(lambda pair: pair[0]._replace(filed=pair[1])), min_size=1, max_size=12
    ),
)


def take(plain: Plain, step: Step) -> Plain:
    """The show after a step; as it was where the step finds nothing to act on."""
    now = deepcopy(plain)
    records = now.get(step.section, {})
    match step.act:
        case "come":
            id, record = NEW[step.section]
            now.setdefault(step.section, {}).setdefault(id, dict(record))
        case "go":
            records.pop(step.record, None)
        case "edit" | "undo":
            held = now.setdefault(step.section, {}) if not step.record else records.get(step.record)
            first = BASE.get(step.section, {})
            first = first.get(step.record, {}) if step.record else first
            value = step.value if step.act == "edit" else first.get(step.field, "")
            if isinstance(held, dict):
                held.pop(step.field, None)
                held.update({step.field: value} if value else {})
    return {section: held for section, held in now.items() if held}


def read_plain(plain: Plain, folder: Path, house: str = "") -> Reading:
    """The show as a file holds it, in a venue."""
    path = folder / "show.yaml"
    path.write_text(json.dumps(plain, ensure_ascii=False), encoding="utf-8")
    (folder / "sweep.csv").write_text(SWEEP, encoding="utf-8")
    return read_show(path, "show.yaml", venue=house)


def start_from(left_out: Iterable[str], folder: Path) -> Plain:
    """The show without these sections, as far as it can be read without each."""
    plain = deepcopy(BASE)
    for section in sorted(left_out):
        less = {name: held for name, held in plain.items() if name != section}
        if read_plain(less, folder).show is not None:
            plain = less
    return plain


def live_through(left_out: Iterable[str], history: Iterable[Step]) -> int:
    """Lives through a history with a wall, and says how many steps changed it. Raises AssertionError where the wall is wrong."""
    press = Press()
    press.metrics = load_metrics()
    with TemporaryDirectory() as name:
        folder, house, lived = Path(name), "", 0
        plain = start_from(left_out, folder)
        old = side_of(read_plain(plain, folder))
        laid = lay_out_papers(SHEETS, old.show, old.findings, press=press)[0]
        wall = Wall.full(laid)
        for step in history:
            next_house = step.value if step.act == "house" else house
            next_plain = take(plain, step)
            reading = read_plain(next_plain, folder, next_house)
            if reading.show is None:
                continue
            new = side_of(reading)
            recorded = tuple(map(print_of, laid))
            before = Side(old.show, old.findings, "old", () if step.filed else recorded)
            wall.follow(compare_revisions(before, new, press=press), press)
            laid = lay_out_papers(SHEETS, new.show, new.findings, press=press)[0]
            if step.filed:
                prints = list_prints((new.show, new.findings), (old.show, old.findings))
                assert prints == (tuple(map(print_of, laid)), recorded), f"after {step}"
            wrong = wall.differences(Wall.full(laid))
            assert not wrong, f"after {step}\n" + "\n".join(wrong)
            plain, house, old, lived = next_plain, next_house, new, lived + 1
        return lived


def live_through_many(count: int, number: int) -> None:
    """So many histories of one seed. One that fails is not made smaller: that takes minutes, and it says after which step."""

    @seed(number)
    @settings(max_examples=count, derandomize=False, database=None, phases=(Phase.generate,), deadline=None)
    @given(histories)
    def live(history: tuple[set[str], list[Step]]) -> None:
        live_through(*history)

    live()


def side_of(reading: Reading) -> Side:
    """A show that was read, as one side of a comparison."""
    assert reading.show is not None, reading.findings
    return Side(reading.show, reading.findings, "show")
