"""Foreign sheets in: what a list that somebody else made says, what it leaves open, and what became of each cell."""

from paperwork.intake.source import Source, read_source, read_source_bytes

__all__ = ["Source", "read_source", "read_source_bytes"]
