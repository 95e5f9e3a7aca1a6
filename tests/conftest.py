"""How generated tests run: a slow or busy machine is no failure."""

from hypothesis import HealthCheck, settings

settings.register_profile("paperwork", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("paperwork")
