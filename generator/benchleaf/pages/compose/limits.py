"""The second column: what a step's action sets, bears and takes, in the shop's units."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.derive.held import Beside, Held
from benchleaf.derive.screws import turned
from benchleaf.derive.waits import Needed
from benchleaf.model import action as act
from benchleaf.pages.compose import margins
from benchleaf.pages.compose.site import variant_titles
from benchleaf.pages.parts import Link, Words, words
from benchleaf.pages.sheet import Limit
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.derive.held import OnSheet
    from benchleaf.model.device import Device, Fastener
    from benchleaf.model.device import Limit as Bears
    from benchleaf.model.step import Step
    from benchleaf.pages.compose.site import Site
    from benchleaf.units.quantity import Quantity, Torque


# By what a wait brings about: how it is said, and the method that computes it.
_ENDS = {
    "dry": ("dries in", "drying"), "clear": ("is clear of vapour in", "drying"), "cool": ("cools in", "cool-down"),
    "cured": ("is firm in", ""),
}  # fmt: skip


class Limits:
    """Words the limits of the steps of one page."""

    def __init__(self, site: Site, device: Device | None, letters: Mapping[str, str], root: str) -> None:
        """Hold what all steps of the page share."""
        self._site, self._device, self._letters, self._root = site, device, letters, root
        units = site.base.shop.units if site.base.shop else {}
        self._torque = units.get("torque", "")
        self.temperature = units.get("temperature", "")

    def of(self, step: Step, held: Iterable[tuple[OnSheet, tuple[str, ...]]] = ()) -> tuple[Limit, ...]:
        """Return the limits of *step*, in the order they are needed; *held* is what the dry run knows of them."""
        told = [(one, self._only(variants)) for one, variants in held]
        bears = [words(note) for one, only in told if isinstance(one, Held) for note in self._bears(one, only)]
        bears += [self._needed(one, only) for one, only in told if isinstance(one, Needed)]
        found = list(self._of_action(step, bears)) if step.action else []
        found += [self._beside(one, only) for one, only in told if isinstance(one, Beside)]
        found += [
            Limit(show.tidy(amount.amount.text), "amount", (self._material(amount.material.text),))
            for amount in step.apply
        ]
        return tuple(found)

    def degrees(self, quantity: Quantity) -> str:
        """Return a temperature in the shop's unit."""
        return show.temperature(quantity, self.temperature)

    def bears(self, limit: Bears) -> str:
        """Return what a part bears."""
        lasts = f", {show.tidy(limit.lasts.text)}" if limit.lasts else ""
        return f"{self.degrees(limit.at)}{lasts}"

    def torque(self, fastener: Fastener) -> str:
        """Return the torque of *fastener* in the shop's unit, with the written value where it differs."""
        if fastener.torque is None:
            return "by hand" if fastener.torque_by_hand else "not given"
        return self.turned(fastener.torque)

    def turned(self, torque: Torque) -> str:
        """Return a torque in the shop's unit, with the written value where it differs."""
        shown, written = show.torque(torque, self._torque)
        return f"{shown} ({written})" if written else shown

    def size(self, fastener: Fastener) -> str:
        """Return thread and length."""
        length = show.tidy(fastener.length.text).removesuffix(" mm") if fastener.length else ""
        return " × ".join(part for part in (fastener.thread, length) if part)

    def item(self, fastener: Fastener) -> str:
        """Return the item letter of *fastener* with its size."""
        size = self.size(fastener)
        return f"item {self._letters[fastener.id]}{f', {size}' if size else ''}"

    def _of_action(self, step: Step, bears: list[Words]) -> Iterator[Limit]:
        match step.action:
            case act.Heat() as action:
                yield self._heat(action, bears)
            case act.Unscrew(screws=several):
                yield from (self._out(screws) for screws in several)
            case act.Screw(screws=several):
                yield from (self._in(screws, step.place.path) for screws in several)
            case act.Solvent() as action:
                area = f" on {show.tidy(action.area.text)}" if action.area else ""
                yield Limit(
                    show.tidy(action.volume.text), "amount", ((*self._material(action.material.text), *words(area)),)
                )
            case act.Bath() as action:
                at = f" at {self.degrees(action.at)}" if action.at else ""
                yield Limit(f"{show.tidy(action.lasts.text)}{at}", "time", (self._material(action.material.text),))
            case act.Wait() as action:
                notes = tuple(words(note) for note in self._while(action))
                yield Limit(show.tidy(action.lasts.text), "time", (*notes, *bears))
            case act.Supply(source=str()) as action:
                yield self._supply(action)
            case act.Release(bond=bond):
                known = self._device.bonds.get(bond.text) if self._device else None
                if known and known.softens:
                    yield Limit(self.degrees(known.softens), "heat", (words("where the bond softens"),))
            case _:
                return

    def _heat(self, action: act.Heat, bears: list[Words]) -> Limit:
        notes: list[Words] = []
        if action.times > 1:
            pause = f", {show.tidy(action.pause.text)} apart" if action.pause else ""
            notes.append(words(f"{action.times} times{pause}"))
        if action.reaches:
            notes.append(words(f"the part itself reaches {self.degrees(action.reaches)}, by measurement"))
        if action.ramp:
            notes.append(words(f"no faster than {show.tidy(action.ramp.text)}"))
        notes += bears
        if action.hold:
            by = f", {self._site.tool(action.hold.instrument.text)}" if action.hold.instrument else ""
            below = self.degrees(action.hold.below)
            notes.append(words(f"keep {self._part(action.hold.part.text)} below {below}{by}"))
        if action.shield:
            notes.append(words(f"shield: {action.shield}"))
        strong = f"{self.degrees(action.at)}, {show.tidy(action.lasts.text)}"
        return Limit(strong, "heat" if action.kind == "heat" else "joint", tuple(notes))

    def _bears(self, one: Held, only: str) -> Iterator[str]:
        """Yield what a joint or a body bears, and how far it stays from that."""
        part = self._device.parts.get(one.on) if self._device else None
        if part is None or one.reached is None:
            return
        if one.kind == "joint" and part.joint_limit:
            apart = margins.kelvins(one.limit, one.reached, self.temperature)
            yield f"joint bears {self.degrees(part.joint_limit.at)}: {apart}{only}"
        elif one.kind == "joint-time" and part.joint_limit and part.joint_limit.lasts:
            apart = margins.seconds(one.limit, one.reached)
            yield f"for {show.tidy(part.joint_limit.lasts.text)} a touch: {apart}{only}"
        elif one.kind == "body" and part.heat_limit:
            apart = margins.kelvins(one.limit, one.reached, self.temperature)
            yield f"{part.title} bears {self.bears(part.heat_limit)}: {apart}{only}"

    def _beside(self, one: Beside, only: str) -> Limit:
        """Return how warm a neighbour becomes at the bad end of the estimate, and how far that is from its limit."""
        most = margins.temperature(one.reached.high, self.temperature, math.ceil)
        likely = margins.temperature(one.reached.value, self.temperature, round)
        part = self._device.parts.get(one.on) if self._device else None
        if one.limit and part and part.heat_limit:
            apart = margins.kelvins(one.limit, one.reached, self.temperature)
            bears = f"bears {self.degrees(part.heat_limit.at)}: {apart}"
        else:
            bears = "nobody says what it bears"
        return Limit(f"{self._part(one.on)} up to {most}", "neighbour", (words(f"estimate {likely}; {bears}{only}"),))

    def _needed(self, one: Needed, only: str) -> Words:
        """Return what a wait is for, and how long that takes: from the low end of the estimate to the bad one."""
        verb, method = _ENDS[one.end]
        what = self._called(one.on)
        if not math.isfinite(one.needed.high):
            return words(f"nobody can say when {what} is {one.end}{only}")
        how = Link(verb, f"{self._root}methods.html#{method}") if method else verb
        return words(f"{what} ", how, f" {show.between(one.needed.low, one.needed.high)}{only}")

    def _called(self, name: str) -> str:
        bond = self._device.bonds.get(name) if self._device else None
        return bond.title.text if bond else self._part(name) or "Bench"

    def _only(self, variants: tuple[str, ...]) -> str:
        return f" ({variant_titles(self._device, variants)} only)" if variants else ""

    def _part(self, name: str) -> str:
        known = self._device.parts.get(name) if self._device else None
        return known.title.text if known else name

    def _screw(self, screws: act.Screws) -> tuple[Fastener | None, str]:
        fastener = self._device.fasteners.get(screws.fastener.text) if self._device else None
        if fastener is None:
            return None, screws.fastener.text
        return fastener, self.item(fastener)

    def _out(self, screws: act.Screws) -> Limit:
        fastener, note = self._screw(screws)
        drive = fastener.drive if fastener and fastener.drive else "screws"
        return Limit(f"{screws.count} × {drive}", "count", (words(note),))

    def _in(self, screws: act.Screws, path: str) -> Limit:
        fastener, note = self._screw(screws)
        drive = f" {fastener.drive}" if fastener and fastener.drive else ""
        notes = [f"{screws.count} ×{drive}, {note}"]
        known = turned(self._device.fasteners, screws, path) if self._device else None
        asked = screws.torque or (fastener.torque if fastener else None)
        if asked:
            shown, written = show.torque(asked, self._torque)
            notes += [written] if written else []
            if known and known.recommended:
                notes.append(f"recommended at most {margins.torque(known.recommended, self._torque or asked.unit)}")
        else:
            shown = "by hand" if fastener and fastener.torque_by_hand else "torque not given"
            notes += [fastener.because] if fastener and fastener.because else []
        return Limit(shown, "torque", tuple(words(note) for note in notes))

    def _while(self, action: act.Wait) -> Iterator[str]:
        if action.until:
            yield f"until {action.until}"
        if action.at:
            yield f"at {self.degrees(action.at)}"
        if action.tool:
            yield self._site.tool(action.tool.text)
        if action.air_speed:
            yield f"air at {show.tidy(action.air_speed.text)}"

    def _supply(self, action: act.Supply) -> Limit:
        strong = show.tidy(action.at.text) if action.at else f"from {action.source}"
        notes = [f"from {action.source}"] if action.at else []
        if action.into:
            notes.append(f"into {self._part(action.into.text)}")
        if action.limit:
            notes.append(f"limited to {show.tidy(action.limit.text)}")
        return Limit(strong, "supply", tuple(words(note) for note in notes))

    def _material(self, name: str) -> Words:
        return words(Link(self._site.material(name), f"{self._root}materials/{name}.html"))
