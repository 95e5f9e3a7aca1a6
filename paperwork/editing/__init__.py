"""A show file with edits, read again: what they did to it, and what became of its findings.

- edited: one state of a show file and what came of reading it; edits give the next one
- mending: findings corrected by their own edits, as far as nobody has to decide
- merging: two files that began as one, put together
- recast: somebody else plays a part, as one set of edits
- conversion: a show written as another kind of file
"""
