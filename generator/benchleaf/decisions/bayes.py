"""
What an outcome says of the causes: Bayes' rule, tests independent of one another once the cause is known.

A weight is a probability that was not divided: that of a cause together with all that was seen. The sum of weights is
the probability of what was seen, and a cost times it adds up along a plan without a division.
"""

from __future__ import annotations

from operator import mul
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Weights = tuple[float, ...]


def seen(weights: Sequence[float], given: Sequence[float]) -> Weights:
    """Return *weights* after an outcome that each cause shows with the probability *given*."""
    return tuple(map(mul, weights, given))


def failed(weights: Sequence[float], success: Sequence[float]) -> Weights:
    """Return *weights* after a cure that ends each cause with the probability *success* was tried in vain."""
    return tuple([weight * (1 - cured) for weight, cured in zip(weights, success, strict=True)])


def posterior(weights: Sequence[float]) -> Weights:
    """Return the probabilities of the causes, which sum to 1; as they are where nothing is possible."""
    whole = sum(weights)
    return tuple(weight / whole for weight in weights) if whole > 0 else tuple(weights)


def after(prior: Sequence[float], outcomes: Iterable[Sequence[float]]) -> Weights:
    """Return the probabilities of the causes after *outcomes*, each by what it is given every cause."""
    weights = tuple(prior)
    for given in outcomes:
        weights = seen(weights, given)
    return posterior(weights)
