"""A text in a width: which face, how wide and tall, where it breaks, and what had to give way."""
