"""How long a wet part takes to dry, against a solved boundary layer, psychrometry and tabled waits."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import pytest
from CoolProp.CoolProp import HAPropsSI
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics.cooling import shortest_wait
from benchleaf.physics.drying import (
    Air,
    Film,
    Patch,
    drying_time,
    evaporation,
    film_time,
    mass_transfer,
    most_runoff,
    runoff_reach,
    trapped_time,
    wet_bulb,
    wet_bulb_factor,
)
from benchleaf.physics.types import CubicMetres, MetresPerSecond, OutOfRange, SquareMetres
from tests.physics.cases import DRYING, ISOPROPANOL, WATER, air, millilitres

if TYPE_CHECKING:
    from collections.abc import Sequence


def patch(area: float, volume: float = 1.0, film: Film = Film.FLOODED) -> Patch:
    """Return so many cm² wetted with so many mL."""
    return Patch(millilitres(volume), SquareMetres(area * 1e-4), film)


class Dried(NamedTuple):
    """A film of 50 µm on an area (cm²): its time, the bad end and the wait that is named, s."""

    name: str
    area: float
    over: Air
    central: float
    bad: float
    verdict: float


# Another program of the same formulas (2M); tolerance 3 %.
@pytest.mark.outside
@pytest.mark.parametrize(
    "row",
    [
        Dried("isopropanol", 2, air(), 68.4, 184, 184),
        Dried("isopropanol", 2, air(speed=3), 12.5, 33.6, 60),
        Dried("ethanol", 1, air(22, 3), 9.35, 30.2, 60),
        Dried("acetone", 2, air(), 12.4, 60.9, 61),
        Dried("n-heptane", 2, air(), 32.1, 66, 66),
        Dried("d-limonene", 2, air(), 712, 769, 769),
        Dried("deionised-water", 2, air(), 567, 1699, 1699),
        Dried("deionised-water", 2, air(20, humidity=0.7), 1001, 3048, 3048),
    ],
    ids=lambda row: f"{row.name}-{row.over.speed:g}-{row.over.humidity:g}",
)
def test_drying(row: Dried) -> None:
    """The time, its bad end and the wait that is named are the tabled ones."""
    liquid = SUBSTANCES[row.name]
    found = drying_time(liquid, patch(row.area), row.over, DRYING)

    assert row.central == pytest.approx(found.central, rel=0.03)
    assert row.bad == pytest.approx(found.central * wet_bulb_factor(liquid, row.over), rel=0.03)
    assert row.verdict == pytest.approx(found.worst, rel=0.03)


# Another program of the same balance (2M), 21 °C: wet bulb, and how many times slower a film dries there.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "celsius", "factor"),
    [
        ("isopropanol", 5.6, 2.7),
        ("ethanol", 1.9, 3.1),
        ("acetone", -13.2, 4.9),
        ("n-heptane", 6.7, 2.1),
        ("ethyl-acetate", -1.2, 3.1),
        ("d-limonene", 19.6, 1.1),
        ("deionised-water", 14.2, 3.0),
    ],
)
def test_wet_bulb(name: str, celsius: float, factor: float) -> None:
    """A drying film falls to the tabled temperature and dries the tabled times more slowly there."""
    assert celsius == pytest.approx(wet_bulb(SUBSTANCES[name], air()), abs=0.06)
    assert factor == pytest.approx(wet_bulb_factor(SUBSTANCES[name], air()), abs=0.06)


@pytest.mark.outside
@pytest.mark.parametrize(("celsius", "humidity"), [(21, 0.5), (25, 0.3), (30, 0.7), (15, 0.8)])
def test_wet_bulb_of_water(celsius: float, humidity: float) -> None:
    """The wet bulb of water is CoolProp's psychrometric one within 0.7 K."""
    wanted = HAPropsSI("B", "T", celsius + 273.15, "R", humidity, "P", 101325) - 273.15

    assert wanted == pytest.approx(wet_bulb(WATER, air(celsius, humidity=humidity)), abs=0.7)


@pytest.mark.outside
@pytest.mark.parametrize(("schmidt", "tolerance"), [(0.6, 0.015), (1.0, 0.003), (1.5, 0.01), (2.0, 0.015)])
def test_boundary_layer(schmidt: float, tolerance: float) -> None:
    """The factor 0.664 Sc^(1/3) is what Blasius' equation with a scalar gives, solved by steps."""

    def slope(_: float, y: Sequence[float]) -> list[float]:
        return [y[1], y[2], -y[0] * y[2] / 2, y[4], -schmidt * y[0] * y[4] / 2]

    solved = solve_ivp(slope, (0, 12), [0, 0, 0.3320574, 0, 1.0], rtol=1e-9, atol=1e-12)
    at_wall = 1 / solved.y[3, -1]

    assert 2 * at_wall == pytest.approx(0.664 * schmidt ** (1 / 3), rel=tolerance)


# Pools of a metre: k = 0.67 cm/s U^0.78 (18/M)^(1/3), the EPA's form (from memory; its constant re-derived).
def pool(speed: float, pressure: float, celsius: float) -> float:
    """Return what a pool of isopropanol of a metre gives off, kg/m²s, by the EPA's form."""
    k = 0.0067 * speed**0.78 * (18 / 60.095) ** (1 / 3)
    return float(k * 0.060095 * pressure / (8.314 * (celsius + 273.15)))


@pytest.mark.outside
def test_pool_formula() -> None:
    """The form for pools that the next test leans on gives the tabled 4.84 g/min for a square metre."""
    assert 4.84 == pytest.approx(pool(0.1, 33 * 133.322, 20) * 60e3, rel=0.02)


@pytest.mark.outside
@pytest.mark.parametrize(("speed", "slower"), [(3.0, 2.7), (0.1, 7.0)])
def test_patch_dries_faster_than_pool(speed: float, slower: float) -> None:
    """A patch of 2 cm² dries 2.7 to 7 times faster than a pool of a metre: within a fifth of what was tabled."""
    from_patch = evaporation(ISOPROPANOL, SquareMetres(2e-4), air(20, speed), DRYING)

    assert slower == pytest.approx(from_patch / pool(speed, 4207.0, 20), rel=0.2)


# Runoff: a disc 0.2 mm deep (arithmetic from common practice), mm.
@pytest.mark.outside
@pytest.mark.parametrize(("volume", "reach"), [(0.2, 18), (0.5, 28), (1, 40), (2, 56)])
def test_runoff(volume: float, reach: float) -> None:
    """A liquid runs as far as was tabled."""
    assert reach == round(runoff_reach(millilitres(volume), DRYING) * 1e3)


@pytest.mark.parametrize("volume", [0.01, 0.2, 1, 50])
def test_runoff_there_and_back(volume: float) -> None:
    """The volume that reaches as far as a liquid runs is the volume of that liquid."""
    reach = runoff_reach(millilitres(volume), DRYING)

    assert pytest.approx(millilitres(volume)) == most_runoff(reach, DRYING)


# Trapped liquid (common practice): h at 21 °C and in warm air.
@pytest.mark.parametrize(
    ("name", "celsius", "hours"),
    [
        ("isopropanol", 21, 12),
        ("isopropanol", 36, 6),
        ("isopropanol", 60, 2),
        ("acetone", 60, 2),
        ("deionised-water", 21, 48),
        ("deionised-water", 32, 24),
        ("deionised-water", 65, 3),
        ("d-limonene", 21, 48),
    ],
)
def test_trapped(name: str, celsius: float, hours: float) -> None:
    """Trapped liquid takes the hours of practice, halved for each step of warmth."""
    assert hours == pytest.approx(trapped_time(SUBSTANCES[name], air(celsius)).worst / 3600, rel=0.01)


def test_trapped_in_damp_air() -> None:
    """In air that is nearly full trapped water takes longer, a solvent does not."""
    water, solvent = (trapped_time(liquid, air(humidity=0.9)).worst for liquid in (WATER, ISOPROPANOL))

    assert 5 * 48 * 3600 == pytest.approx(water)
    assert 12 * 3600 == pytest.approx(solvent)


@pytest.mark.parametrize(
    "asked", [lambda damp: drying_time(WATER, patch(2), damp, DRYING), lambda damp: trapped_time(WATER, damp)]
)
def test_water_in_full_air(asked: object) -> None:
    """Water in air that is full never dries: no wait is named."""
    assert callable(asked)
    with pytest.raises(OutOfRange, match="never dries"):
        asked(air(humidity=1.0))


def test_film_is_no_thicker_than_the_liquid() -> None:
    """A little liquid on a large area makes a thin film, wiped ones are thinner and sockets hold more."""
    little, full = (film_time(ISOPROPANOL, patch(2, volume), air(), DRYING) for volume in (0.005, 1))
    wiped, socket = (film_time(ISOPROPANOL, patch(2, film=film), air(), DRYING) for film in (Film.WIPED, Film.SOCKET))

    assert [little, wiped, socket] == pytest.approx([full / 2, full * 20 / 50, full * 200 / 50])


def test_area_not_known() -> None:
    """With no area given the liquid covers what it can at full film: 0.05 mL at 50 µm is 10 cm²."""
    unknown = film_time(ISOPROPANOL, Patch(millilitres(0.05)), air(), DRYING)

    assert film_time(ISOPROPANOL, patch(10), air(), DRYING) == pytest.approx(unknown)


def test_still_air_dries_too() -> None:
    """In still air a patch dries by diffusion alone, and does dry."""
    area = SquareMetres(2e-4)

    assert 2 * 1.0e-5 / math.sqrt(2e-4) == pytest.approx(mass_transfer(ISOPROPANOL, area, air(speed=0), DRYING))


@pytest.mark.parametrize("name", SUBSTANCES)
def test_wait_that_is_named_is_enough(name: str) -> None:
    """The wait that is named is whole seconds, at least a minute, and no less than the bad end."""
    found = drying_time(SUBSTANCES[name], patch(2), air(), DRYING)
    wait = shortest_wait(found)

    assert float(wait).is_integer()
    assert wait >= max(60, found.central * wet_bulb_factor(SUBSTANCES[name], air()))


@settings(deadline=None, max_examples=60)
@given(
    name=st.sampled_from(sorted(SUBSTANCES)),
    celsius=st.floats(15, 35),
    speed=st.floats(0, 5),
    humidity=st.floats(0, 0.9),
    area=st.floats(0.5, 50),
)
def test_monotone(name: str, celsius: float, speed: float, humidity: float, area: float) -> None:
    """Faster or warmer or drier air never makes a wait longer, nor does less liquid."""
    liquid, here = SUBSTANCES[name], air(celsius, speed, humidity)

    def wait(over: Air = here, volume: float = 1.0) -> float:
        return film_time(liquid, patch(area, volume), over, DRYING) * (1 + 1e-9)

    usual = film_time(liquid, patch(area), here, DRYING)

    assert film_time(liquid, patch(area), replace(here, speed=MetresPerSecond(speed * 1.5)), DRYING) <= wait()
    assert film_time(liquid, patch(area), air(celsius + 3, speed, humidity), DRYING) <= wait()
    assert film_time(liquid, patch(area), air(celsius, speed, humidity * 0.5), DRYING) <= wait()
    assert film_time(liquid, patch(area, 0.01), here, DRYING) <= wait()
    assert drying_time(liquid, patch(area), here, DRYING).worst >= usual


@pytest.mark.parametrize(
    ("argument", "build"),
    [
        ("the temperature of the air", lambda: air(80)),
        ("the air speed", lambda: air(speed=50)),
        ("the humidity", lambda: air(humidity=1.2)),
        ("the wetted area", lambda: drying_time(ISOPROPANOL, patch(2000, 200), air(), DRYING)),
        ("the wetted area", lambda: drying_time(ISOPROPANOL, patch(0), air(), DRYING)),
        ("the volume of liquid", lambda: drying_time(ISOPROPANOL, patch(2, 0), air(), DRYING)),
        ("the volume of liquid", lambda: runoff_reach(CubicMetres(0.0), DRYING)),
        ("the temperature of the air", lambda: trapped_time(WATER, air(5))),
    ],
)
def test_out_of_range(argument: str, build: object) -> None:
    """Hot air, storms, pools and no liquid at all are refused by name."""
    assert callable(build)
    with pytest.raises(OutOfRange, match=argument):
        build()
