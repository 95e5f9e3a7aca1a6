"""Separated values: foreign lists read as a grid, the channel list written."""
