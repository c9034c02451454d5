"""Every dangerous state has its hazard, and no hazard stands without such a state: both ways, on the demonstration."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.callouts import callouts
from benchleaf.dryrun.hazards.every import hazards
from benchleaf.dryrun.hazards.kind import Hazard, Severity, given, stretches
from benchleaf.dryrun.performed import performed
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT
from tests.dryrun.dangers import CELSIUS, DANGEROUS, baseless, untold
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace


@cache
def _traces() -> tuple[Trace, ...]:
    return tuple(performed(build.check(scan(ROOT, "procedures")).base))


PROCEDURES = sorted(f"{path.parent.name}/{path.stem}" for path in (ROOT / "procedures/repairs").glob("*/*.yml"))


def _of(procedure: str) -> list[Trace]:
    return [one for one in _traces() if f"{one.procedure.device}/{one.procedure.id}" == procedure]


@pytest.mark.parametrize("procedure", PROCEDURES)
def test_no_danger_without_its_hazard(procedure: str) -> None:
    """Each step that is dangerous in some way lies between the beginning and the end of a message of that name."""
    assert [] == [left for one in _of(procedure) for left in untold(one, callouts(one, CELSIUS))]


@pytest.mark.parametrize("procedure", PROCEDURES)
def test_no_hazard_without_its_danger(procedure: str) -> None:
    """Each message begins at, and ends with, a step that is dangerous in that way."""
    assert [] == [left for one in _of(procedure) for left in baseless(one, callouts(one, CELSIUS))]


def test_every_hazard_of_the_format_is_met() -> None:
    """The demonstration meets each hazard but those that only a device of the tests has."""
    met = {found.hazard for one in _traces() for found in hazards(one)}

    assert set(DANGEROUS) - {"magnet", "biological", "sharp", "vapour", "lead"} <= met


@pytest.mark.parametrize(
    ("severity", "certain", "word"),
    [(Severity.GRAVE, True, "danger"), (Severity.GRAVE, False, "warning"), (Severity.LIGHT, False, "caution"),
     (Severity.THINGS, False, "notice")],
)  # fmt: skip
def test_signal_words(severity: Severity, certain: bool, word: str) -> None:  # noqa: FBT001 (pytest gives it by name)
    """Serious harm that may come is a warning, harm to things a notice (ANSI Z535.6 as DITA renders it; seen)."""
    assert word == Hazard("heat", 0, 0, severity, "What.", "Happens.", "Avoid.", certain=certain).signal


def test_stretches() -> None:
    """Runs of moments are found with their first and their last."""
    assert [(1, 2), (4, 4)] == list(stretches([False, True, True, False, True]))


def test_stored_charge_and_lead() -> None:
    """A charge above 0.1 J and 50 V is told from the opening to its discharge, and solder with lead where it melts."""
    charged = make.WADER.replace(
        "  lens:  ",
        "  flash-cap: {title: Flash capacitor, kind: other, stores: {capacitance: 100 µF, voltage: 300 V}}\n  lens:  ",
    ).replace("solder: sac305", "solder: sn63pb37")
    done = trace(
        """\
- {do: Discharge it., discharge: flash-cap}
- {do: Read it., check: {measure: voltage, with: multimeter, expect: < 5 V, if_not: {stop: It keeps its charge.}}}
- {do: Solder the socket., solder: {part: lamp-socket, tool: iron, at: 300 °C, for: 2 s}}
""",
        wader=charged,
    )
    found = {one.hazard: one for one in hazards(done)}

    assert "warning" == found["stored-energy"].signal
    assert given(4.5, "J") == found["stored-energy"].numbers["energy"]
    assert "steps-2" == done.straight[found["stored-energy"].last].step.id
    assert ("warning", "steps-3") == (found["lead"].signal, done.straight[found["lead"].first].step.id)
