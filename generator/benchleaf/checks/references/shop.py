"""Names that the whole shop shares: tools, materials, symptoms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean
from benchleaf.checks.rule import Hit
from benchleaf.library.names import APPLIED, BUILT_IN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.words import Said

_USES = {
    "put on": (APPLIED, True, "something that things are made of, and nobody can put it on"),
    "made of": (frozenset(name for name, known in BUILT_IN.items() if known.kind == "solid"), True,
                "no solid, and nothing can be made of it"),
    "alloy": (frozenset(name for name, known in BUILT_IN.items() if known.kind == "alloy"), False,
              "no solder alloy, and nobody knows where it melts"),
}  # fmt: skip
"""For what a material is named: the built-in ones that fit, whether the shop's own fit, and why others do not."""


def tool(base: KnowledgeBase, name: Said) -> Iterator[Hit]:
    """Yield what is wrong with *name* as that of a tool."""
    if name.text not in base.tools and not base.is_broken("tools", "", "tools"):
        yield Hit(
            name.place,
            f"There is no tool `{name}`: nobody at the bench would know what to take in hand",
            did_you_mean(name.text, base.tools, f"give `{name}` an entry in tools.yml."),
        )


def material(base: KnowledgeBase, name: Said, use: str) -> Iterator[Hit]:
    """Yield what is wrong with *name* as that of a material; *use* is put on, made of or alloy."""
    fitting, own, why = _USES[use]
    if name.text in fitting or (own and (name.text in base.materials or base.is_broken("materials", "", "materials"))):
        return
    known = [*(base.materials if own else ()), *sorted(fitting)]
    entry = f"give `{name}` an entry in materials.yml." if own else ""
    if name.text in BUILT_IN or name.text in base.materials:
        message = f"`{name}` is {why}"
        entry = "" if name.text in BUILT_IN else entry
    else:
        message = f"There is no material `{name}`: nobody could fetch it, or know what it does"
    yield Hit(name.place, message, did_you_mean(name.text, known, entry) or f"Write one of these: {', '.join(known)}.")


def symptom(base: KnowledgeBase, name: Said) -> Iterator[Hit]:
    """Yield what is wrong with *name* as that of a symptom."""
    if name.text not in base.symptoms and not base.is_broken("symptoms", "", "symptoms"):
        yield Hit(
            name.place,
            f"There is no symptom `{name}`: no complaint would ever lead here",
            did_you_mean(name.text, base.symptoms, f"give `{name}` an entry in symptoms.yml."),
        )
