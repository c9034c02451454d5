"""Alloys, solids and screws of the library, against published tables."""

from __future__ import annotations

import math

import pytest
from ht import insulation

from benchleaf.library.alloys import ALLOYS
from benchleaf.library.names import BUILT_IN
from benchleaf.library.screws import STAINLESS_BREAKING, THREADS, stainless_class
from benchleaf.library.solids import SOLIDS, THRESHOLDS, Grip, Touch


@pytest.mark.parametrize(("kind", "data"), [("alloy", ALLOYS), ("solid", SOLIDS)])
def test_every_name_has_its_data(kind: str, data: dict[str, object]) -> None:
    """Each alloy and solid that a knowledge base may name has data under that name, and no other has."""
    assert {name for name, entry in BUILT_IN.items() if entry.kind == kind} == set(data)


# Solder alloy tables (seen): eutectic points and the range of SAC305; Sn99.3Cu0.7 from memory.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "solidus", "liquidus"),
    [("sn63pb37", 183, 183), ("sac305", 217, 220), ("sn42bi58", 138, 138), ("sn99cu1", 227, 227)],
)
def test_melting_range(name: str, solidus: float, liquidus: float) -> None:
    """The solidus and the cautious liquidus are those of the tables."""
    alloy = ALLOYS[name]

    assert (solidus, liquidus) == (alloy.solidus.cautious.value, alloy.liquidus.cautious.value)


@pytest.mark.parametrize("name", ALLOYS)
def test_liquidus_above_solidus(name: str) -> None:
    """An alloy is not liquid before it begins to melt."""
    assert ALLOYS[name].solidus.cautious.value <= ALLOYS[name].liquidus.first.value


# EN ISO 10456 as the ht library holds it: W/mK, kg/m³, J/kgK.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "tabled"),
    [
        ("glass", "Glass, soda lime"),
        ("aluminium", "Metals, aluminium alloys"),
        ("brass", "Metals, brass"),
        ("copper", "Metals, copper"),
        ("steel", "Metals, steel"),
        ("stainless-steel", "Metals, stainless steel"),
        ("polycarbonate", "Plastics, polycarbonates"),
        ("pmma", "Plastics, polymethylmethacrylate (PMMA)"),
        ("nylon", "Plastics, polyamide (nylon)"),
        ("wood", "Wood, plywood 500 kg/m^3"),
    ],
)
def test_thermal_data(name: str, tabled: str) -> None:
    """Conductivity, density and heat capacity are those of EN ISO 10456."""
    solid = SOLIDS[name]
    found = (solid.conductivity.value, solid.density.value, solid.heat_capacity.value)
    wanted = (insulation.k_material(tabled), insulation.rho_material(tabled), insulation.Cp_material(tabled))

    assert pytest.approx(wanted) == found


# Callister, Fundamentals of Materials Science and Engineering 3e, App. E (seen), °C.
@pytest.mark.outside
@pytest.mark.parametrize(("name", "glass"), [("polycarbonate", 150), ("pet", 69)])
def test_softening(name: str, glass: float) -> None:
    """The glass transition is the one that Callister prints."""
    softens = SOLIDS[name].softens
    assert softens is not None

    assert glass == softens.cautious.value


# IEC 62368-1 Table 38 TS1: 48, 51, 60 and 77 seen second hand; ISO 13732-1 gives the same 51, 56, 60, 60 (from memory).
@pytest.mark.outside
@pytest.mark.parametrize(
    ("grip", "row"),
    [
        (Grip.BRUSH, (70, 85, 94, 140)),
        (Grip.SECONDS, (60, 71, 77, 107)),
        (Grip.HANDLING, (51, 56, 60, 60)),
        (Grip.HOLDING, (48, 48, 48, 48)),
    ],
)
def test_touch_thresholds(grip: Grip, row: tuple[float, ...]) -> None:
    """The touch thresholds are the rows of the standard, metal, glass, plastic, wood."""
    assert row == tuple(THRESHOLDS[grip][touch].value for touch in Touch)


# ISO 724 and ISO 898-1 by their formulas (calculated): pitch diameter, minor diameter, root, mm; stress area, mm².
@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor", "root", "area"),
    [
        ("M1", 0.838, 0.729, 0.693, 0.460),
        ("M1.2", 1.038, 0.929, 0.893, 0.732),
        ("M1.4", 1.205, 1.075, 1.032, 0.983),
        ("M1.6", 1.373, 1.221, 1.171, 1.270),
        ("M2", 1.740, 1.567, 1.509, 2.073),
        ("M2.5", 2.208, 2.013, 1.948, 3.391),
        ("M3", 2.675, 2.459, 2.387, 5.031),
        ("M3.5", 3.110, 2.850, 2.764, 6.775),
        ("M4", 3.545, 3.242, 3.141, 8.779),
        ("M5", 4.480, 4.134, 4.019, 14.183),
    ],
)
def test_thread_geometry(name: str, pitch_diameter: float, minor: float, root: float, area: float) -> None:
    """A thread's diameters are those of ISO 724, and the stress area that of ISO 898-1."""
    screw = THREADS[name]
    stress = math.pi / 4 * ((screw.pitch_diameter + screw.root) / 2) ** 2

    assert pitch_diameter == pytest.approx(screw.pitch_diameter * 1e3, abs=6e-4)
    assert minor == pytest.approx(screw.minor * 1e3, abs=6e-4)
    assert root == pytest.approx(screw.root * 1e3, abs=6e-4)
    assert area == pytest.approx(stress * 1e6, rel=1.5e-3)


@pytest.mark.parametrize("name", THREADS)
def test_limits_of_thread(name: str) -> None:
    """The limits of a screw's pitch diameter lie in order, at or below the basic one."""
    screw = THREADS[name]

    assert screw.pitch_diameter_min.value < screw.pitch_diameter_max.value <= screw.pitch_diameter + 1e-6


@pytest.mark.parametrize(
    ("grade", "found"),
    [("A2-70", "70"), ("A4-80", "80"), ("A1-50", "50"), ("A4L-70", "70"), ("8.8", None), ("A2", None)],
)
def test_stainless_grade(grade: str, found: str | None) -> None:
    """A stainless grade is read by its class, and nothing else is."""
    assert found == stainless_class(grade)


def test_stainless_classes_rise() -> None:
    """A higher class of stainless screw breaks at no lower torque in any size."""
    columns = [[row[thread].value for row in STAINLESS_BREAKING.values()] for thread in STAINLESS_BREAKING["50"]]

    assert [sorted(column) for column in columns] == columns
