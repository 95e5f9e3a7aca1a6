"""A note: a paragraph, line by line, so that a long one goes over pages."""

from paperwork.document import Note
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.boxes import Room
from paperwork.render.text.faces import em_um
from paperwork.render.text.setting import set_line


def lay_note(note: Note, context: Context) -> list[Series]:
    """A slice for each line."""
    fitted = context.setter.fit(note.text, note.style, context.width)
    room = Room(0, 0, context.width, fitted.pitch_um)
    baseline = fitted.pitch_um - (em_um(fitted.face, fitted.cap_um) * 27 + 99) // 100
    lines = (set_line(line, fitted, room, baseline, context.metrics) for line in fitted.lines)
    facts = (note.facts,)  # one value for all lines: a page counts it once
    return [Series(tuple(Slice(fitted.pitch_um, (line,), facts=facts) for line in lines))]
