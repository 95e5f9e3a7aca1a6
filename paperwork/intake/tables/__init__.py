"""Cells to tables: where the headings are, what each column holds, what each row is, which of two lists counts."""
