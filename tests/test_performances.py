"""Performances: the show of each is what a show that is written for it alone would say; papers of it have their own place."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import yaml
from hypothesis import given, settings
from hypothesis import strategies as some

from paperwork.archive.public import make_public
from paperwork.build import build_show
from paperwork.checks import check_show
from paperwork.cli import root
from paperwork.model import Role, Show
from paperwork.model.facts import canonical_facts, fingerprint_show
from paperwork.pipeline import make_papers
from paperwork.plan.day.batteries import plan_batteries
from paperwork.plan.handovers import list_all_handovers
from paperwork.plan.walls import put_on_walls
from paperwork.reading import read_show
from paperwork.sheets import OF_RUN, SHEETS
from paperwork.sheets.production import performance_list
from paperwork.sheets.rounds import week_grids
from paperwork.sheets.wardrobe import cover_chart, dressing_list, pouch_cards
from paperwork.staging import find_performance, stage_performance
from paperwork.text.units import format_clock
from tests.few import few_examples
from tests.pdf_text import read_pages
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of, reading_of, show_of

SCHOOL = Path(__file__).parent / "data" / "school-two-casts.yaml"
TEAMS = ("red", "blue", "")
ROLES = ("VERA", "TOM", "COOK")


def built(data: dict[str, Any]) -> Show:
    made = build_show(raw_of(yaml.safe_dump(data, sort_keys=False)))
    assert not made.findings
    return made.show


def clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"


@some.composite
def runs(draw) -> tuple[dict[str, Any], dict[str, Any], dict[str, Any]]:
    """A show of three roles with two or three performers each, one performance, and the same show written for it alone."""
    people = {f"{role} {n}": {"team": draw(some.sampled_from(TEAMS))} for role in ROLES for n in (1, 2, 3)}
    people = {name: {key: team for key, team in one.items() if team} for name, one in people.items()}
    roles = {role: {"by": f"{role} 1", "alternates": [f"{role} 2", f"{role} 3"]} for role in ROLES}
    day = {
        "power-up": "17:00",
        "half": "18:55",
        "curtain": "19:30",
        "bows": "2:20",
        "team": draw(some.sampled_from(TEAMS)),
    }
    day = {key: value for key, value in day.items() if value}
    show = {
        "show": {"title": "Glass", "dates": "2027-03-01 to 2027-03-20"},
        "day": day,
        "radios": {"belt": {"kind": "pack", "tunes": "486-516", "hours": draw(some.integers(2, 9))}},
        "people": people,
        "roles": roles,
        "channels": {f"0{n}": {"role": role, "radio": "belt"} for n, role in enumerate(ROLES, 1)},
        "scenes": {"s1": {"at": "0:00", "live": list(ROLES)}, "s2": {"at": "1:00", "live": ["TOM"]}},
    }
    team = draw(some.sampled_from(TEAMS))
    cast = {role: f"{role} {n}" for role in ROLES if (n := draw(some.integers(0, 3)))}
    own = {"bows": draw(some.sampled_from(("", "2:40"))), "team": team}
    own = {key: value for key, value in own.items() if value}
    curtain = draw(some.sampled_from((0, 11 * 60, 20 * 60)))
    times = {"curtain": clock(curtain)} if curtain else {}
    before = {"power-up": clock(curtain - 150), "half": clock(curtain - 35)} if curtain else {}
    performance = {"date": "2027-03-06", **own, **times} | ({"cast": cast} if cast else {})
    alone = show | {"show": {"title": "Glass", "dates": "2027-03-06"}, "day": day | own | times | before}
    # Whoever is told to play a role in a show for one evening has no team that says otherwise.
    first = {role: cast[role] for role in cast}
    alone["roles"] = {
        role: _play(roles[role], first.get(role, ""), people, alone["day"].get("team", "")) for role in ROLES
    }
    return show | {"performances": {"p": performance}}, alone, performance


def _play(role: dict[str, Any], told: str, people: dict[str, Any], team: str) -> dict[str, Any]:
    """A role as one writes it by hand for one evening: one performer, and all others after."""
    casts = [role["by"], *role["alternates"]]
    by = told or next((name for name in casts if team and people[name].get("team") == team), casts[0])
    return {"by": by, "alternates": [name for name in casts if name != by]}


def _sort_alternates(show: Show) -> dict[str, Role]:
    """The roles with their alternates by name: in which order they are listed says nothing."""
    return {id: replace(role, alternates=tuple(sorted(role.alternates))) for id, role in show.roles.items()}


@given(runs())
def test_a_performance_is_what_a_show_for_it_alone_would_say(run):
    whole, alone, _ = run
    show = built(whole)
    staged = replace(stage_performance(show, show.performances["p"]), performances={})
    staged = replace(staged, roles=_sort_alternates(staged))
    by_hand = built({**alone, "day": {key: one for key, one in alone["day"].items() if key != "team"}})
    by_hand = replace(by_hand, day=replace(by_hand.day, team=alone["day"].get("team", "")))
    by_hand = replace(by_hand, roles=_sort_alternates(by_hand))
    assert canonical_facts(staged) == canonical_facts(by_hand)
    assert plan_batteries(staged) == plan_batteries(by_hand)


@settings(max_examples=few_examples(12))
@given(runs())
def test_the_papers_of_a_performance_are_those_of_a_show_for_it_alone(run):
    whole, alone, _ = run
    show, by_hand = (
        built(whole),
        built({**alone, "day": {key: one for key, one in alone["day"].items() if key != "team"}}),
    )
    staged = stage_performance(show, show.performances["p"])
    staged = replace(staged, day=replace(staged.day, team=""), roles=_sort_alternates(staged))
    by_hand = replace(by_hand, roles=_sort_alternates(by_hand))
    for paper in SHEETS:
        if paper.name not in OF_RUN:
            made = [(sheet.title, sheet.blocks) for sheet in paper.make(staged)]
            assert made == [(sheet.title, sheet.blocks) for sheet in paper.make(by_hand)], paper.name


def test_times_before_curtain_up_move_with_another_curtain(tmp_path):
    show = show_of(
        """
        show: {title: Glass}
        day: {power-up: "17:15", checks: "17:30", half: "18:55", curtain: "19:30", bows: "2:20"}
        channels: {1: {by: Ann}}
        performances: {noon: {curtain: "14:30", half: "14:00"}}
        """,
        tmp_path,
    )
    day = stage_performance(show, show.performances["noon"]).day
    hours = [at_s / 3600 for (at_s,) in (day.power_up_s, day.checks_s, day.half_s, day.curtain_s)]
    assert hours == [12.25, 12.5, 14.0, 14.5]


def test_a_show_without_performances_keeps_its_fingerprint(tmp_path):
    show = show_of("show: {title: Glass}\nchannels: {1: {by: Ann}}\n", tmp_path)
    assert b"performances" not in canonical_facts(show)
    other = replace(show, at_performance="noon")
    assert fingerprint_show(other) == fingerprint_show(show)


def test_a_name_finds_its_performance_and_a_date_only_a_lone_one():
    show = read_show(SCHOOL, SCHOOL.name).show
    assert find_performance(show, "2027-03-03").id == "2027-03-03/evening"
    assert find_performance(show, "2027-03-06") is None
    (finding,) = read_show(SCHOOL, SCHOOL.name, on="2027-03-06").findings
    assert (finding.code, finding.fix) == (
        "performance-unknown",
        "the performances are 2027-03-06/evening and 2027-03-06/matinee",
    )


def test_a_slip_in_a_cast_is_found_in_the_row_of_the_performance(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(SCHOOL.read_text(encoding="utf-8").replace("FOX: Eli Frome", "FIX: Eli Frome"), encoding="utf-8")
    (finding,) = read_show(path, "show.yaml").findings
    assert finding.code == "id-unknown" and "performance 2027-03-06/evening" in finding.text


def test_the_school_shares_a_pack_in_each_cast_and_swaps_it_between_its_own_children():
    show = read_show(SCHOOL, SCHOOL.name).show
    for name, bodies in (
        ("2027-03-05/matinee", ("Hana Ito", "Jun Karsh")),
        ("2027-03-05/evening", ("Gil Hart", "Ivo Jarre")),
    ):
        (swap,) = list_all_handovers(stage_performance(show, show.performances[name]))
        assert (swap.from_by, swap.to_by, swap.seconds) == (*bodies, 44 * 60)


def test_six_performances_of_two_casts_are_one_line_each_with_who_plays():
    show = read_show(SCHOOL, SCHOOL.name).show
    (sheet,) = performance_list.make_sheets(show)
    texts = [*texts_of(sheet)]
    assert texts.count("LIN: Ada Birch") == 4 and texts.count("LIN: Bea Calder") == 3
    assert texts.count("FOX: Fay Garth") == 2


def test_papers_of_a_performance_name_it_and_have_a_folder_of_their_own(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text(SCHOOL.read_text(encoding="utf-8"), encoding="utf-8")
    for name in ("2027-03-06/matinee", "2027-03-06/evening"):
        arguments = ["build", "show.yaml", "--only", "dressing-list", "--on", name]
        outcome = root.main(arguments, standalone_mode=False, obj={"made": ""})
        assert outcome.code == 0 and f"(the papers for {name})" in outcome.text
    folders = [folder for folder in tmp_path.iterdir() if folder.is_dir()]
    assert len(folders) == 2


def test_a_team_without_anybody_in_a_role_leaves_it_to_whom_the_role_names(tmp_path):
    reading = reading_of(
        """
        show: {title: Glass}
        day: {team: blue}
        people: {Ann: {team: green}, Bo: {team: blue}, Cy: {}}
        roles: {VERA: {by: Ann, alternates: Bo}, TOM: {by: Cy}}
        channels: {1: {role: VERA}, 2: {role: TOM}}
        performances: {noon: {team: red}}
        """,
        tmp_path,
    )
    show, (finding,) = reading.show, reading.findings
    assert finding.code == "team-empty" and show.roles["VERA"].by == "Bo"
    assert stage_performance(show, show.performances["noon"]).roles["VERA"].by == "Ann"


def test_a_child_is_initials_in_the_cast_of_every_performance_that_is_printed():
    show = put_on_walls(read_show(SCHOOL, SCHOOL.name).show)
    (sheet,) = performance_list.make_sheets(show)
    texts = [*texts_of(sheet)]
    assert texts.count("LIN: A. B.") == 4 and texts.count("LIN: B. C.") == 3
    assert not any(name in text for text in texts for name in ("Ada", "Bea", "Cal", "Dov", "Eli", "Fay"))


def test_a_public_archive_has_nobody_of_a_cast():
    show, secrets = make_public(read_show(SCHOOL, SCHOOL.name).show)
    assert all(one.cast == () for one in show.performances.values())
    assert "Fay Garth" in secrets.names


def test_a_slip_in_the_team_of_a_performance_is_found_and_its_fix_is_the_team(tmp_path):
    path = tmp_path / "show.yaml"
    text = SCHOOL.read_text(encoding="utf-8")
    path.write_text(text.replace("2027-03-04, team: blue", "2027-03-04, team: bleu"), encoding="utf-8")
    (finding,) = read_show(path, "show.yaml").findings
    assert (finding.code, [str(edit) for edit in finding.edits]) == (
        "group-misspelled",
        ["performances/2027-03-04%2Fevening/team=blue"],
    )


def test_a_team_of_a_performance_that_nobody_is_in_is_no_person_alone(tmp_path):
    show = "people: {Ann: {}}\nchannels: {1: {by: Ann}}\nperformances: {noon: {team: guests}}\n"
    assert show_of(show, tmp_path)


TWICE = """
day: {power-up: "17:00", curtain: "19:30", bows: "2:20"}
radios: {belt: {kind: pack, hours: 6}}
people: {Ann: {team: red}, Bo: {team: blue}, Cy: {}}
roles: {VERA: {by: Ann, alternates: Bo}, TOM: {by: Cy}}
channels: {1: {role: VERA, radio: belt}, 2: {role: TOM, radio: belt}}
performances:
  noon: {curtain: "14:30"}
  late: {curtain: "21:30", bows: "5:20"}
  later: {date: 2027-03-04, curtain: "21:30", bows: "5:20"}
"""


def test_a_fault_of_performances_alone_is_said_once_with_their_names(tmp_path):
    found = reading_of(TWICE, tmp_path).findings
    short = [one for one in found if "performance" in one.text]
    assert short and all(one.text.startswith("in performances late and later: ") for one in short)
    assert len({(one.code, one.text) for one in short}) == len(short)
    assert {subject.section for one in short for subject in one.subjects} == {"performances"}
    whole = TWICE.replace('bows: "2:20"', 'bows: "5:20"')
    (tmp_path / "whole").mkdir()
    assert not [one for one in reading_of(whole, tmp_path / "whole").findings if "performance" in one.text]


def test_a_clean_show_of_two_casts_draws_nothing_from_its_performances():
    assert not read_show(SCHOOL, SCHOOL.name).findings


OF_THE_RUN = {"team-of-one", "team-empty", "team-unknown", "group-misspelled"}
"""What is found of the names of teams, which are looked at over all performances together."""


@given(runs())
def test_a_check_finds_of_a_performance_what_a_check_of_its_own_show_finds(run):
    show = built(run[0])
    staged = stage_performance(show, show.performances["p"])
    own, plain = check_show(staged), check_show(replace(show, performances={}))
    of_day = {(one.code, one.subjects or one.text) for one in plain}
    added = {one.code for one in own if (one.code, one.subjects or one.text) not in of_day}
    assert {one.code for one in check_show(show) if one.text.startswith("in performance p: ")} == added - OF_THE_RUN


def test_in_another_house_the_dates_of_performances_are_not_held_against_its_run(tmp_path):
    path = tmp_path / "show.yaml"
    rows = "venues:\n  v1: {venue: Barn, section: show, field: dates, value: 2027-05-01 to 2027-05-02}\n"
    path.write_text(SCHOOL.read_text(encoding="utf-8") + rows, encoding="utf-8")
    assert not read_show(path, "show.yaml", venue="Barn").findings
    moved = path.read_text(encoding="utf-8").replace(
        "dates: 2027-03-01 to 2027-03-06", "dates: 2027-03-01 to 2027-03-05"
    )
    path.write_text(moved, encoding="utf-8")
    assert {one.code for one in read_show(path, "show.yaml").findings} == {"performance-outside-run"}
    assert not read_show(path, "show.yaml", on="2027-03-06/evening").findings


def test_tonight_is_of_the_performance_that_is_named(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text(SCHOOL.read_text(encoding="utf-8"), encoding="utf-8")
    for on, off, instead in (
        ("2027-03-03", "Ada Birch", "LIN: Bea Calder for Ada Birch"),
        ("2027-03-04", "Bea Calder", "LIN: Ada Birch for Bea Calder"),
    ):
        arguments = ["tonight", "show.yaml", "--on", on, "--off", off]
        outcome = root.main(arguments, standalone_mode=False, obj={"made": ""})
        assert outcome.code == 0 and instead in outcome.text, outcome.aside
    assert len([folder for folder in tmp_path.iterdir() if folder.is_dir()]) == 2
    wrong = root.main(["tonight", "show.yaml", "--on", "noon", "--off", "Ada Birch"], standalone_mode=False, obj={})
    assert wrong.code == 1 and "no single performance is called noon" in wrong.aside


def test_tonight_has_the_date_of_its_performance_and_a_date_has_its_performance(tmp_path, monkeypatch):
    """A page of one evening that says another day, or has the cast of another, is believed."""
    monkeypatch.chdir(tmp_path)
    text = SCHOOL.read_text(encoding="utf-8")
    Path("show.yaml").write_text(text, encoding="utf-8")

    def run(*arguments):
        made = ["tonight", "show.yaml", "--off", "Bea Calder", *arguments]
        return root.main(made, standalone_mode=False, obj={"made": "", "today": "2026-11-30"})

    run("--on", "2027-03-04", "-o", "named")
    run("--date", "2027-03-04", "-o", "dated")
    named, dated = (read_pages(Path(folder, "rack", "tonight.pdf").read_bytes())[0] for folder in ("named", "dated"))
    assert named == dated and "For 4 March 2027" in named and "A. B." in named
    wrong = run("--on", "2027-03-04", "--date", "2027-03-05", "-o", "x")
    assert wrong.code == 2 and "is on 2027-03-04, not on 2027-03-05" in wrong.aside and not Path("x").exists()
    row = next(line for line in text.splitlines() if "2027-03-04" in line and "date" in line)
    twice = text.replace(row, f"{row}\n{row.replace(row.split(':')[0].strip(), 'again', 1)}")
    Path("show.yaml").write_text(twice, encoding="utf-8")
    wrong = run("--date", "2027-03-04", "-o", "x")
    assert wrong.code == 2 and "say which with --on" in wrong.aside and not Path("x").exists()
    assert run("--date", "2027-05-01", "-o", "other").code in (0, 1)


def test_a_change_of_a_performance_is_listed_with_who_plays(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    text = SCHOOL.read_text(encoding="utf-8")
    Path("old.yaml").write_text(text, encoding="utf-8")
    Path("new.yaml").write_text(text.replace(', cast: "FOX: Eli Frome"', ""), encoding="utf-8")
    outcome = root.main(["changes", "old.yaml", "new.yaml"], standalone_mode=False, obj={"made": ""})
    assert "2027-03-06/evening" in outcome.text and "FOX: Fay Garth" in outcome.text


def run_of(count: int, tmp_path: Path) -> Show:
    """A show of two casts and so many performances, one a day."""
    rows = "".join(
        f"  p{n}: {{date: 2027-03-{n:02d}, team: {'red' if n % 3 else 'blue'}}}\n" for n in range(1, count + 1)
    )
    return show_of(TWICE.split("performances:")[0] + f"performances:\n{rows}", tmp_path)


def test_a_week_grid_has_every_performance_once_and_ten_to_a_page(tmp_path):
    show = run_of(17, tmp_path)
    cells = [sheet for sheet in week_grids.make_sheets(show) if sheet.name.startswith("week-cells")]
    assert [sheet.name for sheet in cells] == ["week-cells-1", "week-cells-2"]
    heads = [column.heading for sheet in cells for column in sheet.blocks[0].columns[2:]]
    assert [head for head in heads if head] == [f"{n} March p{n}" for n in range(1, 18)]
    assert [len(sheet.blocks[0].columns) for sheet in cells] == [2 + week_grids.MOST, 2 + 7]


@settings(max_examples=few_examples(25))
@given(runs())
def test_the_week_grid_of_cells_says_what_the_plan_of_each_performance_says(run):
    show = built(run[0])
    (sheet,) = [sheet for sheet in week_grids.make_sheets(show) if sheet.name == "week-cells"]
    rows = [
        [[item.text for one in part for item in one.items] for part in row.cells]
        for row in sheet.blocks[0].groups[0].rows
    ]
    usual, *listed = [row[2] for row in rows]
    plans = plan_batteries(stage_performance(show, show.performances["p"]))
    for plan, said in zip(plans, listed, strict=True):
        planned = list(dict.fromkeys(format_clock(run.change.at_s).rjust(5, "0") for run in plan.runs))
        assert [text for text in said if text] in (planned, []) and len(said) >= len(planned)
        assert planned == ([text for text in said if text] or usual)


def test_alternates_are_on_the_papers_of_the_run_with_the_days_on_which_they_play(tmp_path):
    show = run_of(5, tmp_path)
    for paper, red in ((dressing_list, False), (cover_chart, False), (pouch_cards, True)):
        text = "\n".join(
            texts_of(
                paper.make_sheets(replace(show, people={**show.people, "Cy": replace(show.people["Cy"], room="1")}))[0]
            )
        )
        assert "plays: p3 3\u202fMarch" in text, "a day and its month hold together"
        text = text.replace("\u202f", " ")
        assert ("plays: p1 1 March; p2 2 March; p4 4 March; p5 5 March" in text) == (red or paper is dressing_list)
    one = stage_performance(show, show.performances["p3"])
    assert "plays:" not in "\n".join(texts_of(pouch_cards.make_sheets(one)[0]))
    many = run_of(21, tmp_path)
    assert "plays: in 7 of 21 performances" in "\n".join(texts_of(pouch_cards.make_sheets(many)[0]))


def test_from_one_date_to_another_only_the_papers_of_the_week_are_printed(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text(SCHOOL.read_text(encoding="utf-8"), encoding="utf-8")

    def build(*arguments):
        return root.main(["build", "show.yaml", *arguments], standalone_mode=False, obj={"made": ""})

    outcome = build("--on", "2027-03-04..2027-03-05", "-o", "week")
    printed = sorted(path.stem for path in Path("week").rglob("*.pdf"))
    assert outcome.code == 0 and printed == ["performances", "week-capsules", "week-cells", "week-checks"]
    wrong = build("--on", "2027-03-04..2027-03-05", "--only", "line-check")
    assert wrong.code == 2 and "line-check is for one performance" in wrong.aside
    assert "no single performance is called" in build("--on", "2027-04-01..2027-04-05").aside
    for command in (
        ["tonight", "show.yaml", "--off", "Ada Birch"],
        ["watch", "show.yaml"],
        ["changes", "show.yaml", "show.yaml"],
    ):
        refused = root.main([*command, "--on", "2027-03-04..2027-03-05"], standalone_mode=False, obj={})
        assert refused.code == 2 and "is several performances: name one of them" in refused.aside
    assert "name one with --on" in build("--on", "2027-03-04..2027-03-05", "--since", "show.yaml").aside


def test_what_to_print_again_is_asked_of_one_performance(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    text = SCHOOL.read_text(encoding="utf-8")
    Path("old.yaml").write_text(text, encoding="utf-8")
    Path("new.yaml").write_text(text.replace(', cast: "FOX: Eli Frome"', ""), encoding="utf-8")

    def compare(on):
        return root.main(["changes", "old.yaml", "new.yaml", "--on", on], standalone_mode=False, obj={"made": ""}).text

    assert "print again: nothing" in compare("2027-03-03").replace("performances", "").replace(";", "") or (
        "fitting-call" not in compare("2027-03-03").split("collect")[0]
    )
    assert "fitting-call" in compare("2027-03-06/evening").split("collect")[0]
    since = ["build", "new.yaml", "--on", "2027-03-06/evening", "--since", "old.yaml", "--only", "fitting-call"]
    assert "fitting-call" in root.main(since, standalone_mode=False, obj={"made": ""}).text


def test_papers_of_one_performance_follow_the_file(tmp_path):
    from paperwork.watch import Follower
    from tests.test_watch import look

    path = tmp_path / "show.yaml"
    path.write_text(SCHOOL.read_text(encoding="utf-8"), encoding="utf-8")
    seen = []

    def printer(show, findings, attached, hand_over):
        seen.append((show.at_performance, show.roles["FOX"].by, attached))
        return make_papers(show, findings, only=frozenset({"contacts"}))

    follower = Follower(path, "show.yaml", tmp_path / "papers", on="2027-03-06/evening", printer=printer)
    look(follower)
    assert seen == [("2027-03-06/evening", "Eli Frome", ())]
