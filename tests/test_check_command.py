"""`paperwork check` in a venue and against the last revision."""

from click.testing import CliRunner

from paperwork.commands.check import command
from tests.shows_text import EXAMPLES

SHOW = EXAMPLES / "show.yaml"


def run(*arguments: object):
    return CliRunner().invoke(command, list(map(str, arguments)), standalone_mode=False).return_value


def test_the_example_is_clean_at_home_and_away():
    assert run(SHOW).code == 0
    assert run(SHOW, "--venue", "pier pavilion").code == 0


def test_an_unknown_venue_is_an_error_with_the_known_ones():
    outcome = run(SHOW, "--venue", "Pier Pavillion")
    assert outcome.code == 1 and "did you mean Pier Pavilion?" in outcome.text


def test_the_last_revision_tells_which_pairs_changed_sides(tmp_path):
    new = tmp_path / "new.yaml"
    new.write_text(
        SHOW.read_text(encoding="utf-8").replace("channels: 01-06", 'channels: "02, 01, 03-06"'), encoding="utf-8"
    )
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    assert run(new).code == 0
    outcome = run(new, "--since", SHOW)
    assert outcome.code == 0 and outcome.text.count("CHANGED SIDES") == 2
    assert run(new, "--since", SHOW, "--strict").code == 1


def test_a_last_revision_that_cannot_be_read_is_said(tmp_path):
    outcome = run(SHOW, "--since", tmp_path / "gone.yaml")
    assert outcome.code == 2 and "the last revision could not be used" in outcome.aside
