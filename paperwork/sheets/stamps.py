"""The stamp of a sheet: which of its facts are doubted, by code and record, so that whoever holds it knows what to ask."""

from collections.abc import Iterable
from dataclasses import replace

from paperwork.document import Labels, Sheet
from paperwork.document.facts import subjects_of
from paperwork.finding import Finding, Subject
from paperwork.model import Show
from paperwork.sheets.frame import short_scene
from paperwork.sheets.paper import Paper
from paperwork.text.names import shorten_ids
from paperwork.text.words import words_of

MOST_FINDINGS, MOST_IDS = 3, 6
"""So many findings are named, and so many records of each: what more there is is counted, and a stamp stays short."""


def stamp_sheet(paper: Paper, sheet: Sheet, show: Show, findings: Iterable[Finding]) -> Sheet:
    """The sheet with a stamp that names the errors about what it shows, or without one.

    Labels leave their sheet: each that is about a doubted record says so itself.
    """
    shown = subjects_of(sheet)
    doubts = [
        finding
        for finding in findings
        if finding.severity == "error" and not shown.isdisjoint(finding.subjects) and _concerns(paper, finding)
    ]
    if not doubts:
        return replace(sheet, stamp="")
    w = words_of(show.production.language)
    listed = "; ".join(_name_doubt(show, finding, shown) for finding in doubts[:MOST_FINDINGS])
    if len(doubts) > MOST_FINDINGS:
        listed = w["stamp more"].format(told=listed, count=len(doubts) - MOST_FINDINGS)
    doubted = frozenset(subject for finding in doubts for subject in finding.subjects)
    blocks = tuple(
        _mark_labels(block, doubted, w["label doubt"]) if isinstance(block, Labels) else block for block in sheet.blocks
    )
    return replace(sheet, stamp=w["stamp"].format(told=listed), blocks=blocks)


def _mark_labels(block: Labels, doubted: frozenset[Subject], doubt: str) -> Labels:
    labels = tuple(
        label if doubted.isdisjoint(label.subjects) else replace(label, doubt=doubt) for label in block.labels
    )
    return replace(block, labels=labels)


def _concerns(paper: Paper, finding: Finding) -> bool:
    """Whether the paper shows facts of the kind that is doubted."""
    topics = finding.row.topics
    return paper.shows is None or not topics or not set(topics).isdisjoint(paper.shows)


def _name_doubt(show: Show, finding: Finding, shown: frozenset[Subject]) -> str:
    """The records of a finding that are on the sheet, and its code: `ch 02, 07 carrier-doubled`."""
    w = words_of(show.production.language)
    about = [subject for subject in finding.subjects if subject in shown]
    channels = [subject.id for subject in about if subject.section == "channels"]
    ids = channels or [_name_of(show, subject) for subject in about]
    listed = shorten_ids(ids) if len(ids) <= MOST_IDS else f"{', '.join(ids[:MOST_IDS])} …"
    return f"{w['stamp channels'].format(ids=listed) if channels else listed} {finding.code}"


def _name_of(show: Show, subject: Subject) -> str:
    scenes = {scene.id: short_scene(scene) for scene in show.scenes} if subject.section == "scenes" else {}
    return scenes.get(subject.id, subject.id)
