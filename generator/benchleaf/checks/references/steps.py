"""Names that a step gives: what it works with, what it works on, and where a failed check leads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean, listed, one
from benchleaf.checks.references import shop
from benchleaf.checks.references.things import STEP, known_for
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import every_step, go_tos, in_use, mentions
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.step import Repeat
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.walk import Mention, Spot
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.words import Said

PERFORMED = "for which this step is performed"


def in_steps(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is wrong with the names in every step of *base*, those of a level once for its device."""
    published = _levels_of_approved(base)
    for spot in every_step(base):
        for mention in mentions(spot.step):
            yield from _mention(base, spot, mention)
        for name in go_tos(spot.step.check):
            if spot.procedure:
                yield from _go_to(base, spot, name, approved=spot.procedure.approved)
            elif spot.device and spot.level:
                yield from _go_to(base, spot, name, approved=(spot.device.id, spot.level.id) in published)
        if spot.step.check and isinstance(spot.step.check.if_not, Repeat):
            yield from _repeat(spot, spot.step.check.if_not.step)


def procedure_named(base: KnowledgeBase, device: str, name: str) -> Procedure | None:
    """Return the procedure that *name* means on *device*: one of its own, else one for any device."""
    return base.procedures.get((device, name)) or base.procedures.get((ANY_DEVICE, name))


def no_procedure(base: KnowledgeBase, device: str, name: Said, costs: str) -> Iterator[Hit]:
    """Yield what is said where *name* means no procedure on *device*; one whose file does not fit is there."""
    if any(base.is_broken("procedure", folder, name.text) for folder in (device, ANY_DEVICE)):
        return
    there = [known for folder, known in base.procedures if folder in {device, ANY_DEVICE}]
    elsewhere = [folder for folder, known in base.procedures if known == name.text]
    where = "in repairs/any/" if device == ANY_DEVICE else f"in repairs/{device}/ or repairs/any/"
    also = f" ({listed([f'repairs/{folder}/' for folder in elsewhere])} has one)" if elsewhere else ""
    yield Hit(
        name.place,
        f"There is no procedure `{name}` {where}{also}: {costs}",
        did_you_mean(name.text, there, f"write repairs/{device}/{name}.yml."),
    )


def _levels_of_approved(base: KnowledgeBase) -> frozenset[tuple[str, str]]:
    """Return the levels, by device, through which an approved procedure passes."""
    return frozenset(
        (device.id, level.id)
        for procedure in in_use(base)
        if procedure.approved and (device := base.devices.get(procedure.device))
        for level in device.way_to(procedure.access.text)
    )


def _mention(base: KnowledgeBase, spot: Spot, mention: Mention) -> Iterator[Hit]:
    match mention.kind:
        case "tool":
            yield from shop.tool(base, mention.name)
        case "material":
            yield from shop.material(base, mention.name, "put on")
        case "symptom":
            yield from shop.symptom(base, mention.name)
        case kind if spot.procedure and spot.procedure.device == ANY_DEVICE:
            yield for_no_device(mention.name, kind)
        case kind if spot.device:
            yield from known_for(spot.device, kind, mention.name, spot.variants, STEP)


def for_no_device(name: Said, kind: str) -> Hit:
    """Return what is said where a procedure for any device names something that only one device has."""
    return Hit(
        name.place,
        f"`{name}` is named as {one('part' if kind == 'socket' else kind)}, and a procedure for any device knows none: "
        "it is done on a closed device",
        "Move the file to the folder of its device, or take this out.",
    )


def _go_to(base: KnowledgeBase, spot: Spot, name: Said, *, approved: bool) -> Iterator[Hit]:
    device = spot.device.id if spot.device else spot.procedure.device if spot.procedure else ""
    target = procedure_named(base, device, name.text)
    if target is None:
        yield from no_procedure(base, device, name, "whoever fails this check would not know how to go on")
        return
    if target.status == "withdrawn" or (approved and not target.approved):
        yield not_approved(target, name, "whoever fails this check")
        return
    absent = tuple(sorted(v for v in spot.variants if not applies(target.variants, v)))
    if absent and target.device != ANY_DEVICE:
        there = [known for folder, known in base.procedures if folder == ANY_DEVICE or (
            folder == device and all(applies(base.procedures[folder, known].variants, v) for v in absent))]  # fmt: skip
        yield Hit(
            name.place,
            f"`{name}` is not written for {listed(absent)}, {PERFORMED}: whoever fails it would not know how to go on",
            did_you_mean(name.text, there, "write a step of its own, with `only`, for each."),
            absent,
        )


def not_approved(target: Procedure, name: Said, who: str) -> Hit:
    """Return what is said where a way leads to a procedure that no technician is to follow."""
    status = {"draft": "a draft", "in-review": "in review", "withdrawn": "withdrawn"}[target.status]
    if target.status == "withdrawn":
        return Hit(name.place, f"`{name}` is {status}: {who} would be sent to what must not be done any more",
                   "Name the procedure that took its place, or a `stop`.")  # fmt: skip
    return Hit(name.place, f"`{name}` is {status} and has no page that is published: {who} would be sent to nothing",
               f"Approve {target.path} first, or name an approved procedure.")  # fmt: skip


def _repeat(spot: Spot, name: Said) -> Iterator[Hit]:
    here = next((step for step in spot.so_far if step.id == name.text), None)
    if here is None:
        later = any(step.id == name.text for step in spot.steps)
        where = "stands after this check" if later else "is not in this list of steps"
        yield Hit(
            name.place,
            f"The step `{name}` {where}: there is nothing to go back to",
            did_you_mean(name.text, [step.id for step in spot.so_far if step.named],
                         "give the step to begin again from an `id`, and name it here."),
        )  # fmt: skip
        return
    absent = tuple(sorted(v for v in spot.variants if not applies(here.only, v)))
    if absent:
        there = [step.id for step in spot.so_far if step.named and all(applies(step.only, v) for v in absent)]
        yield Hit(
            name.place,
            f"The step `{name}` is not done on {listed(absent)}, {PERFORMED}: there is nothing to go back to",
            did_you_mean(name.text, there, "repeat from a step that is done on all of them."),
            absent,
        )
