"""
How much liquid stays below a limit, and how long or how much air clears a room. Rounded to the safe side.

Everything here is proportional to the volume of liquid, so the greatest volume is the limit over the worst end of
the estimate for one millilitre.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.physics.liquid import liquid_volume, saturation, vapour_volume
from benchleaf.physics.rounding import down, up
from benchleaf.physics.types import CubicMetres, CubicMetresPerSecond, Fraction, PerSecond, Seconds, above, within
from benchleaf.physics.vapour import day_mean, lower_limit_ppm, peak, short_mean

if TYPE_CHECKING:
    from benchleaf.library.substance import Substance
    from benchleaf.physics.constants import Vapour
    from benchleaf.physics.types import Celsius, Estimate
    from benchleaf.physics.vapour import Room

_ONE = CubicMetres(1e-6)
_DROP = CubicMetres(1e-9)


def most_liquid_short(substance: Substance, limit: float, room: Room, constants: Vapour) -> CubicMetres:
    """Return the most liquid whose 15-minute mean stays at *limit* ppm; in hundredths of a millilitre, down."""
    return _most(short_mean(substance, _ONE, room, constants), limit)


def most_liquid_day(substance: Substance, limit: float, room: Room, constants: Vapour) -> CubicMetres:
    """Return the most liquid in a day whose 8-hour mean stays at *limit* ppm; hundredths of a millilitre, down."""
    return _most(day_mean(substance, _ONE, room, constants), limit)


def most_liquid_peak(substance: Substance, room: Room, constants: Vapour) -> CubicMetres:
    """Return the most liquid whose peak stays at a quarter of the lower explosive limit; hundredths of mL, down."""
    limit = constants.share_bench.central * lower_limit_ppm(substance)
    # A thousandth of the volume, so that saturation does not flatten what is proportional.
    return CubicMetres(down(limit / peak(substance, _DROP, room, constants).worst * _DROP * 1e6, 2) / 1e6)


def _most(one: Estimate, limit: float) -> CubicMetres:
    above("the limit", limit, 0, "ppm", "no liquid at all would stay below it")
    return CubicMetres(down(limit / one.worst, 2) / 1e6)


def case_share(substance: Substance, liquid: CubicMetres, case: CubicMetres, temperature: Celsius) -> Fraction:
    """
    Return the vapour shut into a case as a share of the lower explosive limit. Bad end: this one.

    All of the liquid turns to vapour and none leaves, up to saturation.
    """
    within("the free air of the case", case * 1e6, (0.1, 1e6), "cm³", "a case holds some air")
    share = min(vapour_volume(substance, liquid, temperature) / case, saturation(substance, temperature))
    return Fraction(share * 1e6 / lower_limit_ppm(substance))


def most_liquid_case(substance: Substance, case: CubicMetres, temperature: Celsius, constants: Vapour) -> CubicMetres:
    """Return the most liquid that may be shut into a case, m³ in hundred-thousandths of a millilitre, down."""
    within("the free air of the case", case * 1e6, (0.1, 1e6), "cm³", "a case holds some air")
    vapour = CubicMetres(constants.share_case.central * lower_limit_ppm(substance) * 1e-6 * case)
    return CubicMetres(down(liquid_volume(substance, vapour, temperature) * 1e6, 5) / 1e6)


def clearing_time(air_changes: PerSecond, left: Fraction, mixing: float = 1.0) -> Seconds:
    """
    Return how long a room takes to clear to the share *left*, s: -ln(left)/(mixing x air changes), rounded up.

    Well-mixed decay (CDC, MMWR 28 October 1994, table S3-1); `mixing` below 1 where air does not reach everywhere.
    """
    within("the share that is left", left, (1e-9, 1.0), "", "no room is ever quite clear")
    within("the mixing", mixing, (0.1, 1.0), "", "1 is perfect; the CDC's factor of 10 is the worst")
    above("the air changes", air_changes, 0, "/s", "a room without air keeps all vapour")
    return Seconds(up(-math.log(left) / (mixing * air_changes), 3))


def dilution_flow(vapour_rate: CubicMetresPerSecond, limit: float, mixing: float) -> CubicMetresPerSecond:
    """Return the fresh air that holds a steady release below *limit* ppm: (G/C) K, K 1 to 10 (form of the ACGIH)."""
    above("the limit", limit, 0, "ppm", "no flow of air would do")
    within("the factor for poor mixing", mixing, (1.0, 10.0), "", "1 is perfect, 10 the worst")
    return CubicMetresPerSecond(vapour_rate / (limit * 1e-6) * mixing)


def well_mixed(vapour: CubicMetres, air: CubicMetres) -> float:
    """Return the concentration, ppm, of vapour spread through a volume of air that nothing leaves."""
    above("the volume of air", air, 0, "m³", "vapour is spread through something")
    return vapour / air * 1e6
