"""Tests of the layout and the painters."""
