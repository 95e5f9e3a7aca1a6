"""The search for frequencies: a lattice of places, what is forbidden on it, and the placing of most channels."""

DEFAULT_EFFORT = 2_000
"""About two seconds on one core of the machine of the measurements. It places as many channels as the search before this one
did in four times as long (tests/RECORDS.md); more finds, now and then, one channel more or a wider margin. It is here so
that whoever offers it loads no search."""
