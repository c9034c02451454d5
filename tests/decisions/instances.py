"""Invented problems of diagnosis, the same for the same seed."""

from __future__ import annotations

import random

from benchleaf.decisions.problem import End, Problem, Remedy, Trial


def invented(seed: int, causes: int, tests: int, cures: int, *, outcomes: int = 4, levels: int = 3) -> Problem:
    """Return a problem as a bench would have it: tests that mostly tell, cures that mostly work, a way in and out."""
    chance = random.Random(seed)  # noqa: S311  (no secret)
    counted = [chance.randint(0, 15) + 1 for _ in range(causes)]
    names = tuple(f"cause-{number}" for number in range(causes))
    return Problem(
        names,
        tuple(count / sum(counted) for count in counted),
        tuple(_trial(chance, number, causes, chance.randint(2, outcomes), levels) for number in range(tests)),
        tuple(_remedy(chance, number, causes, levels) for number in range(cures)),
        _travel(chance, levels),
        End("Written off", chance.uniform(40, 120)),
    )


def _trial(chance: random.Random, number: int, causes: int, outcomes: int, levels: int) -> Trial:
    given = []
    for _ in range(causes):
        weight = [chance.uniform(0.02, 0.2) for _ in range(outcomes)]
        weight[chance.randrange(outcomes)] += 1
        given.append([share / sum(weight) for share in weight])
    columns = tuple(tuple(row[outcome] for row in given) for outcome in range(outcomes))
    names = tuple(f"outcome-{outcome}" for outcome in range(outcomes))
    return Trial(f"test-{number}", chance.randrange(levels), chance.uniform(0.5, 6), names, columns)


def _remedy(chance: random.Random, number: int, causes: int, levels: int) -> Remedy:
    # The first cures are for one cause each, so that every cause has one as far as they reach.
    mended = {number % causes} | ({chance.randrange(causes)} if chance.random() < 0.2 else set())
    success = tuple(chance.uniform(0.5, 0.95) if cause in mended else 0.0 for cause in range(causes))
    return Remedy(f"cure-{number}", chance.randrange(levels), chance.uniform(4, 40), success)


def _travel(chance: random.Random, levels: int) -> tuple[tuple[float, ...], ...]:
    """Return what it costs between levels that lie one below the other: in is not out."""
    inward = [chance.uniform(2, 8) for _ in range(levels - 1)]
    outward = [chance.uniform(2, 8) for _ in range(levels - 1)]
    return tuple(
        tuple(sum(inward[here:there]) + sum(outward[there:here]) for there in range(levels)) for here in range(levels)
    )
