"""
How many examples a property is tried with, and which.

The same ones every time, so that a run on one machine says what a run on another says. For a hunt set
BENCHLEAF_HUNT to how many times as many there shall be; then they are new ones each time.
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

HUNT = int(os.environ.get("BENCHLEAF_HUNT", "0"))


def examples(usual: int) -> settings:
    """Return the settings of a property that is usually tried with *usual* examples."""
    return settings(
        max_examples=usual * max(HUNT, 1),
        deadline=None,
        derandomize=not HUNT,
        # A whole knowledge base takes its time to be made up.
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example],
    )
