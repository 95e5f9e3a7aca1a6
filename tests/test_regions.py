"""The table of regions against published figures: rasters, offsets of real transmitters, land mobile channels."""

import csv
from functools import cache
from pathlib import Path

import pytest
import yaml

from paperwork.build import build_show
from paperwork.checks.air.frequencies import check_frequencies
from paperwork.checks.scope import describe_scope
from paperwork.coordinate import find_region, list_region_names, region_of
from paperwork.radio.region_rows import REGIONS
from paperwork.text.units import MHZ, Doubt, parse_frequency, parse_power
from tests.shows_text import raw_of, reading_of

DATA = Path(__file__).parent / "data"


@cache
def published() -> dict:
    """Compiled figures with their sources: see the head of the file."""
    return yaml.safe_load((DATA / "radio_check_values.yaml").read_text(encoding="utf-8"))["tv_rasters"]


@cache
def multiplexes() -> tuple[dict, ...]:
    with (DATA / "dvbt_multiplexes_by_site.csv").open(encoding="utf-8") as file:
        return tuple(csv.DictReader(file))


@pytest.mark.parametrize(
    ("region", "table"),
    (
        ("United States", "us_6mhz"),
        ("Europe", "europe_uhf_8mhz"),
        ("Europe", "europe_vhf3_7mhz"),
        ("Eastern Europe", "oirt_vhf3_8mhz"),
        ("Japan", "japan_uhf_6mhz"),
        ("Australia", "australia_7mhz"),
        ("China", "china_uhf_8mhz"),
    ),
)
def test_rasters_are_the_published_ones(region, table):
    for row in published()[table]["rows"]:
        channel = find_region(region).find_tv(str(row["channel"]))
        assert (channel.low_hz, channel.high_hz) == (row["low_mhz"] * 1_000_000, row["high_mhz"] * 1_000_000)


@pytest.mark.parametrize(
    ("region", "centre", "channel"),
    (
        ("Europe", "529.833", "28"),
        ("Europe", "530.167", "28"),
        ("Japan", "473.142857", "13"),
        ("Brazil", "473.142857", "14"),
        ("Australia", "177.625", "6"),
        ("Europe", "690", "48"),
        ("Europe", "177.5", "E5"),
    ),
)
def test_a_transmitter_off_the_middle_of_its_channel_is_found(region, centre, channel):
    assert find_region(region).find_tv(centre).name == channel


@pytest.mark.parametrize(
    ("region", "text"),
    (
        ("Europe", "530.250"),
        ("Europe", "20"),
        ("Europe", "9A"),
        ("United States", "38"),
        ("China", "602"),
        ("Brazil", "37"),
        ("Europe", "many"),
        ("Europe", ""),
    ),
)
def test_what_is_no_channel_is_none(region, text):
    assert find_region(region).find_tv(text) is None


def test_real_european_multiplexes_lie_on_the_raster():
    """Every 8 MHz entry of the public scan tables, less those of countries with other rasters, is on its own channel."""
    rows = [row for row in multiplexes() if row["bandwidth_mhz"] == "8"]
    assert len(rows) > 800
    for row in rows:
        channel = find_region("Europe").find_tv_at(parse_frequency(row["centre_mhz"]))
        assert channel is not None and channel.name == row["tv_channel"], row
    assert {row["offset_khz_from_raster"] for row in rows} == {"0", "166", "167", "-167"}


def test_real_australian_multiplexes_lie_on_the_raster():
    """Undated rows above 694 MHz are of the plan before the last one."""
    rows = [row for row in multiplexes() if row["country"] == "au" and float(row["centre_mhz"]) < 694]
    for row in rows:
        channel = find_region("Australia").find_tv_at(parse_frequency(row["centre_mhz"]))
        assert channel is not None and channel.name == row["tv_channel"], row
    assert {row["offset_khz_from_raster"] for row in rows} == {"0", "125"}


def test_one_number_is_another_channel_in_each_region():
    edges = {name: find_region(name).find_tv("21").low_hz // 1_000_000 for name in ("Europe", "US", "Japan", "China")}
    assert edges == {"Europe": 470, "US": 512, "Japan": 518, "China": 534}


def test_land_mobile_channels_are_those_within_130_km_of_the_city():
    """The last but one column of the table was worked out from coordinates; the cities here are those of the rule."""
    region = find_region("United States")
    with (DATA / "uhf_occupancy_by_city.csv").open(encoding="utf-8") as file:
        rows = {row["city"]: row["land_mobile_channels_within_130km"].split() for row in csv.DictReader(file)}
    seen = 0
    for city in region.crowd.cities:
        if city in rows:
            seen += 1
            found = [channel.name for channel in region.crowded_at(f"Hall 7, {city}")]
            assert set(found) <= set(rows[city]) and found, city
    assert seen >= 10
    assert region.crowded_at("New Yorkshire Hall") == () and find_region("Europe").crowded_at("New York") == ()


@pytest.mark.parametrize(
    ("venue", "mhz", "is_said"),
    (
        ("Armory, Brooklyn NY", "485.000", True),
        ("Armory, Brooklyn NY", "520.000", False),
        ("Armory, New York", "520.000", False),
        ("", "485.000", True),
    ),
)
def test_land_mobile_that_the_venue_s_name_leaves_open_is_said_not_to_be_looked_at(venue, mhz, is_said):
    """Brooklyn is in New York: no text says so, so nothing that is not known is taken for clean."""
    text = f'show: {{venue: "{venue}"}}\nspectrum: {{region: US}}\nchannels: {{1: {{mhz: {mhz}, by: Ann}}}}\n'
    said = describe_scope(build_show(raw_of(text)).show)
    assert ("land mobile radio (venue names no city that has it" in said) is is_said
    assert ("if Boston, " in said and "is within 130 km, add its name to venue" in said) is is_said


def test_the_city_that_is_named_is_the_one_that_shares_the_channel():
    text = 'show: {venue: "Boston Rooms, New York"}\nspectrum: {region: US}\nchannels: {1: {mhz: 479.000, by: Ann}}\n'
    (finding,) = check_frequencies(build_show(raw_of(text)).show)
    assert finding.code == "tv-crowded" and "around New York" in finding.text


def test_regions_are_found_by_their_other_names():
    for name, wanted in (("usa", "United States"), ("uk", "United Kingdom"), ("EUROPE ", "Europe")):
        assert find_region(name).name == wanted
    assert find_region("Europa") is None
    assert len(set(list_region_names())) == len(list_region_names()) == 11


def test_everything_in_the_table_has_its_source_and_nothing_runs_backwards():
    for row in REGIONS:
        assert "check" in row["caution"]
        assert all(run["source"] for run in row.get("raster", ()))
        for closed in row.get("closed", ()):
            assert closed["low_hz"] < closed["high_hz"] and closed["source"] and closed["dated"]


def test_the_upper_of_two_channels_has_the_edge_between_them():
    region = find_region("Europe")
    assert [region.tv_under(hz).name for hz in (477_999_999, 478_000_000)] == ["21", "22"]
    assert region.tv_under(300_000_000) is None


@pytest.mark.parametrize(
    ("hz", "closed"),
    (
        (607_900_000, False),
        (610_000_000, True),
        (615_000_000, False),
        (640_000_000, True),
        (655_000_000, False),
        (660_000_000, False),
        (680_000_000, True),
        (750_000_000, True),
        (470_100_000, False),
        (946_000_000, False),
    ),
)
def test_ranges_that_us_rules_close_are_closed_and_no_other(hz, closed):
    """47 CFR 73.603(c) and 15.205 (608-614), 15.236(a) (617-652 and 663-698 after 13 July 2020), FCC page on wireless
    microphones (698-806 since 12 June 2010); open are the TV bands, 614-616, 653-663 and 944-952 MHz."""
    region = find_region("United States")
    assert any(one.low_hz <= hz < one.high_hz for one in region.closed) == closed


@pytest.mark.parametrize(
    ("mhz", "closed"),
    (
        (174, False),
        (215, False),
        (470, False),
        (693, False),
        (733, False),
        (757, False),
        (822, False),
        (831, False),
        (864, False),
        (1390, False),
        (1520, False),
        (1800, False),
        (700, True),
        (800, True),
        (850, True),
    ),
)
def test_what_the_european_table_lists_is_open(mhz, closed):
    """ERC/REC 25-10 annex 4: 174-216, 470-694, 733-757.5, 821.5-832, 863-865, 1350-1400, 1518-1525, 1785-1805 MHz."""
    assert any(one.low_hz <= mhz * MHZ < one.high_hz for one in find_region("Europe").closed) == closed


@pytest.mark.parametrize(
    ("text", "microwatts"),
    (
        ("10 mW", 10_000),
        ("0.25 W", 250_000),
        ("0,25W", 250_000),
        ("17 dBm", 50_119),
        ("50 mW EIRP", 50_000),
        ("30 mW (e.r.p.)", 30_000),
    ),
)
def test_a_power_is_read_in_the_units_that_radios_print(text, microwatts):
    """10 mW are 10 dBm, 1 W is 30 dBm."""
    assert parse_power(text) == microwatts


@pytest.mark.parametrize("text", ("", "high", "10/50 mW", "10", "10 mV", "2 or 10 mW"))
def test_what_is_no_one_power_is_a_doubt(text):
    with pytest.raises(Doubt):
        parse_power(text)


@pytest.mark.parametrize(
    ("region", "licence", "mhz", "power", "most"),
    (
        ("United States", "", "480.000", "100 mW", "50 mW without a licence"),
        ("United States", "L1", "480.000", "100 mW", ""),
        ("United States", "L1", "480.000", "300 mW", "250 mW with a licence"),
        ("United States", "", "660.000", "50 mW", "20 mW without a licence in the duplex gap"),
        ("Europe", "L1", "480.000", "0.3 W", "250 mW that EN 300 422-1 covers"),
        ("United Kingdom", "", "864.000", "20 mW", "10 mW in 863 to 865 MHz"),
        ("Japan", "", "480.000", "2 W", ""),
        ("", "", "480.000", "2 W", ""),
    ),
)
def test_power_is_held_against_what_a_source_says_and_against_nothing_else(region, licence, mhz, power, most, tmp_path):
    text = f"show: {{title: Glass, licence: '{licence}'}}\nspectrum: {{region: '{region}'}}\nradios: {{belt: {{power: {power}}}}}\nchannels: {{1: {{by: A, radio: belt, mhz: {mhz}}}}}\n"
    found = [one for one in reading_of(text, tmp_path).findings if one.code == "power-over-limit"]
    assert len(found) == bool(most)
    assert all(most in one.text and ("CFR" in one.text or "EN 300" in one.text) and "check" in one.fix for one in found)


@pytest.mark.parametrize(
    ("region", "numbered"),
    (
        ("Argentina", {"14": "473.142857", "36": "605.142857", "38": "617.142857", "69": "803.142857"}),
        ("Canada", {"7": "177.028615", "9": "189.028615", "14": "473.028615", "15": "479.028615"}),
        ("Hong Kong", {"22": "482", "30": "546", "32": "562", "35": "586", "37": "602", "43": "650"}),
    ),
)
def test_rasters_of_more_places_are_those_of_their_numbered_transmitters(region, numbered):
    """Numbers and centres as the files say that `radio.region_rows` names as sources."""
    for name, centre in numbered.items():
        assert find_region(region).find_tv(centre).name == name


OWN = "spectrum: {raster: RASTER, tv: TV}\nchannels:\n  01: {role: VERA, mhz: MHZ}\n"


def own_show(raster: str, tv: str, mhz: str):
    return build_show(raw_of(OWN.replace("RASTER", raster).replace("TV", tv).replace("MHZ", mhz))).show


def test_a_show_may_give_the_raster_of_its_place_in_a_line():
    """Channels 21 to 25 of 7 MHz: counted by hand from 500."""
    found = {
        mhz: [one.code for one in check_frequencies(own_show("21-25 at 500-535", "23", mhz))]
        for mhz in ("513.850", "514.200", "520.800", "521.200")
    }
    assert found == {"513.850": [], "514.200": ["tv-in-use"], "520.800": ["tv-in-use"], "521.200": []}


@pytest.mark.parametrize("name", list_region_names())
def test_the_raster_of_a_region_written_by_hand_is_the_regions_own(name):
    region = find_region(name)
    runs = next(row for row in REGIONS if row["name"] == name).get("raster", ())
    plain = [run for run in runs if not run.get("prefix") and not run.get("suffix")]
    lines = []
    for run in plain:
        high = run["low_hz"] + run["width_hz"] * (run["last"] - run["first"] + 1)
        lines.append(f"{run['first']}-{run['last']} at {run['low_hz'] / MHZ:g}-{high / MHZ:g}")
    for run in plain:
        for number in (run["first"], run["last"]):
            own = region_of(own_show(f"[{', '.join(lines)}]", str(number), "490.200").spectrum)
            assert own.find_tv(str(number)) == region.find_tv(str(number))


@pytest.mark.parametrize(
    "raster", ("21 at 470-478", "48-21 at 470-694", "21-48 at 470-695", "21-48 470-694", "21-48 at 694-470")
)
def test_a_raster_that_cannot_be_one_is_refused(raster):
    (finding,) = build_show(raw_of(OWN.replace("RASTER", raster).replace("TV", "21").replace("MHZ", "490"))).findings
    assert raster in finding.text or "470-694" in finding.text or "694" in finding.text
