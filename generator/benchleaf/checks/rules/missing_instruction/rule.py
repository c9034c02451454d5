"""The first word is what the hands wait for: where it is no instruction, they wait, or guess."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.instruction import first_word
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.words import Said


class Titled(Protocol):
    """Anything on the bench that has a title."""

    @property
    def title(self) -> Said:
        """What a person calls it."""


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each step that surely begins with something else than an instruction."""
    shared = _titles(base.tools, base.materials)
    names = {device.id: shared | _of(device) for device in base.devices.values()}
    for spot in every_step(base):
        do = spot.step.do
        word = first_word(do.text, names[spot.device.id] if spot.device else shared)
        if word is not None:
            yield Hit(
                do.place,
                f"This step begins with `{word}`, which is no instruction: from a metre away nobody sees what to do",
                "Begin with the verb, as in `Lift the back shell away.`, and put what is to be known in `why`.",
                step=spot.step,
            )


def _of(device: Device) -> frozenset[str]:
    return _titles(device.parts, device.connectors, device.fasteners, device.bonds)


def _titles(*things: Mapping[str, Titled]) -> frozenset[str]:
    """Return the titles of two words or more, in small letters: one word may be a verb as well."""
    titles = (thing.title.text.lower() for table in things for thing in table.values())
    return frozenset(title for title in titles if " " in title)


RULE = Rule("missing-instruction", Level.WARNING, check)
