"""Who is on in which performances: nobody who plays is missing on a plot that hangs for the whole run."""

import yaml
from hypothesis import given
from hypothesis import strategies as some

from paperwork.build import build_show
from paperwork.model import Show
from paperwork.plan.bodies.spells import list_spells
from paperwork.sheets.wardrobe import mic_plot, pouch_cards
from paperwork.staging import stage_performance
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of

ROLES = ("VERA", "TOM", "COOK")


@some.composite
def runs(draw) -> Show:
    """Three roles, one of them on two packs, in a run of up to four performances whose casts are drawn."""
    people = [f"{role} {n}" for role in ROLES for n in (1, 2)] + ["SWING"]
    casts = [{role: draw(some.sampled_from(people)) for role in ROLES if draw(some.booleans())} for _ in range(4)]
    data = {
        "show": {"title": "Glass", "dates": "2027-03-01 to 2027-03-20"},
        "roles": {role: {"by": f"{role} 1"} for role in ROLES},
        "channels": {f"0{n}": {"role": role} for n, role in enumerate(ROLES, 1)} | {"04": {"role": "VERA", "doubles": "01"}},
        "scenes": {"s1": {"at": "0:00", "live": list(ROLES)}, "s2": {"at": "1:00", "live": ["TOM"]}},
        "performances": {
            f"p{n}": {"date": f"2027-03-0{n}", **({"cast": cast} if cast else {})}
            for n, cast in enumerate(casts[: draw(some.integers(1, 4))], 1)
        },
    }  # fmt: skip
    return build_show(raw_of(yaml.safe_dump(data, sort_keys=False))).show


def worn(show: Show) -> dict[str, tuple[str, ...]]:
    """By performer the channels of their packs."""
    found: dict[str, dict[str, None]] = {}
    for spell in list_spells(show):
        found.setdefault(spell.by, {})[spell.channel.id] = None
    return {by: tuple(ids) for by, ids in found.items()}


@given(runs())
def test_whoever_wears_a_pack_in_a_performance_is_on_the_plots_of_the_run_with_it_and_with_the_days(show):
    people, _, cast = mic_plot.make_sheets(show)
    listed = [
        (name[0].items[0].text, " ".join(line.fact for line in name[0].items[1:]), _numbers(numbers))
        for group in cast.blocks[0].groups
        for name, numbers, *_ in (row.cells for row in group.rows)
    ]
    plotted = [(row.title.text, row.under.fact) for row in people.blocks[0].rows]
    assert sorted(name for name, _ in plotted) == sorted(name for name, *_ in listed)
    staged = {one.id: worn(stage_performance(show, one)) for one in show.performances.values()}
    days = [{id for id in staged if id in said.split()} for _, said, _ in listed]
    for id, bodies in staged.items():
        for by, channels in bodies.items():
            own = [on for (name, _, ids), on in zip(listed, days, strict=True) if (name, ids) == (by, set(channels))]
            assert any(id in on or not on for on in own), (id, by)
    for (name, _, ids), on in zip(listed, days, strict=True):
        assert all(set(staged[id].get(name, ())) == ids for id in on)


def _numbers(cells) -> set[str]:
    """The numbers beside a name: a line can have two of them."""
    return {id for one in cells for item in one.items for id in item.text.split()}


def test_whoever_wears_a_pack_on_one_evening_alone_has_a_card_for_each_cover():
    text = """
roles: {VERA: {by: Ann}, TOM: {by: Ben}, COOK: {by: Cy}}
channels: {1: {role: VERA}, 2: {role: TOM}, 3: {role: COOK}}
covers: {c1: {role: VERA, by: Sue}, c2: {role: TOM, by: Sue}, c3: {role: COOK, by: Ben}}
performances: {p1: {date: 2027-03-01}, p2: {date: 2027-03-02, cast: {VERA: Sue}}}
"""
    (sheet,) = pouch_cards.make_sheets(build_show(raw_of(text)).show)
    cards = [(card.key.text, card.items[0].text) for card in sheet.blocks[0].cards]
    assert cards == [("1", "Ann"), ("1", "Sue"), ("2", "Ben"), ("3", "Cy"), ("2", "Sue")]
    assert "cover for TOM" in [*texts_of(sheet)]
