"""Where carriers may go: the lattice of places, what is forbidden on it by those that are there, and what is asked of it."""
