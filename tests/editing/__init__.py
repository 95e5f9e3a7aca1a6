"""Shows that are edited, and what is merged."""
