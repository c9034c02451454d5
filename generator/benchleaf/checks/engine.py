"""Runs the rules, gives each hit its rule's name and weight, and sorts what is found."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.findings import Fault, Finding, reading_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.checks.rule import Rule
    from benchleaf.model.knowledge import KnowledgeBase


class RuleCrashed(Exception):  # noqa: N818  (nothing was checked: louder than any finding)
    """A rule of ours broke: the knowledge base is not known to be sound."""


def weigh(faults: Iterable[Fault], rules: dict[str, Rule]) -> Iterator[Finding]:
    """Yield each fault of the reading and schema stages as a finding, with the weight of its rule."""
    for fault in faults:
        rule = rules[fault.rule]
        yield Finding(rule.name, rule.level, fault.place, fault.message, fault.help, fault.variants)


def run(base: KnowledgeBase, rules: dict[str, Rule]) -> Iterator[Finding]:
    """Yield what every rule finds. A rule that breaks stops the run: a silent one would look like a sound base."""
    for rule in rules.values():
        try:
            for hit in rule.check(base):
                yield Finding(rule.name, hit.level or rule.level, hit.place, hit.message, hit.help, hit.variants)
        except Exception as error:
            raise RuleCrashed(f"The rule {rule.name} broke: {error!r}") from error


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return *findings* as a reader meets them, each once, those that differ in variants alone merged."""

    def same(finding: Finding) -> tuple[object, ...]:
        return (*reading_order(finding), finding.level)

    merged = []
    for _, group in groupby(sorted(findings, key=same), key=same):
        alike = list(group)
        variants = tuple(sorted({name for finding in alike for name in finding.variants}))
        first = alike[0]
        merged.append(Finding(first.rule, first.level, first.place, first.message, first.help, variants, first.allowed))
    return tuple(merged)
