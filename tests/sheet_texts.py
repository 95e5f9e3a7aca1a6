"""Every text of a sheet, read off its value."""

from collections.abc import Iterator

from paperwork.document import (
    Block,
    Board,
    Cards,
    Item,
    Labels,
    Note,
    Panels,
    Plot,
    RowGroup,
    Sheet,
    SpectrumWindow,
    Strips,
    Table,
    Tree,
)


def texts_of(sheet: Sheet) -> Iterator[str]:
    """Every text that the sheet would print, in reading order."""
    yield from (sheet.title, sheet.show, *sheet.subtitle, sheet.venue, sheet.revision, sheet.replaces, sheet.dated)
    yield from (sheet.returns, *sheet.cautions)
    for block in sheet.blocks:
        yield from _block_texts(block)


def _block_texts(block: Block) -> Iterator[str]:
    match block:
        case Table(columns=columns, groups=groups):
            yield from (column.heading for column in columns)
            for group in groups:
                yield from (group.title, group.note, *(text for two in group.columns for text in two))
                for item in _items(group):
                    yield item.text
        case Panels(panels=panels):
            for panel in panels:
                yield from (panel.title, *panel.lines)
        case Tree(nodes=nodes, links=links):
            for node in nodes:
                yield from (line.text for line in (node.title, *node.lines))
            yield from (link.text.text for link in links if link.text)
        case Note(text=text):
            yield text
        case Board(groups=boards):
            for board in boards:
                yield board.title
                for r in board.rows:
                    yield from (
                        *(line.text for line in (r.title, *((r.under,) if r.under else ()), *r.notes)),
                        *r.up,
                        *r.gone,
                    )
        case Plot():
            yield from _plot_texts(block)
        case SpectrumWindow(title=title, note=note, bands=bands, marks=marks):
            yield from (title, note, *(band.text for band in bands), *(mark.text for mark in marks))
        case Cards(cards=cards):
            for card in cards:
                yield from (item.text for item in (*card.band, card.key, *card.items, *card.foot))
                yield card.tick
        case Strips(strips=strips):
            for strip in strips:
                yield strip.title
                for slot in strip.slots:
                    yield from (line.text for line in (slot.key, *slot.lines, *slot.small))
        case Labels(labels=labels):
            for label in labels:
                frequency = label.frequency or ""
                yield from (
                    label.number,
                    label.role,
                    *label.performers,
                    frequency,
                    label.pack,
                    label.capsule,
                    label.mark,
                )


def _plot_texts(plot: Plot) -> Iterator[str]:
    for act in plot.acts:
        yield act.title
        for scene in act.scenes:
            yield from (scene.number, scene.name, scene.note)
    for r in plot.rows:
        yield from (line.text for line in (r.title, r.under, r.key) if line)
        for lane in r.lanes:
            for bar in lane.bars:
                yield from (bar.text, bar.second, bar.note)
    yield from (told for _, told in plot.legend)


def _items(group: RowGroup) -> Iterator[Item]:
    for r in group.rows:
        for parts in r.cells:
            for c in parts:
                yield from (*c.items, *c.beside)
