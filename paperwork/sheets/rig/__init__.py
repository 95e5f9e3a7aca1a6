"""What is put up before anybody plays: antennas and their cables, the names on a desk."""
