"""Readers and writers of show files: every kind gives, and takes, the same located Raw.

read     sniff -> yaml.read -> Raw
               -> xlsx.parts -> xlsx.sheet -> Grid -> xlsx.show -> Raw; a list of somebody else stays a Grid
               -> csv.read -> Grid
write    Raw -> yaml.write, xlsx.write, csv.write
edit     bytes and edits -> edit -> yaml.edit, xlsx.edit -> bytes, read again and held against what they must say
"""

from paperwork.files.read import read_bytes, read_file

__all__ = ["read_bytes", "read_file"]
