"""Codes (shape)."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = ()
