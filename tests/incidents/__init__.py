"""Things that really happen, each to a whole show."""
