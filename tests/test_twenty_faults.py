"""Twenty faults in one procedure are twenty findings: none hides another, and none is said twice."""

from __future__ import annotations

from dataclasses import dataclass
from string import Template
from typing import TYPE_CHECKING

import pytest

from tests.make import EXAMPLE, check

if TYPE_CHECKING:
    from collections.abc import Collection

    from benchleaf.findings import Finding

PROCEDURE = Template("""\
title: Renew the joints of the lamp
access: open
status: approved
reviewed: 2026-09-14
fixes: [no-light]
tools: [microscope, iron, heat-mat, multimeter, driver-small$listing_mismatch]
materials: {no-clean-flux: 0.1 mL, sac305-wire: 0.3 g}
steps:
  - do: Inspect the lamp socket.
    use: [$unknown_reference]
    check: {look: Every pad is there., if_not: {stop: A pad has gone. Send the board away.}}
    record: photo
    why: $swallowed_comment
  - do: Look at the lens from the side.
    picture: $missing_picture
  - do: $long_sentence
  - do: $several_instructions
  - do: $missing_instruction
  - do: Look at the buzzer.
    only: [$wrong_value]
  - do: Look at the lamp.
    picture: media/not-drawn-yet.svg
    allow: [{rule: missing-picture$unexplained_allow}]
  - do: Look at the plug of the lamp.
    allow: [$unused_allow]
  - {do: Unplug the lamp., unplug: lamp-plug}
  - {do: Lift the lamp out., remove: lamp}
  - do: Warm the lamp on the mat.
    heat: {tool: heat-mat, at: $overheated_part, for: 5 min, on: lamp}
  - do: Let the lamp cool.
    wait: {for: 30 min, until: cool}
  - do: Warm the lamp once more.
    heat: {tool: heat-mat, at: $out_of_range_tool, for: 5 min, on: lamp}
  - do: $contradicting_number
    wait: {for: 30 min, until: cool}
  - do: Solder each joint of the socket.
    solder: {part: lamp-socket, tool: iron, at: $unmelted_solder, for: 2 s, times: 2, pause: 30 s}
    apply: {no-clean-flux: 0.1 mL, sac305-wire: 0.3 g}
  - do: $vague_amount
    wait: {for: 60 min, until: cool}
  - do: Inspect each joint from the side.
    use: [microscope]
    check: {look: Each joint is wetted.$dead_end_check}
  - do: Measure from the socket to ground.
    check: {measure: resistance, with: multimeter, expect: "$unmeasurable_value", if_not: {stop: There is a bridge.}}
  - $part_left_out
  - {do: Plug the lamp in., plug: lamp-plug}
prove:
  - {do: Switch the lamp on., power: on}
  - do: Measure across the test pads in the grip.
    check: {measure: $live_ohms, if_not: {stop: Charge the battery first.}}
  - do: Look into the lens.
    check: {$untested_function, if_not: {stop: The new lamp is dark.}}
  - {do: Switch the lamp off., power: off}
""")


@dataclass(frozen=True)
class Fault:
    """What stands there where nothing is wrong, what stands there instead, and the token at which it is found."""

    sound: str
    faulty: str
    token: str


FAULTS = {
    "listing-mismatch": Fault("", ", pry-wedge", "pry-wedge"),
    "unknown-reference": Fault("microscope", "mircoscope", "mircoscope"),
    "swallowed-comment": Fault("Pad 4 goes first.", "Pad #4 goes first.", "#4 goes first."),
    "missing-picture": Fault("media/wader-back.svg", "media/wader-side.svg", "media/wader-side.svg"),
    "long-sentence": Fault(
        "Look along the seam of the lens.",
        "Look along the seam of the lens from the one end to the other end for any crack that may run inwards there.",
        "Look along the seam of the lens from the one end to the other end for any crack that may run inwards there.",
    ),
    "several-instructions": Fault(
        "Turn the lamp over.", "Turn the lamp over and wipe its lens.", "Turn the lamp over and wipe its lens."
    ),
    "missing-instruction": Fault("Look at the strap.", "The strap is whole.", "The strap is whole."),
    "wrong-value": Fault("w2", "w3", "w3"),
    "unexplained-allow": Fault(", because: The drawing is with the printer.", "", "rule"),
    "unused-allow": Fault("", "{rule: unready-power, because: The lamp is dry.}", "unready-power"),
    "overheated-part": Fault("75 °C", "100 °C", "{tool: heat-mat, at: 100 °C, for: 5 min, on: lamp}"),
    "out-of-range-tool": Fault("45 °C", "35 °C", "{tool: heat-mat, at: 35 °C, for: 5 min, on: lamp}"),
    "contradicting-number": Fault("Wait for 30 min.", "Wait for 20 min.", "Wait for 20 min."),
    "unmelted-solder": Fault(
        "350 °C", "205 °C", "{part: lamp-socket, tool: iron, at: 205 °C, for: 2 s, times: 2, pause: 30 s}"
    ),
    "vague-amount": Fault(
        "Leave the lamp on the bench.", "Leave the lamp in a warm place.", "Leave the lamp in a warm place."
    ),
    "dead-end-check": Fault(", if_not: {stop: A joint is dry.}", "", "look"),
    "unmeasurable-value": Fault("> 10 kΩ", "> 50 MΩ", "multimeter"),
    "part-left-out": Fault("{do: Lay the lamp in., fit: lamp}", "{do: Lay the lamp aside.}", "lamp"),
    "live-ohms": Fault(
        "voltage, with: multimeter, expect: 3.0–4.2 V", 'resistance, with: multimeter, expect: "> 1 kΩ"', "resistance"
    ),
    "untested-function": Fault("gone: no-light", "look: The strap is dry.", "lamp-plug"),
}


def text(faulty: Collection[str]) -> str:
    """Return the procedure with the faults that *faulty* names, by their rules, and no other."""
    written = {rule: fault.faulty if rule in faulty else fault.sound for rule, fault in FAULTS.items()}
    return PROCEDURE.substitute({rule.replace("-", "_"): words for rule, words in written.items()})


def found(faulty: Collection[str]) -> list[Finding]:
    """Return what is found in the procedure with these faults, in reading order; what is allowed is left out."""
    checked = check({EXAMPLE: text(faulty)})
    assert ("wader", "example") in checked.base.procedures  # it is performed all the same
    return [finding for finding in checked.findings if finding.allowed is None]


ALL = found(FAULTS)


def test_nothing_to_begin_with() -> None:
    """Without the faults nothing is found."""
    assert [] == found(())


def test_twenty_findings() -> None:
    """Twenty faults give twenty findings, one for each."""
    assert 20 == len(FAULTS)
    assert sorted(FAULTS) == sorted(finding.rule for finding in ALL)


@pytest.mark.parametrize("rule", FAULTS)
def test_place(rule: str) -> None:
    """Each fault is found at the token that is meant."""
    (place,) = (finding.place for finding in ALL if finding.rule == rule)
    line = text(FAULTS).split("\n")[place.line - 1]

    assert (EXAMPLE, FAULTS[rule].token) == (place.path, line[place.column - 1 : place.end - 1])


@pytest.mark.parametrize("rule", FAULTS)
def test_one_less(rule: str) -> None:
    """Without any one of the faults the other nineteen are found as they were, word for word."""
    others = [finding for finding in ALL if finding.rule != rule]

    assert 19 == len(others)
    assert others == found(FAULTS.keys() - {rule})


@pytest.mark.parametrize("rule", FAULTS)
def test_one_alone(rule: str) -> None:
    """Each of the faults by itself is found as it was among the others, and nothing else is."""
    assert [finding for finding in ALL if finding.rule == rule] == found({rule})
