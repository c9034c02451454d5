"""The ways that a procedure can go: how the device arrives, the straight pass, and each check failing."""

from __future__ import annotations

import re

import pytest

from benchleaf.model.step import GoTo, Stop
from tests import make
from tests.dryrun.made import trace

LOOK = "- {{id: look, do: Look at the socket., check: {{look: It is whole., if_not: {{{}}}}}}}"


def test_variants_differ() -> None:
    """Each variant is performed with what exists for it alone."""
    first, second = (trace("- {do: Look on.}", access="bare-board", variant=name) for name in ("w1", "w2"))

    assert "buzzer-plug" not in first.handover.unplugged
    assert "buzzer-plug" in second.handover.unplugged


@pytest.mark.parametrize(
    ("arrives", "power"), [("on", True), ("off", False), ("dead", False), ("unknown", True)], ids=str
)
def test_power_on_arrival(arrives: str, power: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """The device is on unless it is known to be off or dead: what is not known takes the bad end."""
    assert power is trace("- {do: Look on.}", fields=f"arrives: {{power: {arrives}}}\n").start.power


def test_wet_on_arrival() -> None:
    """Liquid lies on the board and on what is part of it, and a pack that met it is not sound."""
    start = trace("- {do: Look on.}", fields="arrives: {liquid: sea-water}\n").start

    assert {"main-board", "lamp-socket"} == set(start.wet)
    assert {"pack": "wet"} == start.damaged


def test_stop_ends_the_path() -> None:
    """A check that fails into a stop leaves the device as it is there."""
    found = trace(LOOK.format("stop: It is broken."))
    [route] = [route for route in found.routes if route.check.step.id == "look"]

    assert isinstance(route.end, Stop)
    assert route.check.after is route.state


def test_go_to_ends_the_path() -> None:
    """A check that fails into another procedure hands over the state at that check."""
    found = trace(LOOK.format("go_to: replace-lamp"))
    [route] = [route for route in found.routes if route.check.step.id == "look"]

    assert isinstance(route.end, GoTo)
    assert {"pack"} == route.state.isolated


def test_repeat_performs_again() -> None:
    """A repeat performs from its step to the check, as often as said; then the work goes on, or `then` ends it."""
    found = trace(f"""\
- {{id: brush, do: Brush the socket., solvent: {{material: isopropanol, volume: 0.2 mL, on: lamp-socket, area: 2 cm²}}}}
{LOOK.format("repeat: brush, times: 2, then: {stop: It stays dirty.}")}""")
    going_on, ending = [route for route in found.routes if route.check.step.id == "look"]

    assert ["brush", "look"] * 2 == [moment.step.id for moment in going_on.extra]
    assert 3 == len(going_on.state.releases)
    assert going_on.goes_on[-1].step.id == "open-closing-3"
    assert isinstance(ending.end, Stop)
    assert going_on.state == ending.state


def test_every_check_fails_once() -> None:
    """Each check with a way on is performed failing, one failure a path."""
    found = trace(LOOK.format("stop: It is broken."))

    assert {"open-opening-5", "look"} == {route.check.step.id for route in found.routes}


def test_known_swollen_pack_is_not_found_again() -> None:
    """A check whose answer the arrival gives already is not failed again."""
    found = trace(LOOK.format("stop: It is broken."), fields="purpose: make-safe\narrives: {battery: swollen}\n")

    assert {"look"} == {route.check.step.id for route in found.routes}


def test_make_safe_takes_over_in_the_opening() -> None:
    """A check in an opening may lead to a procedure that makes safe, which is performed from there."""
    unplug = "      - {do: Unplug the battery., unplug: battery-plug}\n"
    looked_at = re.sub(
        r"(battery: shape,\s+if_not: )\{stop: [^}]*\}\}\n", rf"\1{{go_to: example}}}}\n{unplug}", make.WADER
    )
    wader = looked_at.replace(unplug, "", 1)
    found = trace(
        "- {do: Lift the battery out., remove: battery}",
        fields="purpose: make-safe\n",
        wader=wader,
    )
    [route] = [route for route in found.routes if route.check.step.id == "open-opening-4"]

    assert ["open-opening-5", "steps-1"] == [moment.step.id for moment in route.extra][:2]
    assert "battery" in route.extra[1].after.away
