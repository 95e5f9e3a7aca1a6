"""The search for frequencies: the placing of most channels, as far from each other as that leaves them."""

DEFAULT_EFFORT = 2_000
"""About two seconds on one core of the machine of the measurements. It places as many channels as the search before this one
did in four times as long (tests/RECORDS.md); more finds, now and then, one channel more or a wider margin. It is here so
that whoever offers it loads no search."""
