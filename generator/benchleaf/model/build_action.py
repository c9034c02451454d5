"""From nodes to actions, one small function for each word of the format."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from benchleaf.model import action as act
from benchleaf.model.fields import Fields, pairs, said
from benchleaf.source.nodes import Scalar, Table
from benchleaf.units.quantity import (
    Area,
    Current,
    Duration,
    Speed,
    Temperature,
    TemperatureRate,
    Torque,
    Voltage,
    Volume,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.source.nodes import Node


def _power(node: Node) -> act.Power:
    return act.Power(cast("Scalar", node).text == "on", node.place)


def _supply(node: Node) -> act.Supply:
    if isinstance(node, Scalar):
        return act.Supply(None, None, None, None, (), node.place)
    fields = Fields(node)
    return act.Supply(
        fields.text("from"), fields.quantity(Voltage, "at"), fields.quantity(Current, "limit"), fields.said("into"),
        fields.names("needs"), node.place,
    )  # fmt: skip


def _screws(node: Node) -> tuple[act.Screws, ...]:
    found = []
    for fastener, value in pairs(node):
        if isinstance(value, Table):
            fields = Fields(value)
            found.append(
                act.Screws(fastener, fields.integer("count", 0), fields.quantity(Torque, "torque"), value.place)
            )
        else:
            found.append(act.Screws(fastener, int(cast("int", cast("Scalar", value).value)), None, value.place))
    return tuple(found)


def _release(node: Node) -> act.Release:
    fields = Fields(node)
    by = fields.texts("by") or tuple(text for text in (fields.text("by"),) if text)
    return act.Release(said(fields.need("bond")), by, fields.said("with"), node.place)


def _renew(node: Node) -> act.Renew:
    fields = Fields(node)
    return act.Renew(said(fields.need("bond")), fields.said("with"), node.place)


def _heating(kind: str, on: str) -> Callable[[Node], act.Heat]:
    def make(node: Node) -> act.Heat:
        fields = Fields(node)
        hold = fields.node("hold")
        return act.Heat(
            kind=kind,
            on=said(fields.need(on)),
            tool=said(fields.need("tool")),
            at=fields.need_quantity(Temperature, "at"),
            lasts=fields.need_quantity(Duration, "for"),
            times=fields.integer("times", 1),
            pause=fields.quantity(Duration, "pause"),
            reaches=fields.quantity(Temperature, "reaches"),
            hold=_hold(hold) if hold else None,
            ramp=fields.quantity(TemperatureRate, "ramp"),
            shield=fields.text("shield"),
            place=node.place,
        )

    return make


def _hold(node: Node) -> act.Hold:
    fields = Fields(node)
    return act.Hold(said(fields.need("part")), fields.need_quantity(Temperature, "below"), fields.said("with"))


def _solvent(node: Node) -> act.Solvent:
    fields = Fields(node)
    return act.Solvent(
        said(fields.need("material")), fields.need_quantity(Volume, "volume"), said(fields.need("on")),
        fields.quantity(Area, "area"), node.place,
    )  # fmt: skip


def _bath(node: Node) -> act.Bath:
    fields = Fields(node)
    return act.Bath(
        said(fields.need("material")), said(fields.need("on")), fields.need_quantity(Duration, "for"),
        fields.quantity(Temperature, "at"), fields.said("tool"), node.place,
    )  # fmt: skip


def _work(node: Node) -> act.Work:
    fields = Fields(node)
    return act.Work(fields.text("kind") or "", fields.said("on"), node.place)


def _store(node: Node) -> act.Store:
    fields = Fields(node)
    return act.Store(said(fields.need("part")), fields.text("as") != "do-not-use", node.place)


def _wait(node: Node) -> act.Wait:
    fields = Fields(node)
    return act.Wait(
        fields.need_quantity(Duration, "for"), fields.text("until"), fields.quantity(Temperature, "at"),
        fields.said("with"), fields.quantity(Speed, "air_speed"), node.place,
    )  # fmt: skip


ACTIONS: dict[str, Callable[[Node], act.Action]] = {
    "power": _power,
    "supply": _supply,
    "unplug": lambda node: act.Unplug(said(node), node.place),
    "plug": lambda node: act.Plug(said(node), node.place),
    "unscrew": lambda node: act.Unscrew(_screws(node), node.place),
    "screw": lambda node: act.Screw(_screws(node), node.place),
    "remove": lambda node: act.Remove(said(node), node.place),
    "fit": lambda node: act.Fit(said(node), node.place),
    "replace": lambda node: act.Replace(said(node), node.place),
    "release": _release,
    "bond": _renew,
    "heat": _heating("heat", "on"),
    "desolder": _heating("desolder", "part"),
    "solder": _heating("solder", "part"),
    "solvent": _solvent,
    "bath": _bath,
    "work": _work,
    "discharge": lambda node: act.Discharge(said(node), node.place),
    "store": _store,
    "wait": _wait,
}
