"""How the device came: what is asked, which procedure takes in what, and what to say where none does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from benchleaf.model.procedure import ANY_DEVICE, Arrives
from benchleaf.pages.bench import Answer, Question
from benchleaf.pages.compose.rows import joined
from benchleaf.pages.compose.site import page_to_work_by
from benchleaf.pages.parts import Link, Words, words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.compose.site import Site

LIQUID, BATTERY, GLASS = "liquid", "battery", "glass"
# What a procedure takes in that is written for a device which came so. Not known takes the bad end; one that is written
# for the worse takes in the better.
_COVERS = {
    LIQUID: {"none": ("none",), "water": ("none", "water"), "sea-water": ("none", "water", "sea-water", "unknown"),
             "unknown": ("none", "water", "sea-water", "unknown")},
    BATTERY: {"sound": ("sound",), "swollen": ("sound", "swollen", "unknown"),
              "unknown": ("sound", "swollen", "unknown")},
    GLASS: {"whole": ("whole",), "broken": ("whole", "broken")},
}  # fmt: skip
_ASKED = {
    LIQUID: Question(LIQUID, "Has it met liquid?", (
        Answer("none", "No, it is dry"), Answer("water", "Water"), Answer("sea-water", "Sea water"),
        Answer("unknown", "Nobody knows"),
    )),
    BATTERY: Question(BATTERY, "Is the battery swollen?", (
        Answer("sound", "No, the case closes all round"), Answer("swollen", "Yes, something bulges or gapes"),
        Answer("unknown", "I cannot tell"),
    )),
    GLASS: Question(GLASS, "Is the glass whole?", (
        Answer("whole", "Whole"), Answer("broken", "Cracked or splintered"),
    )),
}  # fmt: skip
_SAYS = {
    (LIQUID, "water"): "If it met water", (LIQUID, "sea-water"): "If it met sea water",
    (LIQUID, "unknown"): "If nobody knows whether it met liquid",
    (BATTERY, "swollen"): "If its battery is swollen",
    (BATTERY, "unknown"): "If nobody can tell whether its battery is swollen",
    (GLASS, "broken"): "If its glass is broken",
}  # fmt: skip
_GLAZED = frozenset({"window", "display"})
NOBODY = "no procedure of ours takes it in: leave it closed and show it to the senior technician"


def questions(device: Device | None, variants: tuple[str, ...]) -> Iterator[Question]:
    """Yield what is asked when a device comes: only what it has."""
    own = [variant for variant in device.variants if variant.id in variants] if device else []
    if len(own) > 1:
        told = tuple(Answer(variant.id, variant.title.text, variant.tell_by or "") for variant in own)
        yield Question("variant", "Which one is it?", told)
    yield _ASKED[LIQUID]
    if device is None or device.batteries:
        yield _ASKED[BATTERY]
    if device is None or any(part.kind in _GLAZED for part in device.parts.values()):
        yield _ASKED[GLASS]


def arrival(site: Site, procedure: Procedure, root: str) -> dict[str, Any]:
    """Return which answers *procedure* takes in, and which others of its device take in what it does not."""
    return {
        "own": _cover(site, procedure, root),
        "others": [_cover(site, other, root) for other in _others(site, procedure)],
    }


def _cover(site: Site, procedure: Procedure, root: str) -> dict[str, Any]:
    variants = site.base.variants_of(procedure)
    return {
        "title": procedure.title.text,
        "link": root + page_to_work_by(procedure),
        "variants": list(variants) if variants else None,
        **{name: list(answers) for name, answers in covered(procedure.arrives).items()},
    }


def covered(how: Arrives) -> dict[str, tuple[str, ...]]:
    """Return the answers that a procedure takes in which is written for a device that came as *how* says."""
    return {
        LIQUID: _COVERS[LIQUID][how.liquid],
        BATTERY: _COVERS[BATTERY][how.battery],
        GLASS: _COVERS[GLASS][how.glass],
    }


def _others(site: Site, procedure: Procedure) -> list[Procedure]:
    """Return those of the device that take in more than one does usually: what makes safe stands first."""
    if procedure.device == ANY_DEVICE:
        return []
    usual = covered(Arrives())
    found = [
        other for other in site.by_device.get(procedure.device, ())
        if other is not procedure and covered(other.arrives) != usual
    ]  # fmt: skip
    return sorted(found, key=lambda other: other.purpose != "make-safe")


def takes(site: Site, procedure: Procedure, root: str, asked: tuple[str, ...]) -> Iterator[Words]:
    """Yield for which devices *procedure* is not, each with those that are, for who reads without script."""
    own, others = covered(procedure.arrives), _others(site, procedure)
    for (name, answer), says in _SAYS.items():
        if name not in asked or answer in own[name]:
            continue
        better = [other for other in others if answer in covered(other.arrives)[name]]
        links = joined(Link(other.title.text, root + page_to_work_by(other)) for other in better)
        yield (*words(f"{says}: "), *(links or words(NOBODY)), *words("."))
