"""Fewer examples by default: the whole suite must stay quick. The long run is `--hypothesis-profile=default`."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "sinewright", max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("sinewright")
