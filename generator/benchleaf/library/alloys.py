"""The solder alloys of the built-in library, and what J-STD-020 allows a part in reflow."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.library.value import Cited, Status, Value, higher, lower

_JSTD = "IPC/JEDEC J-STD-020 revisions C and D, reprints in data sheets"
_TABLES = "solder alloy tables"


@dataclass(frozen=True, slots=True)
class ProfileLimits:
    """
    Upper bounds for a part in reflow, as its user must keep them; where two revisions differ both are kept.

    They say what a part is rated for. They are no recipe for a board: the standard says so itself.
    """

    soak_from: Value
    soak_to: Value
    soak_time: Cited
    ramp_up: Value
    liquidus: Value
    above_liquidus: Value
    near_peak: Cited
    ramp_down: Value
    to_peak: Value


@dataclass(frozen=True, slots=True)
class Alloy:
    """
    A solder: it begins to melt at the solidus and is liquid at the liquidus, °C.

    The higher liquidus is the cautious one: what it is asked for is whether solder melts. `reflow` is None for an
    alloy that J-STD-020 does not speak of.
    """

    id: str
    solidus: Cited
    liquidus: Cited
    lead_free: bool
    reflow: ProfileLimits | None


def _seen(value: float, unit: str, source: str = _JSTD) -> Value:
    return Value(value, unit, source, Status.SEEN)


def _melts(value: float, status: Status, source: str = _TABLES) -> Value:
    return Value(value, "°C", source, status)


TIN_LEAD = ProfileLimits(
    soak_from=_seen(100, "°C"),
    soak_to=_seen(150, "°C"),
    soak_time=lower(_seen(120, "s")),
    ramp_up=_seen(3, "K/s"),
    liquidus=_seen(183, "°C"),
    above_liquidus=_seen(150, "s"),
    near_peak=lower(_seen(20, "s", f"{_JSTD}: D"), _seen(30, "s", f"{_JSTD}: C")),
    ramp_down=_seen(6, "K/s"),
    to_peak=_seen(360, "s"),
)

LEAD_FREE = ProfileLimits(
    soak_from=_seen(150, "°C"),
    soak_to=_seen(200, "°C"),
    soak_time=lower(_seen(120, "s", f"{_JSTD}: D"), _seen(180, "s", f"{_JSTD}: C")),
    ramp_up=_seen(3, "K/s"),
    liquidus=_seen(217, "°C"),
    above_liquidus=_seen(150, "s"),
    near_peak=lower(_seen(30, "s", f"{_JSTD}: D"), _seen(40, "s", f"{_JSTD}: C")),
    ramp_down=_seen(6, "K/s"),
    to_peak=_seen(480, "s"),
)

ALLOYS: dict[str, Alloy] = {
    alloy.id: alloy
    for alloy in (
        Alloy(
            "sac305",
            lower(_melts(217, Status.SEEN)),
            higher(_melts(217, Status.SEEN, _JSTD), _melts(220, Status.SECONDARY)),
            lead_free=True,
            reflow=LEAD_FREE,
        ),
        Alloy(
            "sn63pb37",
            lower(_melts(183, Status.SEEN)),
            higher(_melts(183, Status.SEEN, f"{_TABLES}; J-STD-020")),
            lead_free=False,
            reflow=TIN_LEAD,
        ),
        Alloy(
            "sn42bi58",
            lower(_melts(138, Status.SEEN)),
            higher(_melts(138, Status.SEEN)),
            lead_free=True,
            reflow=None,
        ),
        Alloy(
            "sn96ag4",
            lower(_melts(221, Status.MEMORY)),
            higher(_melts(221, Status.MEMORY), _melts(230, Status.MEMORY)),
            lead_free=True,
            reflow=LEAD_FREE,
        ),
        Alloy(
            "sn99cu1",
            lower(_melts(227, Status.MEMORY)),
            higher(_melts(227, Status.MEMORY)),
            lead_free=True,
            reflow=LEAD_FREE,
        ),
    )
}
"""The built-in alloys by name."""

# T_c, °C: rows by thickness of the package, columns by its volume (J-STD-020 tables 4-1 and 4-2, seen in reprints;
# the second row and column of the tin-lead table in revision D from memory).
CLASSIFICATION_LEAD_FREE = ((260, 260, 260), (260, 250, 245), (250, 245, 245))
"""T_c up to 1.6 mm, up to 2.5 mm, thicker; below 350 mm³, up to 2000 mm³, larger."""
CLASSIFICATION_TIN_LEAD_C = ((240, 225), (225, 225))
"""T_c of revision C below 2.5 mm and thicker; below 350 mm³ and larger. Revision D gives 235, 220, 220, 220."""
CLASSIFICATION_TIN_LEAD_D = ((235, 220), (220, 220))
"""T_c of revision D, the lower of the two and so the user's."""

FLOOR_LIFE_HOURS: dict[str, float] = {
    "2": 8760.0, "2a": 672.0, "3": 168.0, "4": 72.0, "5": 48.0, "5a": 24.0,
}  # fmt: skip
"""Hours out of the bag at 30 °C and 60 % humidity at the most (J-STD-033, seen; 2a from memory); 1 is without end."""
