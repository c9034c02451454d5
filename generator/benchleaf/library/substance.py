"""What the library says of one liquid: each field a cited value, None where there is nothing to say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.library.value import Cited, Status

FLAMMABLE_BELOW = 60.0
"""°C: the flash point up to which GHS calls a liquid flammable (category 3 and stronger; from memory)."""

PICTOGRAMS = {
    "GHS01": "exploding bomb",
    "GHS02": "flame",
    "GHS03": "flame over circle",
    "GHS04": "gas cylinder",
    "GHS05": "corrosion",
    "GHS06": "skull and crossbones",
    "GHS07": "exclamation mark",
    "GHS08": "health hazard",
    "GHS09": "environment",
}
"""The GHS codes of the pictograms and what they show (UN GHS; from memory)."""

STATEMENTS = {
    "H225": "Highly flammable liquid and vapour",
    "H226": "Flammable liquid and vapour",
    "H304": "May be fatal if swallowed and enters airways",
    "H315": "Causes skin irritation",
    "H317": "May cause an allergic skin reaction",
    "H319": "Causes serious eye irritation",
    "H336": "May cause drowsiness or dizziness",
    "H400": "Very toxic to aquatic life",
    "H410": "Very toxic to aquatic life with long lasting effects",
    "H412": "Harmful to aquatic life with long lasting effects",
}
"""The GHS hazard statements of the library's liquids (UN GHS; from memory)."""


@dataclass(frozen=True, slots=True)
class Ghs:
    """How a liquid is labelled: codes of pictograms, the signal word, codes of hazard statements."""

    pictograms: tuple[str, ...]
    signal: str
    statements: tuple[str, ...]
    source: str
    status: Status

    @property
    def words(self) -> tuple[str, ...]:
        """The hazard statements in words."""
        return tuple(STATEMENTS[code] for code in self.statements)


@dataclass(frozen=True, slots=True)
class Exposure:
    """Limits of what a person may breathe, ppm; `short_term` is a 15-minute or ceiling limit."""

    osha_pel: Cited | None
    niosh_rel: Cited | None
    short_term: Cited | None
    idlh: Cited | None


@dataclass(frozen=True, slots=True)
class Substance:
    """
    A liquid of the built-in library.

    `diffusion` is that of its vapour in air; `lel` and `uel` are shares of the volume of air, in percent.
    """

    id: str
    cas: str
    molar_mass: Cited
    density: Cited
    vapour_pressure_20: Cited
    vapour_pressure_25: Cited
    latent_heat: Cited
    diffusion: Cited
    boiling_point: Cited
    flash_point: Cited | None
    autoignition: Cited | None
    lel: Cited | None
    uel: Cited | None
    exposure: Exposure
    ghs: Ghs | None
    water_miscible: bool

    @property
    def flammable(self) -> bool:
        """Whether its cautious flash point makes it a flammable liquid."""
        return self.flash_point is not None and self.flash_point.cautious.value <= FLAMMABLE_BELOW

    @property
    def is_water(self) -> bool:
        """Whether the air of the room already holds its vapour, so that humidity slows its drying."""
        return self.cas == "7732-18-5"
