"""A block of labels: one plan for all, each set after it, on the pages of a stock."""
