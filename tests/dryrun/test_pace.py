"""How long things stay wet or hot: one answer for the state and for whoever shows it, and none where nobody knows."""

from __future__ import annotations

import math

import pytest

from benchleaf.dryrun.pace import Lies
from benchleaf.dryrun.state import Wet
from benchleaf.model.action import Heat
from tests.dryrun.made import trace

BRUSH = "- {do: Brush it., takes: 1 min, solvent: {material: isopropanol, volume: 0.5 mL, on: lamp, area: 2 cm²}}\n"


def test_drying_of_the_bench() -> None:
    """A brushed part is dry after the time at the bad end, and the estimate shows the range around it."""
    made = trace(BRUSH)
    wet = made.handover.wet["lamp"]

    estimate = made.nature.drying_estimate(made.world, "lamp", wet)

    assert estimate is not None
    assert estimate.worst == made.nature.drying(made.world, "lamp", wet)
    # 50 µm of isopropanol on 2 cm² at 21 °C and 0.1 m/s: 68.4 s, 184 s at the wet-bulb temperature.
    assert pytest.approx((68.4, 184), rel=0.03) == (estimate.central, estimate.high)


def test_liquid_that_nobody_knows() -> None:
    """Nobody can say how long a liquid that the library does not hold takes to dry."""
    made = trace("- {do: Look on.}")
    wet = Wet("lamp-oil", None, None, trapped=False, flooded=True)

    assert made.nature.drying_estimate(made.world, "lamp", wet) is None
    assert math.inf == made.nature.drying(made.world, "lamp", wet)


def test_air_that_no_formula_holds_for() -> None:
    """In air hotter than the formulas hold for, a part stays wet until someone sees it dry."""
    state = trace(f"{BRUSH}- {{do: Wait., wait: {{for: 9 h, until: dry, at: 80 °C, with: drying-oven}}}}").handover

    assert {"lamp"} == set(state.wet)


def test_cooling_of_the_state() -> None:
    """What the state remembers of a hot part is the bad end of what is shown."""
    made = trace("- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}")
    [(moment, heat)] = made.acts(Heat)

    times = made.nature.cooling(made.world, "lamp-socket", heat, Lies.ON_BOARD)

    assert times is not None
    hot = moment.after.hot["lamp-socket"]
    assert (hot.cool, hot.hand) == (times[0].worst, times[1].worst)
    assert times[1].worst < times[0].worst
