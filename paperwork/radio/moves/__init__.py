"""The fewest moves that make a plan clean: which channels go elsewhere, and where to."""
