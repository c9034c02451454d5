"""Estimates, refusals, rounding to one side and constants of a shop's own."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.physics.constants import DEFAULT, Constant, method, replaced
from benchleaf.physics.rounding import down, down_to_figures, up
from benchleaf.physics.types import End, Estimate, OutOfRange, within


def test_worst_end() -> None:
    """A verdict goes by the end that is named bad."""
    high = Estimate(2.0, 1.0, 3.0, "s", "m", "s")

    assert (3.0, 1.0) == (high.worst, replace(high, bad=End.LOW).worst)


def test_ends_in_order() -> None:
    """An estimate whose ends are not in order is a mistake of ours, and loud."""
    with pytest.raises(ValueError, match="does not hold"):
        Estimate(2.0, 2.5, 3.0, "s", "m", "s")


def test_refusal_says_all() -> None:
    """A refusal says which argument, what it is, where the formula holds and why."""
    with pytest.raises(OutOfRange) as caught:
        within("the speed", 50, (0, 20), "m/s", "faster air blows the liquid off")

    assert ("the speed", "50 m/s", "0 to 20 m/s") == (caught.value.argument, caught.value.given, caught.value.holds)
    assert "the speed is 50 m/s, and this holds for 0 to 20 m/s: faster air blows the liquid off" == str(caught.value)


def test_no_number_is_out_of_range() -> None:
    """A number that is none lies in no range."""
    with pytest.raises(OutOfRange):
        within("the speed", float("nan"), (0, 20), "m/s", "it is no number")


@settings(deadline=None, max_examples=60)
@given(value=st.floats(-1e6, 1e6), places=st.integers(0, 6))
def test_rounding_keeps_its_side(value: float, places: int) -> None:
    """Rounded up is never less and rounded down never more, and neither moves by a whole step."""
    assert value <= up(value, places) <= value + 10.0**-places * 1.0001
    assert value - 10.0**-places * 1.0001 <= down(value, places) <= value


@settings(deadline=None, max_examples=60)
@given(value=st.floats(1e-6, 1e6), figures=st.integers(1, 5))
def test_figures(value: float, figures: int) -> None:
    """A number cut to some figures is never more, and not less by more than one in the last of them."""
    found = down_to_figures(value, figures)

    assert value * (1 - 10.0 ** (1 - figures)) * 0.9999 <= found <= value


@pytest.mark.parametrize(("value", "found"), [(0.08204, 0.082), (0.0899999, 0.089), (0.0, 0.0), (12.96, 12.0)])
def test_two_figures(value: float, found: float) -> None:
    """A torque is cut to two figures."""
    assert found == down_to_figures(value)


def _constants() -> list[Constant]:
    groups = [getattr(DEFAULT, group.name) for group in fields(DEFAULT)]
    return [getattr(group, entry.name) for group in groups for entry in fields(group)]


@pytest.mark.parametrize("constant", _constants())
def test_constant(constant: Constant) -> None:
    """Each constant lies between its ends, has a source, and its worst end is one of them."""
    assert constant.low <= constant.central <= constant.high
    assert constant.source
    assert {constant.worst, constant.best} <= {constant.low, constant.central, constant.high}


def test_own_constant_is_named() -> None:
    """A constant that a shop replaced is named in the method, and default ones are not."""
    own = replace(DEFAULT.drying, flooded=replace(DEFAULT.drying.flooded, central=80e-6, high=80e-6))

    assert ("flooded",) == replaced(own, DEFAULT.heat)
    assert "film; with the shop's own flooded" == method("film", own)
    assert "film" == method("film", DEFAULT.drying)
