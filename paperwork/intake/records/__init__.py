"""Tables to records: the rows of channels, scenes and people, and the one draft of the show that they fill."""
