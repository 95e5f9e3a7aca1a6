"""The bar of a group that says over each column what is the same in all of its rows."""

from paperwork.document import RowGroup
from paperwork.document.styles import BAR_HEAD, BAR_SMALL, BAR_TITLE
from paperwork.render.blocks.cells import GUTTER_UM, INDENT_UM
from paperwork.render.blocks.slices import Context, Slice
from paperwork.render.boxes import Box, Fill, Room
from paperwork.render.text.fitting import Fitted

PAD_UM, GAP_UM = 900, 700
"""Over the first line and under the last one, and between the two."""

TITLE_COLUMNS = 2
"""The title stands over so many columns, which are numbers and need no words of their own."""


def set_column_bars(
    group: RowGroup, lefts: tuple[int, ...], widths: tuple[int, ...], context: Context
) -> tuple[Slice, Slice]:
    """The bar as it opens the group and as it goes on, two lines tall: the title at the left, then what each column says."""
    setter = context.setter
    heads: list[tuple[Room, Fitted, Fitted | None]] = []
    for (head, small), left, width in zip(group.columns, lefts, widths, strict=True):
        if head:
            room = Room(left, 0, width - GUTTER_UM, 0)
            own = setter.fit(head, BAR_HEAD, room.width)
            heads.append((room, own, setter.fit(small, BAR_SMALL, room.width) if small else None))
    title_um = sum(widths[:TITLE_COLUMNS]) - INDENT_UM - GUTTER_UM
    titles = [
        setter.fit(text, BAR_TITLE, title_um)
        for text in (group.title, context.words["continued"].format(title=group.title))
    ]
    first = PAD_UM + max((own.rise_um for _, own, _ in heads), default=0)
    second = first + max((own.drop_um for _, own, _ in heads), default=0) + GAP_UM
    second += max((note.rise_um for _, _, note in heads if note), default=0) - GAP_UM // 2
    height = second + PAD_UM
    height += max((note.drop_um + (len(note.lines) - 1) * note.pitch_um for _, _, note in heads if note), default=0)
    bars = []
    for title in titles:
        lines = title.pitch_um * (len(title.lines) - 1)
        tall = max(height, title.rise_um + lines + title.drop_um + PAD_UM)
        room = Room(INDENT_UM, 0, title_um, tall)
        boxes: list[Box] = [Fill(0, 0, context.width, tall)]
        base = max((tall + title.cap_um - lines) // 2, title.rise_um + PAD_UM)
        boxes += [box._replace(white=True) for box in setter.lines(title, room, base)]
        for place, own, note in heads:
            place = place._replace(height=tall)
            boxes.append(setter.line(own, place, first if note else (tall + own.cap_um) // 2, white=True))
            if note:
                boxes += [box._replace(white=True) for box in setter.lines(note, place, second)]
        bars.append(Slice(tall, tuple(boxes), bar=True, facts=group.facts))
    return bars[0], bars[1]
