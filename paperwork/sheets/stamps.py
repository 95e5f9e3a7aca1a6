"""What is unresolved about a sheet: errors about its records, for stamps of pages and marks of what is cut out."""

from collections.abc import Iterable
from dataclasses import replace

from paperwork.document import Block, Card, Cards, CardSlot, Label, Labels, Sheet, SheetDoubt, Strips
from paperwork.document.facts import subjects_of
from paperwork.finding import Finding, Subject
from paperwork.model import Show
from paperwork.sheets.frame import short_scene
from paperwork.sheets.paper import Paper
from paperwork.text.words import words_of


def stamp_sheet(paper: Paper, sheet: Sheet, show: Show, findings: Iterable[Finding]) -> Sheet:
    """The sheet with the errors about what it shows, by which each of its pages is stamped; or without any.

    Labels, cards and strips that are cut out leave their sheet: each that is about a doubted record says so itself.
    """
    shown, w = subjects_of(sheet), words_of(show.production.language)
    doubts = tuple(
        SheetDoubt(
            finding.code, w.get(finding.row.stamp, w["stamp other"]), tuple((one, _name_of(show, one)) for one in about)
        )
        for finding in findings
        if finding.severity == "error"
        and (about := [one for one in finding.subjects if one in shown])
        and _concerns(paper, finding)
    )
    doubted = frozenset(subject for doubt in doubts for subject, _ in doubt.about)
    blocks = tuple(_mark_doubted(block, doubted, w["label doubt"]) for block in sheet.blocks)
    return replace(sheet, doubts=doubts, blocks=blocks)


def _mark_doubted(block: Block, doubted: frozenset[Subject], ask: str) -> Block:
    """The block with the word on each label and card to cut out that shows a doubted record, and marked slots."""

    def is_doubted(one: Label | Card | CardSlot) -> bool:
        return not doubted.isdisjoint(one.subjects)

    match block:
        case Labels():
            return replace(
                block, labels=tuple(replace(one, doubt=ask if is_doubted(one) else "") for one in block.labels)
            )
        case Cards(signed=True):
            return replace(
                block, cards=tuple(replace(one, doubt=ask if is_doubted(one) else "") for one in block.cards)
            )
        case Strips():
            strips = (
                replace(strip, slots=tuple(replace(one, doubt=is_doubted(one)) for one in strip.slots))
                for strip in block.strips
            )
            return replace(block, strips=tuple(strips))
    return block


def _concerns(paper: Paper, finding: Finding) -> bool:
    """Whether the paper shows facts of the kind that is doubted."""
    topics = finding.row.topics
    return paper.shows is None or not topics or not set(topics).isdisjoint(paper.shows)


def _name_of(show: Show, subject: Subject) -> str:
    scenes = {scene.id: short_scene(scene) for scene in show.scenes} if subject.section == "scenes" else {}
    return scenes.get(subject.id, subject.id)
