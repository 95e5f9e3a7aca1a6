"""Boxes as files: the operators of a PDF page, the same as SVG, what a lasting PDF carries, and the press."""
