"""How generated tests run: a slow or busy machine is no failure, and the same code gives the same verdict.

`--hypothesis-profile explore` draws other examples each time; what that finds becomes a test of its own.
"""

from hypothesis import HealthCheck, settings

TAME = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("paperwork", derandomize=True, **TAME)
settings.register_profile("explore", **TAME)
settings.load_profile("paperwork")
