"""Some, a while and tight are as much as each hand thinks; a number is the same for all."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.given import given
from benchleaf.checks.text.quantities import found
from benchleaf.checks.text.vague import LIQUIDS, vague
from benchleaf.checks.walk import every_step
from benchleaf.dryrun.screws import bears
from benchleaf.findings import Level
from benchleaf.library.names import BUILT_IN
from benchleaf.model.action import Heat, Screw, Solvent, Wait
from benchleaf.physics.types import OutOfRange
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.text.given import Given
    from benchleaf.checks.text.vague import Vague
    from benchleaf.checks.walk import Spot
    from benchleaf.model.knowledge import KnowledgeBase

# Which fields say what a vague word leaves open.
_ROLES = {"time": {"for", "takes"}, "temperature": {"at", "reaches"}, "times": {"whole"}}
_TIMES = re.compile(r"\b(?:once|twice|thrice|(?:[0-9]+|two|three|four|five|six|seven|eight|nine|ten) times)\b")
_COST = {
    "time": "one hand stops too soon, the next too late",
    "temperature": "one hand damages it, the next one does nothing to it",
    "torque": "one hand leaves the screw loose, the next one breaks it",
    "times": "nobody knows when it is enough",
    "amount": "nobody knows how much vapour or residue that is",
}


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each vague word in a step that heats, wets, puts on, waits or screws and does not say how much."""
    words = _material_words(base)
    for spot in every_step(base):
        step = spot.step
        if not step.apply and not isinstance(step.action, Heat | Solvent | Wait | Screw):
            continue
        numbers: tuple[Given, ...] | None = None
        for word in vague(step.do.text, frozenset(words)):
            numbers = given(spot) if numbers is None else numbers
            if not _is_meant(spot, word) or _is_said(spot, word, numbers, words):
                continue
            yield Hit(
                step.do.place,
                f"`{word.words}` is as much as each hand thinks: {_COST[word.needs]}",
                _advice(base, spot, word),
                step=step,
                about=word.needs,
            )


def _material_words(base: KnowledgeBase) -> dict[str, frozenset[str]]:
    """Return, by each word that may call a material, the ids of those that it calls."""
    calls: dict[str, set[str]] = {}
    known = [(name, f"{m.kind} {m.title}") for name, m in base.materials.items()]
    known += [(name, entry.title) for name, entry in BUILT_IN.items() if entry.kind == "solvent"]
    for name, title in known:
        for word in re.findall(r"[^\W\d_]{3,}", f"{name} {title}".lower()):
            calls.setdefault(word, set()).add(name)
    return {word: frozenset(names) for word, names in calls.items()}


def _is_meant(spot: Spot, word: Vague) -> bool:
    """Whether a step of this kind has a number that the word could stand for."""
    action = spot.step.action
    if word.needs == "torque":
        return isinstance(action, Screw)
    return word.needs != "times" or isinstance(action, Heat)


def _is_said(spot: Spot, word: Vague, numbers: tuple[Given, ...], words: dict[str, frozenset[str]]) -> bool:
    """Whether a field, or a number in the text itself, says what the word leaves open."""
    text = spot.step.do.text
    dimensions = {one.quantity.dimension for one in found(text)}
    match word.needs:
        case "torque":
            return "torque" in dimensions or all(_is_set(spot, name) for name in _screws(spot))
        case "amount":
            own = {number.material for number in numbers if number.role == "amount"}
            return not dimensions.isdisjoint({"volume", "mass"}) or _is_of(word.of, own, words)
        case needs:
            roles = {number.role for number in numbers if needs != "temperature" or number.quantity.dimension == needs}
            counted = needs == "times" and _TIMES.search(text) is not None
            return needs in dimensions or counted or not roles.isdisjoint(_ROLES[needs])


def _is_of(noun: str, own: set[str], words: dict[str, frozenset[str]]) -> bool:
    """Whether an amount is given of what *noun* calls; of anything, where it is a word for whatever is put on."""
    return bool(own) if not noun or noun in LIQUIDS else not own.isdisjoint(words.get(noun, ()))


def _screws(spot: Spot) -> list[str]:
    return [screws.fastener.text for screws in spot.step.action.screws] if isinstance(spot.step.action, Screw) else []


def _is_set(spot: Spot, name: str) -> bool:
    """Whether the torque of the screws *name* is given, or they are set by hand for a reason; not, where unknown."""
    known = spot.device.fasteners.get(name) if spot.device else None
    here = any(screws.torque for screws in getattr(spot.step.action, "screws", ()) if screws.fastener.text == name)
    by_hand = known is not None and known.torque_by_hand and bool((known.because or "").strip())
    return here or known is None or known.torque is not None or by_hand


def _advice(base: KnowledgeBase, spot: Spot, word: Vague) -> str:
    match word.needs:
        case "time":
            return "Write how long in `takes`, as in `takes: 30–60 s`, or as a `wait` in a step of its own."
        case "temperature" if isinstance(spot.step.action, Wait):
            return "Write the temperature beside the time: `wait: {for: 2 h, at: 40 °C}`."
        case "temperature":
            return "Write the temperature in the text (`at 40 °C`), or heat it in a step of its own."
        case "times":
            return "Write `times: 3` with the right number, and the `pause` between them."
        case "torque":
            return _torque(spot)
        case _:
            name = next((id_ for id_ in base.materials if word.of and word.of in id_), word.of or "isopropanol")
            return f"Write how much in `apply`, as in `apply: {{{name}: 0.1 mL}}`."


def _torque(spot: Spot) -> str:
    """Return what to write for the first screw that has no torque, with what it bears where that is known."""
    name = next(name for name in _screws(spot) if not _is_set(spot, name))
    screw = spot.device.fasteners[name] if spot.device else None
    try:
        most = bears(screw) if screw else None
    except OutOfRange:
        most = None
    number = f"{digits(most.recommended * 100, 2, math.floor)} cN·m" if most else "7 cN·m"
    doubt = " at most; it is an estimate on the safe side" if most else " with the right number"
    return f"Write the torque of `{name}` on the device: `torque: {number}`{doubt}."


RULE = Rule("vague-amount", Level.WARNING, check)
