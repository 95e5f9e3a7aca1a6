"""Papers of production: frequencies asked and granted, what is on hire, what went wrong, whom to call."""
