"""Papers in the order of time: two whole shows, said without a work-around, and what their papers say of them."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.checks import check_show
from paperwork.model import Group, Show
from paperwork.plan.day.acts import list_acts, list_change_overs
from paperwork.plan.day.sharing import list_sharers
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS
from paperwork.sheets.running import advance_form, change_overs, handhelds, running_sheet, timetable
from tests.big_events import big_event
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES, raw_of
from tests.strategies import clock

DATA = Path(__file__).parents[1] / "data"
H, M = 3600, 60


def read_data(name: str) -> Show:
    built = build_show(raw_of((DATA / name).read_text(encoding="utf-8")))
    assert built.findings == ()
    return built.show


@pytest.fixture(scope="module")
def festival() -> Show:
    return read_data("festival.yaml")


@pytest.fixture(scope="module")
def stadium() -> Show:
    return read_data("stadium.yaml")


def words_on(sheet) -> list[str]:
    return list(texts_of(sheet))


def rows_of(sheet) -> list[str]:
    """Each row of the tables of a sheet as one text."""
    return [
        " | ".join(
            " ".join(item.text for part in parts for item in part.items if hasattr(item, "text")) for parts in row.cells
        )
        for block in sheet.blocks
        for group in getattr(block, "groups", ())
        for row in group.rows
    ]


def test_two_whole_shows_draw_no_finding(festival, stadium):
    assert [finding.text for show in (festival, stadium) for finding in check_show(show)] == []


def test_the_acts_are_in_the_order_of_the_bill_with_what_each_brings(festival):
    acts = {act.name: act for act in list_acts(festival)}
    assert list(acts)[:3] == ["opening", "brass union", "peat bog"] and list(acts)[-1] == "dune choir"
    wolves = acts["glass wolves"]
    assert [one.id for one in wolves.brought] == ["GW1", "GW2"] and [one.id for one in wolves.lent] == ["04"]
    assert [one.id for one in wolves.others] == ["ACT IEM 1"] and wolves.zones == ("main",)
    assert wolves.stretches == ((23 * H + 30 * M, 25 * H),)
    assert acts["lowlight"].worn == {"01": ("LL LEAD",), "02": ("LL SECOND",), "03": ("LL THIRD",)}


def test_a_change_over_takes_off_what_the_next_act_does_not_have(festival):
    """Against sets that are made of the file alone."""
    for one in list_change_overs(festival):
        mine = {channel.id for channel in one.next.channels if channel.zone in (one.zone, "")}
        last = {channel.id for channel in one.last.channels if channel.zone in (one.zone, "")} if one.last else set()
        assert {channel.id for channel in one.off} == last - mine
        assert {channel.id for channel in one.on} == mine - last
        assert {channel.id for channel in one.stays} == mine & last
    (sheet,) = change_overs.make_sheets(festival)
    lowlight = next(row for row in rows_of(sheet) if "Lowlight" in row)
    assert "Sat 14:00–15:00 60 min" in lowlight and "06 SAX" in lowlight and "03 LL THIRD" in lowlight
    assert "Ada Pell" in lowlight and "01, 02" in lowlight


def test_another_name_of_a_stage_is_another_page_of_change_overs(festival):
    """The name is the head of its acts; the code says so too, else the old sheet would count as still valid."""
    metrics, pages = load_metrics(), []
    for name in ("Main stage", "Meadow stage"):
        groups = {**festival.groups, "main": Group(id="main", kind="zone", name=name)}
        (sheet,) = change_overs.make_sheets(replace(festival, groups=groups))
        assert name in set(texts_of(sheet))
        pages.append([page.code for page in lay_out(sheet, metrics).pages])
    assert pages[0][0] != pages[1][0]


def test_an_act_of_many_channels_is_whole_on_the_change_overs_and_names_few_sharers_a_row():
    """Fifty channels a stage and five stages on the same frequencies: nothing is cut, everybody comes on by number."""
    show = build_show(raw_of(big_event(250, sets=10))).show
    assert show is not None
    (sheet,) = change_overs.make_sheets(show)
    layout = lay_out(sheet, load_metrics())
    assert not [one for one in layout.findings if one.code in ("row-too-tall", "text-abbreviated")]
    first = next(row for row in rows_of(sheet) if "Band 0 " in row)
    assert "with 051, 101, 151, 201" in first
    coming = list_change_overs(show)[0].on
    text = " ".join(rows_of(sheet))
    assert len(coming) == 25 and all(f"{one.id} V{one.id}" in text for one in coming)


def test_the_timetable_has_every_frequency_once_and_marks_who_shares_one(festival):
    (sheet,) = timetable.make_sheets(festival)
    rows = rows_of(sheet)
    carriers = (*festival.channels.values(), *festival.others.values())
    assert len(rows) == len({one.hz for one in carriers})
    (shared,) = [row for row in rows if row.startswith("562.400")]
    assert "Sat 23:30–01:00 Sun 20:00–21:30" in shared and "GW1 DC1" in shared
    marked = {row.cells[0][0].items[0].text for row in sheet.blocks[0].groups[0].rows if row.mark}
    assert {"560.300", "562.400"} <= marked


def test_a_shared_frequency_is_marked_on_every_paper_that_prints_it(festival):
    """By who is on it too, or by the sign where there is no room; but on an evening's own pages."""
    assert list_sharers(festival, festival.channels["GW1"]) == ("DC1",)
    for paper in SHEETS:
        for sheet in paper.make(festival):
            said = words_on(sheet)
            if any("562.400" in text for text in said) and paper.name not in ELSEWHERE:
                joined = " ".join(said)
                assert "with DC1" in joined or "562.400 =" in joined, paper.name


ELSEWHERE = ("spectrum", "frequency-timetable", "advance-form")
"""Where all who are on a frequency are at one place of the drawing or in one row, and what goes to one act alone."""


def test_an_advance_form_says_of_one_act_nothing_of_another(festival):
    sheets = advance_form.make_sheets(festival)
    assert len(sheets) == len(list_acts(festival))
    (low,) = [sheet for sheet in sheets if "Lowlight" in words_on(sheet)]
    said = " ".join(words_on(low))
    assert "Rae Sands" in said and "Noor Vale" not in said and "Ike Stone" not in said


def test_a_handheld_goes_out_to_each_who_holds_it_and_comes_back(stadium):
    issues = handhelds.list_issues(stadium)
    own = [(one.spell.by, stadium.scenes[one.first].id, one.on_to) for one in issues if one.spell.channel.id == "03"]
    assert own == [
        ("Lea Mott", "walk", ""),
        ("Sam Odell", "first", ""),
        ("Sam Odell", "second", "Jo Hartig"),
        ("Jo Hartig", "flash", ""),
    ]
    held = {(one.spell.channel.id, index) for one in issues for index in range(one.first, one.last + 1)}
    assert ("03", 4) not in held and ("04", 4) in held


def test_the_running_sheet_is_in_the_order_of_time(festival, stadium):
    """Every row with a time is no earlier than the row before it in its scene, and nothing is told twice."""
    for show in (festival, stadium):
        (sheet,) = running_sheet.make_sheets(show)
        said = rows_of(sheet)
        assert len(said) == len(set(said))
        for group in sheet.blocks[0].groups:
            times = [row.cells[0][0].items[0].text for row in group.rows]
            stated = [time for time in times if ":" in time]
            assert stated == sorted(stated)
    (sheet,) = running_sheet.make_sheets(stadium)
    assert any("18:52" in row and "Lea Mott" in row and "H1" in row for row in rows_of(sheet))
    assert "Sam Odell → Jo Hartig" in " ".join(rows_of(sheet))


def test_no_time_of_the_running_sheet_is_earlier_than_the_bar_it_is_below():
    """A swap begins where the first leaves the stage, and says the entrance that it is made for. The example has
    swaps with an interval between."""
    shows = [read_show(EXAMPLES / "show.yaml", "show.yaml").show, read_data("stadium.yaml")]
    for show in shows:
        begun = -(10**9)
        for group in running_sheet.make_sheets(show)[0].blocks[0].groups:
            times = [row.cells[0][0].items[0].text for row in group.rows]
            stated = [sign_of(time) for time in times if ":" in time]
            begun = max(begun, sign_of(group.note)) if ":" in group.note else begun
            assert all(time >= begun for time in stated), group.title
    said = rows_of(running_sheet.make_sheets(shows[0])[0])
    assert any("0:47:30 | Swap 4, before 2.3" in row for row in said)


def sign_of(text: str) -> int:
    """A printed time in seconds."""
    hours, minutes, seconds = (*text.lstrip("−").split(":"), "0")[:3]
    return (-1 if text.startswith("−") else 1) * (int(hours) * H + int(minutes) * M + int(seconds))


PARTS = st.lists(st.tuples(st.integers(0, 40), st.integers(1, 12)), min_size=1, max_size=6)


@settings(max_examples=few_examples(40), deadline=None)
@given(PARTS)
def test_of_a_bill_on_two_stages_the_whole_sheet_is_in_the_order_of_time(parts):
    """Sets overlap, and are in the file in any order; each on handhelds of its own."""
    channels = ", ".join(f"{n}: {{role: R{n}, radio: h}}" for n in range(len(parts)))
    sets = ", ".join(
        f"s{n}: {{name: Set {n}, kind: set, at: '{clock(12 * 3600 + at * 600)}', until: '{clock(12 * 3600 + (at + long) * 600)}', live: R{n}}}"
        for n, (at, long) in enumerate(parts)
    )
    text = f"day: {{times: clock}}\nradios: {{h: {{kind: handheld}}}}\nchannels: {{{channels}}}\nscenes: {{{sets}}}\n"
    (sheet,) = running_sheet.make_sheets(build_show(raw_of(text)).show)
    times = [row.cells[0][0].items[0].text for group in sheet.blocks[0].groups for row in group.rows]
    assert times == sorted(times) and len(times) == 2 * len(parts)


def test_who_changes_packs_takes_the_first_off_and_puts_the_second_on():
    text = (
        "channels: {10: {role: ENS, by: Jon}, 12: {role: JUDGE, by: Jon}, 3: {role: PRES 1, by: Abe}}\n"
        "scenes: {s1: {live: ENS}, s2: {live: JUDGE}, s3: {live: [ENS, PRES 1]}}\nmoves: {m: {role: PRES 1, scene: s3, enter: SL}}\n"
    )
    (sheet,) = running_sheet.make_sheets(build_show(raw_of(text)).show)
    said = rows_of(sheet)
    assert [row for row in said if "10 → 12" in row] and [row for row in said if "12 → 10" in row]
    assert [row for row in said if "SL: PRES 1 (3)" in row]


def test_a_match_has_no_wigs_no_house_and_no_curtain(stadium):
    said = " ".join(text for paper in SHEETS for sheet in paper.make(stadium) for text in words_on(sheet)).lower()
    assert not [word for word in ("wig", "curtain", "house opens") if word in said.replace("wiggle", "")]


def test_of_two_shows_a_day_the_day_is_by_the_clock_and_the_scenes_from_curtain_up():
    show = build_show(
        raw_of(
            'day: {power-up: "13:00", curtain: "14:30, 19:30", bows: "2:00"}\n'
            "radios: {held: {kind: handheld, hours: 4}}\n"
            "channels: {HH1: {radio: held}}\nroles: {HOST: {by: Ida Voss}}\n"
            'scenes: {s1: {at: "-0:10", live: HOST}, s2: {at: "0:30", live: HOST}}\n'
            "moves: {m1: {role: HOST, scene: s2, channel: HH1}}\n"
        )
    ).show
    (sheet,) = running_sheet.make_sheets(show)
    day, scene = sheet.blocks[0].groups
    assert day.note == "times of day" and day.rows[0].cells[0][0].items[0].text == "13:00"
    assert scene.note == "0:30" and "times from curtain up" in sheet.subtitle


def test_of_many_sharers_the_first_three_are_named_and_the_others_counted():
    show = build_show(raw_of(big_event(300, sets=12))).show
    assert show is not None
    (sheet,) = change_overs.make_sheets(show)
    assert "with 051, 101, 151 and 2 more" in next(row for row in rows_of(sheet) if "Band 0 " in row)


def test_cells_for_hundreds_of_packs_are_rows_that_fit(tmp_path):
    """Odd numbers have no ranges; each is on the sheet, whole, and nothing has to give way."""
    from paperwork.render.layout import lay_out
    from paperwork.render.text.measuring import Metrics
    from paperwork.sheets.running.running_sheet import make_sheets
    from tests.big_events import big_event
    from tests.shows_text import reading_of

    show = reading_of(big_event(150, 30), tmp_path).show
    (sheet,) = make_sheets(show)
    layout = lay_out(sheet, Metrics())
    assert layout.findings == ()
    printed = {text for page in layout.pages for box in page.boxes for text in getattr(box, "text", "").split(", ")}
    assert {f"{number:03d}" for number in range(1, 50, 2)} <= {text.strip(",") for text in printed}
