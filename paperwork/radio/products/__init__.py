"""Intermodulation: its forms, every hit by name, and how many there are."""
