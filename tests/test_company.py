"""Stages, acts, backups, in-ears, guests and another house: what is mended is clean with few moves, and all advice goes together."""

import re
from random import Random

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from paperwork.finding import Finding, Subject
from paperwork.reading import has_errors, read_show
from tests.company_worlds import meeting_show
from tests.few import few_examples
from tests.test_fixes import check_seed
from tests.test_repair import run

SEEDS = st.integers(0, 1 << 20)
OURS = ("channels", "backups")


def list_wrong(findings) -> list[Finding]:
    """The errors in which one of our channels or backups has part."""
    return [
        one for one in findings if one.severity == "error" and any(subject.section in OURS for subject in one.subjects)
    ]


def check_mended(text: str, folder, *, venue: str = "") -> None:
    (folder / "show.yaml").write_text(text, encoding="utf-8")
    before = read_show(folder / "show.yaml", "show.yaml", venue=venue)
    done = run(folder, text, "--effort", "60", *(("--venue", venue) if venue else ()))
    left = {Subject("channels", id) for id in re.findall(r"channel (\S+) stays as it is", done.text)}
    left |= {Subject("backups", id) for id in re.findall(r"backup of channels? (\S+) stays as it is", done.text)}
    if not (folder / "new.yaml").exists():
        assert not list_wrong(before.findings) or done.code == 1
        return
    after = read_show(folder / "new.yaml", "new.yaml", venue=venue)
    assert all(left & set(one.subjects) for one in list_wrong(after.findings)), (done.text, after.findings)
    offered = {
        (edit.record, edit.field) for one in before.findings for edit in one.edits if edit.field in ("mhz", "backup")
    }
    can_all = all(one.edits for one in before.findings if one.severity == "error")
    moves = len(re.findall(r"^[^;\n]* -> ", done.text, re.MULTILINE))
    assert not can_all or venue or has_errors(after.findings) or moves <= len(offered), done.text


QUIET = settings(
    max_examples=few_examples(9), phases=[Phase.generate], deadline=None, suppress_health_check=[HealthCheck.too_slow]
)


@QUIET
@given(seed=SEEDS, venue=st.sampled_from(("", "Pier")))
def test_what_repair_leaves_is_clean_and_it_moves_no_more_than_the_advice_of_a_check_would(
    seed, venue, tmp_path_factory
):
    text = meeting_show(seed)
    check_mended(text, tmp_path_factory.mktemp("show"), venue=venue if "Pier" in text else "")


@QUIET
@given(seed=SEEDS)
def test_all_advice_on_companies_that_share_the_air_can_be_taken_together(seed, tmp_path_factory):
    check_seed(meeting_show(seed), tmp_path_factory)


@pytest.mark.sweep
@pytest.mark.parametrize("block", range(10))
def test_many_companies_are_mended_and_their_advice_goes_together(block, tmp_path_factory):
    for seed in Random(block).sample(range(1 << 20), 20):
        text = meeting_show(seed)
        check_mended(text, tmp_path_factory.mktemp("show"))
        check_seed(text, tmp_path_factory)


def test_no_channel_moves_for_what_its_own_backup_would_do_to_it(tmp_path):
    """Channel 5 and its backup, which are never on the air together, would hit by a product: it was moved for that."""
    text = meeting_show(135)
    check_mended(text, tmp_path)
    (tmp_path / "new.yaml").unlink()
    assert re.findall(r"^(.+): \S+ -> ", run(tmp_path, text, "--effort", "60").text, re.MULTILINE) == [
        "channel 3",
        "backup of channel 4",
    ]
