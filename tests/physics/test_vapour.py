"""Vapour at the bench, in the room and in a closed case, against equations solved by steps and published tables."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics import vapour_cures
from benchleaf.physics.liquid import vapour_volume
from benchleaf.physics.types import (
    Celsius,
    CubicMetres,
    MetresPerSecond,
    OutOfRange,
    PerSecond,
    Seconds,
)
from benchleaf.physics.vapour import (
    Room,
    day_mean,
    eight_hour_limit,
    explosive_share,
    lower_limit_ppm,
    peak,
    short_limit,
    short_mean,
    window_mean,
    zones,
)
from tests.physics.cases import ETHANOL, ISOPROPANOL, VAPOUR, WATER, millilitres, room
from tests.physics.oracles import stepped

if TYPE_CHECKING:
    from benchleaf.library.substance import Substance

ZONES = zones(room(), 0.1, VAPOUR)
"""45 m³, 3 changes an hour, 0.1 m/s, 20 °C: the room of all checks."""


def empties(_: float, state: list[float]) -> list[float]:
    """Return how fast near and far concentration change, and the near one's integral grows, with no release."""
    near, far, _seen = state
    out = ZONES.exchange * (near - far)
    return [-out / ZONES.near, (out - ZONES.flow * far) / ZONES.far, near]


# scipy's solution by steps (2M), 0.01 %.
@pytest.mark.outside
def test_rates() -> None:
    """The pair of zones empties at the two tabled rates."""
    assert (-8.2501e-4, -0.252522) == pytest.approx(ZONES.rates, rel=1e-4)


# The same: near and far after a puff of 1 m³; 0.1 %.
@pytest.mark.outside
@pytest.mark.parametrize(("t", "near", "far"), [(60, 0.021077, 0.021006), (600, 0.013499, 0.013455)])
def test_puff(t: float, near: float, far: float) -> None:
    """A puff has thinned near and far as was tabled, and as steps here show."""
    stepped_near, stepped_far, _ = stepped(empties, [1 / ZONES.near, 0.0, 0.0], t)

    assert (near, far) == pytest.approx(ZONES.puff(Seconds(t)), rel=1e-3)
    assert (stepped_near, stepped_far) == pytest.approx(ZONES.puff(Seconds(t)), rel=1e-6)


@pytest.mark.outside
def test_puff_integral() -> None:
    """The sum of a puff over a quarter of an hour is 22.734 s/m³, and to the end 1/Q + 1/beta exactly."""
    *_, seen = stepped(empties, [1 / ZONES.near, 0.0, 0.0], 900.0)
    added, _ = integrate.quad(lambda t: ZONES.puff(Seconds(t))[0], 0, 900, points=[10, 60], limit=200)

    assert 22.734 == pytest.approx(ZONES.integral(Seconds(900.0)), rel=1e-4)
    assert (seen, added) == pytest.approx((ZONES.integral(Seconds(900.0)),) * 2, rel=1e-6)
    assert 35.5086 == pytest.approx(ZONES.integral(Seconds(1e7)), rel=1e-5)
    assert 1 / ZONES.flow + 1 / ZONES.exchange == pytest.approx(ZONES.integral(Seconds(1e7)), rel=1e-12)


@pytest.mark.outside
def test_peak_by_steps() -> None:
    """A release over ten seconds peaks where the equations solved by steps do."""

    def fed(_: float, state: list[float]) -> list[float]:
        near, far = state
        out = ZONES.exchange * (near - far)
        return [(0.1 - out) / ZONES.near, (out - ZONES.flow * far) / ZONES.far]

    assert stepped(fed, [0.0, 0.0], 10.0)[0] == pytest.approx(ZONES.peak(Seconds(10.0)), rel=1e-6)


class AtBench(NamedTuple):
    """A volume (mL) in a room: 15-minute mean near by, peak of a release over 10 s (ppm), and its share of the LEL."""

    liquid: Substance
    volume: float
    where: Room
    mean: float
    highest: float
    share: float


# Tabled by another program (2M); tolerance 1 %.
@pytest.mark.outside
@pytest.mark.parametrize(
    "row",
    [
        AtBench(ISOPROPANOL, 3, room(), 23.9, 774, 0.039),
        AtBench(ISOPROPANOL, 2, room(), 15.9, 516, 0.026),
        AtBench(ETHANOL, 1, room(30, 2), 14.7, 342, 0.011),
    ],
    ids=["3-isopropanol", "2-isopropanol", "1-ethanol"],
)
def test_bench(row: AtBench) -> None:
    """The mean and the peak at the bench are the tabled ones, and so is the share of the explosive limit."""
    ppm = peak(row.liquid, millilitres(row.volume), row.where, VAPOUR).central

    assert row.mean == pytest.approx(
        short_mean(row.liquid, millilitres(row.volume), row.where, VAPOUR).central, rel=0.01
    )
    assert row.highest == pytest.approx(ppm, rel=0.01)
    assert row.share == pytest.approx(explosive_share(row.liquid, ppm), abs=6e-4)


# 3 mL isopropanol: 0.9446 L of vapour; well mixed 20.99 ppm at once and 14.77 ppm over the quarter hour (decay form).
@pytest.mark.outside
def test_well_mixed() -> None:
    """Spread through the whole room at once the vapour gives the tabled numbers."""
    vapour = vapour_volume(ISOPROPANOL, millilitres(3), Celsius(20.0))
    at_once = vapour_cures.well_mixed(vapour, CubicMetres(45.0))
    turns = 900 * 3 / 3600

    assert 0.9446 == pytest.approx(vapour * 1e3, rel=0.001)
    assert 20.99 == pytest.approx(at_once, rel=0.01)
    assert 14.77 == pytest.approx(at_once * -math.expm1(-turns) / turns, rel=0.01)


# 100 mL isopropanol over 15 minutes: first 15-minute mean 578, as a puff 795 ppm (integral form, 2 %).
@pytest.mark.outside
def test_puff_bounds_a_long_release() -> None:
    """A release over minutes has a lower mean than the puff that stands for it, and both are the tabled ones."""
    vapour = vapour_volume(ISOPROPANOL, millilitres(100), Celsius(20.0))
    summed, _ = integrate.quad(lambda t: ZONES.integral(Seconds(t)), 0, 900, limit=200)

    puff = short_mean(ISOPROPANOL, millilitres(100), room(), VAPOUR).central

    assert 578 == pytest.approx(vapour * summed / 900**2 * 1e6, rel=0.02)
    assert 795 == pytest.approx(puff, rel=0.02)


def test_window_after_a_release() -> None:
    """A window that begins at the release is the plain mean; later ones see less, and two releases add."""
    dose = millilitres(1)
    now, later = (window_mean(ISOPROPANOL, [(dose, Seconds(ago))], room(), VAPOUR).central for ago in (0.0, 600.0))
    both = window_mean(ISOPROPANOL, [(dose, Seconds(0.0)), (dose, Seconds(600.0))], room(), VAPOUR).central

    assert short_mean(ISOPROPANOL, dose, room(), VAPOUR).central == now
    assert later < now
    assert now + later == pytest.approx(both, rel=1e-12)


@pytest.mark.outside
def test_day() -> None:
    """The 8-hour mean of a day's liquid is its vapour times 1/Q + 1/beta over eight hours, as the integral shows."""
    vapour = vapour_volume(ISOPROPANOL, millilitres(10), Celsius(20.0))
    wanted = vapour * ZONES.integral(Seconds(1e7)) / 28800 * 1e6

    assert wanted == pytest.approx(day_mean(ISOPROPANOL, millilitres(10), room(), VAPOUR).central, rel=1e-9)


# NIOSH Pocket Guide and OSHA, ppm (seen); three times the 8-hour limit where there is no short one (from memory).
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "policy", "eight", "short"),
    [
        ("isopropanol", "strictest", 400, 500),
        ("isopropanol", "osha-pel", 400, 1200),
        ("acetone", "strictest", 250, 750),
        ("acetone", "osha-pel", 1000, 3000),
        ("n-heptane", "niosh-rel", 85, 440),
        ("d-limonene", "strictest", None, None),
    ],
)
def test_limits(name: str, policy: str, eight: float | None, short: float | None) -> None:
    """The limits are those of the policy, and none where there are none."""
    exposure = SUBSTANCES[name].exposure
    found = eight_hour_limit(exposure, policy), short_limit(exposure, policy, VAPOUR)

    assert (eight, short) == tuple(None if value is None else value.value for value in found)


def test_saturation_caps_the_peak() -> None:
    """However much is spilled, no more vapour stands at the bench than saturated air holds."""
    assert 41500 == pytest.approx(peak(ISOPROPANOL, millilitres(500), room(), VAPOUR).worst, rel=0.01)


@settings(deadline=None, max_examples=60)
@given(
    volume=st.floats(0.01, 50),
    size=st.floats(10, 200),
    changes=st.floats(0.5, 12),
    speed=st.floats(0.05, 1.0),
    less=st.floats(0.25, 1.0),
)
def test_monotone(volume: float, size: float, changes: float, speed: float, less: float) -> None:
    """Less liquid, more ventilation and faster air over the bench never make more vapour."""
    here = replace(room(size, changes), air_speed=MetresPerSecond(speed))

    def mean(liquid: float, where: Room) -> float:
        return short_mean(ISOPROPANOL, millilitres(liquid), where, VAPOUR).worst

    most = mean(volume, here) * (1 + 1e-9)

    assert mean(volume * less, here) <= most
    assert mean(volume, replace(here, air_changes=PerSecond(changes / 3600 / less))) <= most
    assert mean(volume, replace(here, air_speed=MetresPerSecond(speed / less))) <= most
    assert peak(ISOPROPANOL, millilitres(volume * less), here, VAPOUR).worst <= peak(
        ISOPROPANOL, millilitres(volume), here, VAPOUR
    ).worst * (1 + 1e-9)


@pytest.mark.parametrize(
    ("argument", "build"),
    [
        ("the volume of the room", lambda: room(1)),
        ("the air changes", lambda: room(changes=0)),
        ("the air speed", lambda: replace(room(), air_speed=MetresPerSecond(0.0))),
        ("the volume of liquid", lambda: short_mean(ISOPROPANOL, millilitres(0), room(), VAPOUR)),
        ("the liquid", lambda: lower_limit_ppm(WATER)),
    ],
)
def test_out_of_range(argument: str, build: object) -> None:
    """A cupboard, a room without air, no liquid and a liquid that cannot burn are refused by name."""
    assert callable(build)
    with pytest.raises(OutOfRange, match=argument):
        build()
