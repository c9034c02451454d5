"""What is performed once for several variants is what each of them would have given by itself."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.checks import engine
from benchleaf.checks.rules import RULES
from benchleaf.dryrun.performed import nature, performed
from benchleaf.dryrun.walk import walk
from benchleaf.dryrun.world import world
from benchleaf.source import folder
from tests import make
from tests.conftest import ROOT

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.model.knowledge import KnowledgeBase

PLAIN = "title: Example\naccess: open\nstatus: approved\nfixes: [no-light]\nsteps:\n  - {do: Look on.}\n"
ALIKE = make.WADER.replace(", only: [w2]", "").replace("only: [w2], ", "").replace("only: [w2]", "")


def _shared(text: str, wader: str = ALIKE, **more: str) -> list[tuple[str, ...]]:
    files = {f"{make.DOCS}/repairs/wader/{name.replace('_', '-')}.yml": other for name, other in more.items()}
    base = make.check({make.EXAMPLE: text, f"{make.DOCS}/devices/wader.yml": wader, **files}).base
    return [trace.variants for trace in performed(base) if trace.procedure.id == "example"]


def test_alike_variants_share_a_trace() -> None:
    """Variants that differ in nothing but name and looks are performed once."""
    assert [("w1", "w2")] == _shared(PLAIN)


def test_a_part_of_one_variant() -> None:
    """A part that one of them lacks keeps them apart, even if no step names it."""
    wader = ALIKE.replace("  lens:  ", "  vane: {title: Vane, kind: sensor, only: [w2]}\n  lens:  ", 1)

    assert [("w1",), ("w2",)] == _shared(PLAIN, wader)


def test_a_pairing_of_one_variant() -> None:
    """So does what ties a part to one of them."""
    wader = ALIKE.replace("  lens:  ", "  vane: {title: Vane, kind: sensor, paired: {w2: By number.}}\n  lens:  ", 1)

    assert [("w1",), ("w2",)] == _shared(PLAIN, wader)


def test_a_step_of_one_variant() -> None:
    """So does a step that one of them has."""
    assert [("w1",), ("w2",)] == _shared(PLAIN + "  - {do: Look again., only: [w2]}\n")


def test_a_procedure_that_one_is_led_to() -> None:
    """So does a procedure where a failed check leads, and that is written for one of them."""
    check = "  - {do: Look., check: {look: All is well., if_not: {go_to: other}}}\n"

    assert [("w1",), ("w2",)] == _shared(PLAIN + check, other=PLAIN + "variants: [w1]\n")


def _apart(base: KnowledgeBase) -> list[Finding]:
    here = nature(base)
    return [
        found
        for procedure in base.procedures.values()
        for variant in base.variants_of(procedure)
        for found in engine.watch(
            walk(base, procedure, world(base.devices[procedure.device], variant), here), RULES.values()
        )
    ]


def _together(base: KnowledgeBase) -> list[Finding]:
    return [found for trace in performed(base) for found in engine.watch(trace, RULES.values())]


@pytest.mark.parametrize(
    ("right", "wrong"), [("unplug: battery-plug", "record: note"), (" min,", " s,"), ("350 °C", "440 °C")]
)
def test_nothing_is_lost_by_sharing(right: str, wrong: str) -> None:
    """A demonstration with faults in many places is judged alike, whether variants share traces or not."""
    sound = folder.scan(ROOT, "procedures")
    spoilt = [replace(file, data=file.data.replace(right.encode(), wrong.encode())) for file in sound.files]
    base = build.check(replace(sound, files=tuple(spoilt))).base

    together = engine.in_order(_together(base))

    assert engine.in_order(_apart(base)) == together
    assert together
