"""The draft of a procedure: the device's levels, parts, plugs and screws are offered, and the shop's tools."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.begin.words import FILL, modeline, named, offered, remark, whole
from benchleaf.model.device import CLOSED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase

_WHAT = """\
A draft: it passes the check, and nobody sees it but in `benchleaf serve`. Make it yours, line by line. Opening and
closing come from the device."""
_ACTIONS = """\
A step has one `do` and at most one action: unplug, plug, unscrew, screw, remove, fit, replace, release, bond, heat,
solder, desolder, solvent, bath, work, discharge, store, wait, power, supply."""
_STOP = '{stop: "Stop here, and ask the senior technician."}'


@dataclass(frozen=True, slots=True)
class _Draft:
    """What one draft is about: its name, its device if it has one, the level, and the symptom that it cures."""

    base: KnowledgeBase
    name: str
    device: Device | None
    level: str
    symptom: str

    def text(self) -> str:
        """Return the file."""
        return whole(self._lines())

    def _lines(self) -> Iterator[str]:
        yield modeline("procedure", 3)
        yield from remark(_WHAT)
        yield f"title: {named(self.name)}  {FILL}what is done, as a technician would call it"
        yield from self._level()
        yield "revision: 1"
        yield f"status: draft  {FILL}in-review, then approved with `reviewed: <day>`, once it is whole"
        yield from self._symptoms()
        if self.device and self.level != CLOSED and any(part.keeps_out for part in self.device.parts.values()):
            yield f"consent: [seal-rating]  {FILL}keep it, or prove the seal by a `leak` check and take it out"
        tools = {name: tool.title.text for name, tool in self.base.tools.items()}
        yield from offered("tools: [...] lists what the steps use. Tools of the shop", tools)
        materials = {one.id: one.title.text for one in self.base.materials.values()}
        yield from offered("materials: {...} lists what they use up. Materials of the shop", materials)
        yield from self._steps()
        yield from self._proof()

    def _level(self) -> Iterator[str]:
        if self.device is None:
            return
        levels = {CLOSED: "not opened", **{one.id: one.title.text for one in self.device.access.values()}}
        yield from offered(f"Levels of the {self.device.title}", levels)
        yield f"access: {self.level}  {FILL}how far the device must be open"
        if len(self.device.variants) > 1:
            titles = {one.id: one.title.text for one in self.device.variants}
            yield from offered("variants: [...] where it is not for all of them", titles)

    def _symptoms(self) -> Iterator[str]:
        titles = {one.id: one.title.text for one in self.base.symptoms.values()}
        yield from offered("Symptoms", titles)
        if self.symptom:
            yield f"fixes: [{self.symptom}]  {FILL}the symptoms that it cures"
        else:
            yield f"purpose: inspection  {FILL}repair with `fixes: [...]`, make-safe, calibration or data-rescue"

    def _steps(self) -> Iterator[str]:
        yield f"steps:  {FILL}what is done, one act a step, each beginning with a verb"
        yield "  - do: Look at what lies open."
        yield f"    check: {{look: Nothing is burnt or wet., if_not: {_STOP}}}  {FILL}what must be true"
        yield "    record: photo"
        yield "    takes: 1–2 min"
        yield from remark(_ACTIONS, 2)
        device = self.device
        if device is None:
            return
        yield from offered(f"Parts of the {device.title}", {one.id: one.title.text for one in device.parts.values()}, 2)
        yield from offered("Plugs", {one.id: one.title.text for one in device.connectors.values()}, 2)
        yield from offered("Screws", {one.id: one.title.text for one in device.fasteners.values()}, 2)
        yield from offered("Bonds", {one.id: one.title.text for one in device.bonds.values()}, 2)
        others = {one.id: one.title.text for one in self.base.procedures.values() if one.device in {device.id, "any"}}
        yield from offered("Procedures that a failing check can go to", others, 2)

    def _proof(self) -> Iterator[str]:
        functions = self._functions()
        if not (self.symptom or functions):
            return
        yield f"prove:  {FILL}how it is proved that all works again"
        yield "  - {do: Switch the device on., power: on}"
        for function in functions:
            yield f"  - do: Check the {function}."
            yield f"    check: {{look: The {function} works., if_not: {_STOP}}}"
            yield "    takes: 1–2 min"
        if self.symptom:
            yield "  - do: Check that the complaint is gone."
            yield f"    check: {{gone: {self.symptom}, if_not: {_STOP}}}"
            yield "    takes: 1–2 min"

    def _functions(self) -> tuple[str, ...]:
        """Return what is served by plugs that the way in opens: each is proved after the work."""
        device = self.device
        steps = [step for level in device.way_to(self.level) for step in level.opening] if device else []
        pulled = [str(getattr(step.action, "connector", "")) for step in steps]
        served = [device.connectors[name].serves for name in pulled if device and name in device.connectors]
        return tuple(dict.fromkeys(name for names in served for name in names))


def drafts(base: KnowledgeBase, device: str, name: str) -> Iterator[str]:
    """
    Yield drafts of the procedure *name*, from the one that holds most to the one that is sure to pass.

    What a device asks of a procedure is known in full only by the check: whoever asked takes the first that passes.
    """
    known = base.devices.get(device)
    opened = [level.id for level in known.access.values() if level.parent.text == CLOSED] if known else []
    answered = {str(symptom) for one in base.procedures.values() if one.device == device for symptom in one.fixes}
    # A symptom that nothing cures yet comes first: that is what a new procedure is written for.
    symptoms = sorted(base.symptoms, key=lambda one: one in answered)
    for level in (*opened, CLOSED):
        for symptom in (*symptoms[:1], ""):
            yield _Draft(base, name, known, level, symptom).text()
