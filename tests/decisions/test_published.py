"""Published examples of the order of tries, redone."""

from __future__ import annotations

from itertools import permutations

import pytest

from benchleaf.decisions.bounds import Bounds, in_order
from benchleaf.decisions.plan import Ask, Cure, Node, plan
from benchleaf.decisions.problem import End, Problem, Remedy, Trial

pytestmark = pytest.mark.outside

NEVER = End("Written off", 1e6)


def cures_only(shares: tuple[float, ...], costs: tuple[float, ...], *tests: Trial) -> Problem:
    """Return a problem in which each cause has one cure, which always works."""
    names = tuple(f"cause-{number + 1}" for number in range(len(shares)))
    each = enumerate(costs)
    cures = tuple(
        Remedy(f"cure-{n + 1}", 0, cost, tuple(float(n == other) for other in range(len(shares)))) for n, cost in each
    )
    return Problem(names, shares, tests, cures, ((0.0,),), NEVER)


def order(node: Node | None) -> list[str]:
    """Return the cures that a plan without tests tries, in turn."""
    found = []
    while isinstance(node, Cure):
        found.append(node.procedure)
        node = node.if_not
    return found


def test_two_jobs() -> None:
    """
    Times 1 and 3, weights 10 and 2: the first job first costs 18, the other way round 46.

    Kleinberg and Tardos, Algorithm Design, chapter 4, an exercise; as cures with shares 10/12 and 2/12, a twelfth.
    """
    problem = cures_only((10 / 12, 2 / 12), (1.0, 3.0))

    assert 18 / 12 == pytest.approx(plan(problem).high)
    assert [18 / 12, 46 / 12] == pytest.approx([in_order(problem, [0, 1]), in_order(problem, [1, 0])])
    assert [1.5, 3.8333] == pytest.approx([in_order(problem, [0, 1]), in_order(problem, [1, 0])], abs=1e-4)


FOUR = cures_only((0.5, 0.3, 0.15, 0.05), (40.0, 10.0, 5.0, 20.0))


def test_four_causes() -> None:
    """The order of probability by cost (2, 3, 1, 4: 36.5) is the cheapest of all 24; by probability alone 47.0."""
    every = {tried: in_order(FOUR, tried) for tried in permutations(range(4))}

    assert ["cure-2", "cure-3", "cure-1", "cure-4"] == order(plan(FOUR).first)
    assert [36.5, 36.5] == pytest.approx([plan(FOUR).high, min(every.values())])
    assert [47.0, 63.25] == pytest.approx([every[0, 1, 2, 3], max(every.values())])


def test_theorem_of_the_order() -> None:
    """Without a test the plan that is never searched for is the cheapest already (Kadane and Simon's theorem)."""
    value, first = Bounds(FOUR).fallback(FOUR.shares, 0, 0)

    assert 36.5 == pytest.approx(value)
    assert 1 == first


def with_test(cost: float) -> Problem:
    """Return the four causes with the test whose worth was worked out by hand."""
    shows = (0.9, 0.1, 0.2, 0.5)
    trial = Trial("ask", 0, cost, ("shown", "silent"), (shows, tuple(1 - share for share in shows)))
    return cures_only(FOUR.shares, tuple(cure.cost for cure in FOUR.cures), trial)


def test_worth_of_a_test() -> None:
    """A test after which 42.757 or 19.6237 is to be expected is worth 4.5: done below that, left out above it."""
    below, above = plan(with_test(4.499)).first, plan(with_test(4.501)).first

    assert isinstance(below, Ask)
    assert [42.7570, 19.6237] == [pytest.approx(one.next.cost, abs=1e-4) for one in below.outcomes]
    assert [["cure-1", "cure-3", "cure-2", "cure-4"], ["cure-2", "cure-3", "cure-1", "cure-4"]] == [
        order(one.next) for one in below.outcomes
    ]
    assert 36.5 == pytest.approx(plan(with_test(4.5)).high)
    assert ["cure-2", "cure-3", "cure-1", "cure-4"] == order(above)
    assert 32.0 == pytest.approx(plan(with_test(0.0)).high)
