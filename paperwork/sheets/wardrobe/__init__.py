"""Papers of wardrobe and of the company. None of them tells a frequency."""
