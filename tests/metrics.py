"""The metrics of the shipped faces, measured once for all tests."""

from functools import lru_cache

from paperwork.render.text.measuring import Metrics


@lru_cache(maxsize=1)
def load_metrics() -> Metrics:
    """The metrics; each face is opened when it is first needed."""
    return Metrics()
