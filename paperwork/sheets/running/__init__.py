"""Papers in the order of time: the A2's running sheet, handhelds out and back, and those of a bill, act by act."""
