"""
The liquids of the built-in library, each number beside its source.

NPG is the NIOSH Pocket Guide to Chemical Hazards; the IDLH documentation is NIOSH's of 1994; a laboratory chemical
safety summary is one of the US National Academies. Each source is seen unless the status word beside it says other.
"""

from __future__ import annotations

from benchleaf.library.substance import Exposure, Ghs, Substance
from benchleaf.library.value import Cited, Status, Value, higher, lower

_CALC, _LIB, _MEM, _CP, _SEEN = Status.CALCULATED, Status.LIBRARY, Status.MEMORY, Status.PRACTICE, Status.SEEN
_LIBRARY = "chemicals 1.5.2"
_COOLPROP = "CoolProp 8.0.0"
_IEC = "IEC 60079-20-1 as in chemicals 1.5.2"
_NFPA = "NFPA 497 as in chemicals 1.5.2"
_DIPPR = "DIPPR estimate as in chemicals 1.5.2"
_NPG = "NIOSH Pocket Guide"
_IDLH = "NIOSH IDLH documentation"
_LCSS = "laboratory chemical safety summary"
_NTP = "US National Toxicology Program"
_PUBLISHED = "published exposure limits, NIOSH Pocket Guide"
_CURVES = "textbook tables of diffusion in air at 20 to 25 °C"
_MMHG = 133.322368


def _molar(gram: float) -> Cited:
    return lower(Value(gram / 1000, "kg/mol", f"atomic weights, {_LIBRARY}", _LIB))


def _density(*values: Value) -> Cited:
    """Return densities: more mass in a drop is more vapour and a longer wait, so the higher is safe."""
    return higher(*values)


def _pressure(pascal: float, source: str, *seen: tuple[float, str]) -> Cited:
    """Return vapour pressures, the library's first; the lower dries later, so it is safe for a wait."""
    others = (Value(mmhg * _MMHG, "Pa", where, _SEEN) for mmhg, where in seen)
    return lower(Value(pascal, "Pa", source, _LIB), *others)


def _celsius(*values: tuple[float, str, Status]) -> Cited:
    """Return flash points or autoignition temperatures: the lower is safe."""
    return lower(*(Value(value, "°C", source, status) for value, source, status in values))


def _percent(*values: tuple[float, str, Status]) -> Cited:
    """Return explosive limits: the lower is safe (and for the upper one nothing here depends on it)."""
    return lower(*(Value(value, "%", source, status) for value, source, status in values))


def _limit(ppm: float, source: str = _PUBLISHED) -> Cited:
    return lower(Value(ppm, "ppm", source, _SEEN))


def _one(value: float, unit: str, source: str, status: Status = _LIB) -> Cited:
    return lower(Value(value, unit, source, status))


def _diffusion(value: float) -> Cited:
    return _one(value * 1e-5, "m²/s", _CURVES, _MEM)


_ISOPROPANOL = Substance(
    id="isopropanol",
    cas="67-63-0",
    molar_mass=_molar(60.095),
    density=_density(Value(786.7, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(4207.0, f"Wagner, {_LIBRARY}", (33.0, _NPG)),
    vapour_pressure_25=_pressure(5780.0, f"Wagner, {_LIBRARY}"),
    latent_heat=_one(769.3e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(0.99),
    boiling_point=_one(82.21, "°C", _LIBRARY),
    flash_point=_celsius((11.7, _NPG, _SEEN), (12.0, _IEC, _LIB), (12.0, _NFPA, _LIB)),
    autoignition=_celsius((399.0, _IEC, _LIB), (399.0, _NFPA, _LIB)),
    lel=_percent((2.0, _NPG, _SEEN), (2.0, _IEC, _LIB), (2.0, _NFPA, _LIB)),
    uel=_percent((12.7, _NPG, _SEEN), (12.7, _IEC, _LIB), (12.7, _NFPA, _LIB)),
    exposure=Exposure(_limit(400), _limit(400), _limit(500), _limit(2000)),
    ghs=Ghs(("GHS02", "GHS07"), "Danger", ("H225", "H319", "H336"), "safety data sheets", _SEEN),
    water_miscible=True,
)

_ETHANOL = Substance(
    id="ethanol",
    cas="64-17-5",
    molar_mass=_molar(46.068),
    density=_density(Value(789.4, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(5876.0, f"{_LIBRARY}; {_COOLPROP}", (44.0, _NPG)),
    vapour_pressure_25=_pressure(7885.0, f"{_LIBRARY}; {_COOLPROP}"),
    latent_heat=_one(926.0e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(1.18),
    boiling_point=_one(78.42, "°C", _LIBRARY),
    flash_point=_celsius((12.8, _NPG, _SEEN), (12.0, _IEC, _LIB), (13.0, _NFPA, _LIB)),
    autoignition=_celsius((363.0, _NFPA, _LIB), (400.0, _IEC, _LIB)),
    lel=_percent((3.3, _NPG, _SEEN), (3.1, _IEC, _LIB), (3.3, _NFPA, _LIB)),
    uel=_percent((19.0, _NPG, _SEEN), (19.0, _IEC, _LIB)),
    exposure=Exposure(_limit(1000), _limit(1000), None, _limit(3300)),
    ghs=Ghs(("GHS02", "GHS07"), "Danger", ("H225", "H319"), "safety data sheets", _MEM),
    water_miscible=True,
)

_ACETONE = Substance(
    id="acetone",
    cas="67-64-1",
    molar_mass=_molar(58.079),
    density=_density(Value(790.3, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(24662.0, f"{_LIBRARY}; {_COOLPROP}", (180.0, _LCSS)),
    vapour_pressure_25=_pressure(30727.0, f"{_LIBRARY}; {_COOLPROP}", (231.0, _LCSS)),
    latent_heat=_one(539.2e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(1.05),
    boiling_point=_one(56.07, "°C", _LIBRARY),
    flash_point=_celsius((-18.0, f"{_LCSS}; {_NTP}", _SEEN), (-20.0, _IEC, _LIB), (-20.0, _NFPA, _LIB)),
    autoignition=_celsius((465.0, _LCSS, _SEEN), (539.0, _IEC, _LIB), (465.0, _NFPA, _LIB)),
    lel=_percent((2.6, _NTP, _SEEN), (2.5, _IEC, _LIB), (2.5, _NFPA, _LIB)),
    uel=_percent((12.8, _NTP, _SEEN), (14.3, _IEC, _LIB)),
    exposure=Exposure(_limit(1000), _limit(250), None, _limit(2500)),
    ghs=Ghs(("GHS02", "GHS07"), "Danger", ("H225", "H319", "H336"), "safety data sheets", _MEM),
    water_miscible=True,
)

_N_HEPTANE = Substance(
    id="n-heptane",
    cas="142-82-5",
    molar_mass=_molar(100.202),
    density=_density(Value(683.8, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(4730.0, f"{_LIBRARY}; {_COOLPROP}"),
    vapour_pressure_25=_pressure(6100.0, f"{_LIBRARY}; {_COOLPROP}"),
    latent_heat=_one(368.1e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(0.71),
    boiling_point=_one(98.40, "°C", _LIBRARY),
    flash_point=_celsius((-3.9, _NPG, _MEM), (-7.0, _IEC, _LIB), (-4.0, _NFPA, _LIB)),
    autoignition=_celsius((204.0, _IEC, _LIB), (204.0, _NFPA, _LIB)),
    lel=_percent((1.05, _IDLH, _SEEN), (0.85, _IEC, _LIB), (1.0, _NFPA, _LIB)),
    uel=_percent((6.7, _IEC, _LIB), (6.7, _NPG, _MEM)),
    exposure=Exposure(_limit(500), _limit(85), _limit(440), _limit(750)),
    ghs=Ghs(("GHS02", "GHS07", "GHS08", "GHS09"), "Danger", ("H225", "H304", "H315", "H336", "H410"),
            "safety data sheets", _MEM),
    water_miscible=False,
)  # fmt: skip

_ETHYL_ACETATE = Substance(
    id="ethyl-acetate",
    cas="141-78-6",
    molar_mass=_molar(88.105),
    density=_density(Value(899.6, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(9844.0, f"Wagner, {_LIBRARY}", (76.0, _LCSS)),
    vapour_pressure_25=_pressure(12614.0, f"Wagner, {_LIBRARY}"),
    latent_heat=_one(408.2e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(0.87),
    boiling_point=_one(77.10, "°C", _LIBRARY),
    flash_point=_celsius((-4.0, _LCSS, _SEEN), (-4.0, _IEC, _LIB), (-4.0, _NFPA, _LIB)),
    autoignition=_celsius((427.0, _LCSS, _SEEN), (470.0, _IEC, _LIB), (427.0, _NFPA, _LIB)),
    lel=_percent((2.0, _IDLH, _SEEN), (2.0, _IEC, _LIB), (2.0, _NFPA, _LIB)),
    uel=_percent((11.5, _LCSS, _SEEN), (12.8, _IEC, _LIB)),
    exposure=Exposure(_limit(400), _limit(400), None, _limit(2000)),
    ghs=Ghs(("GHS02", "GHS07"), "Danger", ("H225", "H319", "H336"), "safety data sheets", _SEEN),
    water_miscible=False,
)

# d- and dl-limonene have different data: what burns was measured on dl-limonene, CAS 138-86-3.
_D_LIMONENE = Substance(
    id="d-limonene",
    cas="5989-27-5",
    molar_mass=_molar(136.234),
    density=_density(Value(876.9, "kg/m³", _LIBRARY, _LIB), Value(841.0, "kg/m³", "handbooks", _MEM)),
    vapour_pressure_20=_pressure(199.0, f"Landolt-Börnstein, {_LIBRARY}"),
    vapour_pressure_25=_pressure(271.0, f"Landolt-Börnstein, {_LIBRARY}"),
    latent_heat=_one(335.7e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(0.65),
    boiling_point=_one(177.6, "°C", _LIBRARY),
    flash_point=_celsius(
        (43.0, f"{_IEC}, dl-limonene", _LIB), (45.0, f"{_NFPA}, dl-limonene", _LIB), (47.9, _DIPPR, _LIB)
    ),
    autoignition=_celsius((237.0, f"{_IEC}, dl-limonene", _LIB)),
    lel=_percent((0.7, f"{_IEC}, dl-limonene", _LIB)),
    uel=_percent((6.1, f"{_IEC}, dl-limonene", _LIB)),
    exposure=Exposure(None, None, None, None),  # neither agency sets one (from memory)
    ghs=Ghs(("GHS02", "GHS07", "GHS08", "GHS09"), "Danger", ("H226", "H304", "H315", "H317", "H400", "H412"),
            "safety data sheets", _MEM),
    water_miscible=False,
)  # fmt: skip

_DEIONISED_WATER = Substance(
    id="deionised-water",
    cas="7732-18-5",
    molar_mass=_molar(18.015),
    density=_density(Value(998.2, "kg/m³", _LIBRARY, _LIB)),
    vapour_pressure_20=_pressure(2339.3, f"IAPWS, {_LIBRARY}; {_COOLPROP}"),
    vapour_pressure_25=_pressure(3169.9, f"IAPWS, {_LIBRARY}; {_COOLPROP}"),
    latent_heat=_one(2453.5e3, "J/kg", _LIBRARY),
    diffusion=_diffusion(2.5),
    boiling_point=_one(99.97, "°C", _LIBRARY),
    flash_point=None,
    autoignition=None,
    lel=None,
    uel=None,
    exposure=Exposure(None, None, None, None),
    ghs=None,
    water_miscible=True,
)

SUBSTANCES: dict[str, Substance] = {
    liquid.id: liquid
    for liquid in (_ISOPROPANOL, _ETHANOL, _ACETONE, _N_HEPTANE, _ETHYL_ACETATE, _D_LIMONENE, _DEIONISED_WATER)
}
"""The built-in liquids by name."""
