"""Problems with nothing, certain and impossible in them: each is planned, and no policy is cheaper."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchleaf.decisions.plan import plan
from benchleaf.decisions.problem import End, Problem, Remedy, Trial
from tests.decisions.oracles import cheapest
from tests.properties.profile import examples

COSTS = st.sampled_from([0.0, 1.0, 2.0, 5.0, 5.0, 30.0])
CHANCES = st.sampled_from([0.0, 0.1, 0.5, 0.9, 1.0])
LEVELS = st.integers(0, 1)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Return a problem of up to three causes, two tests and three cures, with many ties, zeros and ones."""
    causes = draw(st.integers(1, 3))
    weights = draw(st.lists(st.sampled_from([0.0, 1.0, 1.0, 3.0]), min_size=causes, max_size=causes).filter(any))
    tests = []
    for number in range(draw(st.integers(0, 2))):
        first = tuple(draw(CHANCES) for _ in range(causes))
        given_all = (first, tuple(1 - chance for chance in first))
        tests.append(Trial(f"test-{number}", draw(LEVELS), draw(COSTS), ("a", "b"), given_all))
    cures = tuple(
        Remedy(f"cure-{number}", draw(LEVELS), draw(COSTS), tuple(draw(CHANCES) for _ in range(causes)))
        for number in range(draw(st.integers(0, 3)))
    )
    travel = ((0.0, draw(COSTS)), (draw(COSTS), 0.0))
    names = tuple(f"cause-{number}" for number in range(causes))
    shares = tuple(weight / sum(weights) for weight in weights)
    return Problem(names, shares, tuple(tests), cures, travel, End("Written off", draw(COSTS)))


@examples(300)
@given(problems())
def test_odd_problem(problem: Problem) -> None:
    """The plan costs what the cheapest of all policies costs, and its tree adds up to that."""
    found = plan(problem)

    assert abs(cheapest(problem) - found.high) <= 1e-9 * max(found.high, 1.0)
    assert found.exact
    assert abs(found.first.cost - found.high) <= 1e-9 * max(found.high, 1.0)
    assert 0 <= found.first.cured <= 1 + 1e-12
