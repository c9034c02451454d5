"""How long liquids stay, and what they put into the air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.pages.compose.methods.kind import ends, one
from benchleaf.pages.lists import Method
from benchleaf.physics import drying, vapour, vapour_cures
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.liquid import vapour_pressure
from benchleaf.physics.types import Celsius, CubicMetres, Fraction, MetresPerSecond, PerSecond, SquareMetres

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.library.substance import Substance

_CONSTANTS = "common practice, no source"


def _of(liquid: Substance, temperature: Celsius) -> str:
    """Return what an example needs of *liquid* besides."""
    density, mass = liquid.density.cautious.value, liquid.molar_mass.first.value
    pressure = vapour_pressure(liquid, temperature)
    return f"ρ {density:.1f} kg/m³, M {mass * 1e3:.2f} g/mol, Ps {pressure:.0f} Pa"


def methods() -> Iterator[Method]:
    """Yield the methods of drying and of vapour."""
    liquid = SUBSTANCES["isopropanol"]
    air = drying.Air(Celsius(21.0), MetresPerSecond(0.1), Fraction(0.5))
    patch = drying.Patch(CubicMetres(1e-6), SquareMetres(2e-4), drying.Film.FLOODED)
    wet = drying.wet_bulb(liquid, air)
    yield Method(
        "drying",
        "Drying",
        "How long a liquid lies on a part before it has dried. A part that traps liquid takes 12 h at 21 °C and 2 h at "
        "60 °C (water 48 h and 3 h).",
        (
            "t = ρ · min(V/A, film)/E,   E = km M/R · (Ps − RH Ps)/T,   km = Sh Dv/L,   L = √A",
            "Sh = max(0.664 Re^0.5 Sc^(1/3), 2),   Re = U L/1.5e-5,   Sc = 1.5e-5/Dv",
            "low end = t/2;  bad end = t · F, at least 60 s,  F = E at the room's temperature/E at the wet bulb's",
            "wet bulb: λ M/R (Ps(Tw)/Tw − RH Ps/T) = 1.19 · 1006 (2.2e-5/D)^(2/3) (T − Tw)",
        ),
        (
            ("V, A", "volume and area of the liquid"),
            ("ρ, M, λ, D", "its density, molar mass, latent heat and diffusion, on its page under Materials"),
            ("T, R", "temperature in K; 8.314 J/mol K"),
            ("film", "20 µm wiped, 50 µm brushed or run off, 200 µm in a socket"),
            ("U", "speed of the air"),
            ("Dv", "diffusion of the vapour: 1.0e-5 m²/s, water 2.5e-5"),
            ("Ps", "vapour pressure at T, Ps(Tw) at the wet bulb"),
            ("RH", "humidity of the room, for water alone"),
        ),
        f"Blasius' flat plate with its mass transfer (textbooks); films: {_CONSTANTS}",
        "open patches of the size of a hand or smaller, 0 to 60 °C",
        "a factor of 2 either way: an estimate",
        f"isopropanol, 1 mL on 2 cm², brushed, air 0.1 m/s, 21 °C. {_of(liquid, Celsius(21.0))}; Ps(Tw) "
        f"{vapour_pressure(liquid, wet):.0f} Pa. By hand: L 14.1 mm, Re 94.3, Sc 1.5, Sh 7.38, km 5.22 mm/s",
        (
            *ends(drying.drying_time(liquid, patch, air, DEFAULT.drying), "s"),
            one("Tw", wet, "°C", 2),
            one("F", drying.wet_bulb_factor(liquid, air), ""),
        ),
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
            "puff of all at once: Cn(t) = v/Vn · (A e^(−λ1 t) + (1 − A) e^(−λ2 t)),   A = (λ2 − β/Vn)/(λ2 − λ1)",
            "sum to t: S(t) = v/Vn · (A (1 − e^(−λ1 t))/λ1 + (1 − A) (1 − e^(−λ2 t))/λ2)",
            "15-minute mean = S(900 s)/900 s;   highest, the release spread over 10 s = S(10 s)/10 s",
            "λ1, λ2: the roots of  λ² − (β/Vn + β/Vf + Q/Vf) λ + β Q/(Vn Vf) = 0",
        ),
        (
            ("v, V", "volume of the vapour, of the liquid"),
            ("G", "release, m³ of vapour a second"),
            ("Vf", "volume of the room"),
            ("Cn, Cf", "air near the face, and in the rest of the room"),
            ("r", "0.6 m"),
            ("u", "air at the bench, 0.1 (0.05 to 0.3) m/s"),
        ),
        f"Two zones (textbooks of occupational hygiene); constants: {_CONSTANTS}; limits: NIOSH Pocket Guide, "
        "each named beside its substance",
        "a room of more than a few cubic metres that is aired",
        "a factor of 2",
        f"3 mL isopropanol, room 45 m³, 3 changes an hour, 20 °C; {_of(liquid, room.temperature)}. Low with u 0.3, "
        "high with u 0.05 m/s. By hand, central: v 945 cm³, Vn 0.452 m³, β 0.113 m³/s",
        (
            *ends(vapour.short_mean(liquid, poured, room, DEFAULT.vapour), "ppm over 15 min"),
            *ends(vapour.peak(liquid, poured, room, DEFAULT.vapour), "ppm at the highest"),
            one("λ1", -rates[0], "/s", 6),
            one("λ2", -rates[1], "/s", 6),
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
            ("v", "volume of the vapour of all that is left, V ρ/M · R T/101325 as above"),
            ("saturation", "Ps/101325"),
            ("case", "free air in the case"),
            ("limit", "lower explosive limit, 2.0 % for isopropanol"),
        ),
        "the gas law; limits: NIOSH Pocket Guide",
        "cases with the free air that the device's file gives",
        "a factor of 2 in what is left",
        f"0.05 mL isopropanol in 60 cm³ at 21 °C, and the most that may be left, down to 0.01 µL; {_of(liquid, warm)}",
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
