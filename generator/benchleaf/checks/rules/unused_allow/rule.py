"""An exception that silences nothing today will silence the next fault of its kind, and nobody will hear of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step, go_tos, having, in_use, mentions
from benchleaf.findings import Level
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.rule import Run
    from benchleaf.checks.walk import Spot
    from benchleaf.findings import Place
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Allow

NAME = "unused-allow"
_TAKE_OUT = "Take the exception out."


def conclude(run: Run) -> Iterator[Hit]:
    """
    Yield each exception that silenced nothing in this run.

    While a file does not fit, its steps are not performed, and a name that means nothing hides what would be found with
    the right one: there it is not said. Those for this rule itself come last, when it is known what they silenced.
    """
    spots = [spot for spot in every_step(run.base) if spot.step.allow]
    performed = _performed(run.base) if spots else frozenset()
    hidden = {finding.place for finding in run.found if finding.rule in {"unknown-reference", "wrong-value"}}
    for spot in spots:
        judged = not run.base.broken and _is_performed(spot, performed) and not hidden.intersection(_names(spot))
        for allow in spot.step.allow:
            rule = run.rules.get(allow.rule.text)
            if rule is None:
                yield Hit(allow.rule.place, f"There is no rule `{allow.rule}`: nothing is silenced here",
                          _meant(run, allow), step=spot.step)  # fmt: skip
            elif not rule.reaches_steps:
                yield Hit(allow.rule.place, f"`{rule.name}` is never allowed: nothing is silenced here",
                          "Take the exception out, and mend what the rule finds.", step=spot.step)  # fmt: skip
            elif judged and rule.name != NAME and (rule.name, allow.place) not in run.used.places:
                yield Hit(allow.rule.place, *_unused(spot, allow), step=spot.step)
    for spot in spots:
        for allow in spot.step.allow:
            if allow.rule.text == NAME and not run.base.broken and (NAME, allow.place) not in run.used.places:
                yield Hit(allow.rule.place, *_unused(spot, allow))


def _meant(run: Run, allow: Allow) -> str:
    return did_you_mean(allow.rule.text, [name for name, rule in run.rules.items() if rule.reaches_steps],
                        "take the exception out.")  # fmt: skip


def _unused(spot: Spot, allow: Allow) -> tuple[str, str]:
    first = next(other for other in spot.step.allow if other.rule.text == allow.rule.text)
    if first is not allow:
        return f"`{allow.rule}` is allowed in this step already: this exception is read by nobody", _TAKE_OUT
    return (
        f"`{allow.rule}` finds nothing in this step: the exception would hide its next finding from everybody",
        _TAKE_OUT,
    )


def _performed(base: KnowledgeBase) -> frozenset[tuple[str, str, str]]:
    """Return the levels, by device and variant, through which a procedure passes: those of the others are not tried."""
    return frozenset(
        (device.id, level.id, variant)
        for procedure in in_use(base)
        if (device := base.devices.get(procedure.device))
        for level in device.way_to(procedure.access.text)
        for variant in having(level.only, base.variants_of(procedure))
    )


def _is_performed(spot: Spot, performed: frozenset[tuple[str, str, str]]) -> bool:
    if spot.procedure:
        return bool(spot.variants) if spot.device else spot.procedure.device == ANY_DEVICE
    if spot.device is None or spot.level is None:
        return False
    return any((spot.device.id, spot.level.id, variant) in performed for variant in spot.variants)


def _names(spot: Spot) -> Iterator[Place]:
    """Yield where the step names something."""
    yield from (mention.name.place for mention in mentions(spot.step))
    yield from (name.place for name in go_tos(spot.step.check))
    yield from (name.place for name in (spot.step.only.names if spot.step.only else ()))


RULE = Rule(NAME, Level.WARNING, conclude=conclude)
