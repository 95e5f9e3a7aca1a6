"""Tests of the papers, by reader."""
