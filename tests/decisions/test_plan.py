"""The plan that is found, beside every plan that there is."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from benchleaf.decisions import bayes
from benchleaf.decisions.bounds import Bounds
from benchleaf.decisions.plan import Ask, Cure, Refer, plan
from benchleaf.decisions.problem import End, Problem, Remedy, Trial, start
from benchleaf.decisions.search import Search
from tests.decisions.instances import invented
from tests.decisions.oracles import cheapest

if TYPE_CHECKING:
    from benchleaf.decisions.plan import Node

SIZES = [(3, 2, 3), (2, 3, 3), (4, 2, 4), (3, 3, 2), (5, 1, 5), (1, 2, 2)]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("seed", range(8))
def test_no_policy_is_cheaper(seed: int, size: tuple[int, int, int]) -> None:
    """On small problems the plan costs what the cheapest of all policies costs, and says that it is exact."""
    problem = invented(seed, *size, outcomes=3, levels=1 + seed % 4)

    found = plan(problem)

    assert cheapest(problem) == pytest.approx(found.high, rel=1e-9)
    assert (found.high, True) == (found.low, found.exact)
    assert found.high == pytest.approx(found.first.cost, rel=1e-9)


@pytest.mark.parametrize("most", [1, 5, 30, 150])
@pytest.mark.parametrize("seed", range(6))
def test_interval_holds_the_truth(seed: int, most: int) -> None:
    """Where the search is cut short, the cheapest of all lies between both ends, and the plan costs the upper one."""
    problem = invented(seed, 4, 3, 4, outcomes=3)
    truth = plan(problem, most=10**6)

    found = plan(problem, most=most)

    assert truth.exact
    assert found.low <= truth.high * (1 + 1e-9)
    assert truth.high <= found.high * (1 + 1e-9)
    assert found.high == pytest.approx(found.first.cost, rel=1e-9)
    assert found.expanded <= most
    assert found.exact == (found.low == found.high)


@pytest.mark.parametrize("seed", range(6))
def test_more_work_never_loosens(seed: int) -> None:
    """What no plan can be cheaper than never falls as more states are looked at, and in the end it is the cost."""
    problem = invented(seed, 4, 3, 4, outcomes=3)

    found = [plan(problem, most=most) for most in (1, 10, 40, 160, 10**6)]

    assert [one.low for one in found] == pytest.approx(sorted(one.low for one in found))
    assert found[-1].exact
    assert found[-1].high == pytest.approx(min(one.high for one in found))


@pytest.mark.parametrize("seed", range(6))
def test_bounds_bound(seed: int) -> None:
    """In every situation on the way, the cheapest plan lies between the two bounds."""
    problem = invented(seed, 4, 3, 4, outcomes=3)
    bounds = Bounds(problem)
    search = Search(problem, bounds, 10**6)
    at = [(start(problem), problem.shares)]
    at += [(branch.at, branch.weights) for action in search.actions(*at[0]) for branch in action.branches]

    found = [(bounds.lower(weights, now.failed, now.level), Search(problem, bounds, 10**6).solve(now, weights).high,
              bounds.fallback(weights, now.failed, now.level)[0]) for now, weights in at]  # fmt: skip

    assert all(low <= value + 1e-9 and value <= high + 1e-9 for low, value, high in found)


def test_subtree_is_the_plan_from_there() -> None:
    """What a plan says after an outcome is what is planned anew with that outcome given."""
    problem = next(one for one in (invented(seed, 3, 2, 3) for seed in range(50)) if isinstance(plan(one).first, Ask))
    first = plan(problem).first
    assert isinstance(first, Ask)
    number = next(n for n, test in enumerate(problem.tests) if test.id == first.test)
    test, others = problem.tests[number], problem.tests[:number] + problem.tests[number + 1 :]

    anew = [
        plan(replace(problem, shares=bayes.after(problem.shares, [given]), tests=others), test.level).high
        for given in test.given
    ]

    assert anew == pytest.approx([one.next.cost for one in first.outcomes])


def use(node: Node | None, test: str) -> float:
    """Return how likely *test* is done in the plan that begins with *node*."""
    if isinstance(node, Ask):
        return 1.0 if node.test == test else sum(one.probability * use(one.next, test) for one in node.outcomes)
    return (1 - node.success) * use(node.if_not, test) if isinstance(node, Cure) else 0.0


@pytest.mark.parametrize("seed", range(12))
def test_dearer_test_is_never_done_more(seed: int) -> None:
    """As a test gets dearer it is done more seldom, or as often, and the plan never gets cheaper."""
    problem = invented(seed, 3, 2, 3, outcomes=3)
    first, *rest = problem.tests

    plans = [
        plan(replace(problem, tests=(replace(first, cost=cost), *rest))) for cost in (0.0, 1.0, 2.0, 4.0, 8.0, 99.0)
    ]
    uses = [use(one.first, first.id) for one in plans]

    assert uses == pytest.approx(sorted(uses, reverse=True))
    assert [one.high for one in plans] == pytest.approx(sorted(one.high for one in plans))
    assert 0.0 == uses[-1]


def one_cause(*cures: Remedy, end: float = 100.0, tests: tuple[Trial, ...] = ()) -> Problem:
    """Return a problem with one cause on a device that is never opened."""
    return Problem(("only",), (1.0,), tests, cures, ((0.0,),), End("Written off", end))


def test_of_two_alike_the_first_in_the_file() -> None:
    """Of two cures that cost the same, and of a cure and an end, what stands first is done."""
    alike = one_cause(Remedy("first", 0, 10.0, (0.9,)), Remedy("second", 0, 10.0, (0.9,)))
    even = one_cause(Remedy("cure", 0, 50.0, (0.5,)))
    nothing = one_cause(tests=(Trial("free", 0, 0.0, ("a", "b"), ((0.5,), (0.5,))),))

    first = plan(alike).first
    assert isinstance(first, Cure)
    assert "first" == first.procedure
    assert isinstance(plan(even).first, Cure)
    assert isinstance(plan(nothing).first, Ask)


def test_end_where_nothing_pays() -> None:
    """A cure that costs more than it saves is not tried: the plan ends at its price."""
    assert Refer("Written off", 100.0) == plan(one_cause(Remedy("cure", 0, 60.0, (0.5,)))).first


def test_chance_of_a_cure() -> None:
    """A plan says how likely it ends in a cure: 0.9, and of the rest 0.5."""
    found = plan(one_cause(Remedy("good", 0, 5.0, (0.9,)), Remedy("fair", 0, 5.0, (0.5,)))).first

    assert 0.95 == pytest.approx(found.cured)
    assert 5.5 + 5.0 == pytest.approx(found.cost)


def test_open_device_is_used() -> None:
    """A cure at the level of the test before it is dearer by its own work alone: opening was paid once."""
    ways = ((0.0, 10.0), (5.0, 0.0))
    trial = Trial("look", 1, 1.0, ("a", "b"), ((1.0, 0.0), (0.0, 1.0)))
    cures = (Remedy("mend-a", 1, 3.0, (1.0, 0.0)), Remedy("mend-b", 0, 2.0, (0.0, 1.0)))
    found = plan(Problem(("a", "b"), (0.5, 0.5), (trial,), cures, ways, End("Written off", 1e3))).first

    assert isinstance(found, Cure)
    assert "mend-b" == found.procedure
    assert 2 + 0.5 * (10 + 3 + 5) == pytest.approx(found.cost)


def test_outcome_that_cannot_come_is_left_out() -> None:
    """An outcome that no cause shows has no place in the plan."""
    trial = Trial("look", 0, 0.1, ("a", "b", "never"), ((1.0, 0.0), (0.0, 1.0), (0.0, 0.0)))
    cures = (Remedy("mend-a", 0, 9.0, (0.9, 0.0)), Remedy("mend-b", 0, 9.0, (0.0, 0.9)))

    found = plan(Problem(("a", "b"), (0.5, 0.5), (trial,), cures, ((0.0,),), End("Written off", 50.0))).first

    assert isinstance(found, Ask)
    assert ["a", "b"] == [one.outcome for one in found.outcomes]
