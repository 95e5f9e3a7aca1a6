"""The page of editing, and what it says of a file that was saved elsewhere meanwhile."""

from typing import Any

from paperwork.finding import Edit
from paperwork.model.fields import SECTIONS, name_record
from paperwork.model.row import Section
from paperwork.raw import Map, Text
from paperwork.serve.edit.acts import find_merge
from paperwork.serve.edit.saving import suggest_revision
from paperwork.serve.edit.tables import describe_state
from paperwork.serve.pages import POLICY
from paperwork.serve.shows import Opened
from paperwork.text.templating import render_policy, render_template

SCRIPTS = ("alive.js", "fix.js", "grid.js", "card.js", "edit.js")

PARTS = {
    "The show": ("show", "day", "performances", "venues"),
    "Company": ("people", "roles", "covers"),
    "Radio": ("channels", "transmitters", "capsules", "radios", "others", "spectrum", "groups"),
    "House": ("racks", "consoles"),
    "Evening": ("scenes", "moves", "looks"),
}
"""The sections as they are listed, by what somebody is at work on."""


def list_parts() -> list[tuple[str, list[Section]]]:
    """The parts with their sections, and whatever is in none of them."""
    rest = [name for name in SECTIONS if not any(name in names for names in PARTS.values())]
    parts = {**PARTS, **({"More": rest} if rest else {})}
    return [(part, [SECTIONS[name] for name in names]) for part, names in parts.items()]


def render_editor(opened: Opened, base: str) -> str:
    """The page of one show. Raises Refused where it cannot be edited."""
    show = opened.open_edited()
    held = show.raw.get("show")
    revision = held.get("revision") if isinstance(held, Map) else None
    title = show.reading.show.production.title if show.reading.show else ""
    return render_template(
        "edit.html.j2",
        policy=render_policy(styles=("look.css", "edit.css"), scripts=SCRIPTS, **POLICY),
        base=base,
        here=f"{base}shows/{opened.id}/",
        file=opened.name,
        title=title or opened.name,
        opened=opened,
        parts=list_parts(),
        state=describe_state(opened),
        next_revision=suggest_revision(revision.text if isinstance(revision, Text) else ""),
        said=(),
    )


def describe_clash(opened: Opened) -> dict[str, Any]:
    """What was changed on the page, in the file, and in both. Raises Refused where the file cannot be read."""
    theirs = opened.open_edited().take(opened.load_saved())
    found = find_merge(opened, theirs)
    return {
        "ours": [_say(one) for one in found.ours],
        "theirs": [_say(one) for one in found.theirs],
        "clashes": [
            {
                "key": str(Edit(*clash.key, "")).removesuffix("="),
                "what": " ".join(filter(None, (name_record(*clash.key[:2]), clash.key[2]))),
                "was": clash.was,
                "ours": clash.ours,
                "theirs": clash.theirs,
            }
            for clash in found.clashes
        ],
    }


def _say(edit: Edit) -> str:
    what = name_record(edit.section, edit.record) if edit.section in SECTIONS else edit.path
    return f"{what} {edit.field}: {edit.value or 'gone'}" if edit.field else f"{what}: gone"
