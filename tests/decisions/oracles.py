"""Second opinions, as plainly written as can be: every policy is tried, every joint event is counted."""

from __future__ import annotations

from functools import cache
from itertools import product
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from benchleaf.decisions.problem import Problem


def cheapest(problem: Problem, level: int = 0) -> float:
    """
    Return what the cheapest of all policies costs: each action in each situation, nothing pruned, nothing bounded.

    Probabilities are divided at every outcome, as in a text book; no weight is carried along.
    """
    tests, cures = range(len(problem.tests)), range(len(problem.cures))

    @cache
    def value(shares: tuple[float, ...], asked: frozenset[int], tried: frozenset[int], level: int) -> float:
        best = problem.end.price
        for test in tests:
            if test not in asked:
                one = problem.tests[test]
                cost = problem.travel[level][one.level] + one.cost
                for given in one.given:
                    joint = [share * chance for share, chance in zip(shares, given, strict=True)]
                    if sum(joint) > 0:
                        then = tuple(part / sum(joint) for part in joint)
                        cost += sum(joint) * value(then, asked | {test}, tried, one.level)
                best = min(best, cost)
        for cure in cures:
            if cure not in tried:
                one_cure = problem.cures[cure]
                cost = problem.travel[level][one_cure.level] + one_cure.cost + problem.travel[one_cure.level][0]
                left = [share * (1 - works) for share, works in zip(shares, one_cure.success, strict=True)]
                if sum(left) > 0:
                    then = tuple(part / sum(left) for part in left)
                    cost += sum(left) * value(then, asked, tried | {cure}, 0)
                best = min(best, cost)
        return best

    return value(problem.shares, frozenset(), frozenset(), level)


def counted(prior: Sequence[float], tables: Sequence[Sequence[Sequence[float]]], seen: Sequence[int]) -> list[float]:
    """Return the posterior by counting every joint event of cause and outcomes, then those in which *seen* holds."""
    events = {}
    for cause, *outcomes in product(range(len(prior)), *(range(len(table)) for table in tables)):
        chance = prior[cause]
        for table, outcome in zip(tables, outcomes, strict=True):
            chance *= table[outcome][cause]
        events[cause, tuple(outcomes)] = chance
    kept = [events[cause, tuple(seen)] for cause in range(len(prior))]
    return [part / sum(kept) for part in kept]
