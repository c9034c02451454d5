"""Second opinions that share no formula with the product: a board cut into rings, and equations solved by steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import solve_banded

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from benchleaf.physics.plate import Plate
    from benchleaf.physics.repeats import Touches

_STEP = 0.05
_INSIDE, _OUTSIDE = 12, 300


@dataclass(frozen=True)
class Layer:
    """A layer over the board from radius `begins` on: contact (W/m²K), capacity (J/m²K), loss at its back (W/m²K)."""

    begins: float
    contact: float
    capacity: float
    back: float


@dataclass(frozen=True)
class Rings:
    """A round board cut into rings around its spot: finite volumes, the rim insulated; perhaps a layer over it."""

    plate: Plate
    radius: float
    rim: float
    layer: Layer | None = None

    def edges(self) -> NDArray[np.float64]:
        """Return the rings' edges: even under the tool, then wider and wider."""
        under = np.linspace(0.0, self.radius, _INSIDE + 1)
        beyond = self.radius + (self.rim - self.radius) * (np.expm1(np.linspace(0, 5, _OUTSIDE + 1)) / np.expm1(5))
        return np.concatenate([under, beyond[1:]])

    def history(self, touches: Touches, at: float, until: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """
        Return times and the rise at radius *at*, the spot held while a touch lasts and free in between.

        Backward steps of 50 ms; each cell takes what its neighbours give and loses from both faces.
        """
        edges = self.edges()
        middles = (edges[1:] + edges[:-1]) / 2
        area = np.pi * (edges[1:] ** 2 - edges[:-1] ** 2)
        plate = self.plate
        content = plate.heat_capacity * plate.thickness * area / _STEP
        across = plate.conductivity * plate.thickness * 2 * np.pi * edges[1:-1] / np.diff(middles)
        free = np.zeros((3, middles.size))
        free[0, 1:], free[2, :-1] = -across, -across
        free[1] = content + 2 * plate.face_loss * area
        free[1, :-1] += across
        free[1, 1:] += across
        held = free.copy()
        held[0, 1 : _INSIDE + 1], held[1, :_INSIDE], held[2, : _INSIDE - 1] = 0.0, 1.0, 0.0
        # A held spot is hot up to its very rim, not only to the middle of its last ring.
        near = plate.conductivity * plate.thickness * 2 * np.pi * self.radius / (middles[_INSIDE] - self.radius)
        held[1, _INSIDE] += near - across[_INSIDE - 1]
        held[2, _INSIDE - 1] = -near
        rise, times, seen = np.zeros(middles.size), [0.0], [0.0]
        steps = round(until / _STEP)
        period = touches.on + touches.pause
        for step in range(1, steps + 1):
            now = step * _STEP
            number, phase = divmod(now - _STEP / 2, period)
            on = number < touches.times and phase < touches.on
            load = content * rise
            if on:
                load[:_INSIDE] = touches.rise
            rise = solve_banded((1, 1), held if on else free, load, check_finite=False)
            times.append(now)
            seen.append(float(np.interp(at, middles, rise)))
        return np.array(times), np.array(seen)

    def layer_peak(self, touches: Touches, until: float) -> float:
        """
        Return the highest rise of the layer until then; the board below it loses heat from its other face alone.

        Each ring of the layer takes heat from its ring of the board after the board's own step, steps of 50 ms.
        """
        layer = self.layer
        assert layer is not None
        edges = self.edges()
        middles = (edges[1:] + edges[:-1]) / 2
        area = np.pi * (edges[1:] ** 2 - edges[:-1] ** 2)
        plate = self.plate
        covered = middles > layer.begins
        content = plate.heat_capacity * plate.thickness * area / _STEP
        across = plate.conductivity * plate.thickness * 2 * np.pi * edges[1:-1] / np.diff(middles)
        own = layer.capacity / _STEP
        # The layer's own equation, solved for it and put into the board's: both at the end of the step.
        passes = layer.contact / (own + layer.contact + layer.back)
        free = np.zeros((3, middles.size))
        free[0, 1:], free[2, :-1] = -across, -across
        free[1] = content + plate.face_loss * area * np.where(covered, 1, 2)
        free[1] += np.where(covered, layer.contact * (1 - passes), 0.0) * area
        free[1, :-1] += across
        free[1, 1:] += across
        held = free.copy()
        held[0, 1 : _INSIDE + 1], held[1, :_INSIDE], held[2, : _INSIDE - 1] = 0.0, 1.0, 0.0
        near = plate.conductivity * plate.thickness * 2 * np.pi * self.radius / (middles[_INSIDE] - self.radius)
        held[1, _INSIDE] += near - across[_INSIDE - 1]
        held[2, _INSIDE - 1] = -near
        rise, over, peak = np.zeros(middles.size), np.zeros(middles.size), 0.0
        for step in range(1, round(until / _STEP) + 1):
            number, phase = divmod(step * _STEP - _STEP / 2, touches.on + touches.pause)
            on = number < touches.times and phase < touches.on
            load = content * rise + np.where(covered, passes * own * over, 0.0) * area
            if on:
                load[:_INSIDE] = touches.rise
            rise = solve_banded((1, 1), held if on else free, load, check_finite=False)
            over = np.where(covered, (own * over + layer.contact * rise) / (own + layer.contact + layer.back), 0.0)
            peak = max(peak, float(over.max()))
        return peak

    def peak(self, touches: Touches, at: float, until: float) -> float:
        """Return the highest rise at radius *at* until then."""
        return float(self.history(touches, at, until)[1].max())


def stepped(slope: Callable[[float, list[float]], list[float]], start: list[float], until: float) -> list[float]:
    """Return the state at *until* of an ordinary differential equation, solved by steps to ten figures."""
    found = solve_ivp(slope, (0.0, until), start, method="LSODA", rtol=1e-10, atol=1e-14)
    return [float(value) for value in found.y[:, -1]]
