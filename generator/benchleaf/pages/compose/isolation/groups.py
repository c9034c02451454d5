"""A diagnosis answered for each variant; variants on which everything costs alike are one group."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ARRIVED, diagnose
from benchleaf.decisions.pose import Posed, pose
from benchleaf.pages.compose.site import only_named, variant_titles

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.decisions.diagnose import Answer
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.pages.compose.site import Site
    from benchleaf.pages.parts import Only


@dataclass(frozen=True, slots=True)
class Group:
    """
    Variants that cost alike, and the answer for them before any test.

    `posed` has all tests, those too that are barred by how a device arrives; None where nothing can be reckoned.
    """

    variants: tuple[str, ...]
    title: str
    only: Only | None
    answer: Answer
    posed: Posed | None

    @property
    def cures(self) -> Mapping[str, int]:
        """The cures by name, each with its number."""
        return {cure.id: number for number, cure in enumerate(self.posed.problem.cures)} if self.posed else {}


def groups(site: Site, diagnosis: Diagnosis) -> tuple[Group, ...]:
    """Return the groups of variants of *diagnosis*; made once, for the symptom's page, the sheet and the lists."""
    key = (diagnosis.device, diagnosis.symptom)
    if key not in site.isolated:
        site.isolated[key] = _groups(site, diagnosis)
    return site.isolated[key]


def _groups(site: Site, diagnosis: Diagnosis) -> tuple[Group, ...]:
    device = site.base.devices.get(diagnosis.device)
    if device is None:
        return ()
    alike: dict[object, list[str]] = {}
    found = {}
    for variant in device.variant_ids:
        posed = pose(site.base, diagnosis, variant, {})
        # Titles are the same wherever the numbers are.
        key = (posed.problem, posed.clock, posed.levels) if isinstance(posed, Posed) else posed
        alike.setdefault(key, []).append(variant)
        found[variant] = posed
    made = []
    for variants in alike.values():
        first, own = found[variants[0]], len(alike) > 1
        made.append(Group(
            tuple(variants), variant_titles(device, variants) if own else "",
            only_named(device, variants) if own else None,
            diagnose(site.base, diagnosis, variants[0], {}, ARRIVED), first if isinstance(first, Posed) else None,
        ))  # fmt: skip
    return tuple(made)
