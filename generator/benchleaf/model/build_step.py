"""From nodes to steps: the instruction, its check and its way on."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from benchleaf.model.build_action import ACTIONS
from benchleaf.model.fields import Fields, any_quantity, items, said
from benchleaf.model.step import Allow, Amount, Caution, Check, GoTo, Repeat, Step, Stop, Way
from benchleaf.units.quantity import Duration

if TYPE_CHECKING:
    from benchleaf.model.words import Said
    from benchleaf.source.nodes import Node, Scalar

CHECKS = ("look", "measure", "gone", "battery", "leak")


def steps(node: Node | None, phase: str) -> tuple[Step, ...]:
    """Return the steps of a list; those without an id of their own are called `<phase>-<n>`, counted from 1."""
    return tuple([_step(item, f"{phase}-{number}") for number, item in enumerate(items(node), start=1)])


def amounts(fields: Fields, name: str) -> tuple[Amount, ...]:
    """Return the amounts of materials that the table *name* gives."""
    found = ((material, any_quantity(value)) for material, value in fields.entries(name))
    return tuple([Amount(material, amount) for material, amount in found if amount is not None])


def _step(node: Node, name: str) -> Step:
    fields = Fields(node)
    do = said(fields.need("do"))
    action = next((make(fields.need(word)) for word, make in ACTIONS.items() if word in fields), None)
    return Step(
        id=fields.text("id") or name,
        named="id" in fields,
        place=fields.place,
        do=do,
        action=action,
        use=fields.names("use"),
        apply=amounts(fields, "apply"),
        check=_check(fields.node("check")),
        record=fields.text("record"),
        only=fields.only(),
        why=fields.text("why"),
        takes=fields.quantity(Duration, "takes"),
        picture=fields.said("picture"),
        cautions=tuple([_caution(item) for item in items(fields.node("cautions"))]),
        irreversible=fields.flag("irreversible"),
        allow=tuple([_allow(item) for item in items(fields.node("allow"))]),
        why_place=why.place if (why := fields.node("why")) else None,
    )


def _caution(node: Node) -> Caution:
    fields = Fields(node)
    return Caution(fields.text("hazard") or "", said(fields.need("text")))


def _allow(node: Node) -> Allow:
    fields = Fields(node)
    because = fields.said("because")
    return Allow(
        rule=said(fields.need("rule")),
        because=because.text if because else None,
        place=fields.place,
        because_place=because.place if because else None,
    )


def _check(node: Node | None) -> Check | None:
    if node is None:
        return None
    fields = Fields(node)
    kind = next(kind for kind in CHECKS if kind in fields)
    expected = fields.node("leak" if kind == "leak" else "expect")
    return Check(
        kind=kind,
        what=said(fields.need(kind)),
        place=fields.place,
        expect=None if expected is None else any_quantity(expected) or cast("Scalar", expected).text,
        instrument=fields.said("with"),
        when={name.text: cast("Scalar", value).text for name, value in fields.entries("when")},
        if_not=_way(fields.node("if_not")),
        shows=fields.text("shows"),
    )


def _way(node: Node | None) -> Way | None:
    if node is None:
        return None
    fields = Fields(node)
    end = _end(fields)
    step = fields.said("repeat")
    if step is None:
        return end
    then = fields.node("then")
    return Repeat(step, fields.integer("times", 1), _end(Fields(then)) if then else None)


def _end(fields: Fields) -> Stop | GoTo | None:
    target = fields.said("go_to")
    if target is not None:
        return GoTo(target)
    reason: Said | None = fields.said("stop")
    return None if reason is None else Stop(reason.text, reason.place)
