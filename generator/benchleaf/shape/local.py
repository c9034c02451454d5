"""What one document can say of itself but no schema can: days that exist, names that differ, counts that fit."""

from __future__ import annotations

import datetime as dt
import math
import re
from typing import TYPE_CHECKING

from benchleaf.findings import Fault
from benchleaf.shape.inline import shown
from benchleaf.source.nodes import Node, Scalar, Sequence, Table
from benchleaf.units.dimensions import DIMENSIONS
from benchleaf.units.parse import NotAQuantity, parse

if TYPE_CHECKING:
    from collections.abc import Iterator

_RULE = "wrong-value"
_SUCCESS = re.compile(r"([0-9]{1,6}) of ([0-9]{1,6})")
MOST_CURES = 12


def local(document: Table, kind: str) -> Iterator[Fault]:
    """Yield what is wrong within *document* itself. Whatever does not fit its schema is passed over in silence."""
    match kind:
        case "shop":
            for name, constant in _pairs(document.get("constants")):
                yield from _ends(name, constant)
        case "procedure":
            yield from _day(document.get("reviewed"))
            yield from _step_names((name, document.get(name)) for name in ("steps", "prove"))
        case "device":
            yield from _step_names(
                (f"{level}-{part}", _field(value, part))
                for level, value in _pairs(document.get("access"))
                for part in ("opening", "closing")
            )
        case "diagnosis":
            yield from _cures(document)
        case "counts":
            yield from _counts(document)


def _ends(name: str, constant: Node) -> Iterator[Fault]:
    """Yield a fault where low, central and high are not in this order, or something is nothing or less."""
    ends = [_field(constant, end) for end in ("low", "central", "high")]
    try:
        values = [parse(end.text, *DIMENSIONS) if isinstance(end, Scalar) else None for end in ends]
    except NotAQuantity:
        return
    low, central, high = values
    if low is None or central is None or high is None or not isinstance(ends[1], Scalar):
        return
    if not (0 < low.low <= central.low and central.high <= high.high) and all(map(math.isfinite, (low.low, high.high))):
        message = (
            f"The ends of `{name}` do not hold its `central` between them: what is reckoned with it would be no range"
        )
        yield Fault(
            _RULE, ends[1].place, message, "Write more than 0 for low, and low, central and high in rising order."
        )


def _day(node: Node | None) -> Iterator[Fault]:
    if not isinstance(node, Scalar) or not re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", node.text):
        return
    try:
        dt.date.fromisoformat(node.text)
    except ValueError:
        if re.fullmatch("[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])", node.text):
            message = f"`reviewed` is {node.text}, a day that does not exist"
            yield Fault(_RULE, node.place, message, "Write the day as year-month-day, for example 2026-09-14.")


def _step_names(phases: Iterator[tuple[str, Node | None]]) -> Iterator[Fault]:
    """Yield a fault for each step's name that another step has, by its own or by its number."""
    own: list[Scalar] = []
    numbered: set[str] = set()
    for phase, steps in phases:
        for number, step in enumerate(_items(steps), start=1):
            name = _field(step, "id")
            if isinstance(name, Scalar):
                own.append(name)
            else:
                numbered.add(f"{phase}-{number}")
    first: dict[str, Scalar] = {}
    for name in own:
        if name.text in numbered:
            message = f"`id` is {shown(name.text)}, which another step is called by its number"
            yield Fault(_RULE, name.place, message, "Give this step another name: each step is known by its own.")
        elif first.setdefault(name.text, name) is not name:
            line = first[name.text].place.line
            message = f"`id` is {shown(name.text)}, and so is that of the step on line {line}"
            yield Fault(_RULE, name.place, message, "Give one of the two another name: each step is known by its own.")


def _cures(document: Table) -> Iterator[Fault]:
    procedures: dict[str, Scalar] = {}
    for _, cause in _pairs(document.get("causes")):
        for cure in _items(_field(cause, "cures")):
            yield from _success(_field(cure, "success"))
            name = _field(cure, "procedure")
            if isinstance(name, Scalar):
                procedures.setdefault(name.text, name)
    if len(procedures) > MOST_CURES:
        beyond = list(procedures.values())[MOST_CURES]
        message = f"`procedure` names a {MOST_CURES + 1}th cure, and at most {MOST_CURES} can be ranked"
        yield Fault(_RULE, beyond.place, message, "Keep the cures that put most cases right, or refer the others.")


def _counts(document: Table) -> Iterator[Fault]:
    for _, symptoms in _pairs(document):
        for _, causes in _pairs(symptoms):
            for _, cause in _pairs(causes):
                for _, counted in _pairs(_field(cause, "success")):
                    yield from _success(counted)


def _success(node: Node | None) -> Iterator[Fault]:
    counted = _SUCCESS.fullmatch(node.text) if isinstance(node, Scalar) else None
    if node and counted and int(counted[1]) > int(counted[2]):
        message = f"The share is {counted[0]}: it worked more often than it was tried"
        to_do = f"Write how often it worked, then how often it was tried: {counted[2]} of {counted[1]}."
        yield Fault(_RULE, node.place, message, to_do)


def _pairs(node: Node | None) -> Iterator[tuple[str, Node]]:
    if isinstance(node, Table):
        for entry in node.entries:
            yield entry.key.text, entry.value


def _items(node: Node | None) -> tuple[Node, ...]:
    return node.items if isinstance(node, Sequence) else ()


def _field(node: Node | None, name: str) -> Node | None:
    return node.get(name) if isinstance(node, Table) else None
