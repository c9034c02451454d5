"""From nodes to a procedure, and to a diagnosis."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from benchleaf.model.build_step import amounts, steps
from benchleaf.model.counts import of
from benchleaf.model.device import CLOSED
from benchleaf.model.diagnosis import Cause, Cure, Diagnosis, Outcome, Referral, Test
from benchleaf.model.fields import Fields, items, said
from benchleaf.model.procedure import Arrives, HandsBack, Procedure
from benchleaf.model.words import Said
from benchleaf.units.quantity import Duration, Money

if TYPE_CHECKING:
    from benchleaf.source.nodes import Node, Scalar, Table


def procedure(document: Table, device: str, name: str, path: str) -> Procedure:
    """Return the procedure *name* of *device* that *document* writes."""
    fields = Fields(document)
    title, reviewed = said(fields.need("title")), fields.said("reviewed")
    return Procedure(
        id=name,
        device=device,
        path=path,
        title=title,
        access=fields.said("access") or Said(CLOSED, title.place),
        revision=fields.integer("revision", 1),
        status=fields.text("status") or "draft",
        reviewed=reviewed.text if reviewed else None,
        purpose=fields.text("purpose") or "repair",
        fixes=fields.names("fixes"),
        variants=fields.only("variants"),
        arrives=_arrives(fields.node("arrives")),
        hands_back=_hands_back(fields.node("hands_back")),
        consent=fields.texts("consent"),
        aftercare=fields.texts("aftercare"),
        notes=fields.text("notes"),
        tools=fields.names("tools"),
        materials=amounts(fields, "materials"),
        steps=steps(fields.need("steps"), "steps"),
        prove=steps(fields.node("prove"), "prove"),
        reviewed_place=reviewed.place if reviewed else None,
    )


def _arrives(node: Node | None) -> Arrives:
    fields, usual = Fields(node), Arrives()
    return Arrives(
        fields.text("power") or usual.power, fields.text("liquid") or usual.liquid,
        fields.text("battery") or usual.battery, fields.text("glass") or usual.glass,
    )  # fmt: skip


def _hands_back(node: Node | None) -> HandsBack | None:
    if node is None:
        return None
    fields = Fields(node)
    return HandsBack(fields.names("without"), fields.text("because"))


def diagnosis(document: Table, device: str, symptom: str, path: str) -> Diagnosis:
    """Return the diagnosis of *symptom* on *device* that *document* writes."""
    fields = Fields(document)
    return Diagnosis(
        device=device,
        symptom=symptom,
        path=path,
        place=fields.place,
        title=fields.text("title"),
        several=fields.flag("several"),
        notes=fields.text("notes"),
        causes=tuple(_cause(name, node) for name, node in fields.entries("causes")),
        tests=tuple(_test(name, node) for name, node in fields.entries("tests")),
    )


def _cause(name: Said, node: Node) -> Cause:
    fields = Fields(node)
    cures = tuple(_cure(item) for item in items(fields.node("cures")))
    return Cause(name.text, name.place, said(fields.need("title")), fields.integer("seen", 0), cures)


def _cure(node: Node) -> Cure | Referral:
    fields = Fields(node)
    name = fields.said("procedure")
    if name is None:
        referred = Fields(fields.node("refer"))
        return Referral(referred.text("title") or "", referred.quantity(Money, "price"))
    cured, tried = of(fields.text("success") or "") or (None, None)
    return Cure(name, cured, tried)


def _test(name: Said, node: Node) -> Test:
    fields = Fields(node)
    return Test(
        id=name.text,
        place=name.place,
        do=said(fields.need("do")),
        instrument=fields.said("with"),
        takes=fields.quantity(Duration, "takes"),
        access=fields.said("access") or Said(CLOSED, name.place),
        only=fields.only(),
        unless={what.text: tuple(cast("Scalar", item).text for item in items(value))
                for what, value in fields.entries("unless")},
        outcomes=tuple(_outcome(outcome, value) for outcome, value in fields.entries("outcomes")),
    )  # fmt: skip


def _outcome(name: Said, node: Node) -> Outcome:
    fields = Fields(node)
    given = tuple(fields.entries("given"))
    return Outcome(
        name.text, name.place, fields.said("title") or name,
        {cause.text: float(cast("float", cast("Scalar", share).value)) for cause, share in given},
        tuple(cause for cause, _ in given),
    )  # fmt: skip
