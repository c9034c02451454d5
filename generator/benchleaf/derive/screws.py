"""What a screw is driven with, what is recommended for it, and the most that it bears."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.number import Number, estimated, given
from benchleaf.dryrun.screws import bears
from benchleaf.physics.types import Estimate, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.action import Screws
    from benchleaf.model.device import Fastener
    from benchleaf.physics.torque import Limits


@dataclass(frozen=True, slots=True)
class Turned:
    """A torque as it is written, the one that is recommended, and the most; None where nobody says or knows."""

    fastener: str
    written: Number | None
    recommended: Number | None
    most: Number | None


def turned(fasteners: Mapping[str, Fastener], screws: Screws, path: str) -> Turned | None:
    """Return what is known of *screws* that are driven in a step of the file *path*; None of those nobody knows."""
    screw = fasteners.get(screws.fastener.text)
    if screw is None:
        return None
    torque, source = (screws.torque, path) if screws.torque else (screw.torque, screw.torque_place.path)
    try:
        limits = bears(screw)
    except OutOfRange:
        limits = None
    return Turned(
        screw.id,
        given(torque, source) if torque else None,
        _recommended(limits) if limits else None,
        _most(limits) if limits else None,
    )


def _recommended(limits: Limits) -> Number:
    return _share(_governs(limits), limits.recommended, "recommended share of it, rounded down")


def _most(limits: Limits) -> Number:
    return _share(_governs(limits), limits.error_above, "with the error of a driver counted in")


def _governs(limits: Limits) -> Estimate:
    """Return what gives way first."""
    return limits.stripping if limits.governs == "thread" and limits.stripping else limits.breaking


def _share(of: Estimate, torque: float, how: str) -> Number:
    """Return *torque*, a share of the estimate *of*, with the doubt that this has."""
    part = torque / of.central
    whole = Estimate(torque, min(torque, part * of.low), max(torque, part * of.high), of.unit,
                     f"{of.method}; {how}", of.source, of.bad)  # fmt: skip
    return estimated(whole, "torque")
