"""The numbers of each step and the limits that they are held against: the very ones that states and rules go by."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from benchleaf.derive.measures import Measured, measured
from benchleaf.derive.number import GIVEN
from benchleaf.dryrun.case import shut_cases
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.dryrun.warmth import warmed_in
from tests.dryrun.made import trace
from tests.make import WADER

if TYPE_CHECKING:
    from benchleaf.derive.held import Held
    from benchleaf.dryrun.trace import Trace

SOLDER = "- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 3, pause: 4 s}}"
BRUSH = "- {do: Brush it., takes: 1 min, solvent: {material: isopropanol, volume: 0.5 mL, on: lamp, area: 2 cm²}}"
HEAT = "- {do: Warm it., heat: {tool: heat-mat, at: 75 °C, for: 5 min, on: lens}}"


def measures(made: Trace) -> dict[str, Measured]:
    """Return what is known of each step of the straight pass, by its id."""
    return {one.moment.step.id: one for one in measured(made)}


def held(one: Measured, kind: str) -> list[Held]:
    """Return what is held against limits of *kind* in a step."""
    return [limit for limit in one.limits if limit.kind == kind]


def test_drying() -> None:
    """Where a part is wetted stands how long it takes to dry on the bench, in a wait how long in the air of that."""
    made = trace(f"{BRUSH}\n- {{do: Blow it., wait: {{for: 5 min, air_speed: 3 m/s}}, use: [air-duster]}}")
    found = measures(made)
    first, second = (found[f"steps-{number}"].numbers["dry:lamp"] for number in (1, 2))
    wet = made.straight[5].after.wet["lamp"]

    assert first.high == made.nature.drying(made.world, "lamp", wet)
    assert second.high == made.nature.drying(made.world, "lamp", wet, made.straight[6].step)
    assert second.high < first.high
    assert "s" == first.unit


def test_drying_of_what_is_left() -> None:
    """After a wait that was too short, the next one says what is left of the drying."""
    found = measures(trace(f"{BRUSH}\n" + "- {do: Wait., wait: {for: 1 min}}\n" * 2))
    first, second = (found[f"steps-{number}"].numbers["dry:lamp"].high for number in (2, 3))

    assert first - 60 == pytest.approx(second)


def test_liquid_that_nobody_knows() -> None:
    """How long a liquid outside the library takes is open, and the method says that someone must look."""
    [one] = [
        found.numbers["dry:lamp"]
        for found in measured(trace("- {do: Wet it., solvent: {material: lamp-oil, volume: 1 mL, on: lamp}}"))
        if "dry:lamp" in found.numbers
    ]

    assert math.inf == one.high
    assert "must see" in one.method


def test_cooling() -> None:
    """A heating says when the part may be handed over and when a hand may touch it: what the state remembers."""
    made = trace(f"{SOLDER}\n- {{do: Wait., wait: {{for: 1 min}}}}\n- {{do: Wait., wait: {{for: 9 min, until: cool}}}}")
    found, hot = measures(made), made.straight[5].after.hot["lamp-socket"]

    numbers = found["steps-1"].numbers
    assert (hot.cool, hot.hand) == (numbers["cool:lamp-socket"].high, numbers["hand-cool:lamp-socket"].high)
    assert hot.cool - 60 == pytest.approx(found["steps-3"].numbers["cool:lamp-socket"].high)
    assert "less the time" in found["steps-3"].numbers["cool:lamp-socket"].method


def test_joint() -> None:
    """An iron is held against what the joint bears, in temperature and in time."""
    one = measures(trace(SOLDER))["steps-1"]
    [heat], [time] = held(one, "joint"), held(one, "joint-time")

    assert (350.0, 360.0) == (heat.reached and heat.reached.value, heat.limit.value)
    assert (3.0, 5.0) == (time.reached and time.reached.high, time.limit.value)
    assert [] == held(one, "body")


def test_body() -> None:
    """What is heated by other tools is held against what its body bears."""
    [body] = held(measures(trace(HEAT))["steps-1"], "body")

    assert ("lens", 75.0, 90.0) == (body.on, body.reached and body.reached.value, body.limit.value)


def test_neighbour() -> None:
    """A neighbour's temperature is the one that the dry run computed, held against what the neighbour bears."""
    made = trace(SOLDER)
    one = measures(made)["steps-1"]
    [warm] = [warmed for warmed in warmed_in(made, made.straight[5]) if warmed.part == "battery"]

    number = one.numbers["neighbour:battery"]
    assert (warm.reached.central, warm.reached.high) == (number.value, number.high)
    assert [("battery", 60.0)] == [(limit.on, limit.limit.value) for limit in held(one, "neighbour")]


def test_vapour() -> None:
    """What is released is held against the limits of 15 minutes and 8 hours, and its share of what could burn."""
    made = trace(BRUSH)
    one = measures(made)["steps-1"]
    [air] = at_the_bench(made.nature, made.straight)
    [short], [eight], [burns] = (held(one, f"vapour-{kind}") for kind in ("15-min", "8-h", "explosive"))

    assert (500.0, 400.0, 25.0) == (short.limit.value, eight.limit.value, burns.limit.value)
    assert short.reached
    assert air.gases[0].mean.worst == short.reached.high
    assert burns.reached
    assert burns.reached.high == pytest.approx(100 * air.share)
    assert one.numbers["explosive-share"] == burns.reached


def test_vapour_in_the_case() -> None:
    """What is shut in is held against the share of the explosive limit that is kept in a case."""
    made = trace("- {do: Dab it., apply: {no-clean-flux: 0.1 mL}, work: {kind: wipe, on: lamp}}")
    [case] = shut_cases(made.world, made.nature, made.straight)
    [one] = [limit for step in measured(made) for limit in held(step, "vapour-case")]

    assert case.share is not None
    assert ("open", 10.0) == (one.on, one.limit.value)
    assert one.reached
    assert one.reached.value == pytest.approx(100 * case.share)


def test_case_of_unknown_volume() -> None:
    """Where nobody says how much air is in the case, nobody can say what share of the limit is reached."""
    made = trace(
        "- {do: Dab it., apply: {no-clean-flux: 0.1 mL}, work: {kind: wipe, on: lamp}}",
        wader=WADER.replace("    volume: 40 cm³\n", ""),
    )
    [one] = [limit for step in measured(made) for limit in held(step, "vapour-case")]

    assert one.reached is None


def test_torque() -> None:
    """A screw that is driven has its torque as written, what is recommended, and the most that it bears."""
    one = measures(trace("- {do: Look on.}"))["open-closing-3"]
    written, recommended, most = (one.numbers[f"{name}:case-screw"] for name in ("torque", "recommended", "most"))

    # M2 of class 8.8 breaks at 36.8 cN·m at the least (ISO 898-7): half of it, and 0.6 of it less the driver's 6 %.
    assert written.value == pytest.approx(12.0)
    assert (GIVEN, "cN·m") == (written.method, written.unit)
    assert recommended.value == pytest.approx(18.0)
    assert most.value == pytest.approx(0.6 * 36.8 / 1.06, rel=0.01)
    assert [("case-screw", most, written)] == [(at.on, at.limit, at.reached) for at in held(one, "torque")]


def test_torque_of_the_step() -> None:
    """A torque that the step gives stands for the one of the device."""
    one = measures(trace("- {do: Drive one., screw: {case-screw: {count: 1, torque: 0.1 N·m}}}"))["steps-1"]

    assert one.numbers["torque:case-screw"].value == pytest.approx(10.0)


def test_screw_of_unknown_strength() -> None:
    """Of a screw whose strength nobody knows only the written torque is told."""
    made = trace("- {do: Look on.}", wader=WADER.replace('grade: "8.8", ', ""))
    one = measures(made)["open-closing-3"]

    assert ["torque:case-screw"] == [name for name in one.numbers if name.endswith(":case-screw")]
    assert [] == held(one, "torque")


def test_bond() -> None:
    """A bond says when it bears handling and when it has all its strength, as its adhesive gives it."""
    one = measures(trace("- {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}"))["steps-1"]

    assert (1800.0, 86400.0) == (one.numbers["firm"].value, one.numbers["full-strength"].value)
    assert "procedures/materials.yml" == one.numbers["firm"].source
