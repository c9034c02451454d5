"""Vapour of a drop: pressures against equations of state, volumes against handbook arithmetic."""

from __future__ import annotations

import math

import pytest
from chemicals import safety, vapor_pressure
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics.liquid import (
    liquid_volume,
    milligrams_per_cubic_metre,
    saturation,
    vapour_pressure,
    vapour_volume,
)
from benchleaf.physics.types import Celsius, CubicMetres, OutOfRange
from tests.physics.cases import ISOPROPANOL, WATER, millilitres


@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "fluid"),
    [("ethanol", "Ethanol"), ("acetone", "Acetone"), ("n-heptane", "n-Heptane"), ("deionised-water", "Water")],
)
@pytest.mark.parametrize(("celsius", "tolerance"), [(0, 0.025), (21, 0.02), (40, 0.02), (60, 0.045)])
def test_against_equation_of_state(name: str, fluid: str, celsius: float, tolerance: float) -> None:
    """The vapour pressure is CoolProp's within 2.5 % up to 40 °C and 4.5 % at 60 °C."""
    wanted = PropsSI("P", "T", celsius + 273.15, "Q", 1, fluid)

    assert wanted == pytest.approx(vapour_pressure(SUBSTANCES[name], Celsius(celsius)), rel=tolerance)


# Wagner coefficients of Poling, Prausnitz and O'Connell as the chemicals library holds them.
@pytest.mark.outside
@pytest.mark.parametrize("name", ["isopropanol", "ethyl-acetate"])
@pytest.mark.parametrize(("celsius", "tolerance"), [(20, 0.001), (25, 0.001), (40, 0.02), (60, 0.06)])
def test_against_wagner(name: str, celsius: float, tolerance: float) -> None:
    """The vapour pressure is that of the Wagner equation at the two fixed points, and near it beyond them."""
    row = vapor_pressure.Psat_data_WagnerMcGarry.loc[SUBSTANCES[name].cas]
    wanted = vapor_pressure.Wagner_original(
        celsius + 273.15, row["Tc"], row["Pc"], row["A"], row["B"], row["C"], row["D"]
    )

    assert wanted == pytest.approx(vapour_pressure(SUBSTANCES[name], Celsius(celsius)), rel=tolerance)


# 4.4 % isopropanol at 21 °C (calculated).
@pytest.mark.outside
def test_saturation() -> None:
    """Saturated air holds 4.4 % isopropanol at 21 °C."""
    assert 0.044 == pytest.approx(saturation(ISOPROPANOL, Celsius(21.0)), abs=5e-4)


# Vapour from 1 mL at 25 °C, L (calculated from density, molar mass and the ideal gas).
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "litres"),
    [
        ("isopropanol", 0.3201),
        ("ethanol", 0.4190),
        ("acetone", 0.3327),
        ("n-heptane", 0.1669),
        ("ethyl-acetate", 0.2496),
    ],
)
def test_vapour_of_a_millilitre(name: str, litres: float) -> None:
    """One millilitre makes as much vapour as was tabled."""
    assert litres == pytest.approx(vapour_volume(SUBSTANCES[name], millilitres(1), Celsius(25.0)) * 1e3, rel=0.01)


# NIOSH Pocket Guide: 400 ppm isopropanol is 980 mg/m³ (seen); the library's conversion follows the ACGIH.
@pytest.mark.outside
def test_milligrams() -> None:
    """400 ppm isopropanol is 982.5 mg/m³, as NIOSH and the chemicals library say within 1 %."""
    found = milligrams_per_cubic_metre(400, ISOPROPANOL)

    assert 982.5 == pytest.approx(found, rel=0.001)
    assert 980 == pytest.approx(found, rel=0.01)
    assert safety.ppmv_to_mgm3(400, 60.095) == pytest.approx(found, rel=0.001)


# The chemicals library's own documented example, after the ACGIH: 1 ppm at 40 g/mol.
@pytest.mark.outside
def test_documented_example() -> None:
    """The library that is asked here gives the example of its own documentation."""
    assert 1.6349617809430446 == pytest.approx(safety.ppmv_to_mgm3(1.0, 40.0), rel=1e-6)


@settings(deadline=None, max_examples=60)
@given(volume=st.floats(1e-9, 1e-4), celsius=st.floats(0, 60))
def test_there_and_back(volume: float, celsius: float) -> None:
    """The vapour of a liquid is the vapour of that much liquid again."""
    vapour = vapour_volume(ISOPROPANOL, CubicMetres(volume), Celsius(celsius))

    assert math.isclose(volume, liquid_volume(ISOPROPANOL, vapour, Celsius(celsius)), rel_tol=1e-12)


def test_too_hot() -> None:
    """Where the straight line does not hold, no pressure is given."""
    with pytest.raises(OutOfRange, match="the temperature is 80 °C, and this holds for -30 to 65 °C"):
        vapour_pressure(WATER, Celsius(80.0))
