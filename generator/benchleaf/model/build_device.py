"""From nodes to a device."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from benchleaf.model import device as dev
from benchleaf.model.build_step import steps
from benchleaf.model.fields import Fields, at_most, items, pairs, quantity, said
from benchleaf.model.words import Said
from benchleaf.source.nodes import Scalar, Table
from benchleaf.units.quantity import (
    Capacitance,
    Charge,
    Duration,
    Length,
    Money,
    Temperature,
    Torque,
    Voltage,
    Volume,
)

if TYPE_CHECKING:
    from benchleaf.source.nodes import Node

# A liquid that runs under one of these does not come out by blowing (common practice, no source).
TRAPS_LIQUID = frozenset({"shield", "array-package", "button"})


def device(document: Table, name: str, path: str) -> dev.Device:
    """Return the device *name* that *document* describes."""
    fields = Fields(document)
    title = said(fields.need("title"))
    return dev.Device(
        id=name,
        path=path,
        title=title,
        about=fields.text("about"),
        price=fields.quantity(Money, "price"),
        mains=fields.flag("mains"),
        variants=tuple(_variant(key, node) for key, node in fields.entries("variants"))
        or (dev.Variant(name, title, None),),
        batteries={key.text: _battery(key, node) for key, node in fields.entries("batteries")},
        board=_board(fields.node("board")),
        parts={key.text: _part(key, node) for key, node in fields.entries("parts")},
        bonds={key.text: _bond(key, node) for key, node in fields.entries("bonds")},
        connectors={key.text: _connector(key, node) for key, node in fields.entries("connectors")},
        fasteners={key.text: _fastener(key, node) for key, node in fields.entries("fasteners")},
        access={key.text: _access(key, node) for key, node in fields.entries("access")},
        plan=_plan(fields.node("plan")),
    )


def _variant(key: Said, node: Node) -> dev.Variant:
    fields = Fields(node)
    return dev.Variant(key.text, fields.said("title") or key, fields.text("tell_by"))


def _battery(key: Said, node: Node) -> dev.Battery:
    fields = Fields(node)
    return dev.Battery(
        key.text, key.place, fields.only(), fields.text("title"), said(fields.need("part")), fields.said("plug"),
        fields.flag("soldered"), fields.text("chemistry") or "li-ion", fields.integer("cells", 1),
        fields.quantity(Voltage, "voltage"), fields.quantity(Charge, "capacity"),
    )  # fmt: skip


def _board(node: Node | None) -> dev.Board | None:
    if node is None:
        return None
    fields = Fields(node)
    return dev.Board(
        said(fields.need("part")), fields.quantity(Length, "thickness"), _size(fields.node("size")),
        fields.said("solder"),
    )  # fmt: skip


def _size(node: Node | None) -> tuple[Length, Length] | None:
    lengths = [quantity(Length, item) for item in items(node)]
    return (lengths[0], lengths[1]) if lengths else None


def _limit(node: Node | None) -> dev.Limit | None:
    if node is None:
        return None
    if isinstance(node, Scalar):
        return dev.Limit(at_most(quantity(Temperature, node)), None, node.place)
    fields = Fields(node)
    at, lasts = fields.need_quantity(Temperature, "at"), fields.need_quantity(Duration, "for")
    return dev.Limit(at_most(at), at_most(lasts), node.place)


def _near(part: Said, node: Node) -> dev.Near:
    if isinstance(node, Scalar):
        return dev.Near(part, quantity(Length, node), "board")
    fields = Fields(node)
    return dev.Near(part, fields.quantity(Length, "distance"), fields.text("via") or "board")


def _stores(node: Node | None) -> dev.Stores | None:
    if node is None:
        return None
    fields = Fields(node)
    return dev.Stores(fields.need_quantity(Capacitance, "capacitance"), fields.need_quantity(Voltage, "voltage"))


def _part(key: Said, node: Node) -> dev.Part:
    fields = Fields(node)
    kind = fields.text("kind") or "other"
    near = tuple(_near(part, value) for part, value in fields.entries("near")) if "near" in fields else None
    return dev.Part(
        id=key.text,
        place=key.place,
        title=said(fields.need("title")),
        kind=kind,
        only=fields.only(),
        made_of=fields.said("made_of"),
        part_of=fields.said("part_of"),
        heat_limit=_limit(fields.node("heat_limit")),
        joint_limit=_limit(fields.node("joint_limit")),
        near=near,
        stores=_stores(fields.node("stores")),
        paired={variant.text: cast("Scalar", text).text for variant, text in fields.entries("paired")},
        paired_for=tuple(variant for variant, _ in fields.entries("paired")),
        single_use=fields.flag("single_use"),
        keeps_out=fields.text("keeps_out"),
        seals=fields.names("seals"),
        keyed=fields.flag("keyed", default=True),
        no_bath=fields.flag("no_bath"),
        traps_liquid=fields.flag("traps_liquid", default=kind in TRAPS_LIQUID),
        price=fields.quantity(Money, "price"),
        lead_time=fields.quantity(Duration, "lead_time"),
    )


def _bond(key: Said, node: Node) -> dev.Bond:
    fields = Fields(node)
    return dev.Bond(
        key.text, key.place, fields.only(), said(fields.need("title")), said(fields.need("part")),
        fields.quantity(Temperature, "softens"), fields.flag("single_use"),
    )  # fmt: skip


def _connector(key: Said, node: Node) -> dev.Connector:
    fields = Fields(node)
    before = Fields(fields.node("before_isolation"))
    return dev.Connector(
        key.text, key.place, fields.only(), said(fields.need("title")), fields.texts("serves"), before.text("because"),
    )  # fmt: skip


def _fastener(key: Said, node: Node) -> dev.Fastener:
    fields = Fields(node)
    torque = fields.said("torque")
    by_hand = torque is not None and torque.text == "hand"
    return dev.Fastener(
        id=key.text,
        place=key.place,
        only=fields.only(),
        title=said(fields.need("title")),
        thread=fields.text("thread"),
        length=fields.quantity(Length, "length"),
        grade=fields.text("grade"),
        drive=fields.text("drive"),
        count=fields.integer("count", 0),
        into=fields.said("into"),
        engagement=fields.quantity(Length, "engagement"),
        torque=None if by_hand else fields.quantity(Torque, "torque"),
        torque_by_hand=by_hand,
        torque_place=torque.place if torque else key.place,
        because=fields.text("because"),
        holes={hole.text: int(cast("int", cast("Scalar", count).value)) for hole, count in fields.entries("holes")},
        under=fields.text("under"),
        captive=fields.flag("captive"),
        optional=fields.flag("optional"),
    )


def _access(key: Said, node: Node) -> dev.Access:
    fields = Fields(node)
    return dev.Access(
        id=key.text,
        place=key.place,
        only=fields.only(),
        title=fields.said("title") or key,
        parent=fields.said("from") or Said(dev.CLOSED, key.place),
        volume=fields.quantity(Volume, "volume"),
        tools=fields.names("tools"),
        opening=steps(fields.need("opening"), f"{key.text}-opening"),
        closing=steps(fields.need("closing"), f"{key.text}-closing"),
    )


def _plan(node: Node | None) -> dev.Plan | None:
    size = _size(Fields(node).node("size")) if isinstance(node, Table) else None
    if size is None:
        return None
    placed = {
        name.text: tuple(_point(point) for point in items(value)) for name, value in pairs(Fields(node).node("at"))
    }
    return dev.Plan(size, placed, tuple(name for name, _ in pairs(Fields(node).node("at"))))


def _point(node: Node) -> tuple[float, float]:
    across, down = (float(cast("float", cast("Scalar", item).value)) for item in items(node))
    return across, down
