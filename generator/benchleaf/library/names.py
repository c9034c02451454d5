"""
The built-in library, as names and titles.

What each is worth (vapour pressure, limits, melting range ...) is cited data and stands beside its source in the
rooms that compute with it.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BuiltIn:
    """A substance, alloy or solid that every shop knows."""

    id: str
    title: str
    kind: str


_SOLVENTS = {
    "isopropanol": "Isopropanol", "ethanol": "Ethanol", "acetone": "Acetone", "n-heptane": "n-Heptane",
    "ethyl-acetate": "Ethyl acetate", "d-limonene": "d-Limonene", "deionised-water": "Deionised water",
}  # fmt: skip
_ALLOYS = {
    "sac305": "SAC305, tin 96.5 silver 3 copper 0.5", "sn63pb37": "Sn63Pb37, tin 63 lead 37",
    "sn42bi58": "Sn42Bi58, tin 42 bismuth 58", "sn96ag4": "Sn96Ag4, tin 96 silver 4",
    "sn99cu1": "Sn99Cu1, tin 99.3 copper 0.7",
}  # fmt: skip
_SOLIDS = {
    "polycarbonate": "Polycarbonate", "abs": "ABS", "pmma": "Acrylic (PMMA)", "pet": "PET", "nylon": "Nylon (PA)",
    "silicone": "Silicone rubber", "glass": "Glass", "ceramic": "Ceramic", "aluminium": "Aluminium", "brass": "Brass",
    "steel": "Steel", "stainless-steel": "Stainless steel", "copper": "Copper", "fr4": "Board laminate (FR-4)",
    "wood": "Wood", "plastic": "Plastic, not named",
}  # fmt: skip

BUILT_IN: dict[str, BuiltIn] = {
    name: BuiltIn(name, title, kind)
    for kind, names in (("solvent", _SOLVENTS), ("alloy", _ALLOYS), ("solid", _SOLIDS))
    for name, title in names.items()
}

APPLIED = frozenset(name for name, entry in BUILT_IN.items() if entry.kind == "solvent")
"""Built-in substances that a step may put on; alloys and solids are what things are made of."""
