"""From nodes to the shop, its symptoms, tools and materials."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model.fields import EVERY_DIMENSION, Fields, any_quantity, at_most, pairs, quantity
from benchleaf.model.shop import Bench, Material, Monitor, OwnConstant, Room, Shop, Symptom, Tool
from benchleaf.units.parse import parse
from benchleaf.units.quantity import (
    Duration,
    Length,
    Money,
    MoneyRate,
    Rate,
    Ratio,
    Speed,
    Temperature,
    Volume,
)

if TYPE_CHECKING:
    from benchleaf.source.nodes import Node, Table


def shop(document: Table) -> Shop:
    """Return the shop that shop.yml describes."""
    fields = Fields(document)
    room, bench, monitor = (Fields(fields.node(name)) for name in ("room", "bench", "monitor"))
    esd = Fields(bench.node("esd"))
    return Shop(
        name=fields.text("name") or "",
        room=Room(room.quantity(Volume, "volume"), room.quantity(Rate, "air_changes"),
                  room.quantity(Temperature, "temperature"), room.quantity(Ratio, "humidity")),
        bench=Bench(bench.quantity(Speed, "air_speed"), esd.flag("wrist_strap"), esd.flag("mat")),
        monitor=Monitor(monitor.quantity(Length, "distance"), monitor.quantity(Length, "pixel_pitch")),
        exposure_limit=fields.text("exposure_limit") or "strictest",
        units={name.text: Fields(fields.node("units")).text(name.text) or "" for name, _ in fields.entries("units")},
        labour=fields.quantity(MoneyRate, "labour"),
        write_off=fields.quantity(Money, "write_off"),
        review_after=fields.quantity(Duration, "review_after"),
        constants=tuple(_constant(name.text, node) for name, node in fields.entries("constants")),
    )  # fmt: skip


def _constant(name: str, node: Node) -> OwnConstant:
    fields = Fields(node)
    low, central, high = (parse(fields.text(end) or "", *EVERY_DIMENSION) for end in ("low", "central", "high"))
    written = (low.text, central.text, high.text)
    # Of a range the end that is further out counts.
    return OwnConstant(name, low.low, central.middle, high.high, fields.text("because") or "", written)


def symptoms(document: Table | None) -> dict[str, Symptom]:
    """Return the symptoms by id."""
    found = {}
    for name, node in pairs(document):
        fields = Fields(node)
        title = fields.said("title") or name
        found[name.text] = Symptom(name.text, name.place, title, fields.texts("customers_say"), fields.texts("ask"))
    return found


def tools(document: Table | None) -> dict[str, Tool]:
    """Return the tools by id."""
    return {name.text: _tool(name.text, node) for name, node in pairs(document)}


def _tool(name: str, node: Node) -> Tool:
    fields = Fields(node)
    title = fields.said("title")
    assert title is not None  # noqa: S101  (the schema requires it)
    measures = {what.text: reach for what, value in fields.entries("measures") if (reach := any_quantity(value))}
    return Tool(
        id=name,
        place=fields.place,
        title=title,
        kind=fields.text("kind") or "other",
        range=fields.any_quantity("range"),
        resolution=fields.any_quantity("resolution"),
        contact=fields.quantity(Length, "contact"),
        drives=fields.texts("drives"),
        measures=measures,
        vented=fields.flag("vented") if "vented" in fields else None,
        rated_for_solvents=fields.flag("rated_for_solvents") if "rated_for_solvents" in fields else None,
        conductive=fields.flag("conductive") if "conductive" in fields else None,
        notes=fields.text("notes"),
    )


def materials(document: Table | None) -> dict[str, Material]:
    """Return the shop's own materials by id."""
    return {name.text: _material(name.text, node) for name, node in pairs(document)}


def _material(name: str, node: Node) -> Material:
    fields = Fields(node)
    title = fields.said("title")
    assert title is not None  # noqa: S101  (the schema requires it)
    limit = fields.quantity(Ratio, "exposure_limit")
    return Material(
        id=name,
        place=fields.place,
        title=title,
        kind=fields.text("kind") or "other",
        contains={part.text: quantity(Ratio, value) for part, value in fields.entries("contains")},
        contains_at=tuple(part for part, _ in fields.entries("contains")),
        alloy=fields.said("alloy"),
        fixture=fields.quantity(Duration, "fixture"),
        full=fields.quantity(Duration, "full"),
        exposure_limit=at_most(limit) if limit else None,
        price=fields.quantity(Money, "price"),
        notes=fields.text("notes"),
    )
