"""Workbooks: the packed folder, its sheets as grids, our own sheets as Raw, and the ways to write one."""
