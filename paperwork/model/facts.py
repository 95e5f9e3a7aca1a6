"""What the show says, in one canonical form, whatever file it was read from; and the fingerprint of it.

The canonical form is JSON with sorted keys, no spaces, NFC text, integers only. Records are sorted by id; order
counts in scenes and covers. Where a thing was written, and the revision, its date and reason, the paper size and the
language are no facts: they say how the show is printed, not what it is.
"""

import json
import unicodedata
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from paperwork.model import Production, Show
from paperwork.model.fields import list_marked
from paperwork.text.fingerprint import fingerprint

NOT_FACTS = frozenset(list_marked("aside")["show"])
"""Fields of the production that are not facts of the show."""

LATER: Mapping[str, Any] = {
    "Show.groups": {},
    "Show.performances": {},
    "Spectrum.sweep_unit": "",
    "Spectrum.sweep_impedance": "50 ohm",
    "Move.channel": "",
    "Show.contacts": (),
    "Show.hires": {},
    "Show.antennas": {},
    "Show.rack_order": (),
    "Console.strip": None,
    "Channel.tape": "",
    "Transmitter.tape": "",
    "Channel.backup_hz": None,
    "Channel.wants_backup": False,
    "Spectrum.raster": (),
    "Spectrum.refused_hz": (),
    "Other.asked_hz": None,
    "Other.granted_hz": None,
    "Other.refused": False,
    "Day.times": "curtain",
    "Channel.must": False,
    "Group.attenuation_cdb": None,
    "Spectrum.zones_apart_cdb": None,
    "Other.must": False,
    "Other.radio_type": "",
    "RadioType.step_from_hz": None,
    "RadioType.spots_hz": (),
    "Other.notes": "",
}
"""What shows of the first release did not have, and what it is where it is not stated: left out then, so that their
fingerprints hold."""

ONE_ONLY = frozenset({"Day.bows_s", "Performance.bows_s"})
"""What was one value in the first release, or None, and is a list now: none or one is said as it was then."""

FORMER = {"sweep_limit_cdb": "sweep_limit_cdbm"}
"""What attributes with another name were called in the first release."""


def canonical_facts(show: Show) -> bytes:
    """The facts as UTF-8 JSON: equal bytes if and only if two shows say the same."""
    text = json.dumps(_plain(show), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return unicodedata.normalize("NFC", text).encode("utf-8", "backslashreplace")


def fingerprint_show(show: Show) -> str:
    """Four characters that change when a fact of the show changes."""
    return fingerprint(canonical_facts(show))


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        left_out = NOT_FACTS if isinstance(value, Production) else frozenset()
        held = {f.name: getattr(value, f.name) for f in fields(value) if f.compare and f.name not in left_out}
        of = type(value).__name__
        return {
            FORMER.get(name, name): _plain(one[0] if one else None)
            if f"{of}.{name}" in ONE_ONLY and len(one) < 2
            else _plain(one)
            for name, one in held.items()
            if one != LATER.get(f"{of}.{name}", held)
        }
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value
