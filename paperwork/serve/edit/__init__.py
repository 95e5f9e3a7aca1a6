"""A show edited on the page.

- history: every state of the file back to the one that was read, as splices of bytes
- acts: what is done to a show: edits, moves, fixes, a merge
- saving: the file in its folder: never over what somebody else saved, the former state kept
- tables: a section as fields, rows and findings at their cells
- card: a channel with every record that belongs to it
- describe: the page itself, and what clashes
- editor: the addresses
"""
