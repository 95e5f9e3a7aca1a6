"""The canonical form and the fingerprint: they change with a fact, and with nothing else."""

import json
from dataclasses import fields, replace

from paperwork.build import build_show
from paperwork.model import Group
from paperwork.model.facts import NOT_FACTS, canonical_facts, fingerprint_show
from paperwork.reading import read_show
from paperwork.text.fingerprint import ALPHABET
from tests.shows_text import EXAMPLES, raw_of

TEXT = """
show: {title: Glass, revision: A, revised: 2027-03-02, reason: first, paper: A4}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 488.200}
scenes:
  s1: {live: VERA}
  s2: {live: TOM}
"""


def print_of(text: str) -> str:
    return fingerprint_show(build_show(raw_of(text)).show)


def test_revision_date_reason_and_paper_are_no_facts():
    other = (
        TEXT.replace("revision: A", "revision: B")
        .replace("03-02", "03-09")
        .replace("first", "again")
        .replace("A4", "A3")
    )
    assert print_of(other) == print_of(TEXT)


def test_order_of_channels_and_spelling_of_numbers_are_no_facts():
    first, second = (line for line in TEXT.splitlines() if line.startswith("  0"))
    swapped = TEXT.replace(f"{first}\n{second}", f"{second}\n{first}").replace("486.200", "486.2 MHz")
    assert print_of(swapped) == print_of(TEXT)


def test_a_frequency_a_name_and_the_order_of_scenes_are_facts():
    changed = (
        TEXT.replace("486.200", "486.225"),
        TEXT.replace("Mara", "Maria"),
        TEXT.replace("s1: {live: VERA}\n  s2: {live: TOM}", "s2: {live: TOM}\n  s1: {live: VERA}"),
    )
    assert len({print_of(TEXT), *map(print_of, changed)}) == 4


def test_the_canonical_form_is_sorted_json_of_text_and_integers():
    facts = json.loads(canonical_facts(build_show(raw_of(TEXT)).show))
    assert list(facts) == sorted(facts)
    assert facts["channels"]["01"]["hz"] == 486_200_000
    assert "where" not in facts["channels"]["01"] and "revision" not in facts["production"]


def test_a_fingerprint_is_four_signs_that_cannot_be_taken_for_others():
    signs = print_of(TEXT)
    assert len(signs) == 4 and set(signs) <= set(ALPHABET) and not set("0OD1I5S8BZ") & set(ALPHABET)


def test_composed_and_decomposed_names_are_one_fact():
    show = read_show(EXAMPLES / "first_show.yaml", "first").show
    composed = replace(show.channels["3"], by="Nguyễn")
    decomposed = replace(show.channels["3"], by="Nguye\u0302\u0303n")
    assert canonical_facts(replace(show, channels={"3": composed})) == canonical_facts(
        replace(show, channels={"3": decomposed})
    )


def alter(value):
    """Another value of the same kind."""
    match value:
        case bool():
            return not value
        case int():
            return value + 1
        case str():
            return value + "x"
        case tuple():
            return (*value, *value[-1:]) if value else ("x",)
    return 1


def test_any_fact_of_any_record_changes_the_fingerprint_and_nothing_else_does():
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    show = replace(show, groups={"G": Group("G", "zone")})  # the example declares none
    before = canonical_facts(show)
    for section in (field.name for field in fields(show) if field.compare):
        held = getattr(show, section)
        records = list(held.values()) if isinstance(held, dict) else list(held) if isinstance(held, tuple) else [held]
        for field in fields(records[0]) if records else ():
            other = (
                replace(records[0], **{field.name: alter(getattr(records[0], field.name))}) if field.compare else None
            )
            if other is None or field.name == "id":
                continue
            if isinstance(held, dict):
                changed = replace(show, **{section: {**held, other.id: other}})
            else:
                changed = replace(show, **{section: (other, *held[1:]) if isinstance(held, tuple) else other})
            is_fact = not (section == "production" and field.name in NOT_FACTS)
            assert (canonical_facts(changed) != before) == is_fact, f"{section} {field.name}"


def test_the_workbook_twin_and_any_order_of_records_have_the_same_fingerprint():
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    assert fingerprint_show(read_show(EXAMPLES / "show.xlsx", "show.xlsx").show) == fingerprint_show(show)
    turned = {
        field.name: dict(reversed(getattr(show, field.name).items()))
        for field in fields(show)
        if isinstance(getattr(show, field.name), dict)
    }
    assert fingerprint_show(replace(show, **turned)) == fingerprint_show(show)


def test_shows_of_the_first_release_keep_their_fingerprints():
    """As version 0.1.0 printed it: sections and fields that came later are no facts where a show does not have them."""
    assert fingerprint_show(read_show(EXAMPLES / "first_show.yaml", "first_show.yaml").show) == "AY2V"
