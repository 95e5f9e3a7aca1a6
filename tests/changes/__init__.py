"""Tests of the changes between two shows."""
