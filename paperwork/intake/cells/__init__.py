"""The cells of a sheet before anybody says what they mean: their settled text, and grids that lie on their side."""
