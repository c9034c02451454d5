"""The page of methods: every computation that a safety message, a limit or a finding goes by."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.pages.compose.methods import decisions, heat, liquids, parts
from benchleaf.pages.compose.wording import capital
from benchleaf.pages.lists import Fact, Method, MethodsView
from benchleaf.pages.parts import Cell, Link, TitleBlock, words
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.pages.compose.site import Site

PATH = "methods.html"
_FOOT = words(
    "What is computed is an estimate and says so. A verdict goes by the end that is worse for a person or a device; a "
    "measurement beats it. Local rules and the practice of licensed people come first."
)


@cache
def methods() -> tuple[Method, ...]:
    """Return every method, numbered, its example worked out by the functions that the dry run and the plans ask."""
    found = chain(heat.methods(), liquids.methods(), parts.methods(), decisions.methods())
    return tuple(replace(method, number=str(number)) for number, method in enumerate(found, start=1))


@cache
def method_link(anchor: str, root: str) -> Link:
    """Return the link to a method by its number, which leads there from paper too."""
    number = next((n for n, method in enumerate(methods(), start=1) if method.anchor == anchor), 0)
    return Link(f"Method {number}", f"{root}{PATH}#{anchor}")


def methods_view(site: Site) -> MethodsView:
    """Return the page of methods, with the shop's own constants at its head."""
    title = TitleBlock("Reference", "Methods", (Cell("Computations", str(len(methods()))),))
    return MethodsView(site.shell(PATH, "Methods"), title, methods(), tuple(_own(site)), (_FOOT,))


def _own(site: Site) -> Iterator[Fact]:
    for constant in site.base.shop.constants if site.base.shop else ():
        low, central, high = (show.tidy(text) for text in constant.written)
        yield Fact(capital(constant.name.replace("-", " ")), f"{central} ({low} to {high})", constant.because)
