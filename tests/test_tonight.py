"""`paperwork tonight`: from a message to one page and the labels that it makes wrong."""

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from paperwork.commands.tonight import command
from paperwork.document import Note
from paperwork.plan.covers import plan_tonight
from paperwork.reading import read_show
from paperwork.render.boxes import Text
from paperwork.render.fonts import load_metrics
from paperwork.render.layout import lay_out
from paperwork.sheetfacts import texts_of
from paperwork.sheets.tonight import make_labels, make_sheets, pair_spares
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
    assert "No spare reaches channel 27. Decide now whose channel is given up." in list(texts_of(sheet))


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
    assert "Not worn tonight, cells out: 15" in texts


@pytest.mark.parametrize(
    ("arguments", "told"),
    (
        (("--off", "Nobody"), "there is nobody called Nobody in the show"),
        (("--off", "Nor Haddad"), "did you mean Noor Haddad?"),
        (("--dead", "99"), "no channel has a pack 99"),
        ((), "say what is different tonight"),
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
    assert "In-ears EARS 3: Hugo Brandt for Łukasz Żółcik" in texts


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
    assert "40 s: TOO SHORT, 90 s wanted" in texts


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


def test_what_is_too_much_for_a_page_is_parted_at_the_swaps(show):
    off = ("Noor Haddad", "Łukasz Żółcik", "Ștefan Ionescu")
    _, layout = lay_evening(show, off, ("04", "18"))
    told = [" ".join(box.text for box in page.boxes if isinstance(box, Text)) for page in layout.pages]
    assert len(told) == 2 and "Who is on" in told[0] and "Swaps that are new" not in told[0]
    assert "Swaps that are new tonight" in told[1] and "continued" not in told[1]


def test_a_swap_that_falls_away_is_named_with_scene_channel_and_bodies(show):
    sheet, _ = lay_evening(show, ("Ravi Menon",), ())
    (told,) = [block.text for block in sheet.blocks if isinstance(block, Note) and "Falls away" in block.text]
    assert told == "Falls away: swap 4 in 2.3, 05: Ravi Menon → Aoife Ní Bhriain"


def test_many_off_are_all_named(show):
    off = tuple(dict.fromkeys(role.by for role in show.roles.values() if role.by))
    _, layout = lay_evening(show, off, ())
    told = " ".join(box.text for page in layout.pages for box in page.boxes if isinstance(box, Text))
    assert layout.findings == () and all(name.split()[-1] in told for name in off)
