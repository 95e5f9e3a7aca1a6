"""The local page: who may ask, what is open, what it shows."""
