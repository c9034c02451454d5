"""One state of a knowledge base, and what was worked out of it: who touches what, what is told."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from benchleaf.derive.compare.bearing import touched
from benchleaf.derive.compare.told import Told, told
from benchleaf.dryrun.performed import Bench
from benchleaf.model.device import CLOSED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure

_SHARED = ("shop", "tools", "materials")


class State:
    """A knowledge base at one time. Its safety messages are told in the units of the later one."""

    def __init__(self, base: KnowledgeBase, units: Mapping[str, str]) -> None:
        """Work out nothing yet."""
        self.base = base
        self._units = units
        self._told: dict[tuple[str, str], Told | None] = {}

    @cached_property
    def _bench(self) -> Bench:
        return Bench(self.base)

    def paths_of(self, procedure: Procedure, docs: str) -> frozenset[str]:
        """Return the paths of the files that *procedure* depends on, but its own."""
        device = self.base.devices.get(procedure.device)
        own = {device.path} if device else {f"{docs}/devices/{procedure.device}.yml"}
        return frozenset(own | {f"{docs}/{name}.yml" for name in _SHARED})

    def touched(self, procedure: Procedure) -> frozenset[str]:
        """Return the names of all that *procedure* touches, warms or uses."""
        return touched(self.base.devices.get(procedure.device), procedure, self.base.tools)

    def told(self, procedure: Procedure) -> Told | None:
        """Return what is told of *procedure* when it is performed; None where it cannot be, or nobody works by it."""
        key = (procedure.device, procedure.id)
        if key not in self._told:
            self._told[key] = told(self._bench, procedure, self._units) if self._can(procedure) else None
        return self._told[key]

    def _can(self, procedure: Procedure) -> bool:
        """Whether the way in exists that *procedure* needs; without it the case is closed."""
        device, level = self.base.devices.get(procedure.device), procedure.access.text
        return procedure.status != "withdrawn" and (device is None or level == CLOSED or level in device.access)
