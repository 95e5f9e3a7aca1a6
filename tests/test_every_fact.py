"""Every fact that a show can hold is on some paper, or it is said why on none: change it, and look which papers change.

One show that uses every field is made anew with one value changed, for each field of the model. A paper that shows the
fact then says something else.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from itertools import islice
from pathlib import Path
from typing import Any

import pytest

from paperwork.document import Sheet, SpectrumWindow
from paperwork.model import Output, Show, Slot
from paperwork.model.facts import fingerprint_show
from paperwork.plan.covers import plan_tonight
from paperwork.plan.walls import put_on_walls
from paperwork.sheets import SHEETS, book
from paperwork.sheets.evening import page as tonight
from paperwork.text.rasters import TvRaster
from paperwork.text.units import Range
from tests.sheet_texts import texts_of
from tests.shows_text import reading_of

RICH = """
show: {title: Glass, company: Players, venue: Hall, dates: 2027-03-04 to 2027-03-06, revision: B, revisions: [A], revised: 2027-03-01, reason: why, licence: L1, licensed: 2027-03-01 to 2027-03-09, licensed for: Town, contact: Ann, returns: sound}
day: {power-up: "17:00", checks: "17:30", half: "18:55", curtain: "19:30", interval: "0:30", bows: "2:00", cells: power-up, margin: 1.25, swap: 60 s, swap handheld: 20 s, crossing: 30 s, chain: 3, team: red}
spectrum: {region: Europe, tv: 24, weak tv: 25, keep clear: [490-491], refused: 503.200, sweeps: sweep.csv, own transmitters: off, sweep limit: -90 dBm, sweep unit: dBm, sweep impedance: 50 ohm}
radios:
  low: {kind: pack, tunes: 480-510, step: 25 kHz, bandwidth: 200 kHz, apart: 400 kHz, hours: 3, power: 10 mW, fit: screw 4}
  hand: {kind: handheld, tunes: 480-510, hours: 6, fit: ring}
racks:
  R1: {units: [2, 2], channels: 01-04, window: 480-504, antenna: pair, place: 1, address: 192.0.2.11, network: 192.0.2.0/24, clock: FOH, rate: 48 kHz, analogue 1: FOH 1-4, digital 1: REC 1-4}
consoles:
  FOH: {name: Desk, inputs: 48, strip: 25, box: box SL, jacks: A1-A48, level: mic, pad: in, phantom: on, isolated: yes, clock: own, rate: 48 kHz, letters: 8}
  REC: {name: Recorder, inputs: 16, rate: 96 kHz, converts: yes}
others:
  EARS: {kind: in-ear, mhz: 652.150, asked: 652.450, granted: 652.150, bandwidth: 200 kHz, apart: 1 MHz, listeners: Cy, packs: E1, zone: meadow, notes: mix 3}
groups:
  meadow: {kind: zone}
  late: {kind: bill, name: Late show, from: "0:10", until: "0:50"}
  one: {kind: exclusive}
transmitters:
  T1: {radio: low, tape: red, serial: S1, display: SHOW 1, cells: 2 AA rechargeable, set: A, hours: 3, power: 20 mW, gain: 30 dB, lock: yes}
  T2: {radio: low, serial: S2, cells: 2 AA rechargeable, set: A}
  T3: {radio: low, serial: S3}
  T4: {radio: hand, serial: S4}
capsules:
  beige: {type: lavalier, pattern: omni, colour: 5, fit: screw 4, serial: C1, cap: short, owned: 4}
  vocal: {type: head, fit: ring, owned: 2}
people:
  Ann: {short: An, room: 1, belt: S, pouch: p1, colour: 5, team: red}
  Bo: {room: 1, belt: M, pouch: p2, colour: 5, team: red}
  Cy: {room: 2, belt: L, pouch: p3, colour: 5, team: red}
  Di: {room: 2, belt: M, pouch: p4, colour: 5, team: blue}
roles:
  VERA: {short: VERA, by: Ann, alternates: Di}
  TOM: {by: Bo}
  HOST: {by: Cy}
  CROWD: {group: [VERA, TOM]}
  CROW: {by: Di, unmiked: yes}
channels:
  01: {role: "VERA, TOM", radio: low, mhz: 486.200, asked: 486.300, granted: 486.200, pack: T1, capsule: beige, notes: buzzes}
  02: {role: HOST, radio: low, mhz: 488.200, backup: 490.200, tape: blue, pack: T2, capsule: beige, zone: meadow, exclusive: one}
  03: {spare: low, backs: 01-02, mhz: 493.200, pack: T3, capsule: beige}
  05: {role: HOST, doubles: 02, radio: low, mhz: 498.200, capsule: beige}
  04: {by: Cy, radio: hand, mhz: 495.200, pack: T4, capsule: vocal, granted: no}
scenes:
  s1: {act: Act one, name: 1.1 Quay, page: 3, at: "0:00", live: VERA HOST CROW}
  s2: {act: Act two, name: 2.1 Deck, page: 9, at: "1:00", live: TOM HOST}
moves:
  m1: {role: VERA, scene: s1, enter: SL, exit: SR, from: "0:01", to: "0:20"}
  m2: {role: TOM, scene: s2, enter: SR, exit: SR, from: "1:02"}
looks:
  l1: {by: Cy, wears: coat, pouch: p3, sits: back, capsule: hairline}
  l2: {by: Cy, scene: s2, wears: gown, pouch: p3b, sits: thigh, capsule: wig}
covers:
  c2: {role: VERA, by: Cy}
  c1: {role: HOST, by: Di, scenes: [s1, s2], channel: 02, capsule: beige, pouch: p9}
contacts:
  Max Vale: {department: stage, job: deputy, phone: 07700 900121, other: intercom B}
  Ida Moor: {department: wardrobe}
hires:
  h1: {firm: Northquay Hire, item: packs, serial: N-1, count: 4, packs: T1, dates: 2027-03-01 to 2027-03-09}
antennas:
  A1: {side: SL, place: boom, feeds: B1, cables: 3 m}
  B1: {kind: booster, gain: +10 dB, power: over the cable, feeds: R1, cables: 9 m}
performances:
  p1: {date: 2027-03-02, curtain: "14:30", half: "13:50", checks: "13:00", power-up: "12:40", interval: "1:01",
    bows: "2:19", team: red, cast: "VERA: Di"}
"""

SWEEP = "488.0,-100\n490.0,-95\n492.0,-100\n"
"""Wide enough for a noise floor, and no wider: each step that is drawn of it costs time in every show that is made."""


def read_rich(folder: Path) -> Show:
    """The show that uses every field."""
    (folder / "sweep.csv").write_text(SWEEP, encoding="utf-8")
    reading = reading_of(RICH, folder)
    assert reading.show is not None, [finding.text for finding in reading.findings]
    return reading.show


@pytest.fixture(scope="module")
def rich(tmp_path_factory) -> Show:
    return read_rich(tmp_path_factory.mktemp("rich"))


def list_papers(show: Show) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Every paper, the page of an evening and the book's cover: what each says, made when it is its turn."""
    show = put_on_walls(show)
    own = fingerprint_show(show)
    for paper in SHEETS:
        yield paper.name, _said_on(paper.make(show), own)
    for off in ("Cy", "Ann"):
        pairs = tonight.pair_spares(show, (show.channels["01"],))
        yield f"tonight {off}", _said_on(tonight.make_sheets(show, plan_tonight(show, (off,)), pairs), own)
    yield "show-book", _said_on((book.make_cover(show),), own)


def _said_on(sheets: Iterable[Sheet], own: str) -> tuple[str, ...]:
    return tuple(told for sheet in sheets for told in (*drawn_of(sheet), *texts_of(sheet)) if own not in told)


def drawn_of(sheet: Sheet) -> Iterator[str]:
    """What a sheet shows without a text: its size, which bands are black and which hatched, and the limit of a sweep."""
    yield sheet.paper
    for block in sheet.blocks:
        if isinstance(block, SpectrumWindow):
            yield f"{[(band.text, band.kind) for band in block.bands]} {block.limit_cdbm}"


OTHERWISE: dict[str, Any] = {
    "first_day": "2027-03-05",
    "last_day": "2027-03-07",
    "revised": "2027-03-02",
    "licensed_from": "2027-03-02",
    "licensed_to": "2027-03-10",
    "paper": "A3",
    "language": "de",
    "roles": ("HOST",),
    "by": "Bo",
    "alternates": ("Bo",),
    "group": ("VERA",),
    "live": ("HOST",),
    "listeners": ("Bo",),
    "backs": ("01",),
    "doubles": "01",
    "alternate": "02",
    "capsule": "vocal",
    "radio": "hand",
    "kind": "handheld",
    "slots": (Slot("R1", 3),),
    "units": (4,),
    "cells": ("half",),
    "tv": ("23",),
    "weak_tv": ("26",),
    "keep_clear": (Range(500_000_000, 501_000_000),),
    "tunes": (Range(481_000_000, 509_000_000),),
    "window": Range(481_000_000, 504_000_000),
    "spots_hz": (486_200_000, 488_200_000),
    "step_from_hz": 470_125_000,
    "radio_type": "hand",
    "follows": "person",
    "channel": "04",
    "scene": "s2",
    "scenes": ("s1",),
    "role": "TOM",
    "enter": "USC",
    "exit": "USC",
    "colour": "8",
    "clock": "REC",
    "rate": "96 kHz",
    "pack": "T4",
    "region": "Americas",
    "level": "line",
    "phantom": "off",
    "pad": "out",
    "jacks": ("B1",),
    "outputs": (Output("analogue", 1, 1, "FOH", 9),),
    "power_up_s": (16 * 3600,),
    "curtain_s": (20 * 3600,),
}
"""Another value of a field, where adding to a text or a number would make no sense."""


def other_value(section: str, name: str, value: Any) -> Any:
    """A value that differs from the one that is there."""
    if (section, name) in BESIDES:
        return BESIDES[section, name]
    if name in OTHERWISE:
        return OTHERWISE[name]
    match value:
        case bool():
            return not value
        case int():
            return value + 300
        case str():
            return f"{value} other"
        case tuple():
            return tuple(one + 300 if isinstance(one, int) else f"{one} other" for one in value) or ("other",)
        case None:
            return 300
    raise AssertionError(f"no other value for {section} {name}")


BESIDES: Mapping[tuple[str, str], Any] = {
    ("others", "kind"): "intercom",
    ("transmitters", "cells"): "1 AA",
    ("scenes", "kind"): "set",
    ("roles", "by"): "Di",
    ("performances", "kind"): "rehearsal",
    ("performances", "date"): "2027-03-03",
    ("performances", "cast"): (("VERA", "Bo"),),
    ("looks", "by"): "Bo",
    ("antennas", "kind"): "filter",
    ("looks", "capsule"): "ear",
    ("covers", "by"): "Bo",
    ("channels", "bill"): ("s1",),
    ("others", "bill"): ("s1",),
    ("spectrum", "own_on"): True,
    ("spectrum", "sweeps"): (),
    ("consoles", "letters"): 2,
    ("channels", "by"): "Bo",
    ("looks", "scene"): "s1",
    ("channels", "refused"): False,
    ("spectrum", "refused_hz"): (501_200_000,),
    ("day", "times"): "clock",
    ("spectrum", "raster"): (TvRaster(1, 30, 470_000_000, 710_000_000),),
}


def changed_shows(show: Show) -> Iterator[tuple[str, str, Show]]:
    """The show with one value changed, for each record and field of the model."""
    for top in fields(Show):
        held = getattr(show, top.name)
        records = (
            list(held.items())
            if isinstance(held, Mapping)
            else list(enumerate(held))
            if isinstance(held, tuple)
            else [(None, held)]
        )
        for key, record in records:
            if not is_dataclass(record):
                continue
            for field in fields(record):
                if field.name in ("id", "where", "measured") or not field.compare:
                    continue
                now = replace(record, **{field.name: other_value(top.name, field.name, getattr(record, field.name))})
                if now == record:
                    continue
                if isinstance(held, Mapping):
                    value: Any = {**held, key: now}
                elif isinstance(held, tuple):
                    value = (*held[:key], now, *held[key + 1 :])
                else:
                    value = now
                yield top.name, field.name, replace(show, **{top.name: value})


WHY_NOT: Mapping[tuple[str, str], str] = {
    ("day", "team"): "chooses who plays a role when the show is read; the papers name who plays",
    ("people", "team"): "the same",
    ("day", "swap_s"): "a time that swaps are held against; what is short of it is a finding",
    ("day", "swap_handheld_s"): "the same",
    ("day", "crossing_s"): "the same",
    ("day", "chain"): "a count that antennas in a row are held against",
    ("groups", "attenuation_cdb"): "says which carriers meet; what then does not fit is a finding",
    ("spectrum", "zones_apart_cdb"): "the same",
    ("channels", "must"): "says who has a frequency where a search cannot place all; the papers show who has one",
    ("others", "must"): "the same",
    ("spectrum", "sweep_unit"): "says how the files are read; what they measured is drawn in dBm",
    ("spectrum", "sweep_impedance"): "the same",
    ("spectrum", "close_quarters"): "how strictly products are counted; what is too near is a finding",
    ("groups", "kind"): "declares a name that records use; they print it",
    ("groups", "name"): "the same; that of a zone is the head of its change-overs (tests/sheets/test_running.py)",
    ("groups", "from_s"): "when a part of the bill is on; two that meet on one frequency are a finding",
    ("groups", "until_s"): "the same",
    ("radios", "fit"): "held against the capsules' own, which the inventory prints",
    ("consoles", "inputs"): "a count that inputs are held against; the inputs themselves are printed",
    ("others", "makes_intermodulation"): "whether its products are counted",
    ("roles", "unmiked"): "says that no paper of microphones is meant to have it",
    ("channels", "alternate"): "lets two share an input, which is printed with both",
    ("scenes", "kind"): "says whether packs are off between sets; the times of the battery plan follow it",
}
"""Fields that no paper shows, and why."""


def test_every_field_of_the_show_is_on_some_paper_or_it_is_said_why_not(rich):
    before = dict(list_papers(rich))
    shown: dict[tuple[str, str], set[str]] = {}
    for section, name, show in changed_shows(rich):
        papers = shown.setdefault((section, name), set())
        if not papers:  # one record whose paper says it is enough
            papers.update(islice((name for name, said in list_papers(show) if said != before[name]), 1))
    assert {key for key, papers in shown.items() if not papers} == set(WHY_NOT)


def test_every_field_of_the_model_is_tried(rich):
    tried = {(section, name) for section, name, _ in changed_shows(rich)}
    for top in fields(Show):
        held = getattr(rich, top.name)
        if top.name in ("venues", "at_venue", "at_performance", "is_advised", "rack_order", "cut_roles"):
            continue
        record = (
            next(iter(held.values()))
            if isinstance(held, Mapping) and held
            else held[0]
            if isinstance(held, tuple)
            else held
        )
        wanted = {
            field.name for field in fields(record) if field.compare and field.name not in ("id", "where", "measured")
        }
        assert wanted == {name for section, name in tried if section == top.name}, top.name


def test_the_rows_of_a_venue_are_on_papers_once_they_are_applied(tmp_path):
    """A row of the section venues is no paper's own: it changes the show that is printed."""
    from paperwork.reading import read_show

    path = tmp_path / "show.yaml"
    path.write_text(
        "show: {title: Gala, venue: Hall, contact: Ann}\nchannels: {1: {by: Ann, mhz: 486.200}}\n"
        "venues: {v1: {venue: Pier, section: show, field: venue, value: Long Pier}}\n",
        encoding="utf-8",
    )
    told = papers_text(read_show(path, "show.yaml", venue="Pier").show)
    assert "Long Pier" in told and "Hall" not in told
    assert "Long Pier" not in papers_text(read_show(path, "show.yaml").show)


def papers_text(show: Show) -> str:
    return " ".join(text for paper in SHEETS for sheet in paper.make(show) for text in texts_of(sheet))
