"""`paperwork set` and `check --fix`: a new file with the values, what they did, and never a file written over."""

import io

import openpyxl
import pytest
from click.testing import CliRunner

from paperwork.commands import check
from paperwork.commands import set as set_command
from paperwork.editing.edited import open_show
from paperwork.files import read_bytes
from paperwork.finding import Edit
from paperwork.reading import read_show
from tests.files.workbooks import make_book
from tests.shows_text import EXAMPLES

SHOW = """# the gala
show: {title: Gala, venue: Pier}
channels:
  01: {role: VERA, mhz: 486.200}   # the lead
  02: {shared: {TOM: Bo, COOK: Cy}, mhz: 486.200}
transmitters: {01: {serial: A1}, 02: {serial: A2}}
roles: {VERA: {by: Ann}, TOM: {}, COOK: {}, OLD TOM: {unmiked: yes}}
scenes:
  s1: {live: "VERA, TOM and OLD TOM"}
racks: {R1: {channels: "01, 02"}}
venues:
  v1: {venue: Town Hall, section: channels, record: 01, field: mhz, value: 512.300}
"""


@pytest.fixture
def show(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "show.yaml").write_text(SHOW, encoding="utf-8")
    return tmp_path


def run(command, *arguments):
    return CliRunner().invoke(command, arguments, standalone_mode=False).return_value


def set_values(*edits, new="new.yaml", more=()):
    return run(set_command.command, "show.yaml", *edits, "-o", new, *more)


def test_a_value_is_set_and_what_was_and_is_said_with_the_findings_that_went(show):
    outcome = set_values("channels/2/mhz=487.075")
    assert (show / "new.yaml").read_text("utf-8") == SHOW.replace("Cy}, mhz: 486.200", "Cy}, mhz: 487.075")
    assert outcome.code == 0 and outcome.text.splitlines()[0] == "channels 02 mhz: was 486.200, is 487.075"
    assert "gone: new.yaml" not in outcome.text and "gone: show.yaml:5" in outcome.text and "new: " not in outcome.text
    assert (show / "show.yaml").read_text("utf-8") == SHOW


def test_a_field_of_no_known_name_is_deleted_as_the_file_spells_it(show):
    path = show / "show.yaml"
    path.write_text(SHOW.replace("venue: Pier", "venue: Pier, Crew: 9").replace("serial: A1", "serial: A1, Rent: 5"))
    outcome = set_values("show/crew=", "transmitters/01/rent=")
    assert outcome.text.startswith("show Crew: was 9, is gone\ntransmitters 01 Rent: was 5, is gone\n")
    assert (show / "new.yaml").read_text("utf-8") == SHOW


def test_the_exit_code_is_that_of_the_check_of_the_result(show):
    outcome = set_values("channels/01/notes=tape")
    assert outcome.code == 1 and outcome.text.endswith("new.yaml written; 1 error, 1 warning\n")


def test_a_role_that_gets_another_name_is_followed_everywhere(show):
    set_values("roles/TOM/=TIM", "channels/02/mhz=487.075")
    text = (show / "new.yaml").read_text("utf-8")
    assert 'live: "VERA, TIM and OLD TOM"' in text and "shared: {TIM: Bo, COOK: Cy}" in text and "OLD TOM: {" in text
    before, after = (read_show(show / name, name).show for name in ("show.yaml", "new.yaml"))
    assert [role.replace("TOM", "TIM") for role in before.channels["02"].roles] == [*after.channels["02"].roles]


def test_a_channel_that_gets_another_id_keeps_its_pack_its_slot_and_its_row_of_a_venue(show):
    set_values("channels/01/=1A", "channels/02/mhz=487.075")
    made = read_show(show / "new.yaml", "new.yaml", venue="Town Hall")
    assert made.show.channels["1A"].pack == "01" and made.show.channels["1A"].hz == 512_300_000
    assert made.show.channels["1A"].slot.rack == "R1" and {one.code for one in made.findings} <= {"role-in-no-scene"}


@pytest.mark.parametrize(
    "edit, words",
    (
        ("chanels/01/mhz=1", "there is no section chanels; did you mean channels?"),
        ("roles/VERRA/by=A", "roles has no VERRA; did you mean VERA?"),
        ("channels/01/mzh=1", "channels has no field mzh; did you mean mhz?"),
        ("channels/mhz=1", "channels has records: write channels/record/mhz=1"),
        ("show/titel=1", "show has no field titel; did you mean title?"),
        ("mhz", "mhz is not an edit, as channels/08/mhz=516.750"),
        ("channels/01/capsule=", "channels 01 capsule has no value that could be removed"),
        ("channels/01/=02", "02 is there already, beside 01"),
    ),
)
def test_what_is_nowhere_is_refused_with_the_nearest_name_and_nothing_is_written(show, edit, words):
    outcome = set_values(edit)
    assert outcome.code == 2 and words in outcome.aside and not (show / "new.yaml").exists()


def test_no_file_is_written_over_and_a_list_is_sent_to_convert(show):
    (show / "new.yaml").write_text("kept", encoding="utf-8")
    assert set_values("channels/02/mhz=487.075").code == 2 and (show / "new.yaml").read_text("utf-8") == "kept"
    (show / "list.csv").write_text("Ch,Actor,Freq\n1,Ann Lee,518.2\n2,Bo Ray,519.4\n", encoding="utf-8")
    outcome = run(set_command.command, "list.csv", "channels/1/mhz=520.1", "-o", "new.csv")
    assert outcome.code == 2 and "`paperwork convert`" in outcome.aside and not (show / "new.csv").exists()


def test_a_venue_gets_a_row_of_its_own_and_one_that_it_has_is_changed(show):
    outcome = set_values("channels/01/mhz=513.400", "channels/02/mhz=514.500", more=("--venue", "town hall"))
    raw, _ = read_bytes((show / "new.yaml").read_bytes(), "new.yaml")
    rows = {key.text: [value.text for _, value in row.items] for key, row in raw.get("venues").items}
    assert rows["v1"][-1] == "513.400" and rows["v2"] == ["Town Hall", "channels", "02", "mhz", "514.500"]
    assert outcome.code == 0
    for edits, words in (
        (["channels/01/role=X"], "is the same in every house"),
        (["roles/TOM/by=X"], "roles TOM by is"),
    ):
        assert words in set_values(*edits, new="other.yaml", more=("--venue", "Town Hall")).aside
    assert (
        "did you mean Town Hall?" in set_values("channels/01/mhz=1", new="o.yaml", more=("--venue", "Toun Hall")).aside
    )


def test_a_workbook_is_edited_at_its_cell(show):
    (show / "show.xlsx").write_bytes(make_book())
    raw, _ = read_bytes(make_book(), "show.xlsx")
    channel = raw.get("channels").items[0][0].text
    run(set_command.command, "show.xlsx", f"channels/{channel}/notes=tape", "-o", "new.xlsx")
    made, _ = read_bytes((show / "new.xlsx").read_bytes(), "new.xlsx")
    assert made.get("channels").get(channel).get("notes").text == "tape"


def test_fix_makes_what_needs_no_decision_and_lists_what_is_left(show):
    text = SHOW.replace("venue: Pier", "venu: Pier").replace("live:", "liev:")
    (show / "show.yaml").write_text(text, encoding="utf-8")
    outcome = run(check.command, "show.yaml", "--fix", "-o", "new.yaml")
    assert outcome.code == 0 and "show venu: is called venue" in outcome.aside and "new.yaml written" in outcome.aside
    assert not [one for one in read_show(show / "new.yaml", "new.yaml").findings if one.severity == "error"]
    assert (show / "show.yaml").read_text("utf-8") == text
    again = run(check.command, "new.yaml", "--fix", "-o", "again.yaml")
    assert "there is nothing to fix without a decision" in again.aside and not (show / "again.yaml").exists()
    assert run(check.command, "show.yaml", "--fix").code == 2 and run(check.command, "show.yaml", "-o", "x").code == 2


def test_a_name_is_followed_within_a_list_and_a_group_and_their_comments_stay(show):
    text = SHOW.replace("{TOM: Bo, COOK: Cy}", "{TOM: Bo, # tall\n    COOK: Cy}").replace(
        '"VERA, TOM and OLD TOM"}', "[VERA, # lead\n    TOM]}"
    )
    (show / "show.yaml").write_text(text, encoding="utf-8")
    set_values("roles/TOM/=TIM")
    wanted = text.replace("OLD TOM", "?").replace("TOM", "TIM").replace("?", "OLD TOM")
    assert (show / "new.yaml").read_text("utf-8") == wanted


def test_a_name_within_a_range_is_followed_beside_one_that_is_nowhere(show):
    text = SHOW.replace('"01, 02"', '"01-02, 77"')
    (show / "show.yaml").write_text(text, encoding="utf-8")
    outcome = set_values("channels/02/=12")
    assert outcome.code == 1 and "channels: was 01-02, 77, is 01, 12, 77" in outcome.text
    assert '"01, 12, 77"' in (show / "new.yaml").read_text(encoding="utf-8")


def test_a_workbook_keeps_every_other_cell_and_all_formats(show):
    def cells(data: bytes) -> dict:
        book = openpyxl.load_workbook(io.BytesIO(data))
        all_cells = (cell for sheet in book for row in sheet.iter_rows() for cell in row)
        return {
            (cell.parent.title, cell.coordinate): (cell.value, cell.number_format, cell.fill.start_color.rgb)
            for cell in all_cells
        }

    old = (EXAMPLES / "show.xlsx").read_bytes()
    (show / "show.xlsx").write_bytes(old)
    run(set_command.command, "show.xlsx", "channels/04/notes=new pouch", "-o", "new.xlsx")
    before, after = cells(old), cells((show / "new.xlsx").read_bytes())
    changed = [at for at in after if after[at] != before.get(at)]
    assert before.keys() == after.keys() and [at[0] for at in changed] == ["channels"]
    assert after[changed[0]] == ("new pouch", *before[changed[0]][1:])


def test_a_person_who_is_renamed_is_followed_into_shared_packs(tmp_path):
    show = "people:\n  Ann: {room: 1}\n  Bo: {room: 2}\nchannels:\n  1: {shared: {VERA: Ann, TOM: Bo}, mhz: 486.2}\n"
    (tmp_path / "show.yaml").write_text(show, encoding="utf-8")
    made = open_show(tmp_path / "show.yaml", "show.yaml").make([Edit("people", "Ann", "", "Cy")])
    assert made.data.decode() == show.replace("Ann", "Cy")
