"""The built-in liquids, against published limits, handbooks and libraries that are not ours."""

from __future__ import annotations

import chemicals
import pytest

from benchleaf.library.names import BUILT_IN
from benchleaf.library.substance import PICTOGRAMS
from benchleaf.library.substances import SUBSTANCES
from benchleaf.library.value import Safe, Status, Value, higher, lower

FLAMMABLE = ("isopropanol", "ethanol", "acetone", "n-heptane", "ethyl-acetate")


def test_every_liquid_has_its_data() -> None:
    """Each liquid that a knowledge base may name without an entry has data under that name, and no other has."""
    named = {name for name, entry in BUILT_IN.items() if entry.kind == "solvent"}

    assert named == set(SUBSTANCES)


def test_cautious() -> None:
    """Of two values that differ the safe one is taken, and the other is kept."""
    a, b = Value(465, "°C", "one", Status.SEEN), Value(539, "°C", "other", Status.LIBRARY)

    assert (a, b) == (lower(a, b).cautious, higher(a, b).cautious)
    assert (a, b) == lower(a, b).values
    assert b == lower(a, b).towards(Safe.HIGHER)


@pytest.mark.outside
@pytest.mark.parametrize("name", SUBSTANCES)
def test_molar_mass(name: str) -> None:
    """The molar mass is that of the CAS number in the chemicals library, whose identities are PubChem's."""
    wanted = chemicals.search_chemical(SUBSTANCES[name].cas).MW

    assert wanted == pytest.approx(SUBSTANCES[name].molar_mass.first.value * 1000, rel=1e-4)


@pytest.mark.outside
@pytest.mark.parametrize("name", SUBSTANCES)
def test_boiling_point(name: str) -> None:
    """The boiling point is within 0.5 K of the chemicals library's first source."""
    wanted = chemicals.Tb(SUBSTANCES[name].cas) - 273.15

    assert wanted == pytest.approx(SUBSTANCES[name].boiling_point.first.value, abs=0.5)


@pytest.mark.outside
@pytest.mark.parametrize("name", FLAMMABLE)
@pytest.mark.parametrize("method", ["IEC 60079-20-1 (2010)", "NFPA 497 (2008)"])
def test_flash_point_and_limits(name: str, method: str) -> None:
    """No cautious fire datum lies on the dangerous side of IEC 60079-20-1 or NFPA 497."""
    liquid = SUBSTANCES[name]
    assert liquid.flash_point is not None
    assert liquid.autoignition is not None
    assert liquid.lel is not None

    flash = chemicals.T_flash(liquid.cas, method=method) - 273.15
    ignites = chemicals.T_autoignition(liquid.cas, method=method) - 273.15
    lean = chemicals.LFL(CASRN=liquid.cas, method=method) * 100

    assert liquid.flash_point.cautious.value <= flash + 0.01
    assert liquid.autoignition.cautious.value <= ignites + 0.01
    assert liquid.lel.cautious.value <= lean + 1e-9
    assert flash == pytest.approx(liquid.flash_point.cautious.value, abs=3.1)


# NIOSH Pocket Guide and IDLH documentation: "2000 ppm [10 % LEL]" (seen). The LEL is the one they name.
@pytest.mark.outside
@pytest.mark.parametrize(("name", "idlh"), [("isopropanol", 2000), ("ethanol", 3300), ("ethyl-acetate", 2000)])
def test_tenth_of_lel_is_idlh(name: str, idlh: float) -> None:
    """A tenth of the lower explosive limit that NIOSH prints is the IDLH that NIOSH prints."""
    liquid = SUBSTANCES[name]
    assert liquid.lel is not None
    assert liquid.exposure.idlh is not None

    assert idlh == pytest.approx(liquid.lel.first.value * 1e4 / 10, rel=1e-12)
    assert idlh == liquid.exposure.idlh.first.value


# NIOSH Pocket Guide (seen): OSHA PEL, NIOSH REL, short-term or ceiling; ppm.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "pel", "rel", "short"),
    [
        ("isopropanol", 400, 400, 500),
        ("ethanol", 1000, 1000, None),
        ("acetone", 1000, 250, None),
        ("n-heptane", 500, 85, 440),
        ("ethyl-acetate", 400, 400, None),
    ],
)
def test_exposure_limits(name: str, pel: float, rel: float, short: float | None) -> None:
    """The exposure limits are those of OSHA and NIOSH, not the Ontario ones that a library calls TWA."""
    limits = SUBSTANCES[name].exposure
    found = [
        None if cited is None else cited.first.value for cited in (limits.osha_pel, limits.niosh_rel, limits.short_term)
    ]

    assert [pel, rel, short] == found


# NIOSH Pocket Guide and laboratory chemical safety summaries (seen), mmHg at 20 °C; tolerance 6 %.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "mmhg"), [("isopropanol", 33), ("ethanol", 44), ("acetone", 180), ("ethyl-acetate", 76)]
)
def test_vapour_pressure_in_handbooks(name: str, mmhg: float) -> None:
    """The library's vapour pressure at 20 °C is within 6 % of the one in print."""
    assert mmhg * 133.322 == pytest.approx(SUBSTANCES[name].vapour_pressure_20.first.value, rel=0.06)


# Sign test: flash point below 20 °C if and only if the saturated vapour at 20 °C is above the LEL (physical chemistry).
@pytest.mark.outside
@pytest.mark.parametrize("name", [*FLAMMABLE, "d-limonene"])
def test_saturated_vapour_burns_above_flash_point(name: str) -> None:
    """Saturated vapour at 20 °C is above the lower explosive limit just where the flash point is below 20 °C."""
    liquid = SUBSTANCES[name]
    assert liquid.lel is not None
    assert liquid.flash_point is not None
    saturated = liquid.vapour_pressure_20.first.value / 101325 * 100

    assert (saturated > liquid.lel.cautious.value) == (liquid.flash_point.cautious.value < 20)


# GHS (public code tables): H225, category 2: flash point below 23 °C, boiling above 35 °C; H226, category 3: to 60 °C.
@pytest.mark.outside
@pytest.mark.parametrize("name", [*FLAMMABLE, "d-limonene"])
def test_ghs_follows_flash_point(name: str) -> None:
    """The hazard statement for fire is the one that the flash point and the boiling point give."""
    liquid = SUBSTANCES[name]
    assert liquid.flash_point is not None
    assert liquid.ghs is not None
    highly = liquid.flash_point.cautious.value < 23 and liquid.boiling_point.first.value > 35

    assert ("H225" if highly else "H226") == liquid.ghs.statements[0]
    assert "GHS02" == liquid.ghs.pictograms[0]
    assert set(liquid.ghs.pictograms) <= set(PICTOGRAMS)
    assert len(liquid.ghs.statements) == len(liquid.ghs.words)


def test_water_does_not_burn() -> None:
    """Water has neither a flash point nor a limit, and counts as no flammable liquid."""
    water = SUBSTANCES["deionised-water"]

    assert (False, None, None) == (water.flammable, water.lel, water.ghs)


@pytest.mark.parametrize("name", [*FLAMMABLE, "d-limonene"])
def test_flammable(name: str) -> None:
    """Every other built-in liquid counts as flammable."""
    assert SUBSTANCES[name].flammable
