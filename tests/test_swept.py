"""What sweeps show of television and of carriers: a synthesised spectrum, integrated a second time, in every width of bin.

The signal of digital television in a channel of 8 MHz is 7.61 MHz wide (EN 300 744, table 4: 2K and 8K modes) and flat.
"""

from math import log10

import numpy as np
import pytest

from paperwork.coordinate.air import gather_air
from paperwork.coordinate.swept import make_swept
from paperwork.files.sweep import parse_sweep
from paperwork.radio.bands import RasterRun, list_tv_channels
from tests.shows_text import reading_of, told

MHZ = 1_000_000
FINE_HZ = 500
LOW, HIGH = 478 * MHZ, 502 * MHZ
SIGNAL_HZ = 7_610_000
RASTER = list_tv_channels([RasterRun(21, 25, 470 * MHZ, 8 * MHZ)])
WIDTHS_HZ = (1_000, 3_000, 10_000, 30_000, 100_000)
NOISE = -154.0
"""dBm in a hertz: 20 dB over the thermal noise of -174."""


def spectrum(channel_dbm, noise_dbm, middle=490 * MHZ):
    """Density in mW per Hz, every 500 Hz: television in channel 23, and noise, which ripples by a hundredth of a dB or two."""
    hz = np.arange(LOW, HIGH, FINE_HZ) + FINE_HZ / 2
    density = np.full(hz.size, 0.0 if noise_dbm is None else 10 ** (noise_dbm / 10)) * (1 + 0.005 * np.cos(hz / 1e6))
    if channel_dbm is not None:
        density[np.abs(hz - middle) < SIGNAL_HZ / 2] += 10 ** (channel_dbm / 10) / SIGNAL_HZ
    return density


def measure(density, width_hz):
    """A sweep file of rows: lower edge, upper edge, level."""
    lines = ["start Hz,stop Hz,level dBm"]
    for low in range(LOW, HIGH, width_hz):
        high = min(low + width_hz, HIGH)
        power = density[(low - LOW) // FINE_HZ : (high - LOW) // FINE_HZ].sum() * FINE_HZ
        lines.append(f"{low},{high},{10 * log10(power) if power else -199:.2f}")
    return "\n".join(lines)


def swept(density, width_hz, limit=None):
    levels, findings = parse_sweep(measure(density, width_hz), "s.csv")
    assert findings == ()
    return make_swept((levels,), limit)


def integrate(density, low, high):
    return 10 * log10(density[(low - LOW) // FINE_HZ : (high - LOW) // FINE_HZ].sum() * FINE_HZ)


def add_noise(level_dbm, noise_dbm, width_hz):
    noise = 0 if noise_dbm is None else 10 ** (noise_dbm / 10) * width_hz
    return 10 * log10(10 ** (level_dbm / 10) + noise)


@pytest.mark.parametrize("noise", (None, NOISE))
@pytest.mark.parametrize("width_hz", WIDTHS_HZ)
@pytest.mark.parametrize("channel_dbm", (-60, -70, -80))
def test_television_has_one_power_and_one_verdict_in_every_width_of_bin(channel_dbm, width_hz, noise):
    density = spectrum(channel_dbm, noise)
    sweep = swept(density, width_hz)
    ((channel, level),) = sweep.find_television(RASTER)
    assert channel.name == "23" and abs(level / 100 - add_noise(channel_dbm, noise, 8 * MHZ)) < 0.5
    heard = sweep.hear(489_900_000, 490_100_000)
    closed = add_noise(channel_dbm + 10 * log10(200_000 / SIGNAL_HZ), noise, 200_000)
    assert abs(heard.level_cdbm / 100 - closed) < 0.5
    assert heard.is_loud == (channel_dbm > -69)  # -85 dBm in 200 kHz is -69.2 dBm in 7.61 MHz
    loud = sweep.list_loud((200_000,))
    assert any(low < 490 * MHZ < high for low, high in loud) == heard.is_loud
    assert all(low >= 485_900_000 and high <= 494_100_000 for low, high in loud)


@pytest.mark.parametrize("width_hz", WIDTHS_HZ)
def test_power_is_that_of_a_second_integration_wherever_a_carrier_is(width_hz):
    density = spectrum(-62, NOISE)
    sweep = swept(density, width_hz)
    for hz in (481_000_000, 486_500_000, 489_123_000, 493_600_000, 500_000_000):
        for bandwidth in (100_000, 200_000, 600_000):
            low, high = hz - bandwidth // 2, hz + bandwidth // 2
            assert abs(sweep.held.level(low, high) / 100 - integrate(density, low, high)) < 0.1
    for channel in RASTER[1:4]:
        level = sweep.held.level(channel.low_hz, channel.high_hz)
        assert abs(level / 100 - integrate(density, channel.low_hz, channel.high_hz)) < 0.1


@pytest.mark.parametrize("width_hz", WIDTHS_HZ)
def test_the_noise_floor_is_the_noise_in_every_width_of_bin(width_hz):
    sweep = swept(spectrum(-50, NOISE), width_hz)
    assert abs(sweep.hear(480_900_000, 481_100_000).floor_cdbm / 100 - (NOISE + 10 * log10(200_000))) < 0.1
    relative = swept(spectrum(-50, NOISE), width_hz, 1_000)
    heard = relative.hear(480_900_000, 481_100_000)
    assert heard.limit_cdbm == pytest.approx(heard.floor_cdbm + 1_000, abs=1) and not heard.is_loud


@pytest.mark.parametrize("above", (9.8, 10.2))
def test_a_limit_above_the_noise_floor_counts_from_the_noise_of_the_sweep(above):
    """A sweep whose noise is 15 dB higher has the same verdict: each is held against its own."""
    for noise in (NOISE, NOISE + 15):
        density = spectrum(None, noise)
        at = (490 * MHZ - LOW) // FINE_HZ
        density[at : at + 400] *= 10 ** (above / 10)
        heard = swept(density, 10_000, 1_000).hear(490 * MHZ, 490_200_000)
        assert heard.is_loud == (above > 10)


def test_noise_and_a_row_of_radio_microphones_are_not_television():
    assert swept(spectrum(None, -140.0), 10_000).find_television(RASTER) == ()
    density = spectrum(None, NOISE)
    for number in range(16):  # 16 carriers of 200 kHz, every 500 kHz
        at = (486 * MHZ + 500_000 * number + 150_000 - LOW) // FINE_HZ
        density[at : at + 400] += 10 ** (-50 / 10) / 200_000
    assert swept(density, 10_000).find_television(RASTER) == ()


BELT = "radios: {belt: {tunes: 470-510, step: 25 kHz, bandwidth: 200 kHz}}\n"


def findings_of(tmp_path, spectrum_fields, channels, **files):
    for name, text in files.items():
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    text = f"spectrum: {{sweeps: [{', '.join(f'{name}.csv' for name in files)}], {spectrum_fields}}}\n{BELT}channels:\n"
    return reading_of(text + channels, tmp_path).findings


ANN = "  1: {mhz: 490.000, by: Ann, radio: belt}\n"


def test_weak_television_is_no_place_for_a_carrier_though_little_of_it_is_in_its_bandwidth(tmp_path):
    found = findings_of(
        tmp_path, "own transmitters: off, region: Europe, tv: 25", ANN, a=measure(spectrum(-71, NOISE), 10_000)
    )
    by_code = {finding.code: finding for finding in found}
    assert set(by_code) == {"tv-unlisted", "sweep-tv"}
    assert "23 (486 to 494 MHz) with -70.8 dBm" in by_code["tv-unlisted"].text
    assert [str(edit) for edit in by_code["tv-unlisted"].edits] == ["spectrum/tv=25, 23"]
    assert "; 485.900 MHz is clean" in by_code["sweep-tv"].fix or "; 494.100 MHz is clean" in by_code["sweep-tv"].fix


@pytest.mark.parametrize("listed", ("tv: 23", "weak tv: 23", "keep clear: 486-494"))
def test_television_that_is_listed_is_not_offered(tmp_path, listed):
    density = measure(spectrum(-71, NOISE), 10_000)
    found = findings_of(
        tmp_path, f"own transmitters: off, region: Europe, {listed}", ANN.replace("490.0", "480.0"), a=density
    )
    assert told(found) == []


def test_of_several_sweeps_it_is_said_in_how_many_a_carrier_is_too_loud(tmp_path):
    density = spectrum(None, NOISE)
    quiet = measure(density, 100_000)
    at = (490 * MHZ - LOW) // FINE_HZ
    density[at - 100 : at + 100] += 10 ** (-60 / 10) / 100_000
    loud = measure(density, 100_000)
    high = "500.0,500.1,-100\n500.1,500.2,-100.1\n"
    (finding,) = findings_of(tmp_path, "own transmitters: off", ANN, a=quiet, b=loud, c=loud, d=quiet, e=high)
    assert finding.code == "sweep-loud"
    assert "-60.0 dBm in the 200 kHz of channel 1 on 490.000 MHz in 2 of 4 sweeps" in finding.text
    assert "the limit is -85.0 dBm, the noise floor -101.0 dBm" in finding.text


def test_a_sweep_that_is_all_noise_over_the_limit_is_one_finding_for_all_its_carriers(tmp_path):
    many = "".join(f"  {n}: {{mhz: {480 + n}.000, by: P{n}, radio: belt}}\n" for n in (1, 3, 8))
    noisy = measure(spectrum(None, -130.0), 100_000)
    (finding,) = findings_of(tmp_path, "own transmitters: off", many, a=noisy)
    assert finding.code == "sweep-noisy" and {subject.id for subject in finding.subjects} == {"1", "3", "8"}
    assert "a.csv is -77.0 dBm in 200 kHz" in finding.text
    assert [str(edit) for edit in finding.edits] == ["spectrum/sweep limit=10 dB"]
    assert told(findings_of(tmp_path, "own transmitters: off, sweep limit: 10 dB", many, a=noisy)) == []


def test_bins_wider_than_a_carrier_are_told_once(tmp_path):
    wide = measure(spectrum(None, NOISE), 500_000)
    (finding,) = findings_of(tmp_path, "own transmitters: off", ANN, a=wide, b=wide)
    assert finding.code == "sweep-coarse" and "a.csv and b.csv are up to 500 kHz wide" in finding.text


@pytest.mark.parametrize("unit", ("dBuV", "dBmV", "dBW"))
def test_a_unit_that_the_show_states_is_that_of_files_that_state_none(tmp_path, unit):
    offset = {"dBuV": 106.99, "dBmV": 46.99, "dBW": -30}[unit]
    rows = [(470 + n / 10, -98 + n % 3 - 40 * (n == 200) + 80 * (n == 200)) for n in range(400)]
    plain = "".join(f"{mhz:.1f},{level + offset:.2f}\n" for mhz, level in rows)
    (finding,) = findings_of(tmp_path, f"own transmitters: off, sweep unit: {unit}", ANN, a=plain)
    assert finding.code == "sweep-loud" and "-56.0 dBm" in finding.text


def test_a_sweep_whose_unit_is_not_known_leaves_every_frequency_in_doubt(tmp_path):
    volts = "".join(f"{470 + n / 10:.1f},{9 + n % 5}\n" for n in range(400))
    (finding,) = findings_of(tmp_path, "own transmitters: off", ANN, a=volts)
    assert (finding.code, finding.severity) == ("sweep-unit", "error")
    assert [subject.id for subject in finding.subjects] == ["1"] and "air" in finding.row.topics


def test_a_carrier_of_a_width_of_its_own_is_judged_by_its_own_width(tmp_path):
    """What is 1 dB under the limit in 200 kHz is over it in 400 kHz, and the narrow one has all the more room."""
    density = measure(spectrum(None, -139.0), 100_000)  # -86 dBm in 200 kHz
    text = (
        "spectrum: {sweeps: a.csv, own transmitters: off}\nradios: {a: {bandwidth: 200 kHz}, b: {bandwidth: 400 kHz}}\n"
        "channels:\n  1: {mhz: 480.000, by: Ann, radio: a}\n  2: {mhz: 490.000, by: Bo, radio: b}\n"
    )
    (tmp_path / "a.csv").write_text(density, encoding="utf-8")
    show = reading_of(text, tmp_path).show
    air = gather_air(show, (), (200_000, 400_000))
    assert {tuple(block.bandwidths_hz) for block in air.blocks} == {(400_000,)} and air.blocks_for_narrowest == ()
