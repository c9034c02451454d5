"""The kinds of work that a procedure asks for: read off what is done, on all its variants and ways."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.kinds_of_work import KINDS, Asked, asked
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from benchleaf.derive.outcome import Outcome


@cache
def _outcomes() -> dict[tuple[str, str], Outcome]:
    return dict(build.check(scan(ROOT, "procedures")).outcomes)


def kinds(procedure: str) -> list[str]:
    """Return the kinds of work that a *procedure* of the demonstration asks for, steps as they are, joined."""
    device, _, name = procedure.partition("/")
    return [one.kind for one in _outcomes()[device, name].work]


def steps(text: str, kind: str, **options: str) -> tuple[str, ...]:
    """Return the steps of the small knowledge base's example that ask for *kind*."""
    return next((one.steps for one in asked([trace(text, **options)]) if one.kind == kind), ())


# As a person who has read the procedures would say it.
@pytest.mark.parametrize(
    ("procedure", "wanted"),
    [
        ("any/check-charge-hold", []),
        ("godwit/clean-charge-port", ["Soldering with an iron", "Flammable solvent", "Work under magnification"]),
        ("godwit/make-swollen-battery-safe", ["Damaged battery pack", "Lithium pack in the hand", "Leak test"]),
        ("godwit/replace-window", [
            "Lithium pack in the hand", "Broken glass", "Warming a bonded part", "Freeing a bond by hand",
            "Bonding with adhesive", "Flammable solvent", "Leak test",
        ]),
        ("godwit/calibrate-probe", ["Pairing or calibration"]),
        ("godwit/trace-charge-rail-short", ["Work under magnification", "Board fed from outside", "Leak test"]),
        ("dunlin/copy-surveys", ["Broken glass", "Customer's data"]),
        ("dunlin/clean-under-power-shield", [
            "Hot-air rework", "Flammable solvent", "Work under magnification", "Leak test",
        ]),
        ("godwit/wash-after-sea-water", [
            "Damaged battery pack", "Lithium pack in the hand", "Device that came wet", "Washing in a bath",
            "Work under magnification", "Leak test", "Customer's data", "A step that cannot be undone",
        ]),
    ],
)  # fmt: skip
def test_demonstration(procedure: str, wanted: list[str]) -> None:
    """A procedure asks for what its steps do and its states are, and for nothing else."""
    assert wanted == kinds(procedure)


def test_on_some_variants() -> None:
    """What one variant alone asks for says so: only the third radio has a strobe that keeps its charge."""
    found = {one.kind: one for one in _outcomes()["whimbrel", "replace-battery"].work}

    assert ("w3",) == found["Charged capacitor"].variants
    assert () == found["Lithium pack in the hand"].variants


def test_on_the_steps_that_ask() -> None:
    """A kind names the steps that ask for it, those of a repeat once."""
    [iron] = [one for one in _outcomes()["godwit", "clean-charge-port"].work if one.kind == "Soldering with an iron"]

    assert Asked("Soldering with an iron", ("tin",)) == iron


def test_not_of_another_procedure() -> None:
    """What a failed check leads to asks for work of its own: a look at the pack is no work on a swollen one."""
    assert "Damaged battery pack" not in kinds("godwit/replace-battery")


LEADED = make.WADER.replace("solder: sac305", "solder: sn63pb37")
HIDDEN = make.WADER.replace("kind: socket", "kind: array-package")
TIED = make.WADER.replace(
    "title: Lamp, kind: other,", "title: Lamp, kind: other, paired: {w1: It is tuned to its body.},"
)
CHARGED = make.WADER.replace(
    "  lens:  ", "  cap: {title: Capacitor, kind: other, stores: {capacitance: 100 µF, voltage: 300 V}}\n  lens:  "
)
ON = "- {do: Switch it on., power: on}\n"
READ = "- {do: Read it., check: {measure: voltage, with: multimeter, expect: 3 V, if_not: {stop: It is dead.}}}"


@pytest.mark.parametrize(
    ("kind", "text", "wader"),
    [
        ("Soldering on a plate or in an oven",
         "- {do: Do it., solder: {part: lamp-socket, tool: heat-mat, at: 110 °C, for: 60 s}}", make.WADER),
        ("Joints out of sight",
         "- {do: Do it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}", HIDDEN),
        ("Solder with lead", "- {do: Do it., solder: {part: lamp-socket, tool: iron, at: 300 °C, for: 2 s}}", LEADED),
        ("Work with a blade", "- {do: Do it., work: {kind: scrape, on: lamp-socket}}", make.WADER),
        ("Charged capacitor", "- {do: Look on.}", CHARGED),
        ("Pairing or calibration", "- {do: Lay a new lamp in., replace: lamp}", TIED),
        ("Pairing or calibration", "- {do: Pair it., work: {kind: pair, on: lamp}}", make.WADER),
        ("Warming a bonded part",
         "- {do: Warm it., heat: {tool: heat-mat, at: 65 °C, for: 5 min, on: lens}}", make.WADER),
        ("Freeing a bond by hand", "- {do: Free it., release: {bond: lens-bond, by: [pry]}}", make.WADER),
        ("Washing in a bath", "- {do: Wash it., bath: {material: deionised-water, on: lamp, for: 3 min}}", make.WADER),
        ("Flammable solvent", "- {do: Wash it., bath: {material: isopropanol, on: lamp, for: 3 min}}", make.WADER),
    ],
)  # fmt: skip
def test_by_what_is_done(kind: str, text: str, wader: str) -> None:
    """Each kind is asked for by the action, or the state, that it is about, and not by a procedure without it."""
    assert steps(text, kind, wader=wader)
    assert () == steps("- {do: Look on.}", kind)


def test_live() -> None:
    """To measure in a device that is open is work under power where the device is on, and not where it is off."""
    kind = "Measuring in an open device under power"

    assert ("steps-2",) == steps(ON + READ, kind)
    assert () == steps(READ, kind)


def test_every_kind_is_met() -> None:
    """No kind of the list is there for nothing: the demonstration, or a test here, asks for it."""
    here = {"Soldering on a plate or in an oven", "Joints out of sight", "Solder with lead", "Work with a blade",
            "Measuring in an open device under power"}  # fmt: skip
    met = {one.kind for found in _outcomes().values() for one in found.work}

    assert set(KINDS) - here == met


def test_no_more_than_words() -> None:
    """The kinds are words of the trade: no figure, no level, no grade."""
    assert [] == [kind for kind in KINDS if any(sign.isdigit() for sign in kind)]
    assert [] == [
        kind for kind in KINDS for word in ("easy", "hard", "difficult", "expert", "skill") if word in kind.lower()
    ]
