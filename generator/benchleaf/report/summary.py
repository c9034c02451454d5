"""What was checked and what came of it, in numbers and in one sentence."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Finding, Level


@dataclass(frozen=True, slots=True)
class Explained:
    """A rule as a report shows it: its usual weight, and its page as Markdown."""

    level: Level
    markdown: str


@dataclass(frozen=True, slots=True)
class Report:
    """
    The findings to show, and how much was looked at.

    `strict` makes warnings stop too; a note never stops. `show_allowed` lists what authors have allowed as well.
    `texts` are the files that were looked at, as bytes by their path; `rules` what each rule is about. `above` is the
    folder of mkdocs.yml as seen from the top of the checkout, where CI systems look for paths; `part` the part of
    a knowledge base that was checked, as `2/4`, or nothing.
    """

    findings: tuple[Finding, ...]
    procedures: int
    variants: int
    devices: int
    strict: bool = False
    show_allowed: bool = False
    texts: Mapping[str, bytes] = field(default_factory=dict, repr=False)
    rules: Mapping[str, Explained] = field(default_factory=dict, repr=False)
    above: str = ""
    part: str = ""

    @property
    def shown(self) -> tuple[Finding, ...]:
        """The findings that no author has allowed."""
        return tuple(finding for finding in self.findings if finding.allowed is None)

    @property
    def allowed(self) -> tuple[Finding, ...]:
        """The findings that an author has allowed, with the reason."""
        return tuple(finding for finding in self.findings if finding.allowed is not None)

    @property
    def notes(self) -> int:
        """How many findings are notes, which ask for nothing before publication."""
        return sum(1 for finding in self.shown if finding.level == "note")

    @property
    def stopping(self) -> int:
        """How many findings keep the site from being published."""
        return sum(self.stops(finding) for finding in self.shown)

    def stops(self, finding: Finding) -> bool:
        """Whether *finding* keeps the site from being published, as strict as this report is."""
        return finding.stops or (self.strict and finding.level == "warning" and finding.allowed is None)

    def from_top(self, path: str) -> str:
        """Return *path*, as findings have it, as seen from the top of the checkout."""
        return posixpath.normpath(posixpath.join(self.above, path))

    @property
    def sentence(self) -> str:
        """The last line of every check."""
        stop, notes = self.stopping, self.notes
        pass_by = len(self.shown) - stop - notes
        counts = ((self.procedures, "procedure"), (self.variants, "variant"), (self.devices, "device"))
        looked = f"{', '.join(_count(number, noun) for number, noun in counts)} checked"
        noted = f", {_count(notes, 'note')}" if notes else ""
        if not stop and not pass_by:
            return f"{looked}: no finding{noted}"
        stops = f"{_count(stop, 'finding')} {'stops' if stop == 1 else 'stop'} publication"
        return f"{looked}: {stops}, {pass_by} {'does' if pass_by == 1 else 'do'} not{noted}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
