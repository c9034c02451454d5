"""How much liquid stays below a limit, and what air clears a room: published examples, and each number written back."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics import vapour_cures
from benchleaf.physics.liquid import vapour_volume
from benchleaf.physics.types import Celsius, CubicMetres, CubicMetresPerSecond, Fraction, OutOfRange, PerSecond
from benchleaf.physics.vapour import (
    day_mean,
    eight_hour_limit,
    explosive_share,
    lower_limit_ppm,
    peak,
    short_limit,
    short_mean,
)
from tests.physics.cases import ETHANOL, ISOPROPANOL, VAPOUR, room

if TYPE_CHECKING:
    from benchleaf.library.substance import Substance


# 10 % of the LEL (calculated), 2 % before rounding down.
@pytest.mark.outside
@pytest.mark.parametrize(("liquid", "case", "allowed"), [(ISOPROPANOL, 60, 0.00038), (ETHANOL, 90, 0.00068)])
def test_case(liquid: Substance, case: float, allowed: float) -> None:
    """Next to nothing may be shut into a case, and that much is at most a tenth of the explosive limit."""
    air_inside = CubicMetres(case * 1e-6)
    found = vapour_cures.most_liquid_case(liquid, air_inside, Celsius(20.0), VAPOUR)

    assert allowed == pytest.approx(found * 1e6, rel=0.03)
    assert vapour_cures.case_share(liquid, found, air_inside, Celsius(20.0)) <= 0.10
    assert vapour_cures.case_share(liquid, CubicMetres(found + 1e-11), air_inside, Celsius(20.0)) > 0.10


# 5 mL isopropanol (0.785 g/mL, 3.925 g): 53.2 ppm, 0.266 % of the LEL, in 30 m³; 1.597 %, 80 % of it, in 0.1 m³.
@pytest.mark.outside
@pytest.mark.parametrize(("volume", "ppm", "share"), [(30, 53.2, 0.00266), (0.1, 15970, 0.80)])
def test_spill(volume: float, ppm: float, share: float) -> None:
    """A spill fully evaporated gives the worked example's concentration and share."""
    vapour = vapour_volume(ISOPROPANOL, CubicMetres(5e-6 * 785 / 786.7), Celsius(25.0))
    found = vapour_cures.well_mixed(vapour, CubicMetres(volume))

    assert ppm == pytest.approx(found, rel=0.01)
    assert share == pytest.approx(explosive_share(ISOPROPANOL, found), rel=0.01)


# CDC, MMWR 28 October 1994, table S3-1 (seen): minutes for 99 and 99.9 % removal.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("changes", "row"),
    [
        *[(1, (138, 276, 414)), (2, (69, 138, 207)), (4, (35, 69, 104)), (6, (23, 46, 69)), (8, (17, 35, 52))],
        *[(10, (14, 28, 41)), (12, (12, 23, 35)), (15, (9, 18, 28)), (20, (7, 14, 21)), (50, (3, 6, 8))],
    ],
)
def test_clearing(changes: float, row: tuple[int, ...]) -> None:
    """A room clears of 90, 99 and 99.9 % in the minutes that the CDC prints."""
    pace = PerSecond(changes / 3600)

    assert row == tuple(round(vapour_cures.clearing_time(pace, Fraction(left)) / 60) for left in (0.1, 0.01, 0.001))


# Design Guide for HVAC Systems, p. 106 (seen): from 20 down to 1.4 %, mixing efficiency 0.2, 2 changes a minute.
@pytest.mark.outside
def test_purge() -> None:
    """The design guide's gas is down to its explosive limit after 6.65 minutes, 13.3 changes of air."""
    found = vapour_cures.clearing_time(PerSecond(2 / 60), Fraction(1.4 / 20), mixing=0.2)

    assert 6.65 == pytest.approx(found / 60, rel=0.005)
    assert 13.3 == pytest.approx(found / 30, rel=0.005)


# Q = 403e6 SG ER K/(M C), University of Toledo after the ACGIH (seen): 1 pint/h isopropanol, K 5, 400 ppm: 1104 cfm.
@pytest.mark.outside
def test_dilution() -> None:
    """The air that a steady release needs is the industrial ventilation formula's."""
    pint, cubic_foot = 473.176473e-6, 0.028316846592
    vapour = vapour_volume(ISOPROPANOL, CubicMetres(pint * 785 / 786.7), Celsius(21.1))

    flow = vapour_cures.dilution_flow(CubicMetresPerSecond(vapour / 3600), 400, mixing=5)

    assert 1104 == pytest.approx(flow * 60 / cubic_foot, rel=0.01)


# ---- what would cure it: each number is written back in


@pytest.mark.parametrize("name", ["isopropanol", "ethanol", "acetone", "n-heptane", "ethyl-acetate"])
def test_most_liquid(name: str) -> None:
    """The most liquid holds each limit at the worst end, and a twentieth of a millilitre more does not."""
    liquid = SUBSTANCES[name]
    eight, short = eight_hour_limit(liquid.exposure, "strictest"), short_limit(liquid.exposure, "strictest", VAPOUR)
    assert eight is not None
    assert short is not None
    most_short = vapour_cures.most_liquid_short(liquid, short.value, room(), VAPOUR)
    most_day = vapour_cures.most_liquid_day(liquid, eight.value, room(), VAPOUR)
    more = 0.05e-6

    assert short_mean(liquid, most_short, room(), VAPOUR).worst <= short.value
    assert short_mean(liquid, CubicMetres(most_short + more), room(), VAPOUR).worst > short.value
    assert day_mean(liquid, most_day, room(), VAPOUR).worst <= eight.value
    assert day_mean(liquid, CubicMetres(most_day + more), room(), VAPOUR).worst > eight.value


@pytest.mark.parametrize("name", ["isopropanol", "ethanol", "acetone", "n-heptane", "ethyl-acetate", "d-limonene"])
def test_most_liquid_for_the_peak(name: str) -> None:
    """The most liquid keeps the peak below a quarter of the explosive limit at the worst end."""
    liquid = SUBSTANCES[name]
    found = vapour_cures.most_liquid_peak(liquid, room(), VAPOUR)

    assert found > 0
    assert peak(liquid, found, room(), VAPOUR).worst <= 0.25 * lower_limit_ppm(liquid)


@pytest.mark.parametrize(
    ("argument", "build"),
    [
        ("the limit", lambda: vapour_cures.most_liquid_short(ISOPROPANOL, 0, room(), VAPOUR)),
        ("the share that is left", lambda: vapour_cures.clearing_time(PerSecond(1e-3), Fraction(0.0))),
    ],
)
def test_out_of_range(argument: str, build: object) -> None:
    """A limit of nothing, and a room that is to be quite clear, are refused by name."""
    assert callable(build)
    with pytest.raises(OutOfRange, match=argument):
        build()
