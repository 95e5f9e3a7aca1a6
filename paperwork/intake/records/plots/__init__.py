"""Plots to scenes, who is live in them, and with which pack."""
