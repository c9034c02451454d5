"""The demonstration, each file written anew by us, and what is known of it once and for all mutants."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from benchleaf import build
from benchleaf.checks import engine
from benchleaf.checks.rules import RULES
from benchleaf.dryrun.performed import nature
from benchleaf.dryrun.walk import walk
from benchleaf.dryrun.world import World, world
from benchleaf.model import build as model
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.source.folder import scan
from tests.conftest import ROOT
from tests.mutants.hazards import Hazard, hazards
from tests.mutants.limits import passed
from tests.mutants.tree import Pointer, Tree, parsed, places, written

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Fault
    from benchleaf.model.build import Document
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.source.folder import File, Folder

DOCS = "procedures"


class Book:
    """
    The files of a knowledge base, with one of them changed or none.

    What every change has in common is done once: the other files are read, and a base of each device alone is made.
    """

    def __init__(self) -> None:
        """Read the demonstration and write each of its files anew."""
        folder = scan(ROOT, DOCS)
        self.trees: dict[str, Tree] = {file.path: parsed(file.data, file.path) for file in folder.files}
        self.files: dict[str, File] = {
            file.path: replace(file, data=written(self.trees[file.path])) for file in folder.files
        }
        self.folder: Folder = replace(folder, files=tuple(self.files.values()))
        self.read: dict[str, tuple[Document, tuple[Fault, ...]]] = {
            path: build._document(file) for path, file in self.files.items()
        }
        self.pointers: dict[str, Mapping[tuple[int, int], Pointer]] = {
            path: places(document.root) if document.root else {} for path, (document, _) in self.read.items()
        }
        self.base = self._base([document for document, _ in self.read.values()])
        self._alone: dict[str, KnowledgeBase] = {}
        self._worlds: dict[tuple[str, str], World] = {}
        self._hazards: dict[tuple[str, str, str], frozenset[Hazard]] = {}
        self._passed: dict[tuple[str, str, str], frozenset[str]] = {}
        self._traces: dict[tuple[str, str, str], Trace | None] = {}

    def _base(self, documents: list[Document]) -> KnowledgeBase:
        return model.build(documents, (), self.folder.others)

    def alone(self, device: str) -> KnowledgeBase:
        """Return the base with *device* alone: its procedures, those of any device, its diagnoses."""
        if device not in self._alone:
            whole, own = self.base, {device, ANY_DEVICE}
            self._alone[device] = replace(
                whole,
                devices={name: each for name, each in whole.devices.items() if name in own},
                procedures={key: each for key, each in whole.procedures.items() if key[0] in own},
                diagnoses={key: each for key, each in whole.diagnoses.items() if key[0] in own},
            )
        return self._alone[device]

    def world(self, device: Device | None, variant: str) -> World:
        """Return the simulated device; that of an unchanged device is made once."""
        if device is None or self.base.devices.get(device.id) is not device:
            return world(device, variant)
        key = (device.id, variant)
        if key not in self._worlds:
            self._worlds[key] = world(device, variant)
        return self._worlds[key]

    def trace(self, device: str, procedure: str, variant: str) -> Trace | None:
        """Return an unchanged procedure as it is performed on *variant*."""
        key = (device, procedure, variant)
        if key not in self._traces:
            known = self.base.procedures.get((device, procedure))
            own = self.base.devices.get(device)
            here = nature(self.base)
            self._traces[key] = walk(self.base, known, self.world(own, variant), here) if known else None
        return self._traces[key]

    def hazards(self, device: str, procedure: str, variant: str) -> frozenset[Hazard]:
        """Return what can hurt in an unchanged procedure as it is: it is careful, and hardly anything can."""
        key = (device, procedure, variant)
        if key not in self._hazards:
            trace = self.trace(*key)
            self._hazards[key] = hazards(trace) if trace else frozenset()
        return self._hazards[key]

    def passed(self, device: str, procedure: str, variant: str) -> frozenset[str]:
        """Return the limits that an unchanged procedure passes as it is."""
        key = (device, procedure, variant)
        if key not in self._passed:
            trace = self.trace(*key)
            self._passed[key] = passed(trace) if trace else frozenset()
        return self._passed[key]

    @cached_property
    def usual(self) -> frozenset[tuple[str, str, str]]:
        """What is found when nothing is changed, in the base of each device alone, as rule, path and message."""
        return frozenset(
            (finding.rule, finding.place.path, finding.message)
            for device in self.base.devices
            for finding in engine.run(self.alone(device), RULES)
        )
