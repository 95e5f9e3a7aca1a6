"""One show file becomes every printed paper that a show with radio microphones needs."""

__version__ = "0.1.0"
