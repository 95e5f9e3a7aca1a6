"""Readers and writers of show files: every kind gives, and takes, the same located Raw."""

from paperwork.files.read import read_bytes, read_file

__all__ = ["read_bytes", "read_file"]
