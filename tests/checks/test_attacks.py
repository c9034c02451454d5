"""What a finding about a solvent names cures it: written in, the finding goes."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.library.names import BUILT_IN
from benchleaf.library.substances import SUBSTANCES
from tests.make import DOCS, check

SOLIDS = [name for name, entry in BUILT_IN.items() if entry.kind == "solid"]
SKIFF = """\
title: Skiff
parts:
  port: {{title: Port, kind: socket, made_of: {own}, near: {{pane: {distance} mm}}}}
  pane: {{title: Pane, kind: window, made_of: {beside}}}
"""
WIPE = """\
title: Wipe it
arrives: {{power: "off"}}
steps:
  - {{do: Wipe the port., solvent: {{material: {liquid}, volume: {volume}, on: port}}}}
"""
MOST = re.compile(r"at most (\S+ \S+),")
LIQUID = re.compile("`([a-z-]+)`")


def found(liquid: str, volume: str, own: str = "brass", beside: str = "pmma", distance: float = 40) -> list[str]:
    """Return what is said of a *volume* of *liquid* on a part of its *own* solid, another one *beside* it."""
    texts = {
        f"{DOCS}/devices/skiff.yml": SKIFF.format(own=own, beside=beside, distance=distance),
        f"{DOCS}/repairs/skiff/wipe.yml": WIPE.format(liquid=liquid, volume=volume),
    }
    return [one.help for one in check(texts).findings if one.rule == "solvent-attack"]


@settings(deadline=None, max_examples=60)
@given(
    st.integers(1, 3000),
    st.integers(0, 999),
    st.sampled_from(["µL", "mL", "cm³"]),
    st.sampled_from(["acetone", "ethanol"]),
)
def test_volume_that_stops_short(distance: int, volume: int, unit: str, liquid: str) -> None:
    """The volume that a finding names does not reach the neighbour, and there is none where the volume did not."""
    advice = found(liquid, f"{volume / 10} {unit}", distance=distance / 10)

    named = [most[1] for one in advice for most in [MOST.search(one)] if most]
    assert len(advice) == len(named)
    assert [[]] * len(named) == [found(liquid, most, distance=distance / 10) for most in named]


def test_volume_just_beyond() -> None:
    """A little more than the volume that a finding names is found again."""
    [advice] = found("isopropanol", "2 mL")

    assert "at most 1 mL," in advice
    assert [] == found("isopropanol", "1 mL")
    assert [advice] == found("isopropanol", "1.01 mL")


@settings(deadline=None, max_examples=60)
@given(st.sampled_from([*SUBSTANCES]), st.sampled_from(SOLIDS), st.sampled_from(SOLIDS))
def test_liquid_that_does_no_harm(liquid: str, own: str, beside: str) -> None:
    """Each liquid that a finding names harms neither the part nor what it runs to."""
    advice = found(liquid, "5 mL", own, beside)

    named = {name for one in advice for name in LIQUID.findall(one)}
    assert {""} | {name for name in named if found(name, "5 mL", own, beside)} == {""}
