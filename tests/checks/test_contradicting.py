"""Which numbers in a text contradict a field of the step, and which are about something else."""

from __future__ import annotations

import pytest

from tests.make import EXAMPLE, check

IRON = "solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 4, pause: 5 s}"
MAT = "heat: {tool: heat-mat, at: 75 °C, for: 8 min, on: lens}"
WIPE = "solvent: {material: isopropanol, volume: 0.5 mL, on: lamp, area: 2 cm²}"
WAIT = "wait: {for: 2 min}"
OVEN = "wait: {for: 2–4 h, at: 45 °C, with: drying-oven}"
SCREW = "screw: {case-screw: 4}"
OWN_TORQUE = "screw: {case-screw: {count: 4, torque: 10 cN·m}}"
FEED = "supply: {from: bench-supply, at: 5 V, limit: 500 mA, into: lamp-socket}"
FLUX = "apply: {no-clean-flux: 0.1 mL, sac305-wire: 0.3 g}"
READ = "check: {measure: voltage, with: multimeter, expect: 3.0–4.2 V, if_not: {stop: No.}}"
LOOK = "check: {look: It is whole., if_not: {stop: No.}}"


def contradictions(do: str, fields: str) -> list[str]:
    """Return what this rule says of a step."""
    text = f'title: Example\naccess: open\nsteps:\n  - do: "{do}"\n    {fields}\n'
    checked = check({EXAMPLE: text})
    assert ("wader", "example") in checked.base.procedures  # else nothing was judged
    return [found.message for found in checked.findings if found.rule == "contradicting-number"]


@pytest.mark.parametrize(
    ("do", "fields", "field"),
    [
        ("Solder each pin at 330 °C.", IRON, "solder.at"),
        ("Solder each pin with the iron at 380 °C for 2 to 3 s.", IRON, "solder.at"),
        ("Solder each pin with the 380 °C iron.", IRON, "solder.at"),
        ("Set the iron to 300–380 °C.", IRON, "solder.at"),
        ("Solder each pin for 5 s.", IRON, "solder.for"),
        ("Solder each pin for five seconds.", IRON, "solder.for"),
        ("Solder each pin with a pause of 2 s.", IRON, "solder.pause"),
        ("Heat the lens to 70 °C.", MAT, "heat.at"),
        ("Heat the lens at 158 °F.", MAT, "heat.at"),
        ("Heat the lens for 10 min.", MAT, "heat.for"),
        ("Wipe the lamp with 1 mL of isopropanol.", WIPE, "solvent.volume"),
        ("Wipe the lamp with 0.8 mL.", WIPE, "solvent.volume"),
        ("Wipe 4 cm² of the lamp.", WIPE, "solvent.area"),
        ("Wait 3 min.", WAIT, "wait.for"),
        ("Let the lamp rest for two hours.", WAIT, "wait.for"),
        ("Dry the lamp at 60 °C for 3 h.", OVEN, "wait.at"),
        ("Drive the screws to 14 cN·m.", SCREW, "the torque of case-screw"),
        ("Drive the screws to 12 cN·m.", OWN_TORQUE, "the torque of case-screw"),
        ("Feed the lamp with 12 V.", FEED, "supply.at"),
        ("Set the limit to 2 A.", FEED, "supply.limit"),
        ("Lay 0.3 mL of flux on the pads.", FLUX, "apply.no-clean-flux"),
        ("Lay 0.5 g of wire on the pads.", FLUX, "apply.sac305-wire"),
        ("See that the voltage is 5 V.", READ, "check.expect"),
        ("Press the key for 30 s.", "takes: 5–10 s", "takes"),
    ],
)
def test_contradiction(do: str, fields: str, field: str) -> None:
    """A number that is said of what the step does, and that its field does not give, is found."""
    (message,) = contradictions(do, fields)

    assert f"`{field}`" in message


@pytest.mark.parametrize(("do", "fields"), [("Wait 2 min.", WAIT), ("Wait 3 min.", "wait: {for: 3 min}")])
def test_cure(do: str, fields: str) -> None:
    """Writing the one number in the text, or the other in the field, as the advice says, ends the finding."""
    text = f"title: Example\nsteps:\n  - do: Wait 3 min.\n    {WAIT}\n"
    (finding,) = check({EXAMPLE: text}).findings

    assert "Write 2 min in the text, or 3 min in the field, whichever is right." == finding.help
    assert [] == contradictions(do, fields)


@pytest.mark.parametrize(
    ("do", "fields"),
    [
        ("Solder each pin at 350 °C.", IRON),
        ("Solder each pin at 662 °F.", IRON),
        ("Solder each pin for 2 s.", IRON),
        ("Solder each pin for 2 to 3 seconds, then pause 5 s.", IRON),
        ("Solder each pin, 25 s in all.", IRON),
        ("Bring each joint to 240 °C.", IRON),
        ("Solder the pins before the board cools to 40 °C.", IRON),
        ("Solder each pin, never longer than 5 s.", IRON),
        ("Solder each pin within 30 s.", IRON),
        ("Solder each pin of the 5 V rail.", IRON),
        ("Heat the lens to 75 °C.", MAT),
        ("Heat the lens at 167 °F.", MAT),
        ("Heat the lens for eight minutes.", MAT),
        ("Heat the lens for 480 s.", MAT),
        ("Heat the lens until the thermocouple reads 60 °C.", MAT),
        ("Heat the lens at up to 80 °C.", MAT),
        ("Heat the lens at 60 °C or more.", MAT),
        ("Heat the lens, turning it every 2 min.", MAT),
        ("Heat the lens 10 min after the adhesive was laid.", MAT),
        ("Wipe the lamp with 0.5 mL of isopropanol.", WIPE),
        ("Wipe the lamp with 500 µL.", WIPE),
        ("Wipe the lamp with a swab from the 100 mL bottle.", WIPE),
        ("Wipe the lamp beside 2 mL of water.", WIPE),
        ("Wipe 200 mm² of the lamp.", WIPE),
        ("Wait 120 s.", WAIT),
        ("Wait another 2 min after the first 5 min.", WAIT),
        ("Dry the lamp for 3 h at 45 °C.", OVEN),
        ("Dry the lamp for a half of 3 h.", OVEN),
        ("Drive the screws to 12 cN·m.", SCREW),
        ("Drive the screws to 0.12 N·m.", SCREW),
        ("Drive the screws to 1.06 lbf·in.", SCREW),
        ("Drive the M2 × 5 mm screws.", SCREW),
        ("Feed the lamp with 5 V and a limit of 0.5 A.", FEED),
        ("Lay 0.1 mL of flux and 300 mg of wire on the pads.", FLUX),
        ("Measure the voltage of the 5 V rail.", READ),
        ("Measure the voltage at 20 °C.", READ),
        ("Measure the voltage with the input at 12 V.", READ),
        ("See that the voltage is 3.7 V.", READ),
        ("Press the key for 5 s.", "takes: 5–10 s"),
        ("Look at the lamp from 30 cm for 10 s.", LOOK),
    ],
)
def test_no_contradiction(do: str, fields: str) -> None:
    """A number that the field gives too, or that may be a limit, another time or a thing's, is left alone."""
    assert [] == contradictions(do, fields)


@pytest.mark.parametrize(
    ("why", "fields", "count"),
    [
        ("With the iron at 330 °C the pad stays on.", IRON, 1),
        ("The 330 °C iron leaves the pad on.", IRON, 1),
        ("The 3 s pause lets the heat go.", IRON, 1),
        ("The 5 min wait lets the vapour go.", WAIT, 1),
        ("The 9 cN·m torque spares the thread.", SCREW, 1),
        ("With the iron at 350 °C the pad stays on.", IRON, 0),
        ("The lens must not pass 60 °C.", MAT, 0),
        ("The adhesive softens at 60–75 °C.", MAT, 0),
        ("The battery behind it bears 60 °C.", MAT, 0),
        ("An iron at 380 °C would lift the pad.", IRON, 0),
        ("The iron stands at 400 °C only when the board is thick.", IRON, 0),
        ("A reading an hour later, or 5 min later, is lower.", WAIT, 0),
        ("14 cN·m strips the thread.", SCREW, 0),
        ("The bottle holds 100 mL.", WIPE, 0),
    ],
)
def test_reason(why: str, fields: str, count: int) -> None:
    """In a reason only what a word ties to the step's own tool, wait, pause or torque is a claim."""
    assert count == len(contradictions("Go on.", f'{fields}\n    why: "{why}"'))


@pytest.mark.parametrize(
    ("look", "count"),
    [("The mat shows 90 °C.", 0), ("The mat is at 90 °C.", 1), ("The thermocouple reads 58 °C.", 0)],
)
def test_look(look: str, count: int) -> None:
    """In what a check looks for only what is said of the step's own tool is a claim."""
    assert count == len(contradictions("Heat the lens.", f"{MAT}\n    check: {{look: {look}, if_not: {{stop: No.}}}}"))


@pytest.mark.parametrize(
    ("do", "fields", "count"),
    [
        ("Remove the six case screws.", "unscrew: {case-screw: 4}", 1),
        ("Remove the 6 screws.", "unscrew: {case-screw: 4}", 1),
        ("Remove the four case screws.", "unscrew: {case-screw: 4}", 0),
        ("Remove the case screws.", "unscrew: {case-screw: 4}", 0),
        ("Remove the first two of the six screws.", "unscrew: {case-screw: 4}", 0),
        ("Remove all but two screws.", "unscrew: {case-screw: 4}", 0),
        ("Remove the screws, two turns each.", "unscrew: {case-screw: 4}", 0),
        ("Remove the screws one at a time.", "unscrew: {case-screw: 4}", 0),
        ("Remove the M2 screws at the 4 corners.", "unscrew: {case-screw: 4}", 0),
        ("Remove the 5 mm screws.", "unscrew: {case-screw: 4}", 0),
        ("Drive the two long and two short screws.", "screw: {case-screw: 4}", 0),
        ("Drive the three long and two short screws.", "screw: {case-screw: 4}", 1),
        ("Drive the three long screws and the two short screws.", "screw: {case-screw: 4}", 1),
    ],
)
def test_screws(do: str, fields: str, count: int) -> None:
    """How many screws a text speaks of is compared with how many its step moves, where it surely means all of them."""
    assert count == len(contradictions(do, fields))
