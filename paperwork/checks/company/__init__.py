"""Checks of who plays what: people, covers and swaps."""
