"""Work that may take long, done in processes of their own that can be ended."""
