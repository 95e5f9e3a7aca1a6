"""The rounds of a performance: what is ticked at the rack, in the rooms and on the way between them."""
