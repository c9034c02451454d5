"""The amount and the wait that a finding about vapour names are enough, and more or less is not."""

from __future__ import annotations

import re

import pytest

from tests.make import EXAMPLE, check

HEAD = """\
title: Example
access: open
tools: [iron]
materials: {isopropanol: 99 mL, d-limonene: 99 mL, no-clean-flux: 9 mL}
steps:
"""
FLUSH = "  - {{do: Flush it., takes: 1 min, solvent: {{material: {}, volume: {}, on: main-board, area: 24 cm²}}}}\n"
BRUSH = "  - {do: Brush it., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}\n"
TIN = """\
  - do: Re-tin it.
    solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}
    apply: {no-clean-flux: 0.2 mL}
"""


def helps(rule: str, steps: str) -> list[str]:
    """Return what *rule* advises about *steps*."""
    return [finding.help for finding in check({EXAMPLE: HEAD + steps}).findings if finding.rule == rule]


@pytest.mark.parametrize(
    ("before", "liquid", "volume"),
    [("", "isopropanol", "60 mL"), ("", "isopropanol", "60000 µL"), ("", "d-limonene", "30 mL")],
)
def test_named_amount_cures(before: str, liquid: str, volume: str) -> None:
    """Written in, the amount that the finding names takes it away, and a tenth more does not."""
    [advice] = helps("vapour-over-limit", before + FLUSH.format(liquid, volume))
    named = re.search(r"at most ([0-9.]+) (\S+);", advice)
    assert named
    amount, unit = float(named[1]), named[2]

    assert [] == helps("vapour-over-limit", before + FLUSH.format(liquid, f"{named[1]} {unit}"))
    assert 1 == len(helps("vapour-over-limit", before + FLUSH.format(liquid, f"{amount * 1.1:g} {unit}")))


def test_named_amount_counts_what_was_before() -> None:
    """What earlier steps released is taken off what the finding allows."""
    first = FLUSH.format("isopropanol", "10 mL")
    [advice] = helps("vapour-over-limit", first + FLUSH.format("isopropanol", "30 mL"))
    named = re.search(r"at most ([0-9.]+ mL);", advice)
    assert named

    assert [] == helps("vapour-over-limit", first + FLUSH.format("isopropanol", named[1]))


@pytest.mark.parametrize("steps", [BRUSH, TIN])
def test_named_wait_empties_the_case(steps: str) -> None:
    """Written in, the wait that the finding names takes it away, and two thirds of it does not."""
    [advice] = helps("vapour-in-case", steps)
    named = re.search(r"for: (\d+) (min|s|h)", advice)
    assert named
    long, short = (f"{steps}  - {{do: Wait., wait: {{for: {int(named[1]) * n // 3} {named[2]}}}}}\n" for n in (3, 2))

    assert [] == helps("vapour-in-case", long)
    assert 1 == len(helps("vapour-in-case", short))
