"""The rows of regions, as dated sample data: they say what was published, not what is allowed today. Whoever uses a
frequency checks the rules where they are.

A raster is runs of channels of one width: number `first` begins at `low_hz`. `offsets_hz` are the distances from the
middle of a channel at which transmitters really stand; the signal stays inside its channel all the same. `closed` are
ranges that the named source keeps for others. `crowded` are channels that others than television use around a city.
`power` is the most transmit power that the named source gives a range, in mW: to everybody, or only where there is no
licence (`unlicensed`). Where no source was read there is no row, and nothing is said. `like` takes the rasters of
another region. `caution` is said wherever a limit is. `also` are other names. They are Python because every show asks
for one: parsing a table of text takes longer than all checks of a small show.
"""

from collections.abc import Mapping
from typing import Any

REGIONS: tuple[Mapping[str, Any], ...] = (
    {
        "name": "Europe", "also": ("EU", "CEPT", "European Union"),
        "raster": (
            {"first": 21, "last": 69, "low_hz": 470_000_000, "width_hz": 8_000_000,
             "offsets_hz": (0, 166_667, -166_667),
             "source": (
                 "lower edge = 302 + 8n MHz: frequencies-europe table of the documentation of Debian package xawtv "
                 "3.107-1.1; 4014 of 4016 entries of dtv-scan-tables 0+git20190925 lie on it with an offset of 0 or "
                 "one sixth of a MHz. Television now ends at 48 (694 MHz) in most of Europe."
             )},
            {"first": 5, "last": 12, "prefix": "E", "low_hz": 174_000_000, "width_hz": 7_000_000, "offsets_hz": (0,),
             "source": "lower edge = 139 + 7n MHz: same table of xawtv"},
        ),
        "closed": (
            {"low_hz": 694_000_000, "high_hz": 733_000_000, "dated": "2026-11",
             "why": "is not among the audio tuning ranges of ERC/REC 25-10",
             "source": (
                 "ERC/REC 25-10 annex 4, table of audio PMSE tuning ranges (174-216, 470-694, 733-757.5, 821.5-832, "
                 "863-865, ... MHz), efis.cept.org: the range is not among them"
             )},
            {"low_hz": 757_500_000, "high_hz": 821_500_000, "dated": "2026-11",
             "why": "is not among the audio tuning ranges of ERC/REC 25-10",
             "source": "ERC/REC 25-10 annex 4, same table: the range is not among them"},
            {"low_hz": 832_000_000, "high_hz": 863_000_000, "dated": "2026-11",
             "why": "is not among the audio tuning ranges of ERC/REC 25-10",
             "source": "ERC/REC 25-10 annex 4, same table: the range is not among them"},
        ),
        "power": (
            {"low_hz": 863_000_000, "high_hz": 865_000_000, "mw": 10, "what": "in 863 to 865 MHz by EN 300 422-1",
             "dated": "2026-11",
             "source": "EN 300 422-1 V1.5.1, abstract: 863-865 MHz at 10 mW"},
            {"low_hz": 25_000_000, "high_hz": 3_000_000_000, "mw": 250, "what": "that EN 300 422-1 covers",
             "dated": "2026-11",
             "source": "EN 300 422-1 V2.2.1, abstract: audio PMSE equipment of up to 250 mW, up to 3 GHz"},
        ),
        "caution": "limits differ from country to country: check locally",
    },
    {
        "name": "Eastern Europe", "also": ("East",),
        "raster": (
            {"first": 21, "last": 69, "low_hz": 470_000_000, "width_hz": 8_000_000,
             "offsets_hz": (0, 166_667, -166_667), "source": "as Europe"},
            {"first": 6, "last": 12, "prefix": "R", "low_hz": 174_000_000, "width_hz": 8_000_000, "offsets_hz": (0,),
             "source": (
                 "lower edge = 126 + 8n MHz: frequencies-europe table of the documentation of Debian package xawtv "
                 "3.107-1.1"
             )},
        ),
        "caution": "limits differ from country to country: check locally",
    },
    {
        "name": "United Kingdom", "also": ("UK", "GB", "Great Britain"),
        "like": "Europe",
        "caution": "licences name their frequencies and places: check locally",
    },
    {
        "name": "United States", "also": ("US", "USA", "America"),
        "raster": (
            {"first": 2, "last": 4, "low_hz": 54_000_000, "width_hz": 6_000_000, "offsets_hz": (0,),
             "source": "47 CFR 73.603(a)"},
            {"first": 5, "last": 6, "low_hz": 76_000_000, "width_hz": 6_000_000, "offsets_hz": (0,),
             "source": "47 CFR 73.603(a)"},
            {"first": 7, "last": 13, "low_hz": 174_000_000, "width_hz": 6_000_000, "offsets_hz": (0,),
             "source": "47 CFR 73.603(a)"},
            {"first": 14, "last": 37, "low_hz": 470_000_000, "width_hz": 6_000_000, "offsets_hz": (0,),
             "source": "47 CFR 73.603(a): lower edge = 470 + 6(n-14) MHz; 37 is kept for radio astronomy"},
        ),
        "closed": (
            {"low_hz": 608_000_000, "high_hz": 614_000_000, "why": "is kept for radio astronomy", "dated": "2026-06",
             "source": "47 CFR 73.603(c); 608-614 MHz is a restricted band in 47 CFR 15.205(a)"},
            {"low_hz": 617_000_000, "high_hz": 652_000_000, "dated": "2026-06",
             "why": "belongs to mobile networks since 13 July 2020",
             "source": (
                 "47 CFR 15.236(a)(2)-(4) for the layout; 89 FR 83789 (18 Oct 2024) for the end of the transition"
             )},
            {"low_hz": 663_000_000, "high_hz": 698_000_000, "dated": "2026-06",
             "why": "belongs to mobile networks since 13 July 2020",
             "source": (
                 "47 CFR 15.236(a)(2)-(4) for the layout; 89 FR 83789 (18 Oct 2024) for the end of the transition"
             )},
            {"low_hz": 698_000_000, "high_hz": 806_000_000, "dated": "2026-06",
             "why": "is closed to microphones since 12 June 2010",
             "source": "FCC page on wireless microphones, fcc.gov/general/wireless-microphone"},
        ),
        "power": (
            {"low_hz": 470_000_000, "high_hz": 608_000_000, "mw": 50, "unlicensed": True,
             "what": "without a licence in the TV bands", "dated": "2026-06",
             "source": "47 CFR 15.236 as listed at taajuus.info/rf-info/usa: 50 mW EIRP"},
            {"low_hz": 614_000_000, "high_hz": 616_000_000, "mw": 20, "unlicensed": True,
             "what": "without a licence in the guard band", "dated": "2026-06",
             "source": "47 CFR 15.236 as listed at taajuus.info/rf-info/usa: 20 mW EIRP"},
            {"low_hz": 657_000_000, "high_hz": 663_000_000, "mw": 20, "unlicensed": True,
             "what": "without a licence in the duplex gap", "dated": "2026-06",
             "source": "47 CFR 15.236 as listed at taajuus.info/rf-info/usa: 20 mW EIRP"},
            {"low_hz": 470_000_000, "high_hz": 608_000_000, "mw": 250, "what": "with a licence in the UHF TV bands",
             "dated": "2026-06", "source": "47 CFR 74.861 as quoted in FCC 08-188"},
            {"low_hz": 1_435_000_000, "high_hz": 1_525_000_000, "mw": 250, "what": "in 1435 to 1525 MHz",
             "dated": "2026-06", "source": "47 CFR 74.861(d)(1)"},
        ),
        "crowded": {
            "by": "land mobile radio", "within_km": 130, "source": "47 CFR 74.709(a), (b)",
            "cities": {
                "Boston": ("14", "16"), "Chicago": ("14", "15"), "Cleveland": ("14", "15"), "Dallas": ("16",),
                "Detroit": ("15", "16"), "Houston": ("17",), "Los Angeles": ("14", "16", "20"), "Miami": ("14",),
                "New York": ("14", "15", "16"), "Philadelphia": ("19", "20"), "Pittsburgh": ("14", "18"),
                "San Francisco": ("16", "17"), "Washington": ("17", "18"),
            },
        },
        "caution": "check the rules of your licence, and the stations at the venue",
    },
    {
        "name": "Japan", "also": ("JP",),
        "raster": (
            {"first": 13, "last": 52, "low_hz": 470_000_000, "width_hz": 6_000_000, "offsets_hz": (142_857, 0),
             "source": (
                 "lower edge = 392 + 6n MHz: Japanese channel lists; centres one seventh of a MHz above the middle: "
                 "ARIB STD-B21 v5.5 table 10-2"
             )},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "Australia", "also": ("AU",),
        "raster": (
            {"first": 6, "last": 9, "low_hz": 174_000_000, "width_hz": 7_000_000, "offsets_hz": (0, 125_000),
             "source": (
                 "174-230 MHz is channels 6 to 12 with 9A between 9 and 10: survey of professional users quoting "
                 "the Australian government paper of 2020 (docslib.org/doc/44672)"
             )},
            {"first": 9, "last": 9, "suffix": "A", "low_hz": 202_000_000, "width_hz": 7_000_000,
             "offsets_hz": (0, 125_000), "source": "same"},
            {"first": 10, "last": 12, "low_hz": 209_000_000, "width_hz": 7_000_000, "offsets_hz": (0, 125_000),
             "source": "same"},
            {"first": 28, "last": 51, "low_hz": 526_000_000, "width_hz": 7_000_000, "offsets_hz": (0, 125_000),
             "source": (
                 "lower edge = 330 + 7n MHz: same paper, 526-694 MHz is channels 28 to 51; offset of 125 kHz in 29 "
                 "of 247 entries of dtv-scan-tables"
             )},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "China", "also": ("CN",),
        "raster": (
            {"first": 13, "last": 24, "low_hz": 470_000_000, "width_hz": 8_000_000, "offsets_hz": (0,),
             "source": "lower edge = 366 + 8n MHz: channel structure sheet (scribd document 746591674)"},
            {"first": 25, "last": 36, "low_hz": 606_000_000, "width_hz": 8_000_000, "offsets_hz": (0,),
             "source": "lower edge = 406 + 8n MHz: same sheet"},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "Brazil", "also": ("BR",),
        "raster": (
            {"first": 14, "last": 36, "low_hz": 470_000_000, "width_hz": 6_000_000, "offsets_hz": (142_857, 0),
             "source": (
                 "centre = 389 + 6n + 1/7 MHz: dtv-scan-tables br-Brazil, which cites ABNT NBR 15608-1, and 11728 "
                 "city entries"
             )},
            {"first": 38, "last": 51, "low_hz": 614_000_000, "width_hz": 6_000_000, "offsets_hz": (142_857, 0),
             "source": "same"},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "Argentina", "also": ("AR",),
        "raster": (
            {"first": 14, "last": 36, "low_hz": 470_000_000, "width_hz": 6_000_000, "offsets_hz": (142_857, 0),
             "source": (
                 "centre = 389 + 6n + 1/7 MHz: all 55 numbered channels of the file isdb-t/ar-Argentina in Debian "
                 "package dtv-scan-tables 0+git20190925"
             )},
            {"first": 38, "last": 69, "low_hz": 614_000_000, "width_hz": 6_000_000, "offsets_hz": (142_857, 0),
             "source": "same"},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "Canada", "also": ("CA",),
        "raster": (
            {"first": 7, "last": 13, "low_hz": 174_000_000, "width_hz": 6_000_000, "offsets_hz": (0, 28_615),
             "source": (
                 "lower edge = 132 + 6n MHz, a carrier at most 28 615 Hz above the middle: 24 of the 25 numbered "
                 "entries of the file atsc/ca-ON-Toronto in Debian package dtv-scan-tables 0+git20190925, which go "
                 "up to 49; the other is one channel off"
             )},
            {"first": 14, "last": 49, "low_hz": 470_000_000, "width_hz": 6_000_000, "offsets_hz": (0, 28_615),
             "source": "lower edge = 386 + 6n MHz: same file"},
        ),
        "caution": "the table holds television only: check locally",
    },
    {
        "name": "Hong Kong", "also": ("HK",),
        "raster": (
            {"first": 22, "last": 43, "low_hz": 478_000_000, "width_hz": 8_000_000, "offsets_hz": (0,),
             "source": (
                 "lower edge = 302 + 8n MHz: six of the seven numbered entries of the file dvb-t/hk-HongKong in "
                 "Debian package dtv-scan-tables 0+git20190925, from 22 to 43; the other is 2 MHz off"
             )},
        ),
        "caution": "the table holds television only: check locally",
    },
)  # fmt: skip
