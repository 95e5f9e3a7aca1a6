"""Tests of what is derived."""
