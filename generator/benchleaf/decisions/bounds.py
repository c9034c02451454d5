"""
What a plan costs at least and at most, without searching for it.

At least: as if each cause showed itself for nothing, and its own cures were tried, those first that cost least for
what they achieve (cost / success, ascending: the order that no other beats for independent tries). At most: no test at
all, and the cures by what they promise for their cost now (probability x success / cost), up to the best place to stop.
Both are costs times weights, as in `bayes`.
"""

from __future__ import annotations

import math
from operator import mul
from typing import TYPE_CHECKING

from benchleaf.decisions import bayes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from benchleaf.decisions.bayes import Weights
    from benchleaf.decisions.problem import Problem


class Bounds:
    """The bounds of one problem; what was worked out for a set of cures is kept."""

    def __init__(self, problem: Problem) -> None:
        """Work for *problem*."""
        self._problem = problem
        self._whole = range(len(problem.cures))
        self._known: dict[tuple[int, int], Weights] = {}
        self._success = tuple(cure.success for cure in problem.cures)
        self._missed = tuple(tuple(1 - works for works in own) for own in self._success)
        self._costs = tuple(
            tuple(problem.cure_cost(level, cure) for cure in self._whole) for level in range(len(problem.travel))
        )

    def lower(self, weights: Weights, failed: int, level: int) -> float:
        """Return what every plan costs at least from *level* when the cures *failed* are used up."""
        known = self._known.get((failed, level))
        if known is None:
            causes = range(len(self._problem.causes))
            known = self._known[failed, level] = tuple(self._if_known(cause, failed, level) for cause in causes)
        # Summed as the sheet's script does, so that both take the same of two that are nearly alike.
        least: float = sum(map(mul, weights, known))
        return least

    def _if_known(self, cause: int, failed: int, level: int) -> float:
        """Return the least cost where *cause* is known: one cure profits from the open device, the others do not."""
        problem = self._problem
        useful = [cure for cure in self._whole if not failed >> cure & 1 and problem.cures[cure].success[cause] > 0]
        useful.sort(key=lambda cure: problem.cure_cost(0, cure) / problem.cures[cure].success[cause])
        least = self._in_turn(cause, useful)
        for first in useful if level else ():
            rest = self._in_turn(cause, [cure for cure in useful if cure != first])
            missed = 1 - problem.cures[first].success[cause]
            least = min(least, problem.cure_cost(level, first) + missed * rest)
        return least if level == 0 else min(least, problem.end.price)

    def _in_turn(self, cause: int, cures: Sequence[int]) -> float:
        """Return what *cures* cost in their order from the closed device, stopping where that is cheaper."""
        value = self._problem.end.price
        for cure in reversed(cures):
            missed = 1 - self._problem.cures[cure].success[cause]
            value = min(value, self._problem.cure_cost(0, cure) + missed * value)
        return value

    def fallback(self, weights: Weights, failed: int, level: int) -> tuple[float, int | None]:
        """Return what the plan without tests costs, and its first cure; None where it ends at once."""
        problem, missed = self._problem, self._missed
        left = [cure for cure in self._whole if not failed >> cure & 1]
        promise = {cure: self._promise(weights, cure, level) for cure in left}
        left.sort(key=lambda cure: (-promise[cure], cure))
        tried: list[tuple[int, float, float]] = []
        for cure in left:
            whole = sum(weights)
            tried.append((cure, whole, self._costs[level][cure] * whole))
            weights, level = tuple(map(mul, weights, missed[cure])), 0
        value, first = problem.end.price * sum(weights), None
        for cure, whole, cost in reversed(tried):
            go_on, stop = cost + value, problem.end.price * whole
            value, first = (go_on, cure) if go_on <= stop else (stop, None)
        return value, first

    def _promise(self, weights: Weights, cure: int, level: int) -> float:
        cost = self._costs[level][cure]
        return sum(map(mul, weights, self._success[cure])) / cost if cost > 0 else math.inf


def in_order(problem: Problem, order: Sequence[int]) -> float:
    """Return the expected cost of trying the cures in *order* from the closed device, then ending."""
    weights, cost = problem.shares, 0.0
    for cure in order:
        cost += problem.cure_cost(0, cure) * sum(weights)
        weights = bayes.failed(weights, problem.cures[cure].success)
    return cost + problem.end.price * sum(weights)
