"""Facts as other programs and people read them: the promised shape, the demonstration inside its limits, the words."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jsonschema
import pytest

from benchleaf import build
from benchleaf.derive.number import Number, between
from benchleaf.report import FACTS
from benchleaf.report.figures import limit, shown
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT

if TYPE_CHECKING:
    from benchleaf.build import Checked

SCHEMA = json.loads(Path(__file__).with_name("facts.schema.json").read_text("utf-8"))
DEMONSTRATION = build.check(scan(ROOT, "procedures"), pages=False)
EVERY = [pytest.param(device, name, id=f"{device}/{name}") for device, name in DEMONSTRATION.base.procedures]
EXAMPLE = """\
title: Example
access: open
revision: 3
status: approved
fixes: [no-light]
materials: {isopropanol: 0.5 mL}
steps:
  - do: Brush the socket.
    solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}
  - {do: Look at it., check: {measure: resistance, with: multimeter, expect: "> 10 kΩ", if_not: {stop: No.}}}
"""


def told(checked: Checked, device: str, name: str, form: str = "json") -> str:
    """Return what is said of one procedure."""
    facts = build.facts_of(checked, checked.base.procedures[device, name])
    assert facts is not None
    return FACTS[form](facts)


def example(text: str = EXAMPLE, form: str = "json") -> str:
    """Return what is said of the small knowledge base's example."""
    return told(make.check({make.EXAMPLE: text}), "wader", "example", form)


def numbers(value: object) -> list[dict[str, Any]]:
    """Return every number anywhere in *value*."""
    if isinstance(value, list):
        return [found for one in value for found in numbers(one)]
    if not isinstance(value, dict):
        return []
    return [value] if "method" in value else [found for one in value.values() for found in numbers(one)]


@pytest.mark.outside
@pytest.mark.parametrize(("device", "name"), EVERY)
def test_promised_shape(device: str, name: str) -> None:
    """The JSON of each procedure of the demonstration has the shape that other programs are promised."""
    whole = json.loads(told(DEMONSTRATION, device, name))

    jsonschema.Draft202012Validator(SCHEMA).validate(whole)
    assert f"{device}/{name}" == whole["procedure"]


@pytest.mark.parametrize(("device", "name"), EVERY)
def test_ends_around_the_value(device: str, name: str) -> None:
    """Every number lies within its range, and a given single value is all of its range."""
    found = numbers(json.loads(told(DEMONSTRATION, device, name)))

    assert [] == [one for one in found if one["low"] is not None and one["value"] < one["low"]]
    assert [] == [one for one in found if one["high"] is not None and one["value"] > one["high"]]


@pytest.mark.parametrize(("device", "name"), EVERY)
def test_rules_and_facts_agree(device: str, name: str) -> None:
    """Where no rule finds anything, no fact is beyond its limit at the bad end: both ask the same numbers."""
    whole = json.loads(told(DEMONSTRATION, device, name))
    limits = [held for one in whole["variants"].values() for held in one["limits"] if held["reached"]]

    assert [] == [held for held in limits if held["reached"]["high"] > held["limit"]["value"]]


def test_every_kind_of_limit_is_met() -> None:
    """The demonstration holds something against each kind of limit that facts know."""
    kinds = SCHEMA["$defs"]["limit"]["properties"]["kind"]["enum"]
    facts = [json.loads(told(DEMONSTRATION, device, name)) for device, name in DEMONSTRATION.base.procedures]

    met = {held["kind"] for whole in facts for one in whole["variants"].values() for held in one["limits"]}
    assert set(kinds) - {"vapour-case"} == met - {"vapour-case"}


def test_numbers_without_noise() -> None:
    """A number that was written with few figures is given with these, in the unit that is usual for it."""
    [step] = [one for one in json.loads(example())["variants"]["w1"]["steps"] if one["id"] == "steps-1"]

    assert {"value": 2.0, "unit": "cm²", "low": 2.0, "high": 2.0, "method": "given",
            "source": f"{make.DOCS}/repairs/wader/example.yml"} == step["numbers"]["area"]  # fmt: skip


def test_open_end_is_null() -> None:
    """JSON has no infinity: where a quantity is open, its end is null."""
    [step] = [one for one in json.loads(example())["variants"]["w1"]["steps"] if one["id"] == "steps-2"]

    assert (10_000.0, None) == (step["numbers"]["expect"]["low"], step["numbers"]["expect"]["high"])


def test_text() -> None:
    """A person reads head, steps with their numbers, limits, what is counted back, and how each number came about."""
    lines = example(form="text").splitlines()

    assert ["wader/example, revision 3, approved", "Example", ""] == lines[:3]
    assert lines[3].startswith("On w1, w2: ")
    assert "  steps-1: Brush the socket." in lines
    assert any(line.startswith("      dry lamp-socket ") and line.endswith("]") for line in lines)
    assert "Counted back: case-screw 4 of 4, back-shell back" in lines
    assert "Materials: isopropanol 0.5 mL" in lines
    assert any(line.startswith("  [1] ") for line in lines)
    assert [] == [line for line in lines if line != line.rstrip()]


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (Number(28.4, "°C", 24.9, 35.1, "", ""), "28 °C (24–36)"),
        (Number(7.0, "cN·m", 7.0, 7.0, "", ""), "7 cN·m"),
        (Number(90.0, "s", 61.0, 119.0, "", ""), "90 s (61–119)"),
        (Number(273.0, "s", 136.7, 737.1, "", ""), "4.6 min (2.2–13)"),
        (Number(43200.0, "s", 14400.0, 43200.0, "", ""), "12 h (4–12)"),
        (between(-math.inf, 70.0, "%", "", ""), "≤ 70 %"),
        (between(10_000.0, math.inf, "Ω", "", ""), "≥ 10000 Ω"),
        (between(0.0, math.inf, "s", "", ""), "≥ 0 s"),
    ],
    ids=repr,
)
def test_figures(number: Number, text: str) -> None:
    """A number stands with its range; rounding makes the range wider and never narrower."""
    assert text == shown(number)


def test_limit_is_rounded_down() -> None:
    """A limit is never shown higher than it is."""
    assert "9.2 cN·m (9.2–9.8)" == limit(Number(9.288, "cN·m", 9.288, 9.75, "", ""))
