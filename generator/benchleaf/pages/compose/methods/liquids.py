"""How long liquids stay, and what they put into the air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.pages.compose.methods.kind import ends, one
from benchleaf.pages.lists import Method
from benchleaf.physics import drying, vapour, vapour_cures
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.types import Celsius, CubicMetres, Fraction, MetresPerSecond, PerSecond, SquareMetres

if TYPE_CHECKING:
    from collections.abc import Iterator

_CONSTANTS = "common practice, no source"


def methods() -> Iterator[Method]:
    """Yield the methods of drying and of vapour."""
    liquid = SUBSTANCES["isopropanol"]
    air = drying.Air(Celsius(21.0), MetresPerSecond(0.1), Fraction(0.5))
    patch = drying.Patch(CubicMetres(1e-6), SquareMetres(2e-4), drying.Film.FLOODED)
    yield Method(
        "drying",
        "Drying",
        "How long a liquid lies on a part before it has dried. A part that traps liquid takes 12 h at 21 °C and 2 h at "
        "60 °C (water 48 h and 3 h).",
        (
            "t = ρ · min(V/A, film)/E,   E = km M/R · (Ps − RH Ps)/T,   km = Sh Dv/L,   L = √A",
            "Sh = max(0.664 Re^0.5 Sc^(1/3), 2),   Re = U L/1.5e-5,   Sc = 1.5e-5/Dv",
            "bad end = t · F,  F = E at the room's temperature / E at the wet bulb's;  at least 60 s",
        ),
        (
            ("V, A", "volume and area of the liquid"),
            ("film", "20 µm wiped, 50 µm brushed or run off, 200 µm in a socket"),
            ("U", "speed of the air"),
            ("Dv", "diffusion of the vapour: 1.0e-5 m²/s, water 2.5e-5"),
            ("Ps", "vapour pressure"),
            ("RH", "humidity of the room, for water alone"),
        ),
        f"Blasius' flat plate with its mass transfer (textbooks); films: {_CONSTANTS}",
        "open patches of the size of a hand or smaller, 0 to 60 °C",
        "a factor of 2 either way: an estimate",
        "isopropanol, 2 cm², film 50 µm, air 0.1 m/s, 21 °C",
        ends(drying.drying_time(liquid, patch, air, DEFAULT.drying), "s"),
    )
    room = vapour.Room(CubicMetres(45.0), PerSecond(3 / 3600), Celsius(20.0))
    poured = CubicMetres(3e-6)
    rates = vapour.zones(room, 0.1, DEFAULT.vapour).rates
    yield Method(
        "vapour",
        "Vapour at the bench",
        "How much of a liquid that dries is in the air that a person breathes, over 15 minutes and at its highest.",
        (
            "v = V ρ/M · R T/101325,   β = π r² u,   Vn = 2/3 π r³,   Q = room · air changes",
            "dCn/dt = G/Vn − β/Vn (Cn − Cf),   dCf/dt = β/Vf (Cn − Cf) − Q/Vf Cf",
            "15-minute mean = v/900 s · ∫ puff;   highest: the release spread over 10 s",
        ),
        (
            ("v", "volume of the vapour"),
            ("Cn, Cf", "air near the face, and in the rest of the room"),
            ("r", "0.6 m"),
            ("u", "air at the bench, 0.1 (0.05 to 0.3) m/s"),
        ),
        f"Two zones (textbooks of occupational hygiene); constants: {_CONSTANTS}; limits: NIOSH Pocket Guide, "
        "each named beside its substance",
        "a room of more than a few cubic metres that is aired",
        "a factor of 2",
        "3 mL isopropanol, room 45 m³, 3 changes an hour, 20 °C",
        (
            *ends(vapour.short_mean(liquid, poured, room, DEFAULT.vapour), "ppm over 15 min"),
            *ends(vapour.peak(liquid, poured, room, DEFAULT.vapour), "ppm at the highest"),
            one("Slow rate of the two zones", rates[0], "/s"),
            one("Fast rate of the two zones", rates[1], "/s"),
        ),
    )
    case, warm = CubicMetres(60e-6), Celsius(21.0)
    drop = CubicMetres(0.05e-6)
    most = vapour_cures.most_liquid_case(liquid, case, warm, DEFAULT.vapour)
    yield Method(
        "case",
        "Vapour shut into the case",
        "What share of the lower explosive limit a trace that is still wet makes in a closed case. At most 10 % may be "
        "shut in; only time ends it.",
        ("share = min(v/case, saturation)/limit",),
        (
            ("v", "volume of the vapour of all that is left"),
            ("case", "free air in the case"),
            ("limit", "lower explosive limit, 2.0 % for isopropanol"),
        ),
        "the gas law; limits: NIOSH Pocket Guide",
        "cases with the free air that the device's file gives",
        "a factor of 2 in what is left",
        "0.05 mL isopropanol in 60 cm³ at 21 °C, and the most that may be left",
        (
            one("Share of the limit", 100 * vapour_cures.case_share(liquid, drop, case, warm), "%"),
            one("At most", most * 1e9, "µL"),
        ),
    )
    reach = drying.runoff_reach(CubicMetres(0.5e-6), DEFAULT.drying)
    yield Method(
        "runoff",
        "How far a liquid runs",
        "How far over a board a liquid that is put on can reach.",
        ("reach = √(V/(π · 0.2 mm))",),
        (("V", "its volume"),),
        _CONSTANTS,
        "boards that lie flat",
        "a factor of 2",
        "0.5 mL",
        (one("Reach", reach * 1e3, "mm"),),
    )
