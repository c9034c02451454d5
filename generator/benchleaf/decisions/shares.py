"""
How likely each cause is, from how often each was seen, and how often a cure works, from how often it did.

One is added to every count (a Dirichlet or Beta prior of ones, Laplace's rule): what was never seen is not impossible.
An interval is the middle 90 % of what the counts leave open: of the Beta distribution that one share of a Dirichlet
has by itself, Beta(seen + 1, the other counts with their ones). Fewer counts, wider interval.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.decisions.beta import quantile

if TYPE_CHECKING:
    from collections.abc import Sequence

HELD = 0.90
"""How much an interval holds."""


class Share(NamedTuple):
    """A share between 0 and 1, and between which ends it lies nine times of ten."""

    value: float
    low: float
    high: float


UNCOUNTED = Share(0.9, (1 - HELD) / 2, (1 + HELD) / 2)
"""How often a cure works that nobody has counted (common practice, no source): it may as well be anything else."""


def shares(seen: Sequence[int]) -> tuple[Share, ...]:
    """Return the share of each cause: (seen + 1) / (all seen + number of causes)."""
    whole = sum(seen) + len(seen)
    return tuple(_share(count + 1, whole - count - 1) for count in seen)


def success(cured: int, tried: int) -> Share:
    """Return how often a cure works that worked *cured* of *tried* times: (cured + 1) / (tried + 2)."""
    return _share(cured + 1, tried - cured + 1)


# A page and a plan ask for the same counts again and again.
@lru_cache(maxsize=4096)
def _share(own: int, others: int) -> Share:
    if others == 0:  # The only cause there is.
        return Share(1.0, 1.0, 1.0)
    out = (1 - HELD) / 2
    return Share(own / (own + others), quantile(out, own, others), quantile(1 - out, own, others))


def shifted(share: Share, likelihood: float, others: float) -> Share:
    """
    Return *share* after something was seen that its cause shows with *likelihood*, and the *others* together.

    *others* is the mean over the other causes by their shares. The ends are carried along by Bayes' rule with the
    others in their mean proportions, so that after an outcome an interval is an estimate itself.
    """
    low, high = (_carried(end, likelihood, others) for end in (share.low, share.high))
    return Share(_carried(share.value, likelihood, others), low, high)


def _carried(share: float, likelihood: float, others: float) -> float:
    for_it, against = share * likelihood, (1 - share) * others
    return for_it / (for_it + against) if for_it + against > 0 else share
