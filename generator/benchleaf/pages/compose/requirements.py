"""The preliminary requirements: what must hold and what must be at hand before the first step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive import needs
from benchleaf.derive.supplies import made_anew, supplies
from benchleaf.pages.compose.rows import runs
from benchleaf.pages.compose.site import only_for, variant_titles
from benchleaf.pages.compose.wording import capital, held
from benchleaf.pages.parts import Only
from benchleaf.pages.sheet import Need, Needs
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchleaf.derive.numbering import Numbered
    from benchleaf.derive.supplies import Supply
    from benchleaf.model.device import Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.compose.limits import Limits
    from benchleaf.pages.compose.site import Site


class Requirements:
    """Words what one procedure needs."""

    def __init__(self, site: Site, procedure: Procedure, rows: Sequence[Numbered], limits: Limits, root: str) -> None:
        """Hold what the columns share."""
        self._site, self._procedure, self._rows, self._limits, self._root = site, procedure, rows, limits, root
        self._device: Device | None = site.base.devices.get(procedure.device)
        self._variants = site.base.variants_of(procedure)

    def view(self, safety: Iterable[Need]) -> Needs:
        """Return the columns, with the lines of *safety* before the rules of the house."""
        return Needs(
            conditions=tuple(self._conditions()),
            equipment=tuple(self._equipment()),
            supplies=tuple(self._supply(one) for one in supplies(self._procedure, self._rows, self._variants)),
            spares=(*self._spares(), *self._bonds()),
            safety=(*safety, Need("Local rules and the rules of the house", "always")),
            work=tuple(self._work()),
        )

    def _work(self) -> Iterator[Need]:
        numbers = [row.number for row in self._rows]
        for one in self._site.outcome(self._procedure).work:
            wanted = set(one.steps)
            note = runs(numbers, [row.step.id in wanted for row in self._rows])
            titles = variant_titles(self._device, one.variants)
            yield Need(one.kind, note, only=Only(" ".join(one.variants), f"{titles} only") if titles else None)

    def _conditions(self) -> Iterator[Need]:
        shop = self._site.base.shop
        if shop and shop.bench.wrist_strap:
            yield Need("Wrist strap on")
        if shop and shop.bench.mat:
            yield Need("Mat earthed")
        for text in dict.fromkeys(
            f"{capital(name)} {show.tidy(value)}"
            for row in self._rows if row.step.check for name, value in row.step.check.when.items()
        ):  # fmt: skip
            yield Need(text)

    def _equipment(self) -> Iterator[Need]:
        settings = needs.settings(self._device, self._rows)
        for tool in needs.equipment(self._site.base, self._procedure):
            known = self._site.base.tools.get(tool)
            drives = [drive for drive in (known.drives if known else ()) if drive in settings.torques]
            torques = [self._limits.turned(torque) for drive in drives for torque in settings.torques[drive]]
            heats = [self._limits.degrees(quantity) for quantity in settings.temperatures.get(tool, ())]
            note = ", ".join(held(part) for part in dict.fromkeys([*drives, *torques, *heats]))
            yield Need(self._site.tool(tool), note, f"{self._root}tools.html#tool-{tool}")

    def _supply(self, one: Supply) -> Need:
        listed = show.tidy(one.listed.text) if one.listed else ""
        most = show.amount(one.most, one.dimension) if one.most is not None else ""
        note = f"{listed} at hand, {most} used" if one.is_less else listed or most or "as the step says"
        return Need(self._site.material(one.material), note, f"{self._root}materials/{one.material}.html")

    def _spares(self) -> Iterator[Need]:
        for name, count in needs.spares(self._rows, self._variants).items():
            part = self._device.parts.get(name) if self._device else None
            facts = [str(count)]
            if part and part.single_use:
                facts.append("always renewed")
            if part and part.price:
                facts.append(held(show.tidy(part.price.text)))
            if part and part.lead_time:
                facts.append(f"lead time {held(show.tidy(part.lead_time.text))}")
            only = only_for(self._device, part.only) if part else None
            yield Need(part.title.text if part else name, ", ".join(facts), only=only)

    def _bonds(self) -> Iterator[Need]:
        for name, material in made_anew(self._rows).items():
            bond = self._device.bonds.get(name) if self._device else None
            facts = ["always renewed"] if bond and bond.single_use else ["renewed"]
            facts += [f"with {self._site.material(material)}"] if material else []
            only = only_for(self._device, bond.only) if bond else None
            yield Need(bond.title.text if bond else name, ", ".join(facts), only=only)
