"""Show files in YAML: read, written, edited in place."""
