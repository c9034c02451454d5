"""
What each built-in liquid does to each built-in solid at the temperature of the room, as sources give it.

Tables of chemical resistance are about days of contact; a wipe is minutes. A crazed window or a softened shell needs
no longer, so what a table calls more than a slight effect counts. Where sources differ all are kept, and the worst of
them stands. Each source is seen unless the status word beside it says other.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from benchleaf.library.value import Status


class Harm(IntEnum):
    """What is left of a solid that a liquid came to, from nothing to the worst."""

    NONE = 0
    SLIGHT = 1
    SWELLS = 2
    CRAZES = 3
    DESTROYS = 4


@dataclass(frozen=True, slots=True)
class Seen:
    """What one source says."""

    harm: Harm
    source: str
    status: Status


# Letters at 25 °C, by kinds of solvent: A no effect, B slight, C mild, D softening or swelling, E severe deterioration.
_TABLE = (
    "effects of corrosive environments on plastics, Characteristics of Polymers, Table 1.12 (Taylor & Francis 2006)"
)
_SHEET = "a polycarbonate sheet maker's technical note"
_STRAINED = (
    "Journal of Applied Polymer Science 1979, doi 10.1002/app.1979.070230419 (abstract): alkanes on strained bars"
)
_ARGONNE = "Argonne National Laboratory, Ask a Scientist: plexiglass and alcohol"
_ACRYLIC = "an acrylic sheet maker's note on cracks"
_POLYESTER = "a maker's tables of the chemical resistance of polyamide and polyester"
_SWELLING = "Sandia, equilibrium swelling of elastomeric materials (abstract)"
_ELASTOMERS = "an elastomer maker's lexicon"
_STYRENE = "solubility of polystyrene in essential oils (abstract); ABS is a styrene plastic as well"
_REMEMBERED = "makers' tables of chemical resistance"
_PDMS = "Lee, Park and Whitesides 2003, swelling of silicone in solvents"


def _seen(harm: Harm, source: str) -> Seen:
    return Seen(harm, source, Status.SEEN)


def _memory(harm: Harm, source: str = _REMEMBERED) -> Seen:
    return Seen(harm, source, Status.MEMORY)


_NONE, _SLIGHT, _SWELLS, _CRAZES, _DESTROYS = Harm
_UNNAMED = Seen(_DESTROYS, "as ABS: a plastic that nobody named is taken for it", Status.PRACTICE)
_SPARED = Seen(_SLIGHT, "as ABS: a plastic that nobody named is taken for it", Status.PRACTICE)

_CONTACTS: dict[str, dict[str, tuple[Seen, ...]]] = {
    "polycarbonate": {
        "isopropanol": (_seen(_NONE, _SHEET),),
        "ethanol": (_seen(_NONE, _SHEET),),
        "acetone": (_seen(_DESTROYS, _TABLE), _seen(_SWELLS, _SHEET)),
        "n-heptane": (_seen(_NONE, _TABLE), _seen(_NONE, _SHEET), _seen(_CRAZES, _STRAINED)),
        "ethyl-acetate": (_seen(_DESTROYS, _TABLE), _seen(_SWELLS, _SHEET)),
        "d-limonene": (_memory(_CRAZES),),
        "deionised-water": (_seen(_NONE, _SHEET),),
    },
    "abs": {
        "isopropanol": (_memory(_SLIGHT),),
        "ethanol": (_memory(_SLIGHT),),
        "acetone": (_seen(_DESTROYS, _TABLE),),
        "n-heptane": (_seen(_NONE, _TABLE),),
        "ethyl-acetate": (_seen(_DESTROYS, _TABLE),),
        "d-limonene": (_memory(_DESTROYS, _STYRENE),),
        "deionised-water": (_memory(_NONE),),
    },
    "pmma": {
        "isopropanol": (_seen(_CRAZES, _ARGONNE),),
        "ethanol": (_seen(_CRAZES, _ACRYLIC),),
        "acetone": (_seen(_DESTROYS, _TABLE), _seen(_DESTROYS, _ACRYLIC)),
        "n-heptane": (_seen(_SLIGHT, _TABLE),),
        "ethyl-acetate": (_seen(_DESTROYS, _TABLE),),
        "d-limonene": (_memory(_CRAZES),),
        "deionised-water": (_memory(_NONE),),
    },
    "pet": {
        "isopropanol": (_seen(_NONE, _POLYESTER),),
        "ethanol": (_seen(_NONE, _POLYESTER),),
        "acetone": (_seen(_NONE, _POLYESTER), _memory(_CRAZES, "clear, unstretched sheet turns white")),
        "n-heptane": (_seen(_NONE, _POLYESTER),),
        "ethyl-acetate": (_seen(_NONE, _POLYESTER), _memory(_CRAZES, "clear, unstretched sheet turns white")),
        "d-limonene": (_memory(_SLIGHT),),
        "deionised-water": (_memory(_NONE),),
    },
    "nylon": {
        "isopropanol": (_seen(_SLIGHT, _POLYESTER),),
        "ethanol": (_seen(_SLIGHT, _POLYESTER),),
        "acetone": (_seen(_NONE, _TABLE), _seen(_SLIGHT, _POLYESTER)),
        "n-heptane": (_seen(_NONE, _TABLE),),
        "ethyl-acetate": (_seen(_NONE, _TABLE),),
        "d-limonene": (_memory(_NONE),),
        "deionised-water": (_seen(_SLIGHT, _POLYESTER),),
    },
    "silicone": {
        "isopropanol": (_seen(_NONE, _ELASTOMERS), _memory(_SLIGHT, _PDMS)),
        "ethanol": (_seen(_NONE, _ELASTOMERS), _memory(_SLIGHT, _PDMS)),
        "acetone": (_seen(_SLIGHT, _TABLE), _seen(_SLIGHT, _SWELLING)),
        "n-heptane": (_seen(_SLIGHT, _TABLE), _seen(_SWELLS, f"{_SWELLING}: jet fuel, which is alkanes for the most"),
                      _memory(_SWELLS, _PDMS)),
        "ethyl-acetate": (_seen(_SLIGHT, _TABLE), _memory(_SWELLS, _PDMS)),
        "d-limonene": (_seen(_SWELLS, f"{_ELASTOMERS}: hydrocarbons"),),
        "deionised-water": (_seen(_NONE, _ELASTOMERS),),
    },
    "fr4": {
        "isopropanol": (_memory(_NONE),),
        "ethanol": (_memory(_NONE),),
        "acetone": (_memory(_SLIGHT),),
        "n-heptane": (_memory(_NONE),),
        "ethyl-acetate": (_memory(_SLIGHT),),
        "d-limonene": (_memory(_NONE),),
        "deionised-water": (_memory(_NONE),),
    },
    "plastic": {
        "isopropanol": (_SPARED,),
        "ethanol": (_SPARED,),
        "acetone": (_UNNAMED,),
        "n-heptane": (_SPARED,),
        "ethyl-acetate": (_UNNAMED,),
        "d-limonene": (_UNNAMED,),
        "deionised-water": (_SPARED,),
    },
    "wood": {
        "isopropanol": (_memory(_SLIGHT, "handbooks"),),
        "ethanol": (_memory(_SLIGHT, "handbooks"),),
        "acetone": (_memory(_SLIGHT, "handbooks"),),
        "n-heptane": (_memory(_NONE, "handbooks"),),
        "ethyl-acetate": (_memory(_SLIGHT, "handbooks"),),
        "d-limonene": (_memory(_SLIGHT, "handbooks"),),
        "deionised-water": (_memory(_SWELLS, "handbooks"),),
    },
}  # fmt: skip

UNHARMED = frozenset({"glass", "ceramic", "aluminium", "brass", "steel", "stainless-steel", "copper"})
"""Solids to which none of the built-in liquids does anything in the minutes of a wash (from memory)."""


def sources(liquid: str, solid: str) -> tuple[Seen, ...]:
    """Return what each source says of *liquid* on *solid*; nothing where none is known, or the solid is unharmed."""
    return _CONTACTS.get(solid, {}).get(liquid, ())


def harm(liquid: str, solid: str) -> Seen | None:
    """Return the worst that a source says of *liquid* on *solid*, or None where it is a slight effect at most."""
    worst = max(sources(liquid, solid), key=lambda seen: seen.harm, default=None)
    return worst if worst is not None and worst.harm > Harm.SLIGHT else None
