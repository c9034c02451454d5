"""A plan followed to its ends: chances, minutes, what else it may begin with, and why it begins as it does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchleaf.decisions import bayes
from benchleaf.decisions.follow import Follow, drawn
from benchleaf.decisions.plan import Ask, Cure, Refer, plan
from benchleaf.decisions.problem import End, Problem, Remedy
from benchleaf.decisions.reason import percent, reason
from tests.decisions.instances import invented
from tests.decisions.oracles import cheapest


@pytest.mark.parametrize("seed", range(8))
def test_time_is_reckoned_as_money_is(seed: int) -> None:
    """On a clock that counts money, the time of a plan is its cost without the price of the ends that did not cure."""
    problem = invented(seed, 4, 3, 4, outcomes=3, levels=1 + seed % 3)
    first = plan(problem).first

    found = Follow(problem).seconds(first)

    assert first.cost - (1 - first.cured) * problem.end.price == pytest.approx(found)


@pytest.mark.parametrize("seed", range(8))
def test_every_way_ends(seed: int) -> None:
    """The lines of a whole plan lead to ends whose chances sum to 1, and whose minutes to those of the plan."""
    problem = invented(seed, 4, 3, 4, outcomes=3)
    first, follow = plan(problem).first, Follow(problem)

    lines, lightest = drawn(follow, first, 10**6)
    referred = [line for line in lines if isinstance(line.node, Refer)]
    cured = [line for line in lines if isinstance(line.node, Cure)]

    assert 0.0 == lightest
    assert 1 == pytest.approx(sum(line.chance for line in referred) + sum(line.cured for line in cured))
    assert follow.seconds(first) == pytest.approx(
        sum(line.chance * line.after for line in referred) + sum(line.cured * line.after for line in cured)
    )


def test_long_plan_leaves_out_what_is_seldom() -> None:
    """Where there are too many lines, ways that are seldom gone end early, and each such place is a line."""
    problem = next(one for one in (invented(seed, 5, 4, 5) for seed in range(9)) if isinstance(plan(one).first, Ask))
    first, follow = plan(problem).first, Follow(problem)

    lines, lightest = drawn(follow, first, 8)

    assert len(lines) <= 8
    assert 0 < lightest
    assert all(line.chance < lightest for line in lines if line.node is None)
    assert any(line.node is None for line in lines)


@pytest.mark.parametrize("seed", range(8))
def test_each_beginning_costs_what_no_policy_undercuts(seed: int) -> None:
    """What it costs to begin with each action is what that action and the cheapest policy after it cost."""
    problem = invented(seed, 3, 2, 3, outcomes=3, levels=1 + seed % 3)

    found = {(one.kind, one.id): one.high for one in plan(problem).starts}

    wanted = {("refer", problem.end.title): problem.end.price}
    for number, test in enumerate(problem.tests):
        left = problem.tests[:number] + problem.tests[number + 1 :]
        seen = [bayes.seen(problem.shares, given) for given in test.given]
        wanted["test", test.id] = problem.test_cost(0, number) + sum(
            sum(one) * cheapest(replace(problem, tests=left, shares=bayes.posterior(one)), test.level) for one in seen
        )
    for number, cure in enumerate(problem.cures):
        then = bayes.failed(problem.shares, cure.success)
        rest = replace(
            problem, shares=bayes.posterior(then), cures=problem.cures[:number] + problem.cures[number + 1 :]
        )
        wanted["cure", cure.id] = problem.cure_cost(0, number) + sum(then) * cheapest(rest)
    assert wanted == pytest.approx(found)
    assert plan(problem).high == pytest.approx(min(found.values()))


def test_reason_names_the_next_best() -> None:
    """The reason sets what the plan costs beside what it costs to begin with the next best."""
    cures = (Remedy("good", 0, 10.0, (0.9,)), Remedy("dear", 0, 30.0, (0.9,)))
    found = plan(Problem(("only",), (1.0,), (), cures, ((0.0,),), End("Written off", 100.0)))

    # 10 + 0.1 (30 + 0.1 x 100), and 30 + 0.1 (10 + 0.1 x 100).
    assert (
        "It ends the fault in 90 %: with it first, the way to the end costs 14.00 EUR, with “Dear” first 32.00 EUR."
        == (reason(found, {("cure", "dear"): "Dear"}, "EUR"))
    )


def test_reason_where_nothing_is_left() -> None:
    """Where there is one thing to do, no other is named."""
    found = plan(Problem(("only",), (1.0,), (), (), ((0.0,),), End("Written off", 100.0)))

    assert "Nothing else is left to do." == reason(found, {}, "EUR")


@pytest.mark.parametrize(
    ("share", "shown"), [(0.0, "0 %"), (0.001, "< 1 %"), (0.014, "1 %"), (0.9996, "> 99 %"), (1.0, "100 %")]
)
def test_percent(share: float, shown: str) -> None:
    """What is neither nothing nor all is never called so."""
    assert shown == percent(share)
