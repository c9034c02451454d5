"""A second opinion on small boards: a rectangle cut into squares, its sides insulated, solved by steps."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import diags, identity, kron
from scipy.sparse.linalg import splu

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from scipy.sparse import spmatrix

    from benchleaf.physics.plate import Plate
    from benchleaf.physics.repeats import Touches

_CELL, _STEP = 0.5e-3, 0.2


@dataclass(frozen=True)
class Rectangle:
    """A board of so many metres by so many, with a spot at a place on it: cells of 0.5 mm, backward steps of 0.2 s."""

    plate: Plate
    size: tuple[float, float]
    spot: tuple[float, float]

    def peak(self, touches: Touches, distance: float) -> float:
        """Return the highest rise at *distance* from the spot's edge in any direction, also a minute after the end."""
        away, peaks = _peaks(self, touches)
        return float(peaks[np.abs(away - distance) < 0.6 * _CELL].max())


@lru_cache(maxsize=4)
def _peaks(board: Rectangle, touches: Touches) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return how far each cell is from the spot's edge, and its highest rise; the spot is held while a touch lasts."""
    plate, counts = board.plate, [round(side / _CELL) for side in board.size]
    middles = np.meshgrid(*[(np.arange(count) + 0.5) * _CELL for count in counts], indexing="ij")
    radii = np.hypot(middles[0] - board.spot[0], middles[1] - board.spot[1]).ravel()
    content = plate.heat_capacity * plate.thickness * _CELL**2 / _STEP
    flow = kron(_chain(counts[0]), identity(counts[1])) + kron(identity(counts[0]), _chain(counts[1]))
    cells = radii.size
    free = identity(cells) * (content + 2 * plate.face_loss * _CELL**2) - plate.conductivity * plate.thickness * flow
    held = radii <= touches.radius
    fixed = diags((~held).astype(float)) @ free + diags(held.astype(float))
    solve_free, solve_held = splu(free.tocsc()).solve, splu(fixed.tocsc()).solve
    rise, peaks = np.zeros(cells), np.zeros(cells)
    for step in range(1, round((touches.end + 60) / _STEP) + 1):
        number, phase = divmod(step * _STEP - _STEP / 2, touches.on + touches.pause)
        load = content * rise
        if number < touches.times and phase < touches.on:
            load[held] = touches.rise
            rise = solve_held(load)
        else:
            rise = solve_free(load)
        np.maximum(peaks, rise, out=peaks)
    return radii - touches.radius, peaks


def _chain(count: int) -> spmatrix:
    """Return what flows between neighbours in a row of cells with insulated ends."""
    middle = np.full(count, -2.0)
    middle[[0, -1]] = -1.0
    beside = np.ones(count - 1)
    return diags([beside, middle, beside], [-1, 0, 1])
