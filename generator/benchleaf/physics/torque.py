"""
What torque a small screw, and the thread it goes into, can bear. Bad end: low, the weaker screw.

Breaking: M_B = X Rm pi/16 d3^3, d3 = d2min - 0.616025 P (ISO 898-7, M1 to M5 of classes 8.8 to 12.9; other classes in
the same form, and the method says so; stainless from the table of ISO 3506-1). It is a minimum: a sound screw breaks
later. Into plastic, brass or aluminium the thread strips first, and then it is the joint that sets the limit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchleaf.library.screws import (
    CLASSES,
    STAINLESS_BREAKING,
    STAINLESS_CLASSES,
    THREADS,
    PropertyClass,
    Thread,
    stainless_class,
)
from benchleaf.library.solids import SOLIDS, Touch
from benchleaf.physics.constants import Torque, method
from benchleaf.physics.rounding import down_to_figures
from benchleaf.physics.types import (
    End,
    Estimate,
    Metres,
    NewtonMetres,
    Newtons,
    OutOfRange,
    Pascals,
    above,
    within,
)

_ABOVE_MINIMUM = 1.05
"""The standard's values are minima; its own rounding to two figures moves a cell by up to 4 %."""
_WEAKEST = "abs"


def thread(name: str) -> Thread:
    """Return the thread of that name."""
    if name not in THREADS:
        raise OutOfRange("the thread", name, ", ".join(THREADS), "the library holds no other coarse thread")
    return THREADS[name]


def breaking_torque(name: str, grade: str) -> Estimate:
    """Return the torque at which the weakest sound screw breaks, N·m: a minimum."""
    screw, stainless = thread(name), stainless_class(grade)
    if stainless is not None:
        return _stainless(screw, stainless)
    if grade not in CLASSES:
        known = ", ".join([*CLASSES, "A1 to A5 with -50, -70 or -80"])
        raise OutOfRange("the grade", grade, known, "no strength is known for another")
    steel = CLASSES[grade]
    how = "ISO 898-7 form" if steel.in_scope else f"ISO 898-7 form carried over to class {steel.name}"
    return _least(form_torque(screw, steel), how, steel.tensile.source)


def form_torque(screw: Thread, steel: PropertyClass) -> NewtonMetres:
    """Return X Rm pi/16 d3^3, N·m, for the smallest root that the thread's limits allow."""
    shear = steel.ratio.value * steel.tensile.value
    return NewtonMetres(shear * math.pi / 16 * screw.root_min**3)


def _stainless(screw: Thread, name: str) -> Estimate:
    row = STAINLESS_BREAKING[name]
    if screw.name in row:
        return _least(row[screw.name].value, "table of ISO 3506-1", row[screw.name].source)
    steel = STAINLESS_CLASSES[name]
    how = f"ISO 898-7 form carried over to stainless class {name}, for a size outside the table"
    return _least(form_torque(screw, steel), how, steel.tensile.source)


def _least(torque: float, how: str, source: str) -> Estimate:
    return Estimate(torque, torque, torque * _ABOVE_MINIMUM, "N·m", how, source, End.LOW)


def shear_strength(into: str) -> Pascals:
    """Return the shear stress at which a thread in a material strips, Pa (common practice); other plastic: as ABS."""
    solid = SOLIDS.get(into)
    if solid is not None and solid.shear is not None:
        return Pascals(solid.shear.value)
    weakest = SOLIDS[_WEAKEST].shear
    if solid is not None and solid.touch is Touch.PLASTIC and into != "silicone" and weakest is not None:
        return Pascals(weakest.value)
    known = ", ".join(name for name, entry in SOLIDS.items() if entry.shear is not None)
    raise OutOfRange("what the screw goes into", into, known, "no thread strength is known for another")


def stripping_torque(name: str, into: str, engagement: Metres | None, constants: Torque) -> Estimate:
    """
    Return the torque that strips the thread that the screw goes into, N·m: K d x 0.75 pi d Le tau.

    The exact area of shear is 0.875 pi d Le; 0.75 leaves 14 %. Engagement not known: one diameter. Error: 1.5 times.
    """
    diameter = thread(name).diameter.value
    length = diameter if engagement is None else engagement
    within("the engagement", length * 1e3, (0.2, 30.0), "mm", "a thread holds over a few turns")
    force = constants.shear_share.central * math.pi * diameter * length * shear_strength(into)
    torque = constants.nut_factor_strip.central * diameter * force
    how = method("shear of the inner thread", constants)
    return Estimate(torque, torque / 1.5, torque * 1.5, "N·m", how, "common practice", End.LOW)


@dataclass(frozen=True, slots=True)
class Limits:
    """What a screw in its hole bears, N·m; `governs` says which of the two is the weaker, for the recommended one."""

    breaking: Estimate
    stripping: Estimate | None
    recommended: NewtonMetres
    error_above: NewtonMetres
    governs: str


def limits(name: str, grade: str, into: str | None, engagement: Metres | None, constants: Torque) -> Limits:
    """
    Return the limits of a screw: recommended at most the lower of 0.5 breaking and 0.7 stripping (rounded down).

    The error is above the lower of 0.6 breaking and stripping, judged at 1.06 x the torque for the driver's own error:
    `error_above` is the torque as it is written. `into` None: the screw alone. The shares hold the doubt that the
    estimates have, so both are taken at their central value.
    """
    breaks = breaking_torque(name, grade)
    strips = None if into is None else stripping_torque(name, into, engagement, constants)
    screw, hole = constants.breaking_recommended.central * breaks.central, math.inf
    screw_fails, hole_fails = constants.breaking_error.central * breaks.central, math.inf
    if strips is not None:
        hole, hole_fails = constants.strip_recommended.central * strips.central, strips.central
    fails = min(screw_fails, hole_fails) / constants.driver_tolerance.central
    return Limits(
        breaks,
        strips,
        NewtonMetres(down_to_figures(min(screw, hole, fails))),
        NewtonMetres(fails),
        "screw" if screw <= hole else "thread",
    )


def is_over(torque: NewtonMetres, bears: Limits) -> bool:
    """Say whether a torque is one that breaks or strips, the driver's tolerance counted in."""
    return torque > bears.error_above


def clamp_force(name: str, torque: NewtonMetres, constants: Torque, *, locking_patch: bool = False) -> Estimate:
    """
    Return the force that holds the joint together, N: T/(K d). Bad end: low, the looser joint. Error: factor 2.

    A locking patch takes 2 to 3 cN·m before any of the torque clamps.
    """
    diameter, factor, patch = thread(name).diameter.value, constants.nut_factor, constants.locking_patch
    above("the torque", torque, 0, "N·m", "a screw that is not driven holds nothing")
    taken = (patch.high, patch.central, patch.low) if locking_patch else (0.0, 0.0, 0.0)
    ends = zip(taken, (factor.high, factor.central, factor.low), strict=True)
    low, central, high = (max(0.0, torque - lost) / (nut * diameter) for lost, nut in ends)
    return Estimate(central, low, high, "N", method("short form T = K d F", constants), "textbook short form", End.LOW)


@dataclass(frozen=True, slots=True)
class Friction:
    """The friction in the thread and under the head, and the mean diameter on which the head turns, m."""

    thread: float
    head: float
    head_diameter: Metres


def assembly_torque(pitch: Metres, pitch_diameter: Metres, force: Newtons, friction: Friction) -> NewtonMetres:
    """Return the torque that clamps with *force*, N·m: F (P/2pi + d2 mu/(2 cos 30°) + Dkm mu/2) (VDI 2230 form)."""
    ends = (min(friction.thread, friction.head), max(friction.thread, friction.head))
    within("the lower friction", ends[0], (0.02, 0.6), "", "no screw floats")
    within("the higher friction", ends[1], (0.02, 0.6), "", "a screw that sticks tells nothing by its torque")
    head = friction.head_diameter * friction.head / 2
    return NewtonMetres(force * (_thread_lever(pitch, pitch_diameter, friction.thread) + head))


def _thread_lever(pitch: float, pitch_diameter: float, friction: float) -> float:
    """Return the torque that the thread alone takes for each newton of clamp, m."""
    return pitch / (2 * math.pi) + pitch_diameter * friction / (2 * math.cos(math.pi / 6))


def power_screw_factor(diameter: Metres, pitch: Metres, friction: Friction) -> float:
    """
    Return K of T = K d F by the long form of Shigley, Mechanical Engineering Design, ch. 8.

    K = dm/(2 d) (tan l + f sec a)/(1 - f tan l sec a) + 0.625 fc, a = 30°, dm the pitch diameter. The collar's mean
    diameter is 1.25 d in that form, and `head_diameter` is not used.
    """
    mean = diameter - 0.649519 * pitch
    lead, secant = pitch / (math.pi * mean), 1 / math.cos(math.pi / 6)
    turning = (lead + friction.thread * secant) / (1 - friction.thread * lead * secant)
    return mean / (2 * diameter) * turning + 0.625 * friction.head


def stress_area(name: str) -> float:
    """Return the stress area As, m²: pi/4 ((d2 + d3)/2)² (ISO 898-1)."""
    screw = thread(name)
    return math.pi / 4 * ((screw.pitch_diameter + screw.root) / 2) ** 2


def shank_stress(name: str, torque: NewtonMetres, friction: Friction) -> Pascals:
    """
    Return the combined (von Mises) stress in the shank while it is driven, Pa. Bad end: the lower friction.

    The pull is what `assembly_torque` clamps with, the twist is what the thread takes of the torque; both on the
    diameter (d2 + d3)/2.
    """
    screw = thread(name)
    pitch, pitch_diameter = screw.pitch.value, screw.pitch_diameter
    force = torque / assembly_torque(Metres(pitch), Metres(pitch_diameter), Newtons(1.0), friction)
    twisted = force * _thread_lever(pitch, pitch_diameter, friction.thread)
    core = (pitch_diameter + screw.root) / 2
    pull, twist = force / stress_area(name), 16 * twisted / (math.pi * core**3)
    return Pascals(math.sqrt(pull**2 + 3 * twist**2))
