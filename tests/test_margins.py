"""`paperwork check --margins`: the weakest first, by zone, bill and group as in the check, as text and as JSON."""

import json

import pytest
from click.testing import CliRunner

from paperwork.build import build_show
from paperwork.commands.check import command
from paperwork.coordinate import gather_on_air
from paperwork.coordinate.margins import list_margins
from paperwork.document import Table
from paperwork.sheets import SHEETS
from paperwork.text.units import format_khz
from tests.shows_text import EXAMPLES, raw_of


def margins_of(text):
    return list_margins(gather_on_air(build_show(raw_of(text)).show))


def by_carrier(text):
    return {margins.carrier.id: margins for margins in margins_of(text)}


def run(tmp_path, text, *arguments):
    path = tmp_path / "show.yaml"
    path.write_text(text, encoding="utf-8")
    return CliRunner().invoke(command, [str(path), "--margins", *arguments], standalone_mode=False).return_value


def test_the_weakest_carrier_is_first_and_what_is_wrong_before_it():
    text = (
        "racks: {R: {window: 500-510}}\nchannels:\n  1: {slot: R.1, mhz: 500.200, by: Ann}\n"
        "  2: {slot: R.2, mhz: 500.500, by: Bo}\n  3: {slot: R.3, mhz: 509.950, by: Cy}\n"
    )
    found = margins_of(text)
    assert [margins.carrier.id for margins in found] == ["channel 3", "channel 1", "channel 2"]
    assert [margins.is_wrong for margins in found] == [True, False, False]
    assert found[1].weakest.spare_hz == 0 and found[1].neighbour.distance_hz == 100_000


def test_the_window_s_edge_is_measured_from_the_carrier_s_edge():
    text = "racks: {R: {window: 500-510}}\nchannels: {1: {slot: R.1, mhz: 509.950, by: A}, 2: {slot: R.2, mhz: 503, by: B}}\n"
    found = by_carrier(text)
    assert found["channel 1"].edge_hz == -50_000 and found["channel 2"].edge_hz == 2_900_000


@pytest.mark.parametrize("apart", ["zone: %s", "exclusive: pair"], ids=["two zones", "one exclusive group"])
def test_carriers_that_never_meet_have_no_margin_to_each_other(apart):
    rows = [f"  {at}: {{mhz: 500.{at}00, by: A{at}, {apart.replace('%s', 'AB'[at - 1])}}}" for at in (1, 2)]
    found = by_carrier("\n".join(["channels:", *rows]) + "\n")
    assert all(margins.weakest is None for margins in found.values()) and len(found) == 2


def test_a_stranger_has_no_margin_of_its_own_and_is_a_neighbour():
    found = by_carrier("channels: {1: {mhz: 500.000, by: Ann}}\nothers: {NEXT DOOR: {kind: neighbour, mhz: 501.000}}\n")
    assert list(found) == ["channel 1"] and found["channel 1"].neighbour.names == ("NEXT DOOR",)


@pytest.mark.parametrize(("own", "level"), [("off", -9_000), ("on", None)])
def test_power_under_a_carrier_is_foreign_only_while_our_transmitters_are_off(tmp_path, own, level):
    lines = [f"{499 + at / 10:.1f},{-93.01 if 9 <= at <= 11 else -130}" for at in range(30)]
    (tmp_path / "sweep.csv").write_text("\n".join(lines), encoding="utf-8")
    text = f"spectrum: {{sweeps: [sweep.csv], own transmitters: {own}}}\nchannels: {{1: {{mhz: 500.000, by: Ann}}}}\n"
    shown = json.loads(run(tmp_path, text, "--format", "json").text)["margins"][0]
    assert shown["heard_cdbm"] == level and shown["limit_cdbm"] == (level and -8_500)


def test_text_and_json_say_the_same_of_the_example():
    texts = [
        CliRunner().invoke(command, [str(EXAMPLES / "show.yaml"), "--margins", *more], standalone_mode=False)
        for more in ((), ("--format", "json"))
    ]
    table = texts[0].return_value.text.split("Margins, ")[1].splitlines()[3:]
    both = json.loads(texts[1].return_value.text)
    assert both["findings"] == [] and len(both["margins"]) == len(table) == 36
    for line, margins in zip(table, both["margins"], strict=True):
        assert line.startswith(margins["carrier"])
        spares = [one["spare_hz"] / 1000 for one in (margins["neighbour"], *margins["products"])]
        assert [float(word) for word in line[len(margins["carrier"]) :].split()[1:5]] == spares


def test_a_show_that_cannot_be_built_has_findings_and_no_margins(tmp_path):
    outcome = run(tmp_path, "channels: {1: {mhz: abc, by: Ann}}\n", "--format", "json")
    both = json.loads(outcome.text)
    assert outcome.code == 1 and both["findings"] and both["margins"] == []


def test_margins_are_no_part_of_sarif(tmp_path):
    outcome = run(tmp_path, "channels: {1: {mhz: 500, by: Ann}}\n", "--format", "sarif")
    assert outcome.code == 2 and "leave out --format sarif" in outcome.aside


def figures_on(name, show):
    """By carrier the words of the margins on a paper, in the order of the paper."""
    (paper,) = (paper for paper in SHEETS if paper.name == name)
    (sheet,) = paper.make(show)
    table = next(
        (block for block in sheet.blocks if isinstance(block, Table) and block.columns[2].heading == "Tightest with"),
        None,
    )
    rows = table.groups[0].rows if table else ()
    texts = [[part.items[0].text for parts in row.cells for part in parts] for row in rows]
    return {cells[0]: (cells[1:], row.mark) for cells, row in zip(texts, rows, strict=True)}


@pytest.mark.parametrize("name", ["spectrum", "frequency-request"])
def test_papers_show_every_carrier_s_margins_in_the_order_of_the_check(name):
    text = (
        "radios: {belt: {kind: belt}}\nracks: {R: {window: 500-510}}\nchannels:\n  1: {radio: belt, slot: R.1, mhz: 500.200, by: Ann}\n"
        "  2: {radio: belt, slot: R.2, mhz: 500.550, by: Bo}\n  3: {radio: belt, slot: R.3, mhz: 509.950, by: Cy}\n"
    )
    found = margins_of(text)
    figures = figures_on(name, build_show(raw_of(text)).show)
    assert list(figures) == ["3", "1", "2"] == [margins.carrier.id.split()[1] for margins in found]
    assert figures["3"] == (["509.950", "3a-2b: 2, 1", "9100", "8950", "19050", "8610", "\u221250"], "!")
    assert figures["1"][0][:3] == ["500.200", "2", "50"] and figures["1"][1] == ""
    assert [figures[one.carrier.id.split()[1]][0][2] for one in found] == [
        format_khz(one.neighbour.spare_hz) for one in found
    ]


def test_a_request_shows_the_margins_of_what_is_asked_for():
    text = "radios: {belt: {kind: belt}}\nchannels:\n  1: {radio: belt, mhz: 500.000, asked: 501.000, granted: no}\n  2: {radio: belt, mhz: 502.000}\n"
    assert figures_on("frequency-request", build_show(raw_of(text)).show)["1"][0][:3] == ["501.000", "2", "700"]


def test_one_carrier_alone_has_no_margins_on_paper():
    show = build_show(raw_of("radios: {belt: {kind: belt}}\nchannels: {1: {radio: belt, mhz: 500.000}}\n")).show
    assert figures_on("frequency-request", show) == {}
