"""Papers of wardrobe and of the company. None of them has a frequency."""
