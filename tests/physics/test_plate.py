"""One spot held hot on a thin board, against Talbot's inversion, finite volumes and Bessel functions of others."""

from __future__ import annotations

import math
from typing import NamedTuple

import mpmath
import numpy as np
import pytest
from scipy import integrate, optimize, special

from benchleaf.physics.curve import step_curve
from benchleaf.physics.plate import Plate, Spot, dose, kernel, peak_age, steady, step
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Kelvins, Metres, OutOfRange, Seconds
from tests.physics.oracles import Rings


def board(k: float = 20.0, millimetres: float = 0.8, h: float = 10.0) -> Plate:
    """Return a board of the usual capacity."""
    return Plate(k, 2.0e6, h, Metres(millimetres * 1e-3))


def spot(r: float, r0: float) -> Spot:
    """Return a spot of radius *r0* looked at from *r* away from its middle, both in mm."""
    return Spot(Metres(r0 * 1e-3), Metres((r - r0) * 1e-3))


class Hold(NamedTuple):
    """A hold at rise D, and what three methods make of it."""

    rise: float
    r: float
    r0: float
    t: float
    k: float
    millimetres: float
    reached: float
    steady: float
    joules: float


# `reached`: Stehfest; Talbot's method with 30 digits agrees to 0.03 %, finite volumes to 0.4 % (2M). `steady`: scipy's
# K0. `joules`: content of the board and its losses summed (2M, 0.05 %). Tolerance 0.5 %.
HOLDS = [
    Hold(329, 15, 1, 3, 20, 0.8, 7.003, 83.310, 57.39),
    Hold(329, 15, 1, 10, 20, 0.8, 34.29, 83.310, 146.3),
    Hold(224, 24, 4, 60, 20, 0.8, 48.46, 56.381, 818.3),
    Hold(224, 24, 4, 600, 20, 0.8, 56.38, 56.381, 6637),
    Hold(329, 10, 1, 3, 50, 0.8, 61.81, 138.302, 115.3),
    Hold(224, 44, 4, 60, 50, 1.6, 35.54, 51.717, 3123),
    Hold(329, 39, 1, 59, 50, 0.8, 33.59, 42.606, 1427),
]
holds = pytest.mark.parametrize("hold", HOLDS, ids=lambda hold: f"{hold.r:g}mm-{hold.t:g}s-k{hold.k:g}")


@pytest.mark.outside
@holds
def test_step(hold: Hold) -> None:
    """The rise after one hold is what two other methods find."""
    found = hold.rise * step(board(hold.k, hold.millimetres), spot(hold.r, hold.r0), Seconds(hold.t))

    assert hold.reached == pytest.approx(found, rel=0.005)


@pytest.mark.outside
@holds
def test_step_against_talbot(hold: Hold) -> None:
    """The rise after one hold is what mpmath's inversion by Talbot's method gives."""
    plate, place = board(hold.k, hold.millimetres), spot(hold.r, hold.r0)

    def transform(s: mpmath.mpf) -> mpmath.mpf:
        q = mpmath.sqrt((s + plate.loss_rate) / plate.diffusivity)
        return mpmath.besselk(0, q * hold.r / 1e3) / (s * mpmath.besselk(0, q * hold.r0 / 1e3))

    with mpmath.workdps(20):
        wanted = float(mpmath.invertlaplace(transform, hold.t, method="talbot", degree=16))

    assert wanted == pytest.approx(step(plate, place, Seconds(hold.t)), rel=0.001)


@pytest.mark.outside
@pytest.mark.parametrize("hold", [HOLDS[1], HOLDS[2], HOLDS[4], HOLDS[5]])
def test_step_against_finite_volumes(hold: Hold) -> None:
    """The rise after one hold is what a board cut into rings shows, within 1 %."""
    plate = board(hold.k, hold.millimetres)
    held = Touches(Kelvins(hold.rise), Metres(hold.r0 / 1e3), Seconds(hold.t))

    _, seen = Rings(plate, hold.r0 / 1e3, 0.3).history(held, hold.r / 1e3, hold.t)

    assert seen[-1] == pytest.approx(hold.rise * step(plate, spot(hold.r, hold.r0), Seconds(hold.t)), rel=0.01)


@pytest.mark.outside
@holds
def test_steady(hold: Hold) -> None:
    """The rise in the end is the ratio of scipy's K0, and what was tabled."""
    plate = board(hold.k, hold.millimetres)
    m = math.sqrt(2 * plate.face_loss / (plate.conductivity * plate.thickness))
    wanted = hold.rise * special.k0(m * hold.r / 1e3) / special.k0(m * hold.r0 / 1e3)

    found = hold.rise * steady(plate, spot(hold.r, hold.r0))

    assert wanted == pytest.approx(found, rel=1e-12)
    assert hold.steady == pytest.approx(found, rel=1e-4)


@pytest.mark.outside
@holds
def test_dose(hold: Hold) -> None:
    """The heat put in is what the board then holds and what it has lost."""
    found = hold.rise * dose(board(hold.k, hold.millimetres), Metres(hold.r0 / 1e3), Seconds(hold.t))

    assert hold.joules == pytest.approx(found, rel=0.005)


@pytest.mark.outside
def test_dose_is_content_and_losses() -> None:
    """The heat put in is the content of the board at the end and its losses till then, summed by scipy."""
    plate, radius, t = board(), Metres(1e-3), 30.0
    out, moments = np.geomspace(1e-5, 0.2, 61), np.linspace(0.0, t, 15)
    rises = [[step(plate, Spot(radius, Metres(float(d))), Seconds(float(m))) for d in out] for m in moments[1:]]
    held = np.pi * radius**2 + integrate.simpson(np.array(rises) * 2 * np.pi * (out + radius), x=out, axis=1)
    lost = integrate.simpson(np.concatenate([[np.pi * radius**2], held]), x=moments) * 2 * plate.face_loss

    content = plate.heat_capacity * plate.thickness * held[-1]

    assert content + lost == pytest.approx(dose(plate, radius, Seconds(t)), rel=0.01)


# kernel and its peak at 39 mm, k 20, h 10, 0.8 mm: computed in two ways (2M).
@pytest.mark.outside
def test_kernel() -> None:
    """One joule an age ago warms a place as much as was tabled, and most at the age that scipy finds."""
    plate, distance = board(), Metres(39e-3)

    best = optimize.minimize_scalar(
        lambda age: -kernel(plate, distance, Seconds(age)), bounds=(1, 100), method="bounded"
    )

    assert 0.020776 == pytest.approx(kernel(plate, distance, Seconds(60.0)), rel=1e-4)
    assert 28.13 == pytest.approx(peak_age(plate, distance), abs=0.005)
    assert best.x == pytest.approx(peak_age(plate, distance), rel=1e-4)


@pytest.mark.outside
@pytest.mark.parametrize("age", [2.0, 60.0])
def test_kernel_holds_what_is_left_of_a_joule(age: float) -> None:
    """Summed over the board, the rise from one joule is one joule less what was lost at rate b."""
    plate = board()

    def ring(d: float) -> float:
        return plate.heat_capacity * plate.thickness * 2 * math.pi * d * kernel(plate, Metres(d), Seconds(age))

    content, _ = integrate.quad(ring, 0, 0.5, limit=200)

    assert math.exp(-plate.loss_rate * age) == pytest.approx(content, rel=1e-6)


@pytest.mark.parametrize("hold", HOLDS[:3])
def test_curve(hold: Hold) -> None:
    """The quick curve keeps within 0.3 % of what it stands for."""
    plate, place = board(hold.k, hold.millimetres), spot(hold.r, hold.r0)
    curve = step_curve(plate, place, 200.0)
    moments = [moment for moment in np.geomspace(1, 199, 30) if step(plate, place, Seconds(float(moment))) > 1e-4]
    wanted = [step(plate, place, Seconds(float(moment))) for moment in moments]

    assert pytest.approx(wanted, rel=0.003) == [curve(float(moment)) for moment in moments]


def test_nothing_before_heat_arrives() -> None:
    """A place that heat cannot have reached stays exactly as it was: the inversion would ring there."""
    far = spot(100, 1)

    assert 0.0 == step(board(), far, Seconds(1.0))
    assert 0.0 == step_curve(board(), far, 1.0)(1.0)


@pytest.mark.parametrize(("argument", "build"), [
    ("the distance", lambda: spot(1, 1)),
    ("the radius", lambda: spot(5, 0)),
    ("the time", lambda: step(board(), spot(15, 1), Seconds(0.0))),
    ("the thickness of the board", lambda: board(millimetres=3.2)),
])  # fmt: skip
def test_out_of_range(argument: str, build: object) -> None:
    """A place under the tool, no time, and a thick board are refused by name."""
    assert callable(build)
    with pytest.raises(OutOfRange, match=argument):
        build()
