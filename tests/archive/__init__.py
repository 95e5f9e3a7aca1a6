"""Tests of archives: made, verified, opened."""
