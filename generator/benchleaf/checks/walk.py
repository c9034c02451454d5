"""Every step of a knowledge base with all that a rule may ask of it: whose it is, its list, and for which variants."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import lru_cache
from typing import TYPE_CHECKING, get_args

from benchleaf.model import action as act
from benchleaf.model.step import GoTo, Repeat
from benchleaf.model.words import Said, applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.device import Access, Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Check, Step
    from benchleaf.model.words import OnlyFor

# What the fields of an action name; a supply goes into a part or a connector, which is a socket here.
_KINDS = {"connector": "connector", "part": "part", "on": "part", "bond": "bond", "tool": "tool",
          "material": "material", "into": "socket"}  # fmt: skip


# The fields of each type of action that name something, with the kind of thing that they name.
_NAMING = {
    action: tuple((field.name, _KINDS[field.name]) for field in fields(action) if field.name in _KINDS)
    for action in get_args(act.Action)
}


@dataclass(frozen=True, slots=True)
class Spot:
    """
    A step where it is written.

    `steps` is the list that it stands in, as the one of that `number`, counted from 1; `phase` says what the list is:
    opening, closing, work or prove. It belongs to `procedure`, or to `level` of the device. `variants` are those for
    which it is performed, in the device's order; there are none where `device` is None: in a procedure for any device,
    and where the device's file does not fit.
    """

    step: Step
    steps: tuple[Step, ...]
    number: int
    phase: str
    device: Device | None
    procedure: Procedure | None
    level: Access | None
    variants: tuple[str, ...]

    @property
    def so_far(self) -> tuple[Step, ...]:
        """The steps of the list from its first to this one."""
        return self.steps[: self.number]


@dataclass(frozen=True, slots=True)
class Mention:
    """A name that a step gives: `kind` is tool, material, part, connector, fastener, bond, symptom, or a socket."""

    kind: str
    name: Said


def in_use(base: KnowledgeBase) -> Iterator[Procedure]:
    """Yield the procedures that are checked: all but the withdrawn ones."""
    return (procedure for procedure in base.procedures.values() if procedure.status != "withdrawn")


@lru_cache(maxsize=1)
def in_use_by_device(base: KnowledgeBase) -> Mapping[str, tuple[Procedure, ...]]:
    """Return the procedures that are checked, by device: who asks for each device in turn looks at each one once."""
    found: dict[str, list[Procedure]] = {}
    for procedure in in_use(base):
        found.setdefault(procedure.device, []).append(procedure)
    return {device: tuple(several) for device, several in found.items()}


@lru_cache(maxsize=1)
def every_step(base: KnowledgeBase) -> tuple[Spot, ...]:
    """Return each step once: those of the levels of every device, then those of the procedures in use."""
    return tuple(_every_step(base))


def _every_step(base: KnowledgeBase) -> Iterator[Spot]:
    for device in base.devices.values():
        for level in device.access.values():
            yield from level_steps(device, level)
    for procedure in in_use(base):
        yield from own_steps(base, procedure)


def level_steps(device: Device, level: Access) -> Iterator[Spot]:
    """Yield the steps of *level*."""
    variants = having(level.only, device.variant_ids)
    for phase, steps in (("opening", level.opening), ("closing", level.closing)):
        for number, step in enumerate(steps, start=1):
            yield Spot(step, steps, number, phase, device, None, level, having(step.only, variants))


def own_steps(base: KnowledgeBase, procedure: Procedure) -> Iterator[Spot]:
    """Yield the steps that stand in the file of *procedure*."""
    device, variants = base.devices.get(procedure.device), base.variants_of(procedure)
    for phase, steps in (("work", procedure.steps), ("prove", procedure.prove)):
        for number, step in enumerate(steps, start=1):
            yield Spot(step, steps, number, phase, device, procedure, None, having(step.only, variants))


def having(only: OnlyFor | None, variants: tuple[str, ...]) -> tuple[str, ...]:
    """Return those of *variants* for which a thing with *only* exists."""
    if only is None:
        return variants
    return tuple(variant for variant in variants if applies(only, variant))


def go_tos(check: Check | None) -> Iterator[Said]:
    """Yield the procedures that a failed *check* leads to."""
    way = check.if_not if check else None
    if isinstance(way, Repeat):
        way = way.then
    if isinstance(way, GoTo):
        yield way.procedure


def mentions(step: Step) -> Iterator[Mention]:
    """Yield the names of things that *step* gives; where a failed check leads is not among them."""
    for kind, names in (("tool", step.use), ("material", [amount.material for amount in step.apply])):
        for name in names:
            yield Mention(kind, name)
    if step.action:
        yield from _in_action(step.action)
    if step.check and step.check.kind == "gone":
        yield Mention("symptom", step.check.what)
    if step.check and step.check.instrument:
        yield Mention("tool", step.check.instrument)


def _in_action(action: act.Action) -> Iterator[Mention]:
    for name, kind in _NAMING[type(action)]:
        value = getattr(action, name)
        if isinstance(value, Said):
            yield Mention(kind, value)
    if isinstance(action, act.Unscrew | act.Screw):
        for screws in action.screws:
            yield Mention("fastener", screws.fastener)
    elif isinstance(action, act.Supply):
        for part in action.needs:
            yield Mention("part", part)
    elif isinstance(action, act.Heat) and action.hold:
        yield from _in_hold(action.hold)


def _in_hold(hold: act.Hold) -> Iterator[Mention]:
    yield Mention("part", hold.part)
    if hold.instrument:
        yield Mention("tool", hold.instrument)
