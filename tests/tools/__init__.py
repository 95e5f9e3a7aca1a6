"""Scripts that make the project's own data files."""
