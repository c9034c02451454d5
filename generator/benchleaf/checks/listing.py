"""What steps use of tools and materials, in one straight pass, beside what is listed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed, nearest
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import mentions
from benchleaf.library.names import APPLIED
from benchleaf.model import action as act
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.words import applies
from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping

    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Amount, Step
    from benchleaf.model.words import Said
    from benchleaf.units.quantity import Quantity

_COSTS = {
    "tool": "it would not be at hand when the device lies open",
    "material": "it would not be at hand, and nobody would know how much is needed",
}

_ROUNDING = 1e-9  # The error of adding up: 0.1 mL three times is 0.3 mL.


@dataclass(frozen=True, slots=True)
class Use:
    """An amount of a material that a step uses up."""

    step: Step
    material: Said
    amount: Quantity


def of_levels(base: KnowledgeBase, device: Device) -> Iterator[Hit]:
    """Yield where the tools that the levels of *device* list are not those that their steps use."""
    for level in device.access.values():
        way = device.way_to(level.id)
        steps = (*level.opening, *level.closing)
        through = [each for each in device.access.values() if level in device.way_to(each.id)]
        taken = [step for each in through for step in (*each.opening, *each.closing)]
        at_hand = [name for each in way for name in each.tools]
        yield from _unlisted("tool", _first("tool", steps), at_hand, base.tools, f"under `tools` of `{level.id}`")
        if not base.is_broken("tools", "", "tools"):
            names = {*_first("tool", taken), *_drivers(base, device, taken)}
            yield from _unused("tool", level.tools, names, base.tools)


def of_tools(base: KnowledgeBase, procedure: Procedure) -> Iterator[Hit]:
    """Yield where the tools that *procedure* lists are not those that its steps and its proof use."""
    device = base.devices.get(procedure.device)
    steps = (*procedure.steps, *procedure.prove)
    way = device.way_to(procedure.access.text) if device else ()
    on_the_way = [step for level in way for step in (*level.opening, *level.closing)]
    own = _first("tool", steps)
    if device or procedure.device == ANY_DEVICE:  # The levels of a device that cannot be read may list them.
        at_hand = [*procedure.tools, *(name for level in way for name in level.tools)]
        yield from _unlisted("tool", own, at_hand, base.tools, "under `tools`")
    if not base.is_broken("tools", "", "tools"):
        taken = {*own, *_first("tool", on_the_way), *_drivers(base, device, (*steps, *on_the_way))}
        yield from _unused("tool", procedure.tools, taken, base.tools)


def of_materials(base: KnowledgeBase, procedure: Procedure) -> Iterator[Hit]:
    """Yield where the materials that *procedure* lists are not those that its steps and its proof use up."""
    device, steps = base.devices.get(procedure.device), (*procedure.steps, *procedure.prove)
    own, names = _first("material", steps), [amount.material for amount in procedure.materials]
    way = device.way_to(procedure.access.text) if device else ()
    # A level has no list of materials: what its steps use up stands on the procedure.
    on_the_way = _first("material", (step for level in way for step in (*level.opening, *level.closing)))
    known = {*base.materials, *APPLIED}
    yield from _unlisted("material", own, names, known, "with its amount under `materials`")
    yield from _unused("material", names, {*own, *on_the_way}, known)
    variants = base.variants_of(procedure)
    uses = [use for step in steps for use in _used_up(step)]
    for amount in procedure.materials:
        yield from _beyond(amount, uses, variants)


def _first(kind: str, steps: Iterable[Step]) -> dict[str, tuple[Said, Step]]:
    """Return where *steps* first name each tool or material."""
    found: dict[str, tuple[Said, Step]] = {}
    for step in steps:
        for mention in mentions(step):
            if mention.kind == kind:
                found.setdefault(mention.name.text, (mention.name, step))
    return found


def _drivers(base: KnowledgeBase, device: Device | None, steps: Iterable[Step]) -> set[str]:
    """Return the tools that fit the screws which *steps* turn: a driver is used though no step names it."""
    drives = {
        fastener.drive
        for step in steps
        if isinstance(step.action, act.Screw | act.Unscrew)
        for screws in step.action.screws
        if device and (fastener := device.fasteners.get(screws.fastener.text))
    }
    return {tool.id for tool in base.tools.values() if drives.intersection(tool.drives)}


def _unlisted(
    kind: str, taken: Mapping[str, tuple[Said, Step]], at_hand: Collection[Said], known: Collection[str], where: str
) -> Iterator[Hit]:
    """Yield what is taken and not at hand; `unknown-reference` speaks of names that mean nothing on either side."""
    names = {name.text for name in at_hand}
    meant = {nearest(name, taken) for name in names if name not in known}
    for text, (name, step) in taken.items():
        if text in known and text not in names and text not in meant:
            yield Hit(
                name.place,
                f"The {kind} `{text}` is used here and is not listed: {_COSTS[kind]}",
                f"List `{text}` {where}, or use what is listed there.",
                step=step,
            )


def _unused(kind: str, names: Iterable[Said], taken: Collection[str], known: Collection[str]) -> Iterator[Hit]:
    """Yield what is listed and not taken; of names that mean nothing on either side nothing is said."""
    several = tuple(names)
    meant = {nearest(name, [each.text for each in several]) for name in taken if name not in known}
    for name in several:
        if name.text in known and name.text not in taken and name.text not in meant:
            yield Hit(
                name.place,
                f"The {kind} `{name}` is listed and no step uses it: it is fetched for nothing, or a step forgot it",
                "Take it off the list, or name it in the step that needs it.",
            )


def _used_up(step: Step) -> Iterator[Use]:
    for amount in step.apply:
        yield Use(step, amount.material, amount.amount)
    if isinstance(step.action, act.Solvent):
        yield Use(step, step.action.material, step.action.volume)


def _beyond(wanted: Amount, several: Iterable[Use], variants: tuple[str, ...]) -> Iterator[Hit]:
    """Yield where what is used up of a material is more than its listed amount, or cannot be compared with it."""
    uses = [use for use in several if use.material.text == wanted.material.text]
    name, limit = wanted.material, wanted.amount
    other = next((use for use in uses if use.amount.dimension != limit.dimension), None)
    if other:
        there = other.amount.dimension
        message = f"`{name}` is used by {there} and listed by {limit.dimension}: nobody can tell whether it will do"
        yield Hit(
            other.material.place, message, f"Write both by {limit.dimension} or both by {there}.", step=other.step
        )
        return
    sums = {variant: sum(use.amount.high for use in uses if not variant or applies(use.step.only, variant))
            for variant in variants or ("",)}  # fmt: skip
    over = tuple(sorted(variant for variant, total in sums.items() if total > limit.high * (1 + _ROUNDING)))
    if over:
        some = over if len(over) < len(variants) else ()
        yield _too_little(wanted, max(sums.values()), some)


def _too_little(wanted: Amount, most: float, variants: tuple[str, ...]) -> Hit:
    """Return what is said where the steps use *most*, in the base unit, on *variants* (all where there are none)."""
    name, limit = wanted.material, wanted.amount
    amount = f"{digits(spellings(limit.dimension)[limit.unit].from_base(most), 3, math.ceil)} {limit.unit}"
    on = f" on {listed(variants)}" if variants else ""
    message = f"`{name}` is listed with {limit.text}, and the steps use up to {amount}{on}: it would run out half way"
    return Hit(name.place, message, f"Write `{name}: {amount}`.", variants)
