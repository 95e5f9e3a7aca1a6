"""Readers and writers of show files: every kind gives, and takes, the same located Raw."""
