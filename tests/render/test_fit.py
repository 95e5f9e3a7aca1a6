"""A text in its width: shrunk, broken, abbreviated, or an error."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from paperwork.document.styles import HAND, NOTE, RACK_FREQUENCY, RACK_ROLE, RACK_SMALL
from paperwork.render.text.fitting import ELLIPSIS, fit
from tests.metrics import load_metrics

METRICS = load_metrics()
WIDTHS = st.integers(min_value=12_000, max_value=120_000)


def width_of(fitted, line):
    """The width of one of its lines."""
    return METRICS.width_um(line, fitted.face, fitted.cap_um)


def test_a_short_text_stands_at_its_wanted_height():
    fitted = fit("VERA", RACK_ROLE, 60_000, METRICS)
    assert (fitted.lines, fitted.cap_um, fitted.outcome) == (("VERA",), RACK_ROLE.wanted_um, "whole")


def test_a_longer_text_is_shrunk_before_it_is_broken():
    room = METRICS.width_um("SAILOR / WIDOW", "text-bold", 5_300)
    fitted = fit("SAILOR / WIDOW", RACK_ROLE, room, METRICS)
    assert fitted.lines == ("SAILOR / WIDOW",) and fitted.cap_um == 5_000


def test_a_text_too_long_at_its_floor_is_broken_after_the_slash():
    room = METRICS.width_um("SAILOR / WIDOW", "text-bold", 4_900)
    fitted = fit("SAILOR / WIDOW", RACK_ROLE, room, METRICS)
    assert fitted.lines == ("SAILOR /", "WIDOW") and fitted.cap_um == RACK_ROLE.floor_um


def test_breaks_come_after_spaces_hyphens_and_slashes_only():
    fitted = fit("Sommer-Feldt/Ried and", RACK_SMALL, 1, METRICS)
    assert fitted.outcome == "abbreviated"
    assert fit("Anna-Maria", RACK_SMALL, 13_000, METRICS).lines == ("Anna-", "Maria")


def test_what_does_not_fit_broken_is_cut_with_an_ellipsis():
    fitted = fit("THE HARBOURMASTER'S DAUGHTER AND HER FATHER'S GHOST", RACK_ROLE, 60_000, METRICS)
    assert fitted.outcome == "abbreviated" and fitted.lines[-1].endswith(ELLIPSIS)


def test_the_figure_of_a_slot_is_kept_when_the_name_before_it_is_cut():
    style = replace(RACK_SMALL, lines=1)
    room = METRICS.width_um("GRAND….12", "text-regular", style.floor_um)
    assert fit("GRANDSTAND.12", style, room, METRICS).lines == ("GRAND….12",)
    assert fit("GRANDSTAND", style, room, METRICS).lines == ("GRANDST…",)


def test_a_figure_before_what_is_left_out_is_no_end():
    style = replace(RACK_SMALL, lines=1)
    room = METRICS.width_um("GRANDSTAND.12", "text-regular", style.floor_um)
    assert fit("GRANDSTAND.12 TO THE TUNNEL", style, room, METRICS).lines[0].startswith("GRANDSTAND.")


def test_a_number_is_never_broken_cut_or_shrunk_below_its_floor():
    fitted = fit("1234 567.890", RACK_FREQUENCY, 20_000, METRICS)
    assert (fitted.lines, fitted.outcome) == (("1234 567.890",), "too wide")


def test_running_text_is_broken_before_it_is_shrunk():
    fitted = fit("word " * 30, NOTE, 60_000, METRICS)
    assert len(fitted.lines) > 3 and fitted.cap_um == NOTE.wanted_um
    assert " ".join(fitted.lines) == ("word " * 30).strip()


@given(st.text(alphabet="ABcd éŁộΩЖ-/ '", max_size=50), WIDTHS)
def test_whole_texts_lose_no_sign_and_every_line_fits(text, width):
    fitted = fit(text, HAND, width, METRICS)
    assert fitted.cap_um >= HAND.floor_um and len(fitted.lines) <= HAND.lines
    for line in fitted.lines:
        assert width_of(fitted, line) <= width
    if fitted.outcome == "whole":
        assert "".join("".join(fitted.lines).split()) == "".join(text.split())
    else:
        assert any(line.endswith(ELLIPSIS) for line in fitted.lines)


@given(st.decimals(min_value=0, max_value=99_999, places=4), WIDTHS)
def test_numbers_are_whole_or_too_wide(number, width):
    fitted = fit(str(number), RACK_FREQUENCY, width, METRICS)
    fits = METRICS.width_um(str(number), "figures-semibold", RACK_FREQUENCY.floor_um) <= width
    assert fitted.lines == (str(number),)
    assert (fitted.outcome == "whole") == fits
