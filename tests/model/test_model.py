"""The typed model: what a file says arrives, what it leaves out has its default."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.model import action as act
from benchleaf.model.procedure import Arrives
from benchleaf.model.step import GoTo, Repeat, Stop
from benchleaf.units.quantity import Temperature
from tests import make

if TYPE_CHECKING:
    from benchleaf.model.device import Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step


def procedure(text: str) -> Procedure:
    """Return the example procedure that *text* writes."""
    return make.check({make.EXAMPLE: text}).base.procedures["wader", "example"]


def step(text: str) -> Step:
    """Return the one step that *text* writes."""
    return procedure(f"title: Example\naccess: open\nsteps:\n  - {text}\n").steps[0]


@pytest.fixture(scope="module")
def wader() -> Device:
    """Return the device of the small knowledge base."""
    return make.check({}).base.devices["wader"]


def test_defaults_of_a_procedure() -> None:
    """What a procedure does not say is as the format has it."""
    plain = procedure("title: Example\nsteps:\n  - {do: Look on.}\n")

    assert ("closed", 1, "draft", "repair") == (plain.access.text, plain.revision, plain.status, plain.purpose)
    assert Arrives("on", "none", "sound", "whole") == plain.arrives
    assert plain.variants is None
    assert () == plain.fixes


def test_step_without_an_id() -> None:
    """A step without an id of its own is called by its list and its number, counted from 1."""
    found = procedure(
        "title: Example\nsteps:\n  - {do: Look on.}\n  - {id: second, do: Look on.}\nprove:\n  - {do: Look.}\n"
    )

    assert ["steps-1", "second"] == [one.id for one in found.steps]
    assert ["prove-1"] == [one.id for one in found.prove]


def test_steps_of_a_level(wader: Device) -> None:
    """The steps of a level carry its name."""
    level = wader.access["open"]

    assert "open-opening-1" == level.opening[0].id
    assert "open-closing-3" == level.closing[-1].id
    assert "closed" == level.parent.text


def test_way_to_a_level(wader: Device) -> None:
    """The way to a level leads over the levels it starts from; closed needs none."""
    assert ["open", "bare-board"] == [level.id for level in wader.way_to("bare-board")]
    assert () == wader.way_to("closed")


def test_device_without_variants() -> None:
    """A device without variants has one, named as the device."""
    base = make.check({f"{make.DOCS}/devices/stint.yml": "title: Stint\n"}).base

    assert ("stint",) == base.devices["stint"].variant_ids


def test_energy_of_a_battery(wader: Device) -> None:
    """Energy is voltage times charge (exact): 3.7 V and 1200 mAh are 4.44 Wh."""
    energy = wader.batteries["pack"].energy

    assert energy is not None
    assert 4.44 == pytest.approx(energy / 3600)


def test_parts(wader: Device) -> None:
    """A part carries its limits, its neighbours and what it is part of."""
    socket = wader.parts["lamp-socket"]

    assert socket.heat_limit is not None
    assert Temperature(245, 245, "", "") == socket.heat_limit.at
    assert socket.joint_limit is not None
    assert socket.joint_limit.lasts is not None
    assert 5 == socket.joint_limit.lasts.high
    assert [("battery", 0.06, "board")] == [
        (near.part.text, near.distance.low, near.via) for near in socket.near or () if near.distance
    ]
    assert socket.part_of is not None
    assert "main-board" == socket.part_of.text


@pytest.mark.parametrize(
    ("kind", "traps"), [("shield", True), ("array-package", True), ("button", True), ("board", False)]
)
def test_what_traps_liquid(kind: str, traps: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """Shields, array packages and buttons trap liquid unless it is said that they do not."""
    text = f"""\
title: Stint
parts:
  thing: {{title: Thing, kind: {kind}}}
  open: {{title: Open, kind: {kind}, traps_liquid: false}}
"""
    parts = make.check({f"{make.DOCS}/devices/stint.yml": text}).base.devices["stint"].parts

    assert (traps, False) == (parts["thing"].traps_liquid, parts["open"].traps_liquid)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("power: off", act.Power),
        ("supply: off", act.Supply),
        ("supply: {from: usb, at: 5 V, limit: 0.5 A, into: lamp-socket}", act.Supply),
        ("unplug: lamp-plug", act.Unplug),
        ("plug: lamp-plug", act.Plug),
        ("unscrew: {case-screw: 4}", act.Unscrew),
        ("screw: {case-screw: {count: 4, torque: 10 cN·m}}", act.Screw),
        ("remove: lamp", act.Remove),
        ("fit: lamp", act.Fit),
        ("replace: lamp", act.Replace),
        ("release: {bond: lens-bond, by: [heat, pry], with: pry-wedge}", act.Release),
        ("bond: {bond: lens-bond, with: lens-adhesive}", act.Renew),
        ("heat: {tool: heat-mat, at: 70 °C, for: 5 min, on: lens}", act.Heat),
        ("solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}", act.Heat),
        ("desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}", act.Heat),
        ("solvent: {material: isopropanol, volume: 0.2 mL, on: lamp-socket}", act.Solvent),
        ("bath: {material: deionised-water, on: main-board, for: 5 min}", act.Bath),
        ("work: {kind: wipe, on: lens}", act.Work),
        ("discharge: lamp", act.Discharge),
        ("store: {part: battery, as: do-not-use}", act.Store),
        ("wait: {for: 2 min, until: dry}", act.Wait),
    ],
)
def test_actions(text: str, kind: type) -> None:
    """Each action of the format arrives as its own type."""
    assert isinstance(step(f"{{do: Do it., {text}}}").action, kind)


def test_ways_on() -> None:
    """A check leads to a stop, another procedure, or an earlier step and then one of those."""
    ways = [
        step(f"{{id: a, do: Look., check: {{look: Whole., if_not: {way}}}}}").check
        for way in ("{stop: No.}", "{go_to: replace-lamp}", "{repeat: a, times: 2, then: {stop: No.}}")
    ]

    assert [Stop, GoTo, Repeat] == [type(check.if_not) for check in ways if check]


def test_only() -> None:
    """A thing with `only` exists for the variants that it names."""
    base = make.check({}).base
    spare = base.devices["wader"].parts["buzzer"].only

    assert spare is not None
    assert [False, True] == [spare.holds(name) for name in ("w1", "w2")]


def test_broken_file_is_known_by_name() -> None:
    """A file that does not fit is no model, and its name is known all the same."""
    base = make.check({f"{make.DOCS}/devices/wader.yml": "titel: Wader\n"}).base

    assert "wader" not in base.devices
    assert base.is_broken("device", "wader", "wader")
