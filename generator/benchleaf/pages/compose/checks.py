"""Checks and their ways on, as the second column shows them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model.step import GoTo, Repeat, Stop
from benchleaf.pages.compose.site import page_of
from benchleaf.pages.parts import Link, Words, words
from benchleaf.pages.sheet import Check
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Check as Asked
    from benchleaf.model.step import Way
    from benchleaf.pages.compose.site import Site

_SOUND = {"shape": "flat, no swelling", "charge": "read its charge", "temperature": "read its temperature"}


def check(site: Site, procedure: Procedure, numbers: Mapping[str, str], asked: Asked, root: str) -> Check:
    """Return *asked* as the page of *procedure* shows it; *numbers* gives the number of each step by its id."""
    notes = []
    expected = asked.expect if isinstance(asked.expect, str) else asked.expect.text if asked.expect else ""
    expected = show.tidy(expected)
    match asked.kind:
        case "look":
            strong = asked.what.text
        case "gone":
            symptom = site.base.symptoms.get(asked.what.text)
            link = Link(symptom.title.text if symptom else asked.what.text, f"{root}symptoms/{asked.what.text}.html")
            strong = "The complaint is gone"
            notes.append(words(link))
        case "battery":
            strong = expected or _SOUND.get(asked.what.text, asked.what.text)
            notes.append(words(f"battery {asked.what}"))
        case "leak":
            strong = expected
            notes.append(words("leak"))
        case _:
            strong = expected or asked.what.text
            notes.append(words(asked.what.text))
    if asked.instrument:
        tool = asked.instrument.text
        notes.append(words(Link(site.tool(tool), f"{root}tools.html#tool-{tool}")))
    if asked.when:
        held = ", ".join(f"{name} {show.tidy(value)}" for name, value in asked.when.items())
        notes.append(words(f"means something only with {held}"))
    if asked.shows:
        notes.append(words(f"shows that it is {asked.shows}"))
    reading = asked.kind in {"measure", "leak"} or (asked.kind == "battery" and asked.what.text != "shape")
    return Check(asked.kind, strong, tuple(notes), _way_on(site, procedure, numbers, asked.if_not, root), reading)


def _way_on(site: Site, procedure: Procedure, numbers: Mapping[str, str], way: Way | None, root: str) -> Words:
    return () if way is None else words("If not: ", *_way(site, procedure, numbers, way, root))


def _way(site: Site, procedure: Procedure, numbers: Mapping[str, str], way: Way, root: str) -> list[str | Link]:
    match way:
        case Stop(text=text):
            return [f"stop. {text}"]
        case GoTo(procedure=name):
            target = site.base.target(procedure, name.text)
            return [Link(target.title.text, root + page_of(target)) if target else name.text]
        case Repeat(step=step, times=times, then=then):
            again = "" if times == 1 else f", {times} times at most"
            said: list[str | Link] = ["repeat from ", Link(numbers.get(step.text, step.text), f"#step-{step}"), again]
            said += [", then stop"] if then is None else [", then ", *_way(site, procedure, numbers, then, root)]
            return said
