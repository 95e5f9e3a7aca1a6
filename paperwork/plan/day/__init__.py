"""The day: when transmitters are on, what is on the bill, and when cells are changed."""
