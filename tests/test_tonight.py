"""`paperwork tonight`: from a message to one page and the labels that it makes wrong."""

import re
from dataclasses import replace
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from paperwork.commands.tonight import command
from paperwork.document import Note
from paperwork.plan.covers import plan_tonight
from paperwork.reading import read_show
from paperwork.render.boxes import TextBox
from paperwork.render.layout import lay_out
from paperwork.sheets.evening.page import make_labels, make_sheets, pair_spares
from tests.metrics import load_metrics
from tests.pdf_text import read_pages
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

SHOW = EXAMPLES / "show.yaml"


@pytest.fixture(scope="module")
def show():
    return read_show(SHOW, "show.yaml").show


def run(*arguments: str, show: Path = SHOW):
    return CliRunner().invoke(command, [str(show), *arguments], standalone_mode=False, obj={}).return_value


def test_one_command_makes_one_page_and_the_labels(tmp_path):
    outcome = run("--off", "Noor", "--dead", "05", "-o", str(tmp_path))
    assert outcome.code == 0, outcome.aside
    assert "ELSPETH: Aoife Ní Bhriain for Noor Haddad, channel 01, 7 scenes" in outcome.text
    assert "tonight.pdf  (1 page)" in outcome.text
    assert {path.name for path in tmp_path.rglob("*.pdf")} == {"tonight.pdf", "tonight-labels.pdf"}


def test_the_page_says_pack_pouch_capsule_and_whom_for(show):
    (sheet,) = make_sheets(show, plan_tonight(show, ("Noor Haddad",)), ())
    texts = list(texts_of(sheet))
    for wanted in (
        "Off: Noor Haddad",
        "Aoife Ní Bhriain",
        "for Noor Haddad",
        "01",
        "and 22",
        "05B",
        "tone 2",
        "21 → 05",
    ):
        assert wanted in texts
    assert not any("Destroy it" in text for text in texts)


def test_a_dead_pack_has_a_spare_a_line_to_programme_and_a_line_to_log(show):
    dead = pair_spares(show, (show.channels["05"],))
    (sheet,) = make_sheets(show, plan_tonight(show, ()), dead)
    texts = " ".join(texts_of(sheet))
    mhz = f"{show.channels['05'].hz // 1_000_000}.{show.channels['05'].hz % 1_000_000 // 1000:03d}"
    assert f"Take spare pack S1. Set it to {mhz} MHz, 10 mW, gain 30 dB, keys locked." in texts
    assert f"channel 05 SMUGGLER / WIDOW: pack 05 dead, now S1, {mhz} MHz" in texts


def test_two_dead_packs_never_share_a_spare(show):
    first, second = pair_spares(show, (show.channels["25"], show.channels["27"]))
    assert first.spare.pack == "S3" and second.spare is None
    (sheet,) = make_sheets(show, plan_tonight(show, ()), (first, second))
    assert "No spare reaches channel 27. Decide now whose channel you give up." in list(texts_of(sheet))


def test_only_labels_that_tonight_makes_wrong_are_printed(show):
    tonight = plan_tonight(show, ("Noor Haddad",))
    (sheet,) = make_labels(show, tonight, pair_spares(show, (show.channels["30"],)))
    labels = [(label.number, label.performers, label.pack, label.capsule) for label in sheet.blocks[0].labels]
    assert labels == [
        ("01", ("Aoife Ní Bhriain",), "01", "tone 2"),
        ("05", ("Ravi Menon", "Siân Gwilym"), "05", ""),
        ("22", ("Aoife Ní Bhriain",), "22", "tone 2"),
        ("30", ("Zeynep Çelik",), "H4", "vocal"),
    ]


def test_an_evening_on_which_nothing_differs_has_no_labels(show):
    assert make_labels(show, plan_tonight(show, ()), ()) == ()


def test_what_has_no_cover_is_said_on_page_and_screen(tmp_path, show):
    outcome = run("--off", "Petra Königová", "-o", str(tmp_path))
    assert outcome.code == 1 and "NO COVER: SAILOR (Petra Königová) in 1.1 The quay and 1.6 The landing" in outcome.text
    assert "without a cover tonight" in outcome.text and "clean" not in outcome.text
    (sheet,) = make_sheets(show, plan_tonight(show, ("Petra Königová",)), ())
    texts = list(texts_of(sheet))
    assert texts.index("Nobody covers this") < texts.index("SAILOR")
    assert "Not worn tonight, batteries out: 15" in texts


@pytest.mark.parametrize(
    ("arguments", "told"),
    (
        (("--off", "Nobody"), "there is nobody called Nobody in the show"),
        (("--off", "Nor Haddad"), "did you mean Noor Haddad?"),
        (("--dead", "99"), "no channel has a pack 99"),
        ((), "give what is different tonight"),
        (("--set", "capsule"), "is not a value for tonight"),
    ),
)
def test_a_slip_on_the_command_line_prints_nothing(tmp_path, arguments, told):
    outcome = run(*arguments, "-o", str(tmp_path / "out"))
    assert outcome.code == 2 and told in outcome.aside and not (tmp_path / "out").exists()


def test_one_night_changes_a_capsule_and_not_a_slot(tmp_path):
    assert run("--set", "channels/01/capsule=tone 2", "-o", str(tmp_path / "a")).code == 0
    refused = run("--set", "channels/01/slot=R1.2", "-o", str(tmp_path / "b"))
    assert refused.code == 1 and "overlay-field-barred" in refused.aside and not (tmp_path / "b").exists()


def test_a_frequency_that_is_not_certain_is_a_blank_and_has_no_label(show):
    doubted = replace(show, channels={**show.channels, "05": replace(show.channels["05"], hz=None)})
    dead = pair_spares(doubted, (doubted.channels["05"],))
    (sheet,) = make_sheets(doubted, plan_tonight(doubted, ()), dead)
    assert any("ITS FREQUENCY IS NOT CERTAIN" in one for one in texts_of(sheet))
    assert make_labels(doubted, plan_tonight(doubted, ()), dead) == ()


def test_a_small_show_without_scenes_says_who_is_missing(tmp_path):
    path = tmp_path / "small.yaml"
    path.write_text(
        "channels:\n  1: {by: Imke Vos, mhz: 486.200}\n  2: {role: TOM, by: Ben Arlo, mhz: 488.200}\n", encoding="utf-8"
    )
    outcome = run("--off", "Imke", "--off", "Ben", "-o", str(tmp_path / "out"), show=path)
    assert outcome.code == 1
    assert "NO COVER: Imke Vos (Imke Vos) in the whole show" in outcome.text
    assert "NO COVER: TOM (Ben Arlo) in the whole show" in outcome.text


def test_who_is_in_no_scene_can_be_off_too(tmp_path):
    outcome = run("--off", "Jonah", "-o", str(tmp_path))
    assert outcome.code == 1 and "NO COVER: BANDLEADER (Jonah Teale) in the whole show" in outcome.text


def test_the_in_ears_go_to_who_steps_in(show):
    texts = " ".join(texts_of(make_sheets(show, plan_tonight(show, ("Noor Haddad", "Łukasz Żółcik")), ())[0]))
    assert "In-ears EARS 2: Aoife Ní Bhriain for Noor Haddad" in texts
    assert "In-ears EARS 3: Ewan Rourke for Łukasz Żółcik" in texts


def test_a_new_swap_that_is_too_fast_says_so(tmp_path):
    path = tmp_path / "fast.yaml"
    path.write_text(
        """
channels:
  01: {role: VERA, by: Mara, mhz: 486.200}
  02: {role: NURSE, by: Ana, mhz: 488.200}
scenes:
  s1: {live: VERA}
  s2: {live: NURSE}
moves:
  m1: {role: VERA, scene: s1, exit: SL, to: "0:04:00"}
  m2: {role: NURSE, scene: s2, enter: SL, from: "0:04:40"}
covers: {c1: {role: VERA, by: Ana}}
""",
        encoding="utf-8",
    )
    show = read_show(path, "fast.yaml").show
    texts = list(texts_of(make_sheets(show, plan_tonight(show, ("Mara",)), ())[0]))
    assert "40 s: TOO SHORT, 90 s needed" in texts


def lay_evening(show, off, dead):
    tonight = plan_tonight(show, off)
    (sheet,) = make_sheets(show, tonight, pair_spares(show, [show.channels[id] for id in dead]))
    return sheet, lay_out(sheet, load_metrics())


@pytest.mark.parametrize(
    "off", [("Noor Haddad", "Łukasz Żółcik"), ("Noor Haddad", "Ștefan Ionescu"), ("Łukasz Żółcik", "Aoife Ní Bhriain")]
)
def test_two_leads_off_and_a_dead_pack_stand_on_one_page(show, off):
    _, layout = lay_evening(show, off, ("04",))
    assert len(layout.pages) == 1 and layout.findings == ()


def test_what_is_too_much_for_a_page_is_parted_between_two_of_its_parts(show):
    off = ("Noor Haddad", "Łukasz Żółcik", "Ștefan Ionescu")
    _, layout = lay_evening(show, off, ("04", "18", "20"))
    told = [" ".join(box.text for box in page.boxes if isinstance(box, TextBox)) for page in layout.pages]
    assert len(told) == 2 and "Nobody covers this" in told[0] and "New swaps" not in told[0]
    assert sum("Who is on" in one for one in told) == 1
    assert "New swaps tonight" in told[1] and "continued" not in told[1]


def test_a_swap_that_falls_away_is_named_with_scene_channel_and_bodies(show):
    sheet, _ = lay_evening(show, ("Ravi Menon",), ())
    (told,) = [block.text for block in sheet.blocks if isinstance(block, Note) and "Dropped tonight" in block.text]
    assert told == "Dropped tonight: swap 4 in 2.3, 05: Ravi Menon → Aoife Ní Bhriain"


def test_many_off_are_all_named(show):
    off = tuple(dict.fromkeys(role.by for role in show.roles.values() if role.by))
    _, layout = lay_evening(show, off, ())
    told = " ".join(box.text for page in layout.pages for box in page.boxes if isinstance(box, TextBox))
    assert layout.findings == () and all(name.split()[-1] in told for name in off)


def page_of(folder: Path) -> str:
    """The page as a reader that is not ours finds it."""
    return " ".join(" ".join(read_pages((folder / "rack" / "tonight.pdf").read_bytes())).split())


def labels_of(folder: Path) -> str:
    return " ".join(read_pages((folder / "wardrobe" / "tonight-labels.pdf").read_bytes()))


def test_what_is_set_for_tonight_is_on_the_page_with_who_acts_and_its_labels_are_printed(tmp_path):
    outcome = run("--set", "channels/01/capsule=tone 8", "--set", "channels/04/pack=S2", "-o", str(tmp_path))
    page = page_of(tmp_path)
    assert re.search(
        r"channel 01 ELSPETH capsule Noor Haddad tone 5 tone 8 Let wardrobe and the wearer know 1\.1, 1\.2, 1\.3", page
    )
    assert re.search(r"channel 04 KEEPER pack Owen Pryce 04 S2 Set these packs", page)
    assert "tone 8" in labels_of(tmp_path) and "S2" in labels_of(tmp_path)
    assert "tonight: channel 01  ELSPETH, capsule: tone 5 -> tone 8" in outcome.text
    assert "labels to print: 01, 04" in outcome.text


def test_set_off_and_dead_are_all_on_the_one_page(tmp_path):
    outcome = run("--off", "Noor", "--dead", "05", "--set", "channels/01/capsule=tone 8", "-o", str(tmp_path))
    page = page_of(tmp_path)
    assert (
        "Off: Noor Haddad" in page
        and "Take spare pack S1" in page
        and "channel 01 ELSPETH capsule Aoife Ní Bhriain tone 5 tone 8" in page
    )
    assert "01 and 22 05B tone 8 22: tone 2" in page, "what is set for one pack goes before the row of a cover"
    assert "tone 8" in labels_of(tmp_path) and "tone 2" in labels_of(tmp_path)
    assert "labels to print: 01, 05, 22" in outcome.text


def test_a_set_that_changes_nothing_says_so(tmp_path):
    same = run("--set", "channels/02/capsule=tone 2", "-o", str(tmp_path))
    assert "--set channels/02/capsule=tone 2: changes nothing" in same.text and "labels to print: none" in same.text
    assert "Everything set for tonight is as planned." in page_of(tmp_path)
    both = run("--set", "channels/02/capsule=tone 2", "--set", "channels/01/capsule=tone 8", "-o", str(tmp_path))
    assert (
        "channels/02/capsule=tone 2: changes nothing" in both.text and "channels/01/capsule=tone 8: ch" not in both.text
    )


def test_a_frequency_for_tonight_is_checked_and_what_is_new_by_it_is_said(tmp_path):
    clean = run("--set", "channels/06/mhz=490.425", "-o", str(tmp_path / "a"))
    assert clean.code == 0 and "new tonight" not in clean.text and "490.425" in labels_of(tmp_path / "a")
    clash = run("--set", "channels/06/mhz=477.825", "-o", str(tmp_path / "b"))
    said = "channel 06 and channel 07 are both on 477.825 MHz"
    assert clash.code == 1 and f"new tonight: error: {said} [carrier-doubled]" in clash.text
    assert f"New tonight: {said}" in page_of(tmp_path / "b") and "06, 07: two on one frequency" in page_of(
        tmp_path / "b"
    )
    assert "labels to print: none" in clash.text, "a doubted frequency is on no label"


def test_what_was_found_in_the_show_before_is_not_new_tonight(tmp_path):
    path = tmp_path / "show.yaml"
    text = (
        "channels:\n  1: {role: TOM, by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n  3: {by: Cy, mhz: 490.200}\n"
    )
    path.write_text(text, encoding="utf-8")
    outcome = run("--set", "channels/3/capsule=beige", "-o", str(tmp_path / "out"), show=path)
    assert "carrier-doubled" in outcome.aside and "new tonight" not in outcome.text


def test_somebody_whom_a_set_puts_out_can_be_off_all_the_same(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text("channels:\n  1: {role: TOM, by: Ann, mhz: 486.200}\n", encoding="utf-8")
    outcome = run("--off", "Ann", "--set", "channels/1/by=Ben", "-o", str(tmp_path / "out"), show=path)
    assert outcome.code == 0, outcome.aside
    assert "Ann -> Ben" in outcome.text and "Off: Ann" in page_of(tmp_path / "out")


def test_labels_for_tonight_go_where_the_options_of_build_put_them(tmp_path):
    run("--off", "Noor", "--stock", "tape-12", "-o", str(tmp_path / "tape"))
    assert len(read_pages((tmp_path / "tape" / "wardrobe" / "tonight-labels.pdf").read_bytes())) > 1
    refused = run("--off", "Noor", "--stock", "no-such", "-o", str(tmp_path / "b"))
    assert refused.code == 2 and "stock-unknown" in refused.aside and not (tmp_path / "b").exists()


def test_build_and_tonight_have_the_same_options_of_labels():
    from paperwork.commands.build import command as build

    def of(one) -> dict[str, str]:
        return {name: option.help for option in one.params for name in option.opts if name in LABEL_OPTIONS}

    assert of(build) == of(command) and set(of(build)) == LABEL_OPTIONS


LABEL_OPTIONS = {"--stock", "--start", "--blocked", "--printer", "--printers", "--dpi", "--proof"}


def test_the_page_is_for_a_day_and_a_show_of_it_or_has_lines_to_write_on(tmp_path):
    path = tmp_path / "two.yaml"
    day = 'day: {power-up: "12:00", curtain: ["14:30", "19:30"]}\n'
    path.write_text(day + "channels:\n  1: {role: TOM, by: Ann, mhz: 486.200}\n", encoding="utf-8")
    for arguments, said in (
        (("--date", "2027-03-06", "--show", "2"), "For 6 March 2027 · Show 2, curtain 19:30"),
        (("--date", ""), "Date: ______________ · Show: ______"),
        (("--show", "1"), "Date: ______________ · Show 1, curtain 14:30"),
    ):
        run("--off", "Ann", *arguments, "-o", str(tmp_path / "out"), show=path)
        assert said in page_of(tmp_path / "out")
    refused = run("--off", "Ann", "--show", "3", "-o", str(tmp_path / "none"), show=path)
    assert refused.code == 2 and "the section day has 2 shows" in refused.aside and not (tmp_path / "none").exists()


def test_the_date_of_today_comes_from_the_command_line_alone(tmp_path):
    given = {"today": "2027-03-05", "made": ""}
    CliRunner().invoke(command, [str(SHOW), "--off", "Noor", "-o", str(tmp_path)], standalone_mode=False, obj=given)
    assert "For 5 March 2027" in page_of(tmp_path)
    run("--off", "Noor", "-o", str(tmp_path))
    assert "Date: ____" in page_of(tmp_path) and "2027 ·" not in page_of(tmp_path)


def test_a_date_that_is_none_is_refused(tmp_path):
    with pytest.raises(click.BadParameter, match="not a date"):
        CliRunner().invoke(
            command,
            [str(SHOW), "--off", "Noor", "--date", "06.03."],
            standalone_mode=False,
            obj={},
            catch_exceptions=False,
        )


def test_a_dead_pack_says_on_the_screen_what_it_says_on_paper(tmp_path):
    outcome = run("--dead", "05", "--dead", "25", "--dead", "27", "-o", str(tmp_path))
    page = page_of(tmp_path)
    for line in (
        "Take spare pack S1. Set it to 474.750 MHz, 10 mW, gain 30 dB, keys locked. Check it on its display.",
        "No spare reaches channel 27. Decide now whose channel you give up.",
        "S3 is in use or dead itself",
        "S2 is a spare for 13–23 only",
    ):
        assert line in outcome.text and line in page, line


REACH = """
radios: {low: {kind: pack, tunes: 470-510}, high: {kind: pack, tunes: 560-600}, hand: {kind: handheld, tunes: 470-600}}
racks: {R1: {channels: 1, window: %s}}
channels:
  1: {role: TOM, by: Ann, radio: low, mhz: 486.200}
  2: {role: CAT, by: Bo, radio: low, mhz: 488.700}
  3: {spare: high, mhz: 566.200, pack: S1}
  4: {spare: hand, mhz: 570.200, pack: H1}
"""


@pytest.mark.parametrize(
    ("window", "reason"),
    [
        ("470-494", "S1 only tunes to 560–600 MHz; H1 is another kind of transmitter."),
        ("560-584", "the window of rack R1 only passes 560–584 MHz."),
    ],
)
def test_why_no_spare_reaches_is_said(tmp_path, window, reason):
    path = tmp_path / "show.yaml"
    path.write_text(REACH.replace("%s", window), encoding="utf-8")
    outcome = run("--dead", "1", "-o", str(tmp_path / "out"), show=path)
    assert f"Why: {reason}" in outcome.text and f"Why: {reason}" in page_of(tmp_path / "out")


def test_the_heads_of_tonight_are_whole_with_every_role_of_a_channel(tmp_path):
    """A head that has no room on one line takes more of them, and nothing is left out."""
    bad = [part for channel in ("05", "11", "18") for part in ("--bad", channel)]
    outcome = run(*bad, "--dead", "07", "-o", str(tmp_path))
    assert "text-abbreviated" not in outcome.aside
    said = " ".join(read_pages((tmp_path / "rack" / "tonight.pdf").read_bytes())).split()
    assert " ".join(said).count("SMUGGLER / WIDOW") == 1 and "LAMPLIGHTER" in said
