"""How generated tests run: a slow or busy machine is no failure, and the same code gives the same verdict.

`--hypothesis-profile explore` draws other examples each time; what that finds becomes a test of its own.
"""

import pytest
from hypothesis import HealthCheck, settings

from tests.few import few_examples

TAME = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("paperwork", derandomize=True, max_examples=few_examples(100), **TAME)
settings.register_profile("explore", **TAME)
settings.load_profile("paperwork")


@pytest.fixture
def every_shortfall_is_named(monkeypatch):
    """A finding names a few of the texts that a column has no room for; with this it names all, to be looked for."""
    monkeypatch.setattr("paperwork.render.text.shortfalls.EXAMPLES", 10_000)
    monkeypatch.setattr("paperwork.render.text.shortfalls.EXAMPLE_LENGTH", 10_000)
