"""The search for frequencies: a lattice of places, what is forbidden on it, and the placing of most channels."""
