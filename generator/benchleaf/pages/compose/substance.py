"""What the built-in library says of a liquid, an alloy: each value with its source, all of them where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.library import contacts
from benchleaf.library.alloys import ALLOYS
from benchleaf.library.names import BUILT_IN
from benchleaf.library.substance import PICTOGRAMS, STATEMENTS
from benchleaf.library.substances import SUBSTANCES
from benchleaf.library.value import Safe, Status
from benchleaf.pages.lists import Fact
from benchleaf.pages.parts import SafetyMessage, words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.library.substance import Substance
    from benchleaf.library.value import Cited, Value

_STATUS = {
    Status.TWO_METHODS: "computed in two ways", Status.SEEN: "seen", Status.LIBRARY: "computed",
    Status.CALCULATED: "arithmetic", Status.SECONDARY: "seen where another quotes it", Status.MEMORY: "from memory",
    Status.PRACTICE: "common practice, no source",
}  # fmt: skip
_SCALED = {"kg/mol": (1e3, "g/mol"), "Pa": (1e-3, "kPa"), "J/kg": (1e-3, "kJ/kg"), "m²/s": (1e6, "mm²/s")}


def facts(name: str) -> Iterator[Fact]:
    """Yield the properties of the built-in material *name*; none where the library says nothing."""
    if name in SUBSTANCES:
        yield from _liquid(SUBSTANCES[name])
    elif name in ALLOYS:
        alloy = ALLOYS[name]
        yield from _fact("Begins to melt", alloy.solidus)
        yield from _fact("Is liquid", alloy.liquidus)
        yield Fact("Lead", "none" if alloy.lead_free else "holds lead")


def messages(name: str) -> Iterator[SafetyMessage]:
    """Yield what the label of the built-in liquid *name* says, as codes and in words."""
    known = SUBSTANCES.get(name)
    if known is None or known.ghs is None:
        return
    signal = known.ghs.signal.lower()
    said = "; ".join(f"{STATEMENTS[code]} ({code})" for code in known.ghs.statements)
    yield SafetyMessage(
        "chemical", known.ghs.signal.upper(), "chemical", f"Its label, by the GHS: {said}.",
        signal if signal in {"danger", "warning"} else "",
    )  # fmt: skip


def _liquid(known: Substance) -> Iterator[Fact]:
    yield Fact("CAS number", known.cas)
    for label, cited in (
        ("Molar mass", known.molar_mass), ("Density", known.density),
        ("Vapour pressure at 20 °C", known.vapour_pressure_20), ("Vapour pressure at 25 °C", known.vapour_pressure_25),
        ("Latent heat", known.latent_heat), ("Diffusion in air", known.diffusion),
        ("Boiling point", known.boiling_point), ("Flash point", known.flash_point),
        ("Autoignition", known.autoignition),
        ("Lower explosive limit", known.lel), ("Upper explosive limit", known.uel),
        ("Limit over 8 hours, OSHA PEL", known.exposure.osha_pel),
        ("Limit over 8 hours, NIOSH REL", known.exposure.niosh_rel),
        ("Limit over 15 minutes", known.exposure.short_term),
        ("Dangerous to life", known.exposure.idlh),
    ):  # fmt: skip
        yield from _fact(label, cited)
    if known.ghs:
        drawn = ", ".join(f"{code} {PICTOGRAMS[code]}" for code in known.ghs.pictograms)
        yield Fact("GHS symbols", drawn or "none", source=words(_whence(known.ghs.source, known.ghs.status)))
    yield Fact("Takes up water", "yes" if known.water_miscible else "no")
    for solid, entry in BUILT_IN.items():
        worst = contacts.harm(known.id, solid) if entry.kind == "solid" else None
        if worst:
            yield Fact(f"On {entry.title}", worst.harm.name.lower(), source=words(_whence(worst.source, worst.status)))


def _whence(source: str, status: Status) -> str:
    return f"{source}, {_STATUS[status]}"


def _fact(label: str, cited: Cited | None) -> Iterator[Fact]:
    """Yield a line for each source; where they differ, the one that is gone by is marked."""
    if cited is None:
        return
    differ = len({value.value for value in cited.values}) > 1
    for value in cited.values:
        # A vapour pressure is a line through two temperatures: both its ends come from the source that has both.
        first = label.startswith("Vapour pressure")
        used = differ and value == (cited.first if first else cited.cautious)
        side = "the first" if first else "the lower" if cited.safe is Safe.LOWER else "the higher"
        note = f"sources differ: this one, {side}, is gone by" if used else ""
        yield Fact(label, _shown(value), note, words(_whence(value.source, value.status)))


def _shown(value: Value) -> str:
    factor, unit = _SCALED.get(value.unit, (1.0, value.unit))
    return f"{value.value * factor:.4g} {unit}"
